"""Job and shop files to begin with, as texts: commented, with what is known already filled in."""

from __future__ import annotations

import json
import re
from collections.abc import Sequence
from fractions import Fraction

from msgspec import Struct

from sequencer.errors import UsageError
from sequencer.facts import commands
from sequencer.job.defaults import lengths, packaged, shop_facts
from sequencer.job.document import quoted
from sequencer.job.edit import Edit, edited
from sequencer.lengths import LengthError, Unit, mixed, parse

USUAL_THICKNESS: dict[Unit, str] = {"in": "3/4", "mm": "19"}
_OPENING = re.compile(r"\s*(.+?)\s*(?:[x×X*]|\bby\b)\s*(.+?)\s*(left|right|pair)?\s*")


class Wanted(Struct, frozen=True):
    """An opening as somebody says it: its width, its height, and where the door hangs."""

    width: str
    height: str
    hangs: str

    @property
    def text(self) -> str:
        hangs = "leaves = 2" if self.hangs == "pair" else f'hinge = "{self.hangs}"'
        sizes = f"width = {quoted(self.width)}\nheight = {quoted(self.height)}"
        return f"\n[[door]]\n{hangs}\n[door.opening]\n{sizes}\n"


def is_opening(text: str) -> bool:
    """Whether it is meant as one, well written or not: it begins with a figure."""
    return text.strip()[:1].isdigit() and not text.lower().endswith(".toml")


def opening(text: str, unit: Unit) -> Wanted:
    """What `15 3/8 x 23 1/2 left` says. Raises `UsageError` where it says no opening."""
    found = _OPENING.fullmatch(text)
    if found is None:
        raise UsageError(commands.NO_OPENING(text=text))
    for size in found.group(1, 2):
        try:
            parse(size, unit)
        except LengthError as error:
            raise UsageError(
                commands.NO_SIZE(text=size, message=error.message, hint=error.hint)
            ) from None
    return Wanted(found[1], found[2], found[3] or "left")


def new_job(
    file: str, name: str, unit: Unit, wood: str | None, thickness: str | None,
    openings: Sequence[Wanted],
) -> str:  # fmt: skip
    """A job of these doors."""
    values = {key: _said(value, unit) for key, value in lengths(unit).items()}
    title = {"title": f"{name}: {len(openings)}", "file": file, "name": json.dumps(name)[1:-1]}
    values |= title | {
        "unit": unit,
        "species": f"species = {quoted(wood)}" if wood else '# species = "cherry"',
        "thickness": quoted(thickness or USUAL_THICKNESS[unit]),
    }
    return _filled("new_job.toml", values) + "".join(each.text for each in openings)


def starter(name: str | None) -> str:
    """The job that shows everything, of this name where one was given."""
    text = packaged("starter.toml")
    named = text if name is None else edited(text, [Edit("", "name", name)])
    return named or text


def new_shop(name: str, unit: Unit, own: str = "") -> str:
    """A shop like the built-in one. `own` ends the saw's id, so that two of a name are two."""
    values = {key: str(fact[unit]) for key, fact in shop_facts().items() if unit in fact}
    title = {"title": name, "unit": unit, "name": json.dumps(name)[1:-1]}
    title["id"] = " ".join(filter(None, (title["name"], own)))
    return _filled("new_shop.toml", {**values, **title})


def _said(value: Fraction, unit: Unit) -> str:
    return mixed(value) if unit == "in" else f"{float(value):g}"


def _filled(name: str, values: dict[str, str]) -> str:
    return re.sub(r"\{([\w.]+)\}", lambda found: values[found[1]], packaged(name))
