"""The drawings measured: proportion, places, and that every one of a plan stays inside itself."""

from __future__ import annotations

import re
from contextlib import suppress
from dataclasses import dataclass
from fractions import Fraction
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sequencer.errors import Refusal
from sequencer.instructions.figures import Scale
from sequencer.job.schema import Side
from sequencer.plan import Cut, Plan, Size
from sequencer.records import replace
from sequencer.sheets import html
from sequencer.sheets.axis import END, GAP, axis
from sequencer.sheets.drawings import setup_drawing
from sequencer.sheets.placing import WIDTH, SawView
from sequencer.sheets.section import section
from sequencer.sheets.svg import INK, text_width
from sequencer.sheets.type import wide
from sequencer.wording import Room
from tests import once
from tests.reader.jobs import EXAMPLES, Asked, planned, random_asked
from tests.sheets.jobs import page_of, plan_of
from tests.sheets.test_section import setup

INCH = Scale("in", Fraction(1, 64), Room("UK", Fraction(1, 64)))
NONE = Fraction(0)
SVG = "{http://www.w3.org/2000/svg}"


@dataclass
class Drawn:
    root: ET.Element

    @property
    def width(self) -> float:
        return float(self.root.attrib["viewBox"].split()[2])

    @property
    def height(self) -> float:
        return float(self.root.attrib["viewBox"].split()[3])

    def rects(self, fill: str) -> list[tuple[float, float, float, float]]:
        return [
            (
                float(r.attrib["x"]),
                float(r.attrib["y"]),
                float(r.attrib["width"]),
                float(r.attrib["height"]),
            )
            for r in self.root.iter(f"{SVG}rect")
            if r.attrib["fill"] == fill
        ]

    def words(self) -> list[str]:
        return [t.text or "" for t in self.root.iter(f"{SVG}text")]

    def outside(self) -> list[str]:
        """Words that leave the drawing in the sheets' own face."""
        return [
            words
            for words, (left, right, top, foot) in self.boxes()
            if left < 0 or right > self.width or top < 0 or foot > self.height
        ]

    def crossed(self) -> list[str]:
        """Words that an upright arrow, or any line above the piece, runs through."""
        lines = [
            tuple(float(each.attrib[key]) for key in ("x1", "x2", "y1", "y2"))
            for each in self.root.iter(f"{SVG}line")
            if each.attrib["stroke-width"] in ("0.8", "0.5")
            and "stroke-dasharray" not in each.attrib
        ]
        return [
            words
            for words, (left, right, top, foot) in self.boxes()
            for x1, x2, y1, y2 in lines
            if x1 == x2 and left < x1 < right and min(y1, y2) < foot and max(y1, y2) > top
        ]

    def boxes(self) -> list[tuple[str, tuple[float, float, float, float]]]:
        """All words, each with its left, right, top and foot; capitals are 0.72 of the size."""
        found = []
        for each in self.root.iter(f"{SVG}text"):
            words, size = each.text or "", float(each.attrib["font-size"])
            x, y = float(each.attrib["x"]), float(each.attrib["y"])
            taken = wide(words, size, "font-weight" in each.attrib)
            left = {"start": x, "middle": x - taken / 2, "end": x - taken}[
                each.attrib["text-anchor"]
            ]
            found.append((words, (left, left + taken, y - 0.72 * size, y)))
        return found


def draw(
    size: Size,
    cut: Cut,
    carrier: str,
    guide: Fraction,
    depth: Fraction,
    deck: Fraction = Fraction(0),
    by_eye: bool = False,
    kerf: Fraction = Fraction(1, 8),
    scale: Scale = INCH,
    side: Side = "right",
    behind: Fraction = NONE,
) -> Drawn:
    made = setup(carrier, None if by_eye else guide, depth)
    made = replace(made, height=depth + deck, kerf=kerf)
    seen, _ = section(size, (), made, cut, guide)
    name = {"rip-fence": "fence", "crosscut-sled": "stop", "tenoning-jig": "jig"}[carrier]
    view = SawView(made, seen, (), by_eye, guide, deck, name, "A1, stile", behind)
    view = replace(view, side=side)
    return Drawn(ET.fromstring(setup_drawing(view, scale)))


