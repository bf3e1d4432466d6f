"""What a rule finds at the bench, by kind of measure: worked out from sizes and places alone."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from fractions import Fraction
from math import isqrt

from msgspec import Struct

from sequencer.facts import Length
from sequencer.plan import Checkpoint, Door, Measure, Step
from sequencer.proof.standing import (
    NONE,
    Standing,
    groove_depth,
    shaped_edge,
    shaped_groove,
)


class On(Struct, frozen=True):
    """What a check is made on: a mark, and the leaf it is or belongs to."""

    check: Checkpoint
    mark: str
    leaf: Standing | None
    step: Step

    @property
    def measure(self) -> Measure:
        return self.check.measure


def diagonal_of(leaf: Standing) -> str:
    if not leaf.framed:
        return "slab"
    return "inside" if shaped_edge(leaf, leaf.rails[1]) is None else "outside"


def meeting_side(door: Door) -> str:
    """A right leaf is rebated from behind, which the marks may be on."""
    if door.hinge == "left":
        return "face"
    return "marked" if door.face_side == "in" else "back"


def is_arch(leaf: Standing) -> bool:
    """Whether the top rail's edge is highest between its ends."""
    edge = shaped_edge(leaf, leaf.rails[1])
    return edge is not None and not any(edge.depth(at) for at in edge.at("either"))


Found = Iterator[Fraction]


def _frame(on: On) -> Standing | None:
    return on.leaf if on.leaf is not None and on.leaf.framed else None


def _opening_width(on: On) -> Found:
    if leaf := _frame(on):
        yield leaf.sight[0]


def _opening_height(on: On) -> Found:
    leaf = _frame(on)
    if leaf is None:
        return
    height, edge = leaf.sight[1], shaped_edge(leaf, leaf.rails[1])
    if edge is None or not on.measure.place:
        yield from () if edge is not None or on.measure.place else (height,)
        return
    place = "either" if on.measure.place == "stiles" else on.measure.place
    yield from (height + edge.depth(at) for at in edge.at(place, front=True))


def _light(axis: int) -> Callable[[On], Found]:
    def found(on: On) -> Found:
        leaf = _frame(on)
        lowest = on.measure.place == "lowest"
        lights = leaf.lights(min if lowest else max) if leaf is not None else []
        which = str(on.measure.which)
        if on.measure.what.value.startswith("each"):
            yield from (light[axis] for light in lights)
        elif which.isdigit() and 0 < int(which) <= len(lights):
            yield lights[int(which) - 1][axis]

    return found


def _diagonal(on: On) -> Found:
    """√(w² + h²), to a thousandth below."""
    leaf = on.leaf
    if leaf is None or on.measure.place != diagonal_of(leaf):
        return
    if on.measure.place == "slab":
        (slab,) = leaf.role("slab")
        width, height = slab.part.size.length, slab.part.size.width
    elif on.measure.place == "inside":
        width, height = leaf.sight
    else:
        left, right = leaf.stiles
        width, height = right.x[1] - left.x[0], left.part.size.length
    square = 10**6 * (width**2 + height**2)
    yield Fraction(isqrt(square.numerator // square.denominator), 1000)


def _nothing(_: On) -> Found:
    yield NONE


def _part_width(on: On) -> Found:
    for piece in on.leaf.pieces if on.leaf is not None else ():
        if piece.part.mark == on.mark and piece.role in ("panel", "slab"):
            yield piece.part.size.width


def _board_gap(on: On) -> Found:
    if on.leaf is not None:
        yield from on.leaf.board_gaps(on.check.marks)


def _pane(axis: int) -> Callable[[On], Found]:
    def found(on: On) -> Found:
        for pane in on.leaf.door.panes if on.leaf is not None else ():
            if pane.mark == on.mark == on.measure.which:
                yield pane.box[axis][1] - pane.box[axis][0]

    return found


def _gap(on: On) -> Found:
    gap = on.leaf.gap(on.measure.place) if on.leaf is not None else None
    if gap is not None:
        yield gap


def _lap(on: On) -> Found:
    yield from (-gap for gap in _gap(on))


def _meeting(axis: int) -> Callable[[On], Found]:
    """Of the meeting stile's rebate, which is open to the face that the measure names."""

    def found(on: On) -> Found:
        leaf = _frame(on)
        if leaf is None or on.measure.place != meeting_side(leaf.door):
            return
        stile = leaf.stiles[1 if leaf.door.hinge == "left" else 0]
        for removal in on.step.removes:
            if removal.mark == stile.part.mark:
                shown = removal.box[2][0] == 0
                if shown == (leaf.door.hinge == "left"):
                    yield removal.box[axis][1] - removal.box[axis][0]

    return found


def _shaped(on: On) -> Found:
    for piece in on.leaf.pieces if on.leaf is not None else ():
        edge = shaped_edge(on.leaf, piece) if on.leaf is not None else None
        if piece.part.mark != on.mark or edge is None:
            continue
        span = edge.across[1] - edge.across[0]
        match on.measure.what.value:
            case "span":
                yield span
            case "arch":
                rise = edge.depth(edge.at("middle")[0])
                yield (span**2 / 4 + rise**2) / (2 * rise)
            case _:
                which = on.measure.which
                off = which.value if isinstance(which, Length) else NONE
                yield from (edge.depth(at) for at in edge.at(on.measure.place, off))


def _groove(on: On) -> Found:
    leaf = _frame(on)
    if leaf is None:
        return
    for piece in leaf.pieces:
        groove = shaped_groove(piece) if piece.part.mark == on.mark else None
        if groove is None:
            continue
        low, high = groove.box[2]
        match on.measure.what.value:
            case "shaped-groove-place":
                yield low if leaf.door.face_side == "out" else piece.part.size.thickness - high
            case "shaped-groove-width":
                yield high - low
            case _:
                yield from filter(None, (groove_depth(leaf),))


def _panel_arch(on: On) -> Found:
    """About the rail's own centre: as much farther as the panel reaches into its groove."""
    leaf = _frame(on)
    edge = shaped_edge(leaf, leaf.rails[1]) if leaf is not None else None
    if leaf is None or edge is None:
        return
    span, rise = edge.across[1] - edge.across[0], edge.depth(edge.at("middle")[0])
    apex = leaf.rails[1].y[0] + rise
    for piece in leaf.pieces:
        if piece.part.mark == on.mark:
            yield (span**2 / 4 + rise**2) / (2 * rise) + piece.y[1] - apex


FOUND: Mapping[str, Callable[[On], Found]] = {
    "opening-width": _opening_width,
    "opening-height": _opening_height,
    "each-width": _light(0),
    "each-height": _light(1),
    "light-width": _light(0),
    "light-height": _light(1),
    "diagonals": _nothing,
    "diagonal": _diagonal,
    "panel-width": _part_width,
    "slab-width": _part_width,
    "board-gap": _board_gap,
    "meeting-width": _meeting(1),
    "meeting-depth": _meeting(2),
    "pane-width": _pane(0),
    "pane-height": _pane(1),
    "gap": _gap,
    "lap": _lap,
    "span": _shaped,
    "arch": _shaped,
    "edge-height": _shaped,
    "shaped-groove-place": _groove,
    "shaped-groove-width": _groove,
    "shaped-groove-depth": _groove,
    "panel-arch": _panel_arch,
    "panel-top": _shaped,
}
"""By the kinds' own ids; nothing is found where there is no such thing."""
