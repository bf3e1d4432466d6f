"""Boards of a rack and the sticks of a plan: nothing overlaps, leaves a board or is lost."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sequencer.errors import InternalError, Refusal
from sequencer.facts import stocks
from sequencer.job.rack import Board as Owned
from sequencer.job.rack import Rack
from sequencer.plan import Blank, Board, Plan, Size
from sequencer.records import replace
from sequencer.stock import take_stock
from sequencer.stock.check import check
from sequencer.stock.demand import Demand, demand
from sequencer.stock.layout import lay_out
from tests.sheets.jobs import plan_of
from tests.stock.racked import on
from tests.told import name_of

F = Fraction
EIGHTH = F(1, 8)


def board(
    mark: str, length: int | Fraction, width: int | Fraction, thickness: str = "15/16",
    planed: bool = False,
) -> Owned:  # fmt: skip
    """A board of the pair's wood, an inch off each end and 1/4 in off one edge."""
    return Owned(mark, "hardwood", F(length), F(width), F(thickness), planed, F(1), F(1, 4))


def rack(*boards: Owned, allowance: int = 20) -> Rack:
    return Rack(boards, allowance, EIGHTH, EIGHTH)


THIN = [board(f"thin {n}", 60, 6, "3/8", planed=True) for n in (1, 2, 3)]


def stocked(*boards: Owned) -> Plan:
    return on(plan_of("pair"), rack(*boards))


@st.composite
def racks(draw: st.DrawFn) -> Rack:
    """Boards of the pair's wood and of another, thick and thin, some too short for anything."""
    made = []
    for n in range(draw(st.integers(1, 8))):
        thickness = draw(st.sampled_from(("15/16", "3/4", "13/16", "3/8", "2")))
        owned = board(
            f"board {n}", draw(st.integers(8, 120)), F(draw(st.integers(8, 60)), 4), thickness
        )
        species = draw(st.sampled_from(("hardwood", "Hardwood", "ash")))
        made.append(replace(owned, species=species, planed=draw(st.booleans())))
    return rack(*made)


@given(racks())
def test_every_blank_lies_on_one_board_or_is_missing(owned: Rack) -> None:
    """Places compared here in two dimensions, apart from the check that the stage makes itself."""
    plan = on(plan_of("pair"), owned)
    assert [made.mark for made in plan.boards] == [made.mark for made in owned.boards]
    placed = [blank for made in plan.boards for blank in made.blanks]
    every = [*placed, *plan.missing]
    assert len({blank.mark for blank in every}) == len(every)
    for stick in plan.sticks:
        strips = [blank for blank in every if blank.stick == stick.mark]
        assert strips, stick.mark
        assert {blank.size.length for blank in strips} == {stick.blank.length}
        assert sum(blank.size.width for blank in strips) >= stick.blank.width
    for made, source in zip(plan.boards, owned.boards, strict=True):
        for blank in made.blanks:
            low, across = blank.at
            assert source.trim <= low
            assert low + blank.size.length <= source.length - source.trim
            assert source.edge <= across
            assert across + blank.size.width <= source.width
            assert source.yields(blank.material, blank.size.thickness, owned.milling)
        kerf = owned.kerf
        for n, one in enumerate(made.blanks):
            for other in made.blanks[n + 1 :]:
                apart_along = (
                    one.at[0] + one.size.length + kerf <= other.at[0]
                    or other.at[0] + other.size.length + kerf <= one.at[0]
                )
                apart_across = (
                    one.at[1] + one.size.width + kerf <= other.at[1]
                    or other.at[1] + other.size.width + kerf <= one.at[1]
                )
                assert apart_along or apart_across
        used = sum((b.size.length * b.size.width for b in made.blanks), F(0))
        assert used <= (source.length - 2 * source.trim) * (source.width - source.edge)
        assert sum((high - low for low, high in made.crosscuts), F(0)) <= source.usable[0]
    short = [fact for fact in plan.layout if fact.kind in (stocks.SHORT, stocks.SHORT_AS_TRIED)]
    assert [fact.given["strips"] for fact in short] == (
        [tuple(blank.mark for blank in plan.missing)] if plan.missing else []
    )


def test_a_pair_from_the_rack() -> None:
    """Frame sticks from the two boards, panel strips two and two side by side in a thin one."""
    plan = stocked(board("long", 96, 7), board("wide", 96, 9), *THIN)
    assert plan.missing == ()
    assert plan.layout[0].kind is stocks.PROVEN
    strips = [b.mark for made in plan.boards if "thin" in made.mark for b in made.blanks]
    assert strips
    assert all(mark.startswith("#7/") for mark in strips)


