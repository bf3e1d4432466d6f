"""Widths of slots that a job leaves open, drawn to what worked before and to blocks at hand.

A slot is about a third of the thickness; where another width near it lets settings be used that
were dialled in before, at no more minutes, it is that. Grooves that nothing else gives a width
follow their slots.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from sequencer.errors import Refusal
from sequencer.free_values import Freedom, Tried, tried_as
from sequencer.job.free import Dimension, open_slots, place_of, with_values
from sequencer.joints import JOINTS
from sequencer.methods import Choices
from sequencer.plan import Chosen
from sequencer.records import replace
from sequencer.setups.choose import FEW_STATES, Contest
from sequencer.setups.given import Given
from sequencer.trade import fits

MOST_SLOTS = 4
"""Widths of a slot left open that are ordered beside its own; ours."""

MOST_METHODS = 2
"""Methods that another width is ordered by: those that are best at its own. The width that is
taken is then compared by all; ours."""

MOST_OPERATIONS = 300
"""Operations of a batch beyond which its slots are what they are: each width is a plan more; ours.
"""

OPEN_WINDOW = fits.Datum(
    Fraction(1, 32), Fraction(4, 5), "ours: a slot is still about a third of the thickness"
)


def drawn(contest: Contest) -> tuple[Given, tuple[Chosen, ...]]:
    """What a contest is about with slots that the jobs leave open drawn to what is given, where
    that takes fewer minutes, or as many with more settings given; and what was chosen. Unchanged
    where nothing is better."""
    given = contest.given
    dimensions = _open(given)
    if not dimensions or len(contest.made[0].work.operations) > MOST_OPERATIONS:
        return given, ()
    try:
        best = contest.cheapest()
    except Refusal:
        return given, ()
    if best is None:
        return given, ()
    now = tried_as(contest.candidate(best), contest.orders[best], given.shop, ())
    methods = _near(contest, best)
    chosen: list[Chosen] = []
    for dimension in dimensions:
        freedom = Freedom(given, methods)
        least = now
        for value in freedom.meeting_given(dimension)[:MOST_SLOTS]:
            tried = _tried(replace(given, jobs=with_values(given.jobs, [(dimension, value)])),
                           methods, value)  # fmt: skip
            if tried is not None and _rank(tried, dimension) < _rank(least, dimension):
                least = tried
        if least is now:
            continue
        (value,) = least.values
        given = replace(given, jobs=with_values(given.jobs, [(dimension, value)]))
        others = {str(dimension.value): now.cost.minutes}
        place = place_of(dimension)
        chosen.append(Chosen(dimension.key, place, dimension.low, dimension.high, value, others))
        now = replace(least, values=())
    return given, tuple(chosen)


def _open(given: Given) -> tuple[Dimension, ...]:
    """The slots that are open, each about its own width, where anything may draw them."""
    known = given.saved is not None and bool(given.saved.shares)
    if given.past is not None or not (known or given.shop.tools.blocks):
        return ()
    window = OPEN_WINDOW.of(given.jobs[0].unit)
    found = ((empty, _slot_now(given, empty)) for empty in open_slots(given.jobs))
    return tuple(
        replace(empty, low=own - window, high=own + window, value=own)
        for empty, own in found
        if own is not None
    )


def _rank(tried: Tried, dimension: Dimension) -> tuple[object, ...]:
    (value,) = tried.values or (dimension.value,)
    return tried.cost.minutes, -tried.given, abs(value - dimension.value), value


def _near(contest: Contest, best: int) -> tuple[Choices, ...]:
    """The best methods, the very best first."""
    compared = enumerate(contest.methods(best))
    ranked = sorted((n != best, each.minutes, n) for n, each in compared if not each.refused)
    return tuple(contest.choices[n] for _, _, n in ranked[:MOST_METHODS])


def _tried(given: Given, methods: Sequence[Choices], value: Fraction) -> Tried | None:
    """What the jobs cost with a width, by the best of the methods; `None` where it cannot be."""
    found: list[Tried] = []
    for choices in methods:
        try:
            if choices in given.open():
                candidate = given.carried(choices)
                order = given.solve(candidate.problem, FEW_STATES)
                found.append(tried_as(candidate, order, given.shop, (value,)))
        except Refusal:
            continue
    return min(found, key=lambda each: (each.cost, -each.given), default=None)


def _slot_now(given: Given, dimension: Dimension) -> Fraction | None:
    """How wide a slot left open is by itself; `None` where its joint has none."""
    j, d = dimension.doors[0]
    door, job = given.jobs[j].doors[d], given.jobs[j]
    joint = JOINTS[door.joint.kind]
    if not joint.slotted or door.slab is not None:
        return None
    try:
        choices = given.open()[0]
        return joint.size(door, given.cutter.kerf, job.unit, given.measured, choices).slot_width
    except Refusal:
        return None
