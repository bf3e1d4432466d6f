"""Sticks filled with pieces: what a stock is, what runs along a stick, and how long one is cut."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import Literal

from msgspec import Struct

from sequencer.errors import Refusal
from sequencer.facts import Fact, Length, sequences
from sequencer.job.schema import FaceSide, Shop
from sequencer.joints import JointSizes
from sequencer.lengths import Unit
from sequencer.plan import Part, Size, Span, Stick, StickPiece
from sequencer.trade import fits

ZERO = Fraction(0)
ALONG = ("groove", "rebate")


class Stock(Struct, frozen=True):
    """A kind of stock that is milled together: `joint` is `None` for panels. `nominal` is the
    thickness as the job states it, `allowance` what is planed off a ripped edge, `face_side` where
    the face side looks."""

    material: str
    nominal: Fraction
    thickness: Fraction
    allowance: Fraction
    face_side: FaceSide
    joint: JointSizes | None


class Along(Struct, frozen=True):
    """A feature that runs along a piece from end to end: `at` an edge, `depth` from it, `span`
    through the thickness."""

    kind: str
    at: str
    depth: Fraction
    span: Span


Profile = tuple[Along, ...]


def profile_of(part: Part) -> Profile:
    """What runs along the whole of a part and is cut on its stick."""
    found: list[Along] = []
    for feature in part.features:
        along, across, through = feature.box
        if feature.kind in ALONG and along == (ZERO, part.size.length) and feature.prism is None:
            depth = across[1] - across[0]
            found.append(Along(feature.kind, feature.at, depth, through))
    return tuple(found)


class StickPlan(Struct, frozen=True):
    """A stick with what its operations need to know: its stock, its pieces' lengths in the order
    they are cut, and the features that run along all of them."""

    stick: Stick
    stock: Stock
    lengths: tuple[Fraction, ...]
    profile: Profile = ()


TestRole = Literal["stick", "stile", "rail"]
Extra = Mapping[tuple[Stock, TestRole], int]
"""How many test pieces are wanted beyond the first of each."""


class Wanted(Struct, frozen=True):
    """A piece to be laid on a stick. A test piece has no mark yet: it takes its stick's. `part` is
    `None` for it: it is made of either hand, and lies as the stick does."""

    mark: str
    length: Fraction
    part: Part | None = None

    def laid(self, mark: str, start: Fraction) -> StickPiece:
        """One piece of a stick lies as the stick does if its inside edge is to the left; one of the
        other hand lies head to tail to it, turned end for end."""
        part = self.part
        if part is None or part.inside is None:
            return StickPiece(mark, start)
        return StickPiece(mark, start, part.inside, part.either_hand)


def fill(
    wanted: Sequence[Wanted],
    width: Fraction,
    stock: Stock,
    kerf: Fraction,
    shop: Shop,
    unit: Unit,
    used: int,
    reach: Fraction,
    *,
    test: bool = False,
) -> list[StickPlan]:
    tail = (fits.PANEL_TAIL if stock.joint is None else fits.STICK_TAIL).of(unit)
    first = fits.SQUARING.of(unit)
    loads: list[list[Wanted]] = []
    room = ZERO
    for piece in wanted:
        needs = piece.length + kerf
        if first + needs + tail > shop.sled.longest:
            raise Refusal(_too_long(piece, shop, unit))
        if needs > room:
            loads.append([])
            room = max(reach - first - tail, needs)
        loads[-1].append(piece)
        room -= needs
    return [
        make_stick(f"#{used + n}", load, width, stock, kerf, unit, tail, reach, test)
        for n, load in enumerate(loads, 1)
    ]


def make_stick(
    mark: str,
    load: Sequence[Wanted],
    width: Fraction,
    stock: Stock,
    kerf: Fraction,
    unit: Unit,
    tail: Fraction,
    longest: Fraction,
    test: bool,
) -> StickPlan:
    pieces: list[StickPiece] = []
    at = fits.SQUARING.of(unit)
    for piece in load:
        pieces.append(piece.laid(piece.mark or f"{mark}{chr(97 + len(pieces))}", at))
        at += piece.length + kerf
    wanted = max(at + tail, fits.STICK_LEAST.of(unit))
    length = max(wanted, min(_upward(wanted, unit), longest))
    size = Size(length, width, stock.thickness)
    blank_width = _upward(width + stock.allowance + kerf + fits.RIP_ALLOWANCE.of(unit), unit)
    stick = Stick(
        mark=mark,
        material=stock.material,
        size=size,
        blank=Size(size.length, blank_width, stock.thickness),
        pieces=tuple(pieces),
        test=test,
        marked="face" if stock.face_side == "out" else "back",
    )
    return StickPlan(stick, stock, tuple(piece.length for piece in load))


def _upward(value: Fraction, unit: Unit) -> Fraction:
    step = fits.BLANK_STEP.of(unit)
    return -(-value // step) * step


def _too_long(piece: Wanted, shop: Shop, unit: Unit) -> Fact:
    length, longest = Length(piece.length, unit), Length(shop.sled.longest, unit)
    if not piece.mark:
        return sequences.TEST_TOO_LONG(length=length, longest=longest)
    return sequences.TOO_LONG_FOR_SLED(mark=piece.mark, length=length, longest=longest)
