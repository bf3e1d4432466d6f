"""Widths and places through the thickness that joints have in common.

A groove, a slot and the tenon between lie on one line: the slot holds the groove's range (else a
void would show at the door's end), and a tenon is what it goes into less its clearance.
"""

from __future__ import annotations

from fractions import Fraction
from math import ceil, floor

from sequencer.errors import Refusal
from sequencer.facts import Length, parts
from sequencer.job.schema import Door
from sequencer.joints.base import JointSizes
from sequencer.lengths import Unit
from sequencer.measured import Measured
from sequencer.methods import Choices, Marks
from sequencer.passes import free_width, needed
from sequencer.plan import Span
from sequencer.trade import fits

ZERO = Fraction(0)


def in_line(
    door: Door, kerf: Fraction, unit: Unit, measured: Measured, choices: Choices
) -> JointSizes:
    """Groove, slot and tenon in line.

    Free widths (neither stated nor given by a panel) are what whole passes of the kerf make,
    about a third of the thickness; a free slot takes the groove's width where that is from a
    quarter to a half of the thickness, so that the groove's pass trims the tenon. A rebate for
    glass goes from the slot's front to the back.
    Raises `Refusal` where the groove would leave the slot's range.
    """
    thickness = measured.thickness.get(door.thickness, door.thickness)
    groove_width = panel_groove(door, thickness, kerf, unit, choices, door.joint.slot)
    slot_width = door.joint.slot
    if choices.dado is not None and slot_width is None:
        slot_width = choices.dado.kerf
    if slot_width is None:
        follows = not door.glazed and thickness / 4 <= groove_width <= thickness / 2
        slot_width = groove_width if follows else third(thickness, kerf, unit, choices.marks)
    # A slot that came out a hair narrower than its groove, both being cut, is what it is: the
    # tenon is fitted to it.
    hair = fits.FIT_BAND.of(unit) if slot_width in measured.slot else ZERO
    slot_width = measured.slot.get(slot_width, slot_width)
    slot = placed(door, thickness, slot_width, door.joint.offset)
    centred = slot[0] + slot[1] == thickness
    turned = centred and choices.slot != "one-face"
    tenon = inside(slot, door, thickness, turned=turned)
    if door.glazed:
        rebate = (slot[0], thickness)
        return JointSizes(
            thickness, slot, tenon, rebate, door.groove.depth, ZERO, centred,
            groove_centred=False, tongue=tenon,
        )  # fmt: skip
    offset = door.groove.offset
    if offset is None and door.joint.offset is not None:
        offset = door.joint.offset + (slot_width - groove_width) / 2
    groove = placed(door, thickness, groove_width, offset)
    if not (slot[0] - hair <= groove[0] and groove[1] <= slot[1] + hair):
        raise Refusal(
            parts.GROOVE_OUTSIDE_SLOT(
                where=door.where,
                groove=Length(groove_width, unit),
                slot=Length(slot_width, unit),
            )
        )
    return JointSizes(
        thickness=thickness,
        slot=slot,
        tenon=tenon,
        groove=groove,
        groove_depth=door.groove.depth,
        panel=panel_edge(door, groove_width, unit),
        slot_centred=centred,
        groove_centred=is_centred(groove, thickness),
        stub=tenon if groove == slot else in_groove(door, groove, thickness, choices),
        tongue=trimmed(tenon, groove, fits.FIT_BAND.of(unit)),
    )


def trimmed(tenon: Span, groove: Span, hair: Fraction) -> Span:
    """The part of a tenon that the groove's pass leaves, where that is all but a `hair` of it: a
    slot that came out a hair wide asks for no other cut. The tenon itself where it is less."""
    left = (max(tenon[0], groove[0]), min(tenon[1], groove[1]))
    return left if left[1] - left[0] >= tenon[1] - tenon[0] - hair else tenon


def panel_groove(
    door: Door,
    thickness: Fraction,
    kerf: Fraction,
    unit: Unit,
    choices: Choices,
    slot: Fraction | None = None,
) -> Fraction:
    """The groove's width: stated, from the panel, as a stated `slot`, or about a third."""
    if door.groove.width is not None:
        return door.groove.width
    if door.held is not None:
        return door.held + fits.PANEL_FIT.of(unit)
    if slot is not None:
        return slot
    if choices.dado is not None:
        return choices.dado.kerf
    return third(thickness, kerf, unit, choices.marks)


def panel_edge(door: Door, groove_width: Fraction, unit: Unit) -> Fraction:
    """How thick a panel's edge is: stated, or planed to suit the groove."""
    return groove_width - fits.PANEL_FIT.of(unit) if door.held is None else door.held


