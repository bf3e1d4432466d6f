"""`sequencer recut`: what spoiled pieces are made again from."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from sequencer.errors import Fault, InputError, UsageError
from sequencer.facts import Fact, commands, files
from sequencer.job.load import read_text
from sequencer.records import replace
from sequencer.saved import planning

if TYPE_CHECKING:
    from sequencer.plan import Plan
    from sequencer.saved.evidence import Noted
    from sequencer.setups.given import Given

FOLLOWED = "sheets/plan.json"
_UNITS = {"in": "inches", "mm": "millimetres"}


def cut_again(
    options: argparse.Namespace, given: Given, found: Sequence[Noted]
) -> tuple[Plan, tuple[Fact, ...]]:
    """The plan of the spoiled pieces alone, and what is to be said of it: as their mates came out
    where the job was followed at the saw, else as they were printed, or `found` in the store."""
    from sequencer import pipeline
    from sequencer.saved.recut import recut, spare, told
    from sequencer.sawside import again
    from sequencer.sawside.command import followed_state

    unit = given.jobs[0].unit
    state = None if options.plan else followed_state(options)
    if state is not None and state.plan.unit == unit:
        mates = again.as_followed(state, given, options.followed_in)
        printed = state.base.plan
    elif options.plan is None and not Path(FOLLOWED).exists():
        printed = pipeline.planned(given)
        mates = again.as_printed(printed, given, found)
        mates = replace(mates, says=(commands.PLANNED_ANEW(file=FOLLOWED), *mates.says))
    else:
        file = options.plan or FOLLOWED
        printed = named_plan(file)
        if printed.unit != unit:
            its, own = _UNITS[printed.unit], _UNITS[unit]
            raise UsageError(commands.OTHER_UNIT(file=file, its=its, own=own))
        mates = again.as_printed(printed, given, found)
        mates = replace(mates, says=(commands.METHODS_AS_IN(file=file), *mates.says))
    for text in options.slot:
        mates = again.with_slot(mates, *planning.slot_of(text, unit))
    marks = list(dict.fromkeys(options.marks))
    plan = recut(mates.plan, mates.given, marks, mates.choices, otherwise=mates.otherwise)
    before = replace(given, shop=again.as_planned(given.shop, printed))
    return plan, (*mates.says, told(spare(printed, before, plan)))


def named_plan(name: str) -> Plan:
    from sequencer import contract

    path = Path(name)
    folder = path if path.is_dir() else path.parent
    file = path / "plan.json" if path.is_dir() else path
    one_set(folder, str(file))
    return contract.from_json(read_text(str(file), files.PLAN_WRITES_ONE()), str(file))


def one_set(folder: Path, file: str) -> None:
    """Raises `InputError` where the plan is not of the set that its folder's manifest tells of."""
    from sequencer.cli.manifest import not_of_the_set
    from sequencer.cli.swapping import finish

    finish(folder)
    if Path(file).name in not_of_the_set(folder):
        message, hint = files.NOT_OF_THE_SET(), files.PLAN_AGAIN()
        raise InputError((Fault(file, 0, 0, message, hint),))
