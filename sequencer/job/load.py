"""From the text of a job file to a `Job`: read, defaults filled in, leaves marked, all checked."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from fractions import Fraction
from pathlib import Path as FilePath
from pathlib import PurePath
from typing import Any, cast

from msgspec import Struct

from sequencer.errors import Fault, InputError, SurroundingsError
from sequencer.facts import Dialect, Fact, dialect_for, files
from sequencer.facts import doors as called
from sequencer.job import bars, climate, fills, marks, shaped, sits, validate
from sequencer.job.boards import read_rack
from sequencer.job.convert import in_unit
from sequencer.job.defaults import lengths
from sequencer.job.document import Path, read_document
from sequencer.job.free import FREE_KEYS, corners
from sequencer.job.hardware import HARDWARE, hardware_of, read_hardware
from sequencer.job.kept import NOTHING, Printed, doors_of
from sequencer.job.kinds import BAR_JOINTS, CORNER_JOINTS
from sequencer.job.misplaced import misplaced
from sequencer.job.opening import read_opening
from sequencer.job.play import with_play
from sequencer.job.ranges import dotted
from sequencer.job.reader import Reader
from sequencer.job.schema import (
    SEPARATOR,
    Door,
    FaceSide,
    Free,
    Gaps,
    Groove,
    Job,
    Joint,
    Opening,
    Panel,
    Place,
    Side,
    Tenons,
)
from sequencer.lengths import Unit
from sequencer.records import replace
from sequencer.trade.species import Sawn

MOST_LEAVES = 300
MOST_BYTES = 1_000_000

TABLES: Mapping[str, tuple[str, ...]] = {
    "stock": ("thickness", "edge_allowance"),
    "stiles": ("hinge", "lock", "meeting"),
    "rails": ("top", "bottom"),
    "groove": ("depth", "width", "offset"),
    "panel": ("thickness", "species", "play_side", "play_end", "engagement", "match"),
    "joint": ("kind", "bars", "slot", "offset", "clearance", "proud", "tenons"),
    "gaps": ("top", "bottom", "hinge", "lock", "meeting"),
    "sits": sits.SITS,
    "meeting": sits.MEETING,
    "shape": shaped.SHAPE,
    "hardware": HARDWARE,
    "wood": climate.WOOD,
    "room": climate.ROOM,
    **fills.TABLES,
}
"""Tables for the whole file, and again for a door, where they override it; a room as a whole."""

WORDS = ("species", "face_side", "fill")
DOOR = ("name", "mark", "count", "leaves", "hinge", "opening")
_TENONS = ("one length", "each stile")
_MATCH = ("book", "no")
_JOINT = {"kind": tuple(CORNER_JOINTS), "bars": tuple(BAR_JOINTS), "tenons": _TENONS}


class _Value(Struct, frozen=True):
    """What stands at a path; `content` is `None` where it is wrong."""

    content: Any
    path: Path


_Values = dict[str, _Value]


def read_text(path: str, absent: Fact | None = None) -> str:
    """The text of a file, without a byte order mark; `absent` says what to do where it is missing
    and nothing beside it has a name like it.

    Raises `InputError` where it is missing, too large or no UTF-8 text, `SurroundingsError` where
    it may not be read.
    """
    try:
        with FilePath(path).open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except FileNotFoundError:
        raise _unreadable(path, files.MISSING(), _near(path) or absent) from None
    except IsADirectoryError:
        raise _unreadable(path, files.FOLDER(), files.NAME_A_FILE()) from None
    except (OSError, ValueError) as error:
        reason = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
        raise SurroundingsError(files.UNREADABLE(file=path, reason=reason)) from None
    if path.lower().endswith(".ods") and len(data) <= MOST_BYTES:
        from sequencer.job.opendocument import as_text  # most jobs are no spreadsheets

        return as_text(data, path)
    if len(data) > MOST_BYTES:
        raise _unreadable(path, files.TOO_LARGE(), files.USUAL_SIZE())
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise _unreadable(path, files.UTF_16(), files.SAVE_AS_UTF_8())
    if b"\0" in data:
        raise _unreadable(path, files.NO_TEXT(), files.PLAIN_TEXT())
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        message = files.NO_UTF_8(byte=f"{data[error.start]:02x}", line=line)
        raise _unreadable(path, message, files.SAVE_AS_UTF_8()) from None


def _near(path: str) -> Fact | None:
    """A file beside it that may be meant."""
    from difflib import get_close_matches

    wanted = FilePath(path)
    try:
        there = sorted(wanted.parent.iterdir())
    except OSError:
        return files.NO_FOLDER(folder=str(wanted.parent))
    like = {each.stem: each for each in there if each.suffix == wanted.suffix}
    close = get_close_matches(wanted.stem, like, 1)
    return files.DID_YOU_MEAN(name=str(like[close[0]])) if close else None


def _unreadable(path: str, message: Fact, hint: Fact | None) -> InputError:
    return InputError((Fault(path, 0, 0, message, hint),))


def load_job(
    text: str,
    file: str,
    unit: Unit | None = None,
    taken: Collection[str] = (),
    printed: Printed = NOTHING,
) -> Job:
    """The job in `unit`, or in its own; `file` names it in messages; `taken` are the leaf marks
    of the jobs before it in a batch. What was `printed` keeps its marks.

    Raises `InputError` with every fault of the text.
    """
    document = read_document(text, file)
    reader = Reader(document)
    own = read_unit(reader)
    reader.read_sure()
    reader.known((), ("unit", "name", "sure", *WORDS, *TABLES, "bar", "door", "rough", "board"))
    name = reader.text(("name",)) or PurePath(file).stem
    shared = _values(reader, ())
    usual = bars.read_bars(reader, ()) or ()
    number = reader.tables(("door",))
    if not number and not reader.broken & {("door",)}:
        reader.fault(("door",), files.NO_DOOR(), files.WRITE_DOOR())
    doors: list[Door | None] = []
    counts: list[int] = []
    for index in range(min(number, MOST_LEAVES)):
        path: Path = ("door", index)
        counts.append(reader.count((*path, "count"), MOST_LEAVES) or 1)
        doors.append(_door(reader, path, shared, usual, own))
    given = marks.given(reader, len(doors), taken)
    rack = read_rack(reader, own, reader.text(("species",)) or "hardwood")
    leaves = sum(n * door.leaves for door, n in zip(doors, counts, strict=True) if door)
    if number > MOST_LEAVES or leaves > MOST_LEAVES:
        reader.fault((), files.TOO_MANY_DOORS(most=MOST_LEAVES), files.SPLIT_FILE())
    raise_faults(reader)
    made = [door for door in doors if door]
    had = printed.again(doors_of(text)) if printed.doors else [()] * len(made)
    marked = marks.marked(made, counts, given, had, taken, printed.taken)
    job = Job(name, file, cast(Unit, own), marked, rack)
    if unit is None or unit == job.unit:
        return job
    told = in_unit(job, job.unit, unit)
    # A play is a round figure of the unit that it is worked out in.
    return replace(told, doors=tuple(with_play(door, unit) for door in told.doors), unit=unit)


def read_unit(reader: Reader) -> Unit | None:
    """The file's unit; the reader reads its bare lengths in it."""
    if not reader.has(("unit",)):
        reader.fault(("unit",), files.NO_UNIT(), files.WRITE_UNIT())
    own = cast("Unit | None", reader.choice(("unit",), ("in", "mm")))
    reader.unit = reader.document.unit
    return own


