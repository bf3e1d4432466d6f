"""The piece as it is at each pass: followed from the blank through every cut."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer import safety
from sequencer.plan import Cut, KindName, Plan, Step
from sequencer.records import replace
from sequencer.safety.handling import hold, waste
from sequencer.safety.moments import Moment, Wall, moments
from sequencer.safety.rules import limits
from tests.proof import hand
from tests.safety.build import cheek, rip, ripped_late_without_refit
from tests.stages import to_job, to_plan, to_shop

F = Fraction

PLANED = """
unit = "in"
species = "cherry"
[stock]
thickness = "3/4"
edge_allowance = "1/16"
[[door]]
[door.opening]
width = "15"
height = "20"
"""


@pytest.fixture(scope="module")
def passes() -> list[Moment]:
    return list(moments(hand.make(), rip().shop))


def of(passes: list[Moment], mark: str, does: str) -> Moment:
    return next(m for m in passes if m.mark == mark and m.does == does)


def test_every_cut_of_the_plan_is_one_pass(passes: list[Moment]) -> None:
    plan = hand.make()
    cuts = [(s.number, c) for s in plan.steps if s.setup is not None for c in s.cuts]
    assert [(m.step, m.cut) for m in passes] == cuts


def test_a_stick_is_ripped_from_its_blank(passes: list[Moment]) -> None:
    first = of(passes, "#1", "rip")
    # Laid out 2-1/4 wide and ripped to 2: 1/8 of waste beyond the kerf falls on the open side.
    assert (first.length, first.width, first.thickness) == (F(59), F(9, 4), F(3, 4))
    assert first.beyond == F(9, 4) - 2 - F(1, 8)
    assert of(passes, "#1", "groove").width == 2


def test_a_stick_grows_shorter_by_piece_and_kerf(passes: list[Moment]) -> None:
    # Squared at 1/2; then A1, A2 (16-1/16), A3, A4 (12-1/16), each with its kerf of 1/8.
    cuts = [m for m in passes if m.held == "#1" and m.does == "crosscut"]
    assert [m.mark for m in cuts] == ["A1", "A2", "A3", "A4"]
    assert cuts[0].length == 59 - F(1, 2)
    assert cuts[1].length == cuts[0].length - F(257, 16) - F(1, 8)
    assert cuts[3].length == cuts[0].length - 2 * (F(257, 16) + F(1, 8)) - F(193, 16) - F(1, 8)
    # What is held: the piece that is kept, captive between stop and blade, the shorter one or not.
    held = [hold(m, limits("in", {})) for m in (cuts[0], cuts[3])]
    assert [(h.side, h.reach, h.captive) for h in held] == [
        ("guide", F(257, 16), "part"),
        ("guide", F(193, 16), "part"),
    ]


def test_a_stick_whose_sawn_edge_is_planed_is_narrower_from_then_on() -> None:
    """Ripped to 2 in and the 1/16 in that the job gives for planing."""
    plan = to_plan(PLANED)
    made = list(moments(plan, to_shop("", to_job(PLANED))))
    planed = next(step.number for step in plan.steps if step.kind == "plane")
    widths = {m.width for m in made if m.held == "#1" and m.step > planed and m.stick}
    assert of(made, "#1", "rip").setup.guide == F(33, 16)
    assert widths == {F(2)}


def test_what_is_taken_off_a_part_of_a_stick_leaves_its_width() -> None:
    plan = to_plan(PLANED)
    half = tuple(
        replace(r, box=((r.box[0][1] / 2, r.box[0][1]), *r.box[1:]))
        for step in plan.steps if step.kind == "plane" for r in step.removes
    )  # fmt: skip
    steps = tuple(replace(s, removes=half) if s.kind == "plane" else s for s in plan.steps)
    made = list(moments(replace(plan, steps=steps), to_shop("", to_job(PLANED))))
    assert of(made, "#1", "groove").width == F(33, 16)


def test_a_piece_has_its_own_size_once_it_is_cut_off(passes: list[Moment]) -> None:
    rail = of(passes, "A3", "shoulder")
    assert (rail.length, rail.width, rail.stick) == (F(193, 16), F(2), False)
    assert rail.part is not None
    assert of(passes, "A1", "crosscut").part is None


def test_slots_and_cheeks_are_told_apart_by_the_design(passes: list[Moment]) -> None:
    on_end = {(m.mark, m.does) for m in passes if m.on_end and m.part is not None}
    assert on_end == {("A1", "slot"), ("A2", "slot"), ("A3", "cheek"), ("A4", "cheek")}


def test_a_half_laps_slot_is_sawn_as_a_cheek_is() -> None:
    """It is open to the back, so that its waste falls free; a bridle's is closed on both sides."""
    plain = PLANED.replace('edge_allowance = "1/16"', "")
    for joint, does in (("half-lap", "cheek"), ("bridle", "slot")):
        text = f'{plain}[door.joint]\nkind = "{joint}"\n'
        made = moments(to_plan(text), to_shop("", to_job(text)))
        on_end = {m.does for m in made if m.mark == "A1" and m.on_end}
        assert on_end == {does}


