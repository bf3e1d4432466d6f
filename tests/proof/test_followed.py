"""Loose pieces sawn with a leaning blade, on the mitre sled, between two shoulders and at the
bench: the plan is followed and proven whole, and each slip in it is named.

Inches, a 1/8 in kerf; every number worked out on paper. All pieces are 2 wide, 3/4 thick, off one
stick of the hand-worked door.

- A1, a bevel along its inside edge: a step first, flat on the fence, 9/64 deep at 1 to 1-1/8 from
  the edge; then on edge with the back to the fence, foot of the kerf at 3/8, leaning away 1 in 8,
  1-1/8 high: there it has come to 33/64, its far side to 41/64, through the step's bottom
- A2, a housing 2 wide in its face, 25/8 to 41/8 from end A, 1/4 deep
- A3, mitred in front at both ends, 1/4 deep, the line 1/32 from the end at the outside edge
- A4, its inside edge hollowed at the bench by a triangle 1/2 deep
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Iterator
from fractions import Fraction as F  # noqa: N817
from itertools import chain

import pytest

from sequencer.contract import from_json, to_json
from sequencer.errors import InternalError
from sequencer.facts import proofs
from sequencer.plan import Cut, Feature, Plan, Prism, Removal, Step
from sequencer.proof import prove
from sequencer.proof.compare import designs_of, saw_and_compare
from sequencer.proof.follow import follow
from sequencer.proof.grain import Grain, grain_of
from sequencer.proof.solid import Solid, difference
from sequencer.records import replace
from tests.proof import change, hand, mutants
from tests.proof.hand import RAIL, STILE, THICK, Setting, Work

ZERO, WIDE = F(0), F(2)
UPRIGHT = F(0)
STEP = Setting("rip-fence", "cover", F(9, 64), F(1), tilt=UPRIGHT)
BEVEL = Setting("rip-fence", "cover", F(9, 8), F(3, 8), tilt=F(-1, 8))
HOUSING = Setting("crosscut-sled", "cover", F(1, 4), F(5), tilt=UPRIGHT)
MITRE = Setting("mitre-sled", "cover", F(1, 4), F(1, 32), tilt=UPRIGHT)

SLOPE = Prism(
    "yz",
    ((ZERO, ZERO), (F(9, 8), ZERO), (F(9, 8), F(15, 64)), (ZERO, F(3, 8))),
    (ZERO, STILE),
)
"""All in front of the kerf's near side: 3/4 − 3/8 at the edge, 1/8 of 1-1/8 less further in."""
HOLLOW = Prism("xy", ((F(3), ZERO), (F(9), ZERO), (F(6), F(1, 2))), (ZERO, THICK))


def corner(end: str) -> Prism:
    at = [(ZERO, ZERO), (F(65, 32), ZERO), (F(1, 32), WIDE), (ZERO, WIDE)]
    if end == "B":
        at = [(RAIL - x, y) for x, y in at]
    return Prism("xy", tuple(at), (ZERO, F(1, 4)))


WORKS = (
    *(work for work in hand.WORKS if work.operation in ("#1/rip", "#1/square")),
    *(work for work in hand.WORKS if re.fullmatch(r"A[1-4]/crosscut", work.operation)),
    Work("A1/step", "groove", STEP, (Cut("A1", "face", "inside-edge", None),)),
    Work("A1/bevel", "bevel", BEVEL, (Cut("A1", "inside-edge", "back", None),)),
    Work("A2/housing", "housing", HOUSING, (Cut("A2", "face", "end-A", None, True, F(2)),)),
    Work(
        "A3/mitres", "mitre", MITRE,
        (Cut("A3", "face", "end-A", None, True), Cut("A3", "face", "end-B", None, True)),
    ),
    Work("A4/shape", "shape", None, removes=(Removal("A4", HOLLOW.box, HOLLOW),), marks=("A4",)),
)  # fmt: skip

FEATURES = {
    "A1": (Feature("bevel", "inside-edge", SLOPE.box, prism=SLOPE),),
    "A2": (Feature("housing", "face", ((F(25, 8), F(41, 8)), (ZERO, WIDE), (ZERO, F(1, 4)))),),
    "A3": tuple(
        Feature("mitre", end, corner(end).box, prism=corner(end)) for end in "AB"
    ),
    "A4": (Feature("shape", "inside-edge", HOLLOW.box, prism=HOLLOW, unproven_by_saw=True),),
}  # fmt: skip


