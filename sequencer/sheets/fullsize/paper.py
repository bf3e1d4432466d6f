"""Paper to be measured from: drawings true to size, in tiles where they are larger than a page,
with marks to join them, and bars of 100 mm both ways on each page. All in mm."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from html import escape
from math import ceil
from typing import Literal

from msgspec import Struct

from sequencer.sheets import svg

Paper = Literal["letter", "a4"]

SIZES: dict[Paper, tuple[float, float]] = {"letter": (279.4, 215.9), "a4": (297.0, 210.0)}
"""Of a page on its side."""

TILE = (235.0, 148.0)
"""What of a drawing goes on one page, alike on both papers."""

BAR = 100.0
HERE = "@"
"""In a drawing's own ids: it is drawn once on each tile, and there is no id twice."""

_LEFT, _TOP, _BETWEEN = 12.0, 22.0, 6.0
_TYPE = 11 * 25.4 / 72
_MARK = 3.2
_CAPTION = _TYPE + 1.5


class Word(Struct, frozen=True):
    """Words in a drawing, their baseline at y; they stand on the tile that `x` is on, past the
    drawing's right side on the last."""

    x: float
    y: float
    words: str
    anchor: str = "start"
    size: float = _TYPE
    bold: bool = False


class Drawing(Struct, frozen=True):
    """Something at its true size: `shapes` and `words` from its upper left corner on, and what it
    is called."""

    name: str
    width: float
    height: float
    shapes: tuple[str, ...]
    words: tuple[Word, ...] = ()


class Tile(Struct, frozen=True):
    """A part of a drawing that goes on one page: where in the drawing it begins, and its name."""

    drawing: Drawing
    x: float
    y: float
    width: float
    height: float
    name: str


def tiles(drawing: Drawing) -> list[Tile]:
    """The drawing in as few parts as there may be, row by row."""
    across, down = (
        ceil(a / b - 1e-9) for a, b in zip((drawing.width, drawing.height), TILE, strict=True)
    )
    found = []
    for row in range(max(1, down)):
        for column in range(max(1, across)):
            x, y = column * TILE[0], row * TILE[1]
            name = drawing.name
            if across * down > 1:
                name = f"{name} · {row * across + column + 1}/{across * down}"
            wide, high = min(TILE[0], drawing.width - x), min(TILE[1], drawing.height - y)
            found.append(Tile(drawing, x, y, wide, high, name))
    return found


def pages(drawings: Sequence[Drawing], paper: Paper) -> list[list[tuple[Tile, float, float]]]:
    """The tiles on pages, each with the place of its upper left corner: in turn, beside each other
    where they fit, in rows."""
    wide, high = SIZES[paper]
    right, bottom = wide - 24.0, high - 22.0
    found: list[list[tuple[Tile, float, float]]] = [[]]
    x, y, row = _LEFT, _TOP, 0.0
    for tile in (tile for drawing in drawings for tile in tiles(drawing)):
        room = max(tile.width, float(svg.text_width(tile.name, 1)) * _TYPE)
        if x > _LEFT and x + room > right:
            x, y, row = _LEFT, y + row + _BETWEEN, 0.0
        if y + _CAPTION + tile.height > bottom and found[-1]:
            found.append([])
            x, y, row = _LEFT, _TOP, 0.0
        found[-1].append((tile, x, y + _CAPTION))
        x += room + _BETWEEN
        row = max(row, tile.height + _CAPTION)
    return found


def page_svg(
    placed: Sequence[tuple[Tile, float, float]], paper: Paper, title: str, check: str, number: int
) -> str:
    """One page, as large as the paper."""
    wide, high = SIZES[paper]
    shapes = [text(_LEFT, 13.0, title, bold=True)]
    for n, (tile, x, y) in enumerate(placed):
        shapes += _tile(tile, x, y, f"tile-{number}-{n}")
    shapes += _bars(wide, high, check)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide:g}mm" height="{high:g}mm"'
        f' viewBox="0 0 {wide:g} {high:g}" role="img" aria-label="{escape(title, quote=True)}">'
        f"{''.join(shapes)}</svg>"
    )


def _tile(tile: Tile, x: float, y: float, name: str) -> Iterator[str]:
    """A tile with its name above; where the drawing goes on, a dashed line to cut and butt along,
    with half marks that the next tile's make whole."""
    yield text(x, y - 1.8, tile.name)
    shift = f"translate({x - tile.x:.3f} {y - tile.y:.3f})"
    over = 0.6  # so that a line on the edge is drawn in its full width
    yield (
        f'<clipPath id="{name}"><path d="M{tile.x - over:.3f},{tile.y - over:.3f}'
        f"h{tile.width + 2 * over:.3f}v{tile.height + 2 * over:.3f}h{-tile.width - 2 * over:.3f}Z"
        f'"/></clipPath><g transform="{shift}"><g clip-path="url(#{name})">'
        f"{''.join(tile.drawing.shapes).replace(HERE, name)}</g></g>"
    )
    for each in tile.drawing.words:
        if stands_on(each, tile):
            at, down = x + each.x - tile.x, y + each.y - tile.y
            yield text(at, down, each.words, anchor=each.anchor, size=each.size, bold=each.bold)
    right, bottom = x + tile.width, y + tile.height
    drawing = tile.drawing
    for at, goes_on in ((x, tile.x > 0), (right, tile.x + tile.width < drawing.width - 1e-6)):
        if goes_on:
            yield _dashed(at, y, at, bottom)
            for share in (0.25, 0.75):
                yield _mark(at, y + share * tile.height)
    for at, goes_on in ((y, tile.y > 0), (bottom, tile.y + tile.height < drawing.height - 1e-6)):
        if goes_on:
            yield _dashed(x, at, right, at)
            for share in (0.25, 0.75):
                yield _mark(x + share * tile.width, at)