def test_a_thick_board_is_a_last_resort_for_thin_stock() -> None:
    thick = [board(f"thick {n}", 96, 12) for n in (1, 2, 3)]
    sparing = stocked(*thick, *THIN)
    assert all(b.stick == "#7" for m in sparing.boards if "thin" in m.mark for b in m.blanks)
    assert all(b.stick != "#7" for m in sparing.boards if "thick" in m.mark for b in m.blanks)
    assert any(b.stick == "#7" for m in stocked(*thick).boards for b in m.blanks)


def test_strips_of_a_panel_come_from_one_board_where_they_can() -> None:
    wide = board("wide thin", 120, 7, "3/8", planed=True)
    thick = [board("one", 96, 8), board("two", 96, 8)]
    plan = stocked(*thick, *THIN, wide)
    homes = {m.mark for m in plan.boards for b in m.blanks if b.stick == "#7"}
    assert homes == {"wide thin"}
    apart = stocked(*thick, *THIN)
    assert stocks.GLUED_APART(strips=("#7",)) in apart.layout


def strips(plan: Plan, stick: str) -> list[str]:
    placed = [blank for made in plan.boards for blank in made.blanks]
    return [blank.mark for blank in (*placed, *plan.missing) if blank.stick == stick]


@pytest.mark.parametrize(("length", "names"), [("40", "panel"), ("60", "top-rail")])
def test_what_hangs_side_by_side_is_to_match(length: str, names: str) -> None:
    """On boards of this length a pair's panels, or its top rails, come from two sticks: one number
    ties these together, and nothing else."""
    from tests.sheets.jobs import PAIR
    from tests.stages import to_plan

    boards = f'[[board]]\nthickness = "15/16"\nlength = "{length}"\nwidth = "9"\ncount = 6\n'
    plan = to_plan(PAIR + boards)
    alike = {part.mark for part in plan.parts if name_of(part) == names}
    sticks = {s.mark for s in plan.sticks if alike & {piece.mark for piece in s.pieces}}
    assert len(sticks) == 2
    matched = demand(plan, rack()).matched
    assert {mark.partition("/")[0] for mark in matched} == sticks
    assert len(set(matched.values())) == 1


def test_a_panel_is_glued_up_from_as_few_strips_as_the_widest_board_takes() -> None:
    wide = board("wide thin", 120, 13, "3/8", planed=True)
    thick = [board("one", 96, 8), board("two", 96, 8)]
    narrow_alone, both = stocked(*thick, *THIN), stocked(*thick, *THIN, wide)
    assert len(strips(both, "#7")) == len(strips(stocked(*thick, wide), "#7"))
    assert len(strips(both, "#7")) < len(strips(narrow_alone, "#7"))


def test_stiles_and_rails_are_never_glued_up() -> None:
    """Boards narrower than any stick of the frame: its sticks are missing, each whole."""
    plan = stocked(board("narrow", 96, F(3, 2)), *THIN)
    assert {blank.mark for blank in plan.missing} == {f"#{n}" for n in range(1, 7)}


def test_what_belongs_together_comes_from_one_board_at_no_more_boards() -> None:
    """One board is wide enough for two of three like strips: for the two of one panel, or for the
    two that match, whichever stand where in the list."""
    boards = (board("wide", 20, F(37, 4), planed=True), board("narrow", 20, 5, planed=True))
    lot = [Blank(m, m, "hardwood", Size(F(12), F(4), F(15, 16))) for m in "abc"]
    for n in range(3):
        together = {blank.mark: 1 for blank in lot if blank is not lot[n]}
        for wanted in (Demand(tuple(lot), together, {}), Demand(tuple(lot), {}, together)):
            made = lay_out(wanted, rack(*boards), "in")
            homes = {b.mark: each.mark for each in made.boards for b in each.blanks}
            assert {homes[mark] for mark in together} == {"wide"}
            assert homes[lot[n].mark] == "narrow"


