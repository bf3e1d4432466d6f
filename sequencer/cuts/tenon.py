"""Tenons: shoulders on the sled, then cheeks on the tenoning jig, then the width if need be.

Shoulders come before cheeks, so that nothing freed lies at a stop; a cheek is cut with the far
face on the open side, so that its waste falls away from the jig. A cheek cut stays just short of
the shoulder line: the shoulder's kerf has already been there.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from sequencer.cuts.context import Context, exactly
from sequencer.cuts.model import Operation, ScrapPieces, ScrapTest
from sequencer.plan import Against, Cut, Down, Feature, Part, Span
from sequencer.trade import fits

OTHER_PIECE = "the slot of the other test piece"
"""What a tenon is tried in."""


@dataclass(frozen=True, slots=True)
class Tenon:
    """A tenon as its part's features leave it: `length` along the grain, z-range `span`, and
    `edge`, what is cut off its inner edge by itself (0 where the groove's pass does it)."""

    part: Part
    at: str
    length: Fraction
    span: Span
    edge: Fraction

    @property
    def end(self) -> Down:
        return "end-A" if self.at == "A" else "end-B"

    @property
    def against_end(self) -> Against:
        return "end-A" if self.at == "A" else "end-B"


def tenons(part: Part) -> Iterator[Tenon]:
    """The tenons of a part, read off its designed features, end A first."""
    for at in ("A", "B"):
        cheeks = [f for f in part.features if f.kind == "cheek" and f.at == at]
        if cheeks:
            edges = [f for f in part.features if f.kind == "edge-cheek" and f.at == at]
            along = cheeks[0].box[0]
            yield Tenon(
                part,
                at,
                along[1] - along[0],
                _between(cheeks),
                sum((_edge(f) for f in edges), Fraction(0)),
            )


def cut_tenon(tenon: Tenon, tests: ScrapPieces, context: Context) -> Iterator[Operation]:
    """The tenon's operations in the order they are cut. Kinds: shoulder, edge shoulder, cheek,
    edge cheek, or sweep in place of the edge's two."""
    yield from _shoulders(tenon, tests, context)
    if tenon.edge and context.choices.tenon_width == "jig":
        yield _edge_shoulder(tenon, tests, context)
    yield from _cheeks(tenon, tests, context)
    if tenon.edge and context.choices.tenon_width == "jig":
        yield _edge_cheek(tenon, tests, context)
    elif tenon.edge:
        yield _sweep(tenon, tests, context)


def _between(cheeks: list[Feature]) -> Span:
    first, second = sorted(feature.box[2] for feature in cheeks)
    return (first[1], second[0])


def _edge(feature: Feature) -> Fraction:
    return feature.box[1][1]


def _shoulder_test(tenon: Tenon, tests: ScrapPieces, context: Context) -> ScrapTest:
    target = tests.rail_length - 2 * tenon.length
    band = context.fact(fits.SHOULDER_BAND)
    feel = "both ends cut at this stop, then measured between the shoulders"
    return ScrapTest(
        "guide", "shoulder to shoulder", target, target - band, target + band,
        Fraction(-2), feel, tests.rail,
    )  # fmt: skip


def _shoulders(tenon: Tenon, tests: ScrapPieces, context: Context) -> Iterator[Operation]:
    thickness = tenon.part.size.thickness
    for name, sides in _by_number(("face", tenon.span[0]), ("back", thickness - tenon.span[1])):
        depth = sides[0][1]
        feel = "never over: the cheek cut takes what is left in the corner"
        yield Operation(
            id=f"{tenon.part.mark}/shoulder-{tenon.at}{name}",
            kind="shoulder",
            mark=tenon.part.mark,
            setting=context.partial(
                "crosscut-sled",
                tenon.length - context.kerf,
                exactly(depth),
                _shoulder_test(tenon, tests, context),
                context.depth("shoulder depth", depth, feel, tests.rail, over=False),
            ),
            cuts=tuple(Cut(tenon.part.mark, face, tenon.against_end, None) for face, _ in sides),
        )


def _edge_shoulder(tenon: Tenon, tests: ScrapPieces, context: Context) -> Operation:
    feel = "never over: the edge cheek takes what is left in the corner"
    return Operation(
        id=f"{tenon.part.mark}/edge-shoulder-{tenon.at}",
        kind="edge shoulder",
        mark=tenon.part.mark,
        setting=context.partial(
            "crosscut-sled",
            tenon.length - context.kerf,
            exactly(tenon.edge),
            _shoulder_test(tenon, tests, context),
            context.depth("edge shoulder depth", tenon.edge, feel, tests.rail, over=False),
        ),
        cuts=(Cut(tenon.part.mark, "inside-edge", tenon.against_end, None),),
    )


def _sweep(tenon: Tenon, tests: ScrapPieces, context: Context) -> Operation:
    feel = "never under: the tenon must not be wider than its slot is deep"
    passes = -(-tenon.length // (context.kerf - context.fact(fits.OVERLAP)))
    return Operation(
        id=f"{tenon.part.mark}/sweep-{tenon.at}",
        kind="sweep",
        mark=tenon.part.mark,
        setting=context.partial(
            "crosscut-sled",
            tenon.length - context.kerf,
            exactly(tenon.edge),
            _shoulder_test(tenon, tests, context),
            context.depth("edge shoulder depth", tenon.edge, feel, tests.rail, over=True),
        ),
        cuts=(Cut(tenon.part.mark, "inside-edge", tenon.against_end, None, sweep=True),),
        minutes=passes * context.shop.minutes.nibble,
    )


def _cheek_depth(tenon: Tenon, context: Context) -> Span:
    least = tenon.length - context.kerf + context.fact(fits.OVERLAP)
    return context.on_scale(least, max(least, tenon.length - context.fact(fits.CHEEK_SHORT)))


def _cheeks(tenon: Tenon, tests: ScrapPieces, context: Context) -> Iterator[Operation]:
    thickness = tenon.part.size.thickness
    for name, sides in _by_number(("face", tenon.span[1]), ("back", thickness - tenon.span[0])):
        guide = sides[0][1]
        if len(sides) == 2:
            target = tenon.span[1] - tenon.span[0]
            feel = (
                f"slides into {OTHER_PIECE} by hand pressure, does not drop out "
                "upside down; with one slip of paper beside it it will not go"
            )
            test = context.fit("tenon thickness", target, 2, feel, tests.rail)
        else:
            measure = f"from the {sides[0][0]} to the far cheek"
            test = context.fit(measure, guide, 1, "by caliper", tests.rail)
        yield Operation(
            id=f"{tenon.part.mark}/cheek-{tenon.at}{name}",
            kind="cheek",
            mark=tenon.part.mark,
            setting=context.partial("tenoning-jig", guide, _cheek_depth(tenon, context), test),
            cuts=tuple(Cut(tenon.part.mark, tenon.end, face, None) for face, _ in sides),
        )


def _edge_cheek(tenon: Tenon, tests: ScrapPieces, context: Context) -> Operation:
    width = tenon.part.size.width - tenon.edge
    band = context.fact(fits.DEPTH_BAND)
    feel = "never over: a wide tenon stands off the slot's bottom"
    test = ScrapTest(
        "guide", "tenon width", width, width - band, width, Fraction(1), feel, tests.rail
    )
    return Operation(
        id=f"{tenon.part.mark}/edge-cheek-{tenon.at}",
        kind="edge cheek",
        mark=tenon.part.mark,
        setting=context.partial("tenoning-jig", width, _cheek_depth(tenon, context), test),
        cuts=(Cut(tenon.part.mark, tenon.end, "outside-edge", None),),
    )


_Side = tuple[Down, Fraction]


def _by_number(face: _Side, back: _Side) -> tuple[tuple[str, tuple[_Side, ...]], ...]:
    """One operation for both sides where their number is the same, else one for each."""
    if face[1] == back[1]:
        return (("", (face, back)),)
    return (("/face", (face,)), ("/back", (back,)))
