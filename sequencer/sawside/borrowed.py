"""What other rooms say of knobs, cuts and bench work, as facts: the one place of the saw side that
takes words from them."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from sequencer.facts import Fact, cards
from sequencer.facts.answers import told
from sequencer.plan import Cut, Marked, Plan, Setup, Step, StickPiece
from sequencer.saw import names
from sequencer.saw.fittings import CARRIERS
from sequencer.saw.measures import Measure
from sequencer.sheets import bench as benchwork
from sequencer.sheets import blocks, words
from sequencer.sheets.figures import Scale


def measured(measure: Measure) -> Fact:
    return told(names.measure(measure))


def verb(kind: str) -> Fact:
    """What is told to be done in a step of that kind."""
    return told(names.verb(kind))


def guard(setup: Setup) -> Fact:
    """How guard and riving knife are in a setup."""
    return told(names.GUARDS[setup.guard])


def blade(cutter: str) -> Fact:
    return told(words.blade(cutter))


def guide(setup: Setup, plan: Plan) -> Fact:
    """What the knob is called that sets the guide."""
    return told(names.KNOBS[CARRIERS[setup.carrier].guide_knob(plan.shop.jig_rides)])


def leaning(tilt: Fraction, tilts: str) -> Fact:
    return told(names.leaning(tilt, tilts))


def title(steps: Sequence[Step]) -> Fact:
    """What a setup is for."""
    return told(blocks.title(steps))


def way(cuts: Sequence[Cut], carrier: str, marked: Marked) -> Fact | None:
    """How a piece lies in each of its passes; `None` where it lies in none."""
    said = words.passes(cuts, carrier, marked)
    return told(said) if said else None


def at_stop(piece: StickPiece) -> Fact:
    return told(words.at_stop(piece))


def on_fresh_wood(step: Step, steps: Sequence[Step]) -> Fact | None:
    """What a test cut asks first where an earlier one was tried on the same piece."""
    said = words.on_fresh_wood(step, steps)
    return told(said) if said else None


def bench(step: Step, plan: Plan) -> tuple[Fact, list[Fact]]:
    """The title of a bench step, and what is told to be done."""
    scale = Scale(plan.unit, plan.shop.graduation)
    name, how = benchwork.bench_words(step, plan)
    lines = [told(how)] if how else []
    lines += map(told, benchwork.removal_words(step.removes, plan, scale))
    for table in benchwork.layout_tables(step.removes, plan, scale):
        lines.append(cards.LAID_OUT(what=told(table.title)))
        for row in table.rows:
            marks = zip(row, table.columns, strict=True)
            parts = tuple(told(f"{value} {column}") for value, column in marks)
            lines.append(cards.IN_ONE_LINE(parts=parts))
    return told(name), lines
