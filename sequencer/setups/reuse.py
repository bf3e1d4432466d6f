"""Saved settings that a plan can use again, and what each costs to set.

A setting is used again on the same saw, cutter and carrier where it makes what is wanted within
the fit's tolerance. With another kerf it is first corrected by the difference: the side of the
kerf that makes the cut stays where it was.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from math import ceil

from msgspec import Struct, field

from sequencer.cuts.model import Operation
from sequencer.facts import Fact, Length, notes
from sequencer.job.schema import Minutes
from sequencer.lengths import Unit
from sequencer.plan import Known, Span
from sequencer.saw.fittings import timed_as
from sequencer.scales import FARTHEST_OFF, Scale
from sequencer.setups.looks import LOOK, looks_do
from sequencer.shelf import Key, Saved, Shelf

TOLD = 5
"""So many numbers of settings are told."""

NEWS = 6
"""Readings after a knock for which it is told; ours."""

Named = tuple[str, str]
"""A knob and a value of it, as the ordering problem names them."""


class Match(Struct, frozen=True):
    """A saved setting that sets a knob's value, `minutes` with its check cut where it needs one.
    `grown` is how much the kerf has grown since, `stands` the number that it sets today."""

    saved: Saved
    stands: Fraction
    grown: Fraction
    minutes: Fraction

    @property
    def by_gauge(self) -> bool:
        """A gauge lies between guide and blade, so it holds as long as the guide's number does."""
        return self.saved.gauge is not None and _holds(self.saved, self.grown)

    def off(self, number: Fraction) -> Fraction:
        """What the scale is to show beyond `number`. A gauge sets what it set; a scale is moved by
        as much as the setting that is kept stood off the number that is wanted today."""
        if self.by_gauge:
            return self.reads - number
        return self.saved.beyond(self.saved.kerf + self.grown)

    @property
    def reads(self) -> Fraction:
        """What the scale is to show: what it showed, less the part of the kerf's growth that the
        guide loses, more the half by which the blade's near side has come closer (teeth are taken
        to stand out evenly on both sides)."""
        shown = self.saved.shown
        if self.saved.knob == "height":
            return shown
        return shown + self.grown * (Fraction(1, 2) - (self.saved.share or 0))


class Want(Struct):
    """What a knob's value, `number`, must come out as: within `span`, on one of the carriers with
    one of the cutters, each with its kerf, in the order found. `tested`: its fit depends on it."""

    span: Span
    tested: bool
    number: Fraction = Fraction(0)
    look: bool = False
    """Whether what is too little can be cut away on the piece itself, and no fit hangs on it: then
    a look at the first piece may do."""
    by: dict[tuple[str, str], Fraction] = field(default_factory=dict)

    @property
    def key(self) -> tuple[object, ...]:
        """Equal for equal wants. Of whole numbers: the hash of a `Fraction` takes its time."""
        low, high = self.span
        by = tuple((*on, kerf.numerator, kerf.denominator) for on, kerf in self.by.items())
        ends = (low.numerator, low.denominator, high.numerator, high.denominator)
        return (*ends, self.tested, self.look, by)

    def narrow(self, span: Span, carrier: str, cutter: str, kerf: Fraction) -> None:
        if span != self.span:
            self.span = (max(self.span[0], span[0]), min(self.span[1], span[1]))
        self.by[carrier, cutter] = kerf


class Reuse(Struct, frozen=True):
    """`matches` of every value that a saved setting sets, and what is `known` of where to set it,
    by them or by its scale, with the `minutes` that this takes; `notes` on settings that could not
    be used, and on scales that were knocked; `scales` are those that were looked at."""

    matches: Mapping[Named, Match] = field(default_factory=dict)
    notes: tuple[Fact, ...] = ()
    known: Mapping[Named, Known] = field(default_factory=dict)
    minutes: Mapping[Named, Fraction] = field(default_factory=dict)
    scales: tuple[Scale, ...] = ()


