"""Worst cases by brute force: each error at either of its ends, every combination, on formulas
written down by hand from how the cut is set, tried and made.

Thousandths of a millimetre. Of the errors, `read` is by how much a reading is off its target,
`wrong` by how much it is off the truth, `t` what a pass on the test piece does not repeat, `g` one
in good wood, `T` a strip's thickness.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sequencer.plan import Checkpoint, Plan
from sequencer.tolerance import held
from tests.proof.test_intent import EXAMPLES, example
from tests.spaced import differences
from tests.tolerance.jobs import checked, planned, required, with_check

PASS, CALIPER, UNCHECKED = 90, 20, 450
"""Three sigmas of 0.03 mm, a caliper's limit, three sigmas of 0.15 mm (`trade/spreads.py`)."""

Ends = tuple[Fraction | int, Fraction | int]


def either(most: int) -> Ends:
    return (-most, most)


def window(check: Checkpoint) -> Ends:
    """What is good, seen from what the plan makes."""
    return ((check.low - check.exact) * 1000, (check.high - check.exact) * 1000)


def wrong(check: Checkpoint) -> Ends:
    """How far its reading may be off: half a step of a rule or tape, a caliper's limit."""
    assert check.tool in ("rule", "tape", "caliper")
    assert check.resolution is not None
    most = CALIPER if check.tool == "caliper" else check.resolution * 500
    return (-most, most)


def milled(plan: Plan) -> Ends:
    """A strip's thickness, once its reading is good."""
    check = next(c for c in plan.checkpoints if str(c.measure) == "stock")
    low, high = window(check)
    return (low - CALIPER, high + CALIPER)


def brute(found: Callable[..., Fraction | int], ends: Sequence[Ends]) -> tuple[Fraction, Fraction]:
    values = [Fraction(found(*corner)) for corner in product(*ends)]
    return min(values), max(values)


def told(plan: Plan, what: str, nominal: Fraction) -> tuple[Fraction, Fraction]:
    """As the plan says it, from what is meant."""
    each = required(plan, what)
    return (each.worst_least - nominal) * 1000, (each.worst_most - nominal) * 1000


def strips(plan: Plan, *marks: str) -> list[str]:
    """The strip that each piece comes from."""
    found = {piece.mark: stick.mark for stick in plan.sticks for piece in stick.pieces}
    return [found.get(mark, mark) for mark in marks]


def of_strips(plan: Plan, marks: Sequence[str]) -> tuple[list[int], int]:
    """For each piece which of the thicknesses is its own, and how many there are."""
    there = strips(plan, *marks)
    names = list(dict.fromkeys(there))
    return [names.index(strip) for strip in there], len(names)


def turned_air(plan: Plan) -> tuple[Fraction, Fraction]:
    """Slot and tenon both turned between their faces."""
    _, slot = checked(plan, "channel-width/slot")
    _, tenon = checked(plan, "tenon")
    which, count = of_strips(plan, ["A1", "A3", slot.scrap or "", tenon.scrap or ""])

    aimed = (slot.exact - slot.target) * 1000
    assert tenon.after

    def air(*e: Fraction | int) -> Fraction | int:
        read, wrong, t1, t2, g1, g2, read_, wrong_, t3, t4, g3, g4, *thick = e
        stile, rail, first, second = (thick[n] for n in which)
        # T − 2g − t1 − t2 was read; the good slot is T' − 2g − g1 − g2.
        wide = stile - (first - t1 - t2 - read + wrong) - g1 - g2
        read_ = read_ + read + aimed  # as much more or less as the slot was read
        # 2g + t3 + t4 − T was read; the good tenon is 2g + g3 + g4 − T'.
        left = (read_ - wrong_ - t3 - t4 + second) + g3 + g4 - rail
        return wide - left

    ends = [
        window(slot), wrong(slot), *[either(PASS)] * 4,
        window(tenon), wrong(tenon), *[either(PASS)] * 4,
        *[milled(plan)] * count,
    ]  # fmt: skip
    return brute(air, ends)


def test_a_slot_and_a_tenon_that_are_turned() -> None:
    plan = planned("bridle", slot="turned", groove="turned")
    clearance = checked(plan, "channel-width/slot")[1].exact - checked(plan, "tenon")[1].exact
    assert told(plan, "tenon-in-slot", clearance) == turned_air(plan)


@settings(max_examples=5, deadline=None)
@given(
    slot=st.integers(10, 120), tenon=st.integers(10, 120), tool=st.integers(-10, 10)
)  # fmt: skip
def test_whatever_the_windows_are(slot: int, tenon: int, tool: int) -> None:
    """Lopsided ones too."""
    plan = planned("bridle", slot="turned", groove="turned")
    clearance = checked(plan, "channel-width/slot")[1].exact - checked(plan, "tenon")[1].exact
    for measure, half in (("channel-width/slot", slot), ("tenon", tenon)):
        number, check = checked(plan, measure)
        low = check.target - Fraction(half - tool, 1000)
        plan = with_check(plan, number, low=low, high=check.target + Fraction(half, 1000))

    plan = held(plan)
    assert told(plan, "tenon-in-slot", clearance) == turned_air(plan)


