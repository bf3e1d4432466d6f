"""Sizes of each joint against figures worked by hand and what the books say of them."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.doors import Leaf, make_leaves
from sequencer.errors import Refusal
from sequencer.job.kinds import CORNER_JOINTS, Glazed
from sequencer.joints import JOINTS
from sequencer.joints.sizes import turned_round, widened
from sequencer.lengths import Unit
from sequencer.measured import Measured
from sequencer.methods import Choices, Marks, Slotting
from sequencer.plan import Part
from sequencer.records import replace
from tests.joints.jobs import KERFS, job
from tests.stages import span, to_job
from tests.told import name_of

F = Fraction
PANE = Glazed(F(1, 8), F(1, 8))


def leaf_of(
    kind: str,
    joint: str = "",
    more: str = "",
    unit: Unit = "in",
    choices: Choices | None = None,
    *,
    glass: bool = False,
) -> Leaf:
    made = to_job(job(kind, joint, more, unit))
    if glass:
        made = replace(made, doors=(replace(made.doors[0], fill=PANE),))
    (leaf,) = make_leaves([made], KERFS[unit], Measured(), choices or Choices())
    return leaf


def rail(leaf: Leaf) -> Part:
    return next(part for part in leaf.parts if name_of(part) == "top-rail")


def between_shoulders(leaf: Leaf, at_back: bool) -> Fraction:
    part = rail(leaf)
    whole = part.size.length
    for feature in part.features:
        if feature.kind == "cheek" and (feature.box[2][0] > 0) == at_back:
            whole -= feature.box[0][1] - feature.box[0][0]
    return whole


@pytest.mark.parametrize("unit", ["in", "mm"])
@pytest.mark.parametrize("kind", CORNER_JOINTS)
def test_a_third_of_the_thickness(kind: str, unit: Unit) -> None:
    """Published: a bridle is gauged in thirds (Fairham, Woodwork Joints, 1921, The Bridle Joint); a
    panel's groove is about a third of the frame's thickness (Noyes, Handwork in Wood, 1910, ch. VII
    no. 42). In whole passes of the kerf the groove comes within a tenth of it."""
    sizes = leaf_of(kind, unit=unit).sizes
    third = sizes.thickness / 3
    assert abs(sizes.groove[1] - sizes.groove[0] - third) <= third / 10
    if kind != "half-lap":
        assert abs(sizes.slot_width - third) <= third / 10
        assert sizes.slot == sizes.groove


@pytest.mark.parametrize("kind", ["bridle", "mitred bridle", "stub tenon"])
def test_the_tenon_fills_what_it_goes_into_but_for_its_clearance(kind: str) -> None:
    sizes = leaf_of(kind).sizes
    assert sizes.slot[0] <= sizes.tenon[0] < sizes.tenon[1] <= sizes.slot[1]
    assert sizes.slot_width - sizes.tenon_thickness == F(1, 256)


def test_a_stub_tenon_is_as_long_as_the_groove_is_deep() -> None:
    """By hand: 15 in less two gaps of 3/32 is 14 13/16; less two stiles of 2 in, 10 13/16 between
    the shoulders; and twice the groove's depth of 1/4 in. Two passes of 1/8 in, less 0.010 in, on
    1/64 in: the groove is 15/64 in wide, the tenon 1/256 in less."""
    leaf = leaf_of("stub tenon")
    assert rail(leaf).size.length == F(181, 16)
    assert between_shoulders(leaf, at_back=False) == F(173, 16)
    assert leaf.parts[0].size.length == leaf.door.size[1], "nothing stands proud"
    assert leaf.sizes.tenon_thickness == F(15, 64) - F(1, 256)
    assert {f.kind for f in leaf.parts[0].features} == {"groove"}
    assert not leaf.trims
    assert not leaf.flush


MIDDLE, OFF = "", '[groove]\nwidth = "1/4"\noffset = "3/16"'


@pytest.mark.parametrize(
    ("groove", "way", "tenon", "centred"),
    [
        (MIDDLE, "turned", ("133/512", "251/512"), True),
        (MIDDLE, "one-face", ("33/128", "125/256"), True),
        (OFF, "turned", ("3/16", "111/256"), False),
    ],
)
def test_where_a_stub_tenon_lies_in_its_groove(
    groove: str, way: Slotting, tenon: tuple[str, str], centred: bool
) -> None:
    """By hand, of 3/4 in: 15/64 in in the middle is from 33/128 to 63/128; off it, from 3/16 to
    7/16. The tenon is 1/256 in thinner: in the middle where the piece is turned round between the
    passes, else with its front cheek where the groove's is."""
    sizes = leaf_of("stub tenon", more=groove, choices=Choices(slot=way, groove=way)).sizes
    assert sizes.groove == (span("3/16", "7/16") if groove else span("33/128", "63/128"))
    assert sizes.tenon == span(*tenon)
    assert sizes.groove_centred == centred


