"""A person at the saw, without a browser: ticks and measures whatever the current card asks for."""

from __future__ import annotations

from collections.abc import Callable
from itertools import count
from pathlib import Path
from typing import Any

from sequencer.sawside.cards import Card, Unit
from sequencer.sawside.engine import Engine, Files, Outcome, Planning
from sequencer.sawside.fold import current
from sequencer.sawside.readings import followed
from sequencer.sawside.state import State
from sequencer.sawside.store import Event, Store
from tests import once, spaced

ROOT = Path(__file__).resolve().parents[2]
PANTRY = ROOT / "examples" / "pantry"
WALL = ROOT / "examples" / "wall-cabinet"
DADO = (
    """\
unit = "in"
[stock]
thickness = "1 1/8"
[[door]]
[door.opening]
width = "15"
height = "24"
[[door]]
[door.opening]
width = "17"
height = "28"
""",
    """\
unit = "in"
[minutes]
cutter = "1/4"
guard = "1/4"
[saw]
dado = true
[[cutter]]
name = "combination blade"
kind = "blade"
kerf = "1/8"
diameter = "10"
grind = "flat-top"
[[cutter]]
name = "dado set"
kind = "dado"
kerf = "3/8"
diameter = "8"
grind = "flat-top"
""",
)
"""A job and a shop whose plan has two cutters: the slots are cut with a dado set."""

START = 1_700_000_000_000
TICK = 10_000
"""ms between two taps."""


def files_of(folder: Path, change: Callable[[str], str] = str) -> Files:
    """An example's job and shop, the job's text changed."""
    job = change((folder / "job.toml").read_text("utf-8"))
    shop = folder / "shop.toml"
    named = ("shop.toml", shop.read_text("utf-8")) if shop.exists() else None
    return Files((("job.toml", job),), named)


def dado_files() -> Files:
    job, shop = DADO
    return Files((("job.toml", job),), ("shop.toml", shop))


def block_files() -> Files:
    return Files((("job.toml", spaced.JOB),), ("shop.toml", spaced.SHOP))


class Saw:
    """One job followed. Every tap is ten seconds after the one before."""

    def __init__(self, path: Path, files: Files | None = None) -> None:
        self.path = path
        self.files = files or files_of(PANTRY)
        self.numbers = count(1)
        self.open()

    def open(self, files: Files | None = None) -> None:
        """Start the program, anew or for the first time."""
        self.files = files or self.files
        self.store = Store(self.path)
        planning = Planning(self.store, once.planned)
        self.engine = Engine(self.store, planning, self.files, START)

    def restart(self, files: Files | None = None, *, take: bool = True) -> None:
        """Started anew; changed files are taken where they are offered, or left open."""
        self.store.close()
        self.open(files)
        if take and self.engine.offered:
            self.do(kind="adopt", digest=self.engine.offered)

    @property
    def state(self) -> State:
        return self.engine.state

    @property
    def card(self) -> Card:
        card = current(self.state)
        assert card is not None
        return card

    @property
    def unit(self) -> Unit:
        """The first thing that is open on the current card."""
        card = self.card
        return next(unit for unit in card.units if self.state.status(card, unit) == "open")

    def send(self, **body: Any) -> Outcome:
        n = len(self.store.events()[0])
        (outcome,) = self.engine.take(
            [Event(f"tap-{next(self.numbers)}-{n}", START + TICK * n, body)]
        )
        return outcome

    def do(self, **body: Any) -> str:
        """An event that has to be kept; what is said to it, as ids with their parameters."""
        outcome = self.send(**body)
        assert outcome.kept, outcome.says
        return said(outcome)

    def tick(self, unit: str | None = None, card: str | None = None) -> str:
        name = unit or self.unit.name
        return self.do(kind="tick", card=card or self.card.key, unit=name)

    def read(self, text: str, unit: str | None = None, card: str | None = None) -> str:
        name = unit or self.unit.name
        return self.do(kind="read", card=card or self.card.key, unit=name, text=text)

    def keep(self, text: str) -> str:
        """A reading that is not good, of what stays as it was cut."""
        kept = {"text": text, "keep": True}
        return self.do(kind="read", card=self.card.key, unit=self.unit.name, **kept)

    def wanted(self) -> str:
        """The target of the reading that is asked for, as the page tells it."""
        point = followed(self.card.points[self.unit.point or 0], self.state)
        return exact(point.target, self.state)

    def step(self) -> None:
        """Do the next thing as it is wanted."""
        if self.unit.point is None:
            self.tick()
        else:
            self.read(self.wanted())

    def go(self, until: Callable[[Card, Unit], bool]) -> None:
        """Do everything as it is wanted up to a card and unit."""
        while not until(self.card, self.unit):
            self.step()

    def go_to_measure(self, measure: str) -> None:
        self.go(lambda c, u: u.point is not None and str(c.points[u.point].measure) == measure)

    def go_to_step(self, label: str) -> None:
        self.go(lambda c, _: c.numbered == "step" and c.label == label)

    def finish(self) -> None:
        while current(self.state) is not None:
            self.step()

    def labels(self) -> list[str]:
        return [f"{c.numbered} {c.label}" for c in self.state.cards if c.numbered]


def said(outcome: Outcome) -> str:
    """Every fact of it in its text form: `answer.try(n=2)`."""
    return " ".join(map(str, outcome.says))


def exact(value: Any, state: State) -> str:
    """A length as it may be typed: whole, fraction or decimal."""
    whole, rest = divmod(value, 1)
    if state.plan.unit == "in" and rest and rest.denominator & (rest.denominator - 1) == 0:
        return f"{whole} {rest}" if whole else str(rest)
    return f"{whole}.{round(rest * 10**9):09d}".rstrip("0").rstrip(".")
