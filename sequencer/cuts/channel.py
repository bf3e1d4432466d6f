"""Slots and grooves: a channel wider than the kerf, cut in passes from one face or from both.

A slot (on end, in the tenoning jig) and a groove (on edge, along the fence) differ only in their
carrier and in what they are called; the passes are the same.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Literal

from msgspec import Struct

from sequencer.cuts.context import Context, exactly, turned_slotting
from sequencer.cuts.model import Operation, ScrapTest
from sequencer.errors import Refusal
from sequencer.facts import Length, feels, refusals
from sequencer.job.schema import FaceSide
from sequencer.passes import from_one_face, needed, turned
from sequencer.plan import Against, CarrierName, Cut, Down, Part, Span
from sequencer.records import replace
from sequencer.saw.measures import Measure, What
from sequencer.saw.operation import OperationId, between
from sequencer.trade import fits
from sequencer.trade.requirements import FLUSH


class Channel(Struct, frozen=True):
    """`what` is slot or groove; `name` is all of its operations' but the pass; `span` its z-range
    in stock `thickness` thick; `depth` from the edge or end that is `down`; `scrap` what it is
    tried on; `takes` what a groove is made for."""

    name: OperationId
    what: Literal["slot", "groove"]
    mark: str
    carrier: CarrierName
    down: Down
    span: Span
    depth: Fraction
    thickness: Fraction
    face_side: FaceSide
    scrap: str
    takes: Literal["panel", "tongue"] = "panel"

    @property
    def width(self) -> Fraction:
        return self.span[1] - self.span[0]


def cut_slots(
    part: Part, face_side: FaceSide, scrap: str, context: Context, *, centred: bool
) -> Iterator[Operation]:
    """Every slot in a part's ends, on end in the tenoning jig; `centred` ones may be cut by turning
    the part round."""
    for feature in part.features:
        if feature.kind != "slot":
            continue
        along, _, span = feature.box
        channel = Channel(
            name=OperationId(part.mark, "slot", feature.at),
            what="slot",
            mark=part.mark,
            carrier="tenoning-jig",
            down="end-A" if feature.at == "A" else "end-B",
            span=span,
            depth=along[1] - along[0],
            thickness=part.size.thickness,
            face_side=face_side,
            scrap=scrap,
        )
        turning = turned_slotting(context, centred, "slot")
        yield from cut_channel(channel, context.for_slots(), by_turning=turning)


def cut_channel(channel: Channel, context: Context, *, by_turning: bool) -> Iterator[Operation]:
    """The channel's operations, one a setting. `by_turning` needs a centred channel. Raises
    `Refusal` where the kerf is wider than the channel."""
    if context.kerf > channel.width:
        raise Refusal(
            refusals.KERF_TOO_WIDE(
                mark=channel.mark,
                kerf=Length(context.kerf, context.unit),
                what=channel.what,
                width=Length(channel.width, context.unit),
            )
        )
    count = needed(channel.width, context.kerf, context.fact(fits.OVERLAP))
    if by_turning:
        yield from _turned(channel, context, count)
    else:
        yield from _from_face_side(channel, context, count)


def _turned(channel: Channel, context: Context, count: int) -> Iterator[Operation]:
    guides = turned(channel.thickness, channel.width, context.kerf, count)
    for number, (guide, both) in enumerate(guides):
        tests: tuple[ScrapTest, ...] = ()
        if number == 0:
            tests = (
                _width_test(channel, context, -2 if both else 1),
                _depth_test(channel, context),
            )
        name = "outer" if number == 0 else between(number, len(guides))
        faces: tuple[Against, ...] = ("face", "back") if both else (_face(channel),)
        yield _operation(channel, context, name, guide, faces, tests)


def _from_face_side(channel: Channel, context: Context, count: int) -> Iterator[Operation]:
    low, high = channel.span
    start = low if channel.face_side == "out" else channel.thickness - high
    depth = _depth_test(channel, context)
    for number, guide in enumerate(from_one_face(start, channel.width, context.kerf, count)):
        tests: tuple[ScrapTest, ...] = ()
        if number == 0:
            where = Measure(What.TO_CHANNEL, channel.what)
            feel = feels.WALL_BESIDE(what=channel.what)
            tests = (context.fit(where, start, 1, feel, channel.scrap), depth)
        elif number == 1:
            tests = (_width_test(channel, context, 1), depth)
        name = ("first", "widen")[number] if number < 2 else between(number - 1, count - 1)
        yield _operation(channel, context, name, guide, (_face(channel),), tests)


def _face(channel: Channel) -> Against:
    return "face" if channel.face_side == "out" else "back"


def _operation(
    channel: Channel,
    context: Context,
    name: str,
    guide: Fraction,
    faces: tuple[Against, ...],
    tests: tuple[ScrapTest, ...],
) -> Operation:
    return Operation(
        name=replace(channel.name, made_by=name),
        kind=channel.what,
        mark=channel.mark,
        setting=context.partial(channel.carrier, guide, exactly(channel.depth), *tests),
        cuts=tuple(Cut(channel.mark, channel.down, face, None) for face in faces),
    )


def _width_test(channel: Channel, context: Context, per_unit: int) -> ScrapTest:
    if channel.width == context.kerf:
        target = (channel.thickness - channel.width) / 2
        wall, near = Measure(What.CHANNEL_WALL, channel.what), context.fact(FLUSH)
        # Nothing fits the wall: faces step by as much as it is off.
        return context.within(near, wall, target, 1, feels.EQUAL_WALLS(), channel.scrap)
    if channel.what == "groove":
        what = "panels-edge" if channel.takes == "panel" else "a-tongue"
        left = channel.width > 2 * context.kerf  # stands between the walls, until a later setup
        feel = (feels.SLIDES_IN_CLEARED if left else feels.SLIDES_IN)(what=what)
    else:
        feel = feels.CLEAN_WALLS()
    width = Measure(What.CHANNEL_WIDTH, channel.what)
    return context.fit(width, channel.width, per_unit, feel, channel.scrap)


def _depth_test(channel: Channel, context: Context) -> ScrapTest:
    feel = (
        feels.SLOT_DEEP_ENOUGH() if channel.what == "slot" else feels.NEEDS_PLAY(what=channel.takes)
    )
    depth = Measure(What.CHANNEL_DEPTH, channel.what)
    return context.depth(depth, channel.depth, feel, channel.scrap, over=True)