def test_a_rip_is_drawn_to_proportion() -> None:
    # 2-1/4 in blank, 3/4 in thick, guide 2, kerf 1/8, blade 7/8 in high.
    cut = Cut("#1", "back", "inside-edge", "guide")
    drawn = draw(
        Size(Fraction(30), Fraction(9, 4), Fraction(3, 4)),
        cut,
        "rip-fence",
        Fraction(2),
        Fraction(7, 8),
    )
    (blade,) = drawn.rects(INK)
    (wood,) = drawn.rects("#e2e2e2")
    (fence,) = drawn.rects("#bdbdbd")
    unit = wood[2] / 2.25
    assert blade[2] == pytest.approx(unit / 8, abs=0.02)
    assert wood[3] == pytest.approx(unit * 0.75, abs=0.02)
    assert fence[0] - (blade[0] + blade[2]) == pytest.approx(2 * unit, abs=0.03)
    table = wood[1] + wood[3]
    assert table - blade[1] == pytest.approx(unit * 0.875, abs=0.03)
    assert blade[0] + blade[2] < fence[0], "the fence stands to the right of the blade"
    assert {"distance 2", "kerf 1/8", "height", "7/8", "fence", "face"} <= set(drawn.words())


def test_a_sled_lifts_the_piece_by_its_deck() -> None:
    cut = Cut("A3", "face", "end-A", None)
    drawn = draw(
        Size(Fraction(3), Fraction(2), Fraction(3, 4)),
        cut,
        "crosscut-sled",
        Fraction(15, 8),
        Fraction(1, 4),
        Fraction(3, 4),
    )
    (blade,) = drawn.rects(INK)
    (wood,) = drawn.rects("#e2e2e2")
    unit = wood[3] / 0.75
    deck_top = wood[1] + wood[3]
    assert deck_top - blade[1] == pytest.approx(unit / 4, abs=0.03)
    assert {"depth", "1/4", "height", "1", "stop"} <= set(drawn.words())


def test_a_long_piece_is_broken_and_keeps_its_cut_to_proportion() -> None:
    cut = Cut("#2", "back", "end-A", "guide")
    drawn = draw(
        Size(Fraction(60), Fraction(2), Fraction(3, 4)),
        cut,
        "crosscut-sled",
        Fraction(29),
        Fraction(7, 8),
        Fraction(3, 4),
    )
    (blade,) = drawn.rects(INK)
    (wood,) = drawn.rects("#e2e2e2")
    assert blade[2] / 0.125 == pytest.approx(wood[3] / 0.75, abs=0.1)
    assert "distance 29" in drawn.words()


def test_by_eye_there_is_no_stop_and_no_guide() -> None:
    cut = Cut("#1", "back", None, "larger")
    drawn = draw(
        Size(Fraction(60), Fraction(2), Fraction(3, 4)),
        cut,
        "crosscut-sled",
        Fraction(3, 8),
        Fraction(7, 8),
        Fraction(3, 4),
        True,
    )
    assert not drawn.rects("#bdbdbd")
    assert not any("guide" in words or words == "stop" for words in drawn.words())


def test_a_rounded_height_has_its_decimal_beside_it() -> None:
    cut = Cut("A3", "end-A", "face", None)
    drawn = draw(
        Size(Fraction(12), Fraction(2), Fraction(3, 4)),
        cut,
        "tenoning-jig",
        Fraction(1, 4),
        Fraction(1801, 1000),
    )
    assert {"1 51/64", "(1.801)"} <= set(drawn.words())


@given(
    st.fractions(Fraction(1, 2), Fraction(70), max_denominator=64),
    st.fractions(Fraction(1, 16), Fraction(1), max_denominator=64),
    st.sampled_from(["rip-fence", "crosscut-sled", "tenoning-jig"]),
    st.fractions(Fraction(1, 16), Fraction(5, 2), max_denominator=64),
    st.sampled_from([Fraction(0), Fraction(1, 2), Fraction(3, 4)]),
    st.sampled_from([Fraction(3, 8), Fraction(3, 4), Fraction(2)]),
    st.sampled_from([Fraction(1, 8), Fraction(127, 1000), Fraction(94, 1000)]),
    st.sampled_from([Fraction(1, 64), Fraction(1, 32)]),
    st.booleans(),
)
def test_no_drawing_leaves_its_frame(
    length: Fraction,
    part: Fraction,
    carrier: str,
    depth: Fraction,
    deck: Fraction,
    thickness: Fraction,
    kerf: Fraction,
    graduation: Fraction,
    mirrored: bool,
) -> None:
    size = Size(length, max(thickness, Fraction(2)), thickness)
    cut = {
        "rip-fence": Cut("#1", "inside-edge", "face", None),
        "crosscut-sled": Cut("A3", "face", "end-A", None),
        "tenoning-jig": Cut("A3", "end-A", "face", None),
    }[carrier]
    across = length if carrier == "crosscut-sled" else thickness
    guide = max(part * across - Fraction(1, 8), Fraction(0))
    scale = Scale("in", graduation, Room("UK", graduation))
    drawn = draw(
        size, cut, carrier, guide, min(depth, Fraction(3)), deck,
        kerf=kerf, scale=scale, side="left" if mirrored else "right",
        behind=deck if carrier == "tenoning-jig" else NONE,
    )  # fmt: skip
    assert not drawn.outside()
    assert not drawn.crossed()
    for x, y, width, height in (
        *drawn.rects(INK),
        *drawn.rects("#e2e2e2"),
        *drawn.rects("#bdbdbd"),
        *drawn.rects("#fff"),
    ):
        assert x >= -2
        assert y >= -1
        assert x + width <= drawn.width + 2
        assert y + height <= drawn.height + 1


