"""Hands and waste in the pictures and beside them: on the right side, and to be read.

Which way things fall is worked out here from the saw's sides alone.
"""

from __future__ import annotations

import re
from fractions import Fraction as F  # noqa: N817
from functools import cache
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from sequencer.instructions.falling import falling
from sequencer.instructions.figures import Scale
from sequencer.job.load import load_job
from sequencer.job.schema import Side
from sequencer.job.shop import default_shop
from sequencer.plan import Plan
from sequencer.records import replace
from sequencer.sheets import svg
from sequencer.sheets.blocks import blocks
from sequencer.sheets.type import wide
from sequencer.wording import Room, for_plan
from tests.proof.plans import make_plan
from tests.test_cautions import page_of, words_of

EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "spice-cupboard" / "job.toml"


@cache
def made() -> Plan:
    job = load_job(EXAMPLE.read_text("utf-8"), "job.toml")
    return make_plan([job], default_shop(job.unit))


def sided(side: Side) -> Plan:
    plan = made()
    return replace(plan, shop=replace(plan.shop, fence_side=side, jig_side=side))


def pictures(plan: Plan) -> dict[str, ET.Element]:
    """The picture of each kind of cut, by the first words of its setup's title."""
    found: dict[str, ET.Element] = {}
    for block in blocks(plan, Scale.of(plan, for_plan(plan))):
        if block.picture:
            found.setdefault(block.title, ET.fromstring(block.picture))
    return found


def words(picture: ET.Element) -> dict[str, float]:
    """Each text with where it is anchored."""
    return {"".join(e.itertext()): float(e.attrib["x"]) for e in picture if e.tag.endswith("text")}


def boxes(picture: ET.Element, fill: str) -> list[tuple[float, float]]:
    """Left and right of each rectangle so filled."""
    return [
        (float(e.attrib["x"]), float(e.attrib["x"]) + float(e.attrib["width"]))
        for e in picture.iter()
        if e.tag.endswith("rect") and e.attrib["fill"] == fill
    ]


@pytest.mark.parametrize("side", ["left", "right"])
def test_what_holds_is_named_and_no_hand_comes_near_the_blade(side: Side) -> None:
    shown = pictures(sided(side))
    held = {
        "Rip to width": {"push stick"},
        "Groove, first pass": {"push block, above"},
        "Square ends": {"hand"},
        "Crosscut": {"hand"},
        "Shoulders": {"hand"},
        "Tenon cheeks": {"jig’s clamp, above"},
    }
    every = {"hand", "clamp", "push stick", "push block, above", "jig’s clamp, above"}
    for title, wanted in held.items():
        picture = shown[title]
        assert every & words(picture).keys() == wanted, title
        hatched = [e for e in picture if e.attrib.get("stroke-width") == "0.6"]
        assert len(hatched) == 1, title
        ((left, right),) = boxes(picture, svg.INK)
        xs = [float(x) for x in re.findall(r"[ML](\S+) ", hatched[0].attrib["d"])]
        assert min(xs) <= left, title
        assert right <= max(xs) + 5, title


@pytest.mark.parametrize("side", ["left", "right"])
def test_waste_is_dark_and_lies_where_it_falls(side: Side) -> None:
    """Beyond the blade from fence or jig; what is squared off on the stop's side, at the right."""
    shown = pictures(sided(side))
    for title, way in (
        ("Rip to width", "left" if side == "right" else "right"),
        ("Tenon cheeks", "left" if side == "right" else "right"),
        ("Square ends", "right"),
    ):
        ((left, right),) = boxes(shown[title], svg.INK)
        for waste in boxes(shown[title], svg.WASTE):
            assert waste[1] <= left + 0.02 if way == "left" else waste[0] >= right - 0.02, title
        assert boxes(shown[title], svg.WASTE), title
    # What goes on to be cut is no waste.
    assert not boxes(shown["Crosscut"], svg.WASTE)


@pytest.mark.parametrize("side", ["left", "right"])
def test_each_setup_tells_in_one_line_what_falls(side: Side) -> None:
    plan = sided(side)
    away = "left" if side == "right" else "right"
    said = {
        block.title: [line for line in block.below if "falls" in line]
        for block in blocks(plan, Scale.of(plan, for_plan(plan)))
    }
    leave = "leave it until the blade stops."
    assert said["Rip to width"] == [f"The waste strip falls to the {away}; {leave}"]
    assert said["Square ends"] == [f"The offcut falls to the right; {leave}"]
    assert said["Crosscut"][0].endswith(f"falls to the left; {leave}")
    assert said["Tenon cheeks"] == [f"The cheek falls to the {away}; {leave}"]
    assert said["Shoulders"] == said["Groove, first pass"] == []


def test_a_strip_that_is_cut_up_is_told_as_what_comes_off() -> None:
    plan = made()
    cuts = [cut for step in plan.steps for cut in step.cuts if cut.keeps == "guide"]
    assert {c.waste.what for c in cuts if c.waste} == {"strip", "rest", "offcut"}
    line = falling(cuts, plan.setups[0], plan, Room("US"))
    assert line == "What comes off falls to the left; leave it until the blade stops."


def test_every_word_stays_inside_the_picture() -> None:
    for side in ("left", "right"):
        for title, picture in pictures(sided(side)).items():
            broad = float(picture.attrib["viewBox"].split()[2])
            for each in picture:
                if each.tag.endswith("text") and each.attrib.get("y"):
                    size = F(each.attrib["font-size"])
                    taken = wide("".join(each.itertext()), float(size))
                    at, anchor = float(each.attrib["x"]), each.attrib["text-anchor"]
                    left = at - {"start": 0, "middle": taken / 2, "end": taken}[anchor]
                    assert left > -2, (title, "".join(each.itertext()))
                    assert left < broad


def test_the_page_tells_at_each_cut_what_falls() -> None:
    """In the paper's words; of a card that cuts another step of the setup, that step's alone."""
    plan, job = made(), load_job(EXAMPLE.read_text("utf-8"), "job.toml")
    room = for_plan(plan)
    told = 0
    for number, card in page_of(plan, job, default_shop(job.unit)):
        if card["kind"] not in ("work", "test"):
            continue
        (step,) = (
            step for step in plan.steps if step.number == int(re.findall(r"\d+", card["n"])[0])
        )
        line = falling(step.cuts, plan.setups[(number or 0) - 1], plan, room)
        assert words_of(card["how"]).endswith(line), card["n"]
        assert ("falls to the" in words_of(card)) == bool(line)
        told += bool(line)
    assert told > 10


def test_on_the_mitre_sled_no_hand_comes_near_either() -> None:
    """Seen from above the row lies across the blade, whose line stands in its middle."""
    text = 'unit = "in"\n[stock]\nthickness = "3/4"\n[joint]\nkind = "mitred bridle"\n'
    text += '[[door]]\n[door.opening]\nwidth = "12"\nheight = "18"\n'
    plan = make_plan([load_job(text, "job.toml")], default_shop("in"))
    shown = [each for each in pictures(plan).values() if "from above" in words(each)]
    assert shown
    for picture in shown:
        (blade,) = (ends for ends in boxes(picture, svg.INK) if ends[1] - ends[0] > 2)
        assert abs(words(picture)["no hands"] - 3 - sum(blade) / 2) < 40
