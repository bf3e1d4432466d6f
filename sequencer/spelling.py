"""What is wrong with a text that is no length, and how to write it.

Kept apart from reading: `sequencer.lengths` accepts by one strict rule, and only what it refuses
comes here. A repaired spelling is offered only when it reads as a length.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import reduce

from sequencer.facts import Fact, Kind, spellings

_Repair = Callable[[str], str]

_VULGAR = "½¼¾⅛⅜⅝⅞⅓⅔⅕⅖⅗⅘⅙⅚⅐⅑⅒"
_UNITS = r"(?:in|mm|cm|[\"″'′])"
_UNIT_NAMES = {
    unit: rf"(?<=[0-9.{_VULGAR}]) *(?:{names})(?![A-Za-z'′’])"
    for unit, names in {
        "'": r"ft\.?|feet|foot|’|‘",
        '"': r"''|′′|’’|“|”|„",
        " in": r"inch(?:es)?|ins?\.|ins|IN|In",
        " mm": r"millimet(?:re|er)s?|mm\.|mms|MM|Mm",
        " cm": r"centimet(?:re|er)s?|cm\.|cms|CM|Cm",
    }.items()
}


def _swap(pattern: str, by: str | Callable[[re.Match[str]], str]) -> _Repair:
    return lambda text: re.sub(pattern, by, text)


def _none(_text: str) -> str:
    return ""


# The first pattern found in a text names its fault, at the place where it was found.
_FAULTS: tuple[tuple[str, Kind, _Repair], ...] = (
    (r"[^\S ]", spellings.STRANGE_SPACE, _swap(r"[^\S ]+", " ")),
    (r"^ *[-−–—]", spellings.NEGATIVE, _swap(r"^ *[-−–—] *", "")),
    (r"^ *\+", spellings.PLUS_SIGN, _swap(r"^ *\+ *", "")),
    (
        r",",
        spellings.COMMA,
        _swap(r"(,(?=[0-9]))|,", lambda found: "." if found[1] else ""),
    ),
    (r"(?<=[0-9]) *[eE][-+]?[0-9]+", spellings.POWER_OF_TEN, _none),
    (r"(?<=[0-9]) +[/⁄]|(?<=[0-9])[/⁄] +", spellings.SPACE_AT_BAR, _swap(r" *[/⁄] *", "/")),
    (
        r"(?<=[0-9])(?: *[-−–—]{2,} *| +[-−–—] *|[-−–—] +|[−–—])(?=[0-9½¼¾⅛⅜⅝⅞])",
        spellings.TWO_JOINS,
        _swap(r" *[-−–—]+ *", "-"),
    ),
    (r"(?<![0-9])\.(?=[0-9])", spellings.POINT_FIRST, _swap(r"(?<![0-9])\.", "0.")),
    (r"\.[0-9]*\.", spellings.SECOND_POINT, _none),
    (r"(?<=[0-9])\.(?![0-9])", spellings.POINT_LAST, _swap(r"\.(?![0-9])", "")),
    (
        rf"(?<=\.)[0-9]+(?:-| *)(?:[0-9]*[/⁄]|[{_VULGAR}])",
        spellings.DECIMAL_AND_FRACTION,
        _none,
    ),
    (r"[/⁄][0-9]+\.", spellings.DECIMAL_AND_FRACTION, _none),
    (r"[/⁄][0-9]+(?P<at>[/⁄])", spellings.SECOND_BAR, _none),
    (r"(?<=[/⁄])0+(?![0-9])", spellings.OVER_NOTHING, _none),
    (
        r"(?<![0-9.])0+(?=[/⁄])",
        spellings.OF_NOTHING,
        _swap(r"^ *(?:(0|[1-9][0-9]*)(?:-| +))?0+[/⁄][0-9]+", lambda found: found[1] or "0"),
    ),
    (
        r"(?<![0-9._])0+(?=[0-9])",
        spellings.LEADING_NOUGHT,
        _swap(r"(?<![0-9._])0+(?=[0-9])", ""),
    ),
    (
        "|".join(_UNIT_NAMES.values()),
        spellings.UNIT_NAME,
        lambda text: reduce(
            lambda done, unit: re.sub(_UNIT_NAMES[unit], unit, done), _UNIT_NAMES, text
        ),
    ),
    (
        rf"(?:\.[0-9]+|[/⁄][0-9]+|[{_VULGAR}]) *(?P<at>['′])",
        spellings.PART_OF_A_FOOT,
        _none,
    ),
    (
        rf"(?<=[0-9{_VULGAR}]) *{_UNITS} *{_UNITS} *$",
        spellings.TWO_UNITS,
        _swap(rf"({_UNITS}) *{_UNITS} *$", r"\1"),
    ),
    (rf"^ *(?![0-9{_VULGAR} ])", spellings.NO_NUMBER, _none),
    (r"(?<=[0-9]) +(?=[0-9]+(?![0-9/⁄]))", spellings.TWO_NUMBERS, _none),
)
_LEADING_LENGTH = re.compile(
    rf" *(?:[0-9]+ *['′] *)?"
    rf"(?:(?:[0-9]+[- ]+)?[0-9]+[/⁄][0-9]+|(?:[0-9]+[- ]*)?[{_VULGAR}]|[0-9]*(?:\.[0-9]+)?)"
    rf"(?: *{_UNITS}(?![a-z]))?"
)


def diagnose(
    text: str, example: str, longest: int, reads: Callable[[str], bool]
) -> tuple[int, Fact, Fact]:
    """The first place (from 0) that is wrong in `text`, what is wrong there, and the right
    spelling where it can be told, else how `example` is written. `reads` tells lengths."""
    like = spellings.LIKE(example=example)
    if not text.strip():
        return 0, spellings.NO_LENGTH(), like
    if len(text) > longest:
        return longest, spellings.TOO_LONG(most=longest), like
    for pattern, kind, repair in _FAULTS:
        found = re.search(pattern, text)
        if found:
            blanks = len(found[0]) - len(found[0].lstrip(" "))
            place = found.start("at") if "at" in found.re.groupindex else found.start() + blanks
            return place, kind(), _hint(text, repair(text).strip(), like, reads)
    good = _LEADING_LENGTH.match(text)
    end = len(good[0]) if good else 0
    rest = text[end:].strip()
    place = len(text) - len(text[end:].lstrip(" "))
    # Only a remark may be left out: `22 m` is not 22, nor is `1/2 1/4` any 1/2.
    kept = text[:end].strip() if rest.startswith(("#", "(", ";")) else ""
    return place, spellings.AFTER_LENGTH(rest=rest), _hint(text, kept, like, reads)


def _hint(text: str, repaired: str, like: Fact, reads: Callable[[str], bool]) -> Fact:
    if not reads(repaired):
        return like
    thousands = re.fullmatch(r" *([1-9][0-9]{0,2}),([0-9]{3}(?: *[a-z]+)?) *", text)
    if thousands:
        return spellings.WRITE_EITHER(text=f"{thousands[1]}{thousands[2]}", other=repaired)
    return spellings.WRITE(text=repaired)