@pytest.mark.parametrize("blocks", [False, True], ids=["the jig moved", "a block behind"])
def test_a_slot_and_a_tenon_from_one_face(*, blocks: bool) -> None:
    """Thickness has no say in the slot, and the tenon takes the rail's once. What the slot and the
    first cheek were read as, the second makes good. That is so, too, where a block at hand stands
    between jig and piece in place of the jig's moves: each setting was tried."""
    plan = planned("bridle", slot="one-face")
    if blocks:
        plan = planned("bridle", "", differences(plan), slot="one-face")
        assert len([setup for setup in plan.setups if setup.spacer]) == 2
    n, width = checked(plan, "channel-width/slot")
    cheeks = [checked(plan, f"to-far-cheek/{side}") for side in ("face", "back")]
    (m, face), (_, back) = sorted(cheeks, key=lambda each: each[1].at_step)
    assert dict(back.refers) == {n: 1, m: -1}
    aimed = [(check.exact - check.target) * 1000 for check in (width, face)]

    def air(*e: Fraction | int) -> Fraction | int:
        read, wrong, t1, t2, g1, g2, r3, w3, t3, g3, r4, w4, t4, g4, rail = e
        # The second wall was read from the first as that was cut: g1 and g2 again in good wood.
        wide = (read - wrong - t2 + t1) + g2 - g1
        second = r4 + (read + aimed[0]) - (r3 + aimed[1])
        left = (r3 - w3 - t3 + g3) + (second - w4 - t4 + g4) - rail
        return wide - left

    ends = [
        window(width), wrong(width), *[either(PASS)] * 4,
        window(face), wrong(face), *[either(PASS)] * 2,
        window(back), wrong(back), *[either(PASS)] * 2,
        milled(plan),
    ]  # fmt: skip
    stile = next(p for p in plan.parts if p.mark == "A1")
    thick = stile.size.thickness
    clearance = width.exact - (face.exact + back.exact - thick)
    assert told(plan, "tenon-in-slot", clearance) == brute(air, ends)


def test_faces_of_what_is_turned_are_in_line_but_for_thickness_and_passes() -> None:
    """Stile and top rail come from one strip, and are alike; the bottom rail is not."""
    plan = planned("bridle", slot="turned", groove="turned")
    which, count = of_strips(plan, ["A1", "A4"])

    def line(*e: Fraction | int) -> Fraction | int:
        g1, g2, g3, g4, *thick = e
        stile, rail = (thick[n] for n in which)
        return Fraction(stile - rail + g1 - g2 + g3 - g4) / 2

    def behind(*e: Fraction | int) -> Fraction | int:
        return line(*e) + e[4 + which[1]] - e[4 + which[0]]

    ends = [*[either(PASS)] * 4, *[milled(plan)] * count]
    assert told(plan, "faces-in-line", Fraction(0)) == brute(line, ends)
    assert told(plan, "backs-in-line", Fraction(0)) == brute(behind, ends)


def test_a_bar_over_the_tongue_that_two_housings_leave() -> None:
    """Cut from both faces, the tongue takes its stile's thickness, and the test piece's; what the
    slot was read as, it makes good."""
    plan = planned("bridle", "T-bridle", slot="turned", groove="turned")
    number, slot = checked(plan, "channel-width/slot")
    tongue = next(c for c in plan.checkpoints if str(c.measure) == "tongue")
    assert dict(tongue.refers) == {number: 1}
    aimed = (slot.exact - slot.target) * 1000
    there = ["A1", "A5", slot.scrap or "", tongue.scrap or ""]
    which, count = of_strips(plan, there)

    def air(*e: Fraction | int) -> Fraction | int:
        read, wrong, t1, t2, g1, g2, read_, wrong_, t3, t4, g3, g4, *thick = e
        stile, bar, first, second = (thick[n] for n in which)
        wide = bar - (first - t1 - t2 - read + wrong) - g1 - g2
        read_ = read_ + read + aimed
        # T − 2h − t3 − t4 was read; the good tongue is T' − 2h − g3 − g4.
        left = stile - (second - t3 - t4 - read_ + wrong_) - g3 - g4
        return wide - left

    ends = [
        window(slot), wrong(slot), *[either(PASS)] * 4,
        window(tongue), wrong(tongue), *[either(PASS)] * 4,
        *[milled(plan)] * count,
    ]  # fmt: skip
    found = brute(air, ends)
    corner = turned_air(plan)
    clearance = slot.exact - checked(plan, "tenon")[1].exact
    assert clearance == slot.exact - tongue.exact
    assert told(plan, "tenon-in-slot", clearance) == (
        min(found[0], corner[0]), max(found[1], corner[1])
    )  # fmt: skip
    assert found != corner