def make() -> Plan:
    plan = hand.make(WORKS)
    parts = tuple(replace(p, features=FEATURES[p.mark]) for p in plan.parts if p.mark in FEATURES)
    marks = tuple(FEATURES)
    first = plan.sticks[0]  # none of these pieces would do for the other hand
    stick = replace(first, pieces=tuple(replace(each, remarked=False) for each in first.pieces))
    return replace(
        plan, parts=parts, doors=(), scrap=(), sticks=(stick,), checkpoints=(), again=marks
    )


PLAN = make()


def step(kind: str) -> Step:
    return change.of_kind(PLAN, kind)


def setup(kind: str) -> int:
    number = step(kind).setup
    assert number is not None
    return number


def test_all_of_it_is_proven() -> None:
    shown = prove(PLAN)
    assert shown == (
        proofs.SAWN(passes=proofs.PASSES(n=11), parts=proofs.PARTS(n=4)),
        proofs.TRUSTED(pieces=("A4",)),
    )
    assert prove(from_json(to_json(PLAN))) == shown


def one_cut(kind: str, **values: object) -> Plan:
    cuts = list(step(kind).cuts)
    cuts[0] = replace(cuts[0], **values)  # type: ignore[arg-type]
    return change.cuts(PLAN, step(kind).number, tuple(cuts))


def stepped(depth: F) -> Plan:
    return change.setup(PLAN, setup("groove"), height=depth, depth=depth)


SLIPS: dict[str, tuple[Callable[[], Plan], str]] = {
    "leaning too little": (
        lambda: change.setup(PLAN, setup("bevel"), tilt=-F(1, 9)),
        r"kind=step.bevel, setup=\d+, piece=A1, what=proof.loses-wood",
    ),
    "leaning too much": (
        lambda: change.setup(PLAN, setup("bevel"), tilt=-F(1, 7)),
        r"kind=step.bevel, setup=\d+, piece=A1, what=proof.(keeps|loses)-wood",
    ),
    "leaning the other way": (
        lambda: change.setup(PLAN, setup("bevel"), tilt=F(1, 8)),
        r"kind=step.bevel, setup=\d+, piece=A1, what=proof.loses-wood",
    ),
    "leaning into the fence": (
        lambda: change.setup(PLAN, setup("bevel"), tilt=F(1, 3)),
        r"kind=step.bevel, setup=\d+, piece=A1, what=sawing.leans-into-guide\(guide=guide.fence",
    ),
    "the bevel's fence a hair out": (
        lambda: change.setup(PLAN, setup("bevel"), guide=F(3, 8) + F(1, 64)),
        r"kind=step.bevel, setup=\d+, piece=A1, what=proof.keeps-wood",
    ),
    "the bevel's face to the fence": (
        lambda: one_cut("bevel", against="face"),
        r"kind=step.bevel, setup=\d+, piece=A1, what=",
    ),
    "the bevel too low": (
        lambda: change.setup(PLAN, setup("bevel"), height=F(1), depth=F(1)),
        r"piece=A1, what=proof.keeps-wood",
    ),
    "no step before the bevel": (
        lambda: change.renumbered(PLAN, [s for s in PLAN.steps if s is not step("groove")]),
        r"kind=step.bevel, setup=\d+, piece=A1, what=proof.keeps-wood",
    ),
    "a step that a thinner kerf would not meet": (
        lambda: stepped(F(7, 64)),
        r"piece=A1, what=proof.fin-stands\(hair=1/200 in",
    ),
    "a housing from the other end": (
        lambda: one_cut("housing", against="end-B"),
        r"kind=step.housing, setup=\d+, piece=A2, what=proof.loses-wood",
    ),
    "a housing without its second shoulder": (
        lambda: one_cut("housing", back=None),
        r"kind=step.housing, setup=\d+, piece=A2, what=proof.loses-wood.*x=0 in, x1=25/8 in",
    ),
    "a housing too narrow": (
        lambda: one_cut("housing", back=F(15, 8)),
        r"kind=step.housing, setup=\d+, piece=A2, what=proof.keeps-wood.*x=25/8 in, x1=13/4 in",
    ),
    "a mitre's stop a hair out": (
        lambda: change.setup(PLAN, setup("mitre"), guide=F(1, 16)),
        r"kind=step.mitre, setup=\d+, piece=A3, what=proof.loses-wood",
    ),
    "a mitre's stop a hair in": (
        lambda: change.setup(PLAN, setup("mitre"), guide=ZERO),
        r"kind=step.mitre, setup=\d+, piece=A3, what=proof.keeps-wood",
    ),
    "a mitre in the back": (
        lambda: one_cut("mitre", down="back"),
        r"kind=step.mitre, setup=\d+, piece=A3, what=proof.loses-wood",
    ),
    "a mitre left out": (
        lambda: change.cuts(PLAN, step("mitre").number, step("mitre").cuts[:1]),
        r"piece=A3, what=proof.keeps-wood",
    ),
    "nothing shaped at the bench": (
        lambda: change.step(PLAN, step("shape").number, removes=()),
        r"piece=A4, what=proof.not-shaped.*x=3 in, x1=9 in",
    ),
    "shaped beside it": (
        lambda: change.step(
            PLAN,
            step("shape").number,
            removes=(Removal("A4", HOLLOW.box, replace(HOLLOW, along=(F(1), F(2)))),),
        ),
        r"kind=step.shape, piece=A4, what=proof.bench-misses",
    ),
    "no prism": (
        lambda: change.part(
            PLAN, "A1", features=(replace(FEATURES["A1"][0], prism=replace(SLOPE, axes="yy")),)
        ),
        r"piece=A1, what=proof.no-shape\(feature=bevel",
    ),
    "a tilt that the books do not have": (
        lambda: replace(
            PLAN,
            ordering=replace(
                PLAN.ordering,
                order=tuple(
                    replace(placed, state={**placed.state, "tilt": "-1 in 9"})
                    if placed.state.get("tilt") == "-1 in 8"
                    else placed
                    for placed in PLAN.ordering.order
                ),
            ),
        ),
        (
            r"kind=step.bevel, .*book.needs\(operation=A1/bevel, knob=tilt, values=\(-1 in 8\), "
            r"found=-1 in 9"
        ),
    ),
}


