"""Choosing among values of dimensions: those that the job leaves free, and near misses of others.

A free dimension couples operations, so that each of its values is an ordering problem of its own,
as each combination of methods is. The values tried are those at which settings fall together, with
each other or with saved ones, and the ends of the range; every one is ordered with every method
that can come near the best.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import product

from msgspec import Struct, field

from sequencer import ordering
from sequencer.errors import Refusal
from sequencer.job.free import Dimension, place_of, with_values
from sequencer.job.schema import Shop
from sequencer.methods import Choices
from sequencer.operations import Work
from sequencer.passes import widest
from sequencer.plan import Chosen
from sequencer.records import replace
from sequencer.saw.fittings import GUIDES
from sequencer.setups.choose import Contest
from sequencer.setups.given import Candidate, Given
from sequencer.setups.merges import Piece, between
from sequencer.setups.needs import deck, rides, tested_knob
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


class Cost(Struct, frozen=True, order=True):
    minutes: Fraction
    setups: int


class Tried(Struct, frozen=True):
    """Values of all dimensions, in their order, what they cost, and how many of the settings that
    are dialled in are given then: by what worked before, or by a block at hand."""

    values: tuple[Fraction, ...]
    cost: Cost
    given: int = 0


class Freedom(Struct):
    """A batch whose dimensions are varied. `methods` are those whose settings are looked at, once
    it is known which come near the best."""

    given: Given
    methods: tuple[Choices, ...] | None = None
    _tried: dict[tuple[tuple[Dimension, Fraction], ...], Tried | None] = field(default_factory=dict)

    def cost(self, chosen: Sequence[tuple[Dimension, Fraction]]) -> Cost | None:
        """What the batch costs with these values; `None` where it cannot be made with them."""
        tried = self.tried(chosen)
        return None if tried is None else tried.cost

    def tried(self, chosen: Sequence[tuple[Dimension, Fraction]]) -> Tried | None:
        """The same, with how many settings are given."""
        key = tuple(chosen)
        if key not in self._tried:
            contest = self._contest(key)
            values = tuple(value for _, value in key)
            self._tried[key] = None if contest is None else _least(contest, values)
        return self._tried[key]

    def narrow(self, dimensions: Sequence[Dimension]) -> None:
        """Look from now on only at the settings of methods that come near the best with all
        dimensions low, in the middle or high."""
        near: dict[Choices, None] = {}
        parts = (Fraction(0), Fraction(1, 2), Fraction(1))
        points = [tuple((d, d.low + (d.high - d.low) * part) for d in dimensions) for part in parts]
        for chosen in dict.fromkeys(points):
            contest = self._contest(chosen)
            values = tuple(value for _, value in chosen)
            tried = None if contest is None else _least(contest, values)
            self._tried[chosen] = tried
            if contest is not None and tried is not None:
                compared = zip(contest.choices, contest.methods(0), strict=True)
                spare = tried.cost.minutes + SPARE_MINUTES
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

    def meeting_given(self, dimension: Dimension) -> tuple[Fraction, ...]:
        """Values at which settings fall together with saved ones or with blocks at hand: where
        most do first, of these the nearest to its own. None where fewer do than at its own, and
        none at all where all do there by the first of the methods."""
        found: dict[Fraction, int] = {}
        own = dimension.value
        ways = [Freedom(self.given, (each,)) for each in self.methods or ()]
        for freedom in ways or [self]:
            for lot in freedom._lots(dimension, ()):
                least, asked = self._given_at(own, lot)
                if least == asked and ways and freedom is ways[0]:
                    return ()
                met = Counter(value for piece in lot for value in self._given_in(piece))
                for value, settings in met.items():
                    if settings >= least:
                        found[value] = max(settings, found.get(value, 0))
        found.pop(own, None)
        return tuple(sorted(found, key=lambda value: (-found[value], abs(value - own), value)))

    def _given_at(self, value: Fraction, lot: Sequence[Piece]) -> tuple[int, int]:
        """How many settings that follow the dimension are given at a value, and how many of them
        there are."""
        shelf, blocks = self.given.saved or Shelf(), self.given.shop.tools.blocks
        piece = next(each for each in lot if each.low <= value <= each.high)
        numbers = set(piece.numbers_at(value))
        given = sum(
            bool(shelf.near(cutter, kerf, carrier, knob, number, number))
            or (knob in GUIDES and number - rides(carrier, self.given.shop) in blocks)
            for (knob, carrier, cutter, kerf), number in numbers
        )
        return given, len(numbers)

    def _given_in(self, piece: Piece) -> Iterator[Fraction]:
        """Values at which a setting of the piece is given by a saved one, or by a block."""
        yield from piece.saved(self.given.saved or Shelf())
        yield from piece.at_blocks(self.given.shop)

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
        setups, most settings given, values on the scale, nearest to the middles of their ranges."""
        self.narrow(dimensions)
        lists = [self.values(dimension) for dimension in dimensions]
        size = 1
        for values in lists:
            size *= len(values)
        tried: dict[tuple[Fraction, ...], Tried] = {}

        def attempt(values: tuple[Fraction, ...]) -> None:
            if values not in tried:
                found = self.tried(tuple(zip(dimensions, values, strict=True)))
                if found is not None:
                    tried[values] = found

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
        return (tried.cost, -tried.given, off_scale, away, tried.values)

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
                blocks = piece.at_blocks(self.given.shop)
                found = {**dict.fromkeys(blocks, False), **found}
        if dimension.key in _WIDTHS:
            overlap = fits.OVERLAP.of(self.given.jobs[0].unit)
            count = 1
            while (width := widest(count, self.given.cutter.kerf, overlap)) <= dimension.high:
                if width >= dimension.low:
                    found[width] = True
                count += 1
        return found


def _least(contest: Contest, values: tuple[Fraction, ...]) -> Tried | None:
    try:
        best = contest.cheapest()
    except Refusal:
        return None
    if best is None:
        return None
    return tried_as(contest.candidate(best), contest.orders[best], contest.given.shop, values)


def tried_as(
    candidate: Candidate, order: ordering.Order, shop: Shop, values: tuple[Fraction, ...]
) -> Tried:
    """What an order of a candidate costs, and how many of its settings are given."""
    setups = ordering.check.recompute(candidate.problem, order.steps).setups
    return Tried(values, Cost(order.minutes, setups), _given(candidate, shop))


def _given(candidate: Candidate, shop: Shop) -> int:
    """How many numbers that are dialled in are given by what worked before, or by a block."""
    framed = candidate.framed
    proven = {
        (knob, framed.values[knob, text].number)
        for (knob, text), known in framed.reuse.known.items()
        if known.how != "scale"
    }
    if not proven and not shop.tools.blocks:
        return 0
    found: set[tuple[str, Fraction]] = set()
    for operation in candidate.work.operations:
        setting = operation.setting
        for test in () if setting is None else setting.tests:
            assert setting is not None
            number = setting.depth[1] + deck(setting.carrier, shop)
            if test.knob == "guide":
                assert setting.guide is not None
                number = setting.guide + rides(setting.carrier, shop)
            named = (tested_knob(test, setting, shop), number)
            block = test.knob == "guide" and setting.guide in shop.tools.blocks
            if block or named in proven:
                found.add(named)
    return len(found)
