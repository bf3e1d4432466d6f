"""What a piece lacks, in figures: each feature in words with the numbers that it is cut to."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from sequencer.plan import Feature, Part, Prism, Size, Span
from sequencer.sheets.figures import Scale

_EDGES = {"inside-edge": "inside edge", "outside-edge": "outside edge"}
_ENDS = ("A", "B")
MOST_CORNERS = 13
"""Ordinates in one table; a finer curve is thinned to as many."""


def feature_words(part: Part, scale: Scale) -> tuple[str, ...]:
    """A line for each feature; those that are alike at both ends or edges share one."""
    found: dict[str, list[str]] = {}
    for feature in part.features:
        what = _figures(feature, part, scale)
        found.setdefault(what, []).append(_where(feature))
    return tuple(
        f"{what} {_listed([at for at in places if at])}".rstrip() for what, places in found.items()
    )


def _where(feature: Feature) -> str:
    if feature.at in _ENDS:
        return f"at end {feature.at}"
    if feature.at in _EDGES:
        return f"along the {_EDGES[feature.at]}"
    return f"on the {'marked face' if feature.at == 'face' else feature.at}"


def _listed(places: Sequence[str]) -> str:
    unique = list(dict.fromkeys(places))
    if unique == ["at end A", "at end B"]:
        return "at both ends"
    if sorted(unique) == ["along the inside edge", "along the outside edge"]:
        return "along both edges"
    return " and ".join(unique)


def _figures(feature: Feature, part: Part, scale: Scale) -> str:
    """A feature's numbers without its place."""
    size, (x, y, z) = part.size, feature.box
    long, wide, deep = (span[1] - span[0] for span in feature.box)
    bench = ", at the bench: not proven by the saw" if feature.unproven_by_saw else ""
    text = scale.text
    match feature.kind:
        case "slot":
            return f"slot {text(deep)} wide, {text(long)} deep, {_from_face(z, size, scale)}"
        case "cheek":
            side = "face" if z[0] <= 0 else "back"
            return f"tenon {text(long)} long: {text(deep)} off the {side}"
        case "edge-cheek":
            side = "inside" if y[0] <= 0 else "outside"
            return f"tenon cut to width: {text(wide)} off the {side} edge, {text(long)} long"
        case "groove" if feature.prism is None:
            return f"groove {text(deep)} wide, {text(wide)} deep, {_from_face(z, size, scale)}"
        case "groove":
            low, high = text(deep), _from_face(z, size, scale)
            return f"groove {low} wide, {high}, follows the shaped edge{bench}"
        case "rebate":
            side = "face" if z[0] <= 0 else "back"
            return f"rebate {text(wide)} wide, {text(deep)} deep from the {side}"
        case "housing":
            place = f"{text(x[0])} to {text(x[1])} from end A"
            return f"housing {text(deep)} deep, {place}"
        case "mitre":
            return (
                f"mitre 45°, {text(deep)} deep from the face, {text(long)} long at the inside edge"
            )
        case "bevel" if feature.prism is not None:
            return _bevel(feature.prism, size, scale)
    if feature.kind == "shape":
        return f"shaped to {text(wide)} at its deepest{bench}"
    return f"{feature.kind}: {text(long)} × {text(wide)} × {text(deep)}{bench}"


def _from_face(z: Span, size: Size, scale: Scale) -> str:
    if z[0] + z[1] == size.thickness:
        return "centred"
    return f"{scale.text(z[0])} from the marked face"


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


def ordinates(prism: Prism, size: Size, scale: Scale) -> tuple[tuple[str, str, str], ...]:
    """The corners of a shaped edge to lay out: from end A, from end B, and from the inside edge;
    corners of the piece itself left out. Of a fine curve every so many, both ends kept."""
    if prism.axes != "xy":
        return ()
    corners = sorted(
        {corner for corner in prism.corners if corner[1] > 0 or 0 < corner[0] < size.length}
    )
    if not corners:
        return ()
    step = max(1, -(-(len(corners) - 1) // (MOST_CORNERS - 1)))
    chosen = corners[::step]
    if chosen[-1] != corners[-1]:
        chosen.append(corners[-1])
    return tuple((scale.text(x), scale.text(size.length - x), scale.text(y)) for x, y in chosen)
