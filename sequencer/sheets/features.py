"""What a piece lacks, in figures: each feature in words with the numbers that it is cut to."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from sequencer.facts import Value
from sequencer.instructions.figures import Scale
from sequencer.instructions.words import SURFACES, from_marked, side_term
from sequencer.plan import Feature, Marked, Part, Prism, Size, Span
from sequencer.sheets.stock import lapped, tongued
from sequencer.wording import Room, lacks

_ENDS = ("A", "B")


Told = tuple[str, tuple[tuple[str, Value], ...]]
"""A marked text that lacks its place on the piece, and what fills the others."""


def feature_words(part: Part, scale: Scale, marked: Marked = "face") -> tuple[str, ...]:
    """A line for each feature; those that are alike at both ends or edges share one."""
    found: dict[Told, list[str]] = {}
    for feature in part.features:
        text, given = _figures(feature, part, scale, marked)
        told = (text, tuple(given.items()))
        found.setdefault(told, []).append(_at(feature, marked))
    return tuple(
        scale.room.text(text, **dict(given), where=_where(places, scale.room))
        for (text, given), places in found.items()
    )


def _at(feature: Feature, marked: Marked) -> str:
    """The term for the side that it is at."""
    if feature.at in _ENDS:
        return f"side.end-{feature.at}"
    return SURFACES[marked][feature.at]


def _where(sides: Sequence[str], room: Room) -> str:
    unique = list(dict.fromkeys(sides))
    ends, edges = ("side.end-A", "side.end-B"), ("side.inside-edge", "side.outside-edge")
    if unique == list(ends):
        return room.text(lacks.AT_BOTH_ENDS)
    if set(unique) == set(edges):
        return room.text(lacks.ALONG_BOTH_EDGES)
    if set(unique) == {*ends, *edges}:
        return room.text(lacks.ALL_ROUND)
    ways = {**dict.fromkeys(ends, lacks.AT), **dict.fromkeys(edges, lacks.ALONG)}
    return room.listed(
        [room.text(ways.get(side, lacks.ON), side=room.term(side)) for side in unique]
    )


def _figures(
    feature: Feature, part: Part, scale: Scale, marked: Marked
) -> tuple[str, dict[str, Value]]:
    """A feature's text, and its numbers without its place."""
    size, (x, y, z) = part.size, feature.box
    long, wide, deep = (scale.told(span[1] - span[0]) for span in feature.box)
    room = scale.room
    side = room.term(side_term(z, marked))
    match feature.kind:
        case "slot" | "cheek" if lapped(part, feature):
            return lacks.HALF_LAP, {"long": long, "deep": deep, "side": side}
        case "slot":
            place = _from_face(z, size, scale, marked)
            return lacks.SLOT, {"wide": deep, "deep": long, "place": place}
        case "cheek":
            return lacks.TENON, {"long": long, "deep": deep, "side": side}
        case "edge-cheek":
            edge = room.term("side.inside-edge" if y[0] <= 0 else "side.outside-edge")
            return lacks.TENON_WIDTH, {"wide": wide, "edge": edge, "long": long}
        case "groove":
            place = _from_face(z, size, scale, marked)
            return lacks.GROOVE, {"wide": deep, "deep": wide, "place": place}
        case "rebate" if tongued(part, feature):
            sides = [f.box[2] for f in part.features if (f.kind, f.at) == ("rebate", feature.at)]
            low, high = min(side[1] for side in sides), max(side[0] for side in sides)
            place = _from_face((low, high), size, scale, marked)
            thick = scale.told(high - low)
            return lacks.TONGUE, {"long": wide, "thick": thick, "place": place}
        case "rebate":
            return lacks.REBATE, {"wide": wide, "deep": deep, "side": side}
        case "housing":
            start, stop = scale.told(x[0]), scale.told(x[1])
            return lacks.HOUSING, {"deep": deep, "start": start, "stop": stop}
        case "mitre":
            return lacks.MITRE, {"deep": deep, "side": side, "long": long}
        case "bevel" if feature.prism is not None:
            return _bevel(feature.prism, size, scale)
    bench = feature.unproven_by_saw
    if feature.kind == "shape" and z != (Fraction(0), size.thickness):
        place = _from_face(z, size, scale, marked)
        text = lacks.FOLLOWS_AT_BENCH if bench else lacks.FOLLOWS_SHAPE
        return text, {"wide": deep, "place": place}
    if feature.kind == "shape":
        text = lacks.SHAPED_AT_BENCH if bench else lacks.SHAPED
        return text, {"deep": long if feature.at in _ENDS else wide}
    kind = room.term(f"lacks.{feature.kind}")
    return lacks.OTHER, {"kind": kind, "long": long, "wide": wide, "deep": deep}


def _from_face(z: Span, size: Size, scale: Scale, marked: Marked) -> str:
    if z[0] + z[1] == size.thickness:
        return scale.room.text(lacks.CENTRED)
    far = scale.told(from_marked(z, size.thickness, marked))
    return scale.room.text(lacks.FROM_MARKED, far=far)


def _bevel(prism: Prism, size: Size, scale: Scale) -> tuple[str, dict[str, Value]]:
    """Its width across the face, and what it leaves at the rim and takes at its inner end."""
    inward = [corner[0] for corner in prism.corners]
    width = max(inward) - min(inward)
    extent = size.length if prism.axes == "xz" else size.width
    rim = Fraction(0) if min(inward) <= 0 else extent
    depths = sorted(z for at, z in prism.corners if at == rim)
    inner = sorted(z for at, z in prism.corners if abs(at - rim) == width)
    left = size.thickness - (depths[-1] - depths[0]) if depths else size.thickness
    step = inner[-1] - inner[0] if inner else Fraction(0)
    given: dict[str, Value] = {"wide": scale.told(width), "left": scale.told(left)}
    if not step:
        return lacks.BEVEL, given
    return lacks.BEVEL_STEP, {**given, "step": scale.told(step)}
