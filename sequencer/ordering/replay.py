"""From the settings that a search chose back to a step for every operation."""

from __future__ import annotations

import heapq
from collections.abc import Sequence

from sequencer.ordering.model import FIRST_VALUE, Model
from sequencer.ordering.problem import Placed


def steps(model: Model, moves: Sequence[tuple[int, int | None]]) -> tuple[Placed, ...]:
    """The steps of an order that makes the settings in `moves` one after the other.

    A move is a setting and, where it takes a dear alternative, the operation that does. Everything
    that a setting allows is done under it, operations of lower index first; a knob is touched only
    when an operation needs it.
    """
    problem = model.problem
    later: dict[int, list[int]] = {index: [] for index in model.left}
    waiting = {index: len(model.earlier[index]) for index in model.left}
    for index in model.left:
        for first in model.earlier[index]:
            later[first].append(index)
    held = dict(problem.start)
    names = [knob.name for knob in problem.knobs]
    ready = [index for index in model.left if not waiting[index]]
    placed: list[Placed] = []
    for setting, dear in [(model.start, None), *moves]:
        wanted = dict(held)
        for knob, name in enumerate(names):
            value = model.field(setting, knob)
            if value >= FIRST_VALUE:
                wanted[name] = model.value_names[knob][value]
        heap, ready = ready, []
        heapq.heapify(heap)
        while heap:
            index = heapq.heappop(heap)
            number = _alternative(model, index, wanted, dear == index)
            if number is None:
                ready.append(index)
                continue
            for name in problem.operations[index].alternatives[number].needs:
                held[name] = wanted[name]
            placed.append(Placed(index, number, dict(held)))
            for other in later[index]:
                waiting[other] -= 1
                if not waiting[other]:
                    heapq.heappush(heap, other)
    return tuple(placed)


def _alternative(model: Model, index: int, wanted: dict[str, str], dear: bool) -> int | None:
    """The first alternative of least minutes that the knobs allow; a dear one only if told to."""
    alternatives = model.problem.operations[index].alternatives
    met = [
        number
        for number, alternative in enumerate(alternatives)
        if all(wanted.get(name) in values for name, values in alternative.needs.items())
    ]
    if not met:
        return None
    best = min(met, key=lambda number: alternatives[number].minutes)
    least = min(alternative.minutes for alternative in alternatives)
    return best if dear or alternatives[best].minutes == least else None
