"""An order rewritten to read calmly: the same cuts, no dearer, fewer walks to the bench."""

from __future__ import annotations

from fractions import Fraction

from sequencer.ordering import Alternative, Knob, Operation, Placed, Problem, check
from sequencer.setups.calm import calm

FENCE = Knob("fence", Fraction(2))


def rewritten(
    needs: list[str],
    before: list[tuple[int, int]],
    order: list[int],
    ranks: list[int],
    tried: tuple[int, ...] = (),
) -> list[int]:
    """The order again, calm. Each operation needs the fence at a number; at the bench, nothing."""
    ways = [Alternative({"fence": (need,)} if need else {}) for need in needs]
    cuts = tuple(Operation(f"o{n}", (way,)) for n, way in enumerate(ways))
    problem = Problem((FENCE,), cuts, tuple(before))
    state: dict[str, str] = {}
    steps = []
    for n in order:
        state = {**state, "fence": needs[n]} if needs[n] else state
        steps.append(Placed(n, 0, dict(state)))
    usual = check.recompute(problem, steps).minutes
    made = calm(problem, steps, ranks, {n: ["fence"] for n in tried})
    assert check.recompute(problem, made).minutes <= usual
    return [placed.operation for placed in made]


def test_within_a_setting_cuts_go_by_kind_then_by_part() -> None:
    assert rewritten(["1", "1", "1", "1"], [], [3, 0, 2, 1], [7, 3, 7, 3]) == [1, 3, 0, 2]


def test_what_the_saw_stands_right_for_is_cut_at_once() -> None:
    """The last cut at 1 was left for a second visit, which it need not have."""
    assert rewritten(["1", "2", "1", "2"], [(0, 3)], [0, 1, 3, 2], [0] * 4) == [0, 2, 1, 3]


def test_what_waits_for_nothing_at_the_bench_comes_first() -> None:
    assert rewritten(["1", "", "1"], [], [0, 1, 2], [1, 0, 1]) == [1, 0, 2]


def test_bench_work_waits_until_a_cut_needs_it_and_is_done_in_one_visit() -> None:
    """Dry fits of two doors, each after that door's cut; the panels' rips wait for them."""
    needs = ["1", "1", "", "", "2", "2"]
    before = [(0, 2), (1, 3), (2, 4), (3, 5)]
    assert rewritten(needs, before, [0, 2, 1, 3, 4, 5], [0, 0, 1, 1, 2, 2]) == [0, 1, 2, 3, 4, 5]


def test_bench_work_that_waits_for_other_bench_work_is_done_with_it() -> None:
    """A cut waits for a fit, the fit for shaping, the shaping for the cut before it: both are done
    between the two cuts, the nearer kind though no cut waits for it at once."""
    needs = ["1", "", "", "2", ""]
    before = [(0, 1), (1, 2), (2, 3), (0, 4)]
    assert rewritten(needs, before, [0, 4, 1, 2, 3], [0, 5, 6, 0, 9]) == [0, 1, 2, 3, 4]


def test_of_cuts_that_share_a_setting_those_come_first_that_it_is_tried_for() -> None:
    """What is dialled in on scrap is so before the first cut. Those that merely share it stand
    behind, of their kind, and do not part the ends of a piece."""
    fence = ["1 tested"] * 4
    assert rewritten(fence, [], [0, 1, 2, 3], [0] * 4, tried=(1, 3)) == [1, 3, 0, 2]
    # A kind that would come later begins where none but it is tried.
    assert rewritten(fence, [], [0, 1, 2, 3], [0, 0, 1, 1], tried=(3,)) == [3, 0, 1, 2]
