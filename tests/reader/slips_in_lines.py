"""Slips in one line of a setup or step: a figure, a way, a side, a mark."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping

from tests.reader.slips import Kind, Lines, Places, Slip, nudged
from tests.reader.words import LENGTH, MARK

FIGURE = r"(?:\d+ )?\d+/\d+|\d+\.\d+|\d+"
_Change = Callable[[re.Match[str]], str]


def _swap(pattern: str, made: _Change) -> Kind:
    """Lines that a pattern fits, each with one match changed."""
    sought = re.compile(pattern)

    def kind(lines: Lines, places: Places) -> Iterator[Slip]:
        for n, (line, where) in enumerate(zip(lines, places, strict=True)):
            for found in sought.finditer(line) if where else ():
                said = made(found)
                if said != found[0]:
                    changed = f"{line[: found.start()]}{said}{line[found.end() :]}"
                    yield Slip(n, changed, (*where, *re.findall(MARK, found[0])))

    return kind


def _drop(pattern: str, group: int = 0) -> Kind:
    """The same with the match, or a group of it, left out."""
    return _swap(
        pattern, lambda f: f[0][: f.start(group) - f.start()] + f[0][f.end(group) - f.start() :]
    )


def _nudge(before: str, after: str = "") -> Kind:
    """A figure between two texts, one graduation more; where a decimal stands beside it, that."""

    def made(found: re.Match[str]) -> str:
        beside = f"{found[3]}{nudged(found[4])}" if found[4] else ""
        return f"{found[1]}{found[2] if beside else nudged(found[2])}{beside}{found[5]}"

    return _swap(rf"({before})({FIGURE})(?:([″ |(]+)({FIGURE})(?=[″)]))?({after})", made)


def _other(*pairs: tuple[str, str]) -> _Change:
    """Every word of a match in place of its other, both ways."""
    both = {**dict(pairs), **{b: a for a, b in pairs}}
    pattern = re.compile("|".join(map(re.escape, both)))
    return lambda found: pattern.sub(lambda each: both[each[0]], found[0])


def _large(lines: Lines, places: Places) -> Iterator[Slip]:
    """A large figure, or the decimal under it."""
    for n, line in enumerate(lines):
        if not places[n] or not re.search(r"\bheight$", lines[n - 1]):
            continue
        cells, under = line.split(" | "), lines[n + 1].split(" | ")
        for at, cell in enumerate(cells):
            exact = re.match(r"\(([\d.]+)\)", under[at] if at < len(under) else "")
            if not re.fullmatch(FIGURE, cell):
                continue
            row, told = (under, exact[1]) if exact else (cells, cell)
            more = [*row[:at], row[at].replace(told, nudged(told)), *row[at + 1 :]]
            yield Slip(n + bool(exact), " | ".join(more), places[n])


def _another_piece(lines: Lines, places: Places) -> Iterator[Slip]:
    """A piece that is to be cut has the mark of another, of another name."""
    every = sorted({mark for line in lines for mark in re.findall(r"\b[A-Z]+\d+(?= ☐)", line)})
    chip = re.compile(r"\b([A-Z]+\d+)(?= (?:from|A?☐|B☐))")
    for n, (line, where) in enumerate(zip(lines, places, strict=True)):
        for found in chip.finditer(line) if where and where[0].startswith("setup") else ():
            others = [mark for mark in every if mark not in line and mark[-1] != found[1][-1]]
            if others:
                changed = f"{line[: found.start()]}{others[0]}{line[found.end() :]}"
                yield Slip(n, changed, (*where, found[1], others[0]))


def _another_scrap(lines: Lines, places: Places) -> Iterator[Slip]:
    """A test cut on another test piece."""
    tried = re.compile(r"Test cut on (#\d+[a-z]*)")
    every = sorted({mark for line in lines for mark in tried.findall(line)})
    for n, (line, where) in enumerate(zip(lines, places, strict=True)):
        found = tried.search(line)
        others = [mark for mark in every if found and mark != found[1]]
        if found and others:
            yield Slip(n, line.replace(found[1], others[0], 1), (*where, found[1], others[0]))


def _unguarded(found: re.Match[str]) -> str:
    said = found[0]
    if " on" in said:
        return said.replace("guard and riving knife on", "guard off, riving knife low")
    return re.sub("guard off, .*", "guard and riving knife on", said)


def _share(found: re.Match[str]) -> str:
    if "that" in found[0]:
        return "by that much" if "half" in found[0] else "by half that"
    if "half" in found[0]:
        return found[0].replace("half ", "")
    return found[0].replace("by ", "by half ")


def _target(found: re.Match[str]) -> str:
    if found[3]:
        return f"{found[1]}{found[2]}({nudged(found[3])})"
    return f"{found[1]}{nudged(found[2])}"


_TURNS = _other(("toward", "away"), ("lower", "raise"))
_CHIP = r"(?<![\w#])[A-Z]+\d+(?: from #\d+, end [AB] at the stop)?(?: [AB]?☐)+ ?"

KINDS: Mapping[str, Kind] = {
    "a large figure": _large,
    "a move's figure": _nudge(r"☐ (?:blade|fence|stop|jig|mi\w+ stop) "),
    "a setting's figure": _nudge(r"☐ set the [\w ]+ to "),
    "away or toward": _swap(
        rf"{LENGTH} (?:away from|toward) the blade", _other(("away from", "toward"))
    ),
    "up or down": _swap(r"☐ blade .* (?:up|down)$", _other((" up", " down"))),
    "how the blade leans": _swap(
        r"(?:tilt the blade|blade leans) .*? the fence", _other(("away from", "toward"))
    ),
    "a drawing's distance": _nudge(r"distance (?=[^|]*\|)"),
    "a drawing's height": _nudge(r"height \| (?!.*\|)"),
    "a drawing's kerf": _nudge(r"kerf "),
    "marked face or back": _swap(
        r"(?:marked face|show face|back) (?=down|against)",
        lambda f: "back " if f[0] == "marked face " else "marked face ",
    ),
    "inside or outside edge": _swap(
        r"(?:inside|outside) edge (?=down|against)", _other(("inside", "outside"))
    ),
    "end A or B": _swap(r": end [AB] down|, end [AB] at", _other(("end A", "end B"))),
    "a pass missing": _drop(r"; turn (?:round|over), [^;.]+"),
    "the other end missing": _drop(r"; then the other end [^;.]+"),
    "how far waste is nibbled": _drop(r"; then slide away from it [^;.]+"),
    "a correction's way": _swap(r"Too (?:much|tight)\b.*? Too (?:little|loose)\b.*?\.", _TURNS),
    "a correction's share": _swap(r"by (?:that much|half that|(?:half )?the thickness of)", _share),
    "the same way for too little": _swap(
        r"Too (?:little|loose)(?:, new (?:ends?|strip))?: (?:toward|away|raise it|lower it)", _TURNS
    ),
    "a good bound": _nudge(r" – (?=[\d.]+ (?:mm|in))"),
    "a target": _swap(rf"(, target )({FIGURE})(?: ?\(([\d.]+)\))?", _target),
    "another test piece": _another_scrap,
    "the way of another step": _swap(
        r"(same way as step )(\d+)", lambda f: f"{f[1]}{int(f[2]) + 1}"
    ),
    "a piece missing": _drop(_CHIP),
    "an end missing": _drop(r"[A-Z]+\d+ A☐( B☐)", 1),
    "another piece's mark": _another_piece,
    "the end at the stop": _swap(
        rf"{MARK} from #\d+, end [AB] at the stop", _other(("end A", "end B"))
    ),
    "another strip": _swap(rf"({MARK} from #)(\d+)", lambda f: f"{f[1]}{int(f[2]) + 1}"),
    "the guard": _swap(r"^(?:☐ Step \d+: )?guard (?:and riving knife on|off, .*)$", _unguarded),
    "the side that waste falls to": _swap(
        r"falls to the (?:left|right)", _other(("the left", "the right"))
    ),
    "the carrier": _swap(
        r"on the (?:rip fence|crosscut sled)", _other(("rip fence", "crosscut sled"))
    ),
    "what comes off at the bench": _nudge(r"(?<![\d/.])(?<!\d )", r"(?:″| mm) off both ends"),
    "the jig's share": _nudge(r"^fence: (?=.* the jig)"),
}
