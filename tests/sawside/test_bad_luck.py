"""Whole jobs by an unsteady hand and in bad luck, drawn by lot.

Nothing that was acknowledged is lost, and nothing is shown that is not proven.

Readings scatter about their targets, settings are corrected as told, and what came out otherwise is
kept now and then. In between the program dies, the disk is full, a kept plan is altered, the job
is edited, a second program writes to the same file, and a page was without either for an hour, its
clock set back.
"""

from __future__ import annotations

import random
import re
import sqlite3
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from sequencer.plan import Plan
from sequencer.sawside import engine, view
from sequencer.sawside.engine import Files
from sequencer.sawside.fold import current
from sequencer.sawside.readings import FLOWS, changes_nothing, followed
from sequencer.sawside.store import Event, NotSavedError
from tests.sawside.driver import ROOT, START, TICK, Saw, exact, files_of
from tests.sawside.test_fold import seen

EXAMPLES = sorted(path.parent.name for path in (ROOT / "examples").glob("*/job.toml"))
SEEDS = range(5)
LONGEST = 900
HOUR = 3_600_000


class Person:
    """Follows a job to its end; every so many taps something goes wrong."""

    def __init__(self, path: Path, files: Files, seed: int, every: int) -> None:
        self.files = files
        self.chance = random.Random(seed)
        self.every = every
        self.saw = Saw(path, files)
        self.acknowledged: dict[str, dict[str, Any]] = {}
        self.had: list[str] = []
        self.alone = 0
        self.luck: list[Callable[[], None]] = []
        self.numbers = iter(range(10**9))

    def follow(self) -> None:
        for n in range(LONGEST):
            if current(self.saw.state) is None:
                break
            if n % self.every == self.every - 1:
                self.mishap()
            else:
                self.act()
            self.look()
        assert current(self.saw.state) is None, (self.had[-5:], self.saw.card)
        left = {p.operation for p in self.saw.state.plan.ordering.order}
        assert left <= self.saw.state.done.keys()
        kept = {event.id: event.body for event in self.saw.store.events()[0]}
        for id_, body in self.acknowledged.items():
            # Files that are taken are kept as what the job is by then.
            assert kept[id_] == body or body["kind"] == "adopt"
        assert self.saw.store.sound() == "ok"
        self.saw.store.close()

    def look(self) -> None:
        """What the page gets is of a plan that is proven. Where the rest cannot be made to suit
        what was measured, that is taken back, as far as it goes."""
        assert self.saw.state.plan.proven
        for _ in range(9):
            if self.saw.state.trouble:
                assert self.send(kind="undo", of=self.saw.state.taps[-1][0])
        assert not self.saw.state.trouble

    def send(self, **body: Any) -> bool:
        return self.took([Event(f"tap-{next(self.numbers):06}", self.now(), body)])

    def now(self) -> int:
        """Ten seconds a tap, but for a clock that is set back now and then."""
        back = HOUR if self.chance.random() < 0.1 else 0
        return START + TICK * len(self.saw.store.events()[0]) - back

    def took(self, events: list[Event]) -> bool:
        outcomes = self.saw.engine.take(events)
        for event, outcome in zip(events, outcomes, strict=True):
            if outcome.kept:
                self.acknowledged[event.id] = event.body
        return all(outcome.kept for outcome in outcomes)

    def act(self) -> None:
        saw = self.saw
        body: dict[str, Any] = {"card": saw.card.key, "unit": saw.unit.name}
        if saw.unit.point is None:
            assert self.send(kind="tick", **body), saw.card
            return
        text, good = self.reading()
        point, plan = saw.card.points[saw.unit.point], saw.state.plan
        # What a page counts as good by itself changes nothing here either.
        alone = good and changes_nothing(point, saw.card, saw.state)
        if alone:
            self.alone += 1
            place, known = (saw.card.key, saw.unit.name), list(saw.state.measurements)
            assert self.send(kind="read", text=text, **body)
            verdict = saw.state.readings[place][-1].answer.verdict
            # The first of a stock's two is noted; the other says that both are good.
            assert verdict == "good" or (verdict == "noted" and place[1].endswith("est"))
            assert saw.state.units[place] == "done"
            assert (saw.state.plan is plan, saw.state.measurements) == (True, known)
        elif not good and point.measure in FLOWS and self.chance.random() < 0.5:
            self.send(kind="read", text=text, keep=True, **body)
        elif not self.send(kind="read", text=text, **body):
            # Questioned, or without room at the bench: measured once more, and better.
            assert self.send(kind="read", text=saw.wanted(), **body)

    def reading(self) -> tuple[str, bool]:
        """As a hand finds it, to the tool's step; once corrected it is nearer."""
        saw = self.saw
        point = followed(saw.card.points[saw.unit.point or 0], saw.state)
        tries = len(saw.state.readings.get((saw.card.key, saw.unit.name), ()))
        band = float(point.high - point.low)
        spread = 0.2 if tries or point.knob is None else 0.6
        off = self.chance.gauss(0, band * spread)
        step = point.resolution or Fraction(1, 100)
        value = point.target + round(Fraction(off) / step) * step
        if saw.unit.of in ("thinnest", "thickest"):
            value = max(point.low, min(point.high, value))
        return exact(abs(value), saw.state), point.low <= value <= point.high

    def mishap(self) -> None:
        if not self.luck:
            self.luck = [self.die, self.fill, self.alter, self.edit, self.second, self.offline]
            self.chance.shuffle(self.luck)
        happens = self.luck.pop()
        self.had.append(happens.__name__)
        happens()

    def die(self) -> None:
        """Between two taps; within one, `test_kill.py` does it."""
        before = seen(self.saw)
        self.saw.restart()
        assert seen(self.saw) == before

    def fill(self) -> None:
        """The file may not grow by a page, until there is room again."""
        db = self.saw.store._db
        pages = db.execute("pragma page_count").fetchone()[0]
        db.execute(f"pragma max_page_count = {pages}")
        before, failed = seen(self.saw), False
        # It changes nothing, and takes a page by itself.
        body = {"kind": "decline", "digest": self.saw.engine.files.digest, "why": "x" * 5000}
        event = Event(f"tap-{next(self.numbers):06}", self.now(), body)
        try:
            self.took([event])
        except NotSavedError:
            failed = True
            assert seen(self.saw) == before
        db.execute("pragma max_page_count = 1073741823")
        assert failed
        assert self.took([event])
        assert self.send(kind="undo", of=event.id)

    def alter(self) -> None:
        """One kept plan is not what it was: it is made again, and nobody sees another number."""
        before, shown = seen(self.saw), view.cards(self.saw.state)
        db = sqlite3.connect(self.saw.path)
        rows = db.execute("select key, body from plans").fetchall()
        key, text = rows[self.chance.randrange(len(rows))]
        at = self.chance.randrange(len(text) // 2, len(text) - 9)
        figure = next(n for n in range(at, len(text)) if text[n].isdigit())
        other = str((int(text[figure]) + 1) % 10)
        db.execute(
            "update plans set body = ? where key = ?",
            (text[:figure] + other + text[figure + 1 :], key),
        )
        db.commit()
        db.close()
        self.saw.restart()
        assert seen(self.saw) == before
        assert view.cards(self.saw.state) == shown

    def edit(self) -> None:
        """The first opening one higher: left aside, or taken and given back."""
        done, units = dict(self.saw.state.done), dict(self.saw.state.units)
        ((name, text),) = self.files.jobs
        higher = re.sub(r'height = "(\d+)', lambda m: f'height = "{int(m[1]) + 1}', text, count=1)
        other = Files(((name, higher),), self.files.shop)
        assert other != self.files
        before = seen(self.saw)
        self.saw.restart(other, take=False)
        assert seen(self.saw) == before
        assert self.saw.engine.offered == other.digest
        kind = self.chance.choice(["adopt", "decline"])
        assert self.send(kind=kind, digest=other.digest)
        if kind == "decline":
            assert self.send(kind="undo", of=self.saw.state.taps[-1][0])
            assert seen(self.saw) == before
        self.saw.restart(self.files)
        assert self.saw.state.done == done
        assert self.saw.state.units == units

    def second(self) -> None:
        """Another program on the same file takes a tap; this one knows of it."""
        other = Saw(self.saw.path, self.files)
        card, unit = other.card, other.unit
        text = {"kind": "tick"} if unit.point is None else {"kind": "read", "text": other.wanted()}
        event = Event(f"tap-{next(self.numbers):06}", self.now(),
                      {"card": card.key, "unit": unit.name, **text})  # fmt: skip
        (outcome,) = other.engine.take([event])
        assert outcome.kept
        self.acknowledged[event.id] = event.body
        assert self.saw.store.written_elsewhere()
        # The same tap from a page of this one: counts once.
        assert self.took([event])
        assert seen(self.saw) == seen(other)
        other.store.close()

    def offline(self) -> None:
        """An hour of taps and good readings comes at once, in its order, by a clock that was set
        back; and once more, since the answer was lost."""
        copy = self.saw.path.with_name("offline.sqlite")
        db, to = sqlite3.connect(self.saw.path), sqlite3.connect(copy)
        db.backup(to)
        db.close()
        to.close()
        alone = Saw(copy, self.files)
        had = len(alone.store.events()[0])
        for _ in range(15):
            if current(alone.state) is not None:
                alone.step()
        made = alone.store.events()[0][had:]
        expected = seen(alone)
        alone.store.close()
        for file in copy.parent.glob("offline.sqlite*"):
            file.unlink()
        now = self.now()
        events = [
            Event(f"tap-{next(self.numbers):06}", now - HOUR - 1000 * n, event.body)
            for n, event in enumerate(made)
        ]
        assert self.took(events)
        assert seen(self.saw) == expected
        version = self.saw.engine.version
        assert self.took(events)
        assert (seen(self.saw), self.saw.engine.version) == (expected, version)


def test_an_unsteady_hand_in_bad_luck(tmp_path: Path) -> None:
    person = Person(tmp_path / "a.sqlite", files_of(ROOT / "examples/pantry"), 2, 9)
    person.follow()
    assert len(set(person.had)) == 6
    assert person.alone > 10


@pytest.mark.large
@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.parametrize("example", EXAMPLES)
def test_every_example_in_bad_luck(example: str, seed: int, tmp_path: Path) -> None:
    Person(tmp_path / "a.sqlite", files_of(ROOT / "examples" / example), seed, 9).follow()


def test_a_kept_plan_is_proven_by_each_program_that_finds_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    saw = Saw(tmp_path / "events.sqlite")
    proven: list[Plan] = []
    monkeypatch.setattr(engine, "_shown", lambda plan, _: proven.append(plan))
    for times in (1, 2, 3):
        saw.restart()
        assert len(proven) == times
