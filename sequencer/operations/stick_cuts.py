"""What is done to a stick: rip, groove while it is long, square an end, crosscut its pieces."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from fractions import Fraction

from sequencer.cuts.channel import Channel, cut_channel
from sequencer.cuts.context import Context, turned_slotting
from sequencer.cuts.model import Check, Operation
from sequencer.operations.sticks import Along, StickPlan, Stock
from sequencer.plan import Cut, Removal
from sequencer.trade import fits

ZERO = Fraction(0)


def cut_stick(plan: StickPlan, context: Context, scrap: str | None) -> Iterator[Operation]:
    """Rip to crosscut, in the order they are made. `scrap` is the test stick that the groove is
    tried on (`None` where the stock takes no groove)."""
    mark = plan.stick.mark
    size = plan.stick.size
    ripped = size.width + plan.stock.allowance
    yield Operation(
        id=f"{mark}/rip",
        kind="rip",
        mark=mark,
        setting=context.through("rip-fence", size.thickness, ripped),
        cuts=(Cut(mark, "back", "inside-edge", "guide"),),
    )
    if plan.stock.allowance:
        sawn = ((ZERO, size.length), (size.width, ripped), (ZERO, size.thickness))
        yield Operation(
            id=f"{mark}/plane",
            kind="plane",
            mark=mark,
            removes=(Removal(mark, sawn),),
            marks=(mark,),
        )
    if scrap is not None and context.choices.groove_on == "stick":
        for along in plan.profile:
            yield from cut_along(mark, along, plan.stock, scrap, context)
    yield Operation(
        id=f"{mark}/square",
        kind="square",
        mark=mark,
        setting=context.through("crosscut-sled", size.thickness, None),
        cuts=(Cut(mark, "back", None, "larger"),),
    )
    yield from _crosscuts(plan, context)


def cut_along(
    mark: str, along: Along, stock: Stock, scrap: str, context: Context
) -> Iterator[Operation]:
    """The operations of a feature that runs along a stick or a piece."""
    yield from ALONG_CUTS[along.kind](mark, along, stock, scrap, context)


def _groove(
    mark: str, along: Along, stock: Stock, scrap: str, context: Context
) -> Iterator[Operation]:
    inside = along.at == "inside-edge"
    channel = Channel(
        id=f"{mark}/groove" if inside else f"{mark}/groove-outside",
        what="groove",
        mark=mark,
        carrier="rip-fence",
        down="inside-edge" if inside else "outside-edge",
        span=along.span,
        depth=along.depth,
        thickness=stock.thickness,
        face_side=stock.face_side,
        scrap=scrap,
    )
    centred = sum(along.span) == stock.thickness
    turning = turned_slotting(context, centred, "groove")
    yield from cut_channel(channel, context, by_turning=turning)


ALONG_CUTS: Mapping[str, Callable[[str, Along, Stock, str, Context], Iterator[Operation]]] = {
    "groove": _groove
}


def _crosscuts(plan: StickPlan, context: Context) -> Iterator[Operation]:
    band = context.fact(fits.LENGTH_BAND)
    for piece, length in zip(plan.stick.pieces, plan.lengths, strict=True):
        check = Check(
            measure="length of the first piece",
            target=length,
            low=length - band,
            high=length + band,
            feel="hook a rule over the squared end; the next pieces are only as right as this one",
            marks=(piece.mark,),
            knob="guide",
            per_unit=Fraction(1),
        )
        yield Operation(
            id=f"{piece.mark}/crosscut",
            kind="crosscut",
            mark=piece.mark,
            setting=context.through("crosscut-sled", plan.stick.size.thickness, length),
            cuts=(Cut(plan.stick.mark, "back", "end-A", "guide"),),
            checks=(check,),
        )
