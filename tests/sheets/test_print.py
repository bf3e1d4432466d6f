"""The printed pages as they come out: what they say, how large, and that nothing runs together.

Sizes: the cap height that is read with ease is 22 minutes of arc, 16 at least (ISO 9241-3): 27 pt
at least for numbers read from 1.5 m, 13 pt for numbers and marks read from 0.7 m, 9.5 pt for words
read from 0.5 m, which is as near as one bends to a sheet on the saw's wing (worked out for this
project).
"""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from functools import cache
from itertools import combinations
from typing import Any

import pdfplumber
import pypdfium2  # type: ignore[import-untyped]  # it ships no types
import pytest
import weasyprint  # type: ignore[import-untyped]  # it ships no types

from sequencer.instructions.figures import Scale
from sequencer.sheets import pdf, svg
from sequencer.sheets.above import above
from sequencer.sheets.fullsize import full_size
from sequencer.sheets.labels import labels
from sequencer.sheets.render import Paper, drawn_apart
from sequencer.wording import for_plan
from tests.sheets.jobs import ATTACHED, page_of, plan_of, printed

PAPERS: dict[Paper, tuple[float, float]] = {"letter": (612, 792), "a4": (595.28, 841.89)}
CASES = [
    ("pair", "letter"),
    ("single", "a4"),
    pytest.param("barred", "a4", marks=pytest.mark.large),
    pytest.param("mitred", "letter", marks=pytest.mark.large),
]
WORDS, MARKS, SETTINGS, ABOVE = 9, 13, 25, 27
"""Points: what is smallest at the saw (words in a picture), marks and what is good, settings, and
settings above the saw."""
HAIR = 0.05  # points that rounding may cost

cases = pytest.mark.parametrize(("name", "paper"), CASES)


@cache
def pages(name: str, paper: Paper) -> list[Any]:
    return list(pdfplumber.open(io.BytesIO(printed(name, paper))).pages)


def body(page: Any) -> list[dict[str, Any]]:
    """Characters above the footer line, spaces left out."""
    return [c for c in page.chars if c["bottom"] < page.height - 20 and c["text"].strip()]


def setup_pages(name: str, paper: Paper) -> list[Any]:
    """From the page that begins to tell the steps."""
    found = pages(name, paper)
    legend = "In the drawings you stand before the saw"
    first = next(n for n, page in enumerate(found) if legend in page.extract_text())
    return found[first:]


@cases
def test_paper_size(name: str, paper: Paper) -> None:
    for page in pages(name, paper):
        assert (page.width, page.height) == pytest.approx(PAPERS[paper], abs=0.1)


@cases
def test_every_mark_and_setup_and_step_is_printed(name: str, paper: Paper) -> None:
    plan = plan_of(name)
    front = "\n".join(p.extract_text() for p in pages(name, paper))
    at_saw = "\n".join(p.extract_text() for p in setup_pages(name, paper))
    words = set(re.findall(r"[\w#]+", at_saw))
    cut = {mark for step in plan.steps for mark in step.marks}
    assert cut <= words
    assert {s.mark for s in plan.scrap} | {s.mark for s in plan.sticks} <= words | set(
        re.findall(r"[\w#]+", front)
    )
    for step in plan.steps:
        assert re.search(rf"Step {step.number}\b", at_saw), step
    numbers = [
        "".join(c["text"] for c in group)
        for page in setup_pages(name, paper)
        for group in white_on_black(page)
    ]
    assert numbers == [str(setup.number) for setup in plan.setups]


def white_on_black(page: Any) -> Iterator[list[dict[str, Any]]]:
    """Setup numbers: white characters, by line."""
    white = [c for c in body(page) if set(c["non_stroking_color"] or (0,)) == {1}]
    for top in sorted({round(c["top"]) for c in white}):
        yield [c for c in white if round(c["top"]) == top]


@cases
def test_nothing_is_smaller_than_can_be_read_at_the_saw(name: str, paper: Paper) -> None:
    for page in setup_pages(name, paper):
        small = [c["text"] for c in body(page) if c["size"] < WORDS - HAIR]
        assert not small, (page.page_number, "".join(small))