def band(operation: Operation, tuned: str, number: Fraction) -> Span:
    """Numbers of a knob (`tuned`: guide or height) that make the operation's measures good."""
    assert operation.setting is not None
    spans = [
        sorted(
            ((test.low - test.target) / test.per_unit, (test.high - test.target) / test.per_unit)
        )
        for test in operation.setting.tests
        if test.knob == tuned
    ] or [
        sorted(((c.low - c.target) / c.per_unit, (c.high - c.target) / c.per_unit))
        for c in operation.checks
        if c.knob == tuned and c.per_unit
    ]
    if not spans:
        return (number, number)
    low, high = spans[0]
    for under, over in spans[1:]:
        low, high = max(low, under), min(high, over)
    return (number + low, number + high)


def find(
    wants: Mapping[Named, Want],
    shelf: Shelf,
    minutes: Minutes,
    steps: Mapping[str, Fraction] | None = None,
) -> Reuse:
    """The cheapest saved setting for every wanted value; of equals the one nearest to it, then
    the latest. Where there is none, what the readings of its scale tell. `steps` are what the
    scales are divided in, by their keys in a shop's file."""
    matches: dict[Named, Match] = {}
    doubted: dict[int, str] = {}
    other: dict[int, str] = {}
    useless: set[int] = set()
    scales: dict[Key, Scale] = {}
    known: dict[Named, Known] = {}
    cost: dict[Named, Fraction] = {}
    for named, want in wants.items():
        number = want.number
        key = (named[0], number.numerator, number.denominator, want.key)
        if key not in shelf.remembered:
            shelf.remembered[key] = _looked_up(named, want, shelf, minutes, steps or {})
        found: _LookedUp = shelf.remembered[key]
        doubted |= found.doubted
        other |= found.other
        useless |= found.useless
        scales |= found.scales
        if found.match is not None:
            matches[named] = found.match
        if found.known is not None:
            known[named], cost[named] = found.known, found.minutes
    used = {match.saved.number for match in matches.values()}
    told_of = (
        *_doubts(doubted, used),
        *_others(other, used),
        *_not_used(useless, shelf.unit),
        *_knocks(scales.values(), shelf.unit),
    )
    return Reuse(matches, told_of, known, cost, tuple(scales.values()))


class _LookedUp(Struct, frozen=True):
    """What the shelf has for one want: the best setting, those in doubt, of other cutters and that
    cannot be, what is known of where to set it, what that takes, and the scales that were looked
    at."""

    match: Match | None
    doubted: Mapping[int, str]
    other: Mapping[int, str]
    useless: frozenset[int]
    known: Known | None
    minutes: Fraction
    scales: Mapping[Key, Scale]


def _looked_up(
    named: Named, want: Want, shelf: Shelf, minutes: Minutes, steps: Mapping[str, Fraction]
) -> _LookedUp:
    match, doubted, other = _best(named[0], want, shelf, minutes)
    useless = _useless(named[0], want, shelf)
    scales: dict[Key, Scale] = {}
    known = _known(named, want, match, shelf, steps, scales, minutes)
    takes = Fraction(0) if known is None else _minutes(known, want, match, minutes)
    return _LookedUp(match, doubted, other, useless, known, takes, scales)


