"""What the lines under a detailed piece say it lacks, as boxes, held against the piece as wanted.

Bevels, mitres and what is shaped at the bench are drawn there, and told by figures that no box has:
these are not read.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from sequencer.plan import Part
from tests.reader.told import Document
from tests.reader.wood import Box, Size, Span, difference
from tests.reader.words import LENGTH, Unreadable, length, side

_L = f"({LENGTH})"
_WHERE = (
    r"(at both ends|at end [AB]|along both edges|along the inside edge|along the outside edge"
    r"|on the .*)"
)
_PLACE = rf"(centred|{LENGTH} from the marked face)"
_SLOT = re.compile(rf"slot {_L} wide, {_L} deep, {_PLACE} {_WHERE}")
_GROOVE = re.compile(rf"groove {_L} wide, {_L} deep, {_PLACE} {_WHERE}")
_TENON = re.compile(rf"(?:tenon {_L} long:|half-lap {_L} long,) {_L} off the ([\w ]+?) {_WHERE}")
_WIDTH = re.compile(rf"tenon cut to width: {_L} off the (inside edge), {_L} long {_WHERE}")
_REBATE = re.compile(rf"rebate {_L} wide, {_L} deep from the ([\w ]+?) {_WHERE}")
_HOUSING = re.compile(rf"housing {_L} deep, {_L} to {_L} from end A on the (.+)")
_TONGUE = re.compile(rf"tongue {_L} long, {_L} thick, {_PLACE} {_WHERE}")
_ELSE = re.compile(r"bevel|mitre|shaped|groove .* follows the shape|.*: ")


def faults(part: Part, document: Document, near: Fraction) -> Iterator[str]:
    """How the words under a piece tell another one."""
    told = document.lacking.get(part.mark)
    if told is None:
        return
    size = (part.size.length, part.size.width, part.size.thickness)
    face = document.face_of(part.mark)
    boxes: list[Box] = []
    unread = False
    try:
        for line in told.split("; "):
            found = list(_boxes(line, size, face))
            unread = unread or not found
            boxes += found
    except Unreadable as error:
        yield f"{part.mark}: {error}"
        return
    wanted = [f.box for f in part.features if f.prism is None and not f.unproven_by_saw]
    apart = [f.box for f in part.features if f.prism is not None or f.unproven_by_saw]
    said, place, _ = difference(size, boxes, wanted, apart, 2 * near)
    if said and not (unread and not apart):
        yield f"{part.mark}: its words tell {said} {place}"


def _boxes(line: str, size: Size, face: str) -> Iterator[Box]:
    """The boxes that one of the lines tells of; none of what is no box. Raises `Unreadable`."""
    long, wide, thick = ((Fraction(0), extent) for extent in size)
    if found := _SLOT.fullmatch(line):
        through = _through(found[3], length(found[1]), size[2], face)
        for span in _along(found[4], length(found[2]), size):
            yield (span, wide, through)
    elif found := _GROOVE.fullmatch(line):
        through = _through(found[3], length(found[1]), size[2], face)
        for span in _across(found[4], length(found[2]), size):
            yield (long, span, through)
    elif found := _TONGUE.fullmatch(line):
        low, high = _through(found[3], length(found[2]), size[2], face)
        for span in _across(found[4], length(found[1]), size):
            yield (long, span, (Fraction(0), low))
            yield (long, span, (high, size[2]))
    elif found := _TENON.fullmatch(line):
        through = _off(found[4], length(found[3]), size[2], face)
        for span in _along(found[5], length(found[1] or found[2]), size):
            yield (span, wide, through)
    elif found := _WIDTH.fullmatch(line):
        for span in _along(found[4], length(found[3]), size):
            yield (span, (Fraction(0), length(found[1])), thick)
    elif found := _REBATE.fullmatch(line):
        through = _off(found[3], length(found[2]), size[2], face)
        for span in _across(found[4], length(found[1]), size):
            yield (long, span, through)
    elif found := _HOUSING.fullmatch(line):
        for which in re.split(r" and on the ", found[4]):
            through = _off(which, length(found[1]), size[2], face)
            yield ((length(found[2]), length(found[3])), wide, through)
    elif not _ELSE.match(line):
        raise Unreadable(f"“{line}” tells nothing that a piece could lack")


def _through(place: str, width: Fraction, thickness: Fraction, face: str) -> Span:
    if place == "centred":
        low = (thickness - width) / 2
    else:
        low = length(place.removesuffix(" from the marked face"))
        if face == "in":
            low = thickness - low - width
    return (low, low + width)


def _off(which: str, depth: Fraction, thickness: Fraction, face: str) -> Span:
    """A depth from the face that is named."""
    shows = (side(which, face) == "marked") == (face == "out")
    return (Fraction(0), depth) if shows else (thickness - depth, thickness)


def _along(where: str, long: Fraction, size: Size) -> Iterator[Span]:
    if where in ("at both ends", "at end A"):
        yield (Fraction(0), long)
    if where in ("at both ends", "at end B"):
        yield (size[0] - long, size[0])


def _across(where: str, wide: Fraction, size: Size) -> Iterator[Span]:
    if where in ("along both edges", "along the inside edge"):
        yield (Fraction(0), wide)
    if where in ("along both edges", "along the outside edge"):
        yield (size[1] - wide, size[1])
