"""Which pieces come from which stick, and the test stick of each kind of stock.

A stick holds pieces of one width, material, thickness and groove. Longest pieces come first, equal
ones next to each other in part order, so that one stop serves a run of crosscuts and pieces that
should match lie side by side.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from sequencer.cuts.housing import furthest
from sequencer.cuts.model import ScrapPieces
from sequencer.doors import FILLS, Leaf
from sequencer.errors import InternalError, Refusal
from sequencer.facts import Fact, Length, sequences
from sequencer.job.rack import Rack
from sequencer.job.schema import FaceSide, Shop
from sequencer.joints import JointSizes
from sequencer.lengths import Unit
from sequencer.plan import Part, Size, Span, Stick, StickPiece
from sequencer.trade import fits

ZERO = Fraction(0)
ALONG = ("groove", "rebate")
ROLE_ORDER = {"top rail": 0, "bottom rail": 1}


@dataclass(frozen=True, slots=True)
class Stock:
    """A kind of stock that is milled together: `joint` is `None` for panels. `nominal` is the
    thickness as the job states it, `allowance` what is planed off a ripped edge, `face_side` where
    the face side looks."""

    material: str
    nominal: Fraction
    thickness: Fraction
    allowance: Fraction
    face_side: FaceSide
    joint: JointSizes | None


@dataclass(frozen=True, slots=True)
class Along:
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


@dataclass(frozen=True, slots=True)
class StickPlan:
    """A stick with what its operations need to know: its stock, its pieces' lengths in the order
    they are cut, and the features that run along all of them."""

    stick: Stick
    stock: Stock
    lengths: tuple[Fraction, ...]
    profile: Profile = ()


TestRole = Literal["stick", "stile", "rail"]
Extra = Mapping[tuple[Stock, TestRole], int]
"""How many test pieces are wanted beyond the first of each."""


@dataclass(frozen=True, slots=True)
class Layout:
    """`spares` are the further test pieces and sticks that each one stands for."""

    sticks: tuple[StickPlan, ...]
    tests: dict[Stock, ScrapPieces]
    spares: Mapping[str, tuple[str, ...]]

    def role(self, scrap: str) -> tuple[Stock, TestRole]:
        """Which test piece of which stock a mark names."""
        for stock, names in self.tests.items():
            roles: tuple[tuple[str, TestRole], ...] = (
                (names.stick, "stick"), (names.rail, "rail"), (names.stile, "stile"),
            )  # fmt: skip
            for mark, role in roles:
                if mark == scrap:
                    return stock, role
        raise InternalError(sequences.NO_TEST_PIECE(mark=scrap))


@dataclass(frozen=True, slots=True)
class _Wanted:
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


def stock_of(leaf: Leaf, part: Part) -> Stock:
    """The kind of stock a part is made from."""
    spec = leaf.spec
    if part.role == "slab":
        return Stock(part.material, spec.thickness, part.size.thickness, ZERO, spec.face_side, None)
    if part.role in FILLS:
        nominal = part.size.thickness if spec.panel.thickness is None else spec.panel.thickness
        return Stock(part.material, nominal, part.size.thickness, ZERO, spec.face_side, None)
    return Stock(
        part.material,
        spec.thickness,
        part.size.thickness,
        spec.edge_allowance,
        spec.face_side,
        leaf.sizes,
    )


def lay_out(
    leaves: Sequence[Leaf],
    kerf: Fraction,
    shop: Shop,
    unit: Unit,
    only: frozenset[str] | None = None,
    rack: Rack | None = None,
    extra: Extra | None = None,
    more: Extra | None = None,
) -> Layout:
    """Sticks in the order of first use, each test stick before the sticks it is milled with; of all
    parts, or `only` of those of some marks; with `extra` test pieces, and `more` of them behind all
    other sticks, where they change no mark. No stick is longer than the longest board of its stock
    in the `rack`, where there is one that takes its pieces.

    Raises `Refusal` where a piece is longer than the sled takes.
    """
    groups: dict[Stock, dict[tuple[Fraction, Profile, int | None, str], list[Part]]] = {}
    matched: dict[tuple[str, str], list[Part]] = {}
    depths: dict[Stock, Fraction] = {}
    for leaf in leaves:
        for part in leaf.parts:
            if only is not None and part.mark not in only:
                continue
            stock = stock_of(leaf, part)
            boards = None if leaf.spec.slab is None else leaf.spec.slab.boards
            match = leaf.spec.panel.match and part.role == "panel"
            if match:
                matched.setdefault((leaf.spec.marks[0], part.name), []).append(part)
            alike = (part.size.width, profile_of(part), boards, part.mark if match else "")
            groups.setdefault(stock, {}).setdefault(alike, []).append(part)
            deepest = max((_reach(f.box) for f in part.features if f.kind == "slot"), default=ZERO)
            depths[stock] = max(depths.get(stock, ZERO), deepest)
    sticks: list[StickPlan] = []
    tests: dict[Stock, ScrapPieces] = {}
    spares: dict[str, tuple[str, ...]] = {}
    for stock, by_section in groups.items():
        reach = _reach_of(stock, rack, shop)
        everything = [part for parts in by_section.values() for part in parts]
        sawn = any(not f.unproven_by_saw for part in everything for f in part.features)
        if stock.joint is not None or sawn:
            inline = {role: n for (of, role), n in (extra or {}).items() if of == stock}
            made, bare, names, others = _test_sticks(
                everything, depths[stock], stock, kerf, shop, unit, len(sticks), reach, inline
            )
            sticks += (replace(plan, profile=_tried(everything)) for plan in made)
            sticks += bare
            tests[stock] = names
            spares |= others
        for (width, profile, boards, _), parts in by_section.items():
            wanted = [_Wanted(p.mark, p.size.length, p) for p in sorted(parts, key=_longest_first)]
            filled = _fill(wanted, width, stock, kerf, shop, unit, len(sticks), reach)
            sticks += (
                replace(plan, profile=profile, stick=replace(plan.stick, boards=boards))
                for plan in filled
            )
    for (stock, role), count in (more or {}).items():
        scrap = {"stick": tests[stock].stick, "stile": tests[stock].stile}.get(
            role, tests[stock].rail
        )
        like = next(plan for plan in sticks if scrap in _marks(plan))
        reach = _reach_of(stock, rack, shop)
        added = _further(like, scrap, count, kerf, shop, unit, len(sticks), reach)
        sticks += added
        marks = [mark for plan in added for mark in _marks(plan)[bool(plan.stick.pieces) :]]
        spares[scrap] = (*spares.get(scrap, ()), *marks)
    return Layout(_with_twins(sticks, matched), tests, spares)


def _marks(plan: StickPlan) -> list[str]:
    return [plan.stick.mark, *(piece.mark for piece in plan.stick.pieces)]


def _further(
    like: StickPlan,
    scrap: str,
    count: int,
    kerf: Fraction,
    shop: Shop,
    unit: Unit,
    used: int,
    reach: Fraction,
) -> list[StickPlan]:
    """Sticks that give as many more test pieces like `scrap`, or are such themselves; nothing runs
    along them."""
    width, stock = like.stick.size.width, like.stock
    named = zip(like.stick.pieces, like.lengths, strict=True)
    wanted = [_Wanted("", length) for piece, length in named if piece.mark == scrap] * count
    if wanted:
        return _fill(wanted, width, stock, kerf, shop, unit, used, reach, test=True)
    numbers = range(used + 1, used + count + 1)
    return [_stick(f"#{n}", (), width, stock, kerf, unit, ZERO, reach, True) for n in numbers]


def _with_twins(
    sticks: Sequence[StickPlan], matched: Mapping[tuple[str, str], Sequence[Part]]
) -> tuple[StickPlan, ...]:
    """Of two matching panels' sticks, the first told of the other, where their blanks are alike."""
    stick_of = {piece.mark: plan.stick for plan in sticks for piece in plan.stick.pieces}
    twins: dict[str, str] = {}
    for parts in matched.values():
        found = [stick_of[part.mark] for part in parts if part.mark in stick_of]
        if len(found) == 2 and found[0].blank == found[1].blank:
            twins[found[0].mark] = found[1].mark
    return tuple(
        replace(plan, stick=replace(plan.stick, twin=twins.get(plan.stick.mark))) for plan in sticks
    )


