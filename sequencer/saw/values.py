"""What a knob is set to. Of a knob with a scale that is a number, with what it is good for; the
values of other knobs are names: a cutter's, a carrier's, a state of the guard, how a blade leans.

A spacer's number is its thickness, and its value names the number that the jig stands `at`: what is
cut with the same block and the jig elsewhere is another setting.

Text, as the ordering problem and `plan.json` have it: a number in lowest terms, `tested` behind it
where a test cut decides, and before it the cutter and the lean where it does not survive another:
`blade 1/1 in 8/5/4 tested`.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from fractions import Fraction

from msgspec import Struct

AWAY = "away"
"""A fence or a stop out of the way: what a cut frees may not lie against it."""
_TESTED = " tested"
_UPRIGHT = "0"
_LEAN = r"-?\d+ in \d+"
_LENGTH = r"-?\d+(?:/\d+)?"
_NUMBER = re.compile(rf"(?:({_LEAN})/)?({_LENGTH})(?: at ({_LENGTH}))?")


class KnobValue(Struct, frozen=True):
    """The number on a knob's scale. `tested`: dialled in on scrap. `cutter` (empty: the only one)
    and `tilt` say what it holds for, `at` where the jig stands behind a spacer."""

    number: Fraction
    tested: bool = False
    cutter: str = ""
    tilt: Fraction = Fraction(0)
    at: Fraction | None = None

    def __str__(self) -> str:
        on = f"{self.cutter}/" if self.cutter else ""
        leaning = f"{lean(self.tilt)}/" if self.tilt else ""
        at = "" if self.at is None else f" at {self.at}"
        return f"{on}{leaning}{self.number}{at}{_TESTED if self.tested else ''}"

    @staticmethod
    def parse(text: str, cutters: Iterable[str] = ()) -> KnobValue:
        """The value again; `cutters` are those that it may name. Raises `ValueError` where the text
        has no number.

        >>> str(KnobValue.parse("blade 1/1 in 8/5/4 tested", ["blade", "blade 1"]))
        'blade 1/1 in 8/5/4 tested'
        >>> KnobValue.parse("blade 1/5", ["blade", "blade 1"]).cutter
        'blade 1'
        >>> str(KnobValue.parse("1/8 at 3/8 tested").at)
        '3/8'
        """
        rest = plain(text)
        # A name may end in a number: the longest name that fits is the cutter's.
        cutter = max((name for name in cutters if rest.startswith(f"{name}/")), key=len, default="")
        found = _NUMBER.fullmatch(rest.removeprefix(f"{cutter}/") if cutter else rest)
        if found is None:
            raise ValueError(f"{text} is no number of a knob")
        tilt = parse_lean(found[1] or _UPRIGHT)
        at = None if found[3] is None else Fraction(found[3])
        return KnobValue(Fraction(found[2]), is_tested(text), cutter, tilt, at)

    @staticmethod
    def read(text: str, cutters: Iterable[str] = ()) -> KnobValue | None:
        """As `parse`; `None` where the value is a name."""
        try:
            return KnobValue.parse(text, cutters)
        except ValueError:
            return None

    def alike(self, other: KnobValue) -> bool:
        """Whether both hold for the same cutter, leaning alike."""
        return (self.cutter, self.tilt) == (other.cutter, other.tilt)


def is_tested(text: str) -> bool:
    """Whether a value's text says that a test cut decides it."""
    return text.endswith(_TESTED)


def plain(text: str) -> str:
    """A value's text without saying so."""
    return text.removesuffix(_TESTED)


def lean(tilt: Fraction) -> str:
    """How far the blade leans in how much height, toward the guide where positive.

    >>> lean(Fraction(-1, 8)), lean(Fraction(0))
    ('-1 in 8', '0')
    """
    return f"{tilt.numerator} in {tilt.denominator}" if tilt else _UPRIGHT


def parse_lean(text: str) -> Fraction:
    """The tilt again. Raises `ValueError` for another text.

    >>> parse_lean("-1 in 8"), parse_lean("0")
    (Fraction(-1, 8), Fraction(0, 1))
    """
    if text == _UPRIGHT:
        return Fraction(0)
    if not re.fullmatch(_LEAN, text):
        raise ValueError(f"{text} is no lean of a blade")
    rise, run = text.split(" in ")
    return Fraction(int(rise), int(run))
