"""A made-up dialect: every text of the catalogues stands in brackets, but what is put into its
places does not: what a person is shown outside the brackets was baked in somewhere, also where it
came in as a parameter of a text that is translated."""

from __future__ import annotations

import gettext
import re
from collections.abc import Collection, Iterator

OPEN, CLOSE = "⟦", "⟧"
_PLACES = re.compile(r"(\{\w+(?::\w+)?\}|%\(\w+\)[sd])")
_LETTERS = re.compile(r"[^\W\d_]{2,}")


class Wrapped(gettext.NullTranslations):
    """Gives every text back in brackets, its places outside them."""

    def gettext(self, message: str) -> str:
        return _wrapped(message)

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return _wrapped(msgid1 if n == 1 else msgid2)


def _wrapped(text: str) -> str:
    """
    >>> _wrapped("fit the {slot:cap} of %(mark)s now")
    '⟦fit the ⟧{slot:cap}⟦ of ⟧%(mark)s⟦ now⟧'
    """
    pieces = _PLACES.split(text)
    return "".join(
        piece if number % 2 or not piece else f"{OPEN}{piece}{CLOSE}"
        for number, piece in enumerate(pieces)
    )


def outside(text: str) -> Iterator[str]:
    """The stretches of a text that stand in no brackets.

    >>> list(outside("⟦fit the ⟦slot⟧⟧ of A1 ⟦now⟧."))
    [' of A1 ', '.']
    """
    depth, found = 0, ""
    for letter in text:
        if letter == OPEN:
            depth += 1
            if depth == 1 and found:
                yield found
                found = ""
        elif letter == CLOSE:
            depth -= 1
        elif depth == 0:
            found += letter
    if found:
        yield found


def baked_in(text: str, own: Collection[str]) -> list[str]:
    """Words of a shown text that no catalogue gave. `own` are the user's own words, marks and
    units, which no dialect changes; the longest are taken out first."""
    found = []
    for stretch in outside(text):
        rest = stretch
        for word in sorted(own, key=len, reverse=True):
            rest = re.sub(rf"(?<!\w){re.escape(word)}(?!\w)", " ", rest, flags=re.IGNORECASE)
        found += _LETTERS.findall(rest)
    return found