@pytest.mark.parametrize("off", ["-1/500", "1/500", "1/200"])
@pytest.mark.parametrize("kind", ["mitred bridle", "stub tenon"])
def test_a_slot_that_came_out_a_hair_off_asks_for_no_other_cut(kind: str, off: str) -> None:
    """The tenon, or a bar's tongue, is fitted to it within what the groove's pass leaves."""
    made = to_job(job(kind, 'bars = "T-bridle"') + BAR)
    planned = F(15, 64)
    measured = Measured(slot={planned: planned + F(off)})
    usual = make_leaves([made], KERFS["in"], Measured(), Choices())[0]
    (leaf,) = make_leaves([made], KERFS["in"], measured, Choices())
    assert leaf.sizes.slot_width == planned + F(off)
    fitted = leaf.sizes.tongue if kind == "stub tenon" else leaf.sizes.tenon
    assert fitted is not None
    assert leaf.sizes.groove[0] <= fitted[0] < fitted[1] <= leaf.sizes.groove[1]
    air = leaf.sizes.slot_width - (fitted[1] - fitted[0])
    assert F(1, 256) <= air <= F(1, 256) + F(1, 256)
    kinds = [[(f.kind, f.at) for f in part.features] for part in leaf.parts]
    assert kinds == [[(f.kind, f.at) for f in part.features] for part in usual.parts]


def test_a_half_lap_halves_the_thickness() -> None:
    """Published: each piece is halved, at opposite sides (Fairham, Woodwork Joints, 1921, The
    Halved Joint). By hand: half of 3/4 in; a groove of 15/64 in behind it leaves 9/64 in."""
    sizes = leaf_of("half-lap").sizes
    assert sizes.slot == sizes.tenon == span("3/8", "3/4")
    assert sizes.groove == span("3/8", "39/64")


def test_a_half_lap_makes_room_for_a_thick_panel() -> None:
    """By hand: 3/4 less a groove of 0.260 and a wall of 1/8 is 0.365, on 1/64 in 23/64."""
    sizes = leaf_of("half-lap", more='[panel]\nthickness = "1/4"').sizes
    assert sizes.slot[0] == F(23, 64)
    assert sizes.thickness - sizes.groove[1] == F(3, 4) - F(23, 64) - F("0.26")


def test_a_stated_slot_is_the_laps_thickness_and_says_nothing_of_the_groove() -> None:
    """By hand: a lap of 7/16 leaves the stile 5/16; the groove stays 15/64 in wide."""
    sizes = leaf_of("half-lap", joint='slot = "7/16"').sizes
    assert sizes.slot == span("5/16", "3/4")
    assert sizes.groove == (F(5, 16), F(5, 16) + F(15, 64))


def test_the_face_side_in_leaves_a_half_lap_as_it_is() -> None:
    text = job("half-lap")
    into = to_job(text.replace("species", 'face_side = "in"\nspecies', 1))
    (leaf,) = make_leaves([into], KERFS["in"], Measured(), Choices())
    assert leaf.spec.face_side == "in"
    made = leaf.sizes
    assert (made.slot, made.tenon, made.groove) == (
        leaf_of("half-lap").sizes.slot, leaf_of("half-lap").sizes.tenon,
        leaf_of("half-lap").sizes.groove,
    )  # fmt: skip


def test_glass_makes_long_and_short_shoulders() -> None:
    """Common practice: in a rebated frame the shoulders differ by the rebate's depth. By hand:
    10 13/16 in between the shoulders in front, and 1/4 in more at each end behind."""
    leaf = leaf_of("bridle", glass=True)
    assert leaf.sizes.groove == (leaf.sizes.slot[0], F(3, 4))
    assert between_shoulders(leaf, at_back=False) == F(173, 16)
    assert between_shoulders(leaf, at_back=True) == F(173, 16) + F(1, 2)


