"""What the trade knows of each measure of job and shop: outside its range a file is asked about it,
and answers by naming the key in its list `sure`."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from fractions import Fraction
from functools import cache

from msgspec import Struct

from sequencer.facts import Fact, Length, files
from sequencer.job.defaults import packaged
from sequencer.job.document import Path
from sequencer.lengths import Unit, parse

OTHER: Mapping[Unit, Unit] = {"in": "mm", "mm": "in"}
OF_DOORS = ("door",)
"""Tables whose keys are named without them where they stand below: a door's `rails.top`."""


class Range(Struct, frozen=True):
    low: Fraction
    high: Fraction

    def holds(self, value: Fraction) -> bool:
        return not value or self.low <= value <= self.high


@cache
def ranges(unit: Unit) -> Mapping[str, Range]:
    """By dotted key.

    >>> ranges("in")["jig.thickness"]
    Range(low=Fraction(1, 4), high=Fraction(8, 1))
    """
    data = tomllib.loads(packaged("ranges.toml"))
    return {
        f"{table}.{key}": Range(*(parse(end, unit) for end in row[unit]))
        for table, rows in data.items()
        for key, row in rows.items()
    }


def dotted(path: Path) -> str:
    """A key as the reference names it: `rails.top` for the file's and for each door's.

    >>> dotted(("door", 0, "rails", "top")), dotted(("cutter", 1, "kerf")), dotted(("mark",))
    ('rails.top', 'cutter.kerf', 'mark')
    """
    names = [part for part in path if isinstance(part, str)]
    return ".".join(names[1:] if len(names) > 2 and names[0] in OF_DOORS else names)


def asked(
    key: str, value: Fraction, written: str, unit: Unit, sure: Sequence[str] = ()
) -> tuple[Fact, Fact] | None:
    """What is asked about a value of a dotted key, and how the file answers, which is `sure` of
    some already; `None` where the value is usual. A bare number that would be usual in the other
    unit was sooner meant so."""
    known = ranges(unit).get(key)
    if known is None or known.holds(value):
        return None
    low, high = Length(known.low, unit), Length(known.high, unit)
    question = files.UNUSUAL(key=key, value=Length(value, unit), low=low, high=high)
    name = key.rpartition(".")[2]
    bare = not any(c.isalpha() or c in "\"'″′" for c in written)
    other = OTHER[unit]
    if bare and _usual_elsewhere(key, written, other):
        meant = f'{name} = "{written.strip()} {other}"'
        return question, files.OTHER_UNIT_OR_SURE(text=meant, sure=answer(key, sure))
    return question, files.MEASURE_OR_SURE(sure=answer(key, sure))


def answer(key: str, sure: Sequence[str]) -> str:
    """The line that answers, as a file has it.

    >>> answer("jig.deck", ())
    'sure = ["jig.deck"]'
    """
    keys = '", "'.join((*sure, key))
    return f'sure = ["{keys}"]'


def _usual_elsewhere(key: str, written: str, unit: Unit) -> bool:
    try:
        return ranges(unit)[key].holds(parse(written, unit))
    except ValueError:
        return False
