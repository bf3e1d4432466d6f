"""The bench's work on a shaped top rail and its panel, and on meeting stiles that lap over each
other: what to lay out, and when it is good. The saw proves none of it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from sequencer.cuts.context import Context
from sequencer.cuts.model import Check, Operation
from sequencer.doors import Leaf
from sequencer.doors.layout import Mark, Shaped
from sequencer.facts import Fact, Length, feels
from sequencer.plan import Removal
from sequencer.saw.kinds import KindName
from sequencer.saw.measures import Measure, What
from sequencer.saw.operation import OperationId
from sequencer.trade import fits


def shape(leaf: Leaf, context: Context, wanted: set[str]) -> Iterator[Operation]:
    """What makes the shape, of those pieces that are wanted. Kinds: shape, shaped groove, shape
    panel."""
    made = leaf.shaped
    if made is None:
        return
    if made.rail in wanted:
        yield _bench(
            OperationId(made.rail, "shape"),
            "shape",
            made.rail,
            _edge(leaf, made, context),
            made.edge,
        )
        yield _bench(
            OperationId(made.rail, "shaped-groove"),
            "shaped groove",
            made.rail,
            _groove(leaf, made, context),
            made.groove,
        )
    if made.panel in wanted:
        yield _bench(
            OperationId(made.panel, "shape"),
            "shape panel",
            made.panel,
            _top(leaf, made, context),
            made.top,
        )


def rebate_meeting(leaf: Leaf, context: Context) -> Iterator[Operation]:
    """The leaves of a pair rebated over each other, once they are flush. Kind: rebate meeting."""
    if not leaf.rebated:
        return
    mark, right = leaf.door.mark, leaf.door.hinge == "right"
    side = "back" if right else "face"
    if leaf.spec.face_side == "in":
        side = "marked" if right else "face"
    half = leaf.sizes.thickness / 2
    checks = (
        _even(
            Measure(What.MEETING_WIDTH, side),
            leaf.spec.meeting_rebate,
            feels.RIGHT_OPENS_FIRST() if right else feels.LEFT_STAYS_SHUT(),
            mark,
            context,
        ),
        _half(half, Measure(What.MEETING_DEPTH, side), mark, context),
    )
    yield Operation(
        OperationId(mark, "rebate"),
        "rebate meeting",
        mark,
        checks=checks,
        removes=leaf.rebated,
        marks=(mark,),
    )


def _half(target: Fraction, measure: Measure, mark: str, context: Context) -> Check:
    """Half the thickness, so that both leaves' faces come flush."""
    band = context.fact(fits.FIT_BAND)
    feel = feels.HALF_THICKNESS()
    return Check(measure, target, target - band, target + band, feel, (mark,))


def _bench(
    name: OperationId,
    kind: KindName,
    mark: str,
    checks: Iterator[Check],
    removes: tuple[Removal, ...],
) -> Operation:
    return Operation(name, kind, mark, checks=tuple(checks), removes=removes, marks=(mark,))


def _edge(leaf: Leaf, made: Shaped, context: Context) -> Iterator[Check]:
    curve = made.curve
    yield _even(
        Measure(What.SPAN),
        curve.span,
        feels.SHAPE_ENDS(),
        made.rail,
        context,
    )
    if curve.radius is not None:
        yield _even(Measure(What.ARCH), curve.radius, feels.TRAMMEL(), made.rail, context)
    for mark in _proving(made.rail_marks, curve.span):
        yield _even(
            _laid_out(What.EDGE_HEIGHT, mark, leaf, context),
            mark.height,
            feels.FROM_LOWER_EDGE(along=_through(made, "the-other-shoulder", context)),
            made.rail,
            context,
        )


def _groove(leaf: Leaf, made: Shaped, context: Context) -> Iterator[Check]:
    """On the router table, a bearing or a curved fence against the edge."""
    low, high = leaf.sizes.groove
    face = low if leaf.spec.face_side == "out" else leaf.sizes.thickness - high
    band = context.fact(fits.FIT_BAND) / 2
    for what, target, feel in (
        (What.SHAPED_GROOVE_PLACE, face, feels.FACE_DOWN()),
        (What.SHAPED_GROOVE_WIDTH, high - low, feels.SAME_PANEL()),
    ):
        yield Check(Measure(what), target, target - band, target + band, feel, (made.rail,))
    depth = made.groove_depth
    yield Check(
        measure=Measure(What.SHAPED_GROOVE_DEPTH),
        target=depth,
        low=depth - context.fact(fits.DEPTH_EDGE),
        high=depth + context.fact(fits.DEPTH_BAND),
        feel=feels.SQUARE_TO_EDGE(),
        marks=(made.rail,),
    )


def _top(leaf: Leaf, made: Shaped, context: Context) -> Iterator[Check]:
    radius = made.curve.radius
    if radius is not None:
        reach = made.groove_depth - leaf.spec.panel.play_end
        feel = feels.RAILS_CENTRE()
        yield _even(Measure(What.PANEL_ARCH), radius + reach, feel, made.panel, context)
    width = next(part.size.width for part in leaf.fills if part.mark == made.panel)
    for mark in _proving(made.panel_marks, width):
        yield _even(
            _laid_out(What.PANEL_TOP, mark, leaf, context),
            mark.height,
            feels.IN_DRY_FRAME(along=_through(made, "the-other-corner", context)),
            made.panel,
            context,
        )


def _proving(marks: Sequence[Mark], span: Fraction) -> tuple[Mark, ...]:
    """Of all that is laid out, what tells whether it came out right: the ends and the middle where
    they lie off the straight edge, and along a curve the mark nearest a quarter of the span."""
    inner = [mark for mark in marks if mark.at and mark.end != "middle"]
    quarter = min(inner, key=lambda mark: abs(mark.at - span / 4), default=None)
    return tuple(mark for mark in marks if mark.height and (mark is quarter or mark not in inner))


def _laid_out(what: What, mark: Mark, leaf: Leaf, context: Context) -> Measure:
    """At the mark itself, or so far from either end, the left or the right one, as it is seen on
    the marked face: on one that looks in, left and right change over."""
    end: str = mark.end
    if leaf.spec.face_side == "in":
        end = {"left": "right", "right": "left"}.get(end, end)
    if end == "middle" or not mark.at:
        return Measure(what, end)
    return Measure(what, f"from-{end}", Length(mark.at, context.unit))


def _through(made: Shaped, other: str, context: Context) -> Fact:
    if made.curve.radius is None:
        return feels.STRAIGHT_LINE(to=other)
    step = Fraction(1, 1000) if context.unit == "in" else Fraction(1, 100)
    return feels.BATTEN(step=Length(step, context.unit))


def _even(measure: Measure, target: Fraction, feel: Fact, mark: str, context: Context) -> Check:
    band = context.fact(fits.LENGTH_BAND)
    return Check(measure, target, target - band, target + band, feel, (mark,))
