"""Pages are filled whole: as high as was worked out, whoever lays them out, each row on its page,
and the settings above the saw those of the setups."""

from __future__ import annotations

import base64
import io
import re
from fractions import Fraction
from functools import cache
from html import unescape
from pathlib import Path

import pypdfium2  # type: ignore[import-untyped]  # it ships no types
import pytest
import weasyprint  # type: ignore[import-untyped]  # it ships no types
from fontTools.ttLib import TTFont  # type: ignore[import-untyped]  # it ships no types

from sequencer.instructions.figures import Scale
from sequencer.plan import Plan
from sequencer.sheets import heights, html, pdf, svg
from sequencer.sheets.above import above
from sequencer.sheets.blocks import blocks, larger
from sequencer.sheets.front import front
from sequencer.sheets.lookup import Aside, asides, high
from sequencer.sheets.paging import Page, pages
from sequencer.sheets.pinned import pinned
from sequencer.sheets.pins import Pin
from sequencer.sheets.render import Paper, drawn_apart, paper_for
from sequencer.sheets.type import _WIDTHS
from sequencer.wording import for_plan
from tests.reader.jobs import planned
from tests.sheets.jobs import page_of, plan_of
from tests.sheets.pages import measured

ROOT = Path(__file__).resolve().parents[2]
EXAMPLES = sorted(path.parent.name for path in (ROOT / "examples").glob("*/job.toml"))

CASES: list[tuple[str, Paper]] = [("pair", "letter"), ("single", "a4")]
cases = pytest.mark.parametrize(("name", "paper"), CASES)


def scale_of(plan: Plan) -> Scale:
    return Scale.of(plan, for_plan(plan))


def filled(plan: Plan, paper: Paper) -> tuple[Page, ...]:
    scale = scale_of(plan)
    made = blocks(plan, scale)
    return pages(made, paper, larger, asides(front(plan, scale), plan, scale.room))


@cases
def test_rows_are_no_higher_than_was_worked_out(name: str, paper: Paper) -> None:
    """Nor much less, or pages would stay emptier than they need."""
    compare(filled(plan_of(name), paper), page_of(name, paper))


@cache
def laid_out(page: str) -> weasyprint.Document:
    return weasyprint.HTML(string=drawn_apart(page)).render()


def compare(made: tuple[Page, ...], page: str) -> None:
    """Each row stands on its page, as high as was worked out."""
    rows = [row for page in made for row in page.rows]
    document = laid_out(page)
    laid = [
        [
            box.height * 0.75
            for box in page._page_box.descendants()
            if type(box).__name__ == "BlockBox" and box.element.get("class") == "row"
        ]
        for page in document.pages
    ]
    assert [len(rows) for rows in laid if rows] == [len(page.rows) for page in made]
    found = [each for highs in laid for each in highs]
    for row, tall in zip(rows, found, strict=True):
        where = row.blocks[0].number or row.blocks[0].step
        assert row.high - 30 < tall < row.high + 0.5, (where, row.high, tall)


@pytest.mark.parametrize("marks", ["A", "A, C, E, G, I, K, M, O, Q, S, U, W, Y"])
def test_what_is_looked_up_is_no_higher_than_was_worked_out(marks: str) -> None:
    """Captions that are wider than their pictures are no less wide for that."""
    drawn = '<svg xmlns="http://www.w3.org/2000/svg" width="51pt" height="76pt"></svg>'
    shown = [Aside.of(marks, drawn, times) for times in (1, 1, 1.1, 1, 1.5, 1, 1, 1, 1)]
    told = "".join(f"<div><p><b>{each.mark}</b></p>{each.drawing}</div>\n" for each in shown)
    head = page_of("single", "a4").partition("<body")[0]
    document = laid_out(f'{head}<body><aside class="lookup">{told}</aside></body></html>')
    (tall,) = (
        box.height * 0.75
        for box in document.pages[0]._page_box.descendants()
        if type(box).__name__ == "BlockBox" and box.element.get("class") == "lookup"
    )
    assert 0 <= high(shown, heights.WIDE["a4"]) - tall < 20


EXAMPLE_ROWS = pytest.mark.parametrize(
    "name",
    [
        "clock-case",
        *(pytest.param(n, marks=pytest.mark.large) for n in ("dresser", "broom-cupboard")),
    ],
)
"""The first has tables whose heads take two lines; all have things to look up under short words."""


@EXAMPLE_ROWS
def test_rows_of_an_example_are_no_higher_either(name: str) -> None:
    plan, _ = planned(name)
    compare(filled(plan, paper_for(plan)), html(plan))


