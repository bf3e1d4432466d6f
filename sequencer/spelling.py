"""What is wrong with a text that is no length, and how to write it.

Kept apart from reading: `sequencer.lengths` accepts by one strict rule, and only what it refuses
comes here. A repaired spelling is offered only when it reads as a length.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import reduce

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
_FAULTS: tuple[tuple[str, str, _Repair], ...] = (
    (r"[^\S ]", "a space that is not the plain one", _swap(r"[^\S ]+", " ")),
    (r"^ *[-−–—]", "a length cannot be negative", _swap(r"^ *[-−–—] *", "")),
    (r"^ *\+", "a length has no sign", _swap(r"^ *\+ *", "")),
    (
        r",",
        "a comma is not read: some mark thousands with it, some decimals",
        _swap(r"(,(?=[0-9]))|,", lambda found: "." if found[1] else ""),
    ),
    (r"(?<=[0-9]) *[eE][-+]?[0-9]+", "powers of ten are not read", _none),
    (r"(?<=[0-9]) +[/⁄]|(?<=[0-9])[/⁄] +", "a space at the fraction bar", _swap(r" *[/⁄] *", "/")),
    (
        r"(?<=[0-9])(?: *[-−–—]{2,} *| +[-−–—] *|[-−–—] +|[−–—])(?=[0-9½¼¾⅛⅜⅝⅞])",
        "whole number and fraction are joined by one hyphen or one space",
        _swap(r" *[-−–—]+ *", "-"),
    ),
    (r"(?<![0-9])\.(?=[0-9])", "a decimal begins with a digit", _swap(r"(?<![0-9])\.", "0.")),
    (r"\.[0-9]*\.", "a second decimal point", _none),
    (r"(?<=[0-9])\.(?![0-9])", "a decimal ends with a digit", _swap(r"\.(?![0-9])", "")),
    (
        rf"(?<=\.)[0-9]+(?:-| *)(?:[0-9]*[/⁄]|[{_VULGAR}])",
        "a decimal and a fraction in one number",
        _none,
    ),
    (r"[/⁄][0-9]+\.", "a decimal and a fraction in one number", _none),
    (r"[/⁄][0-9]+(?P<at>[/⁄])", "a second fraction bar", _none),
    (r"(?<=[/⁄])0+(?![0-9])", "a fraction over nothing", _none),
    (
        r"(?<![0-9.])0+(?=[/⁄])",
        "a fraction of nothing",
        _swap(r"^ *(?:(0|[1-9][0-9]*)(?:-| +))?0+[/⁄][0-9]+", lambda found: found[1] or "0"),
    ),
    (
        r"(?<![0-9._])0+(?=[0-9])",
        "a number does not begin with 0",
        _swap(r"(?<![0-9._])0+(?=[0-9])", ""),
    ),
    (
        "|".join(_UNIT_NAMES.values()),
        "a unit is written in, \", ', mm or cm",
        lambda text: reduce(
            lambda done, unit: re.sub(_UNIT_NAMES[unit], unit, done), _UNIT_NAMES, text
        ),
    ),
    (
        rf"(?:\.[0-9]+|[/⁄][0-9]+|[{_VULGAR}]) *(?P<at>['′])",
        "feet are whole, with inches after them",
        _none,
    ),
    (
        rf"(?<=[0-9{_VULGAR}]) *{_UNITS} *{_UNITS} *$",
        "two units for one number",
        _swap(rf"({_UNITS}) *{_UNITS} *$", r"\1"),
    ),
    (rf"^ *(?![0-9{_VULGAR} ])", "a length begins with a number", _none),
    (r"(?<=[0-9]) +(?=[0-9]+(?![0-9/⁄]))", "two numbers where one length is wanted", _none),
)
_LEADING_LENGTH = re.compile(
    rf" *(?:[0-9]+ *['′] *)?"
    rf"(?:(?:[0-9]+[- ]+)?[0-9]+[/⁄][0-9]+|(?:[0-9]+[- ]*)?[{_VULGAR}]|[0-9]*(?:\.[0-9]+)?)"
    rf"(?: *{_UNITS}(?![a-z]))?"
)


def diagnose(
    text: str, example: str, longest: int, reads: Callable[[str], bool]
) -> tuple[int, str, str]:
    """The first place (from 0) that is wrong in `text`, what is wrong there, and the right
    spelling where it can be told, else how `example` is written. `reads` tells lengths."""
    like = f"write it like {example}"
    if not text.strip():
        return 0, "no length is given", like
    if len(text) > longest:
        return longest, f"longer than {longest} characters", like
    for pattern, message, repair in _FAULTS:
        found = re.search(pattern, text)
        if found:
            blanks = len(found[0]) - len(found[0].lstrip(" "))
            place = found.start("at") if "at" in found.re.groupindex else found.start() + blanks
            return place, message, _hint(text, repair(text).strip(), like, reads)
    good = _LEADING_LENGTH.match(text)
    end = len(good[0]) if good else 0
    rest = text[end:].strip()
    place = len(text) - len(text[end:].lstrip(" "))
    # Only a remark may be left out: `22 m` is not 22, nor is `1/2 1/4` any 1/2.
    kept = text[:end].strip() if rest.startswith(("#", "(", ";")) else ""
    return place, f"{rest!r} after the length", _hint(text, kept, like, reads)


def _hint(text: str, repaired: str, like: str, reads: Callable[[str], bool]) -> str:
    if not reads(repaired):
        return like
    thousands = re.fullmatch(r" *([1-9][0-9]{0,2}),([0-9]{3}(?: *[a-z]+)?) *", text)
    if thousands:
        return f"write {thousands[1]}{thousands[2]} or {repaired}"
    return f"write {repaired}"
