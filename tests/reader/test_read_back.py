"""Paper and page, read back by a reader that knows none of the rooms that wrote them, and sawn
from: what is printed makes the doors that were asked for.

Every example in both dialects; random jobs of every joint and fill on each commit's own seed, in
both units and dialects, the marked face looking out and in, fence and jig on either side.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.job.load import load_job
from sequencer.job.shop import default_shop
from sequencer.records import replace
from sequencer.sheets import html
from tests import once
from tests.benchmarks.paper import alike
from tests.doors.test_slab import SLAB
from tests.reader.chain import run
from tests.reader.jobs import EXAMPLES, Asked, example, planned, random_asked
from tests.reader.seen import lines
from tests.reader.turns import correction, turn
from tests.reader.whole import faults, read_back
from tests.reader.words import Unreadable, passes, side
from tests.sheets.jobs import PAIR
from tests.stages import to_job

MANY = (
    PAIR.replace("leaves = 2", "leaves = 2\ncount = 3")
    + '[[board]]\nthickness = "3/8"\nlength = "40"\nwidth = "6"\ncount = 8\nplaned = true\n'
)


@pytest.mark.parametrize("name", EXAMPLES)
def test_an_example_is_read_back_in_both_dialects(name: str, large: bool, seed: int) -> None:
    """In its own always, in the other on every third commit."""
    plan, asked = planned(name)
    assert read_back(plan, asked.jobs, asked.shop) == []
    if not large and (seed + EXAMPLES.index(name)) % 3:
        return
    other = replace(asked.shop, words="US" if asked.shop.words == "UK" else "UK")
    shop = replace(plan.shop, words=other.words)
    assert read_back(replace(plan, shop=shop), asked.jobs, other) == []


@pytest.mark.parametrize("name", ["spice-cupboard", "china-cabinet", "dresser", "broom-cupboard"])
def test_an_example_is_read_back_with_its_marked_faces_looking_in(name: str) -> None:
    """A stub tenon, a rebate for glass, a mitre with a raised panel, boards: whatever lies
    differently from face to back."""
    plan, asked = planned(name, face="in")
    assert {door.face_side for door in plan.doors} == {"in"}
    assert read_back(plan, asked.jobs, asked.shop) == []
    measures = {str(point.measure) for point in plan.checkpoints}
    said = " ".join(lines(html(plan, "a4")))
    for named, told in (
        ("to-far-cheek/face", "from the show face to the far cheek"),
        ("to-far-cheek/back", "from the marked face to the far cheek"),
    ):
        assert (named in measures) == (told in said)


def test_an_example_is_read_back_in_a_shop_without_a_caliper(seed: int) -> None:
    """What a rule does not tell is tried against what it fits; what fits nothing is looked at, its
    size told."""
    for name in ("wall-cabinet", EXAMPLES[seed % len(EXAMPLES)]):
        asked = example(name)
        shop = replace(asked.shop, tools=replace(asked.shop.tools, caliper=None))
        plan = once.planned(asked.jobs, shop)
        assert read_back(plan, asked.jobs, shop) == []
        unread = [point for point in plan.checkpoints if point.tool == "fit"]
        assert any(str(point.measure) == "stock" for point in unread)
        depths = [point for point in unread if "depth" in str(point.measure)]
        said = " ".join(lines(html(plan, "a4")))
        assert said.count(" by eye") == sum(point.by_eye for point in unread) > len(depths)


@pytest.mark.parametrize(
    ("told", "said", "wrong"),
    [
        ("#7 ☐ Lay", "Lay", "setup 12, step 23: #7 is ripped, and its boards were never glued up"),
        ("#7 of 2 boards, #7/1", "#7/1", "step 1: #7 is milled in one piece, and laid out in"),
        ("), 2 boards, each", "), 3 boards, each", "step 1: #7 is laid out otherwise than of 2"),
        ("9/16″ rough", "11/16″ rough", "step 1: #7: boards 5 11/16 wide, laid out otherwise"),
        ("#7/1, #7/2, 53", "#7/1, #7/3, 53", "step 1: #7: 2 boards, marked #7/1, #7/3"),
        ("from #7/1, #7/2", "from #7/1", "strip #7: 1 boards in the layout, laid out of 2"),
    ],
)
def test_boards_that_are_told_otherwise_where_they_are_glued_up(
    told: str, said: str, wrong: str
) -> None:
    """Laid out, milled, glued up and only then ripped: each as many, and as wide."""
    plan, _ = planned("wall-cabinet")
    seen = lines(html(plan, "a4"))
    assert sum(told in line for line in seen) == 1
    found = faults(plan, [line.replace(told, said) for line in seen], None)
    assert any(each.startswith(wrong) for each in found), found


def test_boards_that_are_told_are_read_back() -> None:
    """A slab of stated boards with no rack, one of as many as its stock asks for, and a batch of
    frames whose panels' strips are alike."""
    for text in (SLAB, SLAB.replace("boards = 4\n", ""), MANY):
        job = to_job(text)
        shop = default_shop(job.unit)
        assert read_back(once.planned([job], shop), [job], shop) == []


