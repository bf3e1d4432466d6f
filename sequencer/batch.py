"""One batch read from the texts of its files: jobs in one unit, and the shop that will cut them."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from sequencer.errors import Fault, InputError
from sequencer.facts import Dialect
from sequencer.job.kept import NOTHING, Printed
from sequencer.job.load import load_job
from sequencer.job.schema import Job, Shop
from sequencer.job.shop import default_shop, load_shop
from sequencer.job.validate import against_shop
from sequencer.lengths import Unit


def read_batch(
    files: Sequence[str],
    shop: str | None,
    text_of: Callable[[str], str],
    printed: Mapping[str, Printed] | None = None,
) -> tuple[tuple[Job, ...], Shop]:
    """All jobs in the unit of the first, with marks that differ, and the shop (`None`: a usual
    one). `text_of` gives a file's text, or raises `InputError`. A file that ends in `.csv`
    or `.ods` is a table of pieces. What was `printed` of the files keeps its marks.

    Raises `InputError` with the faults of all files, and whose words the user reads.
    """
    jobs: list[Job] = []
    faults: list[Fault] = []
    words: Dialect | None = None
    for name in files:
        file = in_text(name)
        taken = {mark for job in jobs for door in job.doors for mark in door.marks}
        try:
            text = text_of(name)
            if is_table(file):
                from sequencer.job.table import load_pieces

                jobs.append(load_pieces(text, file))
            else:
                unit = jobs[0].unit if jobs else None
                kept = (printed or {}).get(file, NOTHING)
                jobs.append(load_job(text, file, unit, taken, kept))
        except InputError as error:
            faults += error.faults
            words = words or error.words
    unit = jobs[0].unit if jobs else "in"
    made = default_shop(unit)
    words = made.words if jobs else words
    if shop is not None:
        try:
            made = _shop(text_of(shop), in_text(shop), unit)
            words = made.words
        except InputError as error:
            faults += error.faults
            words = error.words or words
    faults = faults or [fault for job in jobs for fault in against_shop(job, made)]
    if faults:
        raise InputError(tuple(faults), words)
    return tuple(jobs), made


def is_table(file: str) -> bool:
    """Whether the name is that of a table of pieces."""
    return file.lower().endswith((".csv", ".ods"))


def in_text(name: str) -> str:
    r"""The name of a file as it can be written down: its bytes may be in any encoding, and what
    cannot be read of them becomes a question mark in a box.

    >>> in_text("caf\udce9.toml") == "caf\ufffd.toml"
    True
    """
    return name.encode("utf-8", "surrogateescape").decode("utf-8", "replace")


def _shop(text: str, file: str, unit: Unit) -> Shop:
    if "limits" not in text:
        return load_shop(text, file, unit)
    from sequencer.safety.rules import load  # only a shop with limits asks for the rules

    return load_shop(text, file, unit, load().bounds)