@EXAMPLE_ROWS
def test_under_short_words_stands_what_their_setup_cuts(name: str) -> None:
    """Beside long pictures; once on a page, and no row is twice as empty as it was for it."""
    plan, _ = planned(name)
    paper = paper_for(plan)
    wide = heights.WIDE[paper]
    made = filled(plan, paper)
    grown = 0.0
    for page in made:
        shown = [each.mark for row in page.rows for each in row.asides]
        shown += [each.mark for each in page.asides]
        assert len(shown) == len(set(shown))
        for row in page.rows:
            if not row.asides:
                continue
            (block,) = row.blocks
            more = row.high - heights.placed(block, wide).high
            assert 0 <= more <= row.hole
            assert high(row.asides, wide - heights.LEFT) <= row.hole + more
            ticked = {chip.mark for item in block.items if item.work for chip in item.work.chips}
            assert {re.split("[ ,]", each.mark)[0] for each in row.asides} <= ticked
            grown += more
    assert any(row.asides for page in made for row in page.rows)
    assert (grown > 0) == (name != "clock-case")


def test_every_block_stands_on_one_page() -> None:
    plan = plan_of("pair")
    told = blocks(plan, scale_of(plan))
    placed = [block for page in pages(told, "letter") for row in page.rows for block in row.blocks]
    assert [(b.number, b.step) for b in placed] == [(b.number, b.step) for b in told]


@cases
def test_settings_above_the_saw_are_those_of_the_setups(name: str, paper: Paper) -> None:
    plan = plan_of(name)
    made = blocks(plan, scale_of(plan))
    rows = [
        row
        for sheet in pinned(plan, made, paper, for_plan(plan))
        for column in sheet.columns
        for row in column
        if isinstance(row, Pin)
    ]
    assert [row.number for row in rows] == [b.number for b in made if b.number]
    assert [row.settings for row in rows] == [b.settings for b in made if b.number]


def test_the_short_form_of_a_small_job_tells_every_caution_in_a_line() -> None:
    plan = plan_of("single")
    page = html(plan, short=True)
    assert "<article" not in page
    for setup in plan.setups:
        row = re.findall(rf'id="pin-{setup.number}">.*?</table>', page, re.DOTALL)
        assert len(row) == 1
        assert set(re.findall(r'data-rule="(\w+)"', row[0])) == {c.rule for c in setup.cautions}
    assert all(f'data-rule="{caution.rule}"' in page for caution in plan.standing)


def test_the_short_form_of_a_pair_of_plain_doors_is_two_pages() -> None:
    document = pypdfium2.PdfDocument(io.BytesIO(pdf(html(planned("wall-cabinet")[0], short=True))))
    doors, above = (page.get_textpage().get_text_bounded() for page in document)
    assert "crosscut list" in doors
    assert "settings (in)" in above


def test_paper_is_that_of_the_unit() -> None:
    assert [paper_for(plan_of(name)) for name in ("pair", "single")] == ["letter", "a4"]
    assert "size: A4" in html(plan_of("single"))


def test_the_risk_sheet_has_every_hazard_of_the_plan_with_its_source() -> None:
    plan = plan_of("single")
    assert 'class="risks"' not in page_of("single", "a4")
    sheet = html(plan, risk=True).partition('class="risks"')[2]
    bench = [each for step in plan.steps if step.setup is None for each in step.cautions]
    met = [*plan.standing, *(each for setup in plan.setups for each in setup.cautions), *bench]
    assert met
    for caution in met:
        assert f"{caution.rule}: {caution.source}" in unescape(sheet)


def test_widths_are_those_of_the_face() -> None:
    """Of every letter that is reckoned with, by the face's own table; it has no arrows."""
    css = (ROOT / "templates/face.css").read_text("utf-8")
    for known, data in zip(_WIDTHS, re.findall(r"base64,([^)]+)\)", css), strict=True):
        face = TTFont(io.BytesIO(base64.b64decode(data)))
        names, widths = face.getBestCmap(), face["hmtx"]
        for letter, wide in known.items():
            if letter not in "←→↑↓":
                told = widths[names[ord(letter)]][0] * 1000 / face["head"].unitsPerEm
                assert 0 <= wide - told < 1, letter


@pytest.mark.parametrize(("name", "most"), [("wall-cabinet", 5), ("pantry", 5)])
def test_a_pair_of_plain_doors_takes_few_pages_at_work(name: str, most: int) -> None:
    plan, _ = planned(name)
    made = filled(plan, paper_for(plan))
    assert len(made) <= most
    assert all(sum(b.number is not None for row in p.rows for b in row.blocks) <= 4 for p in made)


