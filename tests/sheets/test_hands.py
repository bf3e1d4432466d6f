"""Every picture and sentence shows a piece in its real hand, its marked face as the person sees it,
and the saw as it stands.

What is right is worked out here from vectors in a right-handed room, not by the sheets' own rule.
"""

from __future__ import annotations

import csv
import io
import re
from fractions import Fraction
from itertools import product
from typing import get_args
from xml.etree import ElementTree as ET

import pytest

from sequencer.instructions import words
from sequencer.instructions.figures import Scale
from sequencer.job.schema import Side
from sequencer.plan import Cut, Down, Feature, Hand, Marked, Part, Plan, Size, Stick, StickPiece
from sequencer.records import replace
from sequencer.setups.changes import changed_to
from sequencer.sheets import html
from sequencer.sheets.drawings import setup_drawing
from sequencer.sheets.features import feature_words
from sequencer.sheets.layouts import stick_drawing
from sequencer.sheets.outline import piece_drawing
from sequencer.sheets.pieces import Pieces
from sequencer.sheets.placing import SawView
from sequencer.sheets.section import section, toward
from sequencer.sheets.tables import parts_csv
from sequencer.wording import Room, for_plan
from sequencer.wording.changes import change_words
from tests.proof.test_hands import Vector, determinant, inside, times
from tests.sheets.jobs import BARRED, MITRED, SINGLE, plan_of
from tests.sheets.test_drawings import INCH, Drawn
from tests.sheets.test_section import setup
from tests.stages import to_job, to_plan, to_shop
from tests.told import by_name

ROOM = Room("UK")

F = Fraction
HANDS: tuple[Hand, Hand] = ("left", "right")
SIDES: tuple[Side, Side] = ("left", "right")
IN = 'face_side = "in"\n'
RIGHT, UP, EYE = (1, 0, 0), (0, 1, 0), (0, 0, 1)
NORMAL = {"end-A": (0, -1), "end-B": (0, 1), "inside-edge": (1, -1), "outside-edge": (1, 1),
          "face": (2, -1), "back": (2, 1)}  # fmt: skip
"""Which of a piece's axes each side of it looks along, and which way."""


@pytest.mark.parametrize(("hand", "side"), list(product(HANDS, SIDES)))
def test_the_side_that_looks_at_the_person(hand: Hand, side: Side) -> None:
    """However a piece is held, its axes in the room are those of a piece of its hand."""
    for down, against in product(get_args(Down), repeat=2):
        if NORMAL[down][0] == NORMAL[against][0]:
            continue
        near = toward(Cut("A1", down, against, None), hand, side)
        axes: dict[int, Vector] = {}
        guide = RIGHT if side == "right" else times(RIGHT, -1)
        for surface, looks in ((against, guide), (down, times(UP, -1)), (near, EYE)):
            axis, sign = NORMAL[surface]
            axes[axis] = times(looks, sign)
        frame = (axes[0], axes[1], axes[2])
        assert determinant(frame) == (1 if hand == "right" else -1)
        assert inside(frame) == hand


def test_a_guide_on_the_left_is_drawn_there() -> None:
    size = Size(F(30), F(9, 4), F(3, 4))
    cut = Cut("#1", "back", "inside-edge", "guide")
    made = setup("rip-fence", F(2), F(7, 8))
    made = replace(made, height=F(7, 8))
    seen, _ = section(size, (), made, cut, F(2))
    view = SawView(made, seen, (), False, F(2), F(0), "fence", "A1, stile", F(0), "near: back")
    pictures = [
        Drawn(ET.fromstring(setup_drawing(replace(view, side=side), INCH))) for side in SIDES
    ]
    for picture, side in zip(pictures, SIDES, strict=True):
        (blade,) = picture.rects("#000")
        (fence,) = picture.rects("#bdbdbd")
        assert (fence[0] < blade[0]) == (side == "left")
        (waste,) = (r for r in picture.root.iter() if r.attrib.get("stroke-dasharray") == "3 2")
        assert (float(waste.attrib["x"]) > blade[0]) == (side == "left")
    left, right = pictures
    assert left.words() == right.words()
    assert left.rects("#bdbdbd")[0][0] == pytest.approx(
        right.width - sum(right.rects("#bdbdbd")[0][::2]), abs=0.02
    )


# --- strips -------------------------------------------------------------------------------------


