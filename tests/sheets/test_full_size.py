"""What is printed at full size is measured on the PDF, WeasyPrint's and Chromium's; labels are read
against the plan."""

from __future__ import annotations

import io
import re
import subprocess
from fractions import Fraction
from functools import cache
from itertools import combinations
from pathlib import Path

import pdfplumber
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sequencer.instructions.figures import Scale
from sequencer.plan import Plan
from sequencer.sheets.fullsize import full_size
from sequencer.sheets.fullsize.gauges import block_strips
from sequencer.sheets.fullsize.paper import SIZES, TILE, Drawing, Paper, pages, stands_on, tiles
from sequencer.sheets.fullsize.smooth import runs
from sequencer.sheets.fullsize.story import placed_figures, story_sticks
from sequencer.sheets.labels import labels, labels_of
from sequencer.sheets.render import pdf
from sequencer.wording import for_plan
from tests import spaced
from tests.reader.jobs import planned
from tests.sawside.conftest import CHROMIUM
from tests.stages import to_plan

MM = 72 / 25.4
NAME = "clock-case"


@cache
def printed(paper: Paper, name: str = NAME) -> bytes:
    return pdf(full_size(planned(name)[0], paper))


def by_chromium(page: str, folder: Path) -> bytes:
    """As a browser prints it, by itself: another test's may be open in this process."""
    source, made = folder / "page.html", folder / "page.pdf"
    source.write_text(page, encoding="utf-8")
    told = [f"--print-to-pdf={made}", "--no-pdf-header-footer", f"--user-data-dir={folder}"]
    command = [str(CHROMIUM), "--headless", "--no-sandbox", *told, source.as_uri()]
    subprocess.run(command, check=True, capture_output=True, timeout=120)
    return made.read_bytes()


Ends = tuple[float, float, float, float]


def strokes(page: pdfplumber.page.Page) -> list[Ends]:
    """Every straight line of a page, in mm: from left to right, from top to bottom."""
    found = []
    for each in (*page.lines, *page.curves, *page.rects):
        x0, x1, y0, y1 = (each[key] / MM for key in ("x0", "x1", "top", "bottom"))
        found.append((x0, x1, y0, y1))
    return found


def bars(page: pdfplumber.page.Page) -> tuple[list[float], list[float]]:
    """The lengths of what may be a bar: level and upright lines between 90 and 110 mm, at the foot
    of the page and at its right."""
    lines = strokes(page)
    wide, high = page.width / MM, page.height / MM
    level = [x1 - x0 for x0, x1, y0, y1 in lines if y1 - y0 < 0.1 and y0 > high - 12]
    upright = [y1 - y0 for x0, x1, y0, y1 in lines if x1 - x0 < 0.1 and x0 > wide - 13]
    return (
        [each for each in level if 90 < each < 110],
        [each for each in upright if 90 < each < 110],
    )


@pytest.mark.parametrize(("paper", "name"), [("letter", NAME), ("a4", "key-cupboard")])
def test_bars_are_100_mm_long_both_ways_on_every_page(paper: Paper, name: str) -> None:
    with pdfplumber.open(io.BytesIO(printed(paper, name))) as document:
        assert document.pages
        for page in document.pages:
            assert (page.width / MM, page.height / MM) == pytest.approx(SIZES[paper], abs=0.05)
            for found in bars(page):
                assert found == [pytest.approx(100, abs=0.05)]


def test_a_browser_prints_the_same_bars_and_pages(tmp_path: Path) -> None:
    plan, _ = planned(NAME)
    made = by_chromium(full_size(plan, "letter"), tmp_path)
    with (
        pdfplumber.open(io.BytesIO(made)) as theirs,
        pdfplumber.open(io.BytesIO(printed("letter"))) as ours,
    ):
        assert len(theirs.pages) == len(ours.pages)
        for page, other in zip(theirs.pages, ours.pages, strict=True):
            for found in bars(page):
                assert found
                assert found[0] == pytest.approx(100, abs=0.05)
            assert words(page) == words(other)


def words(page: pdfplumber.page.Page) -> list[str]:
    return sorted(re.sub(r"\s", "", page.extract_text()))


def test_blocks_are_as_wide_as_their_setups_say() -> None:
    """Each strip's name is read, and the strip under it measured to 0.1 mm."""
    measured = 0
    plan, _ = planned(NAME)
    guides = {str(setup.number): setup.guide for setup in plan.setups}
    with pdfplumber.open(io.BytesIO(printed("letter"))) as document:
        for page in document.pages:
            for found in re.finditer(r"Block, setup ([\d, ]+), ", page.extract_text()):
                guide = guides[found[1].split(",")[0]]
                assert guide is not None
                wide = float(guide) * 25.4
                own = [
                    x1 - x0
                    for x0, x1, y0, y1 in strokes(page)
                    if y1 - y0 == pytest.approx(12, abs=0.3)
                ]
                assert any(each == pytest.approx(wide, abs=0.1) for each in own), found[0]
                measured += 1
    assert measured > 4


