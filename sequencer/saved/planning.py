"""What `sequencer plan` and `sequencer recut` ask of the saved settings, and say of a plan."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Sequence
from dataclasses import replace
from fractions import Fraction
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from sequencer.errors import SurroundingsError, UsageError
from sequencer.facts import notes
from sequencer.saved.command import length_of, open_store

if TYPE_CHECKING:
    from sequencer.job.schema import Job, Shop
    from sequencer.lengths import Unit
    from sequencer.plan import Plan
    from sequencer.sequencing.given import Given
    from sequencer.shelf import Saved, Shelf

_FOLLOWED = "sheets/plan.json"


def given_with_saved(file: str | None, jobs: Sequence[Job], shop: Shop) -> tuple[Given, list[str]]:
    """Jobs and shop to be planned with what was saved of this saw, and a list that fills with what
    goes wrong there, now or while planning: a plan is made without it sooner than not at all. A
    file that was named has to be there."""
    from sequencer.sequencing.given import Given

    shelf, trouble = _shelf(file, shop.name, jobs[0].unit)
    return Given.of(jobs, shop, saved=shelf), trouble


def _shelf(file: str | None, saw: str, unit: Unit) -> tuple[Shelf | None, list[str]]:
    from sequencer.saved.place import default_path

    trouble: list[str] = []
    path = default_path() if file is None else Path(file)
    if not path.exists():
        if file is not None:
            raise UsageError(f"{file}: no such file of saved settings")
        return None, trouble
    try:
        # Without the check of the whole file: damage tells where it is read.
        with open_store(file, check=False) as store:
            shelf = store.shelf(saw, unit)
    except SurroundingsError as error:
        trouble.append(f"planned without saved settings: {error}")
        return None, trouble

    def read(look: Callable[..., Sequence[Saved]], *asked: Any) -> Sequence[Saved]:
        try:
            return () if trouble else look(*asked)
        except SurroundingsError as error:
            trouble.append(f"planned without some saved settings: {error}")
            return ()

    return replace(
        shelf, seek=partial(read, shelf.seek), latest=partial(read, shelf.latest)
    ), trouble


def add_recut(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("marks", nargs="+", metavar="MARK", help="a piece, such as A3")
    parser.add_argument(
        "--also", action="append", default=[], metavar="JOB", help="another job of the batch"
    )
    parser.add_argument(
        "--plan", metavar="FILE", help="plan.json that was followed (sheets/plan.json)"
    )
    parser.add_argument(
        "--slot", action="append", default=[], metavar="PLANNED=CUT",
        help="a slot's width as it was cut, where not as planned",
    )  # fmt: skip


def advice(plan: Plan, given: Given) -> tuple[str, ...]:
    """Lines for the sheet of the night before."""
    from sequencer.saved.advice import advise

    return advise(plan, given)


def suggestions(plan: Plan, given: Given) -> tuple[str, ...]:
    """Near misses, in words, each planned again."""
    from sequencer.saved.suggest import suggest, words

    given, _ = given.as_in(plan)
    made = suggest(given)
    lines = [words(each, given) for each in made.found]
    if not lines:
        lines.append("no small change of one dimension that was looked at would save a setup")
    if made.passed_over:
        lines.append(
            f"{made.looked_at} changes were looked at, the likeliest; in a job as large as this "
            f"some {made.passed_over} others were not"
        )
    return tuple(lines)


def cut_again(options: argparse.Namespace, given: Given) -> tuple[Plan, tuple[str, ...]]:
    """The plan of the spoiled pieces alone, and what is to be said of it."""
    from sequencer import contract, pipeline
    from sequencer.job.load import read_text
    from sequencer.measured import Measured
    from sequencer.saved.recut import recut, spare, spare_words

    unit = given.jobs[0].unit
    said: list[str] = []
    if options.plan is None and not Path(_FOLLOWED).exists():
        original = pipeline.planned(given)
        said.append(
            f"no {_FOLLOWED} here, so the job was planned anew for its methods: compare with the "
            "sheets that were followed, or name their plan.json with --plan"
        )
    else:
        file = options.plan or _FOLLOWED
        original = contract.from_json(read_text(file), file)
        if original.unit != unit:
            raise UsageError(f"{file} is in {original.unit}, the job in {unit}")
        said.append(f"methods as in {file}")
    slots = dict(_slot(text, unit) for text in options.slot)
    marks = list(dict.fromkeys(options.marks))
    plan = recut(original, replace(given, measured=Measured(slot=slots)), marks)
    said.append(spare_words(spare(original, given, plan)))
    return replace(plan, notes=(*(notes.AS_SAID(text=each) for each in said), *plan.notes)), tuple(
        said
    )


def _slot(text: str, unit: Unit) -> tuple[Fraction, Fraction]:
    planned, equals, cut = text.partition("=")
    if not equals:
        raise UsageError(f"{text}: write the slot's width as planned, =, and as cut")
    return length_of(planned, unit), length_of(cut, unit)
