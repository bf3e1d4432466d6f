"""A table of pieces (CSV): one row a piece, for those who draw their doors elsewhere.

The separator is a comma, a semicolon or a tab, as the first row shows. Columns stand in any order;
those that are not known here are passed over, so that a parts list may carry more.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from pathlib import PurePath
from typing import cast

from sequencer.errors import Fault, InputError
from sequencer.job.boards import USUAL_ALLOWANCE
from sequencer.job.checked import say
from sequencer.job.facts import lengths
from sequencer.job.piece import End, Joinery, Piece, Side
from sequencer.job.rack import Rack
from sequencer.job.schema import Job
from sequencer.lengths import LengthError, Unit, convert, parse

COLUMNS: Mapping[str, str] = {
    "mark": "its own for each piece: a letter, then up to five letters and figures",
    "name": "as the sheets call it; without one, piece",
    "door": "groups the pieces that go together; may be left empty",
    "material": "the wood; without one, hardwood",
    "length": "along the grain, as it leaves the saw, tenons included",
    "width": "across the grain",
    "thickness": "as measured, after planing",
    "unit": "`in` or `mm`, the same in every row",
    "end_a": "`slot`, `tenon` or empty",
    "end_b": "the same for the other end",
    "depth_a": "how deep the slot is from its end, or how long the tenon",
    "depth_b": "",
    "slot": "width of the slot, or of the slot that the tenon goes into; centred",
    "tenon_width": "how much of the width a tenon keeps; without it, all but the groove",
    "groove_width": "of a groove along the inside edge, centred; empty where there is none",
    "groove_depth": "",
    "inside": "`left` or `right`: the side of its inside edge, end A up; without it, left",
}
NEEDED = ("mark", "length", "width", "thickness", "unit")
MOST_PIECES = 500

_MARK = re.compile(r"[A-Za-z][A-Za-z0-9]{0,5}")
_LONGEST_NAME = 60
_FORMULA = re.compile(r"'[=+\-@]")


@dataclass(frozen=True, slots=True)
class _Row:
    """A row's cells by column, and where each begins; `line` counts from 1."""

    file: str
    line: int
    text: str
    cells: Mapping[str, str]
    columns: Mapping[str, int]

    def fault(self, column: str, message: str, hint: str, skip: int = 0) -> Fault:
        at = self.columns.get(column, 1) + skip
        shown = self.text if self.text.isprintable() and len(self.text) <= 200 else ""
        return Fault(self.file, self.line, at, message, hint, shown)

    def get(self, column: str) -> str:
        value = self.cells.get(column, "").strip()
        return value[1:] if _FORMULA.match(value) else value


def load_pieces(text: str, file: str, unit: Unit | None = None) -> Job:
    """The job of a table, in `unit` or its own. Raises `InputError` with every fault found."""
    rows = _rows(text, file)
    own = _unit(rows)
    faults: list[Fault] = []
    pieces: list[Piece] = []
    taken: dict[str, int] = {}
    for row in rows:
        before = len(faults)
        faults += _wrong_mark(row, taken)
        if row.get("unit") != own:
            faults.append(row.fault("unit", "another unit than the first row's", f"write {own}"))
        reading = _Reading(row, own, unit or own)
        piece = reading.piece()
        faults += reading.faults
        if piece is not None and len(faults) == before:
            pieces.append(piece)
    faults += _without_slots(rows, pieces)
    if faults:
        raise InputError(tuple(faults))
    facts = lengths(own)
    milling, kerf = (
        convert(facts[f"rough.{key}"], own, unit or own) for key in ("milling", "kerf")
    )
    rack = Rack((), USUAL_ALLOWANCE, milling, kerf)
    return Job(PurePath(file).stem, file, unit or own, (), rack, tuple(pieces))


def _without_slots(rows: Sequence[_Row], pieces: Sequence[Piece]) -> Iterator[Fault]:
    """Tenons are tried in a slot of the same stock, so there must be one."""
    stocks = {
        (each.material, each.thickness, each.joinery)
        for each in pieces
        if "slot" in (each.end_a, each.end_b)
    }
    lines = {row.line: row for row in rows}
    for each in pieces:
        stock = (each.material, each.thickness, each.joinery)
        if "tenon" in (each.end_a, each.end_b) and stock not in stocks:
            row = lines[int(each.where.rpartition(":")[2])]
            message = "no piece of this wood, thickness, slot and groove has a slot for the tenon"
            hint = "add the piece that it goes into, or a test piece to try it in"
            yield row.fault("end_a" if each.end_a == "tenon" else "end_b", message, hint)


