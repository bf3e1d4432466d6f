"""The rules as data: what `rules.toml` holds, typed and checked once.

Figures are exact. A bound has a figure for each unit; a plan in inches is held to the inch figure,
so that what a sheet prints is what was compared. A shop's figure counts only where it is stricter.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from importlib.resources import files
from typing import Any, Literal

from sequencer.lengths import Unit

Level = Literal["refuse", "warn", "caution"]
LEVELS: tuple[Level, ...] = ("refuse", "warn", "caution")
"""Worst first."""

WORDS: tuple[str, ...] = ("DANGER", "WARNING", "CAUTION", "NOTICE")
"""Signal words as ANSI Z535.4 defines them, worst first."""


@dataclass(frozen=True, slots=True)
class Bound:
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


@dataclass(frozen=True, slots=True)
class Text:
    """A message in four parts, with `{places}` for figures and the shop's words. `tick` is what
    the person confirms where the rule warns."""

    word: str
    hazard: str
    consequence: str
    avoidance: str
    tick: str = ""
    main: bool = False


@dataclass(frozen=True, slots=True)
class Rule:
    """`texts` by case; the plain case is `""`. `brief` is what to do, in one sentence, where the
    message has been told in full before. `not_evaluated` is empty where a predicate in code looks
    for the rule, or where the first page carries it."""

    id: str
    level: Level
    when: str
    sources: tuple[str, ...]
    texts: Mapping[str, Text]
    bounds: tuple[Bound, ...] = ()
    note: str = ""
    brief: str = ""
    not_evaluated: str = ""
    elsewhere: str = ""

    @property
    def source(self) -> str:
        """The publications in one line, as they are printed."""
        return "; ".join(self.sources)

    def text(self, case: str) -> Text:
        return self.texts.get(case) or self.texts[""]


@dataclass(frozen=True, slots=True)
class Check:
    """One box to tick before power is on or a setup is left, and the rule it serves."""

    rule: str
    text: str


@dataclass(frozen=True, slots=True)
class Rules:
    """All rules by id in the file's order, their bounds by name, the sentences that texts share,
    and the pages' lists."""

    by_id: Mapping[str, Rule]
    bounds: Mapping[str, Bound]
    words: Mapping[str, str]
    standing: tuple[str, ...]
    before_power: tuple[Check, ...]
    before_leaving: tuple[Check, ...]


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
    raw = tomllib.loads(files(__package__).joinpath("rules.toml").read_text("utf-8"))
    sources, words, pages = raw.pop("sources"), raw.pop("words"), raw.pop("pages")
    by_id = {name: _rule(name, table, sources) for name, table in raw.items()}
    return Rules(
        by_id=by_id,
        bounds={bound.name: bound for rule in by_id.values() for bound in rule.bounds},
        words=words,
        standing=tuple(pages["standing"]),
        before_power=tuple(Check(**check) for check in pages["before_power"]),
        before_leaving=tuple(Check(**check) for check in pages["before_leaving"]),
    )


def _rule(name: str, table: dict[str, Any], sources: Mapping[str, str]) -> Rule:
    plain = {key: text for key, text in table["text"].items() if not isinstance(text, dict)}
    cases = {key: text for key, text in table["text"].items() if isinstance(text, dict)}
    rest = {key: value for key, value in table.items() if key not in ("text", "sources", "bounds")}
    return Rule(
        id=name,
        sources=tuple(sources[key] for key in table["sources"]),
        texts={"": Text(**plain), **{case: Text(**text) for case, text in cases.items()}},
        bounds=tuple(_bound(bound) for bound in table.get("bounds", ())),
        **rest,
    )


def _bound(table: Mapping[str, Any]) -> Bound:
    ratio = "ratio" in table
    mm, inch = (table["ratio"], table["ratio"]) if ratio else (table["mm"], table["in"])
    return Bound(table["name"], Fraction(mm), Fraction(inch), table["side"], ratio)
