"""The bookkeeping: every entry that disagrees with another is named."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction as F  # noqa: N817

import pytest

from sequencer.errors import InternalError
from sequencer.facts import reasons
from sequencer.plan import Ordering, Placed, Plan
from sequencer.proof.books import check_books, check_numbers
from sequencer.proof.dials import guide_reading, value_number
from sequencer.records import replace
from tests.proof import change, hand

PLAN = hand.make(hand.PANEL_FIRST)
ORDER = PLAN.ordering


def ordering(**values: object) -> Plan:
    made: Ordering = replace(ORDER, **values)  # type: ignore[arg-type]
    return replace(PLAN, ordering=made)


def placed(number: int, **values: object) -> Plan:
    order = list(ORDER.order)
    made: Placed = replace(order[number], **values)  # type: ignore[arg-type]
    order[number] = made
    return ordering(order=tuple(order))


def number(kind: str) -> int:
    return change.of_kind(PLAN, kind).number


def state(number: int, **values: str) -> Plan:
    return placed(number, state={**ORDER.order[number].state, **values})


def untried() -> Plan:
    """The slot's test cut is there, and nothing is measured on it."""
    slot = change.of_kind(PLAN, "slot").setup
    return replace(PLAN, checkpoints=tuple(c for c in PLAN.checkpoints if c.setup != slot))


def unsafe_rip() -> Plan:
    """A groove with the guard on, said to be so throughout."""
    groove = change.of_kind(PLAN, "groove")
    assert groove.setup is not None
    plan = change.setup(PLAN, groove.setup, guard="fitted")
    kinds = [s for s in plan.steps if s.setup == groove.setup and s.kind == "remove guard"]
    return change.step(plan, kinds[0].number, kind="refit guard")


def passed_over() -> Plan:
    """All of one setup's steps said to be of the next."""
    steps = tuple(replace(s, setup=10) if s.setup == 9 else s for s in PLAN.steps)
    return replace(PLAN, steps=steps)


