"""A plan as cards: one thing to do at a time, with what is to be ticked or measured on each.

First comes what always holds. A setup becomes: its guard step, its settings, what is ticked before
power, its steps, the checks before it is left. A card's key is made from what it says, so that a
plan made again keeps the ticks of every card that stayed the same, and of no other.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from hashlib import sha256
from typing import Literal

from msgspec import Struct

from sequencer.facts import Fact, cards
from sequencer.instructions.words import told_points
from sequencer.plan import Checkpoint, Cut, Plan, Setup, Step, ToTick
from sequencer.records import replace
from sequencer.saw.kinds import GUARD_STEPS
from sequencer.saw.operation import OperationId

Kind = Literal["standing", "guard", "set", "power", "work", "test", "leave", "bench", "remake"]


class Unit(Struct, frozen=True):
    """One tick, or one reading where `point` is the number of the card's checkpoint. `of` is the
    piece, leaf or stock it is about."""

    name: str
    of: str = ""
    operations: tuple[str, ...] = ()
    point: int | None = None


class Card(Struct, frozen=True):
    """`label` is the printed number: of the step, or of the setup where it is about the whole of
    one. `first` is the first operation that a setup's own cards are for. `ticks` are what the
    rules of safety ask for before power is on: a unit each, by its `tick_name`."""

    key: str
    kind: Kind
    label: str
    units: tuple[Unit, ...]
    setup: Setup | None = None
    step: Step | None = None
    points: tuple[Checkpoint, ...] = ()
    first: str = ""
    ticks: tuple[ToTick, ...] = ()

    @property
    def numbered(self) -> str:
        """What its label counts: `step`, `setup`, or nothing."""
        if self.kind in ("guard", "work", "test", "bench"):
            return "step"
        return "setup" if self.kind == "set" else ""

    @property
    def at(self) -> Fact | None:
        """Its printed number; `None` where it has none of its own."""
        number = {"step": cards.STEP, "setup": cards.SETUP}.get(self.numbered)
        return number(label=self.label) if number else None

    @property
    def where(self) -> Fact:
        """The step or setup that it belongs to."""
        return self.at or (cards.SETUP(label=self.label) if self.label else cards.THE_START())


def mark_of(operation: str) -> str:
    """The piece, stick or leaf that an operation is named by."""
    return OperationId.parse(operation).mark


def named(of: str) -> Fact:
    """What a unit is about: a mark, or a thickness of stock, which has none."""
    what, dash, number = of.partition("-")
    return cards.STOCK(number=number) if dash and what == "stock" else cards.PIECE(mark=of)


def tick_name(tick: ToTick) -> str:
    """What its unit is called: the same for what is the same, in whatever plan."""
    return _digest(str(tick.tick))


def cards_of(plan: Plan) -> tuple[Card, ...]:
    """All cards of a plan, in order, labelled with its own numbers."""
    return (*_standing(plan), *work_cards(plan))


def _standing(plan: Plan) -> Iterator[Card]:
    """What always holds, to be read once; nothing where the plan says nothing of it."""
    if plan.standing:
        key = _digest("standing", [caution.rule for caution in plan.standing])
        yield Card(key, "standing", "", (Unit("read"),))


def work_cards(plan: Plan) -> tuple[Card, ...]:
    """The cards without what always holds."""
    setups = {setup.number: setup for setup in plan.setups}
    points: dict[int, list[Checkpoint]] = {}
    for point in told_points(plan):
        points.setdefault(point.at_step, []).append(point)
    made: list[Card] = []
    last_of = {step.setup: step.number for step in plan.steps if step.setup is not None}
    first_of = _first_operations(plan.steps)
    entered = 0
    for step in plan.steps:
        if step.setup is None:
            made.append(_bench(step, tuple(points.get(step.number, ()))))
            continue
        setup = setups[step.setup]
        first = first_of.get(setup.number, "")
        if step.kind in GUARD_STEPS:
            made.append(_simple("guard", str(step.number), (Unit("done"),), setup, step, first))
            continue
        if setup.number != entered:
            entered = setup.number
            made.append(_simple("set", str(setup.number), (Unit("set"),), setup, None, first))
            made.append(_power(setup, plan.warnings, first))
        made.append(_at_saw(step, setup, tuple(points.get(step.number, ()))))
        if step.number == last_of[setup.number]:
            made.append(_simple("leave", str(setup.number), (Unit("checked"),), setup, None, first))
    return tuple(_told_apart(made))


def trimmed(card: Card, operations: Iterable[str]) -> Card | None:
    """The card with those of its operations alone; `None` where none is left."""
    step, kept = card.step, frozenset(operations)
    if step is None or not step.operations:
        return None
    each = len(step.cuts) // len(step.operations)
    numbers = [n for n, operation in enumerate(step.operations) if operation in kept]
    if not numbers:
        return None
    names = tuple(step.operations[n] for n in numbers)
    cuts = tuple(cut for n in numbers for cut in step.cuts[n * each : (n + 1) * each])
    gone = {mark_of(o) for o in step.operations} - {mark_of(o) for o in names}
    marks = tuple(mark for mark in step.marks if mark not in gone)
    removes = tuple(r for r in step.removes if r.mark in marks or mark_of(r.mark) in marks)
    left = replace(step, operations=names, cuts=cuts, marks=marks, removes=removes)
    if card.setup is None:
        return _bench(left, card.points, card.label)
    # Lengths are measured on the first piece alone.
    points = card.points if numbers[0] == 0 else ()
    return _at_saw(left, card.setup, points, card.label)


def rekeyed(card: Card, first: str) -> Card:
    """A setup's own card, now that `first` is the first operation left for it."""
    if card.first == first or card.setup is None:
        return card
    made = _simple(card.kind, card.label, card.units, card.setup, card.step, first)
    return replace(made, ticks=card.ticks)


