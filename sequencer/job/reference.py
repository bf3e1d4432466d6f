"""Every key of a job and of a shop file, with its default and its usual range, from what reads
them.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from typing import Literal

from msgspec import Struct

from sequencer.job import bars, boards, load, shop
from sequencer.job.defaults import lengths, packaged, shop_facts
from sequencer.job.ranges import ranges
from sequencer.job.said_default import said_defaults
from sequencer.lengths import mixed

File = Literal["job", "shop"]


class Key(Struct, frozen=True):
    """A key with what stands in where it is left out, and from where to where it usually is: each
    in inches and in millimetres, as a file has it; `usual` empty where there is no range."""

    name: str
    file: File
    default: tuple[str, str]
    usual: tuple[str, str]


def keys(file: File) -> tuple[Key, ...]:
    """In the order of the reference."""
    told = tomllib.loads(packaged("reference.toml"))[file]
    return tuple(Key(name, file, _default(name, file, told), _usual(name)) for name in _names(file))


def _names(file: File) -> Iterator[str]:
    if file == "job":
        yield from ("unit", "name", "sure", *load.WORDS)
        tables = load.TABLES
    else:
        yield from ("name", "sure", "words", "graduation")
        tables = shop.TABLES
    for table, names in tables.items():
        yield from (f"{table}.{name}" for name in names)
    if file == "shop":
        yield from (f"cutter.{name}" for name in shop.CUTTER)
        return
    for table, names in (
        ("door", load.DOOR), ("bar", bars.BAR), ("rough", boards.ROUGH), ("board", boards.BOARD),
    ):  # fmt: skip
        yield from (f"{table}.{name}" for name in names)


def _default(name: str, file: File, told: dict[str, list[str]]) -> tuple[str, str]:
    if name in told:
        inch, mm = told[name]
        return inch, mm
    words = said_defaults(file).get(name)
    if words is not None and name not in lengths("in"):
        return words, words
    if file == "job":
        return mixed(lengths("in")[name]), f"{float(lengths('mm')[name]):g}"
    facts = shop_facts()
    fact = facts.get(name) or facts[f"shop.{name}"]
    if "value" in fact:
        said = str(fact["value"]).lower() if isinstance(fact["value"], bool) else fact["value"]
        return str(said), str(said)
    return str(fact["in"]), str(fact["mm"])


def _usual(name: str) -> tuple[str, str]:
    inch, mm = ranges("in").get(name), ranges("mm").get(name)
    if inch is None or mm is None:
        return "", ""
    return (
        f"{mixed(inch.low)} to {mixed(inch.high)}", f"{float(mm.low):g} to {float(mm.high):g}",
    )  # fmt: skip
