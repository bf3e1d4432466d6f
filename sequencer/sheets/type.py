"""How wide words are in the sheets' face, DejaVu Sans, and how many lines they take.

Pages are filled from this (`paging`), so that a browser breaks them where WeasyPrint does.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

# Advance widths in thousandths of the size, rounded up, by the letters that have them.
_REGULAR = {
    228: "′", 275: "'", 278: "ijl", 295: "IJ", 318: " \u00a0,.‘’·", 337: "/:;|", 353: "f", 361: "-",
    374: "″", 391: "()[]", 393: "t", 401: "!²³", 412: "r", 460: '"', 500: "*_–°", 519: "“”",
    521: "s", 525: "z", 531: "?", 550: "c", 558: "L", 576: "F", 580: "k", 592: "vxy", 604: "P",
    611: "TY", 612: "oö", 613: "aä", 616: "eé", 630: "ß", 632: "E", 634: "hnuü", 635: "Sbdgpq",
    637: "$0123456789", 656: "K", 685: "AV", 686: "XZ", 687: "B", 695: "R", 699: "C", 732: "U",
    749: "N", 752: "H", 771: "D", 775: "G", 780: "&", 788: "OQ", 818: "w", 838: "#+<=>×−→←↑↓±≤≥",
    863: "M", 951: "%", 970: "½¼¾⅛", 975: "m", 989: "W",
}  # fmt: skip
_BOLD = {
    264: "′", 307: "'", 343: "ijl", 349: " \u00a0", 366: "/|", 373: "IJ", 380: ",.‘’·", 400: ":;",
    416: "-", 436: "f", 438: "²³", 447: "″", 457: "!", 458: "()[]", 479: "t", 494: "r",
    500: "_–°", 521: '"', 523: "*", 581: "?", 583: "z", 593: "c", 596: "s", 638: "L", 646: "x",
    652: "vy", 658: "“”", 666: "k", 675: "aä", 679: "eé", 683: "T", 684: "EF", 688: "oö",
    696: "$0123456789", 712: "hnuü", 716: "bdgpq", 720: "ß", 721: "S", 725: "Y", 726: "Z",
    733: "P", 734: "C", 763: "B", 771: "RX", 774: "AV", 775: "K", 813: "U", 821: "G", 831: "D",
    837: "HN", 838: "#+<=>×−→←↑↓±≤≥", 851: "OQ", 873: "&", 924: "w", 996: "M", 1002: "%",
    1036: "½¼¾⅛", 1042: "m", 1104: "W",
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
    59.7
    """
    known = _WIDTHS[bold]
    return sum(known.get(letter, _UNKNOWN) for letter in words) * size / 1000


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
