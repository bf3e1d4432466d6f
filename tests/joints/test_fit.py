"""Mating pieces in their places: nowhere both, and nowhere neither but where air is meant to be."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from sequencer.doors import Leaf, make_leaves, open_choices
from sequencer.errors import InputError, Refusal
from sequencer.job.kinds import CORNER_JOINTS, Glazed
from sequencer.job.schema import Measured
from sequencer.plan import Span
from tests.joints.jobs import KERFS, job, random_jobs
from tests.joints.wood import Piece, Point, points, there
from tests.stages import to_job


def corners(leaf: Leaf) -> dict[str, tuple[Span, Span]]:
    """The four corners of a door, as wide as its stiles and as high as its rails."""
    width, height = leaf.door.size
    hinge, free = leaf.spec.hinge_stile, leaf.spec.free_stile
    left, right = (hinge, free) if leaf.door.hinge == "left" else (free, hinge)
    zero = Fraction(0)
    across = {"left": (zero, left), "right": (width - right, width)}
    up = {"top": (height - leaf.spec.top_rail, height), "bottom": (zero, leaf.spec.bottom_rail)}
    return {f"{v} {h}": (across[h], up[v]) for v in up for h in across}


def check_corners(leaf: Leaf) -> None:
    """Both pieces nowhere; neither only in the clearance, and in the groove or rebate where the
    panel's corner, or the tenon's trimmed edge, leaves it open."""
    places = {place.mark: place for place in leaf.door.places}
    pieces = [Piece.of(part, places[part.mark]) for part in leaf.frame]
    sizes = leaf.sizes
    for name, (across, up) in corners(leaf).items():
        region = (across, up, (Fraction(0), sizes.thickness))
        mating = there(pieces, region)
        for point in points(mating, region):
            found = [piece.mark for piece in mating if piece.has(point)]
            assert len(found) < 2, (name, found, _shown(point))
            if not found:
                assert _meant(leaf, name, across, up, point), (name, _shown(point))


def _meant(leaf: Leaf, name: str, across: Span, up: Span, point: Point) -> bool:
    sizes = leaf.sizes
    x, y, z = point
    beside = sizes.slot[0] < z < sizes.slot[1] and not sizes.tenon[0] <= z <= sizes.tenon[1]
    if beside:
        return True
    vertical, horizontal = name.split()
    from_light_x = across[1] - x if horizontal == "left" else x - across[0]
    from_light_y = y - up[0] if vertical == "top" else up[1] - y
    rail = leaf.parts[2 if vertical == "top" else 3]
    trimmed = [f.box[1][1] for f in rail.features if f.kind == "edge-cheek"]
    open_height = max(sizes.groove_depth, *trimmed, Fraction(0))
    in_groove = sizes.groove[0] < z < sizes.groove[1]
    return in_groove and from_light_x < sizes.groove_depth and from_light_y < open_height


def _shown(point: Point) -> str:
    return ", ".join(f"{float(value):.4f}" for value in point)


@pytest.mark.parametrize("unit", ["in", "mm"])
@pytest.mark.parametrize("kind", CORNER_JOINTS)
def test_the_usual_door_of_each_joint(kind: str, unit: str) -> None:
    made = to_job(job(kind, unit=unit))  # type: ignore[arg-type]  # both are units
    kerf = KERFS[made.unit]
    for choices in open_choices([made], kerf, Measured()):
        (leaf,) = make_leaves([made], kerf, Measured(), choices)
        check_corners(leaf)


@pytest.mark.parametrize("kind", ["bridle", "mitred bridle", "half-lap"])
def test_a_door_for_glass(kind: str) -> None:
    """A rebate in the groove's place; rails with long and short shoulders close its ends."""
    made = to_job(job(kind))
    pane = Glazed(Fraction(1, 8), Fraction(1, 8))
    made = replace(made, doors=(replace(made.doors[0], fill=pane),))
    (leaf,) = make_leaves(
        [made], KERFS["in"], Measured(), open_choices([made], KERFS["in"], Measured())[0]
    )
    assert leaf.sizes.rebated
    check_corners(leaf)


@pytest.mark.parametrize("kind", CORNER_JOINTS)
@settings(max_examples=40)
@given(st.data())
def test_random_doors(kind: str, data: st.DataObject) -> None:
    text, _, kerf = data.draw(random_jobs(kind))
    try:
        made = to_job(text)
        choices = data.draw(st.sampled_from(open_choices([made], kerf, Measured())))
        (leaf,) = make_leaves([made], kerf, Measured(), choices)
    except (InputError, Refusal):
        assume(False)
        raise
    check_corners(leaf)
