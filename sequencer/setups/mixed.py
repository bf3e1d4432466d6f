"""What no mixture of methods can beat, each door cut by its own.

Methods are chosen for the batch as a whole, so a mixture is never ordered. What it takes at least
are the settings that every door's joints need by whatever method, and those that one door needs
beside them by the method that needs fewest.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from fractions import Fraction

from sequencer.errors import Refusal
from sequencer.facts import doors as called
from sequencer.job.schema import Door, Job, Opening
from sequencer.methods import Choices
from sequencer.ordering.least import Dues
from sequencer.plan import Ordering
from sequencer.saw.fittings import NUMBERED
from sequencer.saw.operation import OperationId
from sequencer.setups.given import Candidate, Given

COMMON = ("rip", "square", "crosscut")
"""The kinds of cut that are the same by every method."""

Needed = Mapping[tuple[str, str], str]
"""By operation and knob, the one value that will do."""

Carry = Callable[[Choices, tuple[Job, ...]], Candidate]
"""Jobs cut by some methods; made once."""


def mixed_minutes(
    given: Given, kinds: tuple[Job, ...], common: Dues, carry: Carry
) -> Fraction | None:
    """Minutes that no plan beats in which each door is cut by its own methods; `None` where there
    is but one kind of joint, for doors that are alike lose nothing by being cut alike. `kinds` are
    the jobs with one door for each kind of joint, `common` what the rips and crosscuts take."""
    if any(job.pieces for job in kinds):
        return common.minutes
    if sum(door.slab is None for job in kinds for door in job.doors) < 2:
        return None
    families = [
        [_needed(each, jobs, kinds, carry) for each in choices]
        for jobs, choices in _families(given, kinds)
    ]
    always = set(common.settings)
    for ways in families:
        shared = set(ways[0].items()).intersection(*(way.items() for way in ways))
        always |= {(knob, value) for (_, knob), value in shared}
    usual = carry(given.open()[0], kinds)
    problem = usual.problem
    knobs = {knob.name: knob for knob in problem.knobs}
    door_of = {part.mark: part.door for leaf in usual.leaves for part in leaf.parts}

    def paid(settings: set[tuple[str, str]]) -> Fraction:
        fresh = [(k, value) for k, value in settings if value != problem.start.get(k)]
        return sum((knobs[k].cost(value) for k, value in fresh), Fraction(0))

    most = Fraction(0)
    for ways in families:
        for door in {_door(key, door_of) for key in ways[0]}:
            mine = [
                {(k[1], v) for k, v in way.items() if _door(k, door_of) == door} for way in ways
            ]
            most = max(most, min(paid(settings - always) for settings in mine))
    return paid(always) + most + common.own


def _door(key: tuple[str, str], door_of: Mapping[str, str]) -> str:
    return door_of[OperationId.parse(key[0]).mark]


def _families(
    given: Given, kinds: tuple[Job, ...]
) -> Iterator[tuple[tuple[Job, ...], tuple[Choices, ...]]]:
    """The doors that the same methods are open for, each lot as jobs of its own, with the methods:
    whether a depth may be shared depends on the other doors and is none of them."""
    found: dict[tuple[Choices, ...], list[Job]] = {}
    for job in kinds:
        for door in job.doors:
            one = replace(job, doors=(door,))
            own = (replace(c, slot_depth="each", groove_on="stick") for c in given.open((one,)))
            found.setdefault(tuple(dict.fromkeys(own)), []).append(one)
    for choices, jobs in found.items():
        yield (kinds if len(found) == 1 else tuple(jobs)), choices


def _needed(
    choices: Choices, jobs: tuple[Job, ...], kinds: tuple[Job, ...], carry: Carry
) -> Needed:
    """What the jobs' joints cannot do without, whatever depth a door shares with others: what is
    the same for a depth a rail and for the least depth of all is the same for those between."""
    own = _single(carry(choices, jobs))
    try:
        least = _single(carry(replace(choices, slot_depth="common"), kinds))
    except (Refusal, ValueError):  # ValueError: a kerf wider than the cut
        return {}
    return {key: value for key, value in own.items() if least.get(key) == value}


def _single(candidate: Candidate) -> Needed:
    """By operation of the doors' own parts and by knob, the only value that will do."""
    parts = {part.mark for leaf in candidate.leaves for part in leaf.parts}
    problem = candidate.problem
    return {
        (operation.id, knob): values[0]
        for number, operation in enumerate(candidate.work.operations)
        if operation.kind not in COMMON and operation.mark in parts
        if number not in problem.done and len(problem.operations[number].alternatives) == 1
        for knob, values in problem.operations[number].alternatives[0].needs.items()
        if len(values) == 1
    }


def least_at_any_value(found: Ordering) -> Fraction:
    """Minutes that no plan beats whatever its methods and dimensions: what rips and crosscuts need
    of the knobs that no dimension changes, and one setting of each other knob that they use."""
    costs = {knob.name: knob for knob in found.knobs}
    settings: set[tuple[str, str]] = set()
    measured: set[str] = set()
    for operation in found.operations:
        if OperationId.parse(operation.id).what in COMMON and len(operation.alternatives) == 1:
            for name, values in operation.alternatives[0].needs.items():
                if name in NUMBERED:
                    measured.add(name)
                elif len(values) == 1:
                    settings.add((name, values[0]))
    paid = [costs[name].by_value.get(value, costs[name].minutes) for name, value in settings]
    paid += [min([costs[name].minutes, *costs[name].by_value.values()]) for name in measured]
    return sum(paid, Fraction(0))


def one_of_each_kind(job: Job) -> Job:
    """The job with one door for each kind of joint: those that differ in size alone are alike."""
    kinds: dict[Door, int] = {}
    for number, door in enumerate(job.doors):
        nothing = Opening(Fraction(0), Fraction(0))
        kind = replace(
            door,
            opening=nothing,
            marks=("",) * door.leaves,
            name=called.OWN_NAME(name=""),
            where="",
            places={},
        )
        kinds.setdefault(kind, number)
    return replace(job, doors=tuple(job.doors[number] for number in kinds.values()))
