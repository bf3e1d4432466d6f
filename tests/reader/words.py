"""The reader's own small grammar: the trade's words in both dialects, sides of a piece, lengths,
how a piece lies and what is turned. It shares nothing with the rooms that wrote the words."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from math import radians, tan

from sequencer.records import replace

_BRITISH = {
    "dado set": "grooving head", "dadoes": "housings", "dado": "housing", "rabbets": "rebates",
    "rabbet": "rebate", "mitered": "mitred", "miters": "mitres", "miter": "mitre",
    "latch": "closing", "centered": "centred", "clamps": "cramps", "clamp": "cramp",
    "joint the": "plane the", "joint a face": "plane a face",
}  # fmt: skip
_AMERICAN = re.compile(rf"\b({'|'.join(_BRITISH)})\b", re.IGNORECASE)

NUMBER = r"−?(?:(?:\d+ )?\d+/\d+|\d+(?:\.\d+)?)"
LENGTH = r"(?:\d+ )?\d+(?:/\d+|\.\d+)?(?:″| mm)?(?: ?\(\d+(?:\.\d+)?″?\))?"
_LENGTH = re.compile(r"((?:\d+ )?\d+(?:/\d+|\.\d+)?)(?:″| mm)?(?: ?\((\d+(?:\.\d+)?)″?\))?")
SIGNALS = ("DANGER", "WARNING", "CAUTION", "NOTICE")
"""Words that a caution begins with."""

MARK = r"(?:#\d+[a-z]*|[A-Z]+\d+)"
NAMED = re.compile(rf"{MARK}|[A-Z]+(?= |,|$)")


RUN = r"(?:#\d+–#\d+|[A-Z]+–[A-Z]+)"
"""Strips or doors that follow one another, the first and the last named."""


class Unreadable(Exception):
    """What stands there tells a person nothing, or not enough."""


def named(text: str) -> list[str]:
    """The marks in a list, those between a first and a last too.

    >>> named("#2–#5, #9"), named("Y–AB")
    (['#2', '#3', '#4', '#5', '#9'], ['Y', 'Z', 'AA', 'AB'])
    """
    found: list[str] = []
    for each in text.split(", "):
        first, _, last = each.partition("–")
        found.append(first)
        while last and found[-1] != last:
            if len(found[-1]) > len(last):
                raise Unreadable(f"“{each}” does not end")
            found.append(_next(found[-1]))
    return found


def _next(mark: str) -> str:
    """The mark that follows a strip's or a door's."""
    if mark.startswith("#"):
        return f"#{int(mark[1:]) + 1}"
    head, last = mark[:-1], mark[-1]
    if last != "Z":
        return head + chr(ord(last) + 1)
    return (_next(head) if head else "A") + "A"


def british(text: str) -> str:
    """The same as a British maker would say it."""

    def swap(found: re.Match[str]) -> str:
        word = _BRITISH[found[0].lower()]
        return word.capitalize() if found[0][0].isupper() else word

    return _AMERICAN.sub(swap, text)


def length(text: str) -> Fraction:
    """A length as printed, the decimal beside a rounded fraction being the exact one.

    >>> length("2 5/16 (2.309)"), length("444.6 mm"), length("17/32″ (0.529″)")
    (Fraction(2309, 1000), Fraction(2223, 5), Fraction(529, 1000))
    """
    found = _LENGTH.fullmatch(text.strip())
    if found is None:
        raise Unreadable(f"“{text}” is no length")
    if found[2]:
        return Fraction(found[2])
    return sum((Fraction(part) for part in found[1].split()), Fraction(0))


def plain(text: str) -> Fraction:
    """The same as the large figure has it, without the decimal."""
    return length(re.sub(r" ?\([^)]*\)", "", text))


SIDES = ("marked", "other", "inside", "outside", "A", "B")
"""Of a piece: the marked face and the one behind it, its edges, its ends."""

OPPOSITE = {
    "marked": "other", "other": "marked", "inside": "outside", "outside": "inside",
    "A": "B", "B": "A",
}  # fmt: skip

_SIDES = {
    "marked face": "marked", "inside edge": "inside", "outside edge": "outside",
    "end A": "A", "end B": "B",
}  # fmt: skip


def side(text: str, face: str) -> str:
    """Which side of a piece is named; `face` is where the marked face looks, out or in.

    A sheet calls the face behind the marked one the back where the marked face is the show face,
    and the show face where that looks in.
    """
    behind = "back" if face == "out" else "show face"
    known = {**_SIDES, behind: "other"}
    if text in known:
        return known[text]
    if text in ("face", "the face"):
        return "marked"
    raise Unreadable(f"“{text}” names no side of a piece whose marked face looks {face}")


@dataclass(frozen=True)
class Lies:
    """One pass of a piece: what is down, what bears on fence, stop or jig (`bears` on which), and
    whether all is cut away to there (`sweep`), or back to the kerf that is there (`back`)."""

    down: str
    against: str = ""
    bears: str = ""
    sweep: bool = False
    back: bool = False
    far: bool = False
    slanted: bool = False
    off_strip: bool = False
    by_eye: bool = False
    on_strip: bool = False

    def at_other_end(self) -> Lies:
        """The same at the piece's other end."""
        swap = {"A": "B", "B": "A"}
        return replace(
            self,
            down=swap.get(self.down, self.down),
            against=swap.get(self.against, self.against),
        )


