"""The wood on the sheets: drawn to scale, with its figures, and what is missing said first."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache

import pytest

from sequencer.facts import Fact, parts
from sequencer.instructions.bench import bench_lines
from sequencer.instructions.figures import Scale
from sequencer.instructions.glued import milled_words
from sequencer.job.rack import Board as Owned
from sequencer.job.rack import Rack
from sequencer.plan import Board, Order, Plan
from sequencer.records import replace
from sequencer.sheets import html
from sequencer.sheets.boards import OrderLine, board_drawing, wood_page
from sequencer.sheets.stock import StickLine, blanks, sticks
from sequencer.wording import Room, for_plan
from tests.doors.test_slab import SLAB
from tests.sheets.jobs import plan_of
from tests.stages import to_plan
from tests.stock.racked import on

F = Fraction
SCALE = Scale("in", F(1, 64), Room("US", F(1, 64)))


@cache
def stocked(thick: int, thin: int) -> Plan:
    boards = [
        Owned(f"{name} {n}", "hardwood", F(length), F(width), F(thickness), True, F(1), F(1, 4))
        for name, number, length, width, thickness in (
            ("thick", thick, 96, 9, "13/16"),
            ("thin", thin, 60, 6, "3/8"),
        )
        for n in range(1, number + 1)
    ]
    return on(plan_of("pair"), Rack(tuple(boards), 20, F(1, 8), F(1, 8)))


def rectangles(drawing: str) -> list[tuple[Fraction, ...]]:
    pattern = r'<rect x="([\d.]+)" y="([\d.]+)" width="([\d.]+)" height="([\d.]+)"'
    return [tuple(map(F, found)) for found in re.findall(pattern, drawing)]


def test_boards_are_drawn_to_scale() -> None:
    """At ten points an inch: the outline, then each blank where it lies."""
    plan = stocked(2, 3)
    for board in plan.boards:
        if not board.blanks:
            continue
        outline, *blanks = rectangles(board_drawing(board, F(10), SCALE))
        assert (outline[2], outline[3]) == (board.size.length * 10, board.size.width * 10)
        assert len(blanks) == len(board.blanks)
        for drawn, blank in zip(blanks, board.blanks, strict=True):
            wanted = (blank.at[0], blank.at[1] + F(2, 10), blank.size.length, blank.size.width)
            near = [abs(one - other * 10) for one, other in zip(drawn, wanted, strict=True)]
            assert max(near) <= F(1, 100)  # drawings are written in hundredths of a point


def test_words_stay_within_their_blank() -> None:
    from sequencer.sheets import svg

    for board in stocked(2, 3).boards:
        drawing = board_drawing(board, F(2), SCALE)
        texts = re.findall(r'font-size="(\d+)"[^>]*>([^<]+)<', drawing)
        assert len(texts) == len(board.blanks)
        for (size, words), blank in zip(texts, board.blanks, strict=True):
            fits = svg.text_width(words, int(size), bold=True) <= blank.size.length * 2
            assert fits or words == blank.mark


def test_every_board_is_cut_or_stays() -> None:
    plan = stocked(3, 3)
    page = wood_page(plan, SCALE)
    idle = page.idle.split(", ") if page.idle else []
    assert sorted([line.mark for line in page.boards] + idle) == sorted(
        board.mark for board in plan.boards
    )


def test_what_is_missing_comes_first() -> None:
    plan = stocked(1, 0)
    assert plan.missing
    text = html(plan)
    assert text.index("Not enough wood") < text.index("Lay out the night before")
    assert text.index("there is no board for") < text.index("Milled to")
    for blank in plan.missing:
        assert f"{blank.mark}: hardwood" in text
    assert "Not enough" not in html(stocked(2, 3))


def test_amounts_are_never_too_small() -> None:
    for line, shown in zip(stocked(2, 3).rough, wood_page(stocked(2, 3), SCALE).wood, strict=True):
        feet, metres = re.findall(r"[\d.]+", shown.amount)[:2]
        assert 0 <= F(feet) - line.board_feet_with < F(1, 10)
        assert 0 <= F(metres) - line.cubic_metres_with < F(1, 10000)


def test_left_over_is_what_the_last_crosscut_leaves() -> None:
    plan = stocked(2, 3)
    for line in wood_page(plan, SCALE).boards:
        board = next(made for made in plan.boards if made.mark == line.mark)
        over = board.size.length - board.trim - board.crosscuts[-1][1]
        assert line.left == (f"left over {SCALE.length(over)}" if over else "")


def test_boards_trimmed_unlike_are_told_apart() -> None:
    first, *others = stocked(2, 3).boards
    plan = replace(stocked(2, 3), boards=(replace(first, trim=F(1, 2)), *others))
    assert f"{first.mark}: 1/2″ off each end" in wood_page(plan, SCALE).trims
    assert wood_page(stocked(2, 3), SCALE).trims == "1″ off each end, 1/4″ off one edge"


def bought(what: str) -> Fact:
    return parts.BOUGHT(what=what)


@pytest.mark.parametrize(
    ("orders", "lines"),
    [
        ((Order(bought("clear glass"), 2, (F(23, 2), F(15)), parts.ORDER_STOP()),),
         (OrderLine(2, "clear glass", "11 1/2 × 15", "1"),)),
        ((Order(bought("butt hinges"), 4), Order(bought("knob"), 1),
          Order(bought("butt hinges"), 2)),
         (OrderLine(6, "butt hinges", "", ""), OrderLine(1, "knob", "", ""))),
        ((Order(parts.PANE(mark="A5"), 1, (F(9),), parts.ORDER_PANE(sold=None)),
          Order(bought("stop"), 2, (F(9),), parts.ORDER_STOP()),
          Order(bought("stop"), 2, (F(8),), parts.ORDER_STOP())),
         (OrderLine(1, "pane A5", "9", "1"), OrderLine(2, "stop", "9", "2"),
          OrderLine(2, "stop", "8", "2"))),
    ],
)  # fmt: skip
def test_what_to_order(orders: tuple[Order, ...], lines: tuple[OrderLine, ...]) -> None:
    plan = replace(plan_of("pair"), orders=orders)
    page = wood_page(plan, SCALE)
    assert page.orders == lines
    room = for_plan(plan)
    assert page.order_notes == tuple(room.sentence(o.note) for o in orders[:2] if o.note)
    assert all(note in html(plan) for note in page.order_notes)


def test_without_boards_the_page_says_what_to_buy() -> None:
    text = html(plan_of("pair"))
    assert "4/4 (1″ sawn, 13/16″ planed)" in text
    assert "Crosscut to rough lengths" not in text


def test_an_unused_board_is_drawn_nowhere() -> None:
    empty: list[Board] = [board for board in stocked(3, 3).boards if not board.blanks]
    assert empty
    assert all(board.crosscuts == () for board in empty)


def test_of_how_many_boards_a_strip_is_stands_where_they_are_laid_out_milled_and_glued() -> None:
    """A slab's blank is 21 1/2 by 15 1/2 in; of four boards, with 1/8 for jointing, each 4, of
    two 7 7/8. No rack is wanted for that."""
    for boards, wide in ((4, "4″"), (2, "7 7/8″")):
        plan = to_plan(SLAB.replace("boards = 4", f"boards = {boards}"))
        (strip,) = plan.sticks
        assert (strip.blank.length, strip.blank.width) == (F(43, 2), F(31, 2))
        scale = Scale.of(plan, for_plan(plan))
        (line,) = sticks(plan, scale)
        assert line.note == f"{boards} boards, each {wide} wide"
        mill, glue = (bench_lines(plan, step, scale)[1] for step in plan.steps[:2])
        marks = "#1/1 to #1/4" if boards == 4 else "#1/1, #1/2"
        assert mill[1] == f"#1 of {boards} boards, {marks}, 21 1/2″ × {wide} rough."
        assert glue[-1] == "#1: at least 21 1/2″ × 15 1/2″ when glued."
        assert line.note in html(plan)
        assert mill[1] in html(plan)


def test_boards_that_nobody_counted_are_told_by_their_width_together() -> None:
    plan = to_plan(SLAB.replace("boards = 4\n", ""))
    scale = Scale.of(plan, for_plan(plan))
    (line,) = sticks(plan, scale)
    assert line.note == "boards as the stock asks for"
    assert bench_lines(plan, plan.steps[0], scale)[1][1] == (
        "#1 of as many boards as the stock asks for, 21 1/2″ long, together 15 1/2″ wide and 1/8″ "
        "more for each."
    )


def test_strips_of_like_boards_are_told_together() -> None:
    """One after the other where they are milled, in one row where they are laid out; those of
    more boards by themselves."""
    plan = stocked(4, 3)
    (strip,) = (stick for stick in plan.sticks if stick.boards is not None)
    assert (strip.mark, strip.boards) == ("#7", 2)

    def beside(boards: int) -> tuple[Plan, list[StickLine]]:
        more = [replace(strip, mark=f"#{n}", boards=boards) for n in (8, 9, 10)]
        made = replace(plan, sticks=(*plan.sticks, *more))
        lines = sticks(made, SCALE)
        return made, [line for line in lines if line.note]

    both, lines = beside(2)
    length, width = (
        SCALE.room.length(SCALE.told(each))
        for each in (strip.blank.length, strip.blank.width / 2 + F(1, 8))
    )
    told = milled_words([line.mark for line in lines], both, SCALE)
    marks = ", ".join(f"#{n}/{board}" for n in (7, 8, 9, 10) for board in (1, 2))
    assert told[0] == f"#7, #8, #9, #10 of 2 boards each, {marks}, {length} × {width} rough."
    assert len(told) == 2
    assert milled_words(["#1"], plan, SCALE) == ()
    assert [len(alike) for alike in blanks(lines)] == [4]
    assert [len(alike) for alike in blanks(beside(3)[1])] == [1, 1, 1, 1]
