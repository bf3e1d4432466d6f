"""The rules as data: what `rules.toml` holds, typed and checked once.

Figures are exact. A bound has a figure for each unit; a plan in inches is held to the inch figure,
so that what a sheet prints is what was compared. A shop's figure counts only where it is stricter.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any, Literal

from msgspec import Struct

from sequencer.lengths import Unit

Level = Literal["refuse", "warn", "caution"]
LEVELS: tuple[Level, ...] = ("refuse", "warn", "caution")
"""Worst first."""

Seen = Literal["text", "quoted", "no", "none"]
"""How far a source's words were read: themselves, where another repeats or sums them up, not at
all; or nothing is published."""

WORDS: tuple[str, ...] = ("DANGER", "WARNING", "CAUTION", "NOTICE")
"""Signal words as ANSI Z535.4 defines them, worst first."""


class Bound(Struct, frozen=True):
    """One figure of a rule. `side` says which way is stricter: a `least` may grow, a `most`
    shrink. A ratio has the same figure in both units."""

    name: str
    mm: Fraction
    inch: Fraction
    side: Literal["least", "most"]
    ratio: bool = False

    def in_unit(self, unit: Unit) -> Fraction:
        return self.mm if unit == "mm" else self.inch

    def loosens(self, value: Fraction, unit: Unit) -> bool:
        """Whether a shop's figure would let more through than the rule does."""
        own = self.in_unit(unit)
        return value < own if self.side == "least" else value > own


class Case(Struct, frozen=True):
    """How one of a rule's texts is printed: its signal word, and that where nothing covers the
    blade; `main` where it says all of its kind of cut; `tick` names what is confirmed where the
    rule warns. Without a word it is only ever refused."""

    word: str = ""
    bare: str = ""
    main: bool = False
    tick: str = ""


class Source(Struct, frozen=True):
    """What a rule was derived from, and how far its words were read; `mark` says so in print."""

    name: str
    seen: Seen
    mark: str = ""

    def __str__(self) -> str:
        return self.name + self.mark


class Rule(Struct, frozen=True):
    """`cases` by name; the plain case is `""`. `not_evaluated` is empty where a predicate in code
    looks for the rule, or where the first page carries it."""

    id: str
    level: Level
    when: str
    sources: tuple[Source, ...]
    cases: Mapping[str, Case]
    bounds: tuple[Bound, ...] = ()
    note: str = ""
    not_evaluated: str = ""
    elsewhere: str = ""

    @property
    def source(self) -> str:
        """The publications in one line, as they are printed."""
        return "; ".join(map(str, self.sources))

    def case(self, name: str) -> Case:
        return self.cases.get(name) or self.cases[""]


class PauseCheck(Struct, frozen=True):
    """One box to tick before power is on or a setup is left, by its name, and the rule it
    serves."""

    rule: str
    check: str


class Rules(Struct, frozen=True):
    """All rules by id in the file's order, their bounds by name, and the pages' lists."""

    by_id: Mapping[str, Rule]
    bounds: Mapping[str, Bound]
    standing: tuple[str, ...]
    before_power: tuple[PauseCheck, ...]
    before_leaving: tuple[PauseCheck, ...]


Limits = Mapping[str, Fraction]
"""The figures of the bounds in the plan's unit, by their names."""


def limits(unit: Unit, tightened: Mapping[str, Fraction]) -> Limits:
    """The figures in one unit, each the shop's where that is stricter.

    >>> limits("in", {"shortest_rip": Fraction(14)})["shortest_rip"]
    Fraction(14, 1)
    >>> limits("in", {"shortest_rip": Fraction(8)})["shortest_rip"]
    Fraction(12, 1)
    """
    figures = dict(_printed(unit))
    for name, value in tightened.items():
        if name in figures and not load().bounds[name].loosens(value, unit):
            figures[name] = value
    return figures


@cache
def _printed(unit: Unit) -> Limits:
    return {name: bound.in_unit(unit) for name, bound in load().bounds.items()}


@cache
def load() -> Rules:
    """The rules of `rules.toml`, read once.

    >>> load().by_id["B01"].bounds[0].inch
    Fraction(12, 1)
    """
    raw = tomllib.loads(Path(__file__).with_suffix(".toml").read_text("utf-8"))
    pages = raw.pop("pages")
    marks = raw.pop("marks")
    sources = {
        key: Source(**given, mark=marks.get(given["seen"], ""))
        for key, given in raw.pop("sources").items()
    }
    by_id = {name: _rule(name, table, sources) for name, table in raw.items()}
    return Rules(
        by_id=by_id,
        bounds={bound.name: bound for rule in by_id.values() for bound in rule.bounds},
        standing=tuple(pages["standing"]),
        before_power=tuple(PauseCheck(**check) for check in pages["before_power"]),
        before_leaving=tuple(PauseCheck(**check) for check in pages["before_leaving"]),
    )


def _rule(name: str, table: dict[str, Any], sources: Mapping[str, Source]) -> Rule:
    rest = {key: table[key] for key in table if key not in ("cases", "sources", "bounds")}
    return Rule(
        id=name,
        sources=tuple(sources[key] for key in table["sources"]),
        cases={case: Case(**given) for case, given in table.get("cases", {}).items()},
        bounds=tuple(_bound(bound) for bound in table.get("bounds", ())),
        **rest,
    )


def _bound(table: Mapping[str, Any]) -> Bound:
    ratio = "ratio" in table
    mm, inch = (table["ratio"], table["ratio"]) if ratio else (table["mm"], table["in"])
    return Bound(table["name"], Fraction(mm), Fraction(inch), table["side"], ratio)