def through(door: Door, stile_width: Fraction) -> Fraction:
    """How long a tenon is that goes right through the stile and stands proud: through the wider
    stile at both ends where tenons are of one length."""
    one = door.joint.tenons == "one length"
    width = max(door.hinge_stile, door.free_stile) if one else stile_width
    return width + door.joint.proud


def beside_groove(door: Door) -> tuple[Fraction, Fraction]:
    """The tenons' widths as the groove leaves them, of the top and of the bottom rail."""
    return door.top_rail - door.groove.depth, door.bottom_rail - door.groove.depth


class Through:
    """What corner joints have in common whose rails go right through: ends stand proud until they
    are planed, and tenons are as wide as the groove leaves them."""

    def proud(self, door: Door) -> Fraction:
        return door.joint.proud

    def reach(self, door: Door, stile_width: Fraction) -> Fraction:
        return through(door, stile_width)

    def tenon_widths(
        self, door: Door, deepest: Fraction | None = None
    ) -> tuple[Fraction, Fraction]:
        return beside_groove(door)


def third(thickness: Fraction, kerf: Fraction, unit: Unit, marks: Marks | None) -> Fraction:
    """About a third of the thickness, in whole passes of the kerf: the joint is gauged in thirds
    (Fairham, Woodwork Joints, 1921, The Bridle Joint). Of the widths that take no more passes, one
    that leaves walls as wide as a mark of the scale, where there is one near enough."""
    overlap = fits.OVERLAP.of(unit)
    usual = free_width(thickness / 3, kerf, overlap, fits.WIDTH_STEP.of(unit))
    if marks is None or usual == kerf:
        return usual
    passes = needed(usual, kerf, overlap)
    least, most = fits.SLOT_LEAST * thickness, fits.SLOT_MOST * thickness
    walls = marks.guides((thickness - most) / 2, (thickness - least) / 2)
    widths = {thickness - 2 * wall for wall in walls}
    near = [usual, *(w for w in widths if kerf < w and needed(w, kerf, overlap) <= passes)]
    return min(near, key=lambda w: (marks.missed((thickness - w) / 2), abs(w - usual), w))


def turned_round(
    thickness: Fraction, kerf: Fraction, least: Fraction, marks: Marks | None
) -> Fraction:
    """How wide a groove is that a single kerf makes, run once more with the piece turned round, so
    that it comes out in the middle wherever the fence stands: on the mark nearest to the kerf's own
    place that leaves the `least` wall. One kerf where there is no such mark, or it lies there."""
    wall = (thickness - kerf) / 2
    at = ZERO if marks is None else wall // marks.fence * marks.fence
    return thickness - 2 * at if at >= least and at > ZERO else kerf


def widened(
    usual: Fraction, most: Fraction, past: Fraction, kerf: Fraction, unit: Unit, marks: Marks | None
) -> Fraction:
    """The width nearest to the `usual` one, up to `most`, that is `past` and whole steps of the
    fence's scale, so that the pass which widens a groove stands on a mark too; no more passes are
    taken than for the usual one. That where no width does, or one kerf makes it."""
    overlap = fits.OVERLAP.of(unit)
    if marks is None or usual == kerf:
        return usual
    steps = range(ceil((kerf - past) / marks.fence), floor((most - past) / marks.fence) + 1)
    widths = (past + n * marks.fence for n in steps)
    passes = needed(usual, kerf, overlap)
    near = [w for w in widths if w > kerf and needed(w, kerf, overlap) <= passes]
    return min(near, key=lambda w: (abs(w - usual), w), default=usual)


def placed(door: Door, thickness: Fraction, width: Fraction, offset: Fraction | None) -> Span:
    """The z-range `width` wide at `offset` from the face side, centred where that is `None`."""
    if offset is None:
        offset = (thickness - width) / 2
    start = offset if door.face_side == "out" else thickness - offset - width
    return (start, start + width)


def inside(channel: Span, door: Door, thickness: Fraction, *, turned: bool) -> Span:
    """A tenon's z-range in `channel`, less its clearance. Cut from the face side, both share that
    cheek: the clearance lies behind it, and the faces stay flush."""
    width = channel[1] - channel[0] - door.joint.clearance
    if turned:
        start = (thickness - width) / 2
    else:
        start = channel[0] if door.face_side == "out" else channel[1] - width
    return (start, start + width)


def in_groove(door: Door, groove: Span, thickness: Fraction, choices: Choices) -> Span:
    """A stub tenon's z-range."""
    turned = is_centred(groove, thickness) and choices.groove == "turned"
    return inside(groove, door, thickness, turned=turned)


def is_centred(span: Span, thickness: Fraction) -> bool:
    return span[0] + span[1] == thickness
