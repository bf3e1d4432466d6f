"""Minutes as they really were, written into a shop file."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from fractions import Fraction

from sequencer.errors import Refusal
from sequencer.facts import follows


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
