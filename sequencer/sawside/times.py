"""Minutes as they really were: what each knob and each test cut took, offered to the shop file.

A change of several knobs at once is shared among them as the plan had shared its minutes. Breaks
are left out before: nothing here is longer than half an hour.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from statistics import median

from sequencer.errors import Refusal
from sequencer.facts import follows
from sequencer.saw.fittings import timed_as
from sequencer.sawside.state import Took

MINUTE = 60_000
STEP = Fraction(1, 4)
"""Minutes: what is offered is rounded to it, and never to less; ours."""


@dataclass(frozen=True, slots=True)
class Typical:
    """The median of `count` times, in minutes, to the nearest quarter."""

    name: str
    minutes: Fraction
    count: int


def typical(times: Sequence[Took]) -> tuple[Typical, ...]:
    """A line for each knob that was set and for the test cut, in the order of the first."""
    found: dict[str, list[Fraction]] = {}
    for took in times:
        planned = sum((minutes for _, minutes in took.what), Fraction(0))
        for name, minutes in took.what:
            share = minutes / planned if planned else Fraction(1, len(took.what))
            found.setdefault(timed_as(name), []).append(share * took.took / MINUTE)
    return tuple(
        Typical(name, max(STEP, round(Fraction(median(all_)) / STEP) * STEP), len(all_))
        for name, all_ in found.items()
    )


def into_shop(text: str, minutes: Mapping[str, Fraction]) -> str:
    """The shop file's text with `minutes` under [minutes], everything else as it stands.

    Raises `Refusal` where the file is no TOML, or cannot be changed line by line.
    """
    try:
        before = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise Refusal(follows.NOT_TOML(reason=str(error))) from None
    lines = text.split("\n")
    header = next((n for n, line in enumerate(lines) if _bare(line) == "[minutes]"), None)
    if header is None:
        while lines and not lines[-1]:
            lines.pop()
        lines += ["", "[minutes]"]
        header = len(lines) - 1
    end = next((n for n in range(header + 1, len(lines)) if _bare(lines[n]).startswith("[")),
               len(lines))  # fmt: skip
    left = {name: f'{name} = "{_written(value)}"' for name, value in minutes.items()}
    for n in range(header + 1, end):
        name = _bare(lines[n]).partition("=")[0].strip().strip("\"'")
        if name in left:
            _, mark, remark = lines[n].partition("#")
            lines[n] = left.pop(name) + (f"  {mark}{remark}" if mark else "")
    lines[header + 1 : header + 1] = left.values()
    made = "\n".join(lines).rstrip("\n") + "\n"
    wanted = dict(before)
    written = {name: _written(value) for name, value in minutes.items()}
    wanted["minutes"] = {**before.get("minutes", {}), **written}
    try:
        good = tomllib.loads(made) == wanted
    except tomllib.TOMLDecodeError:
        good = False
    if not good:
        raise Refusal(follows.NOT_LINE_BY_LINE())
    return made


def _bare(line: str) -> str:
    return line.partition("#")[0].strip()


def _written(value: Fraction) -> str:
    """As shop files write minutes: `1 3/4`."""
    whole, rest = divmod(value, 1)
    return " ".join(str(part) for part in (whole, rest) if part) or "0"
