"""What no mixture of methods can beat, each door cut by its own.

Methods are chosen for the batch as a whole, so a mixture is never ordered. What one takes at least
is what a problem takes in which every cut may be made as any open method makes it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from fractions import Fraction
from itertools import count, product

from sequencer import ordering
from sequencer.errors import Refusal
from sequencer.facts import doors as called
from sequencer.job.schema import Door, Job, Opening
from sequencer.methods import Choices
from sequencer.operations import Operation, Work
from sequencer.plan import Ordering
from sequencer.records import replace
from sequencer.saw.fittings import NUMBERED
from sequencer.saw.operation import OperationId
from sequencer.setups.given import Candidate, Given
from sequencer.setups.needs import frame

COMMON = ("rip", "square", "crosscut")
"""The kinds of cut that are the same by every method, but for test pieces."""
_STATES = 300

Way = tuple[Operation, Operation]
"""A cut with its setting where a depth is a rail's own, and where all rails share the least."""

Carry = Callable[[Choices, tuple[Job, ...]], Candidate]
"""Jobs cut by some methods; made once."""


def mixed_minutes(
    given: Given, kinds: tuple[Job, ...], usual: Candidate, carry: Carry, enough: Fraction
) -> Fraction | None:
    """Minutes that no plan beats in which each door is cut by its own methods, looked for up to
    `enough`; `None` where there is but one kind of joint, for doors that are alike lose nothing by
    being cut alike. `kinds` are the jobs with one door for each kind of joint, `usual` all of them
    cut by the usual methods."""
    loose = bool(given.jobs[0].pieces)
    if not loose and sum(door.slab is None for job in kinds for door in job.doors) < 2:
        return None
    ways: dict[str, list[Way]] = {
        usual.work.operations[n].id: [(usual.work.operations[n],) * 2] for n in common(usual)
    }
    before = {(edge.before, edge.after) for edge in usual.work.edges}
    for jobs, choices in () if loose else _families(given, kinds):
        found = [_ways(each, jobs, kinds, carry) for each in choices]
        names = [name for name in found[0] if all(name in way for way in found)]
        ways |= {name: list(dict.fromkeys(way[name] for way in found)) for name in names}
        before |= set.intersection(
            *(_edges(carry(c, jobs), way) for c, way in zip(choices, found, strict=True))
        )
    problem = _loosest(given, usual.work, ways, before)
    return ordering.bound(problem, enough, max_states=_STATES)


def common(usual: Candidate) -> tuple[int, ...]:
    """The cuts that are the same by every method, by their indices."""
    tests = {
        mark
        for plan in usual.work.layout.sticks if plan.stick.test
        for mark in (plan.stick.mark, *(piece.mark for piece in plan.stick.pieces))
    }  # fmt: skip
    return tuple(
        n for n, o in enumerate(usual.work.operations) if o.kind in COMMON and o.mark not in tests
    )


def _loosest(
    given: Given, like: Work, ways: Mapping[str, list[Way]], before: set[tuple[str, str]]
) -> ordering.Problem:
    """Every cut in any of its ways, of each what is the same for any depth between its two. All
    are framed together: what a height or a guide serves is seen in sight of all others."""
    numbers = count()
    numbered = {
        name: [tuple((next(numbers), one) for one in way) for way in each]
        for name, each in ways.items()
    }
    every = [
        replace(one, name=replace(one.name, mark=str(number)))
        for each in numbered.values() for way in each for number, one in way
    ]  # fmt: skip
    alone = replace(like, operations=tuple(every), edges=())
    framed = frame(alone, given.shop, given.jobs[0].unit, given.saved).problem

    def between(own: int, least: int) -> Iterator[ordering.Alternative]:
        minutes = min(every[own].minutes, every[least].minutes)
        both = (framed.operations[n].alternatives for n in (own, least))
        for one, other in product(*both):
            same = {k: v for k, v in one.needs.items() if other.needs.get(k) == v}
            yield ordering.Alternative(same, minutes)

    operations = []
    for name, each in numbered.items():
        open_ = [way for (own, _), (least, _) in each for way in between(own, least)]
        cheapest = min(way.minutes for way in open_)
        alike = [replace(way, minutes=cheapest) for way in open_]
        operations.append(ordering.Operation(name, tuple(alike)))
    index = {name: n for n, name in enumerate(numbered)}
    return replace(
        framed,
        operations=tuple(operations),
        before=tuple((index[a], index[b]) for a, b in sorted(before) if a in index and b in index),
    )


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


def _ways(
    choices: Choices, jobs: tuple[Job, ...], kinds: tuple[Job, ...], carry: Carry
) -> dict[str, Way]:
    """The cuts of the jobs' joints and what runs along their pieces, by what is cut where."""
    own = _placed(carry(choices, jobs))
    try:
        least = _placed(carry(replace(choices, slot_depth="common"), kinds))
    except (Refusal, ValueError):  # ValueError: a kerf wider than the cut
        return {}
    return {place: (one, least[place]) for place, one in own.items() if place in least}


def _placed(carried: Candidate) -> dict[str, Operation]:
    """The cuts that are not common, by piece, place and number: whatever the method, a place that
    is cut has a first. What is cut on a stick is so for each of its pieces."""
    on: dict[str, tuple[str, ...]] = {
        part.mark: (part.mark,) for leaf in carried.leaves for part in leaf.parts
    }
    for plan in carried.work.layout.sticks:
        if not plan.stick.test:
            on[plan.stick.mark] = tuple(piece.mark for piece in plan.stick.pieces)
    found: dict[str, Operation] = {}
    numbers: Counter[str] = Counter()
    for operation in carried.work.operations:
        name = operation.name
        what = "edge-shoulder" if name.what == "sweep" else name.what
        for mark in on.get(operation.mark, ()) if operation.kind not in COMMON else ():
            place = f"{mark} {what} {name.at}"
            numbers[place] += 1
            found[f"{place} {numbers[place]}"] = operation
    return found


def _edges(carried: Candidate, ways: Mapping[str, Way]) -> set[tuple[str, str]]:
    """What comes before what, by the names of the ways, and of the cuts that are common."""
    named = {operation.id: name for name, (operation, _) in ways.items()}
    return {
        (named.get(edge.before, edge.before), named.get(edge.after, edge.after))
        for edge in carried.work.edges
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
