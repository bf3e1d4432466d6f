"""A plan's lengths in whole grains, and published figures in them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import lcm
from typing import Any

Json = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Scale:
    """Grains in a unit, and which unit that is."""

    grains: int
    unit: str

    def of(self, text: str) -> int:
        """A length of the plan in grains. Raises `ValueError` where the grain does not hold it."""
        found = Fraction(text) * self.grains
        if found.denominator != 1:
            raise ValueError(f"{text} is no whole number of grains")
        return int(found)

    def figure(self, mm: str, inch: str) -> Fraction:
        """A published figure, which has one text for each unit, in grains."""
        return Fraction(mm if self.unit == "mm" else inch) * self.grains


def grains_of(plan: Json) -> int:
    """The least grain in which every length of the plan that is sawn by is a whole number."""
    texts = [
        *(setup[key] for setup in plan["setups"] for key in ("kerf", "height", "depth", "guide")),
        *(cut.get("back") for step in plan["steps"] for cut in step["cuts"]),
        *(each[key] for stick in plan["sticks"] for each in _sizes(stick) for key in each),
        *(piece["from"] for stick in plan["sticks"] for piece in stick["pieces"]),
        *(value for each in (*plan["parts"], *plan["scrap"]) for value in each["size"].values()),
        *(cutter["diameter"] for cutter in plan["shop"]["cutters"].values()),
        *(span for step in plan["steps"] for taken in step["removes"] for span in _spans(taken)),
        *plan["shop"]["decks"].values(),
        *(plan["shop"][key] for key in ("jig_opening", "sled_longest", "sled_widest")),
    ]
    return lcm(*(Fraction(text).denominator for text in texts if text is not None))


def _sizes(stick: Json) -> tuple[dict[str, str], ...]:
    return (stick["size"], stick["blank"])


def _spans(taken: Json) -> list[str]:
    return [end for span in taken.get("box", ()) for end in span]
