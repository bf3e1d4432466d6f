"""A layout found board by board: the longest item begins a length, others fill its width.

Good, seldom the best; the search starts from it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from math import lcm

from sequencer.stock.packing import Bin, Item, Packing, by_length

_MOST_SUMS = 120
_WAYS = 3
_LOOKS = 16


@dataclass(slots=True)
class _Length:
    """A rough length of a board as it fills up."""

    length: int
    room: int
    items: list[int] = field(default_factory=list)


def pack_greedily(items: Sequence[Item], bins: Sequence[Bin]) -> Packing:
    """Tries a few ways of choosing the next board, and keeps the best layout. Ties are kept: what
    cannot be placed with its ties is left."""
    ways = range(_WAYS if len(bins) > 1 else 1)
    kinds = _kinds(items, bins)
    return min((_pack(items, bins, kinds, way) for way in ways), key=lambda p: cost(p, items, bins))


def _kinds(items: Sequence[Item], bins: Sequence[Bin]) -> list[int]:
    """A number for each board; equal boards, which take the same items, have the same."""
    seen: dict[object, int] = {}
    return [
        seen.setdefault((bin_, tuple(n in item.boards for item in items)), n)
        for n, bin_ in enumerate(bins)
    ]


def cost(packing: Packing, items: Sequence[Item], bins: Sequence[Bin]) -> tuple[int, int, int]:
    """What a layout is judged by: area left, boards, volume."""
    return (
        sum(items[n].area for n in packing.left),
        len(packing.boards),
        sum(bins[n].volume for n in packing.boards),
    )


def _pack(items: Sequence[Item], bins: Sequence[Bin], kinds: Sequence[int], way: int) -> Packing:
    left = by_length(items)
    members = Counter(item.tie for item in items)
    segments: list[tuple[int, tuple[int, ...]]] = []
    # Only those boards are looked at again that were worth most when they were looked at last.
    hopeful = list(range(len(bins)))
    worth: dict[int, int] = {}
    scale = lcm(*(bin_.volume for bin_ in bins))
    looks = len(bins)
    while left and hopeful:
        filled = {}
        firsts = {kinds[board]: board for board in reversed(hopeful)}  # of equal boards one
        for board in [n for n in hopeful if firsts[kinds[n]] == n][:looks]:
            allowed = [n for n in left if board in items[n].boards]
            filled[board] = _fill(items, bins[board], allowed, members)
            worth[board] = _worth(items, bins[board].volume, filled[board], way, scale)
        looks = _LOOKS
        best = max(filled, key=lambda n: (worth[n], -n))
        placed = {n for length in filled[best] for n in length.items}
        left = [n for n in left if n not in placed]
        segments += ((best, tuple(length.items)) for length in filled[best])
        hopeful.remove(best)
        hopeful.sort(key=lambda n: (n in worth, -worth.get(n, 0), n))
    return Packing(tuple(segments), tuple(sorted(left)), 0, False)


def _worth(
    items: Sequence[Item], volume: int, filled: Sequence[_Length], way: int, scale: int
) -> int:
    """Most wood placed; least wood wasted; between the two. `scale`, a multiple of every board's
    volume, makes whole numbers of the parts of it that are used."""
    area = sum(items[n].area for length in filled for n in length.items)
    return (area, area * (scale // volume), area**2 * (scale // volume))[way]


def _fill(
    items: Sequence[Item], board: Bin, allowed: Sequence[int], members: Mapping[int | None, int]
) -> list[_Length]:
    """Fill one board from the items in the order given; `members` counts those of each tie."""
    lengths: list[_Length] = []
    room = board.length
    waiting = list(allowed)
    while waiting:
        first = next(
            (n for n in waiting if items[n].length <= room and items[n].width <= board.width), None
        )
        if first is None:
            break
        if items[first].tie is not None:
            group = [n for n in waiting if items[n].tie == items[first].tie]
            whole = len(group) == members[items[first].tie]
            added = _add_all(items, board, lengths, room, group) if whole else None
            waiting = [n for n in waiting if n not in group]
            if added is not None:
                lengths, room = added
            continue
        begun = _Length(items[first].length, board.width - items[first].width, [first])
        loose = [n for n in waiting if n != first and items[n].tie is None]
        begun.items += _widths(items, loose, begun)
        begun.room -= sum(items[n].width for n in begun.items[1:])
        room -= begun.length
        lengths.append(begun)
        waiting = [n for n in waiting if n not in begun.items]
    return lengths


def _add_all(
    items: Sequence[Item], board: Bin, lengths: Sequence[_Length], room: int, group: Sequence[int]
) -> tuple[list[_Length], int] | None:
    """All of a group on the board, each in the tightest length or in a new one."""
    made = [_Length(length.length, length.room, list(length.items)) for length in lengths]
    for n in group:
        item = items[n]
        fitting = [each for each in made if each.length >= item.length and each.room >= item.width]
        if fitting:
            place = min(fitting, key=lambda each: (each.length - item.length, each.room))
        elif room >= item.length and board.width >= item.width:
            place = _Length(item.length, board.width)
            made.append(place)
            room -= item.length
        else:
            return None
        place.items.append(n)
        place.room -= item.width
    return made, room


def _widths(items: Sequence[Item], loose: Sequence[int], begun: _Length) -> list[int]:
    """Which items fill the rest of a length best, by area; the longest of them first."""
    reached: dict[int, tuple[int, tuple[int, ...]]] = {0: (0, ())}
    for n in loose:
        item = items[n]
        if item.width > begun.room or item.length > begun.length:
            continue
        for width, (area, chosen) in list(reached.items()):
            wider = width + item.width
            if wider <= begun.room and area + item.area > reached.get(wider, (0, ()))[0]:
                reached[wider] = (area + item.area, (*chosen, n))
        if len(reached) > _MOST_SUMS or begun.room in reached:
            break
    return list(max(reached.values(), key=lambda found: found[0])[1])
