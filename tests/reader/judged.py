"""What came of following paper or page, held against what the job wants of each piece."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from sequencer.plan import Feature, Part, Plan
from tests.reader.front import gap
from tests.reader.sawing import Followed
from tests.reader.told import Document
from tests.reader.wood import AXES, Slab, difference

ANALYTIC = ("mitre", "bevel")
"""Kinds of features that are no boxes and are compared by the line that is kept."""


def faults(part: Part, found: Followed, face: str, near: Fraction) -> Iterator[str]:
    """How a piece as sawn is not the part that is wanted; `face` is where its marked face looks."""
    wood = found.wood.get(part.mark)
    if wood is None:
        yield f"{part.mark}: never cut"
        return
    made = ", ".join(str(n) for n in dict.fromkeys(slab.setup for slab in wood.slabs))
    by = f" (strip {wood.strip}, setups {made})"
    wanted = (part.size.length, part.size.width, part.size.thickness)
    for name, is_now, due in zip(("long", "wide", "thick"), wood.size(), wanted, strict=True):
        if abs(is_now - due) > 2 * near:
            yield f"{part.mark}: {float(is_now):g} {name}, wanted {float(due):g}{by}"
            return
    plain = [slab.box(wanted, face) for slab in wood.slabs if slab.plain]
    boxes = [f.box for f in part.features if _plain(f)]
    apart = [f.box for f in part.features if not _plain(f)]
    said, place, _ = difference(wanted, plain, boxes, apart, 2 * near)
    if said:
        yield f"{part.mark}: {said} {place}{by}"
    leaning = [slab for slab in wood.slabs if not slab.plain]
    features = [f for f in part.features if f.kind in ANALYTIC and not f.unproven_by_saw]
    yield from _slanting(part, leaning, features, face, near)


def _plain(feature: Feature) -> bool:
    return feature.prism is None and not feature.unproven_by_saw


def _slanting(
    part: Part, slabs: list[Slab], features: list[Feature], face: str, near: Fraction
) -> Iterator[str]:
    """The line that each leaning or slanted pass keeps is an edge of a feature's prism, and each
    feature has its pass."""
    size = (part.size.length, part.size.width, part.size.thickness)
    left = list(features)
    for slab in slabs:
        match = [f for f in left if _has(f, slab, size, face, near)]
        if not match:
            yield f"{part.mark}: setup {slab.setup}, step {slab.step} keeps a line nobody wants"
            continue
        left.remove(match[0])
    for feature in left:
        yield f"{part.mark}: no pass makes its {feature.kind} at {feature.at}"


Point = dict[int, Fraction]
"""Where it lies by axis: along 0, across 1, through 2."""


def _line(slab: Slab, size: tuple[Fraction, ...], face: str) -> tuple[Point, Point]:
    """The two ends of the line that a leaning or slanted pass keeps."""
    lies = slab.lies

    def at(side: str, distance: Fraction) -> Point:
        axis, far = AXES[side]
        if axis == 2 and face == "in":
            far = not far
        return {axis: size[axis] - distance if far else distance}

    if lies.slanted:
        low, high = (
            at("outside", across) | at(lies.against, slab.guide + across)
            for across in (Fraction(0), size[1])
        )
    else:
        low, high = (
            at(lies.down, up) | at(lies.against, slab.guide + slab.lean * up)
            for up in (Fraction(0), slab.depth)
        )
    return low, high


def _has(
    feature: Feature, slab: Slab, size: tuple[Fraction, ...], face: str, near: Fraction
) -> bool:
    """Whether the pass keeps the feature's line, and of a mitre goes as deep."""
    prism = feature.prism
    if prism is None:
        return False
    axes = ["xyz".index(axis) for axis in prism.axes]
    for point in _line(slab, size, face):
        if set(point) != set(axes):
            return False
        corners = (
            all(abs(corner[n] - point[axis]) <= 3 * near for n, axis in enumerate(axes))
            for corner in prism.corners
        )
        if not any(corners):
            return False
    if not slab.lies.slanted:
        return True
    span = slab.box((size[0], size[1], size[2]), face)[2]
    return all(abs(a - b) <= 2 * near for a, b in zip(span, feature.box[2], strict=True))


def strips(document: Document, found: Followed, near: Fraction) -> Iterator[str]:
    """The list of strips is what is crosscut: the same pieces in the same order, with their sizes,
    the same way round."""
    for mark, strip in document.strips.items():
        off = found.off.get(mark, [])
        laid = [piece for piece, _ in strip.pieces]
        if off != laid:
            yield f"strip {mark}: {', '.join(laid)} are laid out, {', '.join(off)} come off"
        if set(strip.listed) != set(laid) and laid:
            yield f"strip {mark}: the first page lists {', '.join(strip.listed)}"
        wood = found.wood.get(mark)
        on_boards = document.glued.get(mark)
        if on_boards and len(on_boards) != strip.boards:
            yield f"strip {mark}: {len(on_boards)} boards in the layout, laid out of {strip.boards}"
        if strip.laid_size is None or wood is None:
            yield f"strip {mark}: never laid out, or never sawn"
            continue
        for width in (strip.ripped, strip.laid_size[1]):
            if wood.width is None or abs(wood.width - width) > 2 * near:
                yield f"strip {mark}: {float(width):g} wide, ripped to {wood.width}"
        if abs(strip.laid_size[2] - (wood.thickness or 0)) > 2 * near:
            yield f"strip {mark}: {float(strip.laid_size[2]):g} thick, milled to {wood.thickness}"
        for piece, long in strip.pieces:
            cut = found.wood.get(piece)
            if cut is None or cut.length is None:
                continue
            if long is not None and abs(cut.length - long) > 2 * near:
                yield f"{piece}: {float(long):g} in the list of strips, cut {float(cut.length):g}"
            turned = piece in strip.turned or (piece in strip.either and cut.at_stop == "B")
            if (cut.at_stop == "B") != turned:
                yield f"{piece}: end {cut.at_stop} at the stop, and not so in the list of strips"


def document(document: Document, plan: Plan, near: Fraction) -> Iterator[str]:
    """The tables of parts and doors, held against the job's doors and pieces."""
    for part in plan.parts:
        row = document.parts.get(part.mark)
        if row is None:
            yield f"{part.mark}: not among the parts"
            continue
        size = (part.size.length, part.size.width, part.size.thickness)
        if any(abs(told - due) > near for told, due in zip(row.size, size, strict=True)):
            yield f"{part.mark}: {[float(each) for each in row.size]} in the table of parts"
    for door in plan.doors:
        told = document.doors.get(door.mark)
        if told is None:
            yield f"door {door.mark}: not among the doors"
            continue
        if told.hinges != door.hinge:
            yield f"door {door.mark}: hinges {told.hinges}, wanted {door.hinge}"
        if told.face != door.face_side:
            yield f"door {door.mark}: face {told.face}, wanted {door.face_side}"
        for name, shown, due in (
            ("door", told.size, door.size),
            ("opening", told.opening, door.opening),
        ):
            if any(abs(a - b) > near for a, b in zip(shown, due, strict=True)):
                yield f"door {door.mark}: {name} {[float(each) for each in shown]}"
        gaps = gap(told.gaps)
        wanted = {_GAPS[side]: value for side, value in door.gaps.items()}
        if set(gaps) != set(wanted) or any(abs(gaps[s] - wanted[s]) > near for s in gaps):
            yield f"door {door.mark}: gaps {told.gaps}"


_GAPS = {
    "top": "top", "bottom": "bottom", "hinge": "hinge side", "lock": "closing side",
    "meeting": "meeting",
}  # fmt: skip