@pytest.mark.large
@pytest.mark.parametrize(
    ("name", "most", "at_work"),
    [("wall-cabinet", 9, 5), ("pantry", 9, 5), ("china-cabinet", 18, 11)],
)
def test_a_book_has_few_pages(name: str, most: int, at_work: int) -> None:
    page = html(planned(name)[0])
    found = measured(pdf(page), page)
    assert (len(found.blanks) <= most, len(found.work) <= at_work) == (True, True)


_FULLER = 0.20
"""What is blank of the emptiest page of all examples that is not the last of its part."""


@pytest.mark.parametrize(
    "name",
    [
        "clock-case",
        *(pytest.param(name, marks=pytest.mark.large) for name in EXAMPLES if name != "clock-case"),
    ],
)
def test_no_page_is_half_empty_but_the_last_of_a_part(name: str) -> None:
    page = html(planned(name)[0])
    found = measured(laid_out(page).write_pdf(), page)
    assert [
        n for n, share in enumerate(found.blanks) if share > _FULLER and n not in found.ends
    ] == []


def test_what_stands_again_is_that_of_the_front_pages() -> None:
    """Whether a page has room for it depends on the plan; where one has, it takes no more."""
    plan = plan_of("pair")
    scale = scale_of(plan)
    made = blocks(plan, scale)
    first = front(plan, scale)
    choose = asides(first, plan, scale.room)
    shown = {stick.mark for stick in first.sticks} | {", ".join(door.marks) for door in first.doors}
    for free in (20.0, 100.0, 200.0, 400.0, 700.0):
        chosen = choose(made, 580.0, free, ())
        assert bool(chosen) == (free > 20)
        assert high(chosen, 580.0) <= free
        assert all(
            each.mark in shown or each.mark.endswith(("pulled apart", "finished"))
            for each in chosen
        )
    # As large as they go: in twice the room nothing is smaller, and something is larger.
    few, many = (
        {each.mark: svg.size_of(each.drawing)[0] for each in choose(made[:4], 580.0, free, ())}
        for free in (300.0, 600.0)
    )
    assert all(many[mark] >= wide for mark, wide in few.items())
    assert any(many[mark] > wide for mark, wide in few.items())
    for each in choose(made, 580.0, 700.0, ()):
        if each.mark.endswith("finished"):
            assert f'aria-label="{re.split("[ ,]", each.mark)[0]}, ' in each.drawing


@pytest.mark.parametrize("name", ["wall-cabinet", "clock-case"])
def test_a_figure_above_the_saw_passes_its_window_or_says_that_it_does_not(name: str) -> None:
    """What is large is set as it stands: every measure that hangs on it is then good, or a word
    stands beside the exact number."""
    plan, _ = planned(name)
    room = for_plan(plan)
    made = blocks(plan, scale_of(plan))
    rows = [
        row
        for sheet in pinned(plan, made, paper_for(plan), room)
        for column in sheet.columns
        for row in column
        if isinstance(row, Pin)
    ]
    setups = {setup.number: setup for setup in plan.setups}
    compared = 0
    for row in rows:
        setup = setups[row.number]
        exact = {"height": setup.height_shown, "guide": setup.reading or setup.guide}
        for dial, which in zip(row.settings, ("guide", "height"), strict=True):
            set_at = exact[which]
            if dial.figure is None or set_at is None:
                continue
            figure = dial.figure
            whole = Fraction(figure.whole or 0)
            shown = whole + (Fraction(figure.top) / Fraction(figure.bottom) if figure.top else 0)
            for check in plan.checkpoints:
                ours = check.setup == row.number and (check.knob == "height") == (which == "height")
                if not ours or check.knob is None or not check.per_unit:
                    continue
                reads = check.exact + (shown - set_at) * check.per_unit
                compared += 1
                assert dial.note or dial.stays or check.low <= reads <= check.high, row.number
    assert compared > 3


@pytest.mark.parametrize(("paper", "size"), [("letter", (792, 1224)), ("a4", (841.89, 1190.55))])
def test_the_page_above_the_saw_on_two_sheets(paper: Paper, size: tuple[float, float]) -> None:
    plan = plan_of("single")
    document = pypdfium2.PdfDocument(pdf(above(plan, paper)))
    assert document[0].get_size() == pytest.approx(size, abs=0.2)
    text = "".join(page.get_textpage().get_text_bounded() for page in document)
    assert all(f"{setup.number}" in text for setup in plan.setups)
    assert "light figure" in text