def test_a_block_before_the_jig_is_no_part_of_what_the_piece_is_set_by() -> None:
    """One strip sets the jig for both walls of a slot: 19/64 in, whether or not a block of 7/64 in
    stands before it."""
    plan = to_plan(spaced.JOB, spaced.SHOP)
    walls = [setup for setup in plan.setups if setup.carrier == "tenoning-jig"][:2]
    assert [setup.guide for setup in walls] == [Fraction(3, 16), Fraction(19, 64)]
    numbers = ", ".join(str(setup.number) for setup in walls)
    names = [each.name for each in block_strips(plan, Scale.of(plan, for_plan(plan)))]
    (own,) = (name for name in names if numbers in name)
    assert "19/64" in own


def test_tiles_make_the_whole_again() -> None:
    drawing = Drawing("a", 2.5 * TILE[0], 1.2 * TILE[1], ())
    made = tiles(drawing)
    assert len(made) == 6
    assert sum(tile.width * tile.height for tile in made) == pytest.approx(
        drawing.width * drawing.height
    )
    for paper in SIZES:
        for page in pages([drawing, drawing], paper):
            for tile, x, y in page:
                assert x + tile.width <= SIZES[paper][0] - 14
                assert y + tile.height <= SIZES[paper][1] - 19


def test_story_sticks_reach_from_end_to_end_of_their_door() -> None:
    """The leaf's height and width stand at the ends of its sticks, as the plan has them."""
    plan, _ = planned(NAME)
    scale = Scale.of(plan, for_plan(plan))
    page = full_size(plan, "letter")
    longest = max(part.size.length for part in plan.parts if part.role == "stile")
    assert f">{scale.text(longest)}</text>" in page


STICKS = {
    "arched": """
unit = "in"
[stock]
thickness = "3/4"
edge_allowance = "1/32"
[stiles]
hinge = "2"
meeting = "1-1/2"
[rails]
top = "2-1/4"
bottom = "2-1/2"
[shape]
kind = "arch"
rise = "1-1/4"
[[bar]]
kind = "mid rail"
width = "1-3/4"
at = "9"
[[door]]
leaves = 2
[door.opening]
width = "27-1/2"
height = "26"
""",
    "glazed": """
unit = "in"
[stock]
thickness = "13/16"
[stiles]
hinge = "2-1/4"
meeting = "1-3/4"
[rails]
top = "2-1/4"
bottom = "3"
[groove]
depth = "5/16"
[joint]
kind = "bridle"
bars = "T-bridle"
[glass]
thickness = "3/32"
[[bar]]
kind = "mullion"
width = "7/8"
[[door]]
leaves = 2
[door.opening]
width = "29-7/16"
height = "33-3/8"
""",
    # Its upright stick ends 6 mm past a seam, which is less than its figure is wide.
    "boarded": """
unit = "mm"
[stock]
thickness = "21.3"
[boarded]
width = "70"
[[door]]
[door.opening]
width = "396"
height = "712"
[[door.bar]]
kind = "mid rail"
""",
}


def of_sticks(name: str) -> Plan:
    return to_plan(STICKS[name]) if name in STICKS else planned(name)[0]


Box = tuple[float, float, float, float]


def boxes(page: pdfplumber.page.Page) -> list[tuple[str, Box]]:
    """Every run of words on a page, each where its letters are, in mm: left, right, top, bottom.
    What stands a letter's width apart is another run."""
    found: list[tuple[str, Box]] = []
    for each in page.extract_words(use_text_flow=True, keep_blank_chars=True, x_tolerance=4):
        middle = (each["top"] + each["bottom"]) / 2
        half = (each["bottom"] - each["top"]) * 0.3  # figures reach no higher and no lower
        box = (each["x0"] / MM, each["x1"] / MM, (middle - half) / MM, (middle + half) / MM)
        found.append((each["text"], box))
    return found


