"""A finished paper as a person sees it: lines of text, cells set apart by bars.

Nothing but what is printed comes through: no attribute, no class but that of the number set large,
which stands in its cell; a blank to write on is one `_`.
"""

from __future__ import annotations

import re
from html.parser import HTMLParser

_BLOCKS = {
    "article", "caption", "div", "figure", "footer", "h1", "h2", "h3", "h4", "header", "li", "ol",
    "p", "section", "table", "tr", "ul",
}  # fmt: skip
_CELLS = {"td", "th", "text"}
_UNSEEN = {"aside", "head", "script", "style"}  # an aside shows once more what the front pages have
_SIGNS = {"sign": ""}
_BLANK = re.compile(r"(?<=\N{NO-BREAK SPACE})_{10}(?=\N{NO-BREAK SPACE})")


class _Seen(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.said: list[str] = []
        self.unseen = 0
        self.heads = 0
        self.big = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        kind = dict(attrs).get("class") or ""
        self.unseen += tag in _UNSEEN
        self.heads += tag == "header"
        if tag == "svg":
            self.said.append(_SIGNS.get(kind, "\n"))
        elif tag == "div" and kind == "big":
            self.big += 1
        elif tag in _BLOCKS or tag == "br":
            self.said.append("\n")
        elif tag in _CELLS or (tag == "span" and self.heads):
            self.said.append("\t")

    def handle_endtag(self, tag: str) -> None:
        self.unseen -= tag in _UNSEEN
        if tag == "div" and self.big:
            self.big -= 1
        elif tag in _BLOCKS:
            self.said.append("\n")
        elif tag == "span" and self.heads:
            self.said.append("\t")
        self.heads -= tag == "header"

    def handle_data(self, data: str) -> None:
        if not self.unseen:
            words = _BLANK.sub("_", data.replace("⚠", ""))
            self.said.append(re.sub(r"\s+", " ", words))


def lines(html: str) -> list[str]:
    """The lines of a paper, without the empty ones."""
    seen = _Seen()
    seen.feed(html)
    found = []
    for line in "".join(seen.said).split("\n"):
        cells = [" ".join(cell.split()) for cell in line.split("\t")]
        if cells[0] == "" and len(cells) > 1:
            cells = cells[1:]
        if any(cells):
            found.append(" | ".join(cells))
    return found
