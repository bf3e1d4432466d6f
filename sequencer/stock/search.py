"""The best layout, by search: longest item first, each on a length that is begun already, on a new
length, or on a new board.

States that led nowhere are remembered. What is left to place must fit the area that is left, where
no length and no board counts for more than some sum of items makes of it. The search is cut short
after a number of states, the same on every machine; the fewest boards not ruled out by then are
the bound.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from sequencer.stock.greedy import cost, pack_greedily
from sequencer.stock.packing import Bin, Item, Packing, Segment, by_length, fullest

WORK = 4_300_000
"""How many states are looked at before a search is cut short, times the square of the number of
items: each state costs about as much as there are items, and hopes shrink with them."""

MOST_ITEMS = 250
"""More are laid out without a search."""


def pack(items: Sequence[Item], bins: Sequence[Bin], work: int = WORK) -> Packing:
    """The layout of fewest boards and of these the least volume, ties kept; items are left only
    where no layout with all of them was found. Every item must fit on some board alone."""
    first = pack_greedily(items, bins)
    if not items:
        return Packing((), (), 0, True)
    states = work // len(items) ** 2
    search = _Search(items, bins)
    least = search.least_boards()
    if len(items) > MOST_ITEMS:
        return Packing(first.segments, first.left, least, False)
    best: Packing | None = first
    if first.left:
        best = search.find(len(bins), None, states)
        if best is None:
            return Packing(first.segments, first.left, least, not search.cut_short)
    assert best is not None
    certain = True
    numbers = range(least, len(best.boards))
    for number in numbers:
        found = search.find(number, None, states // len(numbers))
        if found is not None:
            best = found
            break
        certain = certain and not search.cut_short
        least = number + 1 if certain else least
    best = _on_smaller(best, items, bins)
    left = states
    while True:
        found = search.find(len(best.boards), cost(best, items, bins)[2], left)
        if found is None:
            return Packing(best.segments, (), least, certain and not search.cut_short)
        best, left = found, search.states


def _on_smaller(packing: Packing, items: Sequence[Item], bins: Sequence[Bin]) -> Packing:
    """Each board's items moved as they are to the smallest unused board that takes them all."""
    on: dict[int, list[int]] = {}
    for board, chosen in packing.segments:
        on.setdefault(board, []).extend(chosen)
    unused = [n for n in range(len(bins)) if n not in on]
    segments: list[Segment] = []
    for board, placed in sorted(on.items(), key=lambda found: (-bins[found[0]].volume, found[0])):
        kept = [segment for segment in packing.segments if segment[0] == board]
        for other in sorted(unused, key=lambda n: (bins[n].volume, n)):
            if bins[other].volume >= bins[board].volume:
                break
            if bins[other].area < sum(items[n].area for n in placed):
                continue
            if not all(other in items[n].boards for n in placed):
                continue
            alone = [Item(items[n].length, items[n].width, frozenset({0})) for n in placed]
            tried = pack_greedily(alone, [bins[other]])
            if not tried.left:
                kept = [(other, tuple(placed[n] for n in chosen)) for _, chosen in tried.segments]
                unused[unused.index(other)] = board
                break
        segments += kept
    return Packing(tuple(sorted(segments, key=lambda segment: segment[0])), (), 0, False)


@dataclass(slots=True)
class _Begun:
    """A length on an open board, with the width that is left and the items on it."""

    room: int
    length: int
    items: list[int]


@dataclass(slots=True)
class _Open:
    """A board in use: its length that is left, and its lengths begun."""

    board: int
    room: int
    begun: list[_Begun] = field(default_factory=list)