def _tried(parts: Sequence[Part]) -> Profile:
    """What runs along a test stick: each kind of feature that runs along a part, once. A tongue is
    tried on its outside edge as often as it takes, and is not made there beforehand."""
    found: dict[tuple[str, Fraction, Span], Along] = {}
    for part in parts:
        for along in profile_of(part):
            if (along.kind, along.at) == ("rebate", "outside-edge"):
                continue
            found.setdefault((along.kind, along.depth, along.span), along)
    tried = sorted(found.values(), key=lambda along: -along.depth)
    # Of grooves that differ in depth alone, the deepest takes every tongue.
    deepest = {(along.kind, along.span): along for along in reversed(tried)}
    return tuple(along for along in found.values() if along in deepest.values())


def _reach(box: tuple[tuple[Fraction, Fraction], ...]) -> Fraction:
    return box[0][1] - box[0][0]


def _reach_of(stock: Stock, rack: Rack | None, shop: Shop) -> Fraction:
    """How long a stick of that stock may be."""
    board = None if rack is None else rack.longest(stock.material, stock.thickness)
    return shop.sled.longest if board is None else min(shop.sled.longest, board)


def _longest_first(part: Part) -> tuple[Fraction, int]:
    # The sort is stable: within one length and role, part order stays.
    return (-part.size.length, ROLE_ORDER.get(part.name, 2))