def raise_faults(reader: Reader, words: Dialect | None = None) -> None:
    """Raise what the reader found, in the order of the places, each once; for whoever reads
    `words`, or the words that go with the file's unit."""
    reader.ask_all()
    if reader.faults:
        unique = dict.fromkeys(reader.faults)
        told = sorted(unique, key=lambda f: (f.line, f.column, str(f.message)))
        if reader.full:
            file = reader.document.file
            told.append(Fault(file, 0, 0, files.MORE_MAY_FOLLOW(n=len(told))))
        known = reader.has(("unit",)) and ("unit",) not in reader.broken
        raise InputError(tuple(told), words or (dialect_for(reader.unit) if known else None))


def _values(reader: Reader, base: Path) -> _Values:
    """Everything that the file, or one door, states of dimensions and materials."""
    found: _Values = {}

    def keep(key: str, path: Path, content: Any) -> None:
        if reader.has(path):
            found[key] = _Value(content, path)

    keep("species", (*base, "species"), reader.species((*base, "species")))
    face_side = (*base, "face_side")
    keep("face_side", face_side, reader.choice(face_side, ("out", "in")))
    keep("fill", (*base, "fill"), reader.choice((*base, "fill"), fills.KINDS))
    for table, keys in TABLES.items():
        if not reader.table((*base, table)):
            continue
        reader.known((*base, table), keys)
        if table in fills.TABLES:
            keep(table, (*base, table), True)
        for key in keys:
            path = (*base, table, key)
            if key == "species":
                content: Any = reader.species(path)
            elif table == "joint" and key in _JOINT:
                content = reader.choice(path, _JOINT[key])
            elif (table, key) == ("panel", "match"):
                content = reader.choice(path, _MATCH)
            elif table in ("wood", "room"):
                content = climate.read_climate(reader, path)
            elif table in fills.TABLES:
                content = fills.read(reader, path)
            elif table == "gaps":
                content = _gap(reader, path)
            elif table in ("sits", "meeting"):
                content = sits.read_sits(reader, path)
            elif table == "hardware":
                content = read_hardware(reader, path)
            elif table == "shape":
                content = shaped.read_shape(reader, path)
            else:
                ranged = f"{table}.{key}" in FREE_KEYS and SEPARATOR in str(
                    reader.document.get(path)
                )
                content = reader.span(path) if ranged else reader.length(path)
            keep(f"{table}.{key}", path, content)
    return found