def test_one_depth_lays_bare_slot_and_tenon_of_a_mitred_bridle() -> None:
    sizes = leaf_of("mitred bridle").sizes
    assert sizes.tenon[0] == sizes.slot[0]
    stile, top = leaf_of("mitred bridle").parts[0], rail(leaf_of("mitred bridle"))
    depths = {f.box[2] for part in (stile, top) for f in part.features if f.kind == "mitre"}
    assert depths == {(F(0), sizes.slot[0])}


def test_a_stiles_mitre_goes_down_to_the_groove_where_its_slot_came_out_wider() -> None:
    """In front of the groove the mitre's tip would lie before it, at the door's end."""
    planned = F(15, 64)
    measured = Measured(slot={planned: planned + F(1, 500)})
    (leaf,) = make_leaves([to_job(job("mitred bridle"))], KERFS["in"], measured, Choices())
    assert leaf.sizes.slot[0] < leaf.sizes.groove[0]
    stile = leaf.parts[0]
    assert {f.box[2] for f in stile.features if f.kind == "mitre"} == {(F(0), leaf.sizes.groove[0])}


def test_a_mitre_runs_from_the_doors_corner_to_the_lights() -> None:
    """By hand: 5/64 in proud, 2 in wide: the line crosses the outside edge 5/64 in from the sawn
    end, and the inside edge 2 in further in."""
    (mitre,) = (
        f for f in leaf_of("mitred bridle").parts[0].features if (f.kind, f.at) == ("mitre", "A")
    )
    assert mitre.prism is not None
    assert set(mitre.prism.corners) == {
        (F(0), F(0)), (F(133, 64), F(0)), (F(5, 64), F(2)), (F(0), F(2)),
    }  # fmt: skip


def test_only_slotted_joints_are_asked_about_slots() -> None:
    assert {name for name, joint in JOINTS.items() if joint.slotted} == {"bridle", "mitred bridle"}


REFUSED = [
    ("mitred bridle", "", '[panel]\nthickness = "1/8"', "mitre-not-trimmed"),
    ("half-lap", "", '[groove]\noffset = "1/4"', "lap-groove-in-front"),
    ("half-lap", 'slot = "5/16"', "", "lap-groove-too-wide.*most=3/16 in"),
    ("half-lap", 'slot = "1/16"', "", "lap-too-thin.*wall=1/8 in"),
    ("half-lap", 'offset = "3/8"', "", "lap-has-no-offset"),
    # A third of 3/4 in for the lap's wall in front and 1/8 in behind leave 3/8 in.
    ("half-lap", "", '[panel]\nthickness = "3/8"', "lap-groove-too-wide.*most=3/8 in"),
    ("stub tenon", "", '[panel]\nplay_end = "1/32"\n[groove]\ndepth = "1/8"', "stub-too-short"),
    ("stub tenon", 'slot = "5/16"', '[panel]\nthickness = "1/4"', "stub-has-no-slot"),
]  # fmt: skip


@pytest.mark.parametrize(("kind", "joint", "more", "why"), REFUSED)
def test_what_cannot_be_is_refused_with_what_would_do(
    kind: str, joint: str, more: str, why: str
) -> None:
    with pytest.raises(Refusal, match=why):
        leaf_of(kind, joint, more)


def changed(kind: str, **changes: object) -> Leaf:
    """The usual door with a mid rail, changed as no job file that is read could say it."""
    made = to_job(job(kind) + BAR)
    (door,) = made.doors
    made = replace(made, doors=(replace(door, **changes),))  # type: ignore[arg-type]  # its fields
    return make_leaves([made], KERFS["in"], Measured(), Choices())[0]


def test_no_mitre_between_pieces_of_unlike_width() -> None:
    with pytest.raises(Refusal, match=r"mitre-widths-differ.*top-rail, width=5/2 in"):
        changed("mitred bridle", top_rail=F(5, 2))


