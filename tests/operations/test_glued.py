"""Strips that are glued up from several boards: how many, and when."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.errors import InternalError
from sequencer.measured import Measured
from sequencer.pipeline import cut_as
from sequencer.plan import AS_THE_STOCK, Plan
from sequencer.records import replace
from sequencer.saved.recut import recut
from sequencer.setups.given import Given
from sequencer.setups.halfway import Done, Past
from sequencer.sheets.tools import tools
from sequencer.wording import for_plan
from tests.doors.test_slab import SLAB
from tests.sheets.jobs import PAIR
from tests.stages import to_job, to_plan, to_shop

F = Fraction
FRAMES = '[[board]]\nthickness = "1"\nlength = "96"\nwidth = "9"\ncount = 3\n'
THIN = '[[board]]\nthickness = "3/8"\nlength = "96"\nwidth = "6"\ncount = 3\nplaned = true\n'
OPEN = SLAB.replace("boards = 4\n", "")


def rack(width: str, text: str = SLAB) -> str:
    return f'{text}[[board]]\nthickness = "1"\nlength = "96"\nwidth = "{width}"\n'


def glued(plan: Plan) -> dict[str, int | None]:
    """Of how many boards each strip is that a step glues up."""
    boards = {stick.mark: stick.boards for stick in plan.sticks}
    steps = [step for step in plan.steps if step.kind == "edge glue-up"]
    return {mark: boards[mark] for step in steps for mark in step.marks}


def test_panels_of_several_boards_are_glued_up_behind_the_mill() -> None:
    """Thin boards leave 5 3/4 in, of which jointing takes 1/8: two of them for a strip of panels.
    It is done before the saw is set at all, so that the glue sets while the frames are cut; cramps
    and glue are laid out for it."""
    plan = to_plan(PAIR + FRAMES + THIN)
    panels = {part.mark for part in plan.parts if part.role == "panel"}
    strips = {s.mark for s in plan.sticks if panels & {piece.mark for piece in s.pieces}}
    assert glued(plan) == dict.fromkeys(strips, 2)
    kinds = [step.kind for step in plan.steps]
    assert kinds[:2] == ["mill", "edge glue-up"]
    (step,) = (each for each in plan.steps if each.kind == "edge glue-up")
    lines = [line for line in tools(plan, for_plan(plan)) if "lamp" in line or "Glue" in line]
    assert any(line.startswith("Clamps") and f"steps {step.number}, " in line for line in lines)
    assert any(line.startswith("Glue") and f"steps {step.number}, " in line for line in lines)
    laid = [blank for board in plan.boards for blank in board.blanks]
    assert sum(blank.stick in strips for blank in laid) == 2 * len(strips)


def test_what_one_board_yields_is_not_glued_up() -> None:
    wide = THIN.replace('"6"', '"14"')
    assert glued(to_plan(PAIR + FRAMES + wide)) == {}
    assert glued(to_plan(PAIR)) == {}
    assert glued(to_plan(rack("20", OPEN))) == {}
    assert glued(to_plan(SLAB.replace("boards = 4", "boards = 1"))) == {}


def test_a_slab_is_of_as_many_boards_as_its_job_or_its_stock_asks_for() -> None:
    """A blank 15 1/2 in wide, from boards that leave 5 3/4, 1/8 of which jointing takes."""
    assert glued(to_plan(SLAB)) == {"#1": 4}
    assert glued(to_plan(rack("6"))) == {"#1": 4}
    assert glued(to_plan(rack("6", OPEN))) == {"#1": 3}
    assert glued(to_plan(OPEN)) == {"#1": AS_THE_STOCK}


@pytest.mark.parametrize("text", [SLAB, rack("6", OPEN), PAIR + FRAMES + THIN])
def test_what_is_made_again_is_glued_up_again(text: str) -> None:
    """Its panel, or the slab itself: one piece, of a strip of its own."""
    whole = to_plan(text)
    mark = next(part.mark for part in whole.parts if part.role in ("panel", "slab"))
    job = to_job(text)
    again = recut(whole, Given.of([job], to_shop("", job)), [mark])
    assert [part.mark for part in again.parts] == [mark]
    (strip,) = glued(again)
    (was,) = (s for s in whole.sticks if mark in {piece.mark for piece in s.pieces})
    assert glued(again)[strip] == was.boards
    kinds = [step.kind for step in again.steps]
    assert kinds.index("mill") < kinds.index("edge glue-up") < kinds.index("rip")


def test_boards_that_were_glued_up_stay_so_whatever_was_measured() -> None:
    """Boards as thick as the panels wanted, by the file, and a little thinner than they measured:
    none would yield them any more, and the strip lies there, glued up."""
    text = PAIR + '[panel]\nthickness = "1/4"\n' + FRAMES + THIN.replace("3/8", "1/4")
    job, shop = to_job(text), to_shop("", to_job(text))
    whole = to_plan(text)
    given, choices = Given.of([job], shop).as_in(whole)
    kept = {stick.mark: stick.boards for stick in whole.sticks if stick.boards is not None}
    (strip,) = kept
    names = [o for step in whole.steps[:2] for o in step.operations]
    assert f"{strip}/edge-glue-up" in names
    done = tuple(Done(name, {}) for name in names)
    measured = Measured(thickness={F(1, 4): F(129, 512)})
    past = Past(done, {}, frozenset(names), kept)
    later = replace(given, measured=measured, past=past)
    assert glued(cut_as(later, choices)) == kept
    narrow = replace(past, glued={})
    with pytest.raises(InternalError, match=r"no-place.*edge-glue-up"):
        cut_as(replace(later, past=narrow), choices)
