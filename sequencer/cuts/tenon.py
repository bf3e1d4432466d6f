"""Tenons: shoulders on the sled, then cheeks on the tenoning jig, then the width if need be.

Shoulders come before cheeks, so that nothing freed lies at a stop; a cheek is cut with the far
face on the open side, so that its waste falls away from the jig. A cheek cut stays just short of
the shoulder line: the shoulder's kerf has already been there. A tenon may have one cheek only, as
halved ends have, and its shoulders may be of unlike lengths.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Literal

from msgspec import Struct, field

from sequencer.cuts.context import Context, exactly
from sequencer.cuts.model import Operation, ScrapPieces, ScrapTest, Setting
from sequencer.errors import Refusal
from sequencer.facts import Fact, Length, feels, sequences
from sequencer.plan import Against, Cut, Down, Feature, Part, Span
from sequencer.records import replace
from sequencer.saw.measures import Measure, What
from sequencer.saw.operation import OperationId
from sequencer.trade import fits

ZERO = Fraction(0)

Side = Literal["face", "back"]
OTHER: dict[Side, Side] = {"face": "back", "back": "face"}


class Cheek(Struct, frozen=True):
    """Waste beside a tenon, on one `side`, `depth` deep from it and `length` long."""

    side: Side
    depth: Fraction
    length: Fraction


class Tried(Struct, frozen=True):
    """How a tenon is tried. `on` is the test piece; `into` what it goes into; `alone` the feel of
    a cheek that is measured by itself; `shoulders` measure what lies between those of both ends,
    or of each from its end."""

    on: str
    into: Fact = field(default_factory=feels.OTHER_PIECE)
    alone: Fact = field(default_factory=feels.ALIKE_ALONG)
    shoulders: Literal["between", "from-end"] = "between"


class Tenon(Struct, frozen=True):
    """A tenon as its part's features leave it, `cheeks` face first. `edge` is what is cut off its
    inner edge by itself (0 where the groove's pass does it), over `edge_length`."""

    part: Part
    at: str
    cheeks: tuple[Cheek, ...]
    edge: Fraction = ZERO
    edge_length: Fraction = ZERO
    tried: Tried | None = None

    @property
    def end(self) -> Down:
        return "end-A" if self.at == "A" else "end-B"

    @property
    def against_end(self) -> Against:
        return "end-A" if self.at == "A" else "end-B"


def tenons(part: Part, tried: Tried | None = None) -> Iterator[Tenon]:
    """The tenons of a part, read off its designed features, end A first."""
    for at in ("A", "B"):
        found = tuple(_cheek(f) for f in part.features if f.kind == "cheek" and f.at == at)
        edges = [f.box for f in part.features if f.kind == "edge-cheek" and f.at == at]
        if found:
            edge = sum((box[1][1] for box in edges), ZERO)
            long = max((_long(box[0]) for box in edges), default=ZERO)
            yield Tenon(part, at, found, edge, long, tried)


def halved(part: Part, tried: Tried | None = None) -> Iterator[Tenon]:
    """The ends of a part that a slot open to the back has halved, end A first."""
    for feature in sorted(part.features, key=lambda f: f.at):
        if feature.kind == "slot":
            yield Tenon(part, feature.at, (_cheek(feature),), tried=tried)


def cut_tenon(tenon: Tenon, tests: ScrapPieces, context: Context) -> Iterator[Operation]:
    """The tenon's operations in the order they are cut. Kinds: shoulder, edge shoulder, cheek,
    edge cheek, or sweep in place of the edge's two. Raises `Refusal` where a shoulder is no
    further from the end than the kerf."""
    made = _Maker(tenon, tenon.tried or Tried(tests.rail), tests, context)
    yield from made.shoulders()
    if tenon.edge and context.choices.tenon_width == "jig":
        yield made.edge_shoulder()
    yield from made.cheeks()
    if tenon.edge and context.choices.tenon_width == "jig":
        yield made.edge_cheek()
    elif tenon.edge:
        yield made.sweep()


def _cheek(feature: Feature) -> Cheek:
    along, _, through = feature.box
    side: Side = "face" if through[0] == 0 else "back"
    return Cheek(side, _long(through), _long(along))


def _long(span: Span) -> Fraction:
    return span[1] - span[0]


class _Maker(Struct, frozen=True):
    tenon: Tenon
    tried: Tried
    tests: ScrapPieces
    context: Context

    @property
    def mark(self) -> str:
        return self.tenon.part.mark

    def shoulders(self) -> Iterator[Operation]:
        tenon = self.tenon
        for side, cheeks in _alike(tenon.cheeks, against=False):
            depth, length = cheeks[0].depth, cheeks[0].length
            feel = feels.CHEEK_TAKES_REST()
            yield Operation(
                name=OperationId(self.mark, "shoulder", tenon.at, side),
                kind="shoulder",
                mark=self.mark,
                setting=self.context.partial(
                    "crosscut-sled",
                    self.stop(length),
                    exactly(depth),
                    self.shoulder_test(length, cheeks[0].side),
                    self.context.depth(
                        Measure(What.SHOULDER_DEPTH), depth, feel, self.tried.on, over=False
                    ),
                ),
                cuts=tuple(Cut(self.mark, c.side, tenon.against_end, None) for c in cheeks),
            )

    def cheeks(self) -> Iterator[Operation]:
        tenon, thickness = self.tenon, self.tenon.part.size.thickness
        # The back's cheek first: the face side lies against the jig.
        for side, cheeks in _alike(tenon.cheeks[::-1], against=True):
            guide = thickness - cheeks[0].depth
            against = OTHER[cheeks[0].side]
            if len(cheeks) == 2:
                target = thickness - 2 * cheeks[0].depth
                feel = feels.TENON_FITS(into=self.tried.into)
                test = self.context.fit(Measure(What.TENON), target, 2, feel, self.tried.on)
            else:
                measure = Measure(What.TO_FAR_CHEEK, against)
                test = self.context.fit(measure, guide, 1, self.tried.alone, self.tried.on)
            depth = self.cheek_depth(cheeks[0].length)
            yield Operation(
                name=OperationId(self.mark, "cheek", tenon.at, side),
                kind="cheek",
                mark=self.mark,
                setting=self.context.partial("tenoning-jig", guide, depth, test),
                cuts=tuple(Cut(self.mark, tenon.end, OTHER[c.side], None) for c in cheeks),
            )

    def edge_shoulder(self) -> Operation:
        tenon = self.tenon
        feel = feels.EDGE_CHEEK_TAKES_REST()
        return Operation(
            name=OperationId(self.mark, "edge-shoulder", tenon.at),
            kind="edge shoulder",
            mark=self.mark,
            setting=self.at_edge(feel, over=False),
            cuts=(Cut(self.mark, "inside-edge", tenon.against_end, None),),
        )

    def sweep(self) -> Operation:
        tenon = self.tenon
        feel = feels.NO_WIDER_THAN_SLOT()
        passes = self.context.nibbles(tenon.edge_length)
        return Operation(
            name=OperationId(self.mark, "sweep", tenon.at),
            kind="sweep",
            mark=self.mark,
            setting=self.at_edge(feel, over=True),
            cuts=(Cut(self.mark, "inside-edge", tenon.against_end, None, sweep=True),),
            minutes=passes * self.context.shop.minutes.nibble,
        )

    def at_edge(self, feel: Fact, *, over: bool) -> Setting:
        edge, length = self.tenon.edge, self.tenon.edge_length
        return self.context.partial(
            "crosscut-sled",
            self.stop(length),
            exactly(edge),
            self.shoulder_test(length, None),
            self.context.depth(
                Measure(What.EDGE_SHOULDER_DEPTH), edge, feel, self.tried.on, over=over
            ),
        )

    def edge_cheek(self) -> Operation:
        tenon = self.tenon
        width = tenon.part.size.width - tenon.edge
        feel = feels.OFF_BOTTOM()
        narrow = self.context.depth(
            Measure(What.TENON_WIDTH), width, feel, self.tried.on, over=False
        )
        test = replace(narrow, knob="guide")  # as a depth leans, but by the jig
        depth = self.cheek_depth(tenon.edge_length)
        return Operation(
            name=OperationId(self.mark, "edge-cheek", tenon.at),
            kind="edge cheek",
            mark=self.mark,
            setting=self.context.partial("tenoning-jig", width, depth, test),
            cuts=(Cut(self.mark, tenon.end, "outside-edge", None),),
        )

    def stop(self, length: Fraction) -> Fraction:
        """The guide of a shoulder `length` from the end."""
        kerf, unit = self.context.kerf, self.context.unit
        if length <= kerf:
            raise Refusal(
                sequences.TENON_TOO_SHORT(
                    mark=self.mark, length=Length(length, unit), kerf=Length(kerf, unit)
                )
            )
        return length - kerf

    def shoulder_test(self, length: Fraction, side: Side | None) -> ScrapTest:
        """`side` is `None` for an edge's shoulder, in line with the longest."""
        unlike = side is not None and len({c.length for c in self.tenon.cheeks}) > 1
        where = side if unlike and side is not None else ""
        band = self.context.fact(fits.SHOULDER_BAND)
        if self.tried.shoulders == "from-end":
            what, target, per_unit = What.TO_SHOULDER, length, 1
            feel = feels.CLOSES_CORNER()
            low, high = target - self.context.fact(fits.SHOULDER_EDGE), target + band / 2
        else:
            what, per_unit = What.SHOULDERS, -2
            target = self.tests.rail_length - 2 * length
            feel = feels.BETWEEN_SHOULDERS()
            low, high = target - band, target + band
        return ScrapTest(
            "guide", Measure(what, where), target, low, high, Fraction(per_unit), feel,
            self.tried.on,
        )  # fmt: skip

    def cheek_depth(self, length: Fraction) -> Span:
        context = self.context
        least = length - context.kerf + context.fact(fits.OVERLAP)
        return context.on_scale(least, max(least, length - context.fact(fits.CHEEK_SHORT)))


def _alike(cheeks: Sequence[Cheek], *, against: bool) -> list[tuple[str, tuple[Cheek, ...]]]:
    """One operation for both sides where their numbers are the same, else one for each, named by
    its side, or by what then lies `against` the jig."""
    if len(cheeks) == 2 and len({(cheek.length, cheek.depth) for cheek in cheeks}) == 1:
        return [("", tuple(cheeks))]
    sides = [OTHER[cheek.side] if against else cheek.side for cheek in cheeks]
    return [(side, (cheek,)) for side, cheek in zip(sides, cheeks, strict=True)]
