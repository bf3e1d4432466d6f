"""A made-up dialect: every text of the catalogues stands in brackets, so that what a person is
shown without them was baked in somewhere."""

from __future__ import annotations

import gettext
import re
from collections.abc import Collection, Iterator

OPEN, CLOSE = "⟦", "⟧"
_LETTERS = re.compile(r"[^\W\d_]{2,}")


class Wrapped(gettext.NullTranslations):
    """Gives every text back in brackets."""

    def gettext(self, message: str) -> str:
        return f"{OPEN}{message}{CLOSE}"

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return f"{OPEN}{msgid1 if n == 1 else msgid2}{CLOSE}"


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
