"""What each operation accepts of each knob, and the ordering problem that this makes.

Knob values are strings that the search never reads: a number in lowest terms, or the same with
` tested` where the setting must have been dialled in on scrap. A rough cut takes either. Where a
plan uses several cutters, heights and guides do not survive a change of cutter: their values are
then written with it, as `dado set/1/4`.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from sequencer import ordering
from sequencer.errors import Refusal
from sequencer.job.schema import Shop
from sequencer.knobs import GUIDE_KNOBS, KNOBS
from sequencer.knobs import guide_knob as of_carrier
from sequencer.operations import Operation, Setting, Work
from sequencer.plan import Span
from sequencer.sequencing import reuse
from sequencer.sequencing.reuse import Named, Reuse, Want
from sequencer.shelf import Shelf

MITRE_STOP = "mitre stop"
"""The mitre sled has a stop of its own, which takes as long to set."""
AWAY = "away"
"""The value of a fence or a stop out of the way: what a cut frees may not lie against it."""
AWAY_SHARE = Fraction(1, 4)
"""What pushing it there takes, of the minutes for setting it; ours."""
_ZERO = Fraction(0)
_GUIDES = frozenset(GUIDE_KNOBS.values())
TESTED = " tested"


@dataclass(frozen=True, slots=True)
class Framed:
    """An ordering problem with the numbers behind its values: `numbers[knob, value]`; `reuse` says
    which of them saved settings set."""

    problem: ordering.Problem
    numbers: Mapping[tuple[str, str], Fraction]
    reuse: Reuse = field(default_factory=Reuse)


@dataclass(frozen=True, slots=True)
class _Height:
    """A need of blade height above the table; `prefers` is taken where all suit equally, and
    `prefix` names the cutter where there are several."""

    prefix: str
    span: Span
    tested: bool
    prefers: Fraction


def guide_knob(setting: Setting, shop: Shop) -> str:
    """The knob that a setting's guide is set by."""
    return of_carrier(setting.carrier, shop.jig.rides)


def reading(setting: Setting, shop: Shop) -> Fraction | None:
    """What the guide knob's scale shows: the guide, and the jig's thickness where it rides."""
    if setting.guide is None:
        return None
    rides = setting.carrier == "tenoning-jig" and shop.jig.rides == "fence"
    return setting.guide + (shop.jig.thickness if rides else 0)


def out_of_the_way(setting: Setting, shop: Shop) -> tuple[str, ...]:
    """The knobs of what must stand well clear of the cut: the rip fence wherever it guides nothing,
    and the sled's stop where an end is squared by eye, whose offcut falls on the stop's side."""
    fence = () if guide_knob(setting, shop) == "fence" else ("fence",)
    return fence if setting.guide is not None else (*fence, guide_knob(setting, shop))


def lean(tilt: Fraction) -> str:
    """A tilt as a knob's value: how far the blade leans in how much height.

    >>> lean(Fraction(-1, 8)), lean(Fraction(0))
    ('-1 in 8', '0')
    """
    return f"{tilt.numerator} in {tilt.denominator}" if tilt else "0"


def deck(setting: Setting, shop: Shop) -> Fraction:
    """What the carrier adds between the table and the work."""
    if setting.carrier in ("crosscut-sled", "mitre-sled"):
        return shop.sled.deck
    return shop.jig.deck if setting.carrier == "tenoning-jig" else _ZERO


def guards(setting: Setting, shop: Shop) -> tuple[str, ...]:
    """Guard states that a setting accepts. Raises `Refusal` where the shop names none."""
    if setting.carrier == "rip-fence" and setting.through:
        return ("fitted",)
    states = ("knife",) * shop.saw.knife + ("cover",) * (shop.saw.cover is not None)
    if not states:
        raise Refusal(
            "grooves, shoulders and cheeks take the guard off, and the shop file names neither a "
            "riving knife that can be set low ([saw] knife) nor what covers the blade instead "
            "([saw] cover): fit one and name it"
        )
    return states