def stands_on(word: Word, tile: Tile) -> bool:
    """Whether the word is printed with that tile: with one of the drawing's, and no other."""
    at, down = word.x - tile.x, word.y - tile.y
    last = tile.x + tile.width > tile.drawing.width - 1e-6
    return at >= 0 and (at < tile.width or last) and 0 <= down < tile.height


def _dashed(x0: float, y0: float, x1: float, y1: float) -> str:
    return line(x0, y0, x1, y1, width=0.2, dash="3 1.5")


def _mark(x: float, y: float) -> str:
    """A diamond on the seam, of which each tile has its half; the other half is cut off."""
    m = _MARK
    return (
        f'<path d="M{x:.3f},{y - m:.3f}l{m},{m}l{-m},{m}l{-m},{-m}Z" fill="none" stroke="#000"'
        ' stroke-width="0.25"/>'
    )


def _bars(wide: float, high: float, check: str) -> Iterator[str]:
    """A bar of 100 mm each way, divided in tens, and what to do where it is not as long."""
    x, y = _LEFT, high - 11.0
    yield from _bar(x, y, 1, 0)
    yield from _bar(wide - 12.0, high - 11.0 - BAR, 0, 1)
    for n, words in enumerate(wrapped(check, wide - 30 - x - BAR - 5)):
        yield text(x + BAR + 5, y - 3.4 + n * 1.25 * _TYPE, words)


def _bar(x: float, y: float, dx: int, dy: int) -> Iterator[str]:
    yield line(x, y, x + dx * BAR, y + dy * BAR, width=0.3)
    for n in range(11):
        half = 2.5 if n in (0, 10) else 1.6 if n == 5 else 1.0
        a, b = x + dx * n * BAR / 10, y + dy * n * BAR / 10
        yield line(a - dy * half, b - dx * half, a + dy * half, b + dx * half, width=0.2)
    if dx:
        yield text(x + BAR / 2, y - 2.2, "100 mm", anchor="middle")
    else:
        at = f"rotate(-90 {x - 2.4:.3f} {y + BAR / 2:.3f})"
        yield f'<g transform="{at}">{text(x - 2.4, y + BAR / 2, "100 mm", anchor="middle")}</g>'


def wrapped(words: str, width: float, size: float = _TYPE) -> list[str]:
    """The words in lines no wider than `width`."""
    lines = [""]
    for word in words.split():
        longer = f"{lines[-1]} {word}".strip()
        if lines[-1] and float(svg.text_width(longer, 1)) * size > width:
            lines.append(word)
        else:
            lines[-1] = longer
    return lines


def line(x0: float, y0: float, x1: float, y1: float, *, width: float = 0.25, dash: str = "") -> str:
    """Its middle is where it is told; it ends there too."""
    dashed = f' stroke-dasharray="{dash}"' if dash else ""
    return (
        f'<path d="M{x0:.3f},{y0:.3f}L{x1:.3f},{y1:.3f}" fill="none" stroke="#000"'
        f' stroke-width="{width:g}"{dashed}/>'
    )


def text(
    x: float,
    y: float,
    words: str,
    *,
    anchor: str = "start",
    size: float = _TYPE,
    bold: bool = False,
) -> str:
    """Words with their baseline at y."""
    weight = ' font-weight="bold"' if bold else ""
    return (
        f'<text x="{x:.3f}" y="{y:.3f}" font-family="{svg.FONT}" font-size="{size:.3f}"'
        f' text-anchor="{anchor}"{weight}>{escape(words)}</text>'
    )


def document(made: Sequence[str], size: tuple[float, float], title: str, language: str) -> str:
    """The pages as one HTML document, each on its own sheet, without margins."""
    sheets = "".join(f'<div class="page">{each}</div>' for each in made)
    wide, high = size
    style = (
        f"@page{{size:{wide:g}mm {high:g}mm;margin:0}}html,body{{margin:0;background:#fff}}"
        ".page{line-height:0;break-after:page;overflow:hidden}.page:last-child{break-after:auto}"
        ".page svg{display:block}"
    )
    return (
        f'<!DOCTYPE html>\n<html lang="{language}"><head><meta charset="utf-8">'
        f"<title>{escape(title)}</title><style>{style}</style></head><body>{sheets}</body></html>\n"
    )
