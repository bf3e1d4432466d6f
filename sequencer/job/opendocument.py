"""A table of pieces in an OpenDocument spreadsheet (ISO/IEC 26300), as the text of a table.

A spreadsheet keeps text there as it is, where a CSV file's `3/4` becomes a date to it.
"""

from __future__ import annotations

from collections.abc import Iterator
from io import BytesIO
from xml.etree import ElementTree
from zipfile import BadZipFile, ZipFile

from sequencer.errors import Fault, InputError
from sequencer.facts import tables

_MOST_BYTES = 20_000_000
_MOST_CELLS = 200
_OFFICE = "{urn:oasis:names:tc:opendocument:xmlns:office:1.0}"
_TABLE = "{urn:oasis:names:tc:opendocument:xmlns:table:1.0}"
_TEXT = "{urn:oasis:names:tc:opendocument:xmlns:text:1.0}"


def as_text(data: bytes, file: str) -> str:
    """Its first sheet with tabs between the cells, a line a row; a row that is repeated is one
    row. Numbers and dates stand as the file has them, not as they are shown.

    Raises `InputError` where it is no such spreadsheet.
    """
    try:
        with ZipFile(BytesIO(data)) as packed, packed.open("content.xml") as content:
            text = content.read(_MOST_BYTES + 1)
        if len(text) > _MOST_BYTES:
            raise ValueError(str(len(text)))
        sheet = next(ElementTree.fromstring(text).iter(f"{_TABLE}table"))
    # What a damaged archive or a hostile document makes of its reader.
    except (BadZipFile, KeyError, ValueError, OSError, EOFError, NotImplementedError,
            RuntimeError, StopIteration, ElementTree.ParseError):  # fmt: skip
        message, hint = tables.NO_SPREADSHEET(), tables.SAVE_AS_ODS()
        raise InputError((Fault(file, 0, 0, message, hint),)) from None
    return "\n".join("\t".join(_cells(row)) for row in sheet.iter(f"{_TABLE}table-row"))


def _cells(row: ElementTree.Element) -> list[str]:
    found: list[str] = []
    for cell in row:
        if cell.tag not in (f"{_TABLE}table-cell", f"{_TABLE}covered-table-cell"):
            continue
        times = cell.get(f"{_TABLE}number-columns-repeated", "1")
        count = min(int(times), _MOST_CELLS) if times.isdigit() else 1
        found += [_content(cell)] * count
    while found and not found[-1]:
        found.pop()
    return found


def _content(cell: ElementTree.Element) -> str:
    kind = cell.get(f"{_OFFICE}value-type")
    if kind in ("date", "time"):
        stated = cell.get(f"{_OFFICE}{kind}-value") or ""
    elif kind in ("float", "percentage", "currency"):
        stated = cell.get(f"{_OFFICE}value") or ""
    else:
        stated = " ".join("".join(_words(each)) for each in cell.iter(f"{_TEXT}p"))
    return " ".join(stated.split())


def _words(paragraph: ElementTree.Element) -> Iterator[str]:
    """The paragraph's text; spaces in a row and tabs are elements of their own."""
    yield paragraph.text or ""
    for child in paragraph:
        if child.tag in (f"{_TEXT}s", f"{_TEXT}tab", f"{_TEXT}line-break"):
            yield " "
        elif child.tag != f"{_OFFICE}annotation":
            yield from _words(child)
        yield child.tail or ""