def test_what_was_done_to_an_end_is_remembered(passes: list[Moment]) -> None:
    cheek = of(passes, "A3", "cheek")
    assert {("A", "shoulder face"), ("A", "shoulder back"), ("B", "shoulder face")} <= cheek.done


def test_a_test_cut_does_what_its_setup_does(passes: list[Moment]) -> None:
    on_scrap = {(m.mark, m.does) for m in passes if m.mark in ("S1", "S2") and m.on_end}
    assert on_scrap == {("S1", "slot"), ("S2", "cheek")}
    # The groove's setup told to be a rebate's: its test cut is one too.
    plan = hand.make()
    told = replace(
        plan,
        steps=tuple(replace(s, kind="rebate") if s.kind == "groove" else s for s in plan.steps),
    )
    assert {m.does for m in moments(told, rip().shop) if m.on_edge} == {"rebate"}


def test_a_tilted_blade_on_the_fence_bevels() -> None:
    plan = hand.make()
    tilted = replace(plan, setups=tuple(replace(s, tilt=F(-1, 8)) for s in plan.setups))
    assert {m.does for m in moments(tilted, rip().shop) if m.on_edge} == {"bevel"}


def test_a_plan_made_again_half_way_knows_what_is_there() -> None:
    # Ripped, squared and A1 cut off before: 59 less 1/2 and less 16-1/16 are left of the stick.
    gone = ("#1/rip", "#1/square", "A1/crosscut")
    rest = hand.make([w for w in hand.WORKS if w.operation not in gone])
    passes = list(moments(rest, rip().shop))
    assert of(passes, "#1", "groove").width == 2
    assert of(passes, "A1", "slot").length == F(257, 16)
    assert of(passes, "A2", "crosscut").length == 59 - F(1, 2) - F(257, 16)
    assert safety.review(rest, rip().shop).refusals == ()


def test_guards_are_off_until_a_step_refits_them() -> None:
    # The hand-made plan crosscuts its panel last and rips before any guard came off; ripped after
    # the grooves, it needs the refitting step.
    bare = ripped_late_without_refit()
    assert of(list(moments(bare, rip().shop)), "#3", "rip").unguarded
    assert not of(list(moments(_refitted(bare), rip().shop)), "#3", "rip").unguarded


def _refitted(plan: Plan) -> Plan:
    at = next(n for n, s in enumerate(plan.steps) if s.operations == ("#3/rip",))
    refit = replace(plan.steps[at], kind="refit guard", operations=(), cuts=(), marks=())
    return replace(plan, steps=(*plan.steps[:at], refit, *plan.steps[at:]))


def test_a_test_piece_stays_as_the_tests_before_have_left_it() -> None:
    """A cheek, then a shoulder at the same end: its waste would lie at the stop, on scrap too."""
    plan = hand.make()
    setup = {step.kind: step.setup for step in plan.steps}
    mark = plan.scrap[-1].mark
    cuts: dict[KindName, Cut] = {
        "cheek": Cut(mark, "end-A", "face", None),
        "shoulder": Cut(mark, "back", "end-A", None),
    }
    last = len(plan.steps)
    steps = tuple(
        Step(last + n, setup[kind], "test cut", (), (cut,), marks=(mark,))
        for n, (kind, cut) in enumerate(cuts.items(), 1)
    )
    work = tuple(replace(step, kind=kind) for step, kind in zip(steps, cuts, strict=True))
    for added in (steps, work):
        *_, shoulder = moments(replace(plan, steps=plan.steps + added), rip().shop)
        assert shoulder.step == last + 2
        assert ("A", "cheek face") in shoulder.done


def test_nothing_falls_where_groove_and_cheeks_left_no_wood() -> None:
    """A tenon 6.3 thick of a rail 33.5 × 19, sawn on edge 6.5 deep where a groove 6 deep has opened
    all of its thickness from 6.3 to 12.7: the kerf takes the last half millimetre."""
    cheeks = {("end-A", "face", "12.7"), ("end-A", "back", "12.7")}
    grooves = {("inside-edge", "back", "6.3"), ("inside-edge", "back", "9.34")}

    def falls(walls: set[tuple[str, str, str]], deep: str = "6") -> str:
        made = cheek(
            "mm", does="edge cheek", against="outside-edge", guide=F(27), kerf=F("3.36"),
            width=F("33.5"), thickness=F(19),
            flat_cuts={("inside-edge", "end-A"): F("6.5")},
            walls=frozenset(
                Wall(down, bore, F(near), F(near) + F("3.36"), F(deep))
                for down, bore, near in walls
            ),
        )  # fmt: skip
        return waste(made, limits("mm", {})).what

    assert falls(cheeks | grooves) == "chips"
    wider = {("end-A", "face", "15.9"), ("end-A", "back", "15.9")}
    assert falls(cheeks | wider | grooves) == "chips", "of a cheek's passes the last leaves least"
    assert falls(grooves) == "cheek", "the piece is as thick as it was"
    assert falls(cheeks) == "cheek"
    assert falls(cheeks | {("inside-edge", "back", "6.3")}) == "cheek", "half the groove alone"
    assert falls(cheeks | grooves, deep="3") == "cheek", "wood is left under the groove"
