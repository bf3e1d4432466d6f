"""Layouts as whole numbers: agreement with trying everything, and what every layout must keep."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sequencer.stock.greedy import pack_greedily
from sequencer.stock.packing import Bin, Item, Packing, by_length, fullest
from sequencer.stock.search import _on_smaller, pack

Problem = tuple[list[Item], list[Bin]]


def partitions(numbers: Sequence[int]) -> Iterator[list[list[int]]]:
    """Every way of putting the numbers into groups."""
    if not numbers:
        yield []
        return
    first, *rest = numbers
    for groups in partitions(rest):
        yield [[first], *groups]
        for at in range(len(groups)):
            yield [*groups[:at], [first, *groups[at]], *groups[at + 1 :]]


def by_trying_everything(items: Sequence[Item], bins: Sequence[Bin]) -> tuple[int, int] | None:
    """Fewest boards and their least volume with every item placed: each grouping into rough
    lengths, each length on each board."""
    best: tuple[int, int] | None = None
    for groups in partitions(range(len(items))):
        for homes in product(range(len(bins)), repeat=len(groups)):
            room = [bin_.length for bin_ in bins]
            ties: dict[int, set[int]] = {}
            for group, home in zip(groups, homes, strict=True):
                room[home] -= max(items[n].length for n in group)
                if sum(items[n].width for n in group) > bins[home].width:
                    break
                if any(home not in items[n].boards for n in group):
                    break
                for n in group:
                    tie = items[n].tie
                    if tie is not None:
                        ties.setdefault(tie, set()).add(home)
            else:
                if min(room) >= 0 and all(len(found) == 1 for found in ties.values()):
                    used = sorted(set(homes))
                    cost = (len(used), sum(bins[n].volume for n in used))
                    best = cost if best is None else min(best, cost)
    return best


@st.composite
def problems(draw: st.DrawFn, items: int, bins: int, *, ties: bool = False) -> Problem:
    """Small whole numbers, so that much just fits; every item fits on some board alone."""
    boards = [
        Bin(length, width, length * width + draw(st.integers(0, 3)))
        for length, width in draw(
            st.lists(st.tuples(st.integers(4, 14), st.integers(3, 9)), min_size=1, max_size=bins)
        )
    ]
    made = []
    for _ in range(draw(st.integers(1, items))):
        home = draw(st.sampled_from(boards))
        length, width = draw(st.integers(1, home.length)), draw(st.integers(1, home.width))
        fits = {n for n, each in enumerate(boards) if each.length >= length and each.width >= width}
        banned = draw(st.sets(st.integers(0, len(boards) - 1)))
        tie = draw(st.sampled_from((None, None, 0, 1))) if ties else None
        made.append(Item(length, width, frozenset(fits - banned or fits), tie))
    return made, boards


def assert_sound(packing: Packing, items: Sequence[Item], bins: Sequence[Bin]) -> None:
    """Every item once, within its rough length and that within its board, ties kept."""
    placed = [n for _, group in packing.segments for n in group]
    assert sorted([*placed, *packing.left]) == list(range(len(items)))
    room = [bin_.length for bin_ in bins]
    home: dict[int, int] = {}
    for board, group in packing.segments:
        assert group
        assert sum(items[n].width for n in group) <= bins[board].width
        assert items[group[0]].length == max(items[n].length for n in group)
        room[board] -= items[group[0]].length
        for n in group:
            assert board in items[n].boards
            tie = items[n].tie
            if tie is not None:
                assert home.setdefault(tie, board) == board
    assert min(room, default=0) >= 0
    assert packing.left or packing.least <= len(packing.boards)


@given(problems(5, 3))
def test_small_layouts_are_those_of_trying_everything(problem: Problem) -> None:
    items, bins = problem
    found = pack(items, bins)
    assert_sound(found, items, bins)
    best = by_trying_everything(items, bins)
    assert found.proven
    if best is None:
        assert found.left
    else:
        assert not found.left
        assert (len(found.boards), sum(bins[n].volume for n in found.boards)) == best
        assert found.least == best[0]


@given(problems(5, 3, ties=True))
def test_small_layouts_with_ties_too(problem: Problem) -> None:
    items, bins = problem
    found = pack(items, bins)
    assert_sound(found, items, bins)
    best = by_trying_everything(items, bins)
    assert bool(found.left) == (best is None)
    if best is not None:
        assert (len(found.boards), sum(bins[n].volume for n in found.boards)) == best


@given(problems(18, 6, ties=True), st.integers(0, 3000))
def test_layouts_cut_short_are_sound(problem: Problem, work: int) -> None:
    items, bins = problem
    assert_sound(pack(items, bins, work), items, bins)
    assert_sound(pack_greedily(items, bins), items, bins)


@given(problems(7, 4))
def test_the_bound_is_one(problem: Problem) -> None:
    """However little work it is given, it never claims more than is so."""
    items, bins = problem
    best = pack(items, bins, 10**6)
    for work in (0, 20, 60):
        hasty = pack(items, bins, work)
        if not best.left and not hasty.left:
            assert hasty.least <= len(best.boards) <= len(hasty.boards)
            if hasty.proven:
                assert sum(bins[n].volume for n in hasty.boards) == sum(
                    bins[n].volume for n in best.boards
                )
        elif hasty.proven:
            assert bool(best.left) == bool(hasty.left)


@pytest.mark.parametrize(
    ("sizes", "room", "most"),
    [([3, 5], 7, 5), ([3, 5], 8, 8), ([], 4, 0), ([9], 4, 0), ([2, 2, 2], 5, 4)],
)
def test_what_sums_make_of_a_room(sizes: list[int], room: int, most: int) -> None:
    assert fullest(sizes, room) == most


def test_too_many_sums_leave_the_room_as_it_is() -> None:
    assert fullest([2**n for n in range(20)], 2**20, most=100) == 2**20


def test_a_worked_layout() -> None:
    """By hand: four rails of 20 lie two by two across a board 8 wide and 41 long; the fifth item
    needs a board of its own, the smaller one."""
    rail = Item(20, 4, frozenset({0, 1, 2}))
    stile = Item(30, 4, frozenset({0, 1, 2}))
    found = pack(
        [rail, rail, rail, rail, stile], [Bin(41, 8, 328), Bin(60, 5, 300), Bin(30, 4, 120)]
    )
    assert found.boards == (0, 2)
    assert found.proven
    assert found.segments[-1] == (2, (4,))


def test_a_layout_that_uses_a_board_up_is_found() -> None:
    """By hand: a length of 4, ripped to 2 and to 1, and one of 2 use up a board of 6. Where the
    second item were laid beside the first, which wastes less at once, the third had no place."""
    items = [Item(4, 2, frozenset({0})), Item(2, 2, frozenset({0})), Item(3, 1, frozenset({0}))]
    board = [Bin(6, 4, 24)]
    assert pack_greedily(items, board).left == (2,)
    found = pack(items, board)
    assert found.left == ()
    assert {frozenset(group) for _, group in found.segments} == {frozenset({0, 2}), frozenset({1})}


def test_what_fits_to_the_very_edge_may_keep_out_what_is_tied() -> None:
    """By hand, on boards of 7 by 5: the two that are tied lie side by side with the smallest, the
    other item alone. It would fill the first length to the edge, where nothing is lost as a rule:
    here the second of the tied ones then has no room beside the first."""
    everywhere = frozenset(range(3))
    items = [
        Item(7, 2, everywhere, 0), Item(5, 1, everywhere, 0),
        Item(6, 3, everywhere, 1), Item(2, 2, everywhere, 2),
    ]  # fmt: skip
    found = pack(items, [Bin(7, 5, 35)] * 3)
    assert_sound(found, items, [Bin(7, 5, 35)] * 3)
    assert len(found.boards) == 2


def test_what_fits_to_the_very_edge_may_keep_out_what_one_board_alone_holds() -> None:
    """By hand: beside the first the second would fill the smaller board to the edge, and keep out
    the third, which no other takes; it goes on the larger."""
    items = [Item(5, 1, frozenset({1})), Item(2, 4, frozenset({0, 1})), Item(2, 2, frozenset({1}))]
    found = pack(items, [Bin(5, 7, 36), Bin(5, 5, 28)])
    assert found.left == ()
    assert set(found.segments) == {(0, (1,)), (1, (0, 2))}


def test_boards_that_are_used_up_need_no_search_for_less() -> None:
    """By hand: three items of 20 in all fill two boards of 10. No layout takes less volume than
    there is wood in it: one look is enough to prove it."""
    everywhere = frozenset(range(4))
    items = [Item(5, 2, everywhere), Item(5, 1, everywhere), Item(5, 1, everywhere)]
    bins = [Bin(5, 2, 10), Bin(5, 2, 10), Bin(5, 3, 15), Bin(5, 3, 15)]
    found = pack(items, bins, work=len(items) ** 2)
    assert found.boards == (0, 1)
    assert found.proven


def test_of_many_unlike_boards_those_that_held_most_are_looked_at_again() -> None:
    """By hand: two boards take three of the items each, eighteen others one each. When the first
    is full, the second is found among all the others."""
    bins = [
        *(Bin(10 + n % 9, 2 + n // 9, 100) for n in range(18)),
        Bin(30, 2, 100),
        Bin(31, 2, 100),
    ]
    items = [Item(10, 2, frozenset(range(20)))] * 6
    found = pack_greedily(items, bins)
    assert not found.left
    assert set(found.boards) == {18, 19}


def test_longest_first() -> None:
    everywhere = frozenset({0})
    items = [Item(2, 9, everywhere), Item(5, 1, everywhere), Item(5, 3, everywhere)]
    assert by_length(items) == [2, 1, 0]


def test_a_board_is_taken_over_by_the_smallest_that_will_do() -> None:
    """Of four boards, two are smaller; the smallest is too small."""
    items = [Item(10, 4, frozenset(range(4))), Item(8, 4, frozenset(range(4)))]
    bins = [Bin(30, 8, 240), Bin(10, 8, 80), Bin(20, 6, 120), Bin(6, 6, 36)]
    begun = Packing(((0, (0,)), (0, (1,))), (), 1, False)
    assert _on_smaller(begun, items, bins).segments == ((1, (0, 1)),)
    others = [Item(10, 4, frozenset({0, 2})), items[1]]
    assert _on_smaller(begun, others, bins).boards == (2,)
