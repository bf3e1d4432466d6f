"""A table of pieces (CSV): one row a piece, for those who draw their doors elsewhere.

The separator is a comma, a semicolon or a tab, as the first row shows. Columns stand in any order;
those that are not known here are passed over, so that a parts list may carry more, but nothing that
it says of a piece's joints is.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from pathlib import PurePath
from typing import cast

from msgspec import Struct

from sequencer.errors import Fault, InputError
from sequencer.facts import Fact, Length, dialect_for, files, tables
from sequencer.job.boards import USUAL_ALLOWANCE
from sequencer.job.defaults import lengths
from sequencer.job.piece import End, Joinery, Piece, Side
from sequencer.job.rack import Rack
from sequencer.job.reader import meant
from sequencer.job.schema import Job
from sequencer.lengths import LengthError, Unit, convert, parse

COLUMNS = (
    "mark", "name", "door", "material", "length", "width", "thickness", "unit", "end_a", "end_b",
    "depth_a", "depth_b", "slot", "tenon_width", "groove_width", "groove_depth",
    "inside",
)  # fmt: skip
"""What each is, the README says."""
NEEDED = ("mark", "length", "width", "thickness", "unit")
MOST_PIECES = 500

CARRIED = ("end_a", "end_b", "groove_width")
NOT_CARRIED = ("not_in_columns", "joints")
"""What a list of parts says of joints that these columns do not."""
_OWN = ("job", "joints", "stick", "at_stop", "not_in_columns")
"""Columns of a list of parts that are passed over without a word."""
_KNOWN = frozenset((*COLUMNS, *_OWN))
_OF_JOINTS = COLUMNS[COLUMNS.index("end_a") : COLUMNS.index("inside")]
COUNTS = ("count", "quantity", "qty", "number", "pieces")

_DATE = re.compile(
    r"[0-9]{4}-[0-9]{2}-[0-9]{2}.*|PT[0-9].*|[0-9]{1,2}/[0-9]{1,2}/[0-9]{2,4}"
    r"|[0-9]{1,2}[-. /]{0,2}[A-Za-zä]{3,4}\.?(?:[-. /]?[0-9]{2,4})?"
    r"|[A-Za-zä]{3,4}\.?[-. /][0-9]{2,4}|[0-9]{1,2}\.[0-9]{1,2}\.[0-9]{0,4}"
)
"""What spreadsheets write for `3/4`: 4-Mar, 03.Apr, 2026-03-04."""
_MARK = re.compile(r"[A-Za-z][A-Za-z0-9]{0,5}")
_LONGEST_NAME = 60
_FORMULA = re.compile(r"'[=+\-@]")


class _Row(Struct, frozen=True):
    """A row's cells by column, and where each begins; `line` counts from 1."""

    file: str
    line: int
    text: str
    cells: Mapping[str, str]
    columns: Mapping[str, int]

    def fault(self, column: str, message: Fact, hint: Fact, skip: int = 0) -> Fault:
        at = self.columns.get(column, 1) + skip
        shown = self.text if self.text.isprintable() and len(self.text) <= 200 else ""
        return Fault(self.file, self.line, at, message, hint, shown)

    def longer(self, cells: int, columns: int) -> Fault:
        return self.fault(
            "", tables.MORE_CELLS(cells=cells, columns=columns), tables.DECIMAL_COMMA()
        )

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
        faults += _lost(row)
        faults += _wrong_mark(row, taken)
        if row.get("unit") != own:
            faults.append(row.fault("unit", tables.OTHER_UNIT(), tables.UNIT_IN_EVERY_ROW()))
        reading = _Reading(row, own, unit or own)
        piece = reading.piece()
        faults += reading.faults
        if piece is not None and len(faults) == before:
            pieces.append(piece)
    faults += _without_slots(rows, pieces)
    if faults:
        raise InputError(tuple(faults), dialect_for(own))
    facts = lengths(own)
    milling, kerf = (
        convert(facts[f"rough.{key}"], own, unit or own) for key in ("milling", "kerf")
    )
    rack = Rack((), USUAL_ALLOWANCE, milling, kerf)
    passed = tuple(name for name in rows[0].cells if name and name not in (*_KNOWN, *COUNTS))
    return Job(PurePath(file).stem, file, unit or own, (), rack, tuple(pieces), passed)


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
            column = "end_a" if each.end_a == "tenon" else "end_b"
            yield row.fault(column, tables.NO_SLOT_TO_TRY(), tables.ADD_A_SLOT())


def _rows(text: str, file: str) -> list[_Row]:
    def whole(message: Fact, hint: Fact | None = None) -> InputError:
        return InputError((Fault(file, 0, 0, message, hint),))

    lines = text.removeprefix("\ufeff").replace("\r\n", "\n").split("\n")
    first = lines[0]
    separator = next((each for each in ("\t", ";") if each in first), ",")
    try:
        header = [_plain(cell) for cell in next(csv.reader([first], delimiter=separator), [])]
        near = [(name, _near(name, header)) for name in header if name not in _KNOWN]
        slips = [(name, close) for name, close in near if close]
        if slips:
            raise InputError(tuple(
                Fault(file, 1, 1, tables.NEAR_COLUMN(name=name), files.DID_YOU_MEAN(name=close))
                for name, close in slips
            ))  # fmt: skip
        missing = [name for name in NEEDED if name not in header]
        if missing:
            raise whole(tables.NO_COLUMN(names=tuple(missing)), tables.FIRST_ROW(names=COLUMNS))
        twice = next((name for name in COLUMNS if header.count(name) > 1), None)
        if twice is not None:
            raise whole(tables.COLUMN_TWICE(name=twice))
        rows = []
        longer = []
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
            if len(cells) > len(header):
                longer.append(row.longer(len(cells), len(header)))
    except csv.Error as error:
        raise whole(tables.NO_TABLE(found=str(error)), tables.SAVE_AS_CSV()) from None
    if longer:
        raise InputError(tuple(longer))
    if not rows:
        raise whole(tables.NO_PIECES(), tables.ROW_EACH())
    if len(rows) > MOST_PIECES:
        raise whole(tables.TOO_MANY(most=MOST_PIECES), tables.SPLIT_TABLE())
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
        fault = rows[0].fault("unit", tables.NO_UNIT(), tables.UNIT_IN_EVERY_ROW())
        raise InputError((fault,))
    return cast(Unit, value)


