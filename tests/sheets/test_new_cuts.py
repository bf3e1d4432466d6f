"""Leaning blades, the mitre sled, housings, and pieces drawn for themselves: measured in the
drawings, and read in words."""

from __future__ import annotations

from fractions import Fraction
from html import unescape
from xml.etree import ElementTree as ET

import pytest

from sequencer.facts import Length
from sequencer.instructions import words
from sequencer.instructions.bench import bench_words, layout_tables, removal_words, resaw_words
from sequencer.instructions.figures import Scale
from sequencer.plan import Chosen, Cut, Feature, Part, Place, Prism, Removal, Setup, Size
from sequencer.records import replace
from sequencer.saw.measures import Measure, What
from sequencer.sheets import html
from sequencer.sheets.checks import check, in_series
from sequencer.sheets.detailed import piece_lines
from sequencer.sheets.drawings import setup_drawing
from sequencer.sheets.features import feature_words
from sequencer.sheets.mitre import MitreView, hand_of, mitre_drawing
from sequencer.sheets.outline import end_drawing, piece_drawing
from sequencer.sheets.placing import SawView
from sequencer.sheets.section import section
from sequencer.sheets.stock import part_joints, sticks
from sequencer.wording import Room, for_plan
from tests.sheets.jobs import plan_of
from tests.sheets.test_drawings import Drawn
from tests.sheets.test_section import setup
from tests.told import by_name

ROOM = Room("UK")

F = Fraction
INCH = Scale("in", F(1, 64), Room("UK", F(1, 64)))
KERF = F(1, 8)
PANEL = Size(F(20), F(12), F(5, 8))
RAIL = Size(F(12), F(2), F(3, 4))
ZERO = F(0)


def leaning(tilt: Fraction, depth: Fraction, guide: Fraction) -> Setup:
    return replace(setup("rip-fence", guide, depth), tilt=tilt)


EDGE = Cut("A5", "inside-edge", "back", None)


def corners(drawn: Drawn, fill: str) -> list[tuple[float, float]]:
    for path in drawn.root.iter("{http://www.w3.org/2000/svg}path"):
        if path.attrib["fill"] == fill and path.attrib["d"].count("L") == 3:
            numbers = [float(n) for n in path.attrib["d"].strip("MLZ ").replace("L", " ").split()]
            return list(zip(numbers[::2], numbers[1::2], strict=True))
    raise AssertionError(f"nothing of four corners is filled {fill}")


@pytest.mark.parametrize("tilt", [F(-1, 3), F(1, 8)])
def test_a_leaning_blade_is_drawn_leaning_its_way_by_its_measure(tilt: Fraction) -> None:
    made = leaning(tilt, F(5, 4), F(1, 4))
    seen, _ = section(PANEL, (), made, EDGE, F(1, 4))
    view = SawView(
        made, seen, (), False, F(1, 4), ZERO, "tall fence", "A5, panel", ZERO, leans="left 18.4°"
    )
    drawn = Drawn(ET.fromstring(setup_drawing(view, INCH)))
    under, over, over_far, under_far = corners(drawn, "#000")
    (fence,) = drawn.rects("#bdbdbd")
    # Toward the guide is to the right; the kerf is as wide above as below.
    assert (over[0] > under[0]) == (tilt > 0)
    assert over[0] - over_far[0] == pytest.approx(under[0] - under_far[0], abs=0.02)
    assert (over[0] - under[0]) / (under[1] - over[1]) == pytest.approx(float(tilt), abs=0.01)
    # At the table, 6 points above where the drawn blade ends, the guide is 1/4 in.
    unit = (under[0] - under_far[0]) / 0.125
    at_table = under[0] + 6 * float(tilt)
    assert fence[0] - at_table == pytest.approx(unit / 4, abs=0.05)
    assert "blade leans left 18.4°" in drawn.words()
    assert {"tall", "fence", "distance 1/4", "kerf 1/8"} <= set(drawn.words())


def test_what_a_leaning_blade_frees_is_the_wedge_on_the_open_side() -> None:
    # Far side of the kerf 1/4 from the fence; leaning 1 in 3 away it reaches the face, 5/8 from
    # the fence, at a height of 3 · (5/8 - 1/4) = 9/8.
    seen, taken = section(PANEL, (), leaning(F(-1, 3), F(5, 4), F(1, 8)), EDGE, F(1, 8))
    assert seen.loose == (((F(1, 4), ZERO), (F(5, 8), ZERO), (F(5, 8), F(9, 8))),)
    assert (seen.lean, seen.freed, taken) == (F(-1, 3), (), ())


