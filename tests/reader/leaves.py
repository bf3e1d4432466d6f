"""The leaves that come of it: each piece of its hand and in its place, the whole as large as the
opening less its gaps."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from tests.reader.sawing import Followed
from tests.reader.told import Document, DoorRow
from tests.reader.words import LENGTH, MARK, length

_OFF = re.compile(rf"({LENGTH}) off ((?:both ends|end A|end B) of [^.]+)\.(?: |$)")
_STILES = ("hinge stile", "closing stile", "meeting stile")


def faults(document: Document, found: Followed, near: Fraction) -> Iterator[str]:
    """What of the doors does not come out as the first pages say."""
    yield from _finished(document)
    off = _ends_off(document)
    for door in document.doors.values():
        names = {
            row.name: mark
            for mark, row in document.parts.items()
            if mark.rstrip("0123456789") == door.mark and mark in found.wood
        }
        if "top rail" not in names or "hinge stile" not in names:
            continue
        yield from _hands(door, names, found)
        yield from _size(door, names, found, off, near)


def _finished(document: Document) -> Iterator[str]:
    """What fills lights is finished with its leaf, each panel and each board of it."""
    steps = [step for step in document.bench if "finish" in step.title]
    done = {mark for step in steps for mark in step.marks}
    for mark, row in document.parts.items():
        fills = row.name.split()[0] in ("panel", "board", "slab")
        if fills and mark not in done:
            where = ", ".join(f"step {step.number}" for step in steps)
            yield f"{where}: {mark} is left without finish"


def _hands(door: DoorRow, names: dict[str, str], found: Followed) -> Iterator[str]:
    """End A is the top of stiles and the left end of rails, the inside edge looks into the door. So
    with the inside edge toward one, seen on the marked face, the end A of a right stile and of the
    top rail is where strips are squared, and that of the others is not. Where the marked face
    looks in, strips lie mirrored, and so do pieces."""
    for name, mark in names.items():
        if name in _STILES:
            hinge = name == "hinge stile"
            left = (door.hinges == "left") == hinge
        elif name in ("top rail", "bottom rail"):
            left = name == "bottom rail"
        else:
            continue
        wanted = "B" if left else "A"
        if found.wood[mark].at_stop != wanted:
            yield f"{mark}: off its strip the wrong way round for a {name} of door {door.mark}"


def _size(
    door: DoorRow, names: dict[str, str], found: Followed, off: dict[str, Fraction], near: Fraction
) -> Iterator[str]:
    stiles = [names[name] for name in _STILES if name in names]
    for mark in stiles:
        high = found.wood[mark].size()[0] - off.get(mark, Fraction(0))
        if abs(high - door.size[1]) > 3 * near:
            yield f"{mark}: {float(high):g} once planed, and door {door.mark} is not as high"
    wide = sum((found.wood[mark].size()[1] for mark in stiles), Fraction(0))
    for name in ("top rail", "bottom rail"):
        rail = found.wood[names[name]] if name in names else None
        if rail is None:
            continue
        long = rail.size()[0] - off.get(rail.mark, Fraction(0))
        shoulders: dict[str, Fraction] = {}
        for slab in rail.slabs:
            end = slab.lies.against
            if end in ("A", "B") and slab.lies.down in ("marked", "other"):
                shoulders[end] = min(slab.high, shoulders.get(end, slab.high))
        between = rail.size()[0] - sum(shoulders.values(), Fraction(0))
        if min(abs(long - door.size[0]), abs(wide + between - door.size[0])) > 4 * near:
            yield f"{rail.mark}: door {door.mark} does not come out {float(door.size[0]):g} wide"


def _ends_off(document: Document) -> dict[str, Fraction]:
    """How much comes off both ends of each piece at the bench."""
    taken: dict[str, Fraction] = {}
    for step in document.bench:
        for line in step.lines:
            for found in _OFF.finditer(line):
                for part in found[2].split("; "):
                    times = 2 if part.startswith("both") else 1
                    for mark in re.findall(MARK, part):
                        by = times * length(found[1])
                        taken[mark] = taken.get(mark, Fraction(0)) + by
    return taken
