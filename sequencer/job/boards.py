"""The boards of a job file, read: `[[board]]` and `[rough]`."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from sequencer.facts import Length, files, racks
from sequencer.job.defaults import lengths
from sequencer.job.document import Path
from sequencer.job.rack import Board, Rack
from sequencer.job.reader import Reader
from sequencer.lengths import Unit

BOARD = ("mark", "species", "thickness", "length", "width", "count", "planed", "trim", "edge")
ROUGH = ("allowance", "trim", "edge", "milling", "kerf")

USUAL_ALLOWANCE = 20
MOST_ALLOWANCE = 200
MOST_BOARDS = 100
_LONGEST_MARK = 12
_SIZES = ("thickness", "length", "width")


def read_rack(reader: Reader, unit: Unit | None, species: str) -> Rack:
    """The boards in file order, equal ones repeated; a board is of the file's `species` unless it
    says otherwise. What is wrong is kept by the reader."""
    facts = lengths(unit or "in")
    rough = {key: facts[f"rough.{key}"] for key in ROUGH if key != "allowance"}
    allowance = USUAL_ALLOWANCE
    if reader.table(("rough",)):
        reader.known(("rough",), ROUGH)
        allowance = _allowance(reader)
        for key, usual in list(rough.items()):
            stated = _bounded(reader, ("rough", key), f"most_{key}", facts)
            rough[key] = usual if stated is None else stated
    boards: list[Board] = []
    taken: dict[str, int] = {}
    for index in range(min(reader.tables(("board",)), MOST_BOARDS + 1)):
        made = _board(reader, index, rough, facts, species)
        count = reader.count(("board", index, "count"), MOST_BOARDS) or 1
        if made is None:
            continue
        given = made.mark or f"board {index + 1}"
        if given in taken:
            hint = racks.FIRST_MARKED(mark=given, number=taken[given] + 1)
            reader.fault(("board", index, "mark"), racks.MARKED_TWICE(mark=given), hint)
        taken.setdefault(given, index)
        if len(boards) + count > MOST_BOARDS:
            message = racks.TOO_MANY(most=MOST_BOARDS)
            reader.fault(("board", index), message, racks.ONLY_THOSE())
            break
        for number in range(1, count + 1):
            mark = f"{given} no. {number}" if count > 1 else given
            boards.append(_marked(made, mark))
    return Rack(tuple(boards), allowance, rough["milling"], rough["kerf"])


def _marked(board: Board, mark: str) -> Board:
    return Board(
        mark, board.species, board.length, board.width, board.thickness, board.planed, board.trim,
        board.edge,
    )  # fmt: skip


def _allowance(reader: Reader) -> int:
    path: Path = ("rough", "allowance")
    percent = files.PERCENT(most=MOST_ALLOWANCE)
    value = reader.number(path, percent)
    if value is None:
        return USUAL_ALLOWANCE
    if value.denominator != 1 or value > MOST_ALLOWANCE:
        message = files.NOT_WANTED(key="allowance", wanted=percent)
        reader.fault(path, message, files.WRITE(text=f"allowance = {USUAL_ALLOWANCE}"))
        return USUAL_ALLOWANCE
    return int(value)


def _bounded(
    reader: Reader, path: Path, limit: str, facts: Mapping[str, Fraction]
) -> Fraction | None:
    """A length up to a limit of `defaults.toml`."""
    value = reader.length(path)
    most = facts[f"limits.{limit}"]
    if value is None or value <= most:
        return value
    unit = reader.unit
    message = racks.OVER(key=str(path[-1]), value=Length(value, unit), most=Length(most, unit))
    reader.fault(path, message, (racks.BARE_INCHES if unit == "in" else racks.BARE_MILLIMETRES)())
    return None


def _board(
    reader: Reader,
    index: int,
    rough: Mapping[str, Fraction],
    facts: Mapping[str, Fraction],
    species: str,
) -> Board | None:
    base: Path = ("board", index)
    before = len(reader.faults)
    reader.known(base, BOARD)
    mark = reader.text((*base, "mark"))
    if mark is not None and len(mark) > _LONGEST_MARK:
        reader.fault((*base, "mark"), racks.LONG_MARK(most=_LONGEST_MARK), racks.CHALK_IT())
    wood = reader.species((*base, "species")) or species
    sizes: dict[str, Fraction | None] = {}
    for key in _SIZES:
        if not reader.has((*base, key)):
            hint = racks.AS_MEASURED(text=f'{key} = "…"')
            reader.fault((*base, key), racks.LACKS(key=key), hint)
        sizes[key] = _bounded(reader, (*base, key), f"most_board_{key}", facts)
        if sizes[key] == 0:
            reader.fault((*base, key), racks.NO_SIZE(key=key), racks.MEASURE_IT())
    off = {
        key: _bounded(reader, (*base, key), f"most_{key}", facts) if reader.has((*base, key))
        else rough[key]
        for key in ("trim", "edge")
    }  # fmt: skip
    planed = reader.flag((*base, "planed")) or False
    length, width, thickness = sizes["length"], sizes["width"], sizes["thickness"]
    trim, edge = off["trim"], off["edge"]
    if None in (length, width, thickness, trim, edge) or len(reader.faults) > before:
        return None
    assert length is not None
    assert width is not None
    assert thickness is not None
    assert trim is not None
    assert edge is not None
    for key, size, gone, kind in (
        ("length", length, 2 * trim, racks.ENDS_LEAVE_NOTHING),
        ("width", width, edge, racks.EDGE_LEAVES_NOTHING),
    ):
        if gone >= size:
            message = kind(gone=Length(gone, reader.unit))
            reader.fault((*base, key), message, racks.TRIM_LESS())
            return None
    return Board(mark or "", wood, length, width, thickness, planed, trim, edge)