def test_a_leaning_blade_that_stays_inside_frees_nothing() -> None:
    assert section(PANEL, (), leaning(F(-1, 3), F(1), F(1, 8)), EDGE, F(1, 8))[0].loose == ()
    assert section(PANEL, (), leaning(F(1, 8), F(5, 4), F(1, 8)), EDGE, F(1, 8))[0].loose == ()


def test_a_leaning_blade_frees_up_to_a_cut_that_comes_in_from_the_face() -> None:
    # A step 1/16 deep sawn into the face 1 in above the edge, that the leaning kerf meets.
    step = ((ZERO, PANEL.length), (F(1), F(9, 8)), (ZERO, F(1, 4)))
    seen, _ = section(PANEL, (step,), leaning(F(-1, 4), F(5, 4), F(1, 8)), EDGE, F(1, 8))
    top = F(1, 4) + F(1, 4)  # the kerf's far side, 1 in up
    assert seen.loose == (((F(1, 4), ZERO), (F(5, 8), ZERO), (F(5, 8), F(1)), (top, F(1))),)


def test_a_housing_is_nibbled_between_its_shoulders_alone() -> None:
    # Far shoulder at 5, housing 7/4 wide: from 13/4 to 5.
    cut = Cut("A1", "face", "end-A", None, sweep=True, back=F(7, 4))
    made = setup("crosscut-sled", F(5) - KERF, F(1, 4))
    seen, taken = section(RAIL, (), made, cut, F(5) - KERF)
    assert seen.cut[0] == (F(13, 4), F(5))
    assert taken[0] == ((F(13, 4), F(5)), (ZERO, F(2)), (ZERO, F(1, 4)))


TOP_RAIL = Place("A3", (ZERO, ZERO, ZERO), ("+x", "+y", "+z"))
BOTTOM_RAIL = Place("A4", (ZERO, ZERO, ZERO), ("+x", "-y", "+z"))
LEFT_STILE = Place("A1", (ZERO, ZERO, ZERO), ("-y", "-x", "+z"))
RIGHT_STILE = Place("A2", (ZERO, ZERO, ZERO), ("-y", "+x", "+z"))


@pytest.mark.parametrize(
    ("place", "end", "hand"),
    [
        # Worked out with a strip of paper: show face down, outside edge to the person behind
        # it. A top rail's left end then points to the left, so it is cut on the right fence.
        (TOP_RAIL, "end-A", "right"),
        (TOP_RAIL, "end-B", "left"),
        (BOTTOM_RAIL, "end-A", "left"),
        (LEFT_STILE, "end-A", "left"),
        (RIGHT_STILE, "end-A", "right"),
    ],
)
def test_on_which_fence_a_piece_lies(place: Place, end: str, hand: str) -> None:
    cut = Cut(place.mark, "face", end, None, sweep=True)  # type: ignore[arg-type]
    assert hand_of(cut, place.inside) == hand
    assert hand_of(replace(cut, down="back"), place.inside) != hand


def test_the_mitre_sled_from_above() -> None:
    cut = Cut("A3", "face", "end-A", None, sweep=True)
    made = replace(setup("mitre-sled", F(1, 32), F(1, 4)), height=F(3, 4))
    for hand in ("left", "right"):
        view = MitreView(made, RAIL, cut, hand, F(1, 2), "A3, top rail")
        drawn = Drawn(ET.fromstring(mitre_drawing(view, INCH)))
        said = set(drawn.words())
        assert {"end A at stop", "on the 45° fence", "stop to kept line 1/32", "1/4 deep"} <= said
        body = corners(drawn, "#e2e2e2")
        # The kept line lies along the blade: its two corners are one above the other.
        assert body[0][0] == pytest.approx(body[3][0], abs=0.01)
        # The fence's side rises at 45 degrees.
        run, rise = abs(body[1][0] - body[0][0]), abs(body[1][1] - body[0][1])
        assert run == pytest.approx(rise, abs=0.01)
        (blade,) = drawn.rects("#000")
        kept_left = body[1][0] < body[0][0]
        assert kept_left == (hand == "left")
        edge = blade[0] if hand == "left" else blade[0] + blade[2]
        assert edge == pytest.approx(body[0][0], abs=0.01), "the kerf is in the waste"


