"""Choosing among values of dimensions: those that the job leaves free, and near misses of others.

A free dimension couples operations, so that each of its values is an ordering problem of its own,
as each combination of methods is. The values tried are those at which settings fall together, with
each other or with saved ones, and the ends of the range; every one is ordered with every method
that can come near the best.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from itertools import product

from sequencer import ordering
from sequencer.errors import Refusal
from sequencer.job.free import Dimension, open_slots, place_of, with_values
from sequencer.joints import JOINTS
from sequencer.methods import Choices
from sequencer.operations import Work
from sequencer.passes import widest
from sequencer.plan import Chosen
from sequencer.setups.choose import Contest
from sequencer.setups.given import Given
from sequencer.setups.merges import Piece, between
from sequencer.shelf import Shelf
from sequencer.trade import fits

MOST_VALUES = 12
"""Values of one dimension that are ordered: those whose settings, each made once, take least."""

MOST_TOGETHER = 40
"""Combinations of several dimensions' values that are all ordered. With more, one dimension after
another is chosen, twice round."""

SPARE_MINUTES = 8
"""Methods whose bound is this much dearer than the best, at both ends of a range and in its middle,
are left out: a dimension that falls together with another saves one or two settings."""

_WIDTHS = ("groove.width", "joint.slot")
_WITHIN = (Fraction(31, 97), Fraction(67, 97))
"""Where in each half of a range the ways of settings are read off: at values that nothing else in
a job is likely to have."""


@dataclass(frozen=True, slots=True, order=True)
class Cost:
    minutes: Fraction
    setups: int


@dataclass(frozen=True, slots=True)
class Tried:
    """Values of all dimensions, in their order, and what they cost."""

    values: tuple[Fraction, ...]
    cost: Cost


@dataclass(slots=True)
class Freedom:
    """A batch whose dimensions are varied. `methods` are those whose settings are looked at, once
    it is known which come near the best."""

    given: Given
    methods: tuple[Choices, ...] | None = None
    _costs: dict[tuple[tuple[Dimension, Fraction], ...], Cost | None] = field(default_factory=dict)

    def cost(self, chosen: Sequence[tuple[Dimension, Fraction]]) -> Cost | None:
        """What the batch costs with these values; `None` where it cannot be made with them."""
        key = tuple(chosen)
        if key not in self._costs:
            contest = self._contest(key)
            self._costs[key] = None if contest is None else _least(contest)
        return self._costs[key]

    def narrow(self, dimensions: Sequence[Dimension]) -> None:
        """Look from now on only at the settings of methods that come near the best with all
        dimensions low, in the middle or high."""
        near: dict[Choices, None] = {}
        parts = (Fraction(0), Fraction(1, 2), Fraction(1))
        points = [tuple((d, d.low + (d.high - d.low) * part) for d in dimensions) for part in parts]
        for chosen in dict.fromkeys(points):
            contest = self._contest(chosen)
            cost = self._costs[chosen] = None if contest is None else _least(contest)
            if contest is not None and cost is not None:
                compared = zip(contest.choices, contest.methods(0), strict=True)
                spare = cost.minutes + SPARE_MINUTES
                near |= {choices: None for choices, method in compared if method.minutes <= spare}
        self.methods = tuple(near) or None

    def values(
        self,
        dimension: Dimension,
        others: Sequence[tuple[Dimension, Fraction]] = (),
        most: int | None = None,
    ) -> tuple[Fraction, ...]:
        """The values of the dimension worth ordering, smallest first: its ends, what it is now,
        and those at which settings fall together."""
        lots = self._lots(dimension, others)
        meetings = self._meetings(dimension, lots)
        # What a saved setting or a pass fewer saves is not in the guess; a minute, at least.
        found = {v: self._guess(v, lots) - surely for v, surely in meetings.items()}
        kept = {dimension.low, dimension.high, dimension.value}
        rest = self._likeliest({v: guess for v, guess in found.items() if v not in kept})
        room = (MOST_VALUES if most is None else most) - len(kept)
        return tuple(sorted({*kept, *rest[:room]}))

    def near_misses(self, dimension: Dimension, most: int) -> tuple[Fraction, ...]:
        """Values at which fewer settings are to be made than at the dimension's value, or a saved
        one is met, the likeliest first."""
        lots = self._lots(dimension, ())
        now = [self._guess(dimension.value, [lot]) for lot in lots]
        found: dict[Fraction, Fraction] = {}
        for value, surely in self._meetings(dimension, lots).items():
            guesses = [self._guess(value, [lot]) for lot in lots]
            fewer = any(then < before for then, before in zip(guesses, now, strict=True))
            if value != dimension.value and (surely or fewer):
                found[value] = min(guesses, default=Fraction(0))
        return tuple(self._likeliest(found)[:most])

    def meeting_saved(self, dimension: Dimension) -> tuple[Fraction, ...]:
        """Values at which a setting falls together with a saved one, nearest to its own first."""
        shelf = self.given.saved or Shelf()
        pieces = (piece for lot in self._lots(dimension, ()) for piece in lot)
        found = {value for piece in pieces for value in piece.saved(shelf)}
        own = dimension.value
        return tuple(sorted(found - {own}, key=lambda value: (abs(value - own), value)))

    def _lots(
        self, dimension: Dimension, others: Sequence[tuple[Dimension, Fraction]]
    ) -> list[tuple[Piece, ...]]:
        """The ways of all settings through the dimension's range, method by method."""
        low, middle, high = dimension.low, dimension.value, dimension.high
        if not low < middle < high:
            middle = (low + high) / 2
        found: dict[Choices, list[Piece]] = {}
        for begin, end in ((low, middle), (middle, high)):
            made: dict[Choices, list[tuple[Fraction, Work]]] = {}
            for part in _WITHIN:
                value = begin + (end - begin) * part
                for choices, work in self._works((*others, (dimension, value))):
                    made.setdefault(choices, []).append((value, work))
            for choices, works in made.items():
                if len(works) == len(_WITHIN):
                    first, last = works
                    found.setdefault(choices, []).append(
                        between(begin, end, first, last, self.given.shop)
                    )
        return [tuple(each) for each in found.values()]

    def _guess(self, value: Fraction, lots: Iterable[tuple[Piece, ...]]) -> Fraction:
        minutes = self.given.shop.minutes
        guesses = [
            piece.settings_at(value, minutes)
            for lot in lots
            for piece in lot
            if piece.low <= value <= piece.high
        ]
        return min(guesses, default=Fraction(0))

    def _likeliest(self, guesses: Mapping[Fraction, Fraction]) -> list[Fraction]:
        step = self.given.shop.graduation
        return sorted(guesses, key=lambda value: (guesses[value], value % step != 0, value))

    def ranked(self, dimensions: Sequence[Dimension]) -> tuple[Tried, ...]:
        """All that was tried for the free dimensions, the best first: fewest minutes, fewest
        setups, values on the scale, nearest to the middles of their ranges."""
        self.narrow(dimensions)
        lists = [self.values(dimension) for dimension in dimensions]
        size = 1
        for values in lists:
            size *= len(values)
        tried: dict[tuple[Fraction, ...], Tried] = {}

        def attempt(values: tuple[Fraction, ...]) -> None:
            if values not in tried:
                cost = self.cost(tuple(zip(dimensions, values, strict=True)))
                if cost is not None:
                    tried[values] = Tried(values, cost)

        if size <= MOST_TOGETHER:
            for values in product(*lists):
                attempt(values)
        else:
            at = tuple(dimension.low for dimension in dimensions)
            for n in (*range(len(dimensions)), *range(len(dimensions))):
                others = [(d, v) for m, (d, v) in enumerate(zip(dimensions, at, strict=True))
                          if m != n]  # fmt: skip
                for value in self.values(dimensions[n], others):
                    attempt((*at[:n], value, *at[n + 1 :]))
                near = [t for t in tried.values() if t.values[:n] == at[:n]
                        and t.values[n + 1 :] == at[n + 1 :]]  # fmt: skip
                if near:
                    at = min(near, key=lambda t: self._preference(t, dimensions)).values
        return tuple(sorted(tried.values(), key=lambda t: self._preference(t, dimensions)))

    def chosen(self, dimensions: Sequence[Dimension], best: Tried) -> tuple[Chosen, ...]:
        """What was taken for each dimension, and what its ends would have cost, the others as they
        were taken."""
        pairs = tuple(zip(dimensions, best.values, strict=True))
        found: list[Chosen] = []
        for dimension, value in pairs:
            others: dict[str, Fraction] = {}
            for end in (dimension.low, dimension.high):
                cost = self.cost(tuple((d, end if d == dimension else v) for d, v in pairs))
                if end != value and cost is not None:
                    others[str(end)] = cost.minutes
            found.append(
                Chosen(
                    key=dimension.key,
                    place=place_of(dimension),
                    low=dimension.low,
                    high=dimension.high,
                    value=value,
                    others=others,
                )
            )
        return tuple(found)

    def _preference(self, tried: Tried, dimensions: Sequence[Dimension]) -> tuple[object, ...]:
        pairs = list(zip(dimensions, tried.values, strict=True))
        off_scale = sum(value % self.given.shop.graduation != 0 for _, value in pairs)
        away = sum((abs(2 * value - d.low - d.high) for d, value in pairs), Fraction(0))
        return (tried.cost, off_scale, away, tried.values)

    def _contest(self, chosen: Sequence[tuple[Dimension, Fraction]]) -> Contest | None:
        jobs = with_values(self.given.jobs, chosen)
        try:
            return Contest(replace(self.given, jobs=jobs))
        except Refusal:
            return None

    def _works(
        self, chosen: Sequence[tuple[Dimension, Fraction]]
    ) -> Iterator[tuple[Choices, Work]]:
        given = replace(self.given, jobs=with_values(self.given.jobs, chosen))
        try:
            choices_open = given.open()
        except Refusal:
            return
        for choices in choices_open:
            if self.methods is None or choices in self.methods:
                try:
                    yield choices, given.work(choices)[1]
                except Refusal:
                    continue

    def _meetings(
        self, dimension: Dimension, lots: Iterable[tuple[Piece, ...]]
    ) -> Mapping[Fraction, bool]:
        """Values at which settings fall together, or a slot or groove takes another number of
        passes; whether that is with a saved setting, or by another number."""
        found = dict.fromkeys((dimension.low, dimension.high, dimension.value), False)
        shelf = self.given.saved or Shelf()
        for lot in lots:
            for piece in lot:
                found = {**dict.fromkeys(piece.crossings(), False), **found}
                found |= dict.fromkeys(piece.saved(shelf), True)
        if dimension.key in _WIDTHS:
            overlap = fits.OVERLAP.of(self.given.jobs[0].unit)
            count = 1
            while (width := widest(count, self.given.cutter.kerf, overlap)) <= dimension.high:
                if width >= dimension.low:
                    found[width] = True
                count += 1
        return found