def test_halves_cut_at_one_setting() -> None:
    """Stile from the face, rail from the back: the setting counts twice, the rail's thickness
    once."""
    plan = planned("half-lap")
    _, plane = checked(plan, "to-far-cheek/face")

    def flush(*e: Fraction | int) -> Fraction | int:
        read, wrong, t, g1, g2, rail = e
        setting = read - wrong - t
        return (setting + g1) - (rail - setting - g2)

    ends = [window(plane), wrong(plane), *[either(PASS)] * 3, milled(plan)]
    assert told(plan, "halves-flush", Fraction(0)) == brute(flush, ends)


def length_of_tenon(plan: Plan) -> tuple[Callable[..., Fraction | int], list[Ends]]:
    """How long a tenon is: shoulders were measured between on a test piece whose own length hangs
    on the stop that cut it."""
    _, shoulders = checked(plan, "shoulders")
    scrap = shoulders.scrap or ""
    (length,) = (
        check for check in plan.checkpoints
        if str(check.measure) == "length" and _cut_with(plan, check, scrap)
    )  # fmt: skip
    measured = scrap in length.marks[:1]

    def long(*e: Fraction | int) -> Fraction | int:
        rl, wl, first, mine, read, wrong, t1, t2, g = e
        whole = rl - wl if measured else rl - wl - first + mine
        return Fraction(whole - (read - wrong) - t1 - t2) / 2 + g

    ends = [
        window(length), wrong(length), *[either(PASS)] * 2,
        window(shoulders), wrong(shoulders), *[either(PASS)] * 3,
    ]  # fmt: skip
    return long, ends


def _cut_with(plan: Plan, check: Checkpoint, mark: str) -> bool:
    """Whether a piece is cut to length in the setup of a check."""
    return any(mark in s.marks and s.setup == check.setup for s in plan.steps)


def test_a_rail_proud_of_a_stile_that_nobody_measured() -> None:
    plan = planned("bridle", slot="turned", groove="turned")
    long, ends = length_of_tenon(plan)
    found = brute(
        lambda *e: long(*e[:-2]) - e[-2] - e[-1], [*ends, either(UNCHECKED), either(PASS)]
    )
    nominal = required(plan, "rail-proud")
    shift = (nominal.worst_least + nominal.worst_most) / 2 - Fraction(sum(found), 2000)
    assert nominal.worst_most - nominal.worst_least == (found[1] - found[0]) / 1000
    proud = [f.box[0][1] - f.box[0][0] for p in plan.parts for f in p.features if f.kind == "cheek"]
    stile = next(p for p in plan.parts if p.mark == "A1")
    assert shift == max(proud) - stile.size.width


def test_a_stub_tenon_before_the_bottom_of_its_groove() -> None:
    plan = planned("stub tenon", groove="turned")
    _, depth = checked(plan, "channel-depth/groove")
    long, ends = length_of_tenon(plan)

    def room(*e: Fraction | int) -> Fraction | int:
        read, wrong, t, g = e[-4:]
        return read - wrong - t + g - long(*e[:-4])

    found = brute(room, [*ends, window(depth), wrong(depth), *[either(PASS)] * 2])
    assert told(plan, "tenon-off-bottom", Fraction(0)) == found


@pytest.mark.parametrize("what", ["gap-open", "square"])
def test_what_is_measured_last_is_as_good_as_its_reading(what: str) -> None:
    plan = planned("bridle", slot="turned", groove="turned")
    measure = {"gap-open": "gap/lock", "square": "diagonals"}[what]
    check = next(c for c in plan.checkpoints[::-1] if str(c.measure) == measure)
    found = brute(lambda read, wrong: read - wrong, [window(check), wrong(check)])
    assert told(plan, what, check.exact) == found


def test_shares_add_up_to_the_range() -> None:
    for kind, answers in (("bridle", {"slot": "one-face"}), ("half-lap", {}), ("stub tenon", {})):
        for each in planned(kind, **answers).requirements:
            whole = sum((share.amount for share in each.share), Fraction(0))
            assert whole == each.worst_most - each.worst_least, each.what


def test_a_wider_window_never_makes_a_worst_case_better() -> None:

    plan = planned("bridle", slot="turned", groove="turned")
    for number, check in enumerate(plan.checkpoints):
        wide = with_check(plan, number, low=check.low - 1, high=check.high + 1)
        wide = held(wide)
        for before, after in zip(plan.requirements, wide.requirements, strict=True):
            if before.least is not None:
                assert after.worst_least <= before.worst_least, (check.measure, before.what)
            if before.most is not None:
                assert before.worst_most <= after.worst_most, (check.measure, before.what)


def test_every_must_of_the_examples_holds_at_the_worst() -> None:
    fails = set()
    musts = 0
    for path in EXAMPLES:
        for found in example(path).requirements:
            musts += found.kind == "must"
            if found.kind == "must" and not found.holds:
                fails.add((path.parent.name, found.what))
    assert musts > 80
    assert fails == set()