@pytest.mark.parametrize("name", [*STICKS, NAME, "china-cabinet"])
def test_no_words_at_full_size_lie_on_others_or_on_a_mark_and_all_are_on_the_paper(
    name: str,
) -> None:
    plan = of_sticks(name)
    with pdfplumber.open(io.BytesIO(pdf(full_size(plan, "a4")))) as document:
        for page in document.pages:
            found = [each for each in boxes(page) if not each[0].startswith("mm")]
            for words, box in found:
                assert box[0] > 8, words
                assert box[1] < SIZES["a4"][0] - 8, words
            for (one, a), (two, b) in combinations(found, 2):
                apart = a[1] < b[0] or b[1] < a[0] or a[3] < b[2] or b[3] < a[2]
                assert apart, (page.page_number, one, two)
            for x0, x1, y0, y1 in strokes(page):
                if x1 - x0 > 0.1 or y1 - y0 > 40:
                    continue
                for words, box in found:
                    free = x1 < box[0] or x0 > box[1] or y1 < box[2] or y0 > box[3]
                    assert free, (page.page_number, words)


@pytest.mark.parametrize("name", [*STICKS, "wall-cabinet", "key-cupboard", NAME, "pantry"])
def test_every_place_on_a_story_stick_has_its_figure_on_a_tile(name: str) -> None:
    plan = of_sticks(name)
    page = full_size(plan, "a4")
    for stick in story_sticks(plan, Scale.of(plan, for_plan(plan))):
        for word in stick.words:
            assert f">{word.words}</text>" in page
            assert sum(stands_on(word, tile) for tile in tiles(stick)) == 1


marks = st.lists(st.integers(0, 700), min_size=2, max_size=4, unique=True).map(sorted)


@given(marks, st.integers(0, 60), st.integers(4, 17))
def test_figures_of_marks_however_close_lie_apart(
    places: list[int], beyond: int, letters: int
) -> None:
    """Each in a box as wide as it may be, on one tile."""
    told = [(float(place), "8" * letters if place else "") for place in places]
    wide = float(places[-1] + beyond)
    made = [each for each in placed_figures(told, wide) if each.words]
    for one, two in combinations(made, 2):
        if one.row == two.row:
            assert one.x + one.width < two.x or two.x + two.width < one.x
        for low, high in ((one, two), (two, one)):
            if high.row >= low.row:
                assert not low.x <= high.at <= low.x + low.width
    for each in made:
        assert int(each.x / TILE[0]) == int(min(each.at, wide - 1) / TILE[0])
        assert min(abs(each.x - each.at), abs(each.x + each.width - each.at)) < 1.01


def test_every_strip_and_piece_has_its_label_with_the_hand_of_its_wood() -> None:
    for name in ("wall-cabinet", NAME):
        plan, _ = planned(name)
        found = list(labels_of(plan, Scale.of(plan, for_plan(plan))))
        marks = [label.mark for label in found]
        for stick in plan.sticks:
            assert marks.count(stick.mark) >= 1
            for piece in stick.pieces:
                assert marks.count(piece.mark) == 1
        inside = {part.mark: part.inside for part in plan.parts}
        for label in found:
            hand = inside.get(label.mark)
            if hand is not None:
                assert label.left == ("A" if hand == "left" else "B")


def test_labels_print_and_none_leaves_its_box() -> None:
    plan, _ = planned("key-cupboard")
    with pdfplumber.open(io.BytesIO(pdf(labels(plan, "a4")))) as document:
        text = " ".join(page.extract_text() for page in document.pages)
        for part in plan.parts:
            assert part.mark in text
        for page in document.pages:
            for word in page.extract_words():
                assert word["x0"] / MM > 8
                assert word["x1"] / MM < 202


def test_an_arch_is_drawn_round_and_a_peak_is_not() -> None:
    """A circle told by stations comes back within a tenth of a millimetre; straight sides that
    meet in a peak stay straight."""
    radius, half = 300.0, 130.0
    stations = [(-half + n * half / 5, 0.0) for n in range(11)]
    arch = [(x, (radius**2 - x * x) ** 0.5 - radius) for x, _ in stations]
    line = [*arch, (half, 90.0), (-half, 90.0)]
    curves = [(start, run) for start, run in runs(line) if run.startswith("C")]
    assert len(curves) == 10
    for start, run in curves:
        one, two, end = (
            tuple(float(each) for each in place.split(",")) for place in run[1:].split(" ")
        )
        for n in range(1, 8):
            t = n / 8
            x, y = (
                (1 - t) ** 3 * a + 3 * t * (1 - t) ** 2 * b + 3 * t * t * (1 - t) * c + t**3 * d
                for a, b, c, d in zip(start, one, two, end, strict=True)
            )
            assert (x * x + (y + radius) ** 2) ** 0.5 == pytest.approx(radius, abs=0.05)
    peak = [(-130.0, 0.0), (-60.0, 10.77), (0.0, 20.0), (130.0, 0.0), (130.0, 90.0), (-130.0, 90.0)]
    assert all(run.startswith("L") for _, run in runs(peak))
