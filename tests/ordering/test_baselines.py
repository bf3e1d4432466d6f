"""The orders that people follow without a search, worked out by hand; each keeps its own rule."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.ordering import Alternative, Knob, Operation, Placed, Problem, check
from sequencer.ordering.baselines import by_rank, group_by_group
from sequencer.ordering.problem import Order

FENCE, HEIGHT = Knob("fence", Fraction(2)), Knob("height", Fraction(1), {"1/2": Fraction(3)})


def cut(name: str, **needs: str) -> Operation:
    """An operation; of several values that will do, each stands behind a bar."""
    return Operation(name, (Alternative({k: tuple(v.split(" | ")) for k, v in needs.items()}),))


def names(problem: Problem, steps: tuple[Placed, ...]) -> list[str]:
    return [problem.operations[step.operation].id for step in steps]


def test_by_kind_all_of_one_kind_come_first_the_smallest_number_first() -> None:
    """9 before 10, 7/8 before 1-1/4: sorted as numbers."""
    cuts = (
        cut("slot 1", fence="9"),
        cut("rip 10", fence="10"),
        cut("rip 9", fence="9"),
        cut("slot 7/8", fence="7/8"),
    )
    problem = Problem((FENCE,), cuts, ())
    steps = by_rank(problem, [1, 0, 0, 1])
    assert names(problem, steps) == ["rip 9", "rip 10", "slot 7/8", "slot 1"]
    assert check.recompute(problem, steps).minutes == 8


def test_by_kind_what_waits_is_done_in_the_next_sweep() -> None:
    cuts = (cut("a", fence="1"), cut("b", fence="2"), cut("c", fence="3"))
    problem = Problem((FENCE,), cuts, ((2, 0),))
    assert names(problem, by_rank(problem, [0, 0, 0])) == ["b", "c", "a"]


def test_by_kind_the_cheapest_of_the_values_is_set_and_of_equals_the_first_named() -> None:
    cuts = (cut("a", fence="6 | 5", height="1/2 | 3/4"), cut("b", fence="5"))
    problem = Problem((FENCE, HEIGHT), cuts, ())
    steps = by_rank(problem, [0, 1])
    assert steps[0].state == {"fence": "6", "height": "3/4"}
    assert check.recompute(problem, steps).minutes == 5


def test_by_kind_no_kind_may_wait_for_a_later_one() -> None:
    problem = Problem((FENCE,), (cut("a", fence="1"), cut("b", fence="2")), ((1, 0),))
    with pytest.raises(ValueError, match="rank 0"):
        by_rank(problem, [0, 1])


def test_door_by_door_each_is_done_before_the_next_with_what_it_waits_for() -> None:
    """Each door's cuts in their best order alone. The second's wait for one of the third's, which
    is brought along, and begin at the fence as the first left it. What is of no door comes last."""
    cuts = (
        cut("A at 1", fence="1"), cut("A at 2", fence="2"),
        cut("B at 1", fence="1"), cut("B at 2", fence="2"),
        cut("C at 3", fence="3"), cut("C at 1", fence="1"),
        cut("scrap at 2", fence="2"),
    )  # fmt: skip
    problem = Problem((FENCE,), cuts, ((1, 0), (4, 2)))
    steps = group_by_group(problem, [(0, 1), (2, 3), (4, 5)])
    done = names(problem, steps)
    assert done[:2] == ["A at 2", "A at 1"]
    assert set(done[2:5]) == {"B at 1", "B at 2", "C at 3"}
    assert done[5:] == ["C at 1", "scrap at 2"]
    check.recompute(problem, steps)


def test_door_by_door_each_is_asked_about_alone() -> None:
    """What is given to be ordered is the door's own: the knobs as they stand, nothing done."""
    cuts = (cut("A", fence="1"), cut("B", fence="1 | 2"))
    problem = Problem((FENCE,), cuts, ())
    asked: list[Problem] = []

    def solve(alone: Problem) -> Order:
        asked.append(alone)
        steps = (Placed(0, 0, {**alone.start, "fence": alone.start.get("fence", "1")}),)
        return Order(steps, Fraction(0), Fraction(0), True, 0, None, None)

    steps = group_by_group(problem, [(0,), (1,)], solve)
    assert names(problem, steps) == ["A", "B"]
    assert [[o.id for o in each.operations] for each in asked] == [["A"], ["B"]]
    assert [dict(each.start) for each in asked] == [{}, {"fence": "1"}]