def test_of_boards_that_would_do_the_one_of_least_wood_is_taken() -> None:
    """By hand: 12 by 9 1/4 is 111 square inches of 15/16 in, 22 by 4 1/2 is 99 of it, though it is
    longer; 22 by 4 1/2 of 2 in is more wood than either."""
    blank = Blank("a", "a", "hardwood", Size(F(10), F(4), F(15, 16)))
    short, long = board("short", 12, F(37, 4), planed=True), board("long", 22, F(9, 2), planed=True)
    thick = board("thick", 22, F(9, 2), "2", planed=True)
    for lot, best in (((short, long), "long"), ((long, short), "long"), ((thick, short), "short")):
        made = lay_out(Demand((blank,), {}, {}), rack(*lot), "in")
        assert [each.mark for each in made.boards if each.blanks] == [best]


def test_nothing_is_sawn_from_another_wood() -> None:
    ash = replace(board("ash", 120, 12), species="ash")
    plan = stocked(ash, *THIN)
    assert {blank.stick for blank in plan.missing} == {f"#{n}" for n in range(1, 7)}
    assert next(m for m in plan.boards if m.mark == "ash").blanks == ()


@pytest.mark.parametrize(
    ("thickness", "planed", "enough"),
    [("3/4", False, True), ("7/8", False, True), ("13/16", False, False), ("13/16", True, True),
     ("11/16", True, False)],
)  # fmt: skip
def test_a_rough_board_needs_something_to_plane_off(
    thickness: str, planed: bool, enough: bool
) -> None:
    boards = [board(f"b{n}", 96, 12, thickness, planed) for n in range(3)]
    assert (stocked(*boards, *THIN).missing == ()) == enough


def test_sticks_are_no_longer_than_the_boards() -> None:
    """Six boards of 40 in: every stick of the frame fits one, though the sled takes 60."""
    from tests.sheets.jobs import PAIR
    from tests.stages import to_plan

    boards = '[[board]]\nthickness = "15/16"\nlength = "40"\nwidth = "9"\ncount = 6\n'
    plan = to_plan(PAIR + boards)
    frame = [stick for stick in plan.sticks if stick.size.thickness == F(3, 4)]
    assert max(stick.size.length for stick in frame) <= 38
    assert all(blank.stick not in {s.mark for s in frame} for blank in plan.missing)
    assert max(stick.size.length for stick in to_plan(PAIR).sticks) > 38


def test_boards_of_two_jobs_are_one_rack() -> None:
    one, two = rack(board("a", 96, 9)), rack(board("b", 96, 9), allowance=30)
    plan = take_stock(plan_of("pair"), [one, two])
    assert [made.mark for made in plan.boards] == ["a", "b"]
    assert {line.allowance for line in plan.rough} == {30}
    with pytest.raises(Refusal, match=r"stock\.board-twice\(board=a\)"):
        take_stock(plan_of("pair"), [one, one])


def test_no_boards_no_layout() -> None:
    plan = stocked()
    assert (plan.boards, plan.missing, plan.layout) == ((), (), ())
    assert plan.rough


GOOD = Board(
    "b", "ash", Size(F(50), F(8), F(1)), F(1), F(0), ((F(1), F(21)),),
    (
        Blank("#1", "#1", "ash", Size(F(20), F(3), F(3, 4)), (F(1), F(0))),
        Blank("#2", "#2", "ash", Size(F(19), F(4), F(3, 4)), (F(1), F(25, 8))),
    ),
)  # fmt: skip


def with_blank(**changes: object) -> Board:
    second = replace(GOOD.blanks[1], **changes)  # type: ignore[arg-type]  # whatever is to be wrong
    return replace(GOOD, blanks=(GOOD.blanks[0], second))


@pytest.mark.parametrize(
    "wrong",
    [
        with_blank(at=(F(1), F(24, 8))),  # no kerf between
        with_blank(at=(F(3), F(25, 8))),  # over its rough length
        with_blank(at=(F(0), F(25, 8))),  # in the trimmed end
        with_blank(at=(F(1), F(33, 8))),  # over the edge
        with_blank(material="oak"),
        with_blank(size=Size(F(19), F(4), F(5, 4))),  # thicker than the board
        replace(GOOD, blanks=GOOD.blanks[:1]),  # one lost
        replace(GOOD, crosscuts=((F(0), F(21)),)),  # not trimmed
        replace(GOOD, crosscuts=((F(1), F(21)), (F(21), F(30)))),  # no kerf between
        replace(GOOD, crosscuts=((F(1), F(21)), (F(30), F(50)))),  # over the far end
        replace(GOOD, edge=F(1)),
    ],
)
def test_the_check_sees(wrong: Board) -> None:
    check((GOOD,), (), GOOD.blanks, EIGHTH)
    with pytest.raises(InternalError):
        check((wrong,), (), GOOD.blanks, EIGHTH)