@pytest.mark.parametrize("name", ["pair", "single"])
def test_words_of_every_drawing_stay_inside_it(name: str) -> None:
    page = re.sub(r"<aside.*?</aside>", "", page_of(name, "letter"), flags=re.DOTALL)
    drawings = re.findall(r"<svg .*?</svg>", page, re.DOTALL)
    found = [Drawn(ET.fromstring(text)) for text in drawings if "<text" in text]
    plan = plan_of(name)
    again = len(re.findall("lies as in the picture|drawn with its measures", page))
    flat = [each for each in found if each.root.attrib.get("class") != "round"]
    assert len(flat) == len(plan.setups) - again + len(plan.sticks) + len(plan.doors) + 1
    assert len(found) - len(flat) > (len(plan.setups) - again) / 2
    for drawn in found:
        assert not drawn.outside(), drawn.root.attrib["aria-label"]


@pytest.mark.parametrize("name", EXAMPLES)
def test_words_of_no_drawing_of_an_example_leave_it_or_are_crossed(name: str) -> None:
    plan, _ = planned(name)
    assert keeps_its_words(plan) > len(plan.sticks)


def test_words_of_no_drawing_of_a_random_job_leave_it_or_are_crossed(
    large: bool, seed: int
) -> None:
    found = 0
    for asked in random_asked(80 if large else 8, seed):
        if isinstance(asked, Asked):
            with suppress(Refusal):
                found += keeps_its_words(once.planned(asked.jobs, asked.shop, seconds=0.3))
    assert found > 20


def keeps_its_words(plan: Plan) -> int:
    """How many drawings of the sheets have words, all inside and free of lines."""
    drawings = re.findall(r"<svg .*?</svg>", html(plan, "letter"), re.DOTALL)
    found = [Drawn(ET.fromstring(text)) for text in drawings if "<text" in text]
    for drawn in found:
        assert not drawn.outside(), drawn.root.attrib["aria-label"]
        if drawn.width == WIDTH:
            assert not drawn.crossed(), drawn.root.attrib["aria-label"]
    return len(found)


@given(
    st.fractions(Fraction(1), Fraction(80), max_denominator=64),
    st.integers(100, 400),
    st.fractions(Fraction(5), Fraction(90), max_denominator=4),
    st.fractions(Fraction(0), Fraction(1), max_denominator=64),
)
def test_an_axis_keeps_order_and_room(
    extent: Fraction, room: int, scale: Fraction, part: Fraction
) -> None:
    at = extent * part
    made = axis(extent, Fraction(room), scale, [(at, at + Fraction(1, 8))])
    marks = sorted({Fraction(0), at, extent})
    drawn = [made.at(mark) for mark in marks]
    assert drawn == sorted(drawn)
    assert made.at(Fraction(0)) == 0
    needed = scale / 8 + 2 * END + 3 * GAP
    assert made.length <= max(Fraction(room), needed + END)


@given(st.text("0123456789 /().guidekerfhtA#", min_size=1, max_size=20))
def test_text_is_never_wider_than_reckoned(text: str) -> None:
    # Advance widths of DejaVu Sans, units of 1/2048 of the size (its hmtx table).
    advance = {
        "0": 1303, "1": 1303, "2": 1303, "3": 1303, "4": 1303, "5": 1303, "6": 1303, "7": 1303,
        "8": 1303, "9": 1303, " ": 651, "/": 690, "(": 799, ")": 799, ".": 651, "g": 1300,
        "u": 1298, "i": 569, "d": 1300, "e": 1260, "k": 1186, "r": 842, "f": 721, "h": 1298,
        "t": 803, "A": 1401, "#": 1716,
    }  # fmt: skip
    assert float(text_width(text, 13)) >= 13 * sum(advance[c] for c in text) / 2048 * 0.97
