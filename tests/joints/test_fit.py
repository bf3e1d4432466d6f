"""Mating pieces in their places: nowhere both, and nowhere neither but where air is meant to be."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from sequencer.doors import BARS, Leaf, make_leaves, open_choices
from sequencer.errors import InputError, Refusal
from sequencer.job.kinds import BAR_JOINTS, CORNER_JOINTS, Glazed
from sequencer.measured import Measured
from sequencer.plan import Span
from sequencer.records import replace
from tests.joints.jobs import KERFS, job, random_jobs
from tests.joints.wood import Piece, Point, points, there
from tests.stages import to_job

TEES = [
    (kind, bars)
    for kind in CORNER_JOINTS
    for bars in BAR_JOINTS
    if (kind, bars) != ("half-lap", "T-bridle")
]
"""Which joints of bars go with which joints at the corners."""


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


def check_tees(leaf: Leaf) -> int:
    """The same where bars are let into crosspieces; how many such places there are."""
    places = {place.mark: place for place in leaf.door.places}
    pieces = {part.mark: Piece.of(part, places[part.mark]) for part in leaf.frame}
    seen = 0
    for bar in (part for part in leaf.frame if part.role in BARS):
        mates = {f.mate.partition("/")[0] for f in bar.features if f.at in ("A", "B") and f.mate}
        for mark in sorted(mates):
            across, along = pieces[mark], pieces[bar.mark]
            region = _let_in(along, across)
            for point in points([across, along], region):
                found = [piece.mark for piece in (across, along) if piece.has(point)]
                assert len(found) < 2, (found, _shown(point))
                if not found:
                    assert _meant_at_tee(leaf, along, across, point), (mark, _shown(point))
            seen += 1
    return seen


def _let_in(bar: Piece, across: Piece) -> tuple[Span, Span, Span]:
    """As wide as the bar and as wide as what it is let into."""
    x, y, z = across.bounds
    upright = bar.place.axes[0][1] == "y"
    return (bar.bounds[0], y, z) if upright else (x, bar.bounds[1], z)


def _meant_at_tee(leaf: Leaf, bar: Piece, across: Piece, point: Point) -> bool:
    sizes = leaf.sizes
    upright = bar.place.axes[0][1] == "y"
    z = point[2]
    beside_axis, into_axis = (0, 1) if upright else (1, 0)
    near = min(abs(point[beside_axis] - end) for end in bar.bounds[beside_axis])
    deep = min(abs(point[into_axis] - end) for end in across.bounds[into_axis])
    stub = leaf.spec.joint.bars == "stub tenon"
    channel, tenon = (sizes.groove, sizes.stub) if stub else (sizes.slot, sizes.tongue)
    assert tenon is not None
    if channel[0] < z < channel[1] and not tenon[0] <= z <= tenon[1]:
        return True
    # The panels' corners beside the bar, and the panel on the crosspiece's other side.
    in_groove = sizes.groove[0] < z < sizes.groove[1]
    slotted = sizes.slot[0] < z < sizes.slot[1]
    other_side = across.mark not in {f"{leaf.door.mark}{n}" for n in (1, 2, 3, 4)}
    corner = near < sizes.groove_depth and deep < sizes.groove_depth and in_groove
    return corner or (other_side and deep < sizes.groove_depth and (in_groove or slotted))


@pytest.mark.parametrize("unit", ["in", "mm"])
@pytest.mark.parametrize("kind", CORNER_JOINTS)
def test_the_usual_door_of_each_joint(kind: str, unit: str) -> None:
    made = to_job(job(kind, unit=unit))  # type: ignore[arg-type]  # both are units
    kerf = KERFS[made.unit]
    for choices in open_choices([made], kerf, Measured()):
        (leaf,) = make_leaves([made], kerf, Measured(), choices)
        check_corners(leaf)


BARRED = {
    "a mid rail": ('[[bar]]\nkind = "mid rail"\n', 2),
    "a mullion": ('[[bar]]\nkind = "mullion"\n', 2),
    "both, one beside the other": (
        '[[bar]]\nkind = "mid rail"\n[[bar]]\nkind = "mullion"\nrow = 1\n',
        4,
    ),
}


@pytest.mark.parametrize("bars", BARRED)
@pytest.mark.parametrize("unit", ["in", "mm"])
@pytest.mark.parametrize("joints", TEES, ids=" ".join)
def test_bars_let_in(joints: tuple[str, str], unit: str, bars: str) -> None:
    kind, let_in = joints
    text, places = BARRED[bars]
    made = to_job(job(kind, f'bars = "{let_in}"', unit=unit) + text)  # type: ignore[arg-type]  # a unit
    kerf = KERFS[made.unit]
    for choices in open_choices([made], kerf, Measured())[:4]:
        (leaf,) = make_leaves([made], kerf, Measured(), choices)
        check_corners(leaf)
        assert check_tees(leaf) == places


def glazed(text: str) -> tuple[Leaf, ...]:
    """The leaves of a job with a pane in place of its panel."""
    made = to_job(text)
    pane = Glazed(Fraction(1, 8), Fraction(1, 8))
    made = replace(made, doors=tuple(replace(door, fill=pane) for door in made.doors))
    usual = open_choices([made], KERFS["in"], Measured())[0]
    return make_leaves([made], KERFS["in"], Measured(), usual)


@pytest.mark.parametrize(
    ("kind", "bars"),
    [
        (kind, bars)
        for kind in ("bridle", "mitred bridle")
        for bars in ("", "a mid rail", "a mullion")
    ]
    + [("half-lap", "")],  # no T-bridle goes with it, and no stub tenon with glass
)
def test_a_door_for_glass(kind: str, bars: str) -> None:
    """A rebate in the groove's place; rails with long and short shoulders close its ends, and a
    bar's back is let into a narrower housing than its front."""
    text, places = BARRED[bars] if bars else ("", 0)
    (leaf,) = glazed(job(kind, 'bars = "T-bridle"') + text)
    assert leaf.sizes.rebated
    check_corners(leaf)
    assert check_tees(leaf) == places


def check_random_doors(kind: str, data: st.DataObject) -> None:
    text, _, kerf = data.draw(random_jobs(kind))
    try:
        made = to_job(text)
        choices = data.draw(st.sampled_from(open_choices([made], kerf, Measured())))
        (leaf,) = make_leaves([made], kerf, Measured(), choices)
    except (InputError, Refusal):
        assume(False)
        raise
    check_corners(leaf)
    check_tees(leaf)


@pytest.mark.parametrize("kind", CORNER_JOINTS)
@settings(max_examples=20)
@given(st.data())
def test_random_doors(kind: str, data: st.DataObject) -> None:
    check_random_doors(kind, data)


@pytest.mark.large
@pytest.mark.parametrize("kind", CORNER_JOINTS)
@settings(max_examples=150)
@given(st.data())
def test_many_random_doors(kind: str, data: st.DataObject) -> None:
    check_random_doors(kind, data)
