"""A door's opening, read: its width and height."""

from __future__ import annotations

import re

from sequencer.facts import files
from sequencer.job.document import Path, quoted
from sequencer.job.reader import Reader
from sequencer.job.schema import Opening
from sequencer.lengths import EXAMPLE, parse

_BY = re.compile(r"\s*[x×X]\s*|\s+by\s+")


def _in_one_string(reader: Reader, path: Path) -> None:
    """An opening as people say it, `15 3/8 x 23 1/2`: how it is written here."""
    sizes = _BY.split(reader.document.get(path))
    try:
        width, height = sizes
        for size in sizes:
            parse(size, reader.unit)
    except ValueError:
        width = height = EXAMPLE[reader.unit]
    sides = ", ".join(
        f"{key} = {quoted(size.strip())}" for key, size in (("width", width), ("height", height))
    )
    hint = files.WRITE(text=f"opening = {{ {sides} }}")
    reader.fault(path, files.TWO_LENGTHS(), hint)


def read_opening(reader: Reader, base: Path) -> Opening | None:
    """The opening of the door at `base`; `None` where it is wrong."""
    path = (*base, "opening")
    if isinstance(reader.document.get(path), str):
        _in_one_string(reader, path)
        return None
    lines = {key: f'{key} = "{EXAMPLE[reader.unit]}"' for key in ("width", "height")}
    header = "[door.opening]"
    if not reader.has(path):
        hint = files.WRITE_WITH(header=header, lines=tuple(lines.values()))
        reader.fault(path, files.NO_OPENING(), hint, key=True)
        return None
    if not reader.table(path):
        return None
    reader.known(path, lines)
    for key, line in lines.items():
        if not reader.has((*path, key)):
            message = files.OPENING_LACKS(key=key)
            reader.fault((*path, key), message, files.WRITE_UNDER(text=line, table=header))
    sizes = [reader.length((*path, key)) for key in ("width", "height")]
    return None if sizes[0] is None or sizes[1] is None else Opening(sizes[0], sizes[1])
