"""A maker at a saw of known faults, who follows a job over HTTP as the page does.

The saw's scales are off, by so much and a little more toward their far end; settings, passes and
readings scatter as `trade/spreads.py` has it. Nothing of this is known to the program but through
the readings that are sent. How a measure follows a knob is the plan's own `per_unit`.
"""

from __future__ import annotations

import http.client
import json
import threading
import time
from argparse import Namespace
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import count
from pathlib import Path
from random import Random
from typing import Any

from sequencer.plan import Checkpoint, Plan, Setup
from sequencer.sawside.app import Following, make_app
from sequencer.sawside.cards import Card, Unit
from sequencer.sawside.command import LOOPBACK, Keeper, _listen, _planner
from sequencer.sawside.engine import Engine, Files, Planning
from sequencer.sawside.fold import current
from sequencer.sawside.readings import followed
from sequencer.sawside.state import State
from sequencer.sawside.store import Store as Events
from sequencer.wording import Room

SET, PASS, READ = 0.0012, 0.0008, 0.0004
"""Inches, one sigma: of a number set by a scale or moved, of a pass, of a caliper's reading."""


@dataclass
class Saw:
    """`off` says by knob what its scale shows too much, `slope` how much more of it an inch on."""

    chance: Random
    off: dict[str, float] = field(default_factory=dict)
    slope: float = 0.0002
    stands: dict[str, float] = field(default_factory=dict)

    def set(self, knob: str, shown: float) -> None:
        off = self.off.get(knob, 0.0)
        self.stands[knob] = (shown - off) / (1 + self.slope) + self.chance.gauss(0, SET)

    def move(self, knob: str, by: float) -> None:
        self.stands[knob] += by + self.chance.gauss(0, SET / 2)

    def measured(self, point: Checkpoint, number: Fraction) -> float:
        knob, per_unit = point.knob, point.per_unit
        assert knob is not None
        assert per_unit is not None
        where = self.stands[knob] + self.chance.gauss(0, PASS)
        came = float(point.exact) + float(per_unit) * (where - float(number))
        return came + self.chance.gauss(0, READ)


@dataclass
class Done:
    """What became of a followed job: the plan, and by test card, or card of a look at the first
    piece, how many tries it took."""

    plan: Plan
    tries: list[int]
    by_card: list[tuple[str, int]]

    @property
    def first(self) -> float:
        return sum(tries == 1 for tries in self.tries) / len(self.tries)

    def count(self, kind: str) -> int:
        return sum(step.kind == kind for step in self.plan.steps)