def _fill(
    wanted: Sequence[_Wanted],
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
    loads: list[list[_Wanted]] = []
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
        _stick(f"#{used + n}", load, width, stock, kerf, unit, tail, reach, test)
        for n, load in enumerate(loads, 1)
    ]


def _stick(
    mark: str,
    load: Sequence[_Wanted],
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


def _test_sticks(
    parts: Sequence[Part],
    slot_depth: Fraction,
    stock: Stock,
    kerf: Fraction,
    shop: Shop,
    unit: Unit,
    used: int,
    reach: Fraction,
    extra: Mapping[TestRole, int],
) -> tuple[list[StickPlan], list[StickPlan], ScrapPieces, dict[str, tuple[str, ...]]]:
    """A stile-like and a rail-like test piece, of lengths cut at a stop that parts use too, long
    enough for the jig and the tries; one length more only where no part is long enough. Without
    slots the rail-like one alone; of what fills a frame, the stick as it is. Of `extra` ones, more
    of the same: bare sticks on which nothing but tests is cut, and the marks that each stands
    for."""
    least = fits.TEST_LEAST.of(unit)
    tries = fits.JIG_HOLD.of(unit) + fits.TEST_TRIES * (slot_depth + kerf)
    stile = _length(parts, max(least, tries))
    housed = max(furthest(part) for part in parts)
    rail = _length([p for p in parts if p.role == "rail" or housed], max(least, housed))
    width = max(part.size.width for part in parts)
    more_sticks, more = extra.get("stick", 0), extra.get("rail", 0)

    def bare_stick(number: int) -> StickPlan:
        return _stick(f"#{number}", (), width, stock, kerf, unit, ZERO, reach, True)

    if stock.joint is None:
        # What fills a frame is tried along the whole stick, and no piece is cut off it.
        width = min(width, fits.TEST_STRIP.of(unit))
        first, *bare = (bare_stick(used + n + 1) for n in range(1 + more_sticks))
        mark = first.stick.mark
        spares = {mark: tuple(plan.stick.mark for plan in bare)}
        return [first], bare, ScrapPieces(mark, mark, mark, ZERO), spares
    # Of rails alone, the stiles are there already.
    stiles = [_Wanted("", stile)] * (1 + extra.get("stile", 0) if slot_depth else 0)
    rails = [_Wanted("", rail)] * (1 + more)
    wanted = [*rails, *stiles] if rail > stile else [*stiles, *rails]
    made = _fill(wanted, width, stock, kerf, shop, unit, used, reach, test=True)
    marks = [piece.mark for plan in made for piece in plan.stick.pieces]
    split = len(rails if rail > stile else stiles)
    of_rail, of_stile = marks[split:], marks[:split] or marks
    if rail > stile:
        of_rail, of_stile = marks[:split], marks[split:] or marks
    bare = [bare_stick(used + len(made) + n + 1) for n in range(more_sticks)]
    names = ScrapPieces(made[0].stick.mark, of_stile[0], of_rail[0], rail)
    spares = {of_stile[0]: tuple(of_stile[1:]), of_rail[0]: tuple(of_rail[1:])}
    return made, bare, names, spares | {names.stick: tuple(plan.stick.mark for plan in bare)}


def _length(parts: Sequence[Part], least: Fraction) -> Fraction:
    return min((p.size.length for p in parts if p.size.length >= least), default=least)


def _too_long(piece: _Wanted, shop: Shop, unit: Unit) -> Fact:
    length, longest = Length(piece.length, unit), Length(shop.sled.longest, unit)
    if not piece.mark:
        return sequences.TEST_TOO_LONG(length=length, longest=longest)
    return sequences.TOO_LONG_FOR_SLED(mark=piece.mark, length=length, longest=longest)
