"""What stands in a door's frame, or that it has none, as a job file says it.

A table of a kind's own says which kind it is: `[raised]`, `[boarded]`, `[glass]` or `[slab]`; so
does the word `fill`, which a door needs only where the file's tables say something else.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import Any

from msgspec import Struct

from sequencer.facts import Fact, doors, fills
from sequencer.job.document import Path
from sequencer.job.kinds import Boarded, Fill, Glazed, Raised, Slab
from sequencer.job.reader import Reader
from sequencer.lengths import Unit

TABLES: Mapping[str, tuple[str, ...]] = {
    "raised": ("bevel", "step"),
    "boarded": ("width", "tongue"),
    "glass": ("thickness", "under"),
    "slab": ("boards",),
}
KINDS = ("flat", *TABLES)
MOST_BOARDS = 40

_NAMES = {
    "flat": "a-flat-panel",
    "raised": "a-raised-panel",
    "boarded": "boards",
    "glass": "glass",
    "slab": "a-slab",
}
_FRAME = ("stiles", "rails", "groove", "panel", "joint")
_IDLE: Mapping[str, tuple[tuple[str, ...], Fact]] = {
    "glass": (("panel", "groove.width", "groove.offset"), fills.PANE_IN_REBATE()),
    "boarded": (("panel.play_side",), fills.BOARDS_HAVE_GAPS()),
    "slab": (_FRAME, fills.SLAB_HAS_NO_FRAME()),
}
"""Keys that say nothing where a door is of that kind, and what to write instead."""

Stated = Mapping[str, tuple[Any, Path]]
"""Content and path by dotted key."""


class Filling(Struct, frozen=True):
    fill: Fill | None = None
    slab: Slab | None = None


def read(reader: Reader, path: Path) -> Any:
    """The value of one key of these tables."""
    if path[-1] == "boards":
        return reader.count(path, MOST_BOARDS)
    return reader.length(path)


def kind_of(reader: Reader, own: Stated, shared: Stated) -> str | None:
    """The kind of a door that states `own`, in a file that states `shared`. What contradicts itself
    is told, and `None` returned."""
    for level in (own, shared):
        tables = [table for table in TABLES if table in level]
        word = level["fill"][0] if "fill" in level else None
        if word is not None and level is own:
            others = [table for table in tables if table != word]
            if others:
                path = level[others[0]][1]
                message = fills.WORD_AND_TABLE(word=word, table=others[0])
                reader.fault(path, message, doors.LEAVE_ONE_OUT(), key=True)
                return None
        if word is None and len(tables) > 1:
            first, second = tables[:2]
            message = fills.TWO_AT_ONCE(first=_NAMES[first], second=_NAMES[second])
            hint = fills.KEEP_ONE_OR_WRITE(first=first, second=second)
            reader.fault(level[second][1], message, hint, key=True)
            return None
        kind = word or (tables[0] if tables else None)
        if kind is not None:
            return None if _idle(reader, kind, level) else str(kind)
    return "flat"


def _idle(reader: Reader, kind: str, level: Stated) -> bool:
    """Whether the table or word of a kind stands beside keys that mean nothing to it."""
    if kind not in _IDLE:
        return False
    keys, hint = _IDLE[kind]
    # Of a whole file only what stands there for doors of this one kind is said in vain.
    if "fill" in level and kind not in level:
        return False
    for key, (_, path) in level.items():
        if key in keys or key.partition(".")[0] in keys:
            reader.fault(path, fills.KEY_IDLE(key=key, fill=_NAMES[kind]), hint, key=True)
            return True
    return False


def filling(kind: str, contents: Mapping[str, Any], default: Mapping[str, Fraction]) -> Filling:
    """The kind with its sizes, defaults under what is stated."""

    def value(key: str) -> Any:
        return contents[key] if key in contents else default.get(key)

    match kind:
        case "raised":
            return Filling(Raised(value("raised.bevel"), value("raised.step")))
        case "boarded":
            return Filling(Boarded(value("boarded.width"), contents.get("boarded.tongue")))
        case "glass":
            return Filling(Glazed(value("glass.thickness"), value("glass.under")))
        case "slab":
            return Filling(slab=Slab(contents.get("slab.boards")))
    return Filling()


def usual_field(stock: Fraction, unit: Unit) -> Fraction:
    """How thick a raised panel's field is, where the job does not say: flush with the frame whose
    groove is a third, rounded down."""
    step = Fraction(1, 16) if unit == "in" else Fraction(1)
    return stock * 2 / 3 // step * step


def without_frame(kind: str, keys: Sequence[str]) -> list[str]:
    """Of the ranges that a door states, those that mean something for its kind."""
    return [key for key in keys if kind != "slab" or key.partition(".")[0] not in _FRAME]
