"""Values that are sooner a slip: asked about, and answered by the file; defaults said in words."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.errors import InputError
from sequencer.facts import Length, files
from sequencer.job.load import load_job
from sequencer.job.ranges import ranges
from sequencer.job.said_default import said_defaults
from sequencer.job.schema import Job
from sequencer.job.shop import load_shop
from sequencer.lengths import Unit, convert
from sequencer.records import replace

HEAD = 'unit = "in"\n{top}\n[stock]\nthickness = "3/4"\n{tables}\n'
DOOR = '[[door]]\n{door}\n[door.opening]\nwidth = "30"\nheight = "40"\n'


def job(top: str = "", tables: str = "", door: str = "") -> Job:
    return load_job((HEAD + DOOR).format(top=top, tables=tables, door=door), "job.toml")


def faults(top: str = "", tables: str = "", door: str = "") -> list[str]:
    with pytest.raises(InputError) as caught:
        job(top, tables, door)
    return [str(fault.message) for fault in caught.value.faults]


def same(one: Job, other: Job) -> bool:
    """Whether the doors are, wherever they stand."""
    return [replace(door, where="") for door in one.doors] == [
        replace(door, where="") for door in other.doors
    ]


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_the_ranges_of_both_units_are_nearly_the_same(unit: Unit) -> None:
    """Each is a figure of its own unit, within a tenth of the other's."""
    other: Unit = "mm" if unit == "in" else "in"
    assert ranges(unit).keys() == ranges(other).keys()
    for key, known in ranges(unit).items():
        assert known.low < known.high
        for own, theirs in (
            (known.low, ranges(other)[key].low), (known.high, ranges(other)[key].high),
        ):  # fmt: skip
            assert 0.9 < own / convert(theirs, other, unit) < 1.12, key


@pytest.mark.parametrize("key", ranges("in"))
def test_pasted_millimetres_and_inches_are_caught(key: str) -> None:
    """The middle of a range in millimetres, written bare into a file in inches, is asked about;
    so is the middle of one in inches in a file in millimetres, but for the widest ranges."""
    inches, mm = ranges("in")[key], ranges("mm")[key]
    assert not inches.holds((mm.low + mm.high) / 2)
    if inches.high * 2 < mm.low * 3:
        assert not mm.holds((inches.low + inches.high) / 2)


def test_a_question_is_answered_by_the_file() -> None:
    wide = '[rails]\nbottom = "18"'
    (said,) = faults(tables=wide)
    known = ranges("in")["rails.bottom"]
    value, low, high = (Length(each, "in") for each in (Fraction(18), known.low, known.high))
    assert said == str(files.UNUSUAL(key="rails.bottom", value=value, low=low, high=high))
    assert job('sure = ["rails.bottom"]', wide).doors[0].bottom_rail == 18


def test_a_shop_is_asked_and_answers() -> None:
    text = 'unit = "in"\n{}[jig]\nrides = "fence"\nthickness = "40"\n'
    with pytest.raises(InputError, match=r"file\.unusual\(key=jig\.thickness, value=40 in"):
        load_shop(text.format(""), "shop.toml", "in")
    sure = load_shop(text.format('sure = ["jig.thickness"]\n'), "shop.toml", "in")
    assert sure.jig.thickness == 40


def test_a_free_dimension_is_asked_about_at_both_its_ends() -> None:
    (said,) = faults(tables='[stiles]\nhinge = "2 to 50"')[:1]
    assert "key=stiles.hinge, value=50 in" in said


@pytest.mark.parametrize("wood", ["chery", "Cherr, black", "mapel", "yelow poplar"])
def test_a_wood_spelt_nearly_right_is_asked_about(wood: str) -> None:
    assert faults(f'species = "{wood}"') == [str(files.UNKNOWN_WOOD(wood=wood))]
    assert job(f'species = "{wood}"\nsure = ["species"]').doors[0].species == wood


@pytest.mark.parametrize("wood", ["rosewood", "teak", "hardwood", "MDF", "pear", "oak, white"])
def test_other_woods_and_known_ones_are_taken_as_they_are(wood: str) -> None:
    assert job(f'species = "{wood}"').doors[0].species == wood


def test_every_default_in_words_may_be_written_out() -> None:
    """Each is read as if the key were left out."""
    words_of = said_defaults("job")
    tables = {name.partition(".")[0] for name in words_of}
    assert tables >= {"stiles", "slab", "boarded", "board"}  # for pairs and other fills
    for table in ("rails", "hardware", "joint", "groove", "panel"):
        keys = "\n".join(
            f'{name.partition(".")[2]} = "{words.upper()}"'
            for name, words in words_of.items()
            if name.startswith(f"{table}.")
        )
        assert same(job(tables=f"[{table}]\n{keys}"), job())
    bar = '[[door.bar]]\nkind = "mid rail"\n'
    told = f'{bar}at = "equal lights"\nwidth = "as rails.top"\n'
    assert same(job(door=told), job(door=bar))
    shop = load_shop('unit = "in"\n[saw]\nfence_height = "ordinary"\n', "s", "in")
    assert shop.saw.fence_height is None
    assert said_defaults("shop") == {"saw.fence_height": "ordinary"}


def test_a_door_says_the_default_over_the_file() -> None:
    made = job(tables='[joint]\nslot = "7/32"', door='[door.joint]\nslot = "about a third"')
    assert made.doors[0].joint.slot is None
    assert job(tables='[joint]\nslot = "7/32"').doors[0].joint.slot is not None


def test_a_raised_panel_needs_no_more_than_its_table() -> None:
    """Two thirds of 3/4 in and of 19 mm, rounded down: flush with a frame grooved in its middle
    third."""
    door = job(tables="[raised]").doors[0]
    assert door.fill is not None
    assert door.panel.thickness == Fraction(1, 2)


def test_a_pair_needs_no_gap_of_its_own() -> None:
    """Air of 1/16 in and a two-hundredth of four stiles 2 in wide: 0.1025 in, on the next 64th. Of
    narrow ones the usual gap."""
    pair = "leaves = 2"
    assert job(door=pair).doors[0].gaps.meeting == Fraction(7, 64)
    narrow = '[stiles]\nhinge = "1 1/4"'
    assert job(tables=narrow, door=pair).doors[0].gaps.meeting == Fraction(3, 32)
    year = '[wood]\nmoisture = "8"\n[room]\nregion = "most of the US"'
    moved = job('species = "cherry"', year, pair).doors[0].gaps.meeting
    assert moved is not None
    assert moved >= Fraction(3, 32)
    free = '[stiles]\nhinge = "2 to 3"'
    assert job(tables=free, door=pair).doors[0].free
