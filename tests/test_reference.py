"""The reference is made from what reads the files: `--refresh` writes it anew."""

from __future__ import annotations

import re
from fractions import Fraction
from pathlib import Path

from sequencer.job import table
from sequencer.job.climate import ROOM
from sequencer.job.reference import File, Key, keys
from sequencer.job.shop import load_shop
from sequencer.trade.moisture import USUAL_TEMPERATURE, celsius
from sequencer.wording import Room
from sequencer.wording.keys import KEYS, key_text

REFERENCE = Path(__file__).resolve().parent.parent / "examples" / "REFERENCE.md"

HEAD = """# Reference

Every key of a job and of a shop file, made from the program that reads them; `sequencer explain
KEY` says the same of one. What is left out is as under *default*, in inches or in millimetres by
the file's `unit`; “–” has no default: it is left out for good, or must be there. A measure outside
what is *usual* is asked about: the file answers with another unit, or with the key in its list
`sure`. A default in words may be written out.
"""
ROOM_OF: Room = Room("UK")


def made() -> str:
    text = HEAD
    for heading, file in (("The job file", "job"), ("The shop file", "shop")):
        text += f"\n## {heading}\n\n"
        text += "| key | default in | default mm | usual in | usual mm | what it is |\n"
        text += "| --- | --- | --- | --- | --- | --- |\n"
        for key in keys("job" if file == "job" else "shop"):
            text += _row(key)
    text += "\n## Pieces drawn elsewhere\n\n| column | what it is |\n| --- | --- |\n"
    for column in table.COLUMNS:
        text += f"| `{column}` | {key_text(ROOM_OF, f'pieces {column}')} |\n"
    return text


def _row(key: Key) -> str:
    name = key.name if key.file == "job" else f"shop {key.name}"
    cells = (f"`{key.name}`", *key.default, *key.usual, key_text(ROOM_OF, name))
    return f"| {' | '.join(cells)} |\n"


def test_the_reference_is_what_the_program_reads(refresh: bool) -> None:
    if refresh:
        REFERENCE.write_text(made(), "utf-8")
    assert REFERENCE.read_text("utf-8") == made()


def test_every_key_is_explained_and_nothing_else() -> None:
    job, shop = ([key.name for key in keys(file)] for file in _FILES)
    columns = [f"pieces {column}" for column in table.COLUMNS]
    assert set(KEYS) == {*job, *(f"shop {name}" for name in shop), *columns}


_FILES: tuple[File, ...] = ("job", "shop")


def test_the_usual_warmth_is_the_one_that_is_reckoned_with() -> None:
    (warmth,) = [key for key in keys("job") if key.name == "room.temperature"]
    assert "temperature" in ROOM
    assert warmth.default[1] == f"{USUAL_TEMPERATURE} C"
    assert celsius(Fraction(warmth.default[0][:-2])) == USUAL_TEMPERATURE


def test_a_default_in_figures_may_be_written_out() -> None:
    """Of a shop file each changes nothing."""
    for unit, at in (("in", 0), ("mm", 1)):
        plain = load_shop(f'unit = "{unit}"\n', "s", "in" if unit == "in" else "mm")
        for key in keys("shop"):
            value = key.default[at]
            if not re.fullmatch(r"[0-9][0-9 ./]*", value) or key.name.startswith("cutter."):
                continue
            table_, _, name = key.name.rpartition(".")
            head = f"[{table_}]\n" if table_ else ""
            text = f'unit = "{unit}"\n{head}{name} = "{value}"\n'
            own = load_shop(text, "s", "in" if unit == "in" else "mm")
            for part in ("graduation", "saw", "cutters", "sled", "jig", "minutes"):
                assert getattr(own, part) == getattr(plain, part), key.name