def frame(work: Work, shop: Shop, saved: Shelf | None = None) -> Framed:
    """The ordering problem of all operations, by their index."""
    shelf = saved or Shelf()
    first_of: dict[Setting, Operation] = {}
    # Of equal settings the first stands for all: comparing them over and over takes its time.
    first = [
        None if o.setting is None else first_of.setdefault(o.setting, o) for o in work.operations
    ]
    naming = _Naming.of(list(first_of), shop)
    heights = _heights(first_of, naming, shelf)
    numbers: dict[Named, Fraction] = {}
    operations: list[ordering.Operation] = []
    cache = {setting: _needs(setting, naming, heights, numbers) for setting in first_of}
    of_first = {first_of[setting].id: needs for setting, needs in cache.items()}
    for operation, one in zip(work.operations, first, strict=True):
        needs = {} if one is None else of_first[one.id]
        way = ordering.Alternative(needs=needs, minutes=operation.minutes)
        operations.append(ordering.Operation(operation.id, (way,)))
    _accept_tested(operations, numbers)
    found = Reuse()
    if shelf.shares:
        found = reuse.find(_wants(first_of, cache, numbers), shelf, shop.minutes)
    index = {operation.id: n for n, operation in enumerate(work.operations)}
    problem = ordering.Problem(
        knobs=_knobs(shop, found, numbers),
        operations=tuple(operations),
        before=tuple((index[edge.before], index[edge.after]) for edge in work.edges),
    )
    return Framed(problem, numbers, found)


@dataclass(frozen=True, slots=True)
class _Naming:
    """How values are named: by the shop's knobs. Where there are several cutters, or the blade is
    tilted for some cuts, heights and guides carry both, since they do not survive the change."""

    shop: Shop
    by_cutter: bool
    by_tilt: bool

    @staticmethod
    def of(settings: Sequence[Setting], shop: Shop) -> _Naming:
        cutters = {setting.cutter for setting in settings}
        tilts = {setting.tilt for setting in settings}
        return _Naming(shop, len(cutters) > 1, len(tilts) > 1)

    def prefix(self, setting: Setting) -> str:
        cutter = f"{setting.cutter}/" if self.by_cutter else ""
        return cutter + (f"{lean(setting.tilt)}/" if self.by_tilt and setting.tilt else "")

    def height(self, setting: Setting) -> _Height:
        low, high = (depth + deck(setting, self.shop) for depth in setting.depth)
        tested = any(test.knob == "height" for test in setting.tests)
        prefers = low if setting.through else high
        return _Height(self.prefix(setting), (low, high), tested, prefers)

    def guide(self, setting: Setting, number: Fraction) -> str:
        tested = any(test.knob == "guide" for test in setting.tests)
        return f"{self.prefix(setting)}{number}{TESTED if tested else ''}"


def _number(value: str, prefix: str) -> Fraction:
    return Fraction(value.removeprefix(prefix).removesuffix(TESTED))


def _needs(
    setting: Setting,
    naming: _Naming,
    heights: Mapping[_Height, tuple[str, ...]],
    numbers: dict[Named, Fraction],
) -> dict[str, tuple[str, ...]]:
    shop = naming.shop
    need = naming.height(setting)
    accepted = heights[need]
    for value in accepted:
        numbers["height", value] = _number(value, need.prefix)
    needs = {
        "cutter": (setting.cutter,),
        "tilt": (lean(setting.tilt),),
        "height": accepted,
        "carrier": (setting.carrier,),
        "guard": guards(setting, shop),
    }
    number = reading(setting, shop)
    if number is not None:
        knob = guide_knob(setting, shop)
        value = naming.guide(setting, number)
        needs[knob] = (value,)
        numbers[knob, value] = number
    return needs | dict.fromkeys(out_of_the_way(setting, shop), (AWAY,))


def _accept_tested(operations: list[ordering.Operation], numbers: Mapping[Named, Fraction]) -> None:
    """Let a rough cut take a tested guide of the same number, where there is one."""
    for n, operation in enumerate(operations):
        way = operation.alternatives[0]
        wider = {
            knob: (values[0], values[0] + TESTED)
            for knob, values in way.needs.items()
            if knob in GUIDE_KNOBS.values() and (knob, values[0] + TESTED) in numbers
        }
        if wider:
            needs = {**way.needs, **wider}
            operations[n] = ordering.Operation(
                operation.id, (ordering.Alternative(needs=needs, minutes=way.minutes),)
            )


def _wants(
    first_of: Mapping[Setting, Operation],
    needs: Mapping[Setting, Mapping[str, tuple[str, ...]]],
    numbers: Mapping[Named, Fraction],
) -> dict[Named, Want]:
    """What each value must come out as, for looking it up among saved settings. One operation is
    enough for a setting: what is measured goes with it."""
    wants: dict[Named, Want] = {}
    for setting, operation in first_of.items():
        if setting.tilt:
            continue  # saved settings are those of an upright blade
        tested = any(test.knob == "height" for test in setting.tests)
        for knob, values in needs[setting].items():
            if knob != "height" and knob not in _GUIDES:
                continue
            for value in values:
                if value == AWAY:
                    continue
                number = numbers[knob, value]
                if knob != "height":
                    span = reuse.band(operation, "guide", number)
                elif tested:
                    span = reuse.band(operation, "height", number)
                elif value.endswith(TESTED):
                    continue  # wanted by the cut that is tested
                else:
                    span = (number, number)
                found = wants.get((knob, value))
                if found is None:
                    found = wants[knob, value] = Want(span, value.endswith(TESTED))
                found.narrow(span, setting.carrier, setting.cutter, setting.kerf)
    return wants


