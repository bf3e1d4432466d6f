"""How full printed pages are, and of how many words.

    .venv/bin/python -m tests.sheets.pages sheets [sheets ...]

Takes folders that `plan` wrote and prints a row for each: pages, pages at work, words, and of these
those of caution, and how much of each page is blank; a stop stands behind the last of a part.
"""

from __future__ import annotations

import re
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from html.parser import HTMLParser
from pathlib import Path

import pypdfium2  # type: ignore[import-untyped]  # it ships no types
from PIL import Image, ImageFilter

MARGIN, FOOT = 9, 12
"""Millimetres that are no part of the page's body."""
HOLE = 21
"""Emptiness counts where a square of so many millimetres goes in: not between lines, nor where a
line ends early."""
_INK = 0xE8
"""Paler is paper."""


def blank(page: pypdfium2.PdfPage) -> float:
    """The share of the page's body that is covered by empty squares."""
    picture = page.render(scale=72 / 25.4, grayscale=True).to_pil()
    wide, high = (round(side * 25.4 / 72) for side in page.get_size())
    # The darkest of each square millimetre, so that a hair line is seen.
    dark = picture.filter(ImageFilter.MinFilter(3)).resize((wide, high), Image.Resampling.NEAREST)
    body = dark.crop((MARGIN, MARGIN, wide - MARGIN, high - FOOT))
    empty = body.point([255 if value >= _INK else 0 for value in range(256)])
    edged = Image.new("L", (body.width + 2 * HOLE, body.height + 2 * HOLE), 0)
    edged.paste(empty, (HOLE, HOLE))
    holes = edged.filter(ImageFilter.MinFilter(HOLE)).filter(ImageFilter.MaxFilter(HOLE))
    empty_area = int(holes.histogram()[255])
    return empty_area / int(body.width * body.height)


class _Words(HTMLParser):
    """Counts the words that are read, and of these those inside a caution."""

    def __init__(self) -> None:
        super().__init__()
        self.all = self.cautions = 0
        self.open: list[tuple[str, bool]] = []
        self.unread = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag in ("meta", "link", "br", "line", "rect", "path", "circle", "input"):
            return
        named = dict(attrs)
        self.open.append((tag, "data-rule" in named or bool(self.open and self.open[-1][1])))
        self.unread += tag in ("style", "script", "head")

    def handle_endtag(self, tag: str) -> None:
        while self.open:
            last = self.open.pop()[0]
            self.unread -= last in ("style", "script", "head")
            if last == tag:
                break

    def handle_data(self, data: str) -> None:
        if not self.unread:
            found = len(re.findall(r"[^\W_]+(?:[.'’/-][^\W_]+)*", data))
            self.all += found
            self.cautions += found if self.open and self.open[-1][1] else 0


def words(html: str) -> tuple[int, int]:
    """All words of a page that are read, drawings' too, and those of caution among them."""
    counter = _Words()
    counter.feed(html)
    return counter.all, counter.cautions


@dataclass(frozen=True, slots=True)
class Sheets:
    """How blank each page is; which of them, by place, stand at the saw: they begin with the one
    that says how the drawings are seen, and are the last; and which are the last of their part,
    what is read the night before, each page that hangs above the saw, and what stands at it."""

    blanks: tuple[float, ...]
    work: tuple[int, ...]
    ends: tuple[int, ...]
    words: int
    cautions: int


def measured(pdf: bytes, html: str) -> Sheets:
    """The sheets of a plan."""
    document = pypdfium2.PdfDocument(pdf)
    texts = [" ".join(page.get_textpage().get_text_bounded().split()) for page in document]
    legend = "In the drawings you stand before the saw"
    first = next(n for n, text in enumerate(texts) if legend in text)
    above = next(n for n, text in enumerate(texts) if re.search(r", settings \((in|mm)\)", text))
    counted, cautions = words(html)
    return Sheets(
        tuple(map(blank, document)),
        tuple(range(first, len(texts))),
        (*range(above - 1, first), len(texts) - 1),
        counted,
        cautions,
    )


def main(folders: Sequence[str]) -> None:
    for folder in map(Path, folders):
        found = measured(
            (folder / "plan.pdf").read_bytes(), (folder / "plan.html").read_text("utf-8")
        )
        told = " ".join(
            f"{100 * share:.0f}{'.' * (n in found.ends)}" for n, share in enumerate(found.blanks)
        )
        counted = f"{found.words} words, {found.cautions} of caution; % blank: {told}"
        print(f"{folder}: {len(found.blanks)} pages, {len(found.work)} at work; {counted}")


if __name__ == "__main__":
    main(sys.argv[1:])