def test_a_job_of_many_doors_is_read_back(seed: int) -> None:
    """Marks that follow one another drawn together, strips that are alike laid out and drawn
    once; with more than 26 doors, and few, and with two that differ."""
    for doors, sizes in ((28, 1), (4 + seed % 9, 2), (2, 2)):
        jobs = (load_job(alike(doors, sizes), "job.toml"),)
        shop = default_shop("in")
        assert read_back(once.planned(jobs, shop), jobs, shop) == []


def test_random_jobs_are_read_back(large: bool, seed: int) -> None:
    ran = run(400 if large else 6, seed)
    assert ran.crashed == {}
    assert ran.wrong == {}
    assert ran.proven


def test_random_jobs_are_of_every_kind() -> None:
    """Of both units and dialects, with marked faces either way, jigs and fences on either side."""
    asked = [each for each in random_asked(150, 0) if isinstance(each, Asked)]
    assert {each.name for each in asked} == {"frame", "fill", "joint", "keys"}
    assert {each.jobs[0].unit for each in asked} == {"in", "mm"}
    assert {each.shop.words for each in asked} == {"UK", "US"}
    assert {door.face_side for each in asked for door in each.jobs[0].doors} == {"in", "out"}
    assert {each.shop.saw.fence for each in asked} == {"left", "right"}
    assert {each.shop.jig.side for each in asked} == {"left", "right"}
    assert {each.shop.jig.rides for each in asked} == {"fence", "slot"}
    assert {door.joint.kind for each in asked for door in each.jobs[0].doors} == {
        "bridle", "mitred bridle", "stub tenon", "half-lap",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("text", "face"),
    [
        ("back down, end A at the stop", "in"),
        ("show face down, end A at the stop", "out"),
        ("end A down, the jig", "out"),
        ("turn round, back against the jig", "out"),
        ("end A down, marked face against the jig; and so on", "out"),
    ],
)
def test_what_tells_nobody_how_a_piece_lies_is_not_read(text: str, face: str) -> None:
    with pytest.raises(Unreadable):
        passes(text, face)


def test_the_reader_reads_words() -> None:
    """By hand: which way each knob goes, what is turned when too much is measured, and which face
    is named."""
    moved = turn("fence 1 15/16″ (1.930″) toward the blade")
    assert moved is not None
    assert moved.by is not None
    assert float(moved.by) == -1.93
    assert turn("put the crosscut sled on") is None
    with pytest.raises(Unreadable):
        turn("fence 2 mm up")
    told = correction("Too much: raise blade by half that. Too little: lower it. So.")
    assert told is not None
    assert (told.knob, told.shrinks, float(told.share)) == ("height", False, 0.5)
    with pytest.raises(Unreadable):
        correction("Too much: raise blade by that much. Too little: raise it.")
    felt = "by the thickness of a sheet of paper"
    told = correction(f"Too tight: jig toward {felt}. Too loose: away.")
    assert told is not None
    assert (told.knob, told.shrinks, told.share, told.tight) == ("jig", True, Fraction(1), True)
    with pytest.raises(Unreadable):
        correction(f"Too much: jig toward {felt}. Too little: away.")
    told = correction(
        "Too much: block thicker by that much, paper beside it. Too little: thinner. So."
    )
    assert told is not None
    assert (told.knob, told.shrinks, told.share, told.tight) == ("block", False, Fraction(1), False)
    with pytest.raises(Unreadable):
        correction("Too much: block thinner by that much. Too little: thinner.")
    assert [each.bears for each in passes("end A down, back against the block", "out")] == ["block"]
    assert side("show face", "in") == side("back", "out") == "other"
