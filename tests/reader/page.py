"""The cards of the page, read back from the words and figures that the browser is sent."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Any

from tests.reader.rows import FIT
from tests.reader.told import UNREAD, Check, Document, Piece, Setup, Step, Work
from tests.reader.turns import BEHIND, turn
from tests.reader.words import (
    FALLS,
    FRESH,
    GUARDS,
    LEANS,
    LENGTH,
    MARK,
    PUTS,
    Lies,
    Unreadable,
    british,
    length,
    passes,
    plain,
    slope,
)

Json = dict[str, Any]
_NOTE = re.compile(
    r"(?:(?P<name>(?:(?! down|\d pass)[\w' ])+?)(?:, |$))?"
    r"(?:from (?P<strip>#\d+), end (?P<end>[AB]) at the stop(?:, |$))?"
    r"(?:\d+ pass(?:es)?(?:, |$))?(?P<how>.*)"
)
_KERF = re.compile(rf"(.+), kerf ({LENGTH})")
_RIDES = re.compile(rf"({LENGTH}) and ({LENGTH}) for the jig")


def read(cards: Json, known: Document) -> Document:
    """Everything that the cards tell; where each door's marked face looks, and what lies in each
    strip, is seen on the wood, as the paper had it marked. Raises `Unreadable`, naming setup or
    step."""
    reader = _Page(known)
    for card in _british(cards["cards"]):
        try:
            reader.card(card)
        except Unreadable as error:
            raise Unreadable(f"{card['heading']}: {error}") from error
    return reader.document


def _british(found: Any) -> Any:
    if isinstance(found, dict):
        return {name: _british(each) for name, each in found.items()}
    if isinstance(found, list):
        return [_british(each) for each in found]
    return british(found) if isinstance(found, str) else found


class _Page:
    def __init__(self, known: Document) -> None:
        self.document = Document(doors=known.doors, strips=known.strips)
        self.carrier = ""
        self.guard: list[Step] = []
        self.warned: list[str] = []
        self.ticks: list[str] = []

    def card(self, card: Json) -> None:
        kind = card["kind"]
        number = int(card["n"].split(" ")[-1]) if card["n"] else 0
        if kind == "guard":
            self.guard = [Step(number, "guard", how=_said(card["how"]))]
            self.warned = _warned(card)
        elif kind == "set":
            self._set(card, number)
        elif kind == "power":
            setup = self.document.setups[-1]
            ticks = (unit["tick"] for unit in card["units"] if "tick" in unit)
            setup.turns += [tick.removesuffix(".") for tick in ticks]
        elif kind == "bench":
            self.document.told.append(_bench(card, number))
        elif kind == "test":
            self._test(card, number)
        elif kind == "work":
            self._work(card, number)

    def _set(self, card: Json, number: int) -> None:
        setup = Setup(number, card["title"], "")
        setup.turns = [_said([move]) for move in card["moves"]]
        for text in setup.turns:
            self.carrier = PUTS.get(text, self.carrier)
        setup.carrier = self.carrier
        for big in card["big"]:
            name = big["name"].removeprefix("blade ")
            top = f"{big['top']}/{big['bottom']}" if big["top"] else ""
            shown = plain(" ".join(part for part in (big["whole"], top) if part))
            exact = Fraction(big["decimal"]) if big["decimal"] else shown
            setup.figures[name] = (shown, exact)
            if rides := _RIDES.match(big["note"]):
                setup.split = (length(rides[1]), length(rides[2]))
            elif leans := LEANS.search(big["note"]):
                setup.lean = slope(leans)
        setup.by_eye = set(setup.figures) == {"height"}
        moved = {done.knob for text in setup.turns if (done := turn(text))}
        setup.stays = set(setup.figures) - moved
        for text in card["how"]:
            told = _said([text])
            if kerf := _KERF.fullmatch(told):
                setup.cutter = kerf[1]
                self.document.kerfs[kerf[1]] = length(kerf[2])
            elif told.split(";", maxsplit=1)[0] in GUARDS:
                setup.guard = GUARDS[told.split(";", maxsplit=1)[0]]
        setup.steps = self.guard
        setup.warned = tuple(self.warned or _warned(card))
        self.guard, self.warned = [], []
        self.document.told.append(setup)

    def _face(self, mark: str, how: str) -> str:
        face = self.document.face_of(mark)
        return face if face != "either" else "in" if "show face" in how else "out"

    def _held(self, card: Json) -> list[str]:
        """How it lies; what falls is noted apart."""
        falls = [found for each in card["how"] if (found := FALLS.fullmatch(each))]
        self.document.setups[-1].falls |= {(each[1].lower(), each[2]) for each in falls}
        behind = [found for each in card["how"] if (found := BEHIND.fullmatch(each))]
        self.document.setups[-1].behind = max(
            (length(each[1]) for each in behind), default=Fraction(0)
        )
        return [
            each for each in card["how"] if not FALLS.fullmatch(each) and not BEHIND.fullmatch(each)
        ]

    def _test(self, card: Json, number: int) -> None:
        parts = [_said([each]) for each in self._held(card)]
        kept = [each for each in parts if each not in FRESH and not each.startswith("measure ")]
        fresh = "".join(each for each in parts if each in FRESH)
        scrap = card["title"].split(" ")[-1]
        step = Step(number, "test", scrap=scrap, how="; ".join(kept), fresh=fresh)
        step.checks = [_point(point) for point in card["points"]]
        self.document.setups[-1].steps.append(step)

    def _work(self, card: Json, number: int) -> None:
        step = Step(number, card["title"].split(", end")[0])
        common = _said(self._held(card))
        for mark, note in card["notes"].items():
            found = _NOTE.fullmatch(note)
            if found is None:
                raise Unreadable(f"{mark}: “{note}” cannot be followed")
            how = common or _in_turn(found["how"])
            piece = Piece(mark, found["strip"] or "", found["end"] or "")
            lies: list[Lies] = passes(how, self._face(mark, how))
            step.works.append(Work(lies, [piece]))
        step.checks = [_point(point) for point in card["points"]]
        self.document.setups[-1].steps.append(step)


def _in_turn(note: str) -> str:
    """What stands in one line with commas, as passes one after another."""
    starts = r", (?=(?:[\w ]+ down,|then the other end))"
    return re.sub(starts, "; ", note)


def _said(sentences: list[str]) -> str:
    """Sentences as one line that begins small and has no stop."""
    return "; ".join(each[:1].lower() + each[1:].removesuffix(".") for each in sentences)


def _warned(card: Json) -> list[str]:
    return [
        f"{each['called']} {part}"
        for each in card["cautions"]
        for key in ("hazard", "consequence", "avoidance")
        if (part := each.get(key))
    ]


def _point(point: Json) -> Check:
    figure = point["figure"]
    top = f"{figure['top']}/{figure['bottom']}" if figure["top"] else ""
    exact = figure["decimal"] or " ".join(part for part in (figure["whole"], top) if part)
    target = None if point["at_most"] else length(exact)
    if point["by_fit"]:
        about = re.fullmatch(FIT, point["tool"])
        if about is None:
            raise Unreadable(f"“{point['tool']}” says not how it is read")
        seen, tool = None, point["tool"]
        if about["about"]:
            seen, tool = length(about["about"]), "by eye"
        return Check(point["name"], Fraction(0), Fraction(0), seen, tool=tool)
    low, high = (length(point[key]) for key in ("low", "high"))
    return Check(point["name"], low, high, target, tool=point["tool"])


def _bench(card: Json, number: int) -> Step:
    step = Step(number, "bench", title=card["title"], lines=list(card["how"]))
    step.warned = tuple(_warned(card))
    step.checks = [_point(point) for point in card["points"]]
    for unit in card["units"]:
        if "p" not in unit:
            step.marks = (*step.marks, unit["of"])
        elif not unit["spread"]:
            check = step.checks[unit["p"]]
            check.marks = (*check.marks, unit["of"])
    for check, note in zip(step.checks, card["notes"].values(), strict=False):
        thickness, _, marks = note.partition(": ")
        if check.tool not in UNREAD and length(thickness) != check.target:
            raise Unreadable(f"{thickness} and {check.target} are one thickness")
        check.marks = tuple(re.findall(MARK, marks))
    return step
