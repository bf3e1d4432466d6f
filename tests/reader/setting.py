"""The saw's knobs as a person sets them, from the words and from the large figures: both must
lead to the same, and so must the picture."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from tests.reader.told import Document, Setup
from tests.reader.turns import BLOCK, BLOCK_OUT, turn
from tests.reader.words import LEANS, PUTS, Lies, length, slope


class Setting:
    """How the saw stands while a document is followed."""

    def __init__(self, document: Document, near: Fraction, decks: dict[str, Fraction]) -> None:
        self.document, self.near, self.decks = document, near, decks
        self.knobs: dict[str, Fraction] = {}
        self.carrier = self.cutter = ""
        self.lean = self.block = Fraction(0)

    def enter(self, setup: Setup) -> Iterator[str]:
        """The words and the large figures lead to the same settings."""
        for text in setup.turns:
            if text in PUTS:
                self.carrier = PUTS[text]
            elif fitted := re.fullmatch(r"saw unplugged, fit the (.+)", text):
                self.cutter = fitted[1]
            elif text == "blade square to the table":
                self.lean = Fraction(0)
            elif leans := LEANS.search(text):
                self.lean = slope(leans)
            elif text.startswith("push the fence right away"):
                self.knobs.pop("fence", None)
            elif text.startswith("take the stop off"):
                self.knobs.pop("stop", None)
            elif put := BLOCK.fullmatch(text):
                self.block = length(put[1])
            elif text == BLOCK_OUT:
                self.block = Fraction(0)
            elif done := turn(text):
                if done.to is not None:
                    self.knobs[done.knob] = done.to
                elif done.knob not in self.knobs:
                    yield f"the {done.knob} is moved from nowhere"
                else:
                    assert done.by is not None
                    self.knobs[done.knob] += done.by
        if setup.carrier == "tenoning jig":
            setup.block = self.block
        if setup.behind not in (Fraction(0), setup.block):
            yield f"a block {_n(setup.behind)} thick stays, and {_n(setup.block)} was put there"
        if setup.carrier != self.carrier:
            yield f"is on the {setup.carrier}, and the {self.carrier} was put on"
        if setup.cutter != self.cutter:
            yield f"cuts with “{setup.cutter}”, and “{self.cutter}” is in the saw"
        if abs(setup.lean - self.lean) > Fraction(1, 500):
            yield f"the blade leans {_n(setup.lean)} in one, and was set to {_n(self.lean)}"
        moved = {done.knob for text in setup.turns if (done := turn(text))}
        for knob, (shown, exact) in setup.figures.items():
            stands = self.knobs.get(knob)
            if stands is None or abs(stands - exact) > 2 * self.near:
                yield f"the {knob} is shown at {_n(exact)} and set to {_n(stands)}"
            if abs(shown - exact) > self._graduation:
                yield f"{_n(shown)} and ({_n(exact)}) are one figure"
            if (knob in setup.stays) == (knob in moved):
                yield f"the {knob} stays and is turned, or neither"
            self.knobs[knob] = exact
        yield from self._drawn(setup)

    @property
    def _graduation(self) -> Fraction:
        """No rule is coarser."""
        return Fraction(1, 16) if self.near < Fraction(1, 100) else Fraction(1)

    def _drawn(self, setup: Setup) -> Iterator[str]:
        """The drawing's figures are the setting's; one that is drawn elsewhere is done alike."""
        if setup.like:
            yield from self._alike(setup, setup.like)
            return
        if setup.drawn_at:
            yield from self._alike(setup, setup.drawn_at)
            return
        guide = setup.guide
        height = setup.figures["height"][1]
        kerf = self.document.kerfs.get(setup.cutter, Fraction(0))
        due = {"height": height, "kerf": kerf, "depth": height - self.deck(setup)}
        if guide is not None:
            due["distance"] = guide + setup.block
        for name, shown in setup.drawn.items():
            if name not in due or abs(shown - due[name]) > self.near:
                yield f"the picture says {name} {_n(shown)}, not {_n(due.get(name))}"
        for name in ("height", "kerf"):
            if self.document.parts and name not in setup.drawn and setup.carrier != "mitre sled":
                yield f"the picture says no {name}"
        if setup.split:
            reading = next(v for k, (_, v) in setup.figures.items() if k != "height")
            if abs(sum(setup.split) - reading) > self.near:
                yield "fence, jig and what is left to the blade do not add up"

    def _alike(self, setup: Setup, number: int) -> Iterator[str]:
        """A setup without its flat view lies as the one that is named; only without that view, it
        may be at the piece's other end."""
        other = next((each for each in self.document.setups if each.number == number), None)
        if other is None or other.like or other.drawn_at or other.number >= setup.number:
            yield f"setup {number} has no picture"
        elif other.carrier != setup.carrier:
            yield f"setup {number} is on another carrier"
        elif _lies(other) != _lies(setup) if setup.like else _ends(other) != _ends(setup):
            yield f"pieces do not lie as in setup {number}"

    def deck(self, setup: Setup) -> Fraction:
        return self.decks.get(setup.carrier, Fraction(0))


def _lies(setup: Setup) -> list[list[Lies]]:
    return [work.passes for step in setup.steps for work in step.works if work.passes]


def _ends(setup: Setup) -> set[Lies]:
    """Every pass of its work, as it is and at the piece's other end."""
    made = [each for passes in _lies(setup) for each in passes]
    return {*made, *(each.at_other_end() for each in made)}


def _n(value: Fraction | None) -> str:
    return "nothing" if value is None else f"{float(value):g}"