@pytest.mark.parametrize("what", SLIPS)
def test_each_slip_is_named(what: str) -> None:
    slip, message = SLIPS[what]
    with pytest.raises(InternalError) as error:
        prove(slip())
    assert re.search(message, str(error.value)), str(error.value)


# --- every single slip --------------------------------------------------------------------------


def left_by(plan: Plan, grain: Grain) -> dict[str, Solid] | None:
    """What the saw leaves of each piece, compared with nothing; `None` where it must not saw."""
    found: dict[str, Solid] = {}
    try:
        for event in follow(plan, grain):
            if event.at_saw:
                found[event.mark] = event.solid
    except InternalError:
        return None
    return found


def differs(plan: Plan) -> bool:
    """Whether a piece is not as it is to leave the saw; A4 leaves it as a block."""
    grain = grain_of(plan)
    sawn = left_by(plan, grain)
    wanted = {**designs_of(PLAN, grain), "A4": (grain.block(PLAN.parts[3].size),)}
    return sawn is None or any(
        mark not in sawn or difference(sawn[mark], solid) or difference(solid, sawn[mark])
        for mark, solid in wanted.items()
    )


def caught(plan: Plan) -> bool:
    try:
        saw_and_compare(plan, grain_of(plan))
    except InternalError:
        return True
    return False


def leanings() -> Iterator[mutants.Mutant]:
    """Every tilt and every second shoulder a little otherwise."""
    for made in PLAN.setups:
        for by in (F(1, 64), F(-1, 64)):
            plan = change.setup(PLAN, made.number, tilt=made.tilt + by)
            yield mutants.Mutant("tilt", plan, setup=made.number)
    for by in (F(1, 64), F(-1, 64)):
        yield mutants.Mutant("back", one_cut("housing", back=2 + by), step=step("housing").number)


def test_every_slip_that_changes_a_piece_is_caught() -> None:
    """What a slip changes is told by the designs, whatever else the proof looks at."""
    counts: Counter[str] = Counter()
    for mutant in chain(mutants.numbers(PLAN), mutants.cuts(PLAN), leanings()):
        changed = differs(mutant.plan)
        counts["all"] += 1
        counts[mutant.what] += changed
        assert caught(mutant.plan) == changed, mutant
    for kind in ("guide", "height", "kerf", "face", "end", "dropped", "tilt", "back"):
        assert counts[kind] > 0, kind
