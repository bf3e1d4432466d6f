"""Pages are filled whole: as high as was worked out, whoever lays them out, each row on its page,
and the settings above the saw those of the setups."""

from __future__ import annotations

import io
import re
from html import unescape

import pypdfium2  # type: ignore[import-untyped]  # it ships no types
import pytest

from sequencer.instructions.figures import Scale
from sequencer.plan import Plan
from sequencer.sheets import html, pdf
from sequencer.sheets.blocks import blocks, larger
from sequencer.sheets.front import front
from sequencer.sheets.lookup import asides
from sequencer.sheets.paging import Page, pages
from sequencer.sheets.pinned import Pin, pinned
from sequencer.sheets.render import Paper, paper_for
from sequencer.wording import for_plan
from tests.sheets.jobs import page_of, plan_of

CASES: list[tuple[str, Paper]] = [("pair", "letter"), ("single", "a4")]
cases = pytest.mark.parametrize(("name", "paper"), CASES)


def scale_of(plan: Plan) -> Scale:
    return Scale.of(plan, for_plan(plan, "paper"))


def filled(plan: Plan, paper: Paper) -> tuple[Page, ...]:
    scale = scale_of(plan)
    made = blocks(plan, scale)
    return pages(made, paper, larger(plan, scale), asides(front(plan, made, scale)))


@cases
def test_rows_are_no_higher_than_was_worked_out(name: str, paper: Paper) -> None:
    """Nor much less, or pages would stay emptier than they need."""
    weasyprint = pytest.importorskip("weasyprint")
    plan = plan_of(name)
    made = filled(plan, paper)
    rows = [row for page in made for row in page.rows]
    document = weasyprint.HTML(string=page_of(name, paper)).render()
    laid = [
        [
            box.height * 0.75
            for box in page._page_box.descendants()
            if type(box).__name__ == "BlockBox" and box.element.get("class") == "row"
        ]
        for page in document.pages
    ]
    assert [len(rows) for rows in laid if rows] == [len(page.rows) for page in made]
    found = [high for highs in laid for high in highs]
    for row, high in zip(rows, found, strict=True):
        where = row.blocks[0].number or row.blocks[0].step
        assert row.high - 26 < high < row.high + 0.5, (where, row.high, high)


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
        for sheet in pinned(plan, made, paper, for_plan(plan, "paper"))
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


def test_paper_is_that_of_the_unit() -> None:
    assert [paper_for(plan_of(name)) for name in ("pair", "single")] == ["letter", "a4"]
    assert "size: A4" in html(plan_of("single"))


def test_the_plan_is_in_its_pdf_with_a_bookmark_a_setup() -> None:
    plan = plan_of("single")
    document = pypdfium2.PdfDocument(io.BytesIO(pdf(page_of("single", "a4"), "the plan")))
    assert bytes(document.get_attachment(0).get_data()) == b"the plan"
    titles = [mark.get_title() for mark in document.get_toc()]
    assert all(any(t.startswith(f"{s.number} ") for t in titles) for s in plan.setups)


def test_the_risk_sheet_has_every_hazard_of_the_plan_with_its_source() -> None:
    plan = plan_of("single")
    assert 'class="risks"' not in page_of("single", "a4")
    sheet = html(plan, risk=True).partition('class="risks"')[2]
    bench = [each for step in plan.steps if step.setup is None for each in step.cautions]
    met = [*plan.standing, *(each for setup in plan.setups for each in setup.cautions), *bench]
    assert met
    for caution in met:
        assert f"{caution.rule}: {caution.source}" in unescape(sheet)
