"""Whatever a person does, nothing done changes, nothing is stuck, and a restart changes nothing.

Ticks, readings within and without their limits, skipped measuring, spoiled pieces, kerfs measured
at any moment, undo and restarts in an order drawn by lot; the draw is repeatable.
"""

from __future__ import annotations

import json
import random
from fractions import Fraction
from pathlib import Path

import pytest

from sequencer.sawside import view
from sequencer.sawside.engine import Files, Outcome
from sequencer.sawside.fold import current
from sequencer.sawside.readings import followed
from tests.sawside.driver import PANTRY, WALL, Saw, block_files, dado_files, exact, files_of, said

FILES = {
    "pantry": files_of(PANTRY),
    "wall-cabinet": files_of(WALL),
    "dado set": dado_files(),
    "blocks": block_files(),
    "boards": files_of(PANTRY.with_name("broom-cupboard")),
    "raised panels": files_of(PANTRY.with_name("dresser")),
}
LONGEST = 500


@pytest.fixture(scope="module", params=FILES)
def begun(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("whim") / f"{request.param}.sqlite"
    Saw(path, FILES[request.param]).store.close()
    return path


def copy(begun: Path, folder: Path) -> tuple[Path, Files]:
    folder.mkdir(exist_ok=True)
    path = folder / begun.name
    path.write_bytes(begun.read_bytes())
    return path, FILES[begun.stem]


def seen(saw: Saw) -> tuple[object, ...]:
    state = saw.state
    cards = [(card.key, card.label) for card in state.cards]
    return (
        state.now, cards, dict(state.units), list(state.done.items()), dict(state.held),
        list(state.measurements), state.trouble, sorted(state.spoiled),
    )  # fmt: skip


class Person:
    def __init__(self, saw: Saw, chance: random.Random) -> None:
        self.saw = saw
        self.chance = chance
        self.log: list[tuple[object, ...]] = []

    def act(self) -> None:
        drawn = self.chance.random()
        saw, card, unit = self.saw, self.saw.card, self.saw.unit
        if drawn < 0.02:
            before = seen(saw)
            saw.restart()
            assert seen(saw) == before
        elif drawn < 0.04 and saw.state.taps:
            saw.do(kind="undo", of=saw.state.taps[-1][0])
        elif drawn < 0.06:
            self.say("spoil", saw.send(kind="spoil", mark=self.chance.choice(self.marks())))
        elif drawn < 0.075:
            self.say("kerf", self.kerf())
        elif drawn < 0.09 and card.kind == "test":
            self.say("skip", saw.send(kind="skip", card=card.key, unit=unit.name))
        elif unit.point is None:
            saw.tick()
        else:
            self.say("read", self.reading())

    def say(self, what: str, outcome: Outcome) -> None:
        self.log.append((what, outcome.kept, said(outcome)))

    def take_back(self) -> None:
        """What contradicts cuts that are made is said to, and is taken back."""
        trouble = "".join(map(str, self.saw.state.trouble))
        assert "answer.rest-cannot" in trouble or "answer.contradicts" in trouble, self.log[-3:]
        self.saw.do(kind="undo", of=self.saw.state.taps[-1][0])

    def marks(self) -> list[str]:
        plan = self.saw.state.plan
        return [each.mark for many in (plan.parts, plan.sticks, plan.scrap) for each in many]

    def kerf(self) -> Outcome:
        setups = self.saw.state.plan.setups
        cutter = self.chance.choice(sorted({setup.cutter for setup in setups}))
        taken = next(setup.kerf for setup in self.saw.state.base.plan.setups
                     if setup.cutter == cutter)  # fmt: skip
        off = Fraction(self.chance.randint(-3, 3), 50 if self.saw.state.plan.unit == "mm" else 1000)
        text = exact(taken + off, self.saw.state)
        return self.saw.send(kind="measure", what="kerf", name=cutter, text=text)

    def reading(self) -> Outcome:
        card, unit = self.saw.card, self.saw.unit
        point = followed(card.points[unit.point or 0], self.saw.state)
        drawn, band = self.chance.random(), point.high - point.low
        value = point.target
        if drawn > 0.9:
            value += 2 * band
        elif drawn > 0.4:
            value = point.low + band * Fraction(self.chance.randint(0, 8), 8)
        text = exact(value, self.saw.state)
        return self.saw.send(kind="read", card=card.key, unit=unit.name, text=text)


def follow(path: Path, files: Files, seed: int) -> None:
    saw = Saw(path, files)
    person = Person(saw, random.Random(seed))
    for n in range(LONGEST):
        if current(saw.state) is None:
            break
        done, undone = dict(saw.state.done), len(saw.state.taps)
        person.act()
        if saw.state.trouble:
            person.take_back()
        if len(saw.state.taps) >= undone:
            assert {name: saw.state.done.get(name) for name in done} == done, person.log[-3:]
        keys = [card.key for card in saw.state.cards]
        assert len(keys) == len(set(keys)), (seed, person.log[-3:])
        assert view.stand(saw.state)
        if n % 10 == 0:
            assert json.dumps(view.cards(saw.state))
    assert current(saw.state) is None, (seed, person.log[-5:])
    left = {p.operation for p in saw.state.plan.ordering.order} - saw.state.done.keys()
    assert not left, (seed, sorted(left), person.log)
    saw.store.close()


def test_whatever_a_person_does(begun: Path, tmp_path: Path, large: bool) -> None:
    for seed in range(60 if large else 1):
        follow(*copy(begun, tmp_path / str(seed)), seed)
