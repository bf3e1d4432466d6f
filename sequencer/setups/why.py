"""Why each setup stands where it does: what had to come before, what stays set, whom it serves."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from sequencer.facts import Fact, reasons
from sequencer.operations import Work
from sequencer.plan import Setup, Step
from sequencer.records import replace
from sequencer.saw.fittings import CARRIERS, KNOBS
from sequencer.setups.waits import Stretch, Waits, waits


def explained(
    setups: Sequence[Setup], steps: Sequence[Step], work: Work, jig_rides: str
) -> tuple[Setup, ...]:
    """The setups with their reasons and layers. `jig_rides` is what the tenoning jig rides."""
    found = waits(steps, work.edges)
    needs = _needs(found)
    layers = found.layers()
    doors = _doors(steps, work)
    return tuple(
        replace(
            setup,
            layer=layers[setup.number],
            why=(
                *_after(needs.get(setup.number, {})),
                *_stays(setup, number, jig_rides),
                *doors.get(setup.number, ()),
            ),
        )
        for number, setup in enumerate(setups)
    )


def _needs(found: Waits) -> dict[int, dict[Fact, list[Stretch]]]:
    """For each setup the reasons why it waits, with what it waits for by each; what follows from
    other reasons, of this setup or of one before it, is none."""
    needs: dict[int, dict[Fact, list[Stretch]]] = {}
    for first, later in found.reduced():
        before, setup = found.stretches[first], found.stretches[later].setup
        if setup is not None and before.setup != setup:
            known = needs.setdefault(setup, {})
            for reason in found.reasons[first, later]:
                known.setdefault(reason, []).append(before)
    return needs


def _after(needs: Mapping[Fact, Sequence[Stretch]]) -> list[Fact]:
    """What is done at the bench first, then by the last of the setups waited for."""
    bench: dict[Fact, None] = {}
    saw: list[tuple[int, Fact]] = []
    for reason, stretches in needs.items():
        for stretch in stretches:
            if stretch.setup is None:
                bench[_after_work(stretch, reason)] = None
        setups = tuple(sorted({s.setup for s in stretches if s.setup is not None}))
        if setups:
            after = reasons.AFTER_SETUPS(n=len(setups), setups=setups, because=reason)
            saw.append((setups[-1], after))
    return [*bench, *(fact for _, fact in sorted(saw, key=lambda each: each[0]))]


def _after_work(stretch: Stretch, reason: Fact) -> Fact:
    if reason.kind is reasons.MILLED:
        return reasons.AFTER_MILLING()
    return reasons.AFTER_WORK(work=f"kind.{stretch.kind}", because=reason)


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
