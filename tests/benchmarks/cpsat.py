"""The ordering problem as a model for OR-Tools CP-SAT, to compare with; no part of the program.

Operation-level: a place in the order for each operation, and for each knob a circuit through the
operations that need it (and a depot). A knob is set at an operation unless the one before it on the
knob's circuit left it at the same value.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import lcm

from ortools.sat.python import cp_model

from sequencer.ordering import Placed, Problem


@dataclass(frozen=True, slots=True)
class Answer:
    """What CP-SAT had at the end: minutes and bound (None: nothing yet), proven, and its
    improvements as pairs of seconds and minutes."""

    minutes: Fraction | None
    bound: Fraction
    proven: bool
    improvements: tuple[tuple[float, Fraction], ...]


class _Watch(cp_model.CpSolverSolutionCallback):
    def __init__(self, scale: int) -> None:
        super().__init__()
        self.scale = scale
        self.found: list[tuple[float, Fraction]] = []

    def on_solution_callback(self) -> None:
        self.found.append((self.wall_time, Fraction(round(self.objective_value), self.scale)))


def solve(
    problem: Problem, seconds: float, *, workers: int = 2, hint: Sequence[Placed] = ()
) -> Answer:
    """CP-SAT's best within `seconds`, started from the order in `hint` if one is given."""
    amounts = [cost for knob in problem.knobs for cost in (knob.minutes, *knob.by_value.values())]
    amounts += [
        alternative.minutes
        for operation in problem.operations
        for alternative in operation.alternatives
    ]
    scale = lcm(1, *(amount.denominator for amount in amounts))
    model, hints = _model(problem, scale, hint)
    for variable, value in hints:
        model.add_hint(variable, value)
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = seconds
    solver.parameters.num_workers = workers
    watch = _Watch(scale)
    status = solver.solve(model, watch)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE, cp_model.UNKNOWN):
        raise AssertionError(f"CP-SAT: {solver.status_name(status)}")
    has = status != cp_model.UNKNOWN
    return Answer(
        Fraction(round(solver.objective_value), scale) if has else None,
        Fraction(round(solver.best_objective_bound), scale),
        status == cp_model.OPTIMAL,
        tuple(watch.found),
    )


def _model(
    problem: Problem, scale: int, hint: Sequence[Placed]
) -> tuple[cp_model.CpModel, list[tuple[cp_model.IntVar, int]]]:
    model = cp_model.CpModel()
    hints: list[tuple[cp_model.IntVar, int]] = []
    left = [index for index in range(len(problem.operations)) if index not in problem.done]
    rank = {step.operation: number for number, step in enumerate(hint)}
    chosen = {step.operation: step for step in hint}
    place = {index: model.new_int_var(0, len(left) - 1, f"place {index}") for index in left}
    terms: list[cp_model.LinearExpr | int] = []
    for first, later in problem.before:
        if first in place and later in place:
            model.add(place[later] >= place[first] + 1)
    after = _later(problem, left)
    taken: dict[int, list[cp_model.IntVar]] = {}
    for index in left:
        ways = problem.operations[index].alternatives
        taken[index] = [
            model.new_bool_var(f"taken {index} {number}") for number in range(len(ways))
        ]
        model.add_exactly_one(taken[index])
        terms += [
            int(way.minutes * scale) * variable
            for way, variable in zip(ways, taken[index], strict=True)
        ]
        if hint:
            hints.append((place[index], rank[index]))
            hints += [
                (variable, int(number == chosen[index].alternative))
                for number, variable in enumerate(taken[index])
            ]
    for knob in problem.knobs:
        users = [
            index
            for index in left
            if any(knob.name in way.needs for way in problem.operations[index].alternatives)
        ]
        if not users:
            continue
        values = {
            index: list(
                dict.fromkeys(
                    value
                    for way in problem.operations[index].alternatives
                    for value in way.needs.get(knob.name, ())
                )
            )
            for index in users
        }
        at = {
            (index, value): model.new_bool_var(f"{knob.name} {index} {value}")
            for index in users
            for value in values[index]
        }
        paid = {key: model.new_bool_var(f"set {knob.name} {key}") for key in at}
        terms += [int(knob.cost(value) * scale) * variable for (_, value), variable in paid.items()]
        for index in users:
            uses = []
            for way, variable in zip(
                problem.operations[index].alternatives, taken[index], strict=True
            ):
                accepted = way.needs.get(knob.name)
                if accepted is not None:
                    uses.append(variable)
                    model.add_bool_or([at[index, value] for value in accepted]).only_enforce_if(
                        variable
                    )
            model.add(sum(at[index, value] for value in values[index]) == sum(uses))
        fixed = {
            index: len(problem.operations[index].alternatives) == 1 and len(values[index]) == 1
            for index in users
        }
        arcs: list[tuple[int, int, cp_model.IntVar]] = []
        node = {index: number for number, index in enumerate(users, 1)}
        arcs.append((0, 0, model.new_bool_var("unused")))
        for index in users:
            if len(problem.operations[index].alternatives) > 1:
                idle = model.new_bool_var("idle")
                model.add(sum(at[index, value] for value in values[index]) == 1 - idle)
                arcs.append((node[index], node[index], idle))
            entry = model.new_bool_var("first")
            arcs += [(0, node[index], entry), (node[index], 0, model.new_bool_var("last"))]
            held = problem.start.get(knob.name)
            free = problem.first_setting_free and held is None
            for value in values[index]:
                if value != held and not free:
                    model.add_implication(entry, paid[index, value]).only_enforce_if(
                        at[index, value]
                    )
            for other in users:
                if other == index or index in after[other]:
                    continue
                arc = model.new_bool_var(f"{index} then {other}")
                arcs.append((node[index], node[other], arc))
                model.add(place[other] >= place[index] + 1).only_enforce_if(arc)
                if fixed[index] and fixed[other]:
                    if values[index] != values[other]:
                        model.add_implication(arc, paid[other, values[other][0]])
                    continue
                for value in values[other]:
                    changed = [arc.negated(), at[other, value].negated(), paid[other, value]]
                    if (index, value) in at:
                        changed.append(at[index, value])
                    model.add_bool_or(changed)
        model.add_circuit(arcs)
        if hint:
            line = sorted(
                (
                    index
                    for index in users
                    if knob.name
                    in problem.operations[index].alternatives[chosen[index].alternative].needs
                ),
                key=rank.__getitem__,
            )
            held = problem.start.get(knob.name)
            free = problem.first_setting_free and held is None
            kept = dict.fromkeys(at, 0)
            changes = dict(kept)
            for index in line:
                state = chosen[index].state[knob.name]
                kept[index, state] = 1
                changes[index, state] = int(state != held and not free)
                held, free = state, False
            hints += [(at[key], value) for key, value in kept.items()]
            hints += [(paid[key], value) for key, value in changes.items()]
            stops = [0, *(node[index] for index in line), 0]
            used = {
                *pairwise(stops),
                *((node[index], node[index]) for index in users if index not in line),
            }
            hints += [(arc, int((tail, head) in used)) for tail, head, arc in arcs]
    model.minimize(sum(terms))
    return model, hints


def _later(problem: Problem, left: Sequence[int]) -> dict[int, set[int]]:
    """Everything that must come after each operation, at whatever remove."""
    following: dict[int, list[int]] = {index: [] for index in left}
    for first, later in problem.before:
        if first in following and later in following:
            following[first].append(later)
    found: dict[int, set[int]] = {}
    for index in left:
        found[index] = set()
        walk = list(following[index])
        while walk:
            later = walk.pop()
            if later not in found[index]:
                found[index].add(later)
                walk += following[later]
    return found