@cases
def test_marks_and_what_is_good_are_read_from_the_wing(name: str, paper: Paper) -> None:
    plan = plan_of(name)
    large = "".join(
        c["text"] for p in setup_pages(name, paper) for c in p.chars if c["size"] >= MARKS - HAIR
    )
    cut = {mark for step in plan.steps if step.setup and step.operations for mark in step.marks}
    assert cut
    assert all(mark in large for mark in cut)
    scale = Scale.of(plan, for_plan(plan))
    at_saw = [point for point in plan.checkpoints if point.knob and point.tool != "fit"]
    assert at_saw
    for point in at_saw:
        good = scale.read(point.high, point.resolution)
        assert good.replace(" ", "") in large.replace(" ", ""), point


@cases
def test_settings_are_read_standing_back(name: str, paper: Paper) -> None:
    plan = plan_of(name)
    by_eye = sum(setup.guide is None for setup in plan.setups)
    for sheets, size in (
        (setup_pages(name, paper), SETTINGS),
        (pinned_pages(name, paper), ABOVE),
    ):
        numbers = [c for p in sheets for c in body(p) if c["size"] >= size - HAIR]
        assert sum(c["text"].isdigit() for c in numbers) >= 2 * len(plan.setups) - by_eye


def pinned_pages(name: str, paper: Paper) -> list[Any]:
    return [p for p in pages(name, paper) if "light figure" in p.extract_text()]


@cases
def test_nothing_leaves_its_page(name: str, paper: Paper) -> None:
    for page in pages(name, paper):
        shapes = [*page.chars, *page.lines, *page.rects, *page.curves]
        assert shapes
        for shape in shapes:
            inside = (
                shape["x0"] >= 0
                and shape["top"] >= 0
                and shape["x1"] <= page.width
                and shape["bottom"] <= page.height
            )
            assert inside, (page.page_number, shape)


@cases
def test_no_words_run_into_others(name: str, paper: Paper) -> None:
    """No character's ink covers another's: its box is taken without the empty bands of the line."""
    for page in pages(name, paper):
        boxes = [ink(c) for c in page.chars if c["text"].strip()]
        boxes.sort(key=lambda box: box[1])
        for at, (x0, top, x1, bottom, text) in enumerate(boxes):
            for ox0, otop, ox1, obottom, other in boxes[at + 1 :]:
                if otop >= bottom:
                    break
                wide = min(x1, ox1) - max(x0, ox0)
                high = min(bottom, obottom) - max(top, otop)
                kerned = 0.2 * (bottom - top)  # as between T and a
                assert wide <= kerned + 1 or high < 1.5, (page.page_number, text, other, x0, top)


def ink(char: dict[str, Any]) -> tuple[float, float, float, float, str]:
    """DejaVu Sans: capitals stand 0.73 of the size on a baseline 0.24 above the box's foot."""
    base = char["bottom"] - 0.22 * char["size"]
    return char["x0"], base - 0.73 * char["size"], char["x1"], base, char["text"]


@cases
def test_no_drawing_covers_words_beside_it(name: str, paper: Paper) -> None:
    weasyprint = pytest.importorskip("weasyprint")
    document = weasyprint.HTML(string=page_of(name, paper)).render()
    for number, page in enumerate(document.pages, 1):
        boxes = list(page._page_box.descendants())
        drawings = [extent(b) for b in boxes if type(b).__name__.endswith("ReplacedBox")]
        words = [letters(b) for b in boxes if type(b).__name__ == "TextBox" and b.text.strip()]
        assert words
        for (x0, y0, x1, y1), (ox0, oy0, ox1, oy1) in (
            *((d, w) for d in drawings for w in words),
            *combinations(drawings, 2),
        ):
            wide, high = min(x1, ox1) - max(x0, ox0), min(y1, oy1) - max(y0, oy0)
            assert wide < 1 or high < 1, (number, (x0, y0, x1, y1), (ox0, oy0, ox1, oy1))


def letters(box: Any) -> tuple[float, float, float, float]:
    """Where a text box has ink: capitals on the baseline."""
    x0, y0, x1, _ = extent(box)
    base = y0 + box.baseline
    return x0, base - 0.73 * box.style["font_size"], x1, base


def extent(box: Any) -> tuple[float, float, float, float]:
    x, y = box.position_x, box.position_y
    return x, y, x + box.margin_width(), y + box.margin_height()


