"""How wide words are in the sheets' face and how many lines they take.

The face travels with every page (`templates/face.css`), and pages are filled from these widths
(`paging`): so a browser breaks them where WeasyPrint does, on a machine that has no such face too.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache

# Advance widths in thousandths of the size, rounded up, by the letters that have them; the face
# has no arrows, whose width is that of DejaVu Sans.
_REGULAR = {
    175: "'′", 197: ",", 201: "‘’", 212: ";", 240: "j", 243: ":", 244: "il", 245: "|", 248: "îï",
    249: " \u00a0", 258: "!", 262: "·", 264: ".", 266: "[]", 272: "I", 277: "-", 321: "\"″",
    328: "t", 339: "r", 343: "(", 348: "f", 349: ")", 354: "“", 358: "”", 367: "²³", 374: "°",
    413: "/", 431: "*", 452: "_", 473: "?", 474: "y", 485: "v", 497: "xz", 507: "k", 509: "<≤",
    517: "s", 523: ">≥", 524: "cç", 531: "eèéêë", 534: "×", 535: "±", 539: "L", 544: "aàâäå",
    549: "=", 551: "h", 552: "Juùûü", 553: "Fnñ", 562: "bgp", 563: "$0123456789", 564: "d",
    567: "ø", 568: "+", 569: "Eq", 571: "oôö", 572: "−", 594: "S", 595: "ß", 597: "T", 600: "Z",
    601: "Y", 616: "#", 617: "R", 623: "&", 624: "B", 627: "X", 628: "K", 631: "P", 637: "V",
    649: "UÜ", 651: "C", 653: "AÄÅ", 657: "D–", 682: "G", 688: "OQÖØ", 714: "HN", 733: "%¼",
    752: "w", 769: "⅛", 776: "½", 778: "¾", 802: "⅞", 838: "←↑→↓", 845: "æ", 852: "⅝", 855: "⅜",
    874: "M", 877: "m", 888: "W", 935: "Æ", 1000: "☐", 1125: "⚠",
}  # fmt: skip
_BOLD = {
    163: "'′", 230: "’", 234: "‘", 245: ",", 250: " \u00a0", 254: "|", 261: "j", 263: ";",
    266: "il", 272: "!", 274: "îï", 279: "[]", 283: ":", 292: ".I", 302: "·", 321: "\"″", 338: "t",
    352: "(", 353: ")", 359: "f", 366: "r", 373: "²³", 375: "/", 389: "-°", 406: "“", 409: "”",
    447: "_", 454: "*", 499: "?", 503: "y", 506: "v", 510: "<xz≤", 515: "s", 517: ">≥", 522: "cç",
    532: "×", 535: "k", 537: "aàâäå", 538: "±", 541: "eèéêë", 542: "L", 546: "+", 549: "F",
    556: "−", 559: "J", 561: "hnuñùûü", 563: "Ebp", 564: "d", 565: "qø", 566: "oôö", 572: "g",
    573: "=", 574: "$0123456789", 597: "#", 607: "Z", 615: "S", 619: "TY", 631: "ß", 632: "–",
    636: "KX", 639: "BR", 646: "P", 651: "D", 654: "V", 655: "C", 657: "&", 659: "UÜ", 674: "AÄÅ",
    682: "G", 689: "Ø", 691: "OQÖ", 707: "N", 708: "H", 718: "¼", 735: "w", 739: "%", 762: "½",
    784: "⅛", 809: "¾", 838: "←↑→↓", 845: "æ", 853: "⅝", 860: "⅞", 862: "⅜", 866: "m", 875: "W",
    876: "M", 941: "Æ", 1000: "☐", 1125: "⚠",
}  # fmt: skip
_UNKNOWN = 1050


def _by_letter(table: Mapping[int, str]) -> dict[str, int]:
    return {letter: width for width, letters in table.items() for letter in letters}


_WIDTHS = (_by_letter(_REGULAR), _by_letter(_BOLD))

Run = tuple[str, float, bool]
"""Words, their size in points, and whether they are bold."""


def wide(words: str, size: float, bold: bool = False) -> float:
    """Points that the words take in one line, hardly ever less.

    >>> round(wide("fence 17/64", 10), 1)
    54.0
    """
    return _thousandths(words, bold) * size / 1000


@lru_cache(maxsize=8192)  # the same words come again and again
def _thousandths(words: str, bold: bool) -> int:
    known = _WIDTHS[bold]
    return sum(known.get(letter, _UNKNOWN) for letter in words)


def lines(runs: Sequence[Run], room: float) -> int:
    """Lines that words take one after another in a column `room` points wide, broken at spaces as
    a browser breaks them; 0 where there are none.

    >>> lines([("Rip: back down, inside edge against the fence.", 10, False)], 130)
    2
    """
    count, used, pending = 0, 0.0, 0.0
    for words, size, bold in runs:
        space = wide(" ", size, bold)
        for at, word in enumerate(words.split(" ")):
            if at:  # what was gathered ends here
                count, used = _set(count, used, pending, room)
                pending = 0.0
                used += space
            pending += wide(word, size, bold)
    count, _ = _set(count, used, pending, room)
    return count


def _set(count: int, used: float, word: float, room: float) -> tuple[int, float]:
    if not word:
        return count, used
    if count and used + word <= room:
        return count, used + word
    return count + 1, word
