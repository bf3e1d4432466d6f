"""The power goes at any moment: no acknowledged tick is lost or counted twice."""

from __future__ import annotations

import http.client
import json
import random
import sqlite3
import threading
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from sequencer.sawside.store import Store
from tests.sawside.conftest import Program

ROUNDS = 4
MANY = 200


def taps(program: Program) -> Iterator[dict[str, Any]]:
    """What is asked for from here on, as a page would send it; at the end it is undone again."""
    cards = program.cards()["cards"]
    stand = program.stand()
    places = [n for n, card in enumerate(cards) if card["k"] == stand["now"]]
    for card in cards[places[0] :] if places else ():
        stands = stand["units"].get(card["k"], {})
        for unit in card["units"]:
            if stands.get(unit["u"], "open") != "open":
                continue
            tap = {"card": card["k"], "unit": unit["u"]}
            if "p" in unit:
                yield {"kind": "read", "text": card["points"][unit["p"]]["target"], **tap}
            else:
                yield {"kind": "tick", **tap}
    while True:
        yield {"kind": "undo", "of": program.stand()["undo"][0]}


def test_kill_at_random_moments(store: Path, large: bool) -> None:
    chance = random.Random(7)
    program = Program(store)
    acknowledged: list[str] = []
    sent: list[str] = []
    for turn in range(MANY if large else ROUNDS):
        program.start()
        stop = threading.Timer(chance.uniform(0, 0.08), program.kill)
        begin = chance.randrange(1, 8)  # taps before the clock runs
        try:
            for n, event in enumerate(taps(program)):
                tap = {"id": f"round-{turn}-{n}", **event}
                sent.append(tap["id"])
                if n == begin:
                    stop.start()
                status, answer = program.post(tap)
                if status == 200 and answer["outcomes"][0]["kept"]:
                    acknowledged.append(tap["id"])
                    # The same tap again, as a page does that has not heard the answer.
                    program.post(tap)
        except (OSError, http.client.HTTPException, json.JSONDecodeError):
            pass  # the program is gone
        stop.join()
        program.kill()
        kept = Store(store)
        assert kept.sound() == "ok"
        ids = [event.id for event in kept.events()[0]]
        kept.close()
        assert len(ids) == len(set(ids))
        assert [i for i in acknowledged if i not in ids] == []
        assert set(ids) <= {*sent, *(i for i in ids if i.startswith("base-"))}
    assert len(acknowledged) > (MANY if large else ROUNDS)
    program.start()
    assert program.stand()["version"] >= len(acknowledged)
    program.kill()


def test_events_are_never_changed_or_deleted(store: Path) -> None:
    db = sqlite3.connect(store)
    for statement in ("delete from events", "update events set body = '{}'"):
        with pytest.raises(sqlite3.IntegrityError, match="never"):
            db.execute(statement)
    db.close()


def test_a_full_disk_takes_nothing_and_loses_nothing(store: Path) -> None:
    """No file of the process may grow past a limit, as on a full disk or a used-up quota."""
    program = Program(store)
    program.start(limit=store.stat().st_size + 100_000)
    acknowledged = []
    for n, event in enumerate(taps(program)):
        tap = {"id": f"full-disk-{n}", **event}
        status, answer = program.post(tap)
        if status != 200:
            break
        acknowledged.append(tap["id"])
    assert status == 507
    assert answer["failed"]
    before = program.stand()
    assert program.post(tap)[0] == 507
    assert program.stand() == before
    program.kill()
    # With room again, the same tap is taken, and nothing that was acknowledged is missing.
    program.start()
    assert program.stand()["units"] == before["units"]
    assert program.post(tap)[1]["outcomes"][0]["kept"]
    program.kill()
    kept = Store(store)
    ids = [event.id for event in kept.events()[0]]
    assert kept.sound() == "ok"
    kept.close()
    assert [i for i in acknowledged if i not in ids] == []


def test_two_programs_on_one_file_see_the_same(store: Path) -> None:
    one, other = Program(store), Program(store)
    one.start()
    other.start()
    for program in (one, other, one, other):
        name = f"both-{program.port}-{program.stand()['version']}"
        status, answer = program.post({"id": name, **next(taps(program))})
        assert status == 200
        assert answer["outcomes"][0]["kept"] or "already" in answer["outcomes"][0]["words"][0]
    one.kill()
    other.kill()
    kept = Store(store)
    assert kept.sound() == "ok"
    kept.close()