def _bare(values: _Values) -> fills.Stated:
    return {key: (value.content, value.path) for key, value in values.items()}


def _gap(reader: Reader, path: Path) -> Fraction | None:
    written = reader.document.get(path)
    if isinstance(written, str) and written.lstrip().startswith(("-", "−")):
        reader.fault(path, files.NEGATIVE_GAP(), files.WRITE_AIR())
        return None
    return reader.length(path)


def _door(
    reader: Reader,
    base: Path,
    shared: _Values,
    usual: Sequence[bars.Written],
    unit: Unit | None,
) -> Door | None:
    """The door at `base`, not yet marked; `None` where something that it needs is wrong. It has the
    `usual` bars unless it says which."""
    before = len(reader.faults)
    reader.known(base, (*DOOR, *WORDS, *TABLES, "bar"))
    known = reader.text((*base, "name"))
    name = called.OWN_NAME(name=known) if known else called.NUMBERED(n=int(base[-1]) + 1)
    leaves = reader.count((*base, "leaves"), 2) or 1
    hinge = reader.choice((*base, "hinge"), ("left", "right"))
    opening = read_opening(reader, base)
    own = _values(reader, base)
    usual_here = {dotted(path) for path in reader.defaults if path[:2] == base}
    shared = {key: value for key, value in shared.items() if key not in usual_here}
    misplaced(reader, base, _bare(own), leaves)
    kind = fills.kind_of(reader, _bare(own), _bare(shared))
    values = {**shared, **own}
    if any(key.startswith("room.") for key in own):
        # A room is described as a whole: of the file's, nothing is left.
        values = {k: v for k, v in values.items() if not k.startswith("room.") or k in own}
    year = climate.year_of(reader, _bare(values))
    stated = bars.read_bars(reader, base)
    # A file's bars say nothing of a door without a frame.
    divided = stated if stated is not None else () if kind == "slab" else usual
    shape = shaped.shape_of(reader, _bare(own if kind == "slab" else values))
    laps = sits.laps(reader, _bare(shared), _bare(own), leaves, lengths(unit or "in"))
    if "stock.thickness" not in values:
        text = f'thickness = "{"3/4" if reader.unit == "in" else "19"}"'
        hint = files.WRITE_UNDER(text=text, table="[stock]")
        reader.fault(("stock", "thickness"), files.NO_THICKNESS(), hint)
    # What the file says wrongly was told with its first door.
    wrong = (
        any(value.content is None or value.path in reader.broken for value in values.values())
        or "stock.thickness" not in values
    )
    if wrong or opening is None or unit is None or kind is None or len(reader.faults) > before:
        return None
    places = {key: reader.document.place(value.path) for key, value in values.items()}
    for key in ("width", "height"):
        places[f"opening.{key}"] = reader.document.place((*base, "opening", key))
    places["door"] = reader.document.place(base)
    for key, path in bars.places_of(divided).items():
        places[key] = reader.document.place(path)
    contents = {key: value.content for key, value in values.items()}
    contents |= {key: gap for key, (gap, _) in laps.items()}
    ranges = {key: content for key, content in contents.items() if isinstance(content, tuple)}
    contents |= {key: ends[0] for key, ends in ranges.items()}
    made = fills.filling(kind, contents, lengths(unit))
    if kind == "raised":
        contents.setdefault("panel.thickness", fills.usual_field(contents["stock.thickness"], unit))
    door = _filled(
        contents, lengths(unit), name, leaves, cast(Side, hinge or "left"), opening, places
    )
    # A file's stile for singles says nothing of a pair, and the other way round.
    idle = "stiles.lock" if leaves == 2 else "stiles.meeting"
    meant = fills.without_frame(kind, [key for key in ranges if key != idle])
    free = tuple(Free(key, *ranges[key]) for key in meant)
    door = replace(door, free=free, year=year, fill=made.fill, slab=made.slab, shape=shape)
    door = with_play(replace(door, bars=tuple(bar.made(door.top_rail) for bar in divided)), unit)
    for corner in corners(door):
        reader.faults += validate.check(with_play(corner, unit), unit)
    return door