_LIES = re.compile(
    r"(?P<down>[\w ]+) down, (?P<slanted>outside edge along the 45° fence, )?"
    r"(?P<against>[\w ]+?) (?P<bears>against the fence|at the stop|against the jig"
    r"|against the block|at the mitre stop)"
)
_ROUND = re.compile(
    r"turn round, ([\w ]+?) (against the fence|at the stop|against the jig|against the block)"
)
_OVER = re.compile(r"turn over, ([\w ]+) down")
_BY_EYE = re.compile(
    r"([\w ]+) down, inside edge away from you; just clean the end on the stop's side"
)
_STRIP = re.compile(r"([\w ]+) down, inside edge away from you, squared end at the stop")
SURFACE = {
    "against the fence": "fence", "at the stop": "stop", "against the jig": "jig",
    "against the block": "block", "at the mitre stop": "mitre stop",
}  # fmt: skip
_SAME = ("then the other end the same way", "then the other end on the other fence")


def passes(how: str, face: str) -> list[Lies]:
    """How a piece lies in each of its passes. Raises `Unreadable`."""
    if whole := _BY_EYE.fullmatch(how):
        return [Lies(side(whole[1], face), by_eye=True)]
    made: list[Lies] = []
    strip = False
    for part in how.split("; "):
        if found := _STRIP.fullmatch(part):
            made.append(Lies(side(found[1], face), "squared end", "stop", off_strip=True))
        elif found := _LIES.fullmatch(part):
            made.append(
                Lies(
                    side(found["down"], face),
                    side(found["against"], face),
                    SURFACE[found["bears"]],
                    slanted=bool(found["slanted"]),
                )
            )
        elif not made:
            raise Unreadable(f"“{part}” says not how a piece lies")
        elif part == "when all are cut so, blade still, fit the bearing strip":
            strip = True
        elif found := _ROUND.fullmatch(part):
            turned = replace(made[-1], against=side(found[1], face), bears=SURFACE[found[2]])
            made.append(replace(turned, on_strip=strip))
            strip = False
        elif strip:
            raise Unreadable(f"“{part}” is done on a bearing strip, and nothing is turned round")
        elif found := _OVER.fullmatch(part):
            made.append(replace(made[-1], down=side(found[1], face)))
        elif part in _SAME:
            made += [each.at_other_end() for each in made]
        elif part == "then slide away from it pass by pass until all the waste is gone":
            made[-1] = replace(made[-1], sweep=True)
        elif part == "then slide away from it pass by pass, back to the first kerf":
            made[-1] = replace(made[-1], sweep=True, back=True)
        elif part == "the part is the strip on the open side":
            made[-1] = replace(made[-1], far=True)
        else:
            raise Unreadable(f"“{part}” says not how a piece lies")
    return made


FALLS = re.compile(
    r"(the offcut|the rest of the strip|the waste strip|the cheek|what comes off)"
    r" falls to the (left|right); leave it until the blade stops\.?",
    re.IGNORECASE,
)
"""What comes loose, and to which side of the blade."""


LEANS = re.compile(r"(?:left|right) ([\d.]+)°, (away from|toward) the fence")


def slope(leans: re.Match[str]) -> Fraction:
    """How far a blade leans away from the fence in one unit of height, negative where toward it."""
    rise = Fraction(tan(radians(float(leans[1])))).limit_denominator(10**6)
    return rise if leans[2] == "away from" else -rise


FRESH = (
    "saw off first the end that was tried in the jig",
    "along an edge that was not tried yet",
)
GUARDS = {
    "guard and riving knife on": "on",
    "guard off, riving knife low": "knife low",
    "guard off, riving knife set below the top of the blade": "knife low",
    "guard and riving knife off": "off",
}
PUTS = {
    "work along the rip fence": "rip fence",
    "put the crosscut sled on": "crosscut sled",
    "put the tenoning jig on": "tenoning jig",
    "put the mitre sled on": "mitre sled",
}
"""What guard, carrier and test piece are told to be, in the lines that say nothing else."""