def _near(name: str, header: Sequence[str]) -> str | None:
    """The column that may be meant by a name that is none: one that is not there. What tells of
    joints is also known by its first word."""
    left = [column for column in COLUMNS if column not in header]
    for column in left:
        if column in _OF_JOINTS and f"{column}_".startswith(f"{name}_"):
            return column
        if column in _OF_JOINTS and f"{name}_".startswith(f"{column}_"):
            return column
    return meant(name, left)


def _lost(row: _Row) -> Iterator[Fault]:
    """What a row says that would not be cut: joints without columns, and pieces without rows."""
    for column in NOT_CARRIED:
        said = row.get(column)
        if said and (column != "joints" or not any(row.get(name) for name in CARRIED)):
            columns = tuple(name for name in NOT_CARRIED[::-1] if row.get(name))
            hint = tables.PLAN_ITS_JOB(columns=columns)
            yield row.fault(column, tables.NOT_CARRIED(joints=said), hint)
            return
    for column in COUNTS:
        if row.get(column) not in ("", "1"):
            yield row.fault(column, tables.SEVERAL(column=column), tables.ROW_FOR_EACH())


def _wrong_mark(row: _Row, taken: dict[str, int]) -> Iterator[Fault]:
    mark = row.get("mark")
    if not _MARK.fullmatch(mark):
        yield row.fault("mark", tables.NO_MARK(), tables.MARK_LIKE())
    elif mark in taken:
        message = tables.MARK_TAKEN(mark=mark, line=taken[mark])
        yield row.fault("mark", message, tables.OWN_MARK())
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
                self._fault(name, tables.LACKS(column=name), tables.AS_SAWN())
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
            name=self._text("name"),
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
            depth, at = f"depth_{name}", name.upper()
            if end is not None and not figures[depth]:
                self._fault(depth, tables.NO_DEPTH(joint=end, end=at), tables.HOW_DEEP())
            elif end is None and figures[depth]:
                hint = tables.JOINT_OR_NONE(column=f"end_{name}")
                self._fault(depth, tables.DEPTH_ALONE(end=at), hint)
        if any(ends) and not figures["slot"]:
            self._fault("slot", tables.NO_SLOT_WIDTH(), tables.A_THIRD())
        depths = (figures["depth_a"] or Fraction(0)) + (figures["depth_b"] or Fraction(0))
        if depths >= length:
            self._fault("length", tables.NOTHING_BETWEEN(), tables.CHECK_DEPTHS())
        most = Length(max(thickness - 2 * least, Fraction(0)), self.unit)
        for name, kind in (
            ("slot", tables.SLOT_TOO_WIDE),
            ("groove_width", tables.GROOVE_TOO_WIDE),
        ):
            wide = figures[name]
            if wide is not None and (thickness - wide) / 2 < least:
                message = kind(width=Length(wide, self.unit))
                self._fault(name, message, tables.AT_MOST_HERE(most=most))
        if bool(figures["groove_width"]) != bool(figures["groove_depth"]):
            if figures["groove_width"]:
                self._fault("groove_depth", tables.NO_GROOVE_DEPTH(), tables.GIVE_BOTH())
            else:
                self._fault("groove_width", tables.NO_GROOVE_WIDTH(), tables.GIVE_BOTH())
        room = width - (figures["groove_depth"] or Fraction(0))
        if room <= 0:
            self._fault("groove_depth", tables.GROOVE_TOO_DEEP(), tables.MAKE_IT_LESS())
        tenon = figures["tenon_width"]
        if tenon is not None and not 0 < tenon <= room:
            hint = tables.TENON_AT_MOST(most=Length(room, self.unit))
            self._fault("tenon_width", tables.TENON_TOO_WIDE(), hint)

    def _end(self, column: str) -> End | None:
        value = self.row.get(column).lower()
        if value not in ("", "slot", "tenon"):
            self._fault(column, tables.NO_END(column=column), tables.WRITE_END())
            return None
        return cast("End | None", value or None)

    def _inside(self) -> Side | None:
        value = self.row.get("inside").lower()
        if value not in ("", "left", "right"):
            self._fault("inside", tables.NO_SIDE(), tables.WRITE_SIDE())
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
            if _DATE.fullmatch(written):
                fault = self.row.fault(column, tables.MADE_A_DATE(column=column), tables.AS_TEXT())
            self.faults.append(fault)
            return None

    def _text(self, column: str) -> str:
        value = self.row.get(column)
        if not value.isprintable() or len(value) > _LONGEST_NAME:
            hint = tables.ONE_LINE(most=_LONGEST_NAME)
            self._fault(column, tables.NOT_PRINTABLE(column=column), hint)
        return value

    def _fault(self, column: str, message: Fact, hint: Fact) -> None:
        self.faults.append(self.row.fault(column, message, hint))


_LENGTHS = (
    "length", "width", "thickness", "depth_a", "depth_b", "slot", "tenon_width", "groove_width",
    "groove_depth",
)  # fmt: skip