class Maker:
    """Follows one job to its end; what is sent goes over HTTP."""

    def __init__(self, engine: Engine, host: str, path: str, saw: Saw) -> None:
        self.engine, self.path, self.saw = engine, path, saw
        self.connection = http.client.HTTPConnection(host, timeout=30)
        self.numbers = count(1)
        self.tries: dict[str, int] = {}

    @property
    def state(self) -> State:
        return self.engine.state

    def ask(self, method: str, what: str, body: Any = None) -> Any:
        said = None if body is None else json.dumps(body)
        headers = {"Content-Type": "application/json"}
        self.connection.request(method, f"{self.path}{what}", said, headers)
        answer = self.connection.getresponse()
        text = answer.read()
        assert answer.status == 200, text
        return json.loads(text)

    def tap(self, **body: Any) -> None:
        event = {"id": f"{self.engine.store.token()[:8]}-{next(self.numbers):06d}", **body}
        answer = self.ask("POST", "events", {"events": [event]})
        (outcome,) = answer["outcomes"]
        assert outcome["kept"], (body, answer)

    def follow(self) -> Done:
        while (card := current(self.state)) is not None:
            unit = next(u for u in card.units if self.state.status(card, u) == "open")
            if unit.point is not None:
                self.read(card, unit, card.points[unit.point])
                continue
            if card.kind == "set" and card.setup is not None:
                self.set(card, card.setup)
            self.tap(kind="tick", card=card.key, unit=unit.name)
        tests = {
            card.key: card
            for card in self.state.cards
            if card.kind == "test" or any(point.looked_at for point in card.points)
        }
        tried = [(key, n) for key, n in self.tries.items() if key in tests]
        by = [(str(tests[key].step and tests[key].step.kind), n) for key, n in tried]  # type: ignore[union-attr]
        return Done(self.state.plan, [n for _, n in tried], by)

    def set(self, card: Card, setup: Setup) -> None:
        """To what the page shows in its large figures: the guide first, then the height."""
        knob = self.state.plan.shop.guide_knob(setup.carrier)
        document = self.ask("GET", "cards")
        (shown,) = [each for each in document["cards"] if each["k"] == card.key]
        values = [_figure(each) for each in shown["big"]]
        knobs = [knob, "height"] if len(values) == 2 else ["height"]
        for name, value in zip(knobs, values, strict=True):
            changed = any(change.knob == name for change in setup.changes)
            if changed or name not in self.saw.stands:
                self.saw.set(name, value)

    def read(self, card: Card, unit: Unit, point: Checkpoint) -> None:
        now = followed(point, self.state)
        if point.knob is None or card.setup is None:
            value = float(now.target)
        else:
            number = card.setup.height if point.knob == "height" else card.setup.along
            assert number is not None
            value = self.saw.measured(point, number)
        if point.tool == "fit":
            middle = float(point.exact - point.target + now.target)
            grows = 1 if str(point.measure).startswith("channel") else -1
            close = abs(value - middle) < float(point.high - point.low) / 2
            loose = (value - middle) * grows > 0
            feel = "fits" if close else "loose" if loose else "tight"
            self.tap(kind="read", card=card.key, unit=unit.name, feel=feel)
        else:
            step = point.resolution or Fraction(1, 1000)
            text = _decimal(round(Fraction(value) / step) * step)
            self.tap(kind="read", card=card.key, unit=unit.name, text=text)
        taken = self.state.readings[card.key, unit.name]
        self.tries[card.key] = max(self.tries.get(card.key, 0), len(taken))
        move = taken[-1].answer.move
        if move is not None and point.knob is not None:
            self.saw.move(point.knob, float(move))


def _figure(shown: Mapping[str, str]) -> float:
    if shown["decimal"]:
        return float(shown["decimal"])
    part = Fraction(int(shown["top"]), int(shown["bottom"])) if shown["top"] else Fraction(0)
    return float(int(shown["whole"] or 0) + part)


def _decimal(value: Fraction) -> str:
    return f"{float(value):.6f}".rstrip("0").rstrip(".")


@contextmanager
def serving(files: Files, events: Path, settings: Path, saw: Saw) -> Iterator[Maker]:
    """The job served on the loopback, by the program's own application."""
    import uvicorn

    store = Events(events)
    planning = Planning(store, _planner(Namespace(settings=str(settings))))
    keeper = Keeper(str(settings), store.token()[:12])
    engine = Engine(store, planning, files, time.time_ns() // 1_000_000, keeper)
    listening = _listen(LOOPBACK, 0)
    host = f"{LOOPBACK}:{listening.getsockname()[1]}"
    following = Following(lambda: engine, lambda: None)
    app = make_app(following, store.token(), frozenset({host}), Room("US"))
    config = uvicorn.Config(app, log_level="critical", access_log=False, lifespan="off")
    server = uvicorn.Server(config)
    server.install_signal_handlers = lambda: None  # type: ignore[attr-defined]
    thread = threading.Thread(target=server.run, kwargs={"sockets": [listening]})
    thread.start()
    following.begin()
    while not (server.started and following.engine is not None):
        time.sleep(0.01)
    maker = Maker(engine, host, f"/{store.token()}/", saw)
    try:
        yield maker
    finally:
        maker.connection.close()
        server.should_exit = True
        thread.join()
        store.close()
