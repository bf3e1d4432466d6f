"""Why each setup stands where it does: what had to come before, what stays set, whom it serves."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from sequencer.facts import Fact, reasons
from sequencer.operations import Work
from sequencer.plan import Setup, Step
from sequencer.saw.fittings import CARRIERS, KNOBS


def explained(
    setups: Sequence[Setup], steps: Sequence[Step], work: Work, jig_rides: str
) -> tuple[Setup, ...]:
    """The setups with their reasons. `jig_rides` is what the tenoning jig rides."""
    setup_of = {name: step.setup for step in steps for name in step.operations}
    kind_of = {operation.id: operation.kind for operation in work.operations}
    needs: dict[int, dict[Fact, tuple[int | None, str]]] = {}
    for edge in work.edges:
        before, after = setup_of.get(edge.before), setup_of.get(edge.after)
        if after is None or edge.after not in setup_of or before == after:
            continue
        if edge.before not in setup_of:
            continue
        known = needs.setdefault(after, {})
        if edge.reason not in known or (known[edge.reason][0] or 0) < (before or 0):
            known[edge.reason] = (before, kind_of[edge.before])
    doors = _doors(steps, work)
    return tuple(
        replace(
            setup,
            why=(
                *_after(needs.get(setup.number, {})),
                *_stays(setup, number, jig_rides),
                *doors.get(setup.number, ()),
            ),
        )
        for number, setup in enumerate(setups)
    )


def _after(needs: Mapping[Fact, tuple[int | None, str]]) -> list[Fact]:
    found = []
    for reason, (setup, kind) in sorted(needs.items(), key=lambda item: item[1][0] or 0):
        if setup is not None:
            found.append(reasons.AFTER_SETUP(setup=setup, because=reason))
        elif reason.kind is reasons.MILLED:
            found.append(reasons.AFTER_MILLING())
        else:
            found.append(reasons.AFTER_WORK(work=f"kind.{kind}", because=reason))
    return found


def _stays(setup: Setup, number: int, jig_rides: str) -> list[Fact]:
    """What stays as it was, of the knobs that this setup needs."""
    if not number:
        return []
    guide = CARRIERS[setup.carrier].guide_knob(jig_rides)
    used = ["cutter", "tilt", "height", "carrier", "guard"]
    used += [guide] if setup.guide is not None else []
    changed = {change.knob for change in setup.changes}
    kept = [name for name in used if name not in changed]
    # A carrier stays where its guide does; of a fence, only its setting is told.
    implied = guide in kept or CARRIERS[setup.carrier].body == "fence"
    told = [n for n in kept if not KNOBS[n].seldom and (n != "carrier" or not implied)] or kept
    knobs = tuple(f"carrier.{setup.carrier}" if n == "carrier" else f"knob.{n}" for n in told)
    return [reasons.STAY(n=len(knobs), knobs=knobs)] if knobs else []


def _doors(steps: Sequence[Step], work: Work) -> dict[int, list[Fact]]:
    """How many doors one setup serves, where that is more than one."""
    owner: dict[str, str] = {}
    for number, operations in enumerate(work.doors):
        owner |= {work.operations[n].mark: str(number) for n in operations}
    for plan in work.layout.sticks:
        of = {owner[piece.mark] for piece in plan.stick.pieces if piece.mark in owner}
        owner[plan.stick.mark] = " ".join(sorted(of, key=int))
    served: dict[int, set[str]] = {}
    for step in steps:
        if step.setup is not None:
            for mark in step.marks:
                served.setdefault(step.setup, set()).update(owner.get(mark, "").split())
    return {
        setup: [reasons.SERVES(doors=len(found))]
        for setup, found in served.items()
        if len(found) > 1
    }