@cases
def test_no_setup_is_split_over_pages(name: str, paper: Paper) -> None:
    """Each page of setups begins with the head of a block; where one is longer than a page, with
    the head of a step."""
    for page in setup_pages(name, paper):
        first = min(body(page), key=lambda c: (round(c["top"]), c["x0"]))
        line = "".join(c["text"] for c in body(page) if abs(c["top"] - first["top"]) < 12)
        assert re.match(r"Step\d+[A-Z]|\d+(fence|stop|jig|mi(?:tre|ter)stop)|Inthedrawings", line)


def test_readable_in_grey() -> None:
    """Everything is black, white or grey: equal parts of red, green and blue."""
    for page in pages("pair", "letter"):
        for shape in (*page.chars, *page.lines, *page.rects, *page.curves):
            for key in ("stroking_color", "non_stroking_color"):
                color = shape[key]
                parts = set(color) if isinstance(color, tuple) else {color}
                assert len(parts) == 1, (page.page_number, color)
    assert not any(page.images for page in pages("pair", "letter"))


def test_the_plan_is_in_its_pdf_with_a_bookmark_a_setup() -> None:
    plan = plan_of("single")
    document = pypdfium2.PdfDocument(io.BytesIO(printed("single", "a4")))
    assert bytes(document.get_attachment(0).get_data()) == ATTACHED.encode()
    titles = [mark.get_title() for mark in document.get_toc()]
    assert all(any(t.startswith(f"{s.number} ") for t in titles) for s in plan.setups)


def test_the_pdf_says_that_it_is_for_all_readers() -> None:
    """PDF/UA-1 (ISO 14289-1) as far as can be looked at here: it claims to be, has a tree of
    structure, a language and a title that is shown. No validator has seen it."""
    reader = pdfplumber.open(io.BytesIO(printed("single", "a4"))).doc
    catalogue = reader.catalog
    assert "StructTreeRoot" in catalogue
    assert catalogue["Lang"].decode("utf-8", "ignore").replace("\x00", "").endswith("en-GB")
    assert b"pdfuaid:part" in stream(catalogue["Metadata"])


@pytest.mark.parametrize("form", ["plan", "above", "labels", "full size"])
def test_whatever_is_drawn_in_a_pdf_has_words_for_who_does_not_see_it(form: str) -> None:
    """ISO 14289-1, 7.3: a figure has alternative text. Signs are figures."""
    plan = plan_of("single")
    forms = {"above": above, "labels": labels, "full size": full_size}
    made = printed("single", "a4") if form == "plan" else pdf(forms[form](plan, "a4"))
    with pdfplumber.open(io.BytesIO(made)) as document:
        figures = [each for each in parts(document.structure_tree) if each["type"] == "Figure"]
    assert figures
    assert all(each.get("alt_text") for each in figures)
    if form == "plan":
        assert "caution" in {each["alt_text"] for each in figures}
        with pdfplumber.open(io.BytesIO(made)) as document:  # a box to tick is a letter, and read
            assert all("☐" in page.extract_text() for page in document.pages[-2:])


def parts(tree: list[dict[str, Any]]) -> Iterator[dict[str, Any]]:
    for each in tree:
        yield each
        yield from parts(each.get("children", []))


def stream(found: Any) -> bytes:
    return bytes(found.resolve().get_data())


@pytest.mark.parametrize("anchor", ["start", "middle", "end"])
@pytest.mark.parametrize("bold", [False, True])
def test_words_about_a_place_begin_where_weasyprint_would_have_put_them(
    anchor: svg.Anchor, bold: bool
) -> None:
    """It measures them itself where nobody has begun them; kerning is half a point."""
    said = ["A3", "1 61/64", "jig’s clamp, above", "AVAT & To", "from #42"]
    texts = [
        svg.text(100, 20 * n, words, 13, anchor=anchor, bold=bold)
        for n, words in enumerate(said, 1)
    ]
    drawing = svg.drawing(200, 120, texts, "words")
    head = page_of("single", "a4").partition("<body")[0]
    page = f"{head}<body>{drawing}</body></html>"
    begun, left = starts(drawn_apart(page)), starts(page)
    assert len(begun) == len(said)
    assert begun == pytest.approx(left, abs=0.6)


def starts(page: str) -> list[float]:
    """Where each line begins, from the top; the last numbers the page."""
    made = weasyprint.HTML(string=page).write_pdf()
    with pdfplumber.open(io.BytesIO(made)) as document:
        return [line["x0"] for line in document.pages[0].extract_text_lines()][:-1]
