"""The store against a plain dict: any sequence of operations, with crashes between.

A crash is what a killed process leaves: the files as they lie there at that moment, copied while
the store is open and, half of the time, in the middle of a change.
"""

from __future__ import annotations

import shutil
import tempfile
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import (
    Bundle,
    RuleBasedStateMachine,
    consumes,
    invariant,
    multiple,
    rule,
    run_state_machine_as_test,
)

from sequencer.records import replace
from sequencer.saved.entry import Entry
from sequencer.saved.evidence import Reading
from sequencer.saved.exchange import conflict, from_json, joined, to_json
from sequencer.saved.store import Store
from sequencer.saw.fittings import CARRIERS
from sequencer.scales import fit
from sequencer.shelf import Gauge
from tests.saved.entries import NAMES, entries
from tests.saved.entries import entry as slot


def reading(n: int, place: int, came: int) -> Reading:
    wanted = Fraction(place, 16)
    return Reading(
        f"r{n}", f"2025-{n:06d}", "hutch", "shed", "", "b", 0, "rip-fence", "fence", Fraction(1, 8),
        "in", wanted, wanted, "tenon", wanted, wanted + Fraction(came, 1000), Fraction(1),
    )  # fmt: skip


class StoreMachine(RuleBasedStateMachine):
    numbers = Bundle("numbers")

    def __init__(self) -> None:
        super().__init__()
        self.folder = Path(tempfile.mkdtemp())
        self.lives = 0
        self.model: dict[int, Entry] = {}
        self.highest = 0
        self.exported: list[tuple[Entry, ...]] = []
        self.found: dict[str, Reading] = {}
        self.noted = 0
        self.store = self._open()

    def _open(self) -> Store:
        return Store(self.folder / str(self.lives) / "settings.sqlite", lambda: "now")

    def teardown(self) -> None:
        self.store.close()
        shutil.rmtree(self.folder)

    @rule(target=numbers, entry=entries())
    def add(self, entry: Entry) -> int:
        number = self.store.add(entry)
        assert number > self.highest
        self.highest = number
        self.model[number] = replace(entry, number=number, uid=self.store.entry(number).uid)
        return number

    @rule(number=numbers, note=st.text(max_size=20))
    def annotate(self, number: int, note: str) -> None:
        self.store.annotate(number, note)
        self.model[number] = replace(self.model[number], note=note)

    @rule(number=numbers, name=NAMES, gone=st.booleans())
    def name_gauge(self, number: int, name: str, gone: bool) -> None:
        entry = self.model[number]
        knob = next((k.knob for k in entry.knobs if k.knob == CARRIERS[entry.carrier].knob), None)
        knob = knob or entry.knobs[0].knob
        gauge = None if gone else Gauge("block", name)
        self.store.name_gauge(number, gauge, knob)
        knobs = tuple(replace(k, gauge=gauge if k.knob == knob else k.gauge) for k in entry.knobs)
        self.model[number] = replace(entry, knobs=knobs)

    @rule(number=consumes(numbers))
    def forget(self, number: int) -> None:
        assert self.store.forget(number) == self.model.pop(number)

    @rule(number=numbers, doubted=st.booleans())
    def doubt(self, number: int, doubted: bool) -> None:
        cutter = self.model[number].cutter
        changed = self.store.doubt(cutter, doubted)
        before = [n for n, e in self.model.items() if e.cutter == cutter and e.doubted != doubted]
        assert changed == len(before)
        for n in before:
            self.model[n] = replace(self.model[n], doubted=doubted)

    @rule(place=st.integers(0, 40), came=st.integers(-9, 9), again=st.booleans())
    def note(self, place: int, came: int, again: bool) -> None:
        """A reading; sent twice it counts once."""
        self.noted += 1
        found = reading(self.noted, place, came)
        if again and self.found:
            found = next(iter(self.found.values()))
        new = self.store.note([found])
        assert new == (found.uid not in self.found)
        self.found[found.uid] = found

    @rule(n=st.integers(0, 60))
    def unnote(self, n: int) -> None:
        self.store.unnote([f"r{n}"])
        self.found.pop(f"r{n}", None)

    @rule()
    def ask_a_scale(self) -> None:
        """What a plan is told of the scale, by all that is kept of it and nothing else."""
        scale = self.store.shelf("shed", "in").scale(("b", "rip-fence", "fence"))
        kept = [each.seen("in") for each in self.found.values()]
        assert scale == fit("b", "rip-fence", "fence", kept, "in")

    @rule()
    def export(self) -> None:
        read = from_json(to_json(self.store.entries()), "export.json")
        assert read == tuple(replace(e, number=0) for _, e in sorted(self.model.items()))
        self.exported.append(read)

    @rule(target=numbers, theirs=st.booleans(), data=st.data())
    def merge(self, theirs: bool, data: st.DataObject) -> Any:
        if not self.exported:
            return multiple()
        lot = data.draw(st.sampled_from(self.exported))
        merged = self.store.merge(lot, lambda *_: theirs)
        here = {e.uid: n for n, e in self.model.items()}
        new = [e for e in lot if e.uid not in here]
        assert len(merged.added) == len(new)
        for number, entry in zip(merged.added, new, strict=True):
            self.model[number] = replace(entry, number=number)
            self.highest = max(self.highest, number)
        for entry in lot:
            if entry.uid in here:
                number = here[entry.uid]
                known = self.model[number]
                jobs = tuple(dict.fromkeys((*known.jobs, *entry.jobs)))
                taken = theirs and conflict(known, entry)
                one = joined(entry, known) if taken else joined(known, entry)
                self.model[number] = replace(one, number=number, jobs=jobs)
        return multiple(*merged.added)

    @rule(in_a_change=st.booleans())
    def crash(self, in_a_change: bool) -> None:
        before = self.folder / str(self.lives)
        self.lives += 1
        after = self.folder / str(self.lives)
        if in_a_change:
            connection = self.store._connection
            connection.execute("BEGIN IMMEDIATE")
            connection.execute("DELETE FROM settings")
            shutil.copytree(before, after)
            connection.execute("ROLLBACK")
        else:
            shutil.copytree(before, after)
        self.store.close()
        (after / "settings.sqlite-shm").unlink(missing_ok=True)
        self.store = self._open()

    @invariant()
    def holds_what_the_model_holds(self) -> None:
        assert {e.number: e for e in self.store.entries()} == self.model
        kept = [replace(each, number=0) for each in self.store.readings()]
        assert kept == list(self.found.values())


def test_the_store_is_a_dict_that_survives(large: bool) -> None:
    size = settings(max_examples=300, stateful_step_count=60) if large else settings(
        max_examples=20, stateful_step_count=15
    )  # fmt: skip
    run_state_machine_as_test(StoreMachine, settings=size)


@pytest.mark.parametrize("lost", ["-wal", "-shm"])
def test_what_was_kept_lies_in_the_file_once_it_is_closed(tmp_path: Path, lost: str) -> None:
    path = tmp_path / "settings.sqlite"
    with Store(path, lambda: "now") as store:
        store.add(slot(1))
    assert not Path(f"{path}{lost}").exists()
    with Store(path, lambda: "now") as store:
        assert len(store.entries()) == 1