def test_how_a_piece_lies_on_the_mitre_sled_and_in_a_housing() -> None:
    cuts = [
        Cut("A3", "face", "end-A", None, sweep=True),
        Cut("A3", "face", "end-B", None, sweep=True),
    ]
    assert words.passes(cuts, words.Rest("mitre-sled"), "face", ROOM) == (
        "marked face down, outside edge along the 45° fence, end A at the mitre stop; then slide"
        " away from it pass by pass until all the waste is gone; then the other end on the other"
        " fence"
    )
    (told,) = [
        words.passes(
            [Cut("A1", "face", "end-A", None, True, F(2))],
            words.Rest("crosscut-sled"),
            "face",
            ROOM,
        )
    ]
    assert told.endswith("then slide away from it pass by pass, back to the first kerf")


def bevelled(size: Size) -> Part:
    """Bevels 5/4 wide all round, 1/8 left at the rim, a step of 1/16: 5/8 - 1/8 = 1/2 off there."""
    rim, step = F(1, 2), F(1, 16)

    def prism(axes: str, near: Fraction, far: Fraction, along: Fraction) -> Prism:
        return Prism(axes, ((near, ZERO), (near, rim), (far, step), (far, ZERO)), (ZERO, along))

    prisms = {
        "A": prism("xz", ZERO, F(5, 4), size.width),
        "B": prism("xz", size.length, size.length - F(5, 4), size.width),
        "inside-edge": prism("yz", ZERO, F(5, 4), size.length),
        "outside-edge": prism("yz", size.width, size.width - F(5, 4), size.length),
    }
    features = tuple(Feature("bevel", at, p.box, None, p) for at, p in prisms.items())
    return Part("A5", "A", "panel", by_name("panel"), "cherry", size, features)


def test_a_bevel_is_told_by_width_rim_and_step() -> None:
    assert feature_words(bevelled(PANEL), INCH) == (
        "bevel 1 1/4″ wide, 1/8″ left at the rim, step 1/16″ at the field all round",
    )
    assert part_joints(bevelled(PANEL), Room("UK")) == "bevel all round"


def test_a_profile_shows_the_bevels_slant() -> None:
    drawings = (
        piece_drawing(bevelled(PANEL), INCH, "face", F(560)),
        end_drawing(bevelled(PANEL), INCH, "face"),
    )
    slanting = [
        line
        for drawing in drawings
        for line in ET.fromstring(drawing).iter("{http://www.w3.org/2000/svg}line")
        if line.attrib["stroke"] == "#000"
        and line.attrib["x1"] != line.attrib["x2"]
        and line.attrib["y1"] != line.attrib["y2"]
    ]
    # Two in the view of the inside edge, at its ends; two in the profile.
    assert len(slanting) == 4


@pytest.mark.parametrize(
    ("feature", "said"),
    [
        (
            Feature("rebate", "inside-edge", ((ZERO, F(12)), (ZERO, F(3, 8)), (F(1, 4), F(3, 4)))),
            "rebate 3/8″ wide, 1/2″ deep from the back along the inside edge",
        ),
        (
            Feature("housing", "face", ((F(5), F(7)), (ZERO, F(2)), (ZERO, F(1, 4)))),
            "housing 1/4″ deep, 5″ to 7″ from end A on the marked face",
        ),
        (
            Feature(
                "mitre", "A", ((ZERO, F(2)), (ZERO, F(2)), (ZERO, F(1, 4))), None,
                Prism("xy", ((ZERO, ZERO), (F(2), ZERO), (ZERO, F(2))), (ZERO, F(1, 4))),
            ),
            "mitre 45°, 1/4″ deep from the face, 2″ long at the inside edge at end A",
        ),
    ],
)  # fmt: skip
def test_each_new_feature_in_figures(feature: Feature, said: str) -> None:
    part = Part("A1", "A", "stile", by_name("stile"), "cherry", RAIL, (feature,))
    assert feature_words(part, INCH) == (said,)
    assert "from end A" in Drawn(ET.fromstring(end_drawing(part, INCH, "face"))).words()