def _heights(
    settings: Iterable[Setting], naming: _Naming, shelf: Shelf
) -> dict[_Height, tuple[str, ...]]:
    """The values that each need of height accepts, cutter by cutter and tilt by tilt."""
    together: dict[tuple[str, Fraction], list[Setting]] = {}
    for setting in settings:
        together.setdefault((setting.cutter, setting.tilt), []).append(setting)
    accepted: dict[_Height, tuple[str, ...]] = {}
    for alike in together.values():
        accepted |= _heights_of(alike, naming, shelf)
    return accepted


def _heights_of(
    settings: Sequence[Setting], naming: _Naming, shelf: Shelf
) -> dict[_Height, tuple[str, ...]]:
    """The values that each need of height of one cutter accepts.

    A range is made discrete without losing the optimum: a set of ranges that meet share one of
    their ends, so the ends of all, and every exact need, are enough. Of the ends that suit the
    same needs one is kept, and none that suits fewer than another. Saved heights inside, being
    cheaper to set, are kept beside them.
    """
    of_settings = [naming.height(setting) for setting in settings]
    needs = list(dict.fromkeys(of_settings))
    tested = {need.span[0] for need in needs if need.tested}
    exact = {n.span[0] for n in needs if not n.tested and n.span[0] == n.span[1]}
    ends = {end for need in needs if not need.tested for end in need.span}
    preferred = {need.prefers for need in needs}
    suits = {
        end: frozenset(n for n, need in enumerate(needs) if not need.tested and _in(end, need.span))
        for end in ends
    }
    kept: list[Fraction] = []
    for end in sorted(ends, key=lambda e: (-len(suits[e]), e not in exact, e not in preferred, e)):
        if end in exact or not any(suits[end] <= suits[other] for other in kept):
            kept.append(end)
    if shelf.shares:
        saved = _saved_heights(of_settings, settings, naming.shop, shelf)
        kept += (height for height in saved if height not in kept)
    accepted: dict[_Height, tuple[str, ...]] = {}
    for need in needs:
        if need.tested:
            accepted[need] = (f"{need.prefix}{need.span[0]}{TESTED}",)
        else:
            plain = [f"{need.prefix}{end}" for end in sorted(kept) if _in(end, need.span)]
            dialled = [f"{need.prefix}{v}{TESTED}" for v in sorted(tested) if _in(v, need.span)]
            accepted[need] = (*plain, *dialled)
    return accepted


def _saved_heights(
    needs: Sequence[_Height], settings: Sequence[Setting], shop: Shop, shelf: Shelf
) -> tuple[Fraction, ...]:
    wants: dict[Span, Want] = {}
    for need, setting in zip(needs, settings, strict=True):
        if not need.tested and not setting.tilt and setting.depth[0] is not setting.depth[1]:
            want = wants.get(need.span)
            if want is None:
                want = wants[need.span] = Want(need.span, False)
            want.by[setting.carrier, setting.cutter] = setting.kerf
    return reuse.heights_within(list(wants.values()), shelf, shop.minutes)


def _in(value: Fraction, span: Span) -> bool:
    return span[0] <= value <= span[1]


def _knobs(
    shop: Shop, found: Reuse, numbers: Mapping[Named, Fraction]
) -> tuple[ordering.Knob, ...]:
    """Minutes of each knob. A tested value is dearer by its test cut, unless a saved setting sets
    it. Among equal orders, the fewest settings of tested values, then of the carrier."""
    knobs: list[ordering.Knob] = []
    for name in KNOBS:
        if name == MITRE_STOP and not any(knob == name for knob, _ in numbers):
            continue
        minutes = shop.minutes.of(name)
        by_value = {AWAY: AWAY_SHARE * minutes} if name in _GUIDES else {}
        ties: dict[str, int] = {}
        for knob, value in sorted(numbers):
            if knob != name:
                continue
            tested = value.endswith(TESTED)
            cost = minutes + shop.minutes.test_cut if tested else minutes
            match = found.matches.get((knob, value))
            cost = cost if match is None else match.minutes
            if cost != minutes:
                by_value[value] = cost
            if tested:
                ties[value] = 1000
        tie = 1 if name == "carrier" else 0
        knobs.append(ordering.Knob(name, minutes, by_value, tie, ties))
    return tuple(knobs)
