"""Every single slip that a plan could hold: one number, one face, one end, one cut, one swap."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from sequencer.plan import SCRAP_STEPS, Cut, Down, Plan, Step
from sequencer.records import replace
from tests.proof import change

OTHER: dict[str, Down] = {
    "face": "back",
    "back": "face",
    "inside-edge": "outside-edge",
    "outside-edge": "inside-edge",
    "end-A": "end-B",
    "end-B": "end-A",
}


@dataclass(frozen=True)
class Mutant:
    """`what` has the kind of slip first; `step` and `setup` say where it was made."""

    what: str
    plan: Plan
    step: int | None = None
    setup: int | None = None


def numbers(plan: Plan) -> Iterator[Mutant]:
    """Guide, height and kerf of every setup, a hair and a good deal either way."""
    hairs = ("1/256", "1/16") if plan.unit == "in" else ("1/10", "3/2")
    steps = [sign * Fraction(hair) for hair in hairs for sign in (1, -1)]
    for setup in plan.setups:
        for by in steps:
            if setup.guide is not None:
                guide = setup.guide + by
                yield Mutant("guide", change.setup(plan, setup.number, guide=guide),
                             setup=setup.number)  # fmt: skip
            height = {"height": setup.height + by, "depth": setup.depth + by}
            yield Mutant("height", change.setup(plan, setup.number, **height), setup=setup.number)
            if setup.kerf + by > 0:
                kerf = setup.kerf + by
                yield Mutant("kerf", change.setup(plan, setup.number, kerf=kerf),
                             setup=setup.number)  # fmt: skip


def cuts(plan: Plan) -> Iterator[Mutant]:
    """Every cut turned over, turned round, with another end to the stop, left out, made twice."""
    for step in plan.steps:
        if step.kind in SCRAP_STEPS:
            continue
        for n, cut in enumerate(step.cuts):
            before, after = step.cuts[:n], step.cuts[n + 1 :]
            down = "end" if cut.down.startswith("end") else "face"
            yield _cuts(plan, step, down, (*before, replace(cut, down=OTHER[cut.down]), *after))
            if cut.against is not None:
                kind = "end" if cut.against.startswith("end") else "face"
                other = replace(cut, against=OTHER[cut.against])
                yield _cuts(plan, step, kind, (*before, other, *after))
            yield _cuts(plan, step, "dropped", (*before, *after))
            yield _cuts(plan, step, "doubled", (*before, cut, cut, *after))


def _cuts(plan: Plan, step: Step, what: str, made: tuple[Cut, ...]) -> Mutant:
    return Mutant(what, change.cuts(plan, step.number, made), step=step.number)


def swaps(plan: Plan) -> Iterator[Mutant]:
    """Two steps exchanged across each edge of the precedence, in steps and order alike."""
    where = {operation: step for step in plan.steps for operation in step.operations}
    done: set[tuple[int, int]] = set()
    for first, later, _ in plan.ordering.before:
        one, other = where[first], where[later]
        if one is other or (one.number, other.number) in done:
            continue
        done.add((one.number, other.number))
        steps = list(plan.steps)
        a, b = one.number - 1, other.number - 1
        steps[a], steps[b] = steps[b], steps[a]
        placed = {p.operation: p for p in plan.ordering.order}
        order = tuple(placed[o] for step in steps for o in step.operations)
        made = replace(change.renumbered(plan, steps), ordering=replace(plan.ordering, order=order))
        yield Mutant("order", made, step=other.number)