def test_a_tongue_is_told_once() -> None:
    across = (F(13, 8), F(2))
    sides = [
        Feature("rebate", "outside-edge", ((ZERO, F(12)), across, z))
        for z in ((ZERO, F(1, 4)), (F(1, 2), F(3, 4)))
    ]
    part = Part("A6", "A", "board", by_name("board 1"), "cherry", RAIL, tuple(sides))
    assert feature_words(part, INCH) == (
        "tongue 3/8″ long, 1/4″ thick, centred along the outside edge",
    )
    assert part_joints(part, Room("UK")) == "tongue"


def test_a_half_lap_is_told_as_one() -> None:
    stile = Feature("slot", "A", ((ZERO, F(2)), (ZERO, F(2)), (F(3, 8), F(3, 4))))
    rail = Feature("cheek", "A", ((ZERO, F(2)), (ZERO, F(2)), (ZERO, F(3, 8))))
    for feature, side in ((stile, "back"), (rail, "face")):
        part = Part("A1", "A", "stile", by_name("stile"), "cherry", RAIL, (feature,))
        assert part_joints(part, Room("UK")) == "half-lap at A"
        assert feature_words(part, INCH) == (f"half-lap 2″ long, 3/8″ off the {side} at end A",)
        assert len(piece_lines(replace(plan_of("pair"), parts=(part,)), INCH)) == 1


ARCH = Prism(
    "xy",
    ((F(2), ZERO), (F(4), F(3, 4)), (F(6), F(1)), (F(8), F(3, 4)), (F(10), ZERO)),
    (ZERO, F(3, 4)),
)


def shaped() -> Part:
    feature = Feature("shape", "inside-edge", ARCH.box, None, ARCH, unproven_by_saw=True)
    return Part("A3", "A", "rail", by_name("top rail"), "cherry", RAIL, (feature,))


def test_what_no_saw_proves_is_marked() -> None:
    plan = replace(plan_of("pair"), parts=(shaped(),))
    (line,) = piece_lines(plan, INCH)
    assert line.bench
    assert line.lines == ("shaped, 1″ at its deepest (at the bench) along the inside edge",)


def test_a_shaped_edge_is_laid_out_from_both_ends() -> None:
    plan = replace(plan_of("pair"), parts=(shaped(),))
    (table,) = layout_tables([Removal("A3", ARCH.box, ARCH)], plan, INCH)
    assert table.columns == ("from end A", "from end B", "in from the inside edge")
    assert table.rows == (
        ("2", "10", "0"), ("4", "8", "3/4"), ("6", "6", "1"), ("8", "4", "3/4"), ("10", "2", "0"),
    )  # fmt: skip
    assert removal_words([Removal("A3", ARCH.box, ARCH)], plan, INCH) == []


def test_a_fine_curve_is_thinned_with_its_last_mark_kept() -> None:
    many = tuple((F(n, 10), F(n * (100 - n), 5000)) for n in range(101))
    prism = Prism("xy", many, (ZERO, F(3, 4)))
    plan = replace(plan_of("pair"), parts=(shaped(),))
    (table,) = layout_tables([Removal("A3", prism.box, prism)], plan, INCH)
    assert len(table.rows) <= 18
    assert (table.rows[0][0], table.rows[-1][0]) == ("0", "10")


def test_a_panels_shaped_end_is_laid_out_from_its_edges() -> None:
    slope = Prism("xy", ((ZERO, ZERO), (F(1), F(2)), (ZERO, F(2))), (ZERO, F(3, 4)))
    plan = replace(plan_of("pair"), parts=(shaped(),))
    (table,) = layout_tables([Removal("A3", slope.box, slope)], plan, INCH)
    assert table.columns == ("from the inside edge", "from the outside edge", "in from end A")
    assert table.rows == (("0", "2", "0"), ("2", "0", "1"))


def test_what_comes_off_edges_and_part_of_ends() -> None:
    plan = replace(plan_of("pair"), parts=(shaped(),))
    along = ((F(1, 32), F(12)), (F(13, 8), F(2)), (ZERO, F(3, 8)))
    at_end = ((F(93, 8), F(12)), (ZERO, F(2)), (F(3, 8), F(3, 4)))
    off = ((ZERO, F(1, 32)), (ZERO, F(2)), (ZERO, F(3, 4)))
    said = removal_words([Removal("A3", box) for box in (along, at_end, off)], plan, INCH)
    assert said == [
        "1/32″ off end A of A3.",
        "A3: 3/8″ from the outside edge, 3/8″ from the face.",
        "A3: 3/8″ from end B, 3/8″ from the back.",
    ]


