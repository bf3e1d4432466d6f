"""The problem and its order as JSON: names for operations, exact rationals as strings.

`knobs`, `operations` and `before` are required; `first_setting`, `start` and `done` are not. Other
keys are passed over, unless they look like a misspelt one.
"""

from __future__ import annotations

import difflib
import json
import re
from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import Any

from sequencer.errors import Fault, InputError
from sequencer.facts import Fact, problems
from sequencer.ordering.problem import Alternative, Knob, Operation, Order, Problem, faults

_NUMBER = re.compile(r"-?\d{1,12}(/0*[1-9]\d{0,11}|\.\d{1,12})?")
_PROBLEM = ("knobs", "operations", "before", "first_setting", "start", "done")
_KNOB = ("name", "minutes", "by_value", "tie", "tie_by_value")


def as_json(problem: Problem) -> dict[str, Any]:
    """The problem in the shape that `from_json` reads; what is empty is left out."""
    ids = [operation.id for operation in problem.operations]
    found: dict[str, Any] = {
        "knobs": [_knob_json(knob) for knob in problem.knobs],
        "operations": [
            {
                "id": operation.id,
                "alternatives": [
                    {
                        "minutes": str(alternative.minutes),
                        "needs": {name: list(values) for name, values in alternative.needs.items()},
                    }
                    for alternative in operation.alternatives
                ],
            }
            for operation in problem.operations
        ],
        "before": [[ids[first], ids[later]] for first, later in problem.before],
    }
    if problem.first_setting_free:
        found["first_setting"] = "free"
    if problem.start:
        found["start"] = dict(problem.start)
    if problem.done:
        found["done"] = [ids[index] for index in sorted(problem.done)]
    return found


def order_json(problem: Problem, order: Order) -> dict[str, Any]:
    """The order with its minutes, its bound and whether it is proven."""
    return {
        "order": [
            {
                "operation": problem.operations[step.operation].id,
                "alternative": step.alternative,
                "state": dict(step.state),
            }
            for step in order.steps
        ],
        "minutes": str(order.minutes),
        "bound": str(order.bound),
        "proven": order.proven,
    }


def read(text: str, file: str) -> Problem:
    """The problem written in `text`.

    Raises InputError with everything that is wrong in it; `file` is the name to blame.
    """
    twice: list[Fact] = []

    def once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
        found = dict(pairs)
        if len(found) < len(pairs):
            keys = [key for key, _ in pairs]
            twice.extend(problems.KEY_TWICE(key=key) for key in found if keys.count(key) > 1)
        return found

    try:
        data = json.loads(
            text, object_pairs_hook=once, parse_float=_Literal, parse_constant=_Literal
        )
    except json.JSONDecodeError as error:
        lines = text.splitlines() or [""]
        line = lines[error.lineno - 1] if error.lineno <= len(lines) else ""
        raise InputError(
            (Fault(file, error.lineno, error.colno, problems.NOT_JSON(), text=line[:200]),)
        ) from None
    except (ValueError, RecursionError):
        raise InputError((Fault(file, 0, 0, problems.TOO_DEEP()),)) from None
    return from_json(data, file, twice)


def from_json(data: object, file: str, found: Iterable[Fact] = ()) -> Problem:
    """The problem in parsed JSON.

    Raises InputError with everything that is wrong in it, after the faults already `found`.
    """
    reader = _Reader(list(found))
    problem = reader.problem(data)
    wrong: list[Fact] = [*reader.wrong, *faults(problem)]
    if wrong:
        raise InputError(tuple(Fault(file, 0, 0, message) for message in dict.fromkeys(wrong)))
    return problem


def _knob_json(knob: Knob) -> dict[str, Any]:
    found: dict[str, Any] = {"name": knob.name, "minutes": str(knob.minutes)}
    if knob.by_value:
        found["by_value"] = {value: str(cost) for value, cost in knob.by_value.items()}
    if knob.tie:
        found["tie"] = knob.tie
    if knob.tie_by_value:
        found["tie_by_value"] = dict(knob.tie_by_value)
    return found


class _Literal(str):
    """A number with a point or an exponent, as it was written."""


