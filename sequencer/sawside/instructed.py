"""What is told alike on paper and page of knobs, cuts and bench work, as words of a card. `room` is
the one that says the document."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction

from sequencer.facts import Fact, Words, cards, measures
from sequencer.instructions import bench as benchwork
from sequencer.instructions import falling as falls
from sequencer.instructions import titles, words
from sequencer.instructions.aids import entered, taken_off
from sequencer.instructions.figures import Scale
from sequencer.instructions.spent import along
from sequencer.plan import Change, Checkpoint, Cut, Marked, Plan, Setup, Step, StickPiece
from sequencer.saw.measures import Measure
from sequencer.sheets.checks import corrections
from sequencer.wording import Room, changes, saws
from sequencer.wording.changes import change_words, cutter_words, guarded


def measured(measure: Measure) -> Fact:
    return measures.MEASURED(form=str(measure))


def verb(kind: str, room: Room) -> Words:
    """What is told to be done in a step of that kind."""
    return Words(saws.verb(kind, room))


def guard(setup: Setup, plan: Plan, room: Room) -> Words:
    """How guard and riving knife are in a setup, and what covers the blade."""
    return Words(guarded(setup.guard, plan.shop, room))


def correction(point: Checkpoint, plan: Plan, room: Room) -> Words:
    """What is printed of what to turn when a reading is not good; empty at the bench."""
    at = next((each.carrier for each in plan.setups if each.number == point.setup), "")
    return Words(corrections(point, Scale.of(plan, room), bool(at) and along(at)))


def blade(cutter: str, plan: Plan, room: Room) -> Words:
    return Words(cutter_words(cutter, plan.shop, room))


def guide(setup: Setup, plan: Plan, room: Room) -> Words:
    """What the knob is called that sets the guide."""
    return Words(words.guide_knob(setup, plan.shop, room))


def between(setup: Setup, plan: Plan, room: Room) -> Words | None:
    """The block that stands between jig and piece; `None` where none does."""
    said = changes.between(setup, plan.unit, room)
    return Words(said) if said else None


def leaning(tilt: Fraction, tilts: str, room: Room) -> Words:
    return Words(saws.leaning(tilt, tilts, room))


def moves(changes: Sequence[Change], setup: Setup, plan: Plan, room: Room) -> list[Words]:
    """What is taken off and turned on entering a setup."""
    turned = (told for _, told in entered(changes, setup, plan, room))
    return [Words(told) for told in (*taken_off(plan, setup, room), *turned)]


def change(change: Change, plan: Plan, room: Room) -> Words:
    """What is done to a knob by itself."""
    return Words(change_words(change, plan, room))


def title(steps: Sequence[Step], room: Room) -> Words:
    """What a setup is for."""
    return Words(titles.title(steps, room))


def way(cuts: Sequence[Cut], setup: Setup, plan: Plan, marked: Marked, room: Room) -> Words | None:
    """How a piece lies in each of its passes; `None` where it lies in none."""
    said = words.passes(cuts, words.Rest.of(setup, plan), marked, room)
    return Words(said) if said else None


def falling(cuts: Iterable[Cut], setup: Setup, plan: Plan, room: Room) -> Words | None:
    """What those passes free and where it falls; `None` where that is nothing."""
    said = falls.falling(cuts, setup, plan, room)
    return Words(said) if said else None


def at_stop(piece: StickPiece, room: Room) -> Words:
    return Words(words.at_stop(piece, room))


def on_fresh_wood(step: Step, steps: Sequence[Step], room: Room) -> Words | None:
    """What a test cut asks first where an earlier one was tried on the same piece."""
    said = words.on_fresh_wood(step, steps, room)
    return Words(said) if said else None


def bench(step: Step, plan: Plan, room: Room) -> tuple[Words, list[Fact | Words]]:
    """The title of a bench step, and what is told to be done."""
    scale = Scale.of(plan, room)
    name, how = benchwork.bench_lines(plan, step, scale)
    lines: list[Fact | Words] = [Words(each) for each in how]
    for table in benchwork.layout_tables(step.removes, plan, scale):
        lines.append(cards.LAID_OUT(what=Words(table.title)))
        for row in table.rows:
            marks = zip(row, table.columns, strict=True)
            parts = tuple(Words(f"{value} {column}") for value, column in marks)
            lines.append(cards.IN_ONE_LINE(parts=parts))
    return Words(name), lines
