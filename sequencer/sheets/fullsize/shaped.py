"""Templates of what is shaped at the bench: a part's outline with its arch, peak or valley, seen on
its show face with the inside edge down, at full size. What is sawn away is hatched, what is grooved
dashed."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction

from sequencer.instructions.figures import Scale
from sequencer.instructions.words import marked_faces
from sequencer.plan import Marked, Part, Plan, Prism
from sequencer.sheets.fullsize.paper import HERE, Drawing, Word, line
from sequencer.sheets.fullsize.smooth import at, pencil, runs
from sequencer.wording import fullsize

_STEP = 4.0
_BESIDE = 25.0  # mm of wood beside the shape

Point = tuple[Fraction, Fraction]
Place = tuple[float, float]


def templates(plan: Plan, scale: Scale) -> Iterator[Drawing]:
    """One for each shape; parts that are shaped alike share theirs."""
    faces = marked_faces(plan)
    found: dict[object, list[Part]] = {}
    for part in plan.parts:
        shapes = _shapes(part)
        if shapes:
            marked = faces.get(part.mark, "face")
            key = (part.size, part.inside, marked, tuple(prism.corners for prism in shapes))
            found.setdefault(key, []).append(part)
    for parts in found.values():
        name = scale.room.text(fullsize.SHAPE, marks=tuple(part.mark for part in parts))
        yield _drawn(parts[0], name, faces.get(parts[0].mark, "face"), scale)


def _shapes(part: Part) -> list[Prism]:
    return [
        feature.prism
        for feature in part.features
        if feature.unproven_by_saw and feature.prism is not None and feature.prism.axes == "xy"
    ]


def _drawn(part: Part, name: str, marked: Marked, scale: Scale) -> Drawing:
    mm = 25.4 if scale.unit == "in" else 1.0
    long, wide = float(part.size.length) * mm, float(part.size.width) * mm
    # On the show face with the inside edge down, end A is on the side of the part's hand.
    from_right = (part.inside == "right") == (marked == "face")

    def spot(corner: Point) -> Place:
        x, y = float(corner[0]) * mm, float(corner[1]) * mm
        return (long - x if from_right else x), wide - y

    shapes = [
        f'<path d="M0,0H{long:.3f}V{wide:.3f}H0Z" fill="none" stroke="#000" stroke-width="0.25"/>'
    ]
    through = [prism for prism in _shapes(part) if _through(prism, part)]
    for n, prism in enumerate(through):
        points = [spot(corner) for corner in prism.corners]
        path = f"M{at(points[-1])}{''.join(rest for _, rest in runs(points))}Z"
        clip = f"{HERE}-shape-{n}"
        shapes.append(f'<clipPath id="{clip}"><path d="{path}"/></clipPath>')
        shapes.append(f'<g clip-path="url(#{clip})">{"".join(_hatch(points))}</g>')
    for prisms, dash in ((through, ""), ([p for p in _shapes(part) if p not in through], "2 1")):
        shapes += [pencil(f"M{at(start)}{rest}", dash) for start, rest in _outline(prisms, spot)]
    corners = [spot(corner) for prism in _shapes(part) for corner in prism.corners]
    (x0, x1), (y0, y1) = (
        _window([corner[n] for corner in corners], size) for n, size in enumerate((long, wide))
    )
    words: list[Word] = []
    for x, letter, anchor in (
        (3.0, "B" if from_right else "A", "start"),
        (long - 3, "A" if from_right else "B", "end"),
    ):
        if x0 <= x <= x1:
            words.append(Word(x - x0, (y1 - y0) / 2, letter, anchor=anchor, bold=True, size=6))
    moved = f'<g transform="translate({-x0:.3f} {-y0:.3f})">{"".join(shapes)}</g>'
    return Drawing(name, x1 - x0, y1 - y0, (moved,), tuple(words))


def _through(prism: Prism, part: Part) -> bool:
    """Whether it goes through the whole thickness; what does not is a groove along the shape."""
    return prism.along[0] <= 0 and prism.along[1] >= part.size.thickness


def _window(places: Sequence[float], size: float) -> tuple[float, float]:
    """What of a side is drawn: the shape, some wood beside it, and the end that is near."""
    low, high = min(places) - _BESIDE, max(places) + _BESIDE
    return (0.0 if low < 2 * _BESIDE else low), (size if high > size - 2 * _BESIDE else high)


def _outline(
    prisms: Sequence[Prism], spot: Callable[[Point], Place]
) -> Iterator[tuple[Place, str]]:
    """The sides of all, without those along which two of them meet."""
    sides = [
        frozenset((prism.corners[n - 1], prism.corners[n]))
        for prism in prisms
        for n in range(len(prism.corners))
    ]
    times = Counter(sides)
    drawn = [run for prism in prisms for run in runs([spot(c) for c in prism.corners])]
    yield from (run for side, run in zip(sides, drawn, strict=True) if times[side] == 1)


def _hatch(points: Sequence[Place]) -> Iterator[str]:
    left, right = min(x for x, _ in points), max(x for x, _ in points)
    top, bottom = min(y for _, y in points), max(y for _, y in points)
    high = bottom - top
    at = left - high
    while at < right:
        yield line(at, bottom, at + high, top, width=0.12)
        at += _STEP
