"""The signs that the sheets' face has besides its letters: a box to tick and a triangle of caution.

    python -m tests.sheets.face

Draws them into both weights of `templates/face.css`, anew where they are there. As letters they are
set in lines of words; as drawings each would be laid out by itself, thousands in a large job.
"""

from __future__ import annotations

import base64
import io
import re
from collections.abc import Sequence
from pathlib import Path

from fontTools.pens.ttGlyphPen import TTGlyphPen  # type: ignore[import-untyped]
from fontTools.ttLib import TTFont  # type: ignore[import-untyped]

FACE = Path(__file__).parents[2] / "templates/face.css"
_LOW = 2.6  # sixteenths of the size below the line, so that a sign stands about a capital's middle
Contour = Sequence[tuple[float, float]]

BOX, ALERT = "\N{BALLOT BOX}", "\N{WARNING SIGN}"


def _square(low: float, high: float) -> Contour:
    return [(low, low), (low, high), (high, high), (high, low)]


def _bar(left: float, right: float, low: float, high: float) -> Contour:
    return [(left, low), (left, high), (right, high), (right, low)]


def _triangle(grown: float) -> Contour:
    """16 wide and 14 high, each side moved outward by `grown`: larger about its middle."""
    middle = (9.0, 5.64)
    factor = 1 + grown / (middle[1] - 1)
    corners = [(1.0, 1.0), (9.0, 15.0), (17.0, 1.0)]
    return [(middle[0] + (x - 9) * factor, middle[1] + (y - 5.64) * factor) for x, y in corners]


_SIGNS: dict[str, tuple[int, list[Contour]]] = {
    BOX: (16, [_square(0.75, 15.25), _square(2.25, 13.75)[::-1]]),
    ALERT: (
        18,
        [
            _triangle(0.8),
            _triangle(-0.8)[::-1],
            _bar(8.1, 9.9, 5.5, 10.5),
            _bar(8.1, 9.9, 2.6, 4.4),
        ],
    ),
}
"""How wide, and what is drawn, in sixteenths of the size; what runs the other way is left out of
what is round it."""


def with_signs(data: bytes) -> bytes:
    """The face, woff2, with the signs in it."""
    face = TTFont(io.BytesIO(data), recalcTimestamp=False)
    part = face["head"].unitsPerEm / 16
    for letter, (wide, contours) in _SIGNS.items():
        name = f"uni{ord(letter):04X}"
        pen = TTGlyphPen(None)
        for contour in contours:
            first, *others = [(round(x * part), round((y - _LOW) * part)) for x, y in contour]
            pen.moveTo(first)
            for point in others:
                pen.lineTo(point)
            pen.closePath()
        face.setGlyphOrder([each for each in face.getGlyphOrder() if each != name] + [name])
        face["glyf"][name] = pen.glyph()
        left = round(min(x for contour in contours for x, _ in contour) * part)
        face["hmtx"][name] = (round(wide * part), left)
        for table in face["cmap"].tables:
            table.cmap[ord(letter)] = name
    written = io.BytesIO()
    face.flavor = "woff2"
    face.save(written)
    return written.getvalue()


def _again(found: re.Match[str]) -> str:
    made = with_signs(base64.b64decode(found[1]))
    return f"base64,{base64.b64encode(made).decode()})"


if __name__ == "__main__":
    FACE.write_text(re.sub(r"base64,([^)]+)\)", _again, FACE.read_text("utf-8")), "utf-8")