SLIPS: dict[str, tuple[Callable[[], Plan], str]] = {
    "a piece twice": (
        lambda: replace(PLAN, parts=(*PLAN.parts, PLAN.parts[0])),
        "book.piece-twice(mark=A1)",
    ),
    "a piece on two sticks": (
        lambda: change.stick(PLAN, "#3", pieces=PLAN.sticks[0].pieces),
        "book.laid-out-twice(mark=A1)",
    ),
    "steps out of number": (
        lambda: replace(PLAN, steps=PLAN.steps[1:]),
        "book.step-out-of-place(found=2, wanted=1)",
    ),
    "setups out of number": (
        lambda: replace(PLAN, setups=PLAN.setups[::-1]),
        "book.setup-out-of-place(found=12, wanted=1)",
    ),
    "a setup that is not there": (
        lambda: change.step(PLAN, 2, setup=99),
        "step=2, kind=step.rip, pieces=(#1), what=book.no-such-setup(setup=99)",
    ),
    "a cut without a setup": (
        lambda: change.step(PLAN, 2, setup=None),
        "step=2, kind=step.rip, pieces=(#1), what=book.cuts-without-setup",
    ),
    "an operation done twice": (
        lambda: change.step(PLAN, 3, operations=("#2/rip", "#1/rip")),
        "step=3, kind=step.rip, pieces=(#2), what=book.done-before(operation=#1/rip, step=2)",
    ),
    "an operation nobody asked for": (
        lambda: change.step(PLAN, 3, operations=("#2/rip", "#9/rip")),
        "step=3, kind=step.rip, pieces=(#2), what=book.no-such-operation(operation=#9/rip)",
    ),
    "an operation left out": (
        lambda: change.step(PLAN, PLAN.steps[-1].number, operations=()),
        "book.not-in-both(operation=A/flush)",
    ),
    "another order": (
        lambda: ordering(order=(ORDER.order[1], ORDER.order[0], *ORDER.order[2:])),
        ("step=2, kind=step.rip, pieces=(#1), "
        "what=book.other-order(operation=#1/rip, solved=#2/rip)"),
    ),
    "precedence": (
        lambda: ordering(before=(("A1/crosscut", "#1/rip", reasons.LONG()),)),
        ("step=2, kind=step.rip, pieces=(#1), "
        "what=book.comes-before(later=#1/rip, first=A1/crosscut)"),
    ),
    "precedence of nothing": (
        lambda: ordering(before=(("A1/crosscut", "A9/rip", reasons.LONG()),)),
        "book.edge-of-nothing(first=A1/crosscut, later=A9/rip)",
    ),
    "a need that is not met": (
        lambda: state(0, height="9"),
        ("step=2, kind=step.rip, pieces=(#1), "
        "what=book.needs(operation=#1/rip, knob=height, values=(7/8), found=9)"),
    ),
    "a knob that turns by itself": (
        lambda: state(1, spare="1"),
        "step=3, kind=step.rip, pieces=(#2), what=book.changes-within(knob=spare, setup=1)",
    ),
    "a setup that changes nothing": (
        lambda: change.step(PLAN, 3, setup=2),
        "step=3, kind=step.rip, pieces=(#2), what=book.changes-nothing(setup=2)",
    ),
    "setups out of order": (
        lambda: change.step(PLAN, change.of_kind(PLAN, "slot", 4).number, setup=10),
        "kind=step.slot, pieces=(A1), what=book.setup-after(setup=9, after=10)",
    ),
    "a setup passed over": (
        passed_over,
        "kind=step.slot, pieces=(A1), what=book.not-next(setup=10)",
    ),
    "other changes than are made": (
        lambda: change.setup(PLAN, 2, changes=PLAN.setups[0].changes),
        "step=4, kind=step.rip, pieces=(#3), what=book.other-changes(setup=2)",
    ),
    "a test cut without a cut": (
        lambda: change.step(PLAN, number("test cut"), cuts=()),
        "kind=step.test-cut, pieces=(#2), what=book.scrap-uncut",
    ),
    "scrap that is not there": (
        lambda: replace(PLAN, scrap=PLAN.scrap[1:]),
        "scrap=S1",
    ),
    "a stick of another width": (
        lambda: change.stick(PLAN, "#3", size=replace(PLAN.sticks[2].size, width=F(7))),
        "book.unlike-strip(strip=#3, piece=A5)",
    ),
    "a stick too short": (
        lambda: change.stick(PLAN, "#3", size=replace(PLAN.sticks[2].size, length=F(12))),
        "book.short-strip(strip=#3, piece=A5)",
    ),
    "wrong minutes of a setup": (
        lambda: change.setup(PLAN, 2, minutes=F(7)),
        "step=4, kind=step.rip, pieces=(#3), what=book.wrong-cost(setup=2, minutes=7)",
    ),
    "wrong minutes in all": (
        lambda: ordering(minutes=ORDER.minutes + 1, bound=ORDER.minutes),
        f"book.wrong-minutes(found={ORDER.minutes}, told={ORDER.minutes + 1})",
    ),
    "better than the best": (
        lambda: ordering(bound=ORDER.minutes + 1),
        f"book.below-bound(minutes={ORDER.minutes}, bound={ORDER.minutes + 1})",
    ),
    "proven without proof": (
        lambda: ordering(bound=ORDER.minutes - 1, proven=True),
        f"book.not-proven(bound={ORDER.minutes - 1})",
    ),
    "setups miscounted": (
        lambda: ordering(setups=5),
        "book.wrong-setups(found=12, told=5)",
    ),
    "another carrier than was solved": (
        lambda: change.setup(PLAN, 2, cutter="dado"),
        ("step=4, kind=step.rip, pieces=(#3), "
        "what=book.has-value(setup=2, knob=cutter, found=dado, wanted=blade)"),
    ),
    "another height than was solved": (
        lambda: change.setup(PLAN, 2, height=F(1), depth=F(1)),
        ("step=4, kind=step.rip, pieces=(#3), "
        "what=book.has-value(setup=2, knob=height, found=1, wanted=7/8)"),
    ),
    "a depth that does not follow from the height": (
        lambda: change.setup(PLAN, 6, depth=F(1)),
        "book.wrong-depth(height=11/8 in, deck=1/2 in, depth=1 in)",
    ),
    "another guide than is read": (
        lambda: change.setup(PLAN, 2, guide=F(8)),
        ("step=4, kind=step.rip, pieces=(#3), "
        "what=book.shows-other(knob=fence, found=67/8, guide=8)"),
    ),
    "guide and reading wrong together": (
        lambda: change.setup(PLAN, 2, guide=F(8), reading=F(8)),
        ("step=4, kind=step.rip, pieces=(#3), "
        "what=book.has-value(setup=2, knob=fence, found=8, wanted=67/8)"),
    ),
    "a wrong move": (
        lambda: change.setup(PLAN, 2, move=F(1)),
        ("step=4, kind=step.rip, pieces=(#3), "
        "what=book.wrong-move(knob=fence, found=51/8, wanted=1)"),
    ),
    "a setting never tried": (
        untried,
        ("step=23, kind=step.slot, pieces=(A1), "
        "what=book.never-tried(operation=A1/slot-A/first, knob=jig, value=1/4 tested)"),
    ),
    "a target that would not be good": (
        lambda: replace(PLAN, checkpoints=(
            replace(PLAN.checkpoints[0], low=F(1)), *PLAN.checkpoints[1:])),
        "target=1/4 in, low=1 in, high=129/512 in",
    ),
    "a guard that is taken off unsaid": (
        lambda: change.step(PLAN, number("remove guard"), kind="refit guard"),
        "book.guard-unsaid(guard=cover)",
    ),
    "a groove under the guard": (
        unsafe_rip,
        "guard=fitted)",
    ),
}  # fmt: skip


