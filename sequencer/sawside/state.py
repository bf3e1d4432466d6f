"""What is known at the saw: the cards, what is done of them, how the saw stands, what was measured.

Mutable, and changed by one event after another: by `fold.py`, with `flow.py` and `spoiled.py`. What
is said of an event that is taken back is put in by the engine.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Literal, Protocol

from msgspec import Struct, field

from sequencer.facts import Fact, taps
from sequencer.instructions.figures import Scale
from sequencer.methods import Choices
from sequencer.plan import Plan, Setup
from sequencer.sawside.cards import Card, Unit, mark_of
from sequencer.sawside.corrections import Answer
from sequencer.sawside.measurements import Measurement
from sequencer.setups.given import Given
from sequencer.setups.halfway import Done, Held
from sequencer.wording import for_plan

Status = Literal["done", "skipped"]
Place = tuple[str, str]
"""A card's key and a unit's name."""


class TapError(Exception):
    """An event that does not fit what is known; `says` tells the person why."""

    def __init__(self, *says: Fact) -> None:
        self.says = says
        super().__init__("; ".join(map(str, says)))


class Base(Struct, frozen=True):
    """What job and shop files give, with nothing left free, and the plan that is printed of it."""

    digest: str
    given: Given
    plan: Plan
    choices: Choices


class Request(Struct, frozen=True):
    """All that a plan made again half-way depends on; the `measurements` are not yet worked into
    what is given."""

    given: Given
    choices: Choices
    measurements: tuple[Measurement, ...]


class Planner(Protocol):
    """Where plans come from. Both raise `SequencerError`."""

    def base(self, digest: str) -> Base: ...

    def remake(self, digest: str, request: Request) -> Plan: ...


class Reading(Struct, frozen=True):
    """One reading, in the plan's unit (`None`: told by feel). A later one of the same place
    supersedes it; both are kept."""

    event: str
    value: Fraction | None
    answer: Answer
    at: int = 0
    """When, in milliseconds since 1970."""
    shown: Mapping[str, Fraction] = field(default_factory=dict)
    """What the scales showed for the cut that was measured; empty where the saw was set for
    something else since."""


class Spoiled(Struct, frozen=True):
    """A spoiled piece: at which step or setup it happened, and what is made again on which
    card."""

    mark: str
    at: Fact
    card: str
    operations: tuple[str, ...]
    minutes: Fraction


class Took(Struct, frozen=True):
    """How long something took, in milliseconds: a setting (`what` are its knobs, with the minutes
    that were planned), a test cut or a check cut."""

    what: tuple[tuple[str, Fraction], ...]
    took: int
    event: str = ""
    at: int = 0


class State(Struct):
    """`now` is the place of the current card; what stands open before it was passed over."""

    base: Base
    plan: Plan
    cards: list[Card]
    now: int = 0
    units: dict[Place, Status] = field(default_factory=dict)
    readings: dict[Place, list[Reading]] = field(default_factory=dict)
    tried_by: dict[str, Plan] = field(default_factory=dict)
    """By its key, the plan that a card was measured by first."""
    shown: dict[str, Fraction] = field(default_factory=dict)
    """What the scale of each knob shows, as it was set and moved since."""
    told: dict[str, Fraction] = field(default_factory=dict)
    """What it was to show when it was set: moves to the next number are told from there, since a
    knob that was corrected stands where that number meant it to."""
    found: list[tuple[str, int, Measurement]] = field(default_factory=list)
    """Event and time of every measurement."""
    done: dict[str, Done] = field(default_factory=dict)
    held: dict[str, Held] = field(default_factory=dict)
    measurements: list[Measurement] = field(default_factory=list)
    spoiled: dict[str, Spoiled] = field(default_factory=dict)
    letters: Mapping[str, int] = field(default_factory=dict)
    gone: list[Fact] = field(default_factory=list)
    """Printed steps and setups that no longer hold."""
    says: list[Fact] = field(default_factory=list)
    """What the last event changed."""
    trouble: tuple[Fact, ...] = ()
    """Why the rest is impossible with what was measured; empty where it is not."""
    taps: list[tuple[str, Fact]] = field(default_factory=list)
    """Events that may be undone, each with what it was, the last one last."""
    earlier: Mapping[str, State] = field(default_factory=dict)
    """How things stood when each other job was left, by its digest: changing the files back brings
    back what still holds."""
    declined: frozenset[str] = frozenset()
    """Digests of changed files that were looked at and left aside."""
    worked_since: frozenset[str] = frozenset()
    """Of the jobs in `earlier` those since which something was done by other files."""
    times: list[Took] = field(default_factory=list)
    since: int = 0
    """When the last tap was that ended something."""

    @property
    def scale(self) -> Scale:
        return Scale.of(self.plan, for_plan(self.plan))

    def set_to(self, knob: str, setup: Setup) -> None:
        """A knob was set as the setup says."""
        number = self.wanted_at(knob, setup)
        if number is None:
            self.shown.pop(knob, None)
            self.told.pop(knob, None)
        else:
            self.shown[knob] = self.told[knob] = number

    def wanted_at(self, knob: str, setup: Setup) -> Fraction | None:
        """What the scale of a knob is to show for a setup; `None` where it sets none by a scale."""
        if knob == "height":
            return setup.height_shown
        return setup.reading if knob == self.plan.shop.guide_knob(setup.carrier) else None

    def card(self, key: str) -> tuple[int, Card]:
        for place, card in enumerate(self.cards):
            if card.key == key:
                return place, card
        raise TapError(taps.STEP_CHANGED())

    def status(self, card: Card, unit: Unit) -> str:
        """`done`, `skipped`, `open`, or why it cannot be done: `spoiled`, `waits`."""
        found = self.units.get((card.key, unit.name))
        if found:
            return found
        if unit.of in self.spoiled and card.kind in ("work", "bench"):
            return "spoiled"
        if self.missing(card, unit) or self._none_to_measure(card, unit):
            return "waits"
        if unit.point is not None and unit.of and card.kind == "bench":
            # A measure of a leaf waits with the leaf.
            piece = next((u for u in card.units if u.name == unit.of), None)
            if piece is not None and self.status(card, piece) in ("waits", "spoiled"):
                return "waits"
        return "open"

    def _none_to_measure(self, card: Card, unit: Unit) -> bool:
        """Whether the first piece, which is measured before the others are cut, is spoiled, and no
        other has been cut since."""
        if card.kind != "work" or unit.point is None:
            return False
        first, *others = (each for each in card.units if each.point is None)
        return first.of in self.spoiled and not any(
            self.units.get((card.key, each.name)) == "done" and each.of not in self.spoiled
            for each in others
        )

    def missing(self, card: Card, unit: Unit) -> tuple[str, Fact] | None:
        """The first operation that the unit waits for and that no open unit here will do, with
        the reason."""
        if not unit.operations:
            return None
        here = set(card.step.operations) if card.step else set()
        for first, later, reason in self.before(unit.operations):
            spoiled = mark_of(first) in self.spoiled and card.kind == "bench"
            if spoiled or (first not in self.done and first not in here):
                return (first, reason)
            if first in here and first not in self.done and later not in self.done:
                other = next((u for u in card.units if first in u.operations), None)
                if other is not None and other is not unit:
                    stands = self.units.get((card.key, other.name))
                    if stands == "skipped" or self.status(card, other) in ("waits", "spoiled"):
                        return (first, reason)
        return None

    def before(self, operations: tuple[str, ...]) -> list[tuple[str, str, Fact]]:
        index = self._edges()
        return [edge for operation in operations for edge in index.get(operation, ())]

    def complete(self, card: Card) -> bool:
        return all(self.status(card, unit) != "open" for unit in card.units)

    def move_on(self) -> None:
        """To the first card from here on that something is open on."""
        while self.now < len(self.cards) and self.complete(self.cards[self.now]):
            self.now += 1

    _edge_plan: Plan | None = None
    _edge_index: dict[str, list[tuple[str, str, Fact]]] = field(default_factory=dict)

    def _edges(self) -> dict[str, list[tuple[str, str, Fact]]]:
        if self._edge_plan is not self.plan:
            self._edge_plan = self.plan
            self._edge_index = {}
            for edge in self.plan.ordering.before:
                self._edge_index.setdefault(edge[1], []).append(edge)
        return self._edge_index
