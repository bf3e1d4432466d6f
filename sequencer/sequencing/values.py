"""Knob values as the plan writes them: a number, before it what it is good for, behind it whether
it was tried out."""

from __future__ import annotations

import re
from collections.abc import Iterable
from fractions import Fraction

from sequencer.sequencing.needs import TESTED


def plain(value: str) -> str:
    """A value without the word that its test cut has passed."""
    return value.removesuffix(TESTED)


def number_of(value: str, cutters: Iterable[str]) -> tuple[str, Fraction | None]:
    """The cutter and tilt that a value is good for, as far as it names them, and its number;
    `None` where it has none.

    >>> number_of("dado set/3/8 tested", ["dado set", "blade"])
    ('dado set/', Fraction(3, 8))
    >>> number_of("blade 1/1 in 8/5/4", ["blade", "blade 1"])
    ('blade 1/1 in 8/', Fraction(5, 4))
    >>> number_of("rip-fence", ["blade"])
    ('rip-fence', None)
    """
    text = plain(value)
    # A name may end in a number: the longest name that fits is the cutter's.
    names = sorted((name for name in cutters if text.startswith(f"{name}/")), key=len)
    rest = text.removeprefix(f"{names[-1]}/") if names else text
    rest = re.sub(r"^-?\d+ in \d+/", "", rest)
    try:
        return text.removesuffix(rest), Fraction(rest)
    except ValueError:
        return text, None
