"""What a piece lacks, in figures: each feature in words with the numbers that it is cut to."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from sequencer.plan import Feature, Marked, Part, Prism, Size, Span
from sequencer.sheets.figures import Scale
from sequencer.sheets.stock import lapped, tongued
from sequencer.sheets.words import SURFACES, from_marked, side_words

_EDGES = {"inside-edge": "inside edge", "outside-edge": "outside edge"}
_ENDS = ("A", "B")
_ALL_ROUND = [
    "along the inside edge",
    "along the outside edge",
    "at end A",
    "at end B",
]
MOST_MARKS = 17
"""Rows of one table; a finer curve is thinned to as many."""


def feature_words(part: Part, scale: Scale, marked: Marked = "face") -> tuple[str, ...]:
    """A line for each feature; those that are alike at both ends or edges share one."""
    found: dict[str, list[str]] = {}
    for feature in part.features:
        what = _figures(feature, part, scale, marked)
        found.setdefault(what, []).append(_where(feature, marked))
    return tuple(
        f"{what} {_listed([at for at in places if at])}".rstrip() for what, places in found.items()
    )


def _where(feature: Feature, marked: Marked) -> str:
    if feature.at in _ENDS:
        return f"at end {feature.at}"
    if feature.at in _EDGES:
        return f"along the {_EDGES[feature.at]}"
    return f"on the {SURFACES[marked].get(feature.at, feature.at)}"


def _listed(places: Sequence[str]) -> str:
    unique = list(dict.fromkeys(places))
    if unique == ["at end A", "at end B"]:
        return "at both ends"
    if sorted(unique) == ["along the inside edge", "along the outside edge"]:
        return "along both edges"
    if sorted(unique) == _ALL_ROUND:
        return "all round"
    return " and ".join(unique)


def _figures(feature: Feature, part: Part, scale: Scale, marked: Marked) -> str:
    """A feature's numbers without its place."""
    size, (x, y, z) = part.size, feature.box
    long, wide, deep = (span[1] - span[0] for span in feature.box)
    bench = " (at the bench)" if feature.unproven_by_saw else ""
    text = scale.text
    side = side_words(z, marked)
    match feature.kind:
        case "slot" | "cheek" if lapped(part, feature):
            return f"half-lap {text(long)} long, {text(deep)} off the {side}"
        case "slot":
            return (
                f"slot {text(deep)} wide, {text(long)} deep, {_from_face(z, size, scale, marked)}"
            )
        case "cheek":
            return f"tenon {text(long)} long: {text(deep)} off the {side}"
        case "edge-cheek":
            edge = "inside" if y[0] <= 0 else "outside"
            return f"tenon cut to width: {text(wide)} off the {edge} edge, {text(long)} long"
        case "groove":
            return (
                f"groove {text(deep)} wide, {text(wide)} deep, {_from_face(z, size, scale, marked)}"
            )
        case "rebate" if tongued(part, feature):
            sides = [f.box[2] for f in part.features if (f.kind, f.at) == ("rebate", feature.at)]
            low, high = min(side[1] for side in sides), max(side[0] for side in sides)
            place = _from_face((low, high), size, scale, marked)
            return f"tongue {text(wide)} long, {text(high - low)} thick, {place}"
        case "rebate":
            return f"rebate {text(wide)} wide, {text(deep)} deep from the {side}"
        case "housing":
            place = f"{text(x[0])} to {text(x[1])} from end A"
            return f"housing {text(deep)} deep, {place}"
        case "mitre":
            return (
                f"mitre 45°, {text(deep)} deep from the {side}, "
                f"{text(long)} long at the inside edge"
            )
        case "bevel" if feature.prism is not None:
            return _bevel(feature.prism, size, scale)
    if feature.kind == "shape" and z != (Fraction(0), size.thickness):
        place = _from_face(z, size, scale, marked)
        return f"groove {text(deep)} wide, {place}, follows the shape{bench}"
    if feature.kind == "shape":
        return f"shaped, {text(long if feature.at in _ENDS else wide)} at its deepest{bench}"
    return f"{feature.kind}: {text(long)} × {text(wide)} × {text(deep)}{bench}"


def _from_face(z: Span, size: Size, scale: Scale, marked: Marked) -> str:
    if z[0] + z[1] == size.thickness:
        return "centred"
    return f"{scale.text(from_marked(z, size.thickness, marked))} from the marked face"


def _bevel(prism: Prism, size: Size, scale: Scale) -> str:
    """Its width across the face, and what it leaves at the rim and takes at its inner end."""
    inward = [corner[0] for corner in prism.corners]
    width = max(inward) - min(inward)
    extent = size.length if prism.axes == "xz" else size.width
    rim = Fraction(0) if min(inward) <= 0 else extent
    depths = sorted(z for at, z in prism.corners if at == rim)
    inner = sorted(z for at, z in prism.corners if abs(at - rim) == width)
    left = size.thickness - (depths[-1] - depths[0]) if depths else size.thickness
    step = inner[-1] - inner[0] if inner else Fraction(0)
    said = f"bevel {scale.text(width)} wide, {scale.text(left)} left at the rim"
    return f"{said}, step {scale.text(step)} at the field" if step else said


def ordinates(
    prisms: Sequence[Prism], size: Size, scale: Scale
) -> tuple[tuple[str, str, str], tuple[tuple[str, str, str], ...]]:
    """The marks to lay out what is shaped off a piece's edge or end: what the columns are measured
    from, and a row a mark, from both ends (of what is shaped at an end, from both edges). Of a
    fine curve every so many, the last kept."""
    corners = [corner for prism in prisms for corner in prism.corners]
    spans = [max(c[axis] for c in corners) - min(c[axis] for c in corners) for axis in (0, 1)]
    at_end = spans[0] < spans[1]
    along, across = (1, 0) if at_end else (0, 1)
    extent = size.width if at_end else size.length
    whole = size.length if at_end else size.width
    far = min(corner[across] for corner in corners) > 0
    deepest: dict[Fraction, Fraction] = {}
    for corner in corners:
        depth = whole - corner[across] if far else corner[across]
        deepest[corner[along]] = max(depth, deepest.get(corner[along], Fraction(0)))
    marks = sorted(deepest.items())
    step = max(1, -(-(len(marks) - 1) // (MOST_MARKS - 1)))
    chosen = marks[::step]
    if chosen[-1] != marks[-1]:
        chosen.append(marks[-1])
    if at_end:
        columns = ("from the inside edge", "from the outside edge", f"in from end {'AB'[far]}")
    else:
        edge = "outside" if far else "inside"
        columns = ("from end A", "from end B", f"in from the {edge} edge")
    text = scale.text
    return columns, tuple((text(at), text(extent - at), text(deep)) for at, deep in chosen)
