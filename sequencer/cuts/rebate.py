"""Rebates along an edge, and the tongue that two of them leave, on the rip fence.

Two passes meet in the rebate's inner corner: the first with the piece flat, the second with its
edge down, so that what the second frees lies on the open side of the blade and falls away. A rebate
no wider through the thickness than the kerf takes the second alone; one that reaches no further in
than the kerf, where the first has no room beside the fence, is nibbled away with its edge down.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from msgspec import Struct

from sequencer.cuts.context import Context, exactly
from sequencer.cuts.model import Operation, ScrapTest
from sequencer.facts import feels
from sequencer.passes import from_one_face, needed
from sequencer.plan import Against, Cut, Down, Span
from sequencer.records import replace
from sequencer.saw.measures import Measure, What
from sequencer.saw.operation import OperationId, between
from sequencer.trade import fits

ZERO = Fraction(0)
LEAST_BESIDE = fits.Datum(
    Fraction(1, 16), Fraction(3, 2), "ours: nearer than that the fence is not set to a blade"
)


class Rebate(Struct, frozen=True):
    """`depth` from the edge, `span` through stock `thickness` thick, open to the face or to the
    back; `name` is all of the operations' but the pass, `scrap` what it is tried on."""

    name: OperationId
    mark: str
    edge: Down
    span: Span
    depth: Fraction
    thickness: Fraction
    scrap: str

    @property
    def opens(self) -> Down:
        return "face" if self.span[0] == ZERO else "back"

    @property
    def wide(self) -> Fraction:
        return self.span[1] - self.span[0]

    @property
    def lip(self) -> Fraction:
        """What is left beside it, up to the far face: where the edge pass is guided to."""
        return self.thickness - self.wide


def cut_rebate(rebate: Rebate, context: Context) -> Iterator[Operation]:
    """One rebate's operations, in their order. Kind: rebate."""
    far: Against = "back" if rebate.opens == "face" else "face"
    guides = _edge_guides(rebate, context)
    if rebate.wide > context.kerf and len(guides) == 1:
        yield _flat(rebate, context)
    lip = context.fit(Measure(What.LIP), rebate.lip, 1, feels.BESIDE_REBATE(), rebate.scrap)
    yield from _on_edge(rebate, context, guides, (far,), lip)


def cut_tongue(rebate: Rebate, other: Rebate, context: Context) -> Iterator[Operation]:
    """Two equal rebates on one edge, the piece turned round: what stands between is centred, and a
    setting's error counts twice."""
    guides = _edge_guides(rebate, context)
    if rebate.wide > context.kerf and len(guides) == 1:
        yield _flat(rebate, context, other.opens)
    tongue = rebate.thickness - rebate.wide - other.wide
    fit = context.fit(Measure(What.TONGUE), tongue, 2, feels.TONGUE_SLIDES(), rebate.scrap)
    yield from _on_edge(rebate, context, guides, ("face", "back"), fit)


def _edge_guides(rebate: Rebate, context: Context) -> tuple[Fraction, ...]:
    """Where the passes with the edge down are guided to: from the open face inward, so that what
    is left outside is never thinner than the kerf, and a strip can bear in its place."""
    kerf, overlap = context.kerf, context.fact(fits.OVERLAP)
    beside = rebate.depth - kerf
    if rebate.wide <= kerf or beside >= context.fact(LEAST_BESIDE):
        return (rebate.lip,)
    count = needed(rebate.wide, kerf, overlap)
    return tuple(sorted(from_one_face(rebate.lip, rebate.wide, kerf, count), reverse=True))


def _flat(rebate: Rebate, context: Context, *also: Down) -> Operation:
    """From the open face down to the lip, the edge itself against the fence."""
    against: Against = "inside-edge" if rebate.edge == "inside-edge" else "outside-edge"
    near, wide = context.fact(fits.CORNER_BAND), Measure(What.REBATE_WIDTH)
    width = context.within(near, wide, rebate.depth, 1, feels.FAR_SIDE(), rebate.scrap)
    deep = feels.EDGE_PASS_TAKES_REST()
    depth = context.depth(Measure(What.FLAT_DEPTH), rebate.wide, deep, rebate.scrap, over=False)
    setting = context.partial(
        "rip-fence", rebate.depth - context.kerf, exactly(rebate.wide), width, depth
    )
    cuts = tuple(Cut(rebate.mark, face, against, None) for face in (rebate.opens, *also))
    return Operation(replace(rebate.name, made_by="flat"), "rebate", rebate.mark, setting, cuts)


def _on_edge(
    rebate: Rebate,
    context: Context,
    guides: Sequence[Fraction],
    faces: tuple[Against, ...],
    fit: ScrapTest,
) -> Iterator[Operation]:
    """The passes with the edge down. The last leaves the lip, and is fitted; how deep they go is
    tried at the first as well."""
    depth = _depth_test(rebate, context)
    cuts = tuple(Cut(rebate.mark, rebate.edge, face, None) for face in faces)
    for number, guide in enumerate(guides):
        last = number == len(guides) - 1
        tests = (fit, depth) if last else (depth,) if number == 0 else ()
        name = "edge" if last else "widen" if number == 0 else between(number, number + 1)
        setting = context.partial("rip-fence", guide, exactly(rebate.depth), *tests)
        yield Operation(replace(rebate.name, made_by=name), "rebate", rebate.mark, setting, cuts)


def _depth_test(rebate: Rebate, context: Context) -> ScrapTest:
    feel = feels.FROM_EDGE()
    reach = Measure(What.REBATE_REACH)
    return context.depth(reach, rebate.depth, feel, rebate.scrap, over=True)
