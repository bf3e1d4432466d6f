"""A file's text with one value changed, put in or taken out; all else, comments too, as it was."""

from __future__ import annotations

import re
from collections.abc import Sequence

from msgspec import Struct

from sequencer.errors import InputError
from sequencer.job.document import Document, Path, quoted, read_document


class Edit(Struct, frozen=True):
    """What is to stand at a key, or `None` where it is to be gone. `door` counts from 0; `None` is
    the file's own table. `table` may be empty: the key then stands above all tables."""

    table: str
    key: str
    value: str | None
    door: int | None = None
    cutter: int | None = None
    """The cutter that it is of, from 0; its `table` is empty."""
    bare: bool = False
    """Written without quotes, as a count is."""

    @property
    def written(self) -> str:
        """The value as the file has it."""
        return (self.value or "") if self.bare else quoted(self.value or "")

    @property
    def line(self) -> str:
        """As it is put into a file that lacks it."""
        return f"{self.key} = {self.written}"

    @property
    def header(self) -> str:
        """The table that the line is put under, where the file lacks that too."""
        where = "door." if self.door is not None else ""
        return f"[{where}{self.table}]"

    @property
    def path(self) -> Path:
        base: Path = () if self.door is None else ("door", self.door)
        base = base if self.cutter is None else ("cutter", self.cutter)
        return (*base, self.table, self.key) if self.table else (*base, self.key)


def own_or_shared(document: Document, table: str, key: str, door: int) -> Edit:
    """Where a key of a door stands, its value still open: under the door, or in the file's own
    table, before the doors or behind them; where it is not stated, under the door."""
    own, shared = Edit(table, key, "", door), Edit(table, key, "")
    if document.get(own.path) is None and document.get(shared.path) is not None:
        return shared
    return own


class Line(Struct, frozen=True):
    """What a person reads and writes of a key: the line that has it, with all that it holds, and
    the header over it, both as the file has them. Above all tables the header is empty."""

    text: str
    header: str

    @property
    def key(self) -> str:
        """The key alone, with its dots."""
        return self.text.partition("=")[0].strip()


def line_of(document: Document, path: Path) -> Line:
    """The line of what is stated at `path`: of a key in braces, all of their line, and of one that
    is dotted, all of its dots."""
    while in_braces(document, path):
        path = path[:-1]
    spot = document.spots[path]
    over = [
        each
        for one, each in document.spots.items()
        if each.start <= spot.key and _is_header(document, one)
    ]
    header = max(over, key=lambda each: each.start, default=None)
    text = document.text[spot.key : spot.end].replace("\n", " ")
    return Line(text, "" if header is None else document.text[header.start : header.end])


def in_braces(document: Document, path: Path) -> bool:
    """Whether what is stated at `path` stands in a table or a list that is written as a value."""
    return len(path) > 1 and _in_brackets(document, path[:-1])


def _is_header(document: Document, path: Path) -> bool:
    spot = document.spots[path]
    listed = isinstance(path[-1], int) and in_braces(document, path)
    return spot.key == spot.start < spot.end and document.text[spot.start] == "[" and not listed


def _in_brackets(document: Document, path: Path) -> bool:
    """Whether a table or a list is written as a value, and not under headers or dotted."""
    spot = document.spots.get(path)
    if spot is None or spot.start == spot.end:
        return False
    return document.text[spot.start] in "{[" and not _is_header(document, path)


def edited(text: str, edits: Sequence[Edit]) -> str | None:
    """The text after all edits, its lines ended as they were; `None` where one cannot be made: the
    file is no TOML, or there is nowhere to put it for certain."""
    ending = "\r\n" if "\r\n" in text else "\n"
    for edit in edits:
        try:
            document = read_document(text, "")
        except InputError:
            return None
        made = _taken_out(document, edit) if edit.value is None else _put(document, edit)
        if made is None:
            return None
        text = made
    return text.replace("\r\n", "\n").replace("\n", ending)


def _taken_out(document: Document, edit: Edit) -> str | None:
    if document.get(edit.path) is None:
        return document.text
    text, spot = document.text, document.spots[edit.path]
    if in_braces(document, edit.path):
        before, after = text[: spot.key], text[spot.end :]
        comma = re.match(r"\s*,\s*", after)
        if comma is None:
            return re.sub(r"\s*,\s*$", "", before) + after
        return before + after[comma.end() :]
    start = text.rfind("\n", 0, spot.key) + 1
    end = text.find("\n", spot.end)
    end = len(text) if end < 0 else end + 1
    if text[start : spot.key].strip() or text[spot.end : end].strip()[:1] not in ("", "#"):
        return None
    return text[:start] + text[end:]


def _put(document: Document, edit: Edit) -> str | None:
    text = document.text
    if document.get(edit.path) is not None:
        spot = document.spots[edit.path]
        return text[: spot.start] + edit.written + text[spot.end :]
    table = edit.path[:-1]
    if table and table in document.spots:
        spot = document.spots[table]
        if text.startswith("[", spot.start):  # a header: right below it
            return _below(text, spot.end, edit.line)
        if text.startswith("{", spot.start):
            inner = text[spot.start + 1 : spot.end - 1].strip()
            more = f"{inner}, {edit.line}" if inner else edit.line
            return f"{text[: spot.start]}{{ {more} }}{text[spot.end :]}"
        return None
    if document.get(table) is not None and table:
        return None  # its keys are dotted: nowhere to put another for certain
    if edit.door is None:
        return _before_doors(document, edit)
    return _in_door(document, edit)


def _below(text: str, at: int, line: str) -> str:
    end = text.find("\n", at)
    if end < 0:
        return f"{text}\n{line}\n"
    return f"{text[: end + 1]}{line}\n{text[end + 1 :]}"


def _before_doors(document: Document, edit: Edit) -> str:
    lines = f"{edit.header}\n{edit.line}\n" if edit.table else f"{edit.line}\n"
    headers = [spot.start for path, spot in document.spots.items()
               if len(path) > 1 and path[0] in ("door", "bar", "board") and path[1] == 0
               and document.text.startswith("[[", spot.start)]  # fmt: skip
    if not edit.table:
        headers = [found.start() for found in re.finditer(r"(?m)^\[", document.text)]
    at = min(headers, default=len(document.text))
    before = document.text[:at]
    if before and not before.endswith("\n"):
        before += "\n"
    return f"{before}{lines}{document.text[at:]}"


def _in_door(document: Document, edit: Edit) -> str | None:
    """Behind all that is said of the door."""
    assert edit.door is not None
    starts = [found.start() for found in re.finditer(r"(?m)^\s*\[\[door\]\]", document.text)]
    if edit.door >= len(starts):
        return None
    if not edit.table:
        return _below(document.text, starts[edit.door], edit.line)
    nexts = [found.start() for found in re.finditer(r"(?m)^\s*\[\[?(?!door\.)\w", document.text)]
    at = min((each for each in nexts if each > starts[edit.door]), default=len(document.text))
    before = document.text[:at].rstrip("\n")
    rest = document.text[at:]
    return f"{before}\n{edit.header}\n{edit.line}\n{rest}"