@pytest.mark.parametrize("offset", ["15/64", "17/64"])
def test_no_groove_beside_its_slot(offset: str) -> None:
    """Both 1/4 in wide: at either side it would show at the door's end."""
    plain = to_job(job("bridle")).doors[0]
    slot = replace(plain.joint, slot=F(1, 4))
    with pytest.raises(Refusal, match="groove-outside-slot"):
        changed("bridle", joint=slot, groove=replace(plain.groove, width=F(1, 4), offset=F(offset)))


def test_no_tongue_in_a_half_lapped_frame() -> None:
    straddled = replace(to_job(job("half-lap")).doors[0].joint, bars="T-bridle")
    with pytest.raises(Refusal, match="bar-in-laps"):
        changed("half-lap", joint=straddled)


def test_no_stub_tenon_with_glass() -> None:
    with pytest.raises(Refusal, match="stub-in-glass"):
        leaf_of("stub tenon", glass=True)


BAR = '\n[[bar]]\nkind = "mid rail"\n'
TIGHT = 'bars = "T-bridle"\nslot = "1/4"'
"""From 1/4 to 1/2 in: a groove of 7/32 in leaves the tongue's front or its back outside."""


@pytest.mark.parametrize(
    ("kind", "joint", "more", "glass", "why"),
    [
        ("bridle", 'bars = "stub tenon"', "", True, "stub-bar-in-glass"),
        ("bridle", 'bars = "T-bridle"', '[panel]\nthickness = "1/8"', False, "bar-off-groove"),
        ("bridle", TIGHT, '[groove]\nwidth = "7/32"\noffset = "1/4"', False, "bar-off-groove"),
        ("bridle", TIGHT, '[groove]\nwidth = "7/32"\noffset = "9/32"', False, "bar-off-groove"),
    ],
)  # fmt: skip
def test_bars_that_cannot_be_let_in(
    kind: str, joint: str, more: str, glass: bool, why: str
) -> None:
    with pytest.raises(Refusal, match=why):
        leaf_of(kind, joint, more + BAR, glass=glass)


@pytest.mark.parametrize(
    ("thickness", "least", "wanted"),
    [
        # 10 - 2 x 3.0: the mark next to (10 - 3.2) / 2 = 3.4.
        ("10", "1.2", "4"),
        ("7.35", "1.2", "3.35"),
        # 1.0 would leave less than the least wall; 3.0 is where one kerf lies already.
        ("5.75", "1.2", "3.2"),
        ("9.2", "1.2", "3.2"),
    ],
)
def test_a_kerf_that_is_run_once_more_lies_between_marks(
    thickness: str, least: str, wanted: str
) -> None:
    marks = Marks(F(1, 2), F(1, 2))
    assert turned_round(F(thickness), F("3.2"), F(least), marks) == F(wanted)
    assert turned_round(F(thickness), F("3.2"), F(least), None) == F("3.2")


def test_a_groove_beside_a_plane_is_widened_to_a_mark() -> None:
    """From a plane at 9.5 by a kerf of 3.2 the second pass stands at 9.5 + w - 3.2: at 12.0 for
    5.7, the nearest to 6.0 that two passes make, which reach 6.15."""
    marks, kerf, plane = Marks(F(1, 2), F(1, 2)), F("3.2"), F("9.5")
    wide = widened(F(6), F(8), kerf - plane, kerf, "mm", marks)
    assert wide == F("5.7")
    assert (plane + wide - kerf) % F(1, 2) == 0
    assert widened(F(6), F("5.5"), kerf - plane, kerf, "mm", marks) == F("5.2")
    assert widened(kerf, F(8), kerf - plane, kerf, "mm", marks) == kerf


@pytest.mark.parametrize("face_side", ["out", "in"])
def test_the_fence_stands_on_a_mark_for_a_lapped_frames_groove(face_side: str) -> None:
    """For both its passes from the face; from the back the one beside the plane is given."""
    text = f'face_side = "{face_side}"\n' + job("half-lap", unit="mm")
    (leaf,) = make_leaves(
        [to_job(text)], KERFS["mm"], Measured(), Choices(marks=Marks(F(1, 2), F(1, 2)))
    )
    low, high = leaf.sizes.groove
    start = low if face_side == "out" else leaf.sizes.thickness - high
    passes = (start, start + high - low - KERFS["mm"])
    assert [guide % F(1, 2) == 0 for guide in passes] == [True, face_side == "out"]