def _least(contest: Contest) -> Cost | None:
    try:
        best = contest.cheapest()
    except Refusal:
        return None
    if best is None:
        return None
    order = contest.orders[best]
    problem = contest.candidate(best).problem
    return Cost(order.minutes, ordering.check.recompute(problem, order.steps).setups)


MOST_SLOTS = 4
"""Widths of a slot left open that are ordered beside its own; ours."""

MOST_OPERATIONS = 300
"""Operations of a batch beyond which its slots are what they are: each width is a plan more; ours.
"""

OPEN_WINDOW = fits.Datum(
    Fraction(1, 32), Fraction(4, 5), "ours: a slot is still about a third of the thickness"
)


def drawn_to_saved(given: Given) -> tuple[Given, tuple[Chosen, ...]]:
    """What is given with slots that the jobs leave open drawn to what was dialled in before, where
    that saves minutes, and what was chosen; unchanged where nothing is saved."""
    shelf, dimensions = given.saved, open_slots(given.jobs)
    if shelf is None or not shelf.shares or not dimensions or given.past is not None:
        return given, ()
    if len(given.work(given.open()[0])[1].operations) > MOST_OPERATIONS:
        return given, ()
    chosen: list[Chosen] = []
    unit = given.jobs[0].unit
    for empty in dimensions:
        own = _slot_now(given, empty)
        if own is None:
            continue
        window = OPEN_WINDOW.of(unit)
        dimension = replace(empty, low=own - window, high=own + window, value=own)
        freedom = Freedom(given)
        now = freedom.cost(())
        values = freedom.meeting_saved(dimension)[:MOST_SLOTS]
        costs = {value: freedom.cost(((dimension, value),)) for value in values}
        best = min(
            ((cost, abs(value - own), value) for value, cost in costs.items() if cost is not None),
            default=None,
        )
        if now is None or best is None or best[0].minutes >= now.minutes:
            continue
        given = replace(given, jobs=with_values(given.jobs, [(dimension, best[2])]))
        chosen.append(
            Chosen(
                key=dimension.key,
                place=place_of(dimension),
                low=dimension.low,
                high=dimension.high,
                value=best[2],
                others={str(own): now.minutes},
            )
        )
    return given, tuple(chosen)


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