def _filled(
    stated: Mapping[str, Any],
    default: Mapping[str, Fraction],
    name: Fact,
    leaves: int,
    hinge: Side,
    opening: Opening,
    places: Mapping[str, Place],
) -> Door:
    """Defaults under what is stated. A free stile falls back to the hinge stile, the bottom rail
    to the top rail, the panel's species to the door's."""

    def value(key: str) -> Any:
        return stated[key] if key in stated else default.get(key)

    pair = leaves == 2
    species = stated.get("species", "hardwood")
    top_rail = value("rails.top")
    hinge_stile = value("stiles.hinge")
    header = places["door"]
    return Door(
        name=name,
        marks=("",) * leaves,
        where=f"{header.file}:{header.line}",
        opening=opening,
        gaps=Gaps(
            top=value("gaps.top"),
            bottom=value("gaps.bottom"),
            hinge=value("gaps.hinge"),
            lock=value("gaps.lock"),
            meeting=value("gaps.meeting") if pair else None,
        ),
        hinge=hinge,
        thickness=value("stock.thickness"),
        edge_allowance=value("stock.edge_allowance"),
        species=species,
        hinge_stile=hinge_stile,
        free_stile=stated.get("stiles.meeting" if pair else "stiles.lock", hinge_stile),
        top_rail=top_rail,
        bottom_rail=stated.get("rails.bottom", top_rail),
        face_side=cast(FaceSide, stated.get("face_side", "out")),
        joint=Joint(
            slot=value("joint.slot"),
            offset=value("joint.offset"),
            clearance=value("joint.clearance"),
            proud=value("joint.proud"),
            tenons=cast(Tenons, stated.get("joint.tenons", _TENONS[0])),
            kind=stated.get("joint.kind", "bridle"),
            bars=stated.get("joint.bars", "stub tenon"),
        ),
        groove=Groove(value("groove.depth"), value("groove.width"), value("groove.offset")),
        panel=Panel(
            thickness=value("panel.thickness"),
            play_side=value("panel.play_side"),
            play_end=value("panel.play_end"),
            species=stated.get("panel.species", species),
            engagement=value("panel.engagement"),
            match=pair and stated.get("panel.match") == "book",
        ),
        places=places,
        sawn=cast(Sawn, stated.get("wood.sawn", "flat")),
        hardware=hardware_of(stated),
        meeting_rebate=stated.get("meeting.rebate", Fraction(0)) if pair else Fraction(0),
    )
