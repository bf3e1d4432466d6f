"""Facts as JSON: `{"id": "reason.slots-first", "with": {"width": "1/4"}}`.

Lengths, minutes and numbers are exact rationals as strings, lengths in the plan's unit. The module
that defines a fact's kind is loaded when its domain is first met.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from importlib import import_module
from typing import Any

from sequencer.facts.model import Domain, Fact, Kind, Length, Sort, Unit, Value, Words


def kind(name: str) -> Kind:
    """The kind with this id. Raises `ValueError` where there is none."""
    domain = name.partition(".")[0]
    try:
        module = import_module(f"sequencer.facts.{module_of(domain)}")
    except ModuleNotFoundError:
        raise ValueError(f"no facts of the domain {domain!r}") from None
    found: Domain = module.kind_of
    if name not in found.kinds:
        raise ValueError(f"no kind of fact {name!r}")
    return found.kinds[name]


def module_of(domain: str) -> str:
    """The name of the module that defines a domain's kinds, and of the one that words them."""
    return f"{domain}s"


def to_json(fact: Fact) -> dict[str, Any]:
    """The fact as JSON's own types."""
    given = zip(fact.kind.takes.items(), fact.values, strict=True)
    return {"id": fact.id, "with": {name: _out(value, sort) for (name, sort), value in given}}


def from_json(data: Mapping[str, Any], unit: Unit) -> Fact:
    """The fact that `to_json` wrote. Raises `ValueError` where it is none of the closed list, or
    its parameters are not the kind's."""
    of = kind(str(data["id"]))
    given = data["with"]
    if given.keys() != of.takes.keys():
        raise ValueError(f"{of.id} takes {', '.join(of.takes)}, not {', '.join(given)}")
    try:
        return of(**{name: _in(given[name], sort, unit) for name, sort in of.takes.items()})
    except TypeError as error:
        raise ValueError(str(error)) from None


def _out(value: Value, sort: Sort) -> Any:
    if value is None:
        return None
    if sort.name == "maybe" and sort.of is not None:
        return _out(value, sort.of)
    if isinstance(value, tuple) and sort.of is not None:
        return [_out(each, sort.of) for each in value]
    if isinstance(value, Fact):
        return to_json(value)
    if isinstance(value, Length):
        return str(value.value)
    if isinstance(value, Words):
        raise TypeError(f"words are kept nowhere: {value}")
    return value if sort.name in ("count", "text", "term") else str(value)


def _in(data: Any, sort: Sort, unit: Unit) -> Value:
    if sort.of is not None:
        if sort.name == "maybe":
            return None if data is None else _in(data, sort.of, unit)
        return tuple(_in(each, sort.of, unit) for each in data)
    if sort.name in ("fact", "said"):
        return from_json(data, unit)
    if sort.name == "length":
        return Length(Fraction(data), unit)
    if sort.name in ("minutes", "number"):
        return Fraction(data)
    found: Value = data
    return found
