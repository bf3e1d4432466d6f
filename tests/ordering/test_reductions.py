"""Why each reduction is worded as it is: near variants of them, each with a problem it gets wrong.

Every variant is put in place of the right rule, and must then miss the best order of its problem
(or be caught by the checker); with the right rule the search finds it.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from sequencer.errors import InternalError
from sequencer.ordering import Problem, solve
from sequencer.ordering.model import FIRST_VALUE, Choice
from sequencer.ordering.space import Space
from sequencer.records import replace
from tests.ordering.problems import seeded
from tests.ordering.reference import least_first

_plan, _need_of = Space._plan, Space._need_of


def _moved_although_the_held_value_is_lost(space: Space, need: int, setting: int) -> Any:
    plan = _plan(space, need, setting)
    return replace(plan, safe=len(space.choices[need]) == 1 and not space.model.free_first)


def _moved_by_the_chosen_value_alone(space: Space, need: int, setting: int) -> Any:
    plan = _plan(space, need, setting)
    wanted = 0
    for knob in space.knobs:
        value = space.model.field(plan.put, knob)
        if value >= FIRST_VALUE:
            wanted |= space.uses[knob][value]
    return replace(plan, wanted=wanted)


def _moved_to_the_first_value(space: Space, need: int, setting: int) -> Any:
    plan = _plan(space, need, setting)
    if not plan.safe:
        return plan
    put = cost = 0
    for knob, values in space.choices[need][0][0]:
        held = space.model.field(setting, knob)
        if held not in values:
            put |= values[0] << space.model.offsets[knob]
            cost += (space.costs if held else space.first_costs)[knob][values[0]]
    return replace(plan, put=put, cost=cost)


def _moved_though_first_settings_are_free(space: Space, need: int, setting: int) -> Any:
    plan = _plan(space, need, setting)
    fields = [
        space.model.field(setting, knob)
        for knob, values in space.choices[need][0][0]
        if space.model.field(setting, knob) not in values
    ]
    return replace(plan, safe=len(space.choices[need]) == 1 and max(fields) < FIRST_VALUE)


def _dropped_by_operation(space: Space, knob: int, value: int, other: int) -> int:
    return space.uses[knob][value] & ~space.uses[knob][other]


def _dropped_whatever_it_costs(
    space: Space, knob: int, values: tuple[int, ...], _: Any, left: int
) -> list[int]:
    return [max(values, key=lambda value: ((space.uses[knob][value] & left).bit_count(), -value))]


def _done_at_once_in_a_dear_alternative(space: Space, setting: int) -> int:
    return sum(
        1 << number
        for number, choice in enumerate(space.choices)
        if any(
            all(space.model.field(setting, knob) in values for knob, values in needs)
            for needs, _ in choice
        )
    )


def _dear_operations_merged(space: Space, choice: Choice, _: int) -> int:
    return _need_of(space, choice, 0)


def _bounded_by_the_first_alternative(space: Space, choice: Choice, identity: int) -> int:
    return _need_of(space, choice if space.keep_dear else choice[:1], identity)


def _useless_when_not_wanted_at_once(space: Space, term: int, setting: int) -> int:
    for knob in space.knobs:
        value = space.model.field(setting, knob)
        if value and not space.leaf[term] & space.uses[knob][value]:
            setting = (
                setting & ~space.model.masks[knob]
                | int(space.model.free_first) << space.model.offsets[knob]
            )
    return setting


VARIANTS: list[tuple[str, Callable[..., Any], int]] = [
    ("_plan", _moved_although_the_held_value_is_lost, 285),
    ("_plan", _moved_by_the_chosen_value_alone, 29),
    ("_plan", _moved_to_the_first_value, 0),
    ("_plan", _moved_though_first_settings_are_free, 445),
    ("_loses", _dropped_by_operation, 1396),
    ("_worthwhile", _dropped_whatever_it_costs, 2),
    ("met", _done_at_once_in_a_dear_alternative, 2),
    ("_need_of", _dear_operations_merged, 247),
    ("_need_of", _bounded_by_the_first_alternative, 35),
    ("canonical", _useless_when_not_wanted_at_once, 139),
]


def misses(problem: Problem, minutes: object) -> bool:
    """Whether the search, as it is now, fails to find the least minutes, or fails its check."""
    try:
        return solve(problem).minutes != minutes
    except InternalError:
        return True


@pytest.mark.parametrize(
    ("name", "variant", "seed"),
    VARIANTS,
    ids=[variant.__name__.strip("_") for _, variant, _ in VARIANTS],
)
def test_near_variant_is_wrong_and_the_rule_is_right(
    name: str, variant: Callable[..., Any], seed: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    problem = seeded(seed)
    best = least_first(problem)
    assert best is not None
    assert not misses(problem, best.minutes)
    monkeypatch.setattr(Space, name, variant)
    assert misses(problem, best.minutes)
