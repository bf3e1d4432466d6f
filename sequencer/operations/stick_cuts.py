"""What is done to a stick: rip, groove while it is long, square an end, crosscut its pieces."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from fractions import Fraction

from sequencer.cuts.channel import Channel, cut_channel
from sequencer.cuts.context import Context, turned_slotting
from sequencer.cuts.model import Check, Operation
from sequencer.cuts.rebate import Rebate, cut_rebate, cut_tongue
from sequencer.facts import feels
from sequencer.operations.filling import Along, Profile, StickPlan, Stock
from sequencer.operations.glued import glue_up
from sequencer.plan import Cut, Removal
from sequencer.records import replace
from sequencer.saw.measures import Measure, What
from sequencer.saw.operation import OperationId
from sequencer.trade import fits

ZERO = Fraction(0)
INSIDE = "inside-edge"


def cut_stick(plan: StickPlan, context: Context, scrap: str | None) -> Iterator[Operation]:
    """Rip to crosscut, in the order they are made, before them the glue-up of a stick of several
    boards. `scrap` is the test stick that the groove is tried on (`None` where the stock takes no
    groove)."""
    if plan.stick.boards is not None:
        yield glue_up(plan)
    mark = plan.stick.mark
    size = plan.stick.size
    ripped = size.width + plan.stock.allowance
    yield Operation(
        name=OperationId(mark, "rip"),
        kind="rip",
        mark=mark,
        setting=context.through("rip-fence", size.thickness, ripped),
        cuts=(Cut(mark, "back", "inside-edge", "guide"),),
    )
    if plan.stock.allowance:
        sawn = ((ZERO, size.length), (size.width, ripped), (ZERO, size.thickness))
        yield Operation(
            name=OperationId(mark, "plane"),
            kind="plane",
            mark=mark,
            removes=(Removal(mark, sawn),),
            marks=(mark,),
        )
    # What fills a frame is too narrow for the fence once it is crosscut.
    on_stick = context.choices.groove_on == "stick" or plan.stock.joint is None
    if scrap is not None and on_stick:
        yield from cut_profile(mark, plan.profile, plan.stock, scrap, context)
    if not plan.stick.pieces:
        return
    yield Operation(
        name=OperationId(mark, "square"),
        kind="square",
        mark=mark,
        setting=context.through("crosscut-sled", size.thickness, None),
        cuts=(Cut(mark, "back", None, "larger"),),
    )
    yield from _crosscuts(plan, context)


def cut_profile(
    mark: str, profile: Profile, stock: Stock, scrap: str, context: Context
) -> Iterator[Operation]:
    """The operations of all that runs along a stick or a piece. Two rebates alike on one edge are
    a tongue's, and are cut together."""
    done: set[Along] = set()
    for along in profile:
        twin = _twin(along, profile, stock)
        if along in done:
            continue
        if twin is not None:
            done.add(twin)
            name = OperationId(mark, "tongue")
            one, other = (_as_rebate(mark, each, stock, scrap, name) for each in (along, twin))
            yield from cut_tongue(one, other, context)
        else:
            yield from ALONG_CUTS[along.kind](mark, along, stock, scrap, context)


def _twin(along: Along, profile: Profile, stock: Stock) -> Along | None:
    """The rebate on the other face of the same edge, where the two are alike."""
    low, high = along.span
    turned = replace(along, span=(stock.thickness - high, stock.thickness - low))
    return turned if along.kind == "rebate" and turned != along and turned in profile else None


def _as_rebate(mark: str, along: Along, stock: Stock, scrap: str, name: OperationId) -> Rebate:
    return Rebate(
        name=name,
        mark=mark,
        edge="inside-edge" if along.at == INSIDE else "outside-edge",
        span=along.span,
        depth=along.depth,
        thickness=stock.thickness,
        scrap=scrap,
    )


def _rebate(
    mark: str, along: Along, stock: Stock, scrap: str, context: Context
) -> Iterator[Operation]:
    places = ("face" * (along.span[0] == ZERO), "outside" * (along.at != INSIDE))
    name = OperationId(mark, "rebate", "-".join(place for place in places if place))
    yield from cut_rebate(_as_rebate(mark, along, stock, scrap, name), context)


def _groove(
    mark: str, along: Along, stock: Stock, scrap: str, context: Context
) -> Iterator[Operation]:
    inside = along.at == INSIDE
    channel = Channel(
        name=OperationId(mark, "groove", "" if inside else "outside"),
        what="groove",
        mark=mark,
        carrier="rip-fence",
        down="inside-edge" if inside else "outside-edge",
        span=along.span,
        depth=along.depth,
        thickness=stock.thickness,
        face_side=stock.face_side,
        scrap=scrap,
        takes="panel" if stock.joint is not None else "tongue",
    )
    centred = sum(along.span) == stock.thickness
    # What fills a frame is turned whatever the frame's grooves ask for.
    turning = turned_slotting(context, centred, "groove") or (centred and stock.joint is None)
    yield from cut_channel(channel, context, by_turning=turning)


ALONG_CUTS: Mapping[str, Callable[[str, Along, Stock, str, Context], Iterator[Operation]]] = {
    "groove": _groove,
    "rebate": _rebate,
}


def _crosscuts(plan: StickPlan, context: Context) -> Iterator[Operation]:
    band = context.fact(fits.LENGTH_BAND)
    for piece, length in zip(plan.stick.pieces, plan.lengths, strict=True):
        check = Check(
            measure=Measure(What.LENGTH),
            target=length,
            low=length - band,
            high=length + band,
            feel=feels.FIRST_OF_MANY(),
            marks=(piece.mark,),
            knob="guide",
            per_unit=Fraction(1),
        )
        yield Operation(
            name=OperationId(piece.mark, "crosscut"),
            kind="crosscut",
            mark=piece.mark,
            setting=context.through("crosscut-sled", plan.stick.size.thickness, length),
            cuts=(Cut(plan.stick.mark, "back", "end-A", "guide"),),
            checks=(check,),
        )