def test_leaves_that_are_filled_unlike_are_told_apart() -> None:
    plan = plan_of("barred")
    glue = next(step for step in plan.steps if step.kind == "glue-up")
    title, how = bench_words(glue, plan, ROOM)
    assert title == "Glue the corners and bars only"
    assert how.startswith("A, B: Wipe glue out of the rebate.")
    assert " C, D: The panel floats: no glue in the groove." in how
    alike = replace(glue, marks=("A", "B"))
    assert bench_words(alike, plan, ROOM)[1].startswith("Wipe glue out of the rebate.")


def test_many_heights_stand_in_a_table() -> None:
    point = plan_of("pair").checkpoints[0]
    bench = replace(point, knob=None, per_unit=None, scrap=None, setup=None)
    height = Measure(What.EDGE_HEIGHT, "from-left")
    heights = [
        replace(bench, measure=replace(height, which=Length(Fraction(2 * n + 1, 2), "in")))
        for n in (1, 2, 3)
    ]
    span = replace(bench, measure=Measure(What.SPAN))
    middle = replace(bench, measure=Measure(What.EDGE_HEIGHT, "middle"))
    made = check([span, *heights, middle], "", INCH)
    assert [m.name for m in made.measures] == [
        "span between the shoulders", "height of the edge in the middle"
    ]  # fmt: skip
    assert [m.name for m in made.series] == [
        f"height of the edge {n} 1/2″ from the left shoulder" for n in (1, 2, 3)
    ]
    assert check(heights[:2], "", INCH).series == ()
    panes = [
        replace(bench, measure=Measure(What.PANE_WIDTH, which=mark), marks=(mark,))
        for mark in ("A5", "B5", "B6")
    ]
    assert in_series(panes[:2]) == ([], panes[:2])
    assert in_series(panes) == (panes, [])


def test_free_dimensions_and_pieces_made_again_are_printed() -> None:
    plan = plan_of("pair")
    more = {str(F(5, 16)): plan.ordering.minutes + F(3, 2)}
    free = Chosen("groove.depth", "job.toml:3:9", F(1, 4), F(3, 8), F(1, 4), more)
    other = replace(free, key="joint.slot", low=F(1, 4), high=F(5, 16), value=F(9, 32))
    page = html(replace(plan, free=(free, other), again=("A3", "B1")))
    assert "Made again: A3, B1." in page
    assert "groove depth" in page
    assert "1/4 – 3/8" in page
    assert "3/8 cannot be made" in page
    assert "1/4 cannot be made; 5/16: 1½ minutes more" in page
    assert "job.toml:3:9" in page
    assert "Left free" not in html(plan)
    # A slot that no line states was not held to any ends: only its own width stands beside it.
    its_own = {str(F(1, 4)): plan.ordering.minutes}
    drawn = replace(other, place="job.toml:0:1", low=F(7, 32), others=its_own)
    page = html(replace(plan, free=(drawn,)))
    assert "1/4: no quicker" in page
    assert "cannot be made" not in page
    assert "job.toml:0" not in page


def test_matching_panels_are_laid_out_as_one_piece_and_resawn() -> None:
    plan = plan_of("matched")
    first = next(stick for stick in plan.sticks if stick.twin)
    lines = {line.mark: line for line in sticks(plan, INCH)}
    # Two panels, 1/16 planed off each sawn face and the band saw's kerf of 1/16.
    thick = 2 * first.size.thickness + F(3, 16)
    assert lines[first.mark].blank[2] == INCH.figure(thick)
    assert lines[first.mark].note == f"resawn into {first.mark} and {first.twin}"
    assert lines[first.twin or ""].note == f"other half of {first.mark}"
    scale = Scale.of(plan, for_plan(plan))
    (told,) = resaw_words([stick.mark for stick in plan.sticks], plan, scale)
    assert INCH.length(thick) in told
    assert "band saw" in told
    assert told in unescape(html(plan))
    assert resaw_words(["#1"], plan, INCH) == ()
    assert resaw_words([stick.mark for stick in plan.sticks], plan_of("pair"), INCH) == ()


def test_one_line_says_that_no_year_was_computed() -> None:
    plan = plan_of("pair")
    assert plan.seasons == ()
    page = html(plan)
    assert page.count("Your job file gives no moisture or climate") == 1
