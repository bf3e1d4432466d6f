"""The few shapes that drawings are made of, as SVG text: black on white, greys, no colour.

Coordinates are points as `Fraction`s or ints, x to the right, y down; they are rounded to
hundredths only as they are written.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from fractions import Fraction
from html import escape
from math import lcm
from typing import Literal

Number = Fraction | int

INK = "#000"
WOOD = "#e2e2e2"
METAL = "#bdbdbd"
WASTE = "#8f8f8f"
FONT = "Sheets,Roboto,DejaVu Sans,sans-serif"

Anchor = Literal["start", "middle", "end"]

# Advance widths of DejaVu Sans in thousandths of the size, rounded up by kind: labels are placed
# by them, so they must never be too small.
_WIDE = {
    **dict.fromkeys("iljI|.,:;'", 400),
    **dict.fromkeys("ftr-()/ ", 430),
    **dict.fromkeys("mwMW%", 1000),
    **dict.fromkeys("#×", 850),
}


def number(value: Number) -> str:
    """To hundredths, halves upward, without closing noughts.

    >>> number(Fraction(1, 3)), number(-2)
    ('0.33', '-2')
    """
    return plain(hundredths(value))


def hundredths(value: Number) -> int:
    """A coordinate in hundredths of a point."""
    top, bottom = value.numerator, value.denominator
    return (200 * top + bottom) // (2 * bottom)  # as round, quicker than a new Fraction


def plain(scaled: int) -> str:
    """A coordinate that is in hundredths, as it is written."""
    whole, rest = divmod(abs(scaled), 100)
    text = f"{whole}.{rest:02d}".rstrip("0").rstrip(".") if rest else str(whole)
    return f"-{text}" if scaled < 0 else text


def text_width(text: str, size: Number, *, bold: bool = False) -> Fraction:
    """At least what `text` takes at `size`."""
    units = sum(_WIDE.get(letter, 800 if letter.isupper() else 650) for letter in text)
    return Fraction(units, 1000) * size * (Fraction(9, 8) if bold else 1)


def size_of(drawing: str) -> tuple[float, float]:
    """How wide and high a drawing is, in points; nothing of an empty one.

    >>> size_of('<svg width="20pt" height="10.5pt">')
    (20.0, 10.5)
    """
    found = re.search(r'width="([\d.]+)pt" height="([\d.]+)pt"', drawing)
    return (float(found[1]), float(found[2])) if found else (0.0, 0.0)


def scaled(drawing: str, factor: float) -> str:
    """The drawing so many times as large, words and all.

    >>> scaled('<svg width="20pt" height="10.5pt" viewBox="0 0 20 10.5">', 2)
    '<svg width="40.0pt" height="21.0pt" viewBox="0 0 20 10.5">'
    """
    wide, high = (side * factor for side in size_of(drawing))
    size = f'width="{wide:.1f}pt" height="{high:.1f}pt"'
    return re.sub(r'width="[\d.]+pt" height="[\d.]+pt"', size, drawing, count=1)


def line(
    x1: Number, y1: Number, x2: Number, y2: Number, *, width: Number = 1, dash: str = ""
) -> str:
    ends = f'x1="{number(x1)}" y1="{number(y1)}" x2="{number(x2)}" y2="{number(y2)}"'
    return f'<line {ends} stroke="{INK}" stroke-width="{number(width)}"{_dash(dash)}/>'


def rect(
    x: Number,
    y: Number,
    width: Number,
    height: Number,
    *,
    fill: str = "none",
    stroke: Number = 1,
    dash: str = "",
) -> str:
    pen = f' stroke="{INK}" stroke-width="{number(stroke)}"' if stroke else ""
    place = f'x="{number(x)}" y="{number(y)}" width="{number(width)}" height="{number(height)}"'
    return f'<rect {place} fill="{fill}"{pen}{_dash(dash)}/>'


def rects(places: Sequence[tuple[Number, Number, Number, Number]], *, fill: str) -> str:
    """Several rectangles at once, each by x, y, width and height, without outlines."""
    steps = " ".join(
        f"M{number(x)} {number(y)} L{number(x + wide)} {number(y)} L{number(x + wide)}"
        f" {number(y + high)} L{number(x)} {number(y + high)} Z"
        for x, y, wide, high in places
    )
    return f'<path d="{steps}" fill="{fill}"/>'


def path(
    points: Sequence[tuple[Number, Number]],
    *,
    fill: str = "none",
    stroke: Number = 1,
    closed: bool = False,
    dash: str = "",
) -> str:
    steps = " ".join(
        f"{'L' if at else 'M'}{number(x)} {number(y)}" for at, (x, y) in enumerate(points)
    )
    pen = (
        f' stroke="{INK}" stroke-width="{number(stroke)}" stroke-linejoin="round"' if stroke else ""
    )
    return f'<path d="{steps}{" Z" if closed else ""}" fill="{fill}"{pen}{_dash(dash)}/>'


_APART = 5
"""Points between the lines of a hatching, along the edge."""


def hatch(x: Number, y: Number, width: Number, height: Number) -> str:
    """Slanting thin lines that fill a rectangle."""
    # In whole parts of a point that all four lengths are made of: there are hundreds of ends.
    part = lcm(*(each.denominator for each in (x, y, width, height)))
    left, top, wide, high = (int(each * part) for each in (x, y, width, height))

    def shown(value: int) -> str:
        return plain((200 * value + part) // (2 * part))

    lines = []
    for along in range(_APART * part, wide + high, _APART * part):
        start = f"{shown(left + min(along, wide))} {shown(top + max(0, along - wide))}"
        end = f"{shown(left + max(0, along - high))} {shown(top + min(along, high))}"
        lines.append(f"M{start} L{end}")
    return f'<path d="{" ".join(lines)}" fill="none" stroke="{INK}" stroke-width="0.6"/>'


def text(
    x: Number,
    y: Number,
    words: str,
    size: Number,
    *,
    anchor: Anchor = "start",
    bold: bool = False,
    fill: str = INK,
) -> str:
    """`y` is the baseline."""
    weight = ' font-weight="bold"' if bold else ""
    return (
        f'<text x="{number(x)}" y="{number(y)}" font-family="{FONT}" font-size="{number(size)}"'
        f' text-anchor="{anchor}"{weight} fill="{fill}">{escape(words)}</text>'
    )


def arrow(x1: Number, y1: Number, x2: Number, y2: Number, *, size: Number = 5) -> str:
    """A line along one axis with its head at the second point."""
    along_x = y1 == y2
    back = size if (x2 > x1 if along_x else y2 > y1) else -size
    half = Fraction(size) * Fraction(2, 5)
    if along_x:
        head = [(x2, y2), (x2 - back, y2 - half), (x2 - back, y2 + half)]
    else:
        head = [(x2, y2), (x2 - half, y2 - back), (x2 + half, y2 - back)]
    return line(x1, y1, x2, y2, width=Fraction(4, 5)) + path(head, fill=INK, stroke=0, closed=True)


_ENDS: Mapping[str, str] = {"start": "end", "middle": "middle", "end": "start"}
_PLACE = re.compile(
    r'(?P<path>(?<= d=")[^"]*)'
    r'|(?<=<rect )x="(?P<left>[^"]*)"(?P<rest> y="[^"]*" width="(?P<wide>[^"]*)")'
    r'|(?<= )(?P<name>x[12]?)="(?P<at>[^"]*)"'
    r'|(?<=text-anchor=")(?P<anchor>\w+)'
)


def mirrored(shapes: Sequence[str], width: Number) -> list[str]:
    """The same shapes with left and right changed over in a picture of `width`; words stay to be
    read from left to right.

    >>> mirrored([line(1, 2, 3, 4), text(5, 6, "end A", 9)], 10)[0][:38]
    '<line x1="9" y1="2" x2="7" y2="4" stro'
    """

    def over(value: str) -> str:
        return number(width - Fraction(value))

    def turn(found: re.Match[str]) -> str:
        if found["path"] is not None:
            return re.sub(
                r"([ML])(\S+) (\S+)", lambda p: f"{p[1]}{over(p[2])} {p[3]}", found["path"]
            )
        if found["left"] is not None:
            left = number(width - Fraction(found["left"]) - Fraction(found["wide"]))
            return f'x="{left}"{found["rest"]}'
        if found["anchor"] is not None:
            return _ENDS[found["anchor"]]
        return f'{found["name"]}="{over(found["at"])}"'

    return [_PLACE.sub(turn, shape) for shape in shapes]


def drawing(width: Number, height: Number, shapes: Sequence[str], says: str) -> str:
    """The picture in points. `says` is what it shows, for who cannot see it."""
    size = f'width="{number(width)}pt" height="{number(height)}pt"'
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" {size}'
        f' viewBox="0 0 {number(width)} {number(height)}" role="img"'
        f' aria-label="{escape(says, quote=True)}">{"".join(shapes)}</svg>'
    )


def _dash(dash: str) -> str:
    return f' stroke-dasharray="{dash}"' if dash else ""
