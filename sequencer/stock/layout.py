"""Blanks on boards: the problem in whole numbers, its answer in places, and what is to be said."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from math import lcm

from msgspec import Struct

from sequencer.facts import Fact, stocks
from sequencer.job.rack import Board as Owned
from sequencer.job.rack import Rack
from sequencer.lengths import Unit
from sequencer.plan import Blank, Board, Size, Span
from sequencer.records import replace
from sequencer.stock.check import check
from sequencer.stock.demand import Demand
from sequencer.stock.greedy import cost
from sequencer.stock.packing import Bin, Item, Packing
from sequencer.stock.search import pack
from sequencer.trade.lumber import PLANED_AWAY

_LITTLE_WORK = 50_000
"""For asking whether one board alone holds what belongs together."""


class LaidOut(Struct, frozen=True):
    boards: tuple[Board, ...]
    missing: tuple[Blank, ...]
    says: tuple[Fact, ...]


def lay_out(wanted: Demand, rack: Rack, unit: Unit) -> LaidOut:
    """Every board of the rack, in its order, with what is cut from it.

    Blanks that fit on no board, or for which none is left, are missing. A blank comes from a board
    much thicker than another that would do, and strips of one panel or pieces that match come from
    several boards, only where something were missing otherwise.
    """
    allowed = _allowed(wanted.blanks, rack)
    thin = _thinnest(allowed, rack, PLANED_AWAY.of(unit))
    laid = _lay_out(wanted, rack, thin)
    if laid.missing and thin != allowed:
        other = _lay_out(wanted, rack, allowed)
        if _area(other.missing) < _area(laid.missing):
            laid = other
    check(laid.boards, laid.missing, wanted.blanks, rack.kerf)
    return laid


def _area(blanks: Sequence[Blank]) -> Fraction:
    return sum((blank.size.length * blank.size.width for blank in blanks), Fraction(0))


def _lay_out(wanted: Demand, rack: Rack, allowed: Sequence[frozenset[int]]) -> LaidOut:
    missing = [n for n, boards in enumerate(allowed) if not boards]
    scale = _scale(wanted.blanks, rack)
    bins = [_bin(board, rack.kerf, scale) for board in rack.boards]
    cuts: dict[int, list[tuple[Blank, ...]]] = {}
    packings: list[Packing] = []
    apart: list[Fact] = []
    for numbers in _separate(allowed):
        items = [_item(wanted.blanks[n], allowed[n], rack.kerf, scale) for n in numbers]
        blanks = [wanted.blanks[n] for n in numbers]
        packing, given_up = _pack(items, blanks, bins, wanted)
        apart += given_up
        packings.append(packing)
        missing += [numbers[n] for n in packing.left]
        for board, placed in packing.segments:
            cuts.setdefault(board, []).append(tuple(blanks[n] for n in placed))
    boards = tuple(_board(b, cuts.get(n, []), rack.kerf) for n, b in enumerate(rack.boards))
    lost = tuple(wanted.blanks[n] for n in sorted(missing))
    return LaidOut(boards, lost, tuple(_says(packings, apart, lost)))


def _allowed(blanks: Sequence[Blank], rack: Rack) -> list[frozenset[int]]:
    """The boards that each blank may come from."""
    usable = [board.usable for board in rack.boards]
    stocks: dict[tuple[str, Fraction], list[int]] = {}
    found = []
    for blank in blanks:
        stock = (blank.material, blank.size.thickness)
        if stock not in stocks:
            stocks[stock] = [
                n for n, each in enumerate(rack.boards) if each.yields(*stock, rack.milling)
            ]
        length, width = blank.size.length, blank.size.width
        found.append(
            frozenset(n for n in stocks[stock] if length <= usable[n][0] and width <= usable[n][1])
        )
    return found


def _thinnest(
    allowed: Sequence[frozenset[int]], rack: Rack, more: Fraction
) -> list[frozenset[int]]:
    """Of the boards allowed, those that are not much thicker than the thinnest."""
    thickness = [board.thickness for board in rack.boards]
    found: dict[frozenset[int], frozenset[int]] = {}
    for boards in allowed:
        if boards and boards not in found:
            most = min(thickness[n] for n in boards) + more
            found[boards] = frozenset(n for n in boards if thickness[n] <= most)
    return [found.get(boards, boards) for boards in allowed]


def _scale(blanks: Sequence[Blank], rack: Rack) -> int:
    """What makes every length a whole number."""
    lengths = [rack.kerf]
    for blank in blanks:
        lengths += (blank.size.length, blank.size.width)
    for board in rack.boards:
        lengths += (*board.usable, board.length, board.width, board.thickness)
    return lcm(*(length.denominator for length in lengths))


def _bin(board: Owned, kerf: Fraction, scale: int) -> Bin:
    length, width = board.usable
    volume = int(board.length * board.width * board.thickness * scale**3)
    return Bin(int((length + kerf) * scale), int((width + kerf) * scale), volume)


def _item(blank: Blank, boards: frozenset[int], kerf: Fraction, scale: int) -> Item:
    length, width = (blank.size.length + kerf) * scale, (blank.size.width + kerf) * scale
    return Item(int(length), int(width), boards)


def _separate(allowed: Sequence[frozenset[int]]) -> list[list[int]]:
    """Blanks in groups that share no board, each in order; each is a problem of its own."""
    groups: list[tuple[set[int], list[int]]] = []
    for n, boards in enumerate(allowed):
        if not boards:
            continue
        joined = (set(boards), [n])
        for group in [group for group in groups if group[0] & boards]:
            groups.remove(group)
            joined = (joined[0] | group[0], group[1] + joined[1])
        groups.append(joined)
    return sorted((sorted(numbers) for _, numbers in groups), key=lambda numbers: numbers[0])


def _pack(
    items: Sequence[Item], blanks: Sequence[Blank], bins: Sequence[Bin], wanted: Demand
) -> tuple[Packing, list[Fact]]:
    """The packing with all ties, or with as many kinds of them as leave nothing out, and what was
    given up."""
    matched = _ties(items, blanks, bins, wanted.matched)
    glued = _ties(items, blanks, bins, wanted.glued)
    best: tuple[Packing, list[Fact]] | None = None
    ways = [glued | matched, glued, {}]
    for ties in [ties for n, ties in enumerate(ways) if ties not in ways[:n]]:
        tied = [
            replace(item, tie=ties.get(blank.mark))
            for item, blank in zip(items, blanks, strict=True)
        ]
        packing = pack(tied, bins)
        apart = _apart(packing, blanks, wanted)
        if best is None or cost(packing, items, bins)[0] < cost(best[0], items, bins)[0]:
            best = (packing, apart)
        if not best[0].left or not ties:
            break
    assert best is not None
    return best


def _ties(
    items: Sequence[Item], blanks: Sequence[Blank], bins: Sequence[Bin], groups: Mapping[str, int]
) -> dict[str, int]:
    """The groups that one board may hold at all, and that have several members here."""
    members: dict[int, list[int]] = {}
    for n, blank in enumerate(blanks):
        if blank.mark in groups:
            members.setdefault(groups[blank.mark], []).append(n)
    return {
        blanks[n].mark: group
        for group, found in members.items()
        if len(found) > 1 and _hold_all([items[n] for n in found], bins)
        for n in found
    }


def _hold_all(items: Sequence[Item], bins: Sequence[Bin]) -> bool:
    common = frozenset.intersection(*(item.boards for item in items))
    alone = [Item(item.length, item.width, frozenset({0})) for item in items]
    area = sum(item.area for item in items)
    return any(
        area <= bins[n].area and not pack(alone, [bins[n]], _LITTLE_WORK).left
        for n in sorted(common)
    )


def _apart(packing: Packing, blanks: Sequence[Blank], wanted: Demand) -> list[Fact]:
    """Strips that were to come from one board and do not."""
    home = {blanks[n].mark: board for board, placed in packing.segments for n in placed}
    said: list[Fact] = []
    kinds = ((wanted.glued, stocks.GLUED_APART), (wanted.matched, stocks.MATCHED_APART))
    for groups, kind in kinds:
        members: dict[int, list[Blank]] = {}
        for blank in blanks:
            if blank.mark in groups:
                members.setdefault(groups[blank.mark], []).append(blank)
        said += [
            kind(strips=tuple(dict.fromkeys(blank.stick for blank in found)))
            for found in members.values()
            if len({home[blank.mark] for blank in found if blank.mark in home}) > 1
        ]
    return said


def _board(board: Owned, lengths: Sequence[tuple[Blank, ...]], kerf: Fraction) -> Board:
    """Longest rough length first, in each the longest blank first, from one edge across."""
    at = board.trim
    crosscuts: list[Span] = []
    placed: list[Blank] = []
    for blanks in sorted(lengths, key=lambda blanks: -blanks[0].size.length):
        across = board.edge
        longest = max(blank.size.length for blank in blanks)
        for blank in blanks:
            placed.append(replace(blank, at=(at, across)))
            across += blank.size.width + kerf
        crosscuts.append((at, at + longest))
        at += longest + kerf
    size = Size(board.length, board.width, board.thickness)
    return Board(
        board.mark, board.species, size, board.trim, board.edge, tuple(crosscuts), tuple(placed)
    )


def _says(
    packings: Sequence[Packing], apart: Sequence[Fact], missing: Sequence[Blank]
) -> Iterator[Fact]:
    """How good the layout is. Each group of blanks has a bound of its own; they add up."""
    used = sum(len(packing.boards) for packing in packings)
    most = used - sum(min(packing.least, len(packing.boards)) for packing in packings)
    proven = all(packing.proven for packing in packings)
    if missing:
        short = stocks.SHORT if proven else stocks.SHORT_AS_TRIED
        yield short(strips=tuple(blank.mark for blank in missing))
        yield stocks.BUY_FIRST()
    elif proven:
        yield stocks.PROVEN(n=used)
    elif most:
        yield stocks.AT_MOST(n=used, more=most)
    else:
        yield stocks.FEWEST(n=used)
    yield from apart