@pytest.mark.parametrize(("end", "marked"), list(product(HANDS, ("face", "back"))))
def test_a_strip_is_drawn_as_its_marked_face_is_seen(end: Hand, marked: Marked) -> None:
    """The inside edge below; end A on its side, or the other where the marked face looks in."""
    size = Size(F(20), F(2), F(3, 4))
    laid = StickPiece("A1", F(1, 2), end, remarked=False)
    stick = Stick("#1", "oak", size, size, (laid,), marked=marked)
    part = Part("A1", "A", "stile", by_name("stile"), "oak", Size(F(15), F(2), F(3, 4)), (), end)
    plan = replace(plan_of("pair"), parts=(part,), sticks=(stick,), steps=(), scrap=())
    drawn = ET.fromstring(stick_drawing(stick, Pieces(plan), F(10), INCH))
    said = {t.text: t for t in drawn.iter("{http://www.w3.org/2000/svg}text")}
    middle = float(said["A1 15"].attrib["x"])
    at_left = float(said["A"].attrib["x"]) < middle
    assert at_left == ((end == "left") == (marked == "face"))
    # The waste at the squared end is the shorter: 1/2 of 4-1/2 in.
    (wood,) = (r for r in Drawn(drawn).rects("#e2e2e2"))
    assert (wood[0] < 20) == (marked == "face")
    heavy = [
        line
        for line in drawn.iter("{http://www.w3.org/2000/svg}line")
        if line.attrib["stroke-width"] == "3"
    ]
    assert [float(line.attrib["y1"]) for line in heavy] == [wood[1] + wood[3]]


def test_the_crosscut_says_which_end_is_at_the_stop() -> None:
    plan = plan_of("pair")
    page = re.sub(r"<[^>]+>", " ", html(plan, "letter"))
    rows = {row["mark"]: row for row in csv.DictReader(io.StringIO(parts_csv(plan)))}
    ends = set()
    for stick in plan.sticks:
        for piece in stick.pieces:
            # The squared end, at the stop, is the strip's left one.
            end = "A" if piece.end_a == "left" else "B"
            said = rf"{piece.mark}\s+from {stick.mark}, end {end} at the stop"
            assert re.search(said, page), said
            if piece.mark in rows:
                row = rows[piece.mark]
                assert (row["stick"], row["at_stop"]) == (stick.mark, f"end {end} at the stop")
                assert row["inside"] == piece.end_a
                ends.add(end)
    assert ends == {"A", "B"}


# --- pieces drawn for themselves ------------------------------------------------------------------


@pytest.mark.parametrize(("hand", "marked"), list(product(HANDS, ("face", "back"))))
def test_a_piece_is_drawn_in_the_hand_that_is_seen_on_its_marked_face(
    hand: Hand, marked: Marked
) -> None:
    rebate = Feature("rebate", "inside-edge", ((F(0), F(20)), (F(0), F(3, 8)), (F(1, 2), F(3, 4))))
    size = Size(F(20), F(2), F(3, 4))
    part = Part("A1", "A", "stile", by_name("stile"), "oak", size, (rebate,), hand)
    drawn = ET.fromstring(piece_drawing(part, INCH, marked, Fraction(560)))
    heavy = next(
        float(line.attrib["y1"])
        for line in drawn.iter("{http://www.w3.org/2000/svg}line")
        if line.attrib["stroke-width"] == "3" and float(line.attrib["x1"]) == 1
    )
    ends = next(
        float(t.attrib["y"])
        for t in drawn.iter("{http://www.w3.org/2000/svg}text")
        if t.text == "A"
    )
    below = ends - heavy < 20  # the letters stand under the face view
    # On paper x is to the right, y up, and what looks at the eye is what is drawn: the show face,
    # or where the back is marked, the back.
    through = times(EYE, -1 if marked == "face" else 1)
    frame = (RIGHT, UP if below else times(UP, -1), through)
    assert inside(frame) == hand
    # The rebate is in the back: dashed where the show face is seen, open where the back is.
    dashed = [
        p
        for p in drawn.iter("{http://www.w3.org/2000/svg}path")
        if p.attrib.get("stroke-dasharray") == "3 2"
    ]
    assert len(dashed) == (1 if marked == "face" else 0)
    (said,) = feature_words(part, INCH, marked)
    side = "back" if marked == "face" else "face"
    assert said == f"rebate 3/8″ wide, 1/4″ deep from the {side} along the inside edge"


# --- a marked face that looks in ------------------------------------------------------------------


def text_of(plan: Plan) -> str:
    return " ".join(re.sub(r"<[^>]+>", " ", html(plan, "a4")).split())