def _rows(text: str, file: str) -> list[_Row]:
    def whole(message: str, hint: str = "") -> InputError:
        return InputError((Fault(file, 0, 0, message, hint),))

    lines = text.removeprefix("\ufeff").replace("\r\n", "\n").split("\n")
    first = lines[0]
    separator = next((each for each in ("\t", ";") if each in first), ",")
    try:
        header = [_plain(cell) for cell in next(csv.reader([first], delimiter=separator), [])]
        missing = [name for name in NEEDED if name not in header]
        if missing:
            hint = f"the first row names the columns: {', '.join(COLUMNS)}"
            raise whole(f"no column {', '.join(missing)}", hint)
        twice = next((name for name in COLUMNS if header.count(name) > 1), None)
        if twice is not None:
            raise whole(f"the column {twice} stands twice")
        rows = []
        for number, line in enumerate(lines[1:], 2):
            if not line.strip(f"{separator} "):
                continue
            cells = next(csv.reader([line], delimiter=separator, strict=True))
            starts = _starts(line, cells)
            row = _Row(
                file, number, line, dict(zip(header, cells, strict=False)),
                dict(zip(header, starts, strict=False)),
            )  # fmt: skip
            rows.append(row)
    except csv.Error as error:
        raise whole(f"not a table: {error}", "save it as CSV, UTF-8") from None
    if not rows:
        raise whole("no pieces in the table", "a row for each piece, below the columns' names")
    if len(rows) > MOST_PIECES:
        raise whole(f"more than {MOST_PIECES} pieces in one table", "split it")
    return rows


def _plain(name: str) -> str:
    return re.sub(r"[\s_-]+", "_", name.strip().lower())


def _starts(line: str, cells: Sequence[str]) -> list[int]:
    """The column at which each cell begins, from 1; all 1 in a row with quotes."""
    if '"' in line:
        return [1] * len(cells)
    starts, at = [], 1
    for cell in cells:
        starts.append(at + len(cell) - len(cell.lstrip()))
        at += len(cell) + 1
    return starts


def _unit(rows: Sequence[_Row]) -> Unit:
    value = rows[0].get("unit")
    if value not in ("in", "mm"):
        fault = rows[0].fault("unit", "unit is not in or mm", "write in or mm in every row")
        raise InputError((fault,))
    return cast(Unit, value)


def _wrong_mark(row: _Row, taken: dict[str, int]) -> Iterator[Fault]:
    mark = row.get("mark")
    if not _MARK.fullmatch(mark):
        yield row.fault("mark", "a mark is a letter and up to five letters and figures", "as A1")
    elif mark in taken:
        hint = "each piece has a mark of its own"
        yield row.fault("mark", f"{mark} stands already in line {taken[mark]}", hint)
    taken.setdefault(mark, row.line)