def _known(
    named: Named,
    want: Want,
    match: Match | None,
    shelf: Shelf,
    steps: Mapping[str, Fraction],
    scales: dict[Key, Scale],
    minutes: Minutes,
) -> Known | None:
    """What is known of where to set a value: its own history before the rest of its scale."""
    knob, number = named[0], want.number
    if match is not None and match.by_gauge:
        return Known(knob, "gauge", match.off(number), match.saved.number)
    for (carrier, cutter), kerf in want.by.items():
        scale = shelf.scale((cutter, carrier, knob))
        if scale is None:
            continue
        scales[cutter, carrier, knob] = scale
        if match is not None and match.saved.tried and not scale.has_own(number):
            continue
        off = scale.off(number, kerf)
        if abs(off) > FARTHEST_OFF.of(shelf.unit):
            continue
        shown = number + off
        step = steps.get(timed_as(knob), shown)
        mark = round(shown / step) * step if step else shown
        if match is None and abs(mark - shown) <= scale.spread / 2:
            off = mark - number  # as good, and a mark
        low, high = want.span
        chance = scale.passes(low, number, high) if want.tested else None
        look = want.look and looks_do(scale, want.span, number, minutes)
        return Known(
            knob,
            "scale" if match is None else "saved",
            off,
            None if match is None else match.saved.number,
            scale.count,
            scale.spread,
            None if chance is None else Fraction(round(100 * chance), 100),
            look,
        )
    if match is None:
        return None
    return Known(knob, "saved", match.off(number), match.saved.number)


def _minutes(known: Known, want: Want, match: Match | None, minutes: Minutes) -> Fraction:
    """As a saved setting costs; by its scale a knob takes what it always takes, and its test what
    it takes on the average: one check cut, and dialling in where that is not good."""
    anew = minutes.of(known.knob)
    if not want.tested or known.chance is None:
        return anew if match is None else match.minutes
    once = anew + minutes.check_cut if match is None else match.minutes
    if known.look:
        return min(once - (1 - LOOK) * minutes.check_cut, anew + minutes.test_cut)
    again = ceil(4 * (1 - known.chance) * minutes.test_cut) * Fraction(1, 4)
    return min(once + again, anew + minutes.test_cut)


def _knocks(scales: Iterable[Scale], unit: Unit) -> Iterable[Fact]:
    """Scales that read otherwise since some day, and have for so few readings that it is news."""
    for scale in scales:
        if scale.since and scale.count <= NEWS:
            yield notes.KNOCKED(
                knob=f"knob.{scale.knob}",
                carrier=f"carrier.{scale.carrier}",
                by=Length(abs(scale.by), unit),
                since=scale.since[:10],
            )


def _best(
    knob: str, want: Want, shelf: Shelf, minutes: Minutes
) -> tuple[Match | None, Mapping[int, str], Mapping[int, str]]:
    """The best setting; those in doubt, and where there is none those of other cutters, by number,
    with their cutter."""
    doubted: dict[int, str] = {}
    middle = sum(want.span) / 2
    found = [
        (match.minutes, abs(match.stands - middle), -match.saved.number, match)
        for match in _matches(knob, want, shelf, minutes, doubted)
        if abs(match.off(want.number)) <= FARTHEST_OFF.of(shelf.unit)  # of a gauge: its own number
    ]
    if found:
        return min(found, key=lambda entry: entry[:3])[3], doubted, {}
    search_others = want.tested and knob != "height"
    return None, doubted, _of_other_cutters(knob, want, shelf) if search_others else {}


def heights_within(wants: Sequence[Want], shelf: Shelf, minutes: Minutes) -> tuple[Fraction, ...]:
    """Saved heights that are cheaper to set than a new one, for ranges where any height will do:
    for every lot of ranges that a height suits, the cheapest such height."""
    key = tuple(want.key for want in wants)
    if key not in shelf.remembered:
        shelf.remembered[key] = _heights_within(wants, shelf, minutes)
    kept: tuple[Fraction, ...] = shelf.remembered[key]
    return kept


def _heights_within(wants: Sequence[Want], shelf: Shelf, minutes: Minutes) -> tuple[Fraction, ...]:
    costs: dict[Fraction, Fraction] = {}
    for want in wants:
        for match in _matches("height", want, shelf, minutes, {}):
            costs[match.stands] = min(match.minutes, costs.get(match.stands, minutes.of("height")))
    kept: dict[tuple[int, ...], Fraction] = {}
    for height in sorted(costs, key=lambda height: (costs[height], height)):
        suits = tuple(n for n, w in enumerate(wants) if w.span[0] <= height <= w.span[1])
        if costs[height] < minutes.of("height"):
            kept.setdefault(suits, height)
    return tuple(sorted(kept.values()))