def settings(setup: Setup) -> tuple[object, ...]:
    """What a person sets for a setup, in numbers; two setups with the same are the same."""
    shown = setup.guide if setup.reading is None else setup.reading
    return (
        setup.cutter, setup.tilt, setup.carrier, setup.guard, setup.height_shown, shown,
        setup.spacer,
    )  # fmt: skip


def _first_operations(steps: Sequence[Step]) -> dict[int, str]:
    found: dict[int, str] = {}
    for step in steps:
        if step.setup is not None and step.operations:
            found.setdefault(step.setup, step.operations[0])
    return found


def _simple(
    kind: Kind, label: str, units: tuple[Unit, ...], setup: Setup, step: Step | None, first: str
) -> Card:
    kept = None if step is None else step.kind
    key = _digest(kind, kept, settings(setup), first, [unit.name for unit in units])
    return Card(key, kind, label, units, setup, step, (), first)


def _power(setup: Setup, warnings: Sequence[ToTick], first: str) -> Card:
    """What is ticked before power is on: each thing that this setup asks for, then the checks that
    are the same for all."""
    ticks = tuple(tick for tick in warnings if setup.number in tick.setups)
    units = (*(Unit(tick_name(tick)) for tick in ticks), Unit("checked"))
    return replace(_simple("power", str(setup.number), units, setup, None, first), ticks=ticks)


def _at_saw(step: Step, setup: Setup, points: tuple[Checkpoint, ...], label: str = "") -> Card:
    kind: Kind = "work" if step.operations else "test"
    if kind == "work":
        units = list(_pieces(step))
        readings = [Unit(f"m{n}", "", (), n) for n in range(len(points))]
        units[1:1] = readings  # the first piece is measured before the next is cut
    else:
        units = [Unit("cut", "".join(step.marks[:1]))]
        units += [Unit(f"m{n}", "", (), n) for n in range(len(points))]
    key = _digest(kind, step.kind, settings(setup), _cuts(step.cuts), step.operations,
                  [_point(point) for point in points])  # fmt: skip
    return Card(key, kind, label or str(step.number), tuple(units), setup, step, points)


def _bench(step: Step, points: tuple[Checkpoint, ...], label: str = "") -> Card:
    """Each piece, then what is measured on it; stock is measured at its thinnest and thickest."""
    units: list[Unit] = []
    left = dict(enumerate(points))
    for piece in _pieces(step):
        units.append(piece)
        if step.kind == "mill":
            # One checkpoint a stock, in the order of the operations.
            number = next(iter(left), None)
            if number is not None:
                del left[number]
                units += [Unit(f"m{number}@{how}", how, (), number) for how in SPREAD]
            continue
        for number, point in left.items():
            if piece.of in point.marks:
                units.append(Unit(f"m{number}@{piece.of}", piece.of, (), number))
    key = _digest("bench", step.kind, step.operations, [_point(point) for point in points],
                  [(removal.mark, removal.box) for removal in step.removes])  # fmt: skip
    return Card(key, "bench", label or str(step.number), tuple(units), None, step, points)


SPREAD = ("thinnest", "thickest")


def _pieces(step: Step) -> Iterator[Unit]:
    groups: dict[str, list[str]] = {}
    for operation in step.operations:
        groups.setdefault(mark_of(operation), []).append(operation)
    for mark, operations in groups.items():
        yield Unit(mark, mark, tuple(operations))


def _cuts(cuts: Sequence[Cut]) -> list[tuple[object, ...]]:
    return [(cut.mark, cut.down, cut.against, cut.keeps, cut.sweep) for cut in cuts]


def _point(point: Checkpoint) -> tuple[object, ...]:
    return (point.measure, point.target, point.low, point.high, point.knob, point.scrap,
            point.marks)  # fmt: skip


def _digest(*parts: object) -> str:
    return sha256("\x1f".join(map(_text, parts)).encode()).hexdigest()[:12]


def _text(part: object) -> str:
    if isinstance(part, tuple | list):
        return "(" + ",".join(_text(each) for each in part) + ")"
    return str(part)


def _told_apart(cards: Iterable[Card]) -> Iterator[Card]:
    """Cards that say the very same get keys of their own, by how often they came before."""
    seen: dict[str, int] = {}
    for card in cards:
        times = seen[card.key] = seen.get(card.key, 0) + 1
        yield card if times == 1 else replace(card, key=f"{card.key}.{times}")