class _Reading:
    """One row read: its lengths, and what is wrong among them."""

    def __init__(self, row: _Row, own: Unit, unit: Unit) -> None:
        self.row, self.own, self.unit = row, own, unit
        self.faults: list[Fault] = []

    def piece(self) -> Piece | None:
        row = self.row
        ends = (self._end("end_a"), self._end("end_b"))
        inside = self._inside()
        figures = {name: self._length(name) for name in _LENGTHS}
        for name in ("length", "width", "thickness"):
            if not row.get(name) or figures[name] == 0:
                self._fault(name, f"the piece has no {name}", "as it leaves the saw")
        if self.faults:
            return None
        length, width, thickness = (
            figures[name] or Fraction(0) for name in ("length", "width", "thickness")
        )
        groove_depth = figures["groove_depth"] or Fraction(0)
        tenon = figures["tenon_width"]
        self._check(ends, figures)
        if self.faults:
            return None
        slot, groove = figures["slot"] if any(ends) else None, figures["groove_width"]
        clearance = convert(lengths(self.own)["joint.clearance"], self.own, self.unit)
        return Piece(
            mark=row.get("mark"),
            name=self._text("name") or "piece",
            door=self._text("door"),
            material=self._text("material") or "hardwood",
            length=length,
            width=width,
            thickness=thickness,
            end_a=ends[0],
            end_b=ends[1],
            depth_a=figures["depth_a"] or Fraction(0),
            depth_b=figures["depth_b"] or Fraction(0),
            tenon_width=width - groove_depth if tenon is None else tenon,
            joinery=Joinery(slot, clearance, groove, groove_depth) if any(ends) or groove else None,
            where=f"{row.file}:{row.line}",
            inside=inside,
        )

    def _check(
        self, ends: tuple[End | None, End | None], figures: Mapping[str, Fraction | None]
    ) -> None:
        least = convert(lengths(self.own)["limits.least_cheek"], self.own, self.unit)
        thickness = figures["thickness"] or Fraction(0)
        width, length = figures["width"] or Fraction(0), figures["length"] or Fraction(0)
        for name, end in zip(("a", "b"), ends, strict=True):
            if end is not None and not figures[f"depth_{name}"]:
                hint = "how deep the slot is, or how long the tenon"
                self._fault(f"depth_{name}", f"the {end} at end {name.upper()} has no depth", hint)
            elif end is None and figures[f"depth_{name}"]:
                hint = f"write slot or tenon under end_{name}, or leave it out"
                self._fault(f"depth_{name}", f"a depth without a joint at end {name.upper()}", hint)
        if any(ends) and not figures["slot"]:
            self._fault("slot", "a joint without a slot's width", "about a third of the thickness")
        depths = (figures["depth_a"] or Fraction(0)) + (figures["depth_b"] or Fraction(0))
        if depths >= length:
            self._fault("length", "the joints leave nothing between them", "check the depths")
        for name in ("slot", "groove_width"):
            wide = figures[name]
            if wide is not None and (thickness - wide) / 2 < least:
                most = max(thickness - 2 * least, Fraction(0))
                message = f"{name.replace('_', ' ')} {say(wide, self.unit)} leaves too little wood"
                self._fault(name, message, f"at most {say(most, self.unit)} in this thickness")
        if bool(figures["groove_width"]) != bool(figures["groove_depth"]):
            absent = "groove_depth" if figures["groove_width"] else "groove_width"
            self._fault(absent, f"a groove without {absent.replace('_', ' ')}", "give both")
        room = width - (figures["groove_depth"] or Fraction(0))
        if room <= 0:
            self._fault("groove_depth", "the groove is as deep as the piece is wide", "less")
        tenon = figures["tenon_width"]
        if tenon is not None and not 0 < tenon <= room:
            hint = f"at most {say(room, self.unit)}, what the groove leaves"
            self._fault("tenon_width", "a tenon of that width cannot be", hint)

    def _end(self, column: str) -> End | None:
        value = self.row.get(column).lower()
        if value not in ("", "slot", "tenon"):
            self._fault(column, f"{column} is not slot, tenon or empty", "write slot or tenon")
            return None
        return cast("End | None", value or None)

    def _inside(self) -> Side | None:
        value = self.row.get("inside").lower()
        if value not in ("", "left", "right"):
            hint = "write left or right: its side on the marked face, end A up"
            self._fault("inside", "inside is not left, right or empty", hint)
            return None
        return cast("Side | None", value or None)

    def _length(self, column: str) -> Fraction | None:
        written = self.row.get(column)
        if not written:
            return None
        try:
            return convert(parse(written, self.own), self.own, self.unit)
        except LengthError as error:
            fault = self.row.fault(column, error.message, error.hint, error.offset)
            self.faults.append(fault)
            return None

    def _text(self, column: str) -> str:
        value = self.row.get(column)
        if not value.isprintable() or len(value) > _LONGEST_NAME:
            hint = f"one printable line of at most {_LONGEST_NAME} characters"
            self._fault(column, f"{column} cannot be printed", hint)
        return value

    def _fault(self, column: str, message: str, hint: str) -> None:
        self.faults.append(self.row.fault(column, message, hint))


_LENGTHS = (
    "length", "width", "thickness", "depth_a", "depth_b", "slot", "tenon_width", "groove_width",
    "groove_depth",
)  # fmt: skip
