"""The ordering problem as it was solved, and the choices that were compared."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from msgspec import Struct

from sequencer.facts import Fact


class Knob(Struct, frozen=True):
    name: str
    minutes: Fraction
    by_value: Mapping[str, Fraction]


class Alternative(Struct, frozen=True):
    minutes: Fraction
    needs: Mapping[str, tuple[str, ...]]


class ProblemOperation(Struct, frozen=True):
    id: str
    alternatives: tuple[Alternative, ...]


class Placed(Struct, frozen=True):
    operation: str
    alternative: int
    state: Mapping[str, str]


class Baseline(Struct, frozen=True):
    """Another way of ordering the same problem, by its id: its minutes and setups."""

    name: str
    minutes: Fraction
    setups: int


class Compared(Struct, frozen=True):
    """Another way of making the batch whose minutes were compared: its answers to the open
    questions, the minutes of the best order found (`None` where `bound` alone rules it out), and
    the minutes that no order of it beats."""

    choices: Mapping[str, str]
    minutes: Fraction | None
    bound: Fraction
    refused: bool = False


class Ordering(Struct, frozen=True):
    """The problem that was solved, its order, and what is proven of it. `bound` is what no order of
    anything in `compared` beats that is not refused, and `proven` that this order takes no more.
    `left_out` tells what was not looked at, and how much it could save at the very most. `limit` is
    the id of what ended the search, where it was cut short."""

    knobs: tuple[Knob, ...]
    operations: tuple[ProblemOperation, ...]
    before: tuple[tuple[str, str, Fact], ...]
    """Which comes before which, and why."""
    order: tuple[Placed, ...]
    minutes: Fraction
    bound: Fraction
    proven: bool
    setups: int
    baselines: tuple[Baseline, ...]
    limit: str | None = None
    compared: tuple[Compared, ...] = ()
    left_out: tuple[Fact, ...] = ()


class Chosen(Struct, frozen=True):
    """A dimension that the job leaves free: its range and the value that this plan took. `place` is
    where the job states it, as `file:line:column`; `others` what ends of the range would have cost
    in minutes."""

    key: str
    place: str
    low: Fraction
    high: Fraction
    value: Fraction
    others: Mapping[str, Fraction]


class Method(Struct, frozen=True):
    """One combination of methods that was planned: what was chosen for each open question, its
    minutes (what it takes at least, where that is not `exact`), whether it is the one in this plan,
    and whether it was refused."""

    choices: Mapping[str, str]
    minutes: Fraction
    exact: bool
    chosen: bool
    refused: bool = False