def test_the_marked_face_is_the_back_where_it_looks_in() -> None:
    plan = to_plan(SINGLE)
    assert {stick.marked for stick in plan.sticks} == {"back"}
    page = text_of(plan)
    # The sticks are ripped back down, and the back is marked.
    assert "Rip: marked face down" in page
    assert "back down" not in page
    out = text_of(to_plan(SINGLE.replace(IN, "")))
    assert "Rip: back down" in out
    assert "show face down" not in out


def test_mitres_and_rebates_are_told_on_their_own_side() -> None:
    """A mitre is in the show face, a rebate for glass in the back."""
    mitred = to_plan(MITRED.replace('unit = "in"\n', f'unit = "in"\n{IN}', 1))
    page = text_of(mitred)
    assert "deep from the show face" in page
    assert "Nibble the corner away to 45°: show face down" in page
    glazed = to_plan(BARRED.replace('unit = "mm"\n', f'unit = "mm"\n{IN}', 1))
    page = text_of(glazed)
    told = r"rebate [\d./ ]+ mm wide, [\d./ ]+ mm deep from the ([\w ]+?) along"
    rebates = re.findall(told, page)
    assert rebates
    assert set(rebates) == {"face"}
    assert "width of the rebate in the marked face" in page
    assert "width of the rebate in the back" not in page


def test_passes_are_told_by_the_marked_face() -> None:
    cuts = (Cut("A1", "end-A", "face", None), Cut("A1", "end-A", "back", None))
    assert words.passes(cuts, words.Rest("tenoning-jig"), "face", ROOM) == (
        "end A down, marked face against the jig; turn round, back against the jig"
    )
    assert words.passes(cuts, words.Rest("tenoning-jig"), "back", ROOM) == (
        "end A down, show face against the jig; turn round, marked face against the jig"
    )


def test_a_distance_from_the_marked_face_is_measured_from_it() -> None:
    """A groove 1/8 to 3/8 from the show face, in 3/4: 3/8 from the back."""
    groove = Feature("groove", "inside-edge", ((F(0), F(20)), (F(0), F(1, 4)), (F(1, 8), F(3, 8))))
    part = Part(
        "A1", "A", "stile", by_name("stile"), "oak", Size(F(20), F(2), F(3, 4)), (groove,), "left"
    )
    scale = Scale("in", F(1, 64), Room("US"))
    assert "1/8″ from the marked face" in feature_words(part, scale, "face")[0]
    assert "3/8″ from the marked face" in feature_words(part, scale, "back")[0]


# --- the saw's sides ------------------------------------------------------------------------------

SAW = 'unit = "in"\n[saw]\nfence = "{fence}"\ntilts = "{tilts}"\n[jig]\nside = "{jig}"\n'


@pytest.mark.parametrize(("fence", "tilts"), list(product(SIDES, SIDES)))
def test_a_blade_never_leans_toward_the_fence(fence: Side, tilts: Side) -> None:
    """Whatever side the fence is used on, for the bevel it is on the other than the blade leans."""
    plan = to_plan(MITRED, SAW.format(fence=fence, tilts=tilts, jig="left"))
    (bevel,) = (s for s in plan.setups if s.tilt)
    other = {"left": "right", "right": "left"}
    assert plan.shop.guide_side(bevel.carrier, bevel.tilt) == other[tilts]
    assert bevel.tilt < 0
    room = for_plan(plan)
    said = " ".join(change_words(change, plan, room) for change in bevel.changes)
    assert f"tilt the blade {tilts} " in said
    assert "away from the fence" in said
    moved = f"set the fence, on the {other[tilts]} of the blade, to" in said
    assert moved == (fence == tilts)
    for made in plan.setups:
        if made.carrier == "tenoning-jig":
            assert plan.shop.guide_side(made.carrier, made.tilt) == "left"
        elif made.carrier == "rip-fence" and not made.tilt:
            assert plan.shop.guide_side(made.carrier, made.tilt) == fence


def test_the_fence_is_said_to_cross_only_where_it_does() -> None:
    shop = to_shop(SAW.format(fence="left", tilts="right", jig="right"), to_job(MITRED))
    assert changed_to("fence", None, "2", None, F(2), shop, F(0)).side is None
    crossing = to_shop(SAW.format(fence="right", tilts="right", jig="right"), to_job(MITRED))
    assert changed_to("fence", None, "2", None, F(2), crossing, F(-1, 8)).side == "left"
