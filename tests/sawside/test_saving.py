"""What is dialled in at the saw is kept for later jobs by itself, and found by the next plan."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Iterator
from contextlib import contextmanager
from fractions import Fraction
from pathlib import Path

import pytest

from sequencer import pipeline
from sequencer.facts import Fact
from sequencer.plan import SCRAP_STEPS, Plan
from sequencer.records import replace
from sequencer.saved.store import Store
from sequencer.sawside.command import Keeper, _planner
from sequencer.sawside.engine import Engine, Files, Planning
from sequencer.sawside.saving import Passed, learned
from sequencer.sawside.store import Store as Events
from tests.sawside.driver import START, Saw, exact


class Keeping(Saw):
    """A saw whose settings are kept in a store beside its events."""

    def open(self, files: Files | None = None) -> None:
        self.files = files or self.files
        self.store = Events(self.path)
        self.settings = self.path.with_name("settings.sqlite")
        planning = Planning(self.store, _planner(Namespace(settings=str(self.settings))))
        self.engine = Engine(self.store, planning, self.files, START, self.keeper())

    def keeper(self) -> Keeper:
        return Keeper(str(self.settings), self.store.token()[:12])


@pytest.fixture
def saw(tmp_path: Path) -> Keeping:
    return Keeping(tmp_path / "events.sqlite")


def test_a_setting_is_kept_when_its_last_reading_passes_and_not_before(saw: Keeping) -> None:
    saw.go_to_measure("channel-width/groove")
    point = saw.card.points[saw.unit.point or 0]
    setup = saw.card.setup
    assert setup is not None
    assert point.per_unit is not None
    off = Fraction(1, 2)
    saw.read(exact(point.target + off, saw.state))  # too wide: corrected
    with Store(saw.settings, lambda: "now") as store:
        assert store.entries() == ()
    said = saw.read(saw.wanted())
    assert "answer.kept" not in said  # its depth is still to be measured
    said = saw.read(saw.wanted())
    assert "answer.kept(number=1)" in said
    with Store(saw.settings, lambda: "now") as store:
        (kept,) = store.entries()
    fence = next(knob for knob in kept.knobs if knob.knob == "fence")
    assert (fence.value, fence.measured) == (setup.reading, point.target)
    assert fence.read == fence.value - off / point.per_unit  # moved as the page told
    assert fence.off == 0


def test_a_whole_job_leaves_every_setting_that_was_tried_and_the_next_plan_finds_them(
    saw: Keeping,
) -> None:
    saw.finish()
    with Store(saw.settings, lambda: "now") as store:
        kept = store.entries()
        shelf = store.shelf(saw.state.plan.shop.name, saw.state.plan.unit)
    tried = [step for step in saw.state.plan.steps if step.kind in SCRAP_STEPS]
    assert 0 < len(kept) <= len(tried)
    base = saw.state.base
    again = pipeline.planned(replace(base.given, saved=shelf))
    assert again.ordering.minutes < base.plan.ordering.minutes
    # Where a window is narrow beside what is known of the scale, a test cut stays one.
    kinds = [s.kind for s in again.steps if s.kind in SCRAP_STEPS]
    assert kinds.count("check cut") > kinds.count("test cut")


def test_a_store_that_cannot_be_used_stops_nobody(saw: Keeping) -> None:
    saw.settings.write_bytes(b"")
    saw.engine.keep = saw.keeper()
    saw.go_to_measure("channel-width/groove")
    saw.read(saw.wanted())
    said = saw.read(saw.wanted())
    assert "answer.not-kept" in said
    assert saw.settings.read_bytes() == b""
    saw.step()


def test_what_could_not_be_kept_is_told_and_kept_with_the_next_tap(saw: Keeping) -> None:
    """Readings, a setting, one that was taken back: nothing is lost, nothing counts twice."""
    saw.go_to_measure("channel-width/groove")
    with without(saw.settings):
        assert saw.read(saw.wanted()).count("answer.not-kept") == 1  # a reading alone
        assert "answer.not-kept" in saw.read(saw.wanted())  # the setting
        assert "answer.not-kept" not in saw.tick()  # said already
    assert saw.tick().count("answer.kept") == 1
    with Store(saw.settings, lambda: "now") as store:
        assert len(store.entries()) == 1
        assert uids(store) == uids(saw)
    had = uids(saw)
    with without(saw.settings):
        said = [undo(saw) for _ in range(4)]
        assert sum("answer.not-kept" in each for each in said) == 1
    undo(saw)
    with Store(saw.settings, lambda: "now") as store:
        assert store.entries() == ()
        assert uids(store) == uids(saw) != had


@contextmanager
def without(settings: Path) -> Iterator[None]:
    """While no store stands there: nothing can be kept."""
    away = settings.rename(settings.with_name("away"))
    settings.write_bytes(b"")
    yield
    away.replace(settings)


def undo(saw: Keeping) -> str:
    return saw.do(kind="undo", of=saw.state.taps[-1][0])


def uids(of: Store | Keeping) -> set[str]:
    """Of what was found: in the store, or by the events."""
    if isinstance(of, Store):
        return {each.uid for each in of.readings()} | {each.uid for each in of.noted()}
    return {f"{of.store.token()[:12]}/{uid}" for uid in learned(of.state)}


def test_what_was_passed_over_is_not_kept(tmp_path: Path) -> None:
    kept: list[Passed] = []

    class Kept(Keeper):
        def keep(self, plan: Plan, passed: Passed) -> Fact:
            kept.append(passed)
            return super().keep(plan, passed)

    saw = Saw(tmp_path / "events.sqlite")
    saw.engine.keep = Kept(str(tmp_path / "settings.sqlite"), "this")
    saw.go_to_measure("channel-width/groove")
    saw.read(saw.wanted())
    saw.do(kind="skip", card=saw.card.key, unit=saw.unit.name)
    saw.step()
    assert kept == []


def test_feel_alone_keeps_the_setting_as_computed(saw: Keeping) -> None:
    saw.go_to_measure("tenon")
    said = saw.do(kind="read", card=saw.card.key, unit=saw.unit.name, feel="fits")
    assert "answer.kept" in said
    with Store(saw.settings, lambda: "now") as store:
        kept = store.entries()[-1]
    assert kept.carrier == "tenoning-jig"
    assert all(knob.measured is None and knob.off == 0 for knob in kept.knobs)
    assert kept.jobs == saw.state.plan.jobs


def test_a_plan_with_saved_settings_is_made_again_half_way(tmp_path: Path) -> None:
    """A slot measured wider than planned changes the rest; what was reused stays so."""
    first = Keeping(tmp_path / "first.sqlite")
    first.finish()
    second = Keeping(tmp_path / "second.sqlite")  # beside the same settings
    assert any(setup.saved for setup in second.state.plan.setups)
    assert "check cut" in {s.kind for s in second.state.plan.steps}
    second.go_to_measure("channel-width/slot")
    point = second.card.points[second.unit.point or 0]
    wider = point.high + (point.high - point.target) / 2
    card = second.card.key
    second.keep(exact(wider, second.state))
    while second.card.key == card:
        second.step()  # its depth, too
    assert not second.state.trouble
    assert second.state.plan != second.state.base.plan
    assert second.state.plan.reused
    second.finish()
    assert second.state.plan.proven
