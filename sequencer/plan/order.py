"""The ordering problem as it was solved, and the choices that were compared."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class Knob:
    name: str
    minutes: Fraction
    by_value: Mapping[str, Fraction]


@dataclass(frozen=True, slots=True)
class Alternative:
    minutes: Fraction
    needs: Mapping[str, tuple[str, ...]]


@dataclass(frozen=True, slots=True)
class ProblemOperation:
    id: str
    alternatives: tuple[Alternative, ...]


@dataclass(frozen=True, slots=True)
class Placed:
    operation: str
    alternative: int
    state: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Baseline:
    """Another way of ordering the same problem, by its id: its minutes and setups."""

    name: str
    minutes: Fraction
    setups: int


@dataclass(frozen=True, slots=True)
class Ordering:
    """The problem that was solved, its order, and what is proven of it. `limit` is the id of what
    ended the search, where it was cut short."""

    knobs: tuple[Knob, ...]
    operations: tuple[ProblemOperation, ...]
    before: tuple[tuple[str, str, str], ...]
    order: tuple[Placed, ...]
    minutes: Fraction
    bound: Fraction
    proven: bool
    setups: int
    baselines: tuple[Baseline, ...]
    limit: str | None = None


@dataclass(frozen=True, slots=True)
class Chosen:
    """A dimension that the job leaves free: its range and the value that this plan took. `place` is
    where the job states it, as `file:line:column`; `others` what ends of the range would have cost
    in minutes."""

    key: str
    place: str
    low: Fraction
    high: Fraction
    value: Fraction
    others: Mapping[str, Fraction]


@dataclass(frozen=True, slots=True)
class Method:
    """One combination of methods that was planned: what was chosen for each open question, its
    minutes (a bound where it was cut off), whether it is the one in this plan, and whether it was
    cheaper but refused as unsafe."""

    choices: Mapping[str, str]
    minutes: Fraction
    exact: bool
    chosen: bool
    refused: bool = False