@pytest.mark.parametrize("what", SLIPS)
def test_every_entry_that_disagrees_is_named(what: str) -> None:
    slip, message = SLIPS[what]
    with pytest.raises(InternalError) as error:
        check(slip())
    assert message in str(error.value)


def check(plan: Plan) -> None:
    check_numbers(plan)
    check_books(plan)


def test_the_hand_worked_plan_agrees() -> None:
    check(PLAN)


@pytest.mark.parametrize(
    ("value", "number"),
    [
        ("7/8", F(7, 8)),
        ("7/8 tested", F(7, 8)),
        ("dado/1/4", F(1, 4)),
        ("blade 1/5 tested", F(5)),
        ("blade/1/5", F(1, 5)),
        ("router/1/4", None),
        ("0", F(0)),
        ("1 in 8", F(1, 8)),
        ("-3 in 16", F(-3, 16)),
        ("1 in 0", None),
        ("1 in 8/7/8", F(7, 8)),
        ("-1 in 8/5/4 tested", F(5, 4)),
        ("dado/1 in 8/1/4 tested", F(1, 4)),
        ("blade 1/-1 in 8/2", F(2)),
        ("router/1 in 8/1/4", None),
        ("1/0", None),
        ("rip-fence", None),
    ],
)
def test_numbers_in_values(value: str, number: F | None) -> None:
    assert value_number(value, ["blade", "dado", "blade 1"]) == number


def test_a_jig_on_the_fence_adds_its_thickness() -> None:
    setup = next(s for s in PLAN.setups if s.carrier == "tenoning-jig")
    assert guide_reading(setup, PLAN.shop) == ("jig", setup.guide)
    riding = replace(PLAN.shop, jig_rides="fence", jig_thickness=F(3))
    assert setup.guide is not None
    assert guide_reading(setup, riding) == ("fence", setup.guide + 3)