class _Search:
    """One problem; `find` may be called for several numbers of boards and volumes."""

    def __init__(self, items: Sequence[Item], bins: Sequence[Bin]) -> None:
        self.order = by_length(items)
        self.items = [items[n] for n in self.order]
        self.bins = _reduced(bins, items)
        self.area_from = [0] * (len(items) + 1)
        self.least_from = [(0, 0)] * (len(items) + 1)
        length = width = max((max(i.length, i.width) for i in items), default=0)
        for n in range(len(items) - 1, -1, -1):
            item = self.items[n]
            length, width = min(length, item.length), min(width, item.width)
            self.area_from[n] = self.area_from[n + 1] + item.area
            self.least_from[n] = (length, width)
        self.kinds = self._kinds()
        self.tied = any(item.tie is not None for item in items)
        self.alike = not self.tied and len({item.boards for item in items}) == 1
        self.by_area = sorted(range(len(bins)), key=lambda n: (-self.bins[n].area, n))
        self.by_price = sorted(
            (n for n in range(len(bins)) if self.bins[n].area),
            key=lambda n: (Fraction(self.bins[n].volume, self.bins[n].area), n),
        )
        self.ties_from = [
            frozenset(item.tie for item in self.items[n:]) if self.tied else frozenset()
            for n in range(len(items) + 1)
        ]

    def least_boards(self) -> int:
        """No fewer boards have the area: of all items, and of those that few boards may hold."""
        least = 1
        for allowed in {item.boards for item in self.items}:
            area = sum(item.area for item in self.items if item.boards <= allowed)
            least = max(least, _count(area, [self.bins[n].area for n in allowed]))
        return max(least, _count(self.area_from[0], [bin_.area for bin_ in self.bins]))

    def find(self, boards: int, below: int | None, states: int) -> Packing | None:
        """A layout on at most that many boards, of a volume under `below`; `None` where there is
        none, or where the search was `cut_short`."""
        self.most, self.below = boards, below
        self.states, self.cut_short = states, False
        self.open: list[_Open] = []
        self.used = [False] * len(self.bins)
        self.volume = 0
        self.home: dict[int, int] = {}
        self.failed: set[object] = set()
        return self._packing() if self._place(0) else None

    def _packing(self) -> Packing:
        segments = tuple(
            (each.board, tuple(self.order[n] for n in begun.items))
            for each in sorted(self.open, key=lambda each: each.board)
            for begun in each.begun
        )
        return Packing(segments, (), 0, False)

    def _kinds(self) -> list[int]:
        """Boards that may stand for one another have one number: the first of them."""
        seen: dict[object, int] = {}
        kinds = []
        for n, bin_ in enumerate(self.bins):
            takes = tuple(i for i, item in enumerate(self.items) if n in item.boards)
            kinds.append(seen.setdefault((bin_, takes), n))
        return kinds

    def _place(self, n: int) -> bool:
        if n == len(self.items):
            return True
        if self.states <= 0:
            self.cut_short = True
            return False
        self.states -= 1
        if not self._enough(n):
            return False
        state = self._state(n)
        if state in self.failed:
            return False
        for undo in self._ways(n):
            if self._place(n + 1):
                return True
            undo()
            if self.cut_short:
                return False
        self.failed.add(state)
        return False

    def _enough(self, n: int) -> bool:
        """Whether area and volume allow what is left to place."""
        length, width = self.least_from[n]
        area = self.area_from[n]
        for each in self.open:
            if each.room >= length:
                area -= each.room * self.bins[each.board].width
            area -= sum(b.room * b.length for b in each.begun if b.room >= width)
        return area <= 0 or (self._boards_for(area) and self._volume_for(area))

    def _boards_for(self, area: int) -> bool:
        """Whether as many of the largest unused boards as may still be opened have that area."""
        more = self.most - len(self.open)
        for board in self.by_area:
            if area <= 0 or not more:
                break
            if not self.used[board]:
                area -= self.bins[board].area
                more -= 1
        return area <= 0

    def _volume_for(self, area: int) -> bool:
        """Whether the unused boards of least volume for their area, the last in part, keep the
        volume under what is asked."""
        if self.below is None:
            return True
        volume = self.volume
        for board in self.by_price:
            if not self.used[board]:
                bin_ = self.bins[board]
                if area <= bin_.area:
                    return volume + -(-area * bin_.volume // bin_.area) < self.below
                area -= bin_.area
                volume += bin_.volume
        return False

    def _state(self, n: int) -> object:
        length, width = self.least_from[n]
        boards = [
            (
                self.kinds[each.board],
                each.room if each.room >= length else 0,
                tuple(sorted((b.room, b.length) for b in each.begun if b.room >= width)),
                each.board if self.tied else 0,
            )
            for each in self.open
        ]
        ties = self.ties_from[n]
        homes = tuple(sorted((tie, at) for tie, at in self.home.items() if tie in ties))
        return n, tuple(sorted(boards)), homes

    def _ways(self, n: int) -> Iterator[_Undo]:
        item = self.items[n]
        home = self.home.get(item.tie) if item.tie is not None else None
        boards = [
            each for each in self.open if each.board in item.boards and home in (None, each.board)
        ]
        begun = [(b.room, k, b) for k, each in enumerate(boards) for b in each.begun]
        fitting = sorted(
            (found for found in begun if found[0] >= item.width), key=lambda found: found[:2]
        )
        seen: set[object] = set()
        for room, k, length in fitting:
            if (room, k) not in seen:
                seen.add((room, k))
                yield self._on(n, boards[k], length)
                if room == item.width and self.alike:
                    return  # whatever else would lie there can change places with it
        for each in boards:
            if each.room >= item.length and self.bins[each.board].width >= item.width:
                lengths = tuple((b.room, b.length) for b in each.begun)
                alike = (self.kinds[each.board], each.room, lengths)
                if self.tied or alike not in seen:
                    seen.add(alike)
                    yield self._on(n, each, None)
        if home is None and len(self.open) < self.most:
            for board in self.by_area:
                fits = self.bins[board].length >= item.length
                fits = fits and self.bins[board].width >= item.width and board in item.boards
                if self.below is not None:
                    fits = fits and self.volume + self.bins[board].volume < self.below
                if fits and not self.used[board] and self.kinds[board] not in seen:
                    seen.add(self.kinds[board])
                    yield self._on(n, None, None, board)

    def _on(self, n: int, each: _Open | None, length: _Begun | None, board: int = 0) -> _Undo:
        item = self.items[n]
        opened = each is None
        if each is None:
            each = _Open(board, self.bins[board].length)
            self.open.append(each)
            self.used[board] = True
            self.volume += self.bins[board].volume
        begins = length is None
        if length is None:
            length = _Begun(self.bins[each.board].width, item.length, [])
            each.begun.append(length)
            each.room -= item.length
        length.room -= item.width
        length.items.append(n)
        settled = item.tie is not None and item.tie not in self.home
        if settled:
            assert item.tie is not None
            self.home[item.tie] = each.board
        return _Undo(self, n, each, length, opened, begins, settled)


@dataclass(slots=True)
class _Undo:
    """Takes back what placing an item did."""

    search: _Search
    n: int
    each: _Open
    length: _Begun
    opened: bool
    begins: bool
    settled: bool

    def __call__(self) -> None:
        search, each, item = self.search, self.each, self.search.items[self.n]
        self.length.items.pop()
        self.length.room += item.width
        if self.begins:
            each.begun.pop()
            each.room += item.length
        if self.opened:
            search.open.pop()
            search.used[each.board] = False
            search.volume -= search.bins[each.board].volume
        if self.settled:
            assert item.tie is not None
            del search.home[item.tie]


def _reduced(bins: Sequence[Bin], items: Sequence[Item]) -> list[Bin]:
    """The boards with no more length and width than items can make use of."""
    known: dict[tuple[int, int, tuple[int, ...]], tuple[int, int]] = {}
    found = []
    for n, board in enumerate(bins):
        taken = tuple(i for i, item in enumerate(items) if n in item.boards)
        key = (board.length, board.width, taken)
        if key not in known:
            known[key] = (
                fullest([items[i].length for i in taken], board.length),
                fullest([items[i].width for i in taken], board.width),
            )
        found.append(Bin(*known[key], board.volume))
    return found


def _count(area: int, areas: Sequence[int]) -> int:
    """The fewest of `areas` that hold `area`; one more than there are where all do not."""
    for number, each in enumerate(sorted(areas, reverse=True), 1):
        area -= each
        if area <= 0:
            return number
    return len(areas) + 1