class _Reader:
    """Reads parsed JSON and keeps going: each fault lands in `wrong`, and something stands in."""

    def __init__(self, wrong: list[Fact]) -> None:
        self.wrong = wrong

    def problem(self, data: object) -> Problem:
        top = self._object(data, "", _PROBLEM)
        for key in ("knobs", "operations", "before"):
            if key not in top:
                self.wrong.append(problems.MISSING(key=key))
        knobs = tuple(
            self._knob(item, f"knob {number}")
            for number, item in enumerate(self._list(top, "knobs"), 1)
        )
        operations = tuple(
            self._operation(item, f"operation {number}")
            for number, item in enumerate(self._list(top, "operations"), 1)
        )
        ids = {operation.id: index for index, operation in enumerate(operations)}
        before = [
            pair
            for number, item in enumerate(self._list(top, "before"), 1)
            for pair in self._pair(item, f"before {number}", ids)
        ]
        start = {
            name: self._text(value, f'start "{name}"')
            for name, value in self._object(top.get("start", {}), "start").items()
        }
        done = [
            index for name in self._list(top, "done") for index in self._index(name, "done", ids)
        ]
        first = top.get("first_setting", "paid")
        if first not in ("free", "paid"):
            self.wrong.append(problems.FIRST_SETTING(value=_shown(first)))
        return Problem(knobs, operations, tuple(before), start, frozenset(done), first == "free")

    def _knob(self, item: object, place: str) -> Knob:
        data = self._object(item, place, _KNOB)
        name = self._named(data, "name", place)
        place = f'knob "{name}"'
        if "minutes" not in data:
            self.wrong.append(problems.MISSING_AT(place=place, key="minutes"))
        costs = {
            value: self._minutes(cost, f'{place}, by_value "{value}"')
            for value, cost in self._object(data.get("by_value", {}), f"{place}, by_value").items()
        }
        ties = {
            value: self._count(cost, f'{place}, tie_by_value "{value}"')
            for value, cost in self._object(
                data.get("tie_by_value", {}), f"{place}, tie_by_value"
            ).items()
        }
        return Knob(
            name,
            self._minutes(data.get("minutes", 0), f"{place}, minutes"),
            costs,
            self._count(data.get("tie", 0), f"{place}, tie"),
            ties,
        )

    def _operation(self, item: object, place: str) -> Operation:
        data = self._object(item, place, ("id", "alternatives"))
        name = self._named(data, "id", place)
        place = f'operation "{name}"'
        return Operation(
            name,
            tuple(
                self._alternative(each, f"{place}, alternative {number}")
                for number, each in enumerate(self._list(data, "alternatives", f"{place}, "))
            ),
        )

    def _alternative(self, item: object, place: str) -> Alternative:
        data = self._object(item, place, ("minutes", "needs"))
        needs = {}
        for name, values in self._object(data.get("needs", {}), f"{place}, needs").items():
            if isinstance(values, list):
                texts = [self._text(value, f'{place}, needs "{name}"') for value in values]
                needs[name] = tuple(dict.fromkeys(texts))
            else:
                self._want(problems.VALUES(), values, f'{place}, needs "{name}"')
                needs[name] = ("?",)
        return Alternative(needs, self._minutes(data.get("minutes", 0), f"{place}, minutes"))

    def _pair(self, item: object, place: str, ids: Mapping[str, int]) -> list[tuple[int, int]]:
        if not isinstance(item, list) or not 2 <= len(item) <= 3:
            self._want(problems.A_PAIR(), item, place)
            return []
        first, later = (self._index(name, place, ids) for name in item[:2])
        return [(one, other) for one in first for other in later]

    def _index(self, name: object, place: str, ids: Mapping[str, int]) -> list[int]:
        if isinstance(name, str) and name in ids:
            return [ids[name]]
        near = difflib.get_close_matches(name, ids, 1) if isinstance(name, str) else []
        hint = problems.DID_YOU_MEAN(name=near[0]) if near else None
        self.wrong.append(problems.NO_OPERATION(place=place, name=_shown(name), near=hint))
        return []

    def _object(self, data: object, place: str, keys: tuple[str, ...] = ()) -> dict[str, Any]:
        if not isinstance(data, dict):
            self._want(problems.AN_OBJECT(), data, place)
            return {}
        for key in data:
            near = difflib.get_close_matches(key, keys, 1, 0.8) if key not in keys else []
            if near and near[0] not in data:
                self.wrong.append(
                    problems.UNKNOWN_KEY(place=place, key=key, near=near[0])
                    if place
                    else problems.UNKNOWN_ON_TOP(key=key, near=near[0])
                )
        return data

    def _list(self, data: Mapping[str, Any], key: str, place: str = "") -> list[Any]:
        found = data.get(key, [])
        if isinstance(found, list):
            return found
        self._want(problems.A_LIST(), found, f"{place}{key}")
        return []

    def _named(self, data: Mapping[str, Any], key: str, place: str) -> str:
        if key not in data:
            self.wrong.append(problems.MISSING_AT(place=place, key=key))
            return f"({place})"
        return self._text(data[key], f"{place}, {key}")

    def _text(self, value: object, place: str) -> str:
        if isinstance(value, str) and not isinstance(value, _Literal):
            return value
        self._want(problems.A_TEXT(), value, place)
        return str(value)

    def _minutes(self, value: object, place: str) -> Fraction:
        if isinstance(value, int) and not isinstance(value, bool):
            value = str(value)
        if isinstance(value, str) and _NUMBER.fullmatch(value):
            return Fraction(value)
        self._want(problems.A_NUMBER(), value, place)
        return Fraction(0)

    def _count(self, value: object, place: str) -> int:
        if isinstance(value, int) and not isinstance(value, bool):
            return value
        self._want(problems.WHOLE_NUMBER(), value, place)
        return 0

    def _want(self, wanted: Fact, value: object, place: str) -> None:
        shown = _shown(value)
        self.wrong.append(
            problems.NOT_WANTED(place=place, wanted=wanted, value=shown)
            if place
            else problems.THE_PROBLEM(wanted=wanted, value=shown)
        )


def _shown(value: object) -> str:
    text = str(value) if isinstance(value, _Literal) else json.dumps(value, ensure_ascii=False)
    return text if len(text) <= 60 else text[:57] + "..."
