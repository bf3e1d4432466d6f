"""Frames over random doors: sizes add up, nothing is negative, panels fit with their play."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from sequencer.doors import Leaf, make_leaves, open_choices
from sequencer.errors import Refusal, SequencerError
from sequencer.job.schema import Job
from sequencer.job.shop import default_shop
from sequencer.measured import Measured
from sequencer.methods import Choices
from sequencer.plan import Part
from sequencer.setups.given import Given
from tests.stages import to_job, to_leaves
from tests.strategies import fine, jobs, units

KERFS = {"in": Fraction(1, 8), "mm": Fraction(16, 5)}


@st.composite
def made(draw: st.DrawFn) -> tuple[Job, tuple[Leaf, ...]]:
    """A random job and its leaves, by one of the combinations of methods open for it."""
    unit = draw(units)
    job = draw(jobs(unit))
    kerf = draw(fine(unit, "5/64", "5/32"))
    try:
        choices = draw(st.sampled_from(open_choices([job], kerf, Measured())))
        return job, make_leaves([job], kerf, Measured(), choices)
    except (Refusal, ValueError):
        assume(False)
        raise


def by_role(leaf: Leaf, role: str) -> list[Part]:
    return [part for part in leaf.parts if part.role == role]


@given(made())
def test_random_doors(drawn: tuple[Job, tuple[Leaf, ...]]) -> None:
    a_door_is_its_stiles_and_the_shoulders_between(drawn[1])
    leaves_and_gaps_fill_the_opening(*drawn)
    nothing_is_negative_and_features_lie_inside(drawn[1])
    a_panel_has_its_play_and_its_groove(drawn[1])
    the_tenon_fills_its_slot(drawn[1])


def a_door_is_its_stiles_and_the_shoulders_between(leaves: tuple[Leaf, ...]) -> None:
    for leaf in leaves:
        stiles = by_role(leaf, "stile")
        for rail in by_role(leaf, "rail"):
            reaches = [
                feature.box[0][1] - feature.box[0][0]
                for at in ("A", "B")
                for feature in rail.features
                if (feature.kind, feature.at) == ("cheek", at)
            ]
            shoulders = rail.size.length - reaches[0] - reaches[2]
            assert leaf.door.size[0] == sum(s.size.width for s in stiles) + shoulders
        proud = (stiles[0].size.length - leaf.door.size[1]) / 2
        assert proud == leaf.spec.joint.proud


def leaves_and_gaps_fill_the_opening(job: Job, leaves: tuple[Leaf, ...]) -> None:
    by_mark = {leaf.door.mark: leaf for leaf in leaves}
    for door in job.doors:
        row = [by_mark[mark] for mark in door.marks]
        gaps = door.gaps.hinge + (
            door.gaps.lock if door.gaps.meeting is None else door.gaps.hinge + door.gaps.meeting
        )
        assert sum(leaf.door.size[0] for leaf in row) + gaps == door.opening.width
        for leaf in row:
            assert leaf.door.size[1] + door.gaps.top + door.gaps.bottom == door.opening.height


def nothing_is_negative_and_features_lie_inside(leaves: tuple[Leaf, ...]) -> None:
    for leaf in leaves:
        for part in leaf.parts:
            size = (part.size.length, part.size.width, part.size.thickness)
            assert min(size) > 0
            for feature in part.features:
                for (low, high), most in zip(feature.box, size, strict=True):
                    assert 0 <= low < high <= most, (part.mark, feature)


def a_panel_has_its_play_and_its_groove(leaves: tuple[Leaf, ...]) -> None:
    for leaf in leaves:
        panel = leaf.fills[0].size
        width, height = leaf.sight
        depth, play = leaf.sizes.groove_depth, leaf.spec.panel
        assert panel.width == width + 2 * depth - 2 * play.play_side
        assert panel.length == height + 2 * depth - 2 * play.play_end
        groove = leaf.sizes.groove[1] - leaf.sizes.groove[0]
        assert 0 < panel.thickness < groove


def the_tenon_fills_its_slot(leaves: tuple[Leaf, ...]) -> None:
    """Slot depth from the sawn end = tenon width + proud, thickness = slot less clearance."""
    for leaf in leaves:
        parts = {part.mark: part for part in leaf.parts}
        for stile in by_role(leaf, "stile"):
            for slot in (f for f in stile.features if f.kind == "slot"):
                assert slot.mate is not None
                mark, end = slot.mate.split("/")
                cheeks = [f for f in parts[mark].features if (f.kind, f.at) == ("cheek", end)]
                thickness = cheeks[1].box[2][0] - cheeks[0].box[2][1]
                assert slot.box[2][1] - slot.box[2][0] - thickness == leaf.spec.joint.clearance
                edges = [f for f in parts[mark].features if (f.kind, f.at) == ("edge-cheek", end)]
                off = edges[0].box[1][1] if edges else leaf.sizes.groove_depth
                depth = slot.box[0][1] - slot.box[0][0]
                assert depth == parts[mark].size.width - off + leaf.spec.joint.proud


SINGLE = """
unit = "in"
name = "one"
species = "cherry"
[stock]
thickness = "3/4"
[[door]]
[door.opening]
width = "15"
height = "20"
"""


def test_the_slot_follows_the_groove_of_a_stated_panel() -> None:
    """Common practice: the slot is set from the groove, so that the groove's pass trims the tenon.
    A 1/4 in panel takes a groove of 0.260, about a third of 3/4."""
    (leaf,) = to_leaves(SINGLE + '[panel]\nthickness = "1/4"\n')
    assert leaf.sizes.slot_width == Fraction("0.26")
    assert leaf.sizes.trimmed


def test_a_thin_panel_leaves_the_slot_at_a_third_and_the_tenon_is_cut_to_width() -> None:
    (leaf,) = to_leaves(SINGLE + '[panel]\nthickness = "1/8"\n')
    assert leaf.sizes.slot_width == Fraction(15, 64)
    assert not leaf.sizes.trimmed
    assert "edge-cheek" in {feature.kind for feature in leaf.parts[2].features}


def test_a_groove_that_would_show_at_the_ends_is_refused() -> None:
    job = SINGLE + '[panel]\nthickness = "3/8"\n[joint]\nslot = "1/4"\n'
    with pytest.raises(SequencerError, match=r"door\.outside-slot"):
        to_leaves(job)


def test_one_slot_depth_for_all_narrows_the_wider_rails_tenon() -> None:
    job = SINGLE + '[rails]\ntop = "2"\nbottom = "2-1/2"\n'
    (leaf,) = to_leaves(job, choices=Choices(slot_depth="common"))
    slots = [f.box[0] for f in leaf.parts[0].features if f.kind == "slot"]
    assert slots[0][1] - slots[0][0] == slots[1][1] - slots[1][0]
    edges = [f.box[1] for f in leaf.parts[3].features if f.kind == "edge-cheek"]
    # 2 1/2 less the tenon of 2 − 1/4: 3/4 comes off its inner edge.
    assert edges == [(Fraction(0), Fraction(3, 4))] * 2


def test_a_slot_cut_a_hair_narrower_than_its_groove_is_kept() -> None:
    """Both are cut when it is measured: the tenon is fitted to the slot that is."""
    job = to_job(SINGLE)
    planned = Fraction(15, 64)
    kerf = Fraction(1, 8)
    measured = Measured(slot={planned: planned - Fraction(1, 500)})
    (leaf,) = make_leaves([job], kerf, measured, Choices())
    assert leaf.sizes.slot_width == planned - Fraction(1, 500)
    assert leaf.sizes.slot_width - leaf.sizes.tenon_thickness == Fraction(1, 256)
    narrow = Measured(slot={planned: planned - Fraction(1, 64)})
    with pytest.raises(Refusal, match="groove-outside-slot"):
        make_leaves([job], kerf, narrow, Choices())


MITRED = """
unit = "in"
[stock]
thickness = "3/4"
[joint]
kind = "mitred bridle"
[[door]]
[door.opening]
width = "12"
height = "16"
[door.groove]
depth = "7/16"
[[door]]
[door.opening]
width = "18"
height = "15"
"""


def test_mitred_tenons_keep_their_widths() -> None:
    """Grooves 7/16 and 1/4 in deep leave tenons 1 9/16 and 1 3/4 in wide. A plain bridle's wider
    one may be narrowed, so that all slots are of one depth; of a mitred one the tip would go."""
    for text, depths in (
        (MITRED, {"each"}),
        (MITRED.replace("mitred ", ""), {"each", "common"}),
    ):
        opened = open_choices([to_job(text)], Fraction(1, 8), Measured())
        assert {choices.slot_depth for choices in opened} == depths


@pytest.mark.parametrize("off_centre", [0, 1, 2])
def test_a_groove_is_turned_where_every_door_has_it_in_the_middle(off_centre: int) -> None:
    """Methods are the batch's: one door off the centre keeps all grooves from being turned."""
    middle = '[[door]]\nopening = { width = "14", height = "20" }\n'
    beside = (
        '[door.joint]\nslot = "5/16"\noffset = "1/4"\n'
        '[door.groove]\nwidth = "3/16"\noffset = "5/16"\n'
    )
    doors = "".join(middle + beside * (n < off_centre) for n in range(2))
    job = to_job(f'unit = "in"\n[stock]\nthickness = "3/4"\n{doors}')
    ways = {choices.groove for choices in Given.of([job], default_shop("in")).open()}
    assert ("turned" in ways) == (off_centre == 0)
    assert ways
