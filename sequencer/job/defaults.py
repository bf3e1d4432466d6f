"""Reader of the default values and limits that stand in data files beside this module."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

from sequencer.lengths import Unit, parse
from sequencer.saw.fittings import MINUTES

GROWTH = Fraction(1, 200)
"""Growth of a stile's width that a pair's meeting gap allows for. Common practice: flat-sawn stock
moves about 1/4 % of its width for 1 % of moisture, taken for a rise of 2 %."""

_HERE = Path(__file__)


@cache
def lengths(unit: Unit) -> Mapping[str, Fraction]:
    """Every default and limit in `unit`, by its dotted key.

    >>> lengths("in")["gaps.top"], lengths("mm")["limits.most_proud"]
    (Fraction(3, 32), Fraction(6, 1))
    """
    data = tomllib.loads(packaged("defaults.toml"))
    return {
        f"{table}.{key}": parse(fact[unit], unit)
        for table, facts in data.items()
        for key, fact in facts.items()
    }


@cache
def shop_facts() -> Mapping[str, Mapping[str, Any]]:
    """The built-in shop by dotted key: `in` and `mm`, or `value`, with `mark`."""
    data = tomllib.loads(packaged("shop_defaults.toml"))
    knobs = {
        f"minutes.{key}": {"value": str(minutes), "mark": "common practice"}
        for key, minutes in MINUTES.items()
    }
    return knobs | {
        f"{table}.{key}": fact for table, facts in data.items() for key, fact in facts.items()
    }


def packaged(name: str) -> str:
    """The text of a data file of this package."""
    return _HERE.with_name(name).read_text("utf-8")
