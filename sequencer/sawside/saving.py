"""What was found out at the saw, kept for later jobs: settings that passed, and every reading."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Protocol

from msgspec import Struct

from sequencer.errors import SequencerError
from sequencer.facts import Fact, answers
from sequencer.job.identity import whole
from sequencer.plan import SCRAP_STEPS, Checkpoint, Plan
from sequencer.saved.evidence import TIME, Noted, Reading
from sequencer.saw.fittings import timed_as
from sequencer.sawside.cards import Card
from sequencer.sawside.readings import as_cut
from sequencer.sawside.state import Reading as Taken
from sequencer.sawside.state import State

MINUTE = 60_000


class Passed(Struct, frozen=True):
    """A setup whose scrap cut is done and whose every reading passed: by knob, what was measured
    last, and what each knob's scale showed for that cut, where that is not the number planned.
    `source` names the readings that it comes from."""

    setup: int
    measured: Mapping[str, Fraction]
    read: Mapping[str, Fraction]
    source: str = ""


Settings = Mapping[str, tuple[Plan, Passed]]
Known = tuple[Settings, Mapping[str, Reading | Noted]]
"""What has passed, by the key of its card, and all that was found."""


class Memory(Protocol):
    """Where what was found out is kept for later jobs. Each raises `SequencerError` where it cannot
    be; the same again then changes nothing that was kept already."""

    def keep(self, plan: Plan, passed: Passed) -> Fact | None:
        """Keep a setting that passed; what to say of it."""

    def withdraw(self, source: str) -> None:
        """A setting did not pass after all: its reading was taken back, or another came."""

    def note(self, new: Mapping[str, Reading | Noted], gone: frozenset[str]) -> None:
        """Keep what was found, by its uid, and take out what was taken back. Their `at` is in
        milliseconds since 1970, as text."""


class Waiting:
    """What could not be kept yet: it waits for the next tap, for as long as the program runs."""

    def __init__(self) -> None:
        self._stored: Known | None = None
        self._told: tuple[Fact, ...] = ()

    def save(self, memory: Memory, before: Known, known: Known) -> list[Fact]:
        """What to say once the memory has all that is `known` now and was not `before`, and nothing
        of what was taken back. Why it has not is said once, and with each setting."""
        now, found = known
        had, had_found = before if self._stored is None else self._stored
        stored = dict(had)
        said: list[Fact | None] = []
        try:
            new = {uid: each for uid, each in found.items() if had_found.get(uid) != each}
            gone = frozenset(uid for uid in had_found if uid not in found or uid in new)
            if new or gone:
                memory.note(new, gone)
                had_found = found
            for key in _others(had, now):
                memory.withdraw(had[key][1].source)
                del stored[key]
            for key in _others(now, stored):
                said.append(memory.keep(*now[key]))
                stored[key] = now[key]
        except SequencerError as error:
            self._stored = stored, had_found
            if error.says != self._told or _others(now, before[0]):
                said.append(answers.NOT_KEPT(why=error.says))
            self._told = error.says
        else:
            self._stored, self._told = None, ()
        return [each for each in said if each is not None]


def _others(settings: Settings, beside: Settings) -> list[str]:
    """The keys of those that are not among the settings beside, or there by other readings."""
    return [
        key for key, (_, each) in settings.items() if key not in beside or beside[key][1] != each
    ]


def passed(state: State) -> dict[str, tuple[Plan, Passed]]:
    """By the key of its card, everything that has passed so far, with the plan it was set by: the
    rest may have been planned again since, with other numbers."""
    found: dict[str, tuple[Plan, Passed]] = {}
    for card in state.cards:
        if card.step is None or card.setup is None:
            continue
        looked = any(point.looked_at for point in card.points)
        if card.step.kind not in SCRAP_STEPS and not looked:
            continue
        plan = state.tried_by.get(card.key, state.plan)
        # A look is good once it was read, however many pieces are still to be cut.
        units = [unit for unit in card.units if unit.point is not None or not looked]
        done = all(state.units.get((card.key, unit.name)) == "done" for unit in units)
        if done and card.points and card.setup in plan.setups:
            found[card.key] = plan, _passed(card, state, plan)
    return found


def _passed(card: Card, state: State, plan: Plan) -> Passed:
    setup = card.setup
    assert setup is not None
    measured: dict[str, Fraction] = {}
    shown: dict[str, Fraction] = {}
    events: list[str] = []
    for unit in card.units:
        point = None if unit.point is None else card.points[unit.point]
        readings = state.readings.get((card.key, unit.name), [])
        if point is None or point.knob is None or not readings:
            continue
        events.append(readings[-1].event)
        if readings[-1].value is not None:
            measured[point.knob] = readings[-1].value
        shown |= readings[-1].shown
    numbers = {"height": setup.height, plan.shop.guide_knob(setup.carrier): setup.along}
    read = {
        knob: shown[knob]
        for knob, number in numbers.items()
        if number is not None and knob in shown and shown[knob] != number
    }
    return Passed(setup.number, measured, read, "+".join((card.key, *events)))


def learned(state: State) -> dict[str, Reading | Noted]:
    """Everything that was found out so far, by a name within this job."""
    found: dict[str, Reading | Noted] = {}
    for card in state.cards:
        for unit in card.units:
            point = None if unit.point is None else card.points[unit.point]
            if point is None or card.setup is None or not point.knob or not point.per_unit:
                continue
            for taken in state.readings.get((card.key, unit.name), ()):
                for each in _reading(card, point, taken, state):
                    found[each.uid] = each
    shop, unit_ = state.plan.shop, state.plan.unit
    saw, job = shop.known_as or shop.name, ", ".join(state.plan.jobs)
    belongs = whole(state.base.given.jobs)
    flowed = [(f"{event}/{n}", at, seen) for n, (event, at, seen) in enumerate(state.found)]
    followed = [(f"{event}/cut", at, seen) for event, at, seen in as_cut(state)]
    for uid, at, seen in (*flowed, *followed):
        found[uid] = Noted(
            uid, str(at), job, saw, seen.what, seen.name, seen.planned, seen.measured, unit_,
            belongs,
        )  # fmt: skip
    for n, took in enumerate(state.times):
        planned = sum((minutes for _, minutes in took.what), Fraction(0))
        for name, minutes in took.what:
            share = minutes / planned if planned else Fraction(1, len(took.what))
            uid = f"{took.event or n}/{name}"
            spent = share * took.took / MINUTE
            found[uid] = Noted(
                uid, str(took.at), job, saw, TIME, timed_as(name), minutes, spent, unit_
            )
    return found


def _reading(card: Card, point: Checkpoint, taken: Taken, state: State) -> Iterator[Reading]:
    """The reading as evidence of its knob's scale, where a number was read of the cut that the
    scale was set for."""
    setup, knob = card.setup, point.knob
    if setup is None or knob is None or taken.value is None or knob not in taken.shown:
        return
    plan = state.tried_by.get(card.key, state.plan)
    wanted = setup.height if knob == "height" else setup.along
    if wanted is None or setup.tilt or not point.per_unit:
        return
    shop = plan.shop
    yield Reading(
        uid=taken.event,
        at=str(taken.at),
        job=", ".join(plan.jobs),
        saw=shop.known_as or shop.name,
        made_with=shop.made_with.get(setup.carrier, ""),
        cutter=setup.cutter,
        sharpened=shop.sharpened(setup.cutter),
        carrier=setup.carrier,
        knob=knob,
        kerf=setup.kerf,
        unit=plan.unit,
        wanted=wanted,
        shown=taken.shown[knob],
        measure=str(point.measure),
        planned=point.exact,
        measured=taken.value,
        per_unit=point.per_unit,
        tool=point.tool or "",
        good=taken.answer.verdict != "adjust",
    )