def told(match: Match, unit: Unit) -> Fact:
    """By which gauge it is set and what it reads, with a correction where the kerf is another."""
    reads = Length(match.reads, unit)
    sets = notes.READS(reads=reads)
    if match.by_gauge and match.saved.gauge is not None:
        sets = notes.BY_GAUGE(gauge=match.saved.gauge.told, reads=reads)
    if not match.grown:
        return sets
    was, now = Length(match.saved.kerf, unit), Length(match.saved.kerf + match.grown, unit)
    moved = match.reads - match.saved.shown
    if not moved:
        return notes.UNCORRECTED(sets=sets, was=was, now=now)
    corrected = notes.CORRECTED_UP if moved > 0 else notes.CORRECTED_DOWN
    return corrected(sets=sets, was=was, now=now, by=Length(abs(moved), unit))


def _matches(
    knob: str, want: Want, shelf: Shelf, minutes: Minutes, doubted: dict[int, str]
) -> Iterable[Match]:
    for (carrier, cutter), kerf in want.by.items():
        for saved, stands in shelf.near(cutter, kerf, carrier, knob, *want.span):
            if shelf.doubts(saved, kerf):
                doubted[saved.number] = cutter
                continue
            grown = Fraction(0) if knob == "height" else kerf - saved.kerf
            yield Match(saved, stands, grown, _cost(saved, grown, want.tested, minutes))


def _cost(saved: Saved, grown: Fraction, tested: bool, minutes: Minutes) -> Fraction:
    """Never more than setting the knob anew."""
    anew = minutes.of(saved.knob)
    ways = [anew]
    if not grown:
        ways.append(minutes.saved)
    if saved.gauge is not None and _holds(saved, grown):
        ways.append(minutes.gauge)
    if tested:
        return min(min(ways) + minutes.check_cut, anew + minutes.test_cut)
    return min(ways)


def _holds(saved: Saved, grown: Fraction) -> bool:
    return not grown or saved.share == 0


def _of_other_cutters(knob: str, want: Want, shelf: Shelf) -> dict[int, str]:
    """Settings that would do, had they been made with this blade."""
    found: dict[int, str] = {}
    for (carrier, cutter), kerf in want.by.items():
        for name in shelf.cutters():
            if name != cutter:
                near = shelf.near(name, kerf, carrier, knob, *want.span)
                found |= {saved.number: name for saved, _ in near}
    return found


def _useless(knob: str, want: Want, shelf: Shelf) -> frozenset[int]:
    return frozenset(
        saved.number
        for (carrier, cutter), kerf in want.by.items()
        for saved in shelf.useless(cutter, kerf, carrier, knob, *want.span)
    )


def _not_used(useless: set[int], unit: Unit) -> Iterable[Fact]:
    if useless:
        most = Length(FARTHEST_OFF.of(unit), unit)
        yield notes.USELESS(settings=_settings(sorted(useless)), most=most)


def _doubts(doubted: Mapping[int, str], used: set[int]) -> Iterable[Fact]:
    for cutter in dict.fromkeys(doubted.values()):
        numbers = sorted(n for n, name in doubted.items() if name == cutter and n not in used)
        if numbers:
            yield notes.DOUBTED(settings=_settings(numbers), cutter=cutter)


def _others(other: Mapping[int, str], used: set[int]) -> Iterable[Fact]:
    for cutter in dict.fromkeys(other.values()):
        numbers = sorted(n for n, name in other.items() if name == cutter and n not in used)
        if numbers:
            yield notes.OTHER_CUTTER(settings=_settings(numbers), cutter=cutter)


def _settings(numbers: list[int]) -> Fact:
    shown, more = tuple(numbers[:TOLD]), len(numbers) - TOLD
    if more > 0:
        return notes.AND_MORE(numbers=shown, more=more)
    return notes.SETTINGS(n=len(numbers), numbers=shown)
