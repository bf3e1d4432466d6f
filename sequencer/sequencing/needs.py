"""What each operation accepts of each knob, and the ordering problem that this makes.

Knob values are strings that the search never reads: a number in lowest terms, or the same with
` tested` where the setting must have been dialled in on scrap. A rough cut takes either.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from sequencer import ordering
from sequencer.errors import Refusal
from sequencer.job.schema import Shop
from sequencer.job.shelf import Shelf
from sequencer.operations import Operation, Setting, Work
from sequencer.plan import Span
from sequencer.sequencing import reuse
from sequencer.sequencing.reuse import Named, Reuse, Want

KNOBS = ("cutter", "tilt", "height", "carrier", "guard", "fence", "stop", "jig")
GUIDE_KNOBS = {"rip-fence": "fence", "crosscut-sled": "stop", "tenoning-jig": "jig"}
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
    """A need of blade height above the table; `prefers` is taken where all suit equally."""

    span: Span
    tested: bool
    prefers: Fraction


def guide_knob(setting: Setting, shop: Shop) -> str:
    """The knob that a setting's guide is set by: a jig that rides the fence has none of its own."""
    if setting.carrier == "tenoning-jig" and shop.jig.rides == "fence":
        return "fence"
    return GUIDE_KNOBS[setting.carrier]


def reading(setting: Setting, shop: Shop) -> Fraction | None:
    """What the guide knob's scale shows: the guide, and the jig's thickness where it rides."""
    if setting.guide is None:
        return None
    rides = setting.carrier == "tenoning-jig" and shop.jig.rides == "fence"
    return setting.guide + (shop.jig.thickness if rides else 0)


def deck(setting: Setting, shop: Shop) -> Fraction:
    """What the carrier adds between the table and the work."""
    decks = {"crosscut-sled": shop.sled.deck, "tenoning-jig": shop.jig.deck}
    return decks.get(setting.carrier, Fraction(0))


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


def frame(
    work: Work,
    shop: Shop,
    saved: Shelf | None = None,
    start: Mapping[str, str] | None = None,
    done: frozenset[str] = frozenset(),
) -> Framed:
    """The ordering problem of all operations, by their index; `done` and `start` as given."""
    shelf = saved or Shelf()
    heights = _heights(work.operations, shop, shelf)
    numbers: dict[Named, Fraction] = {}
    operations: list[ordering.Operation] = []
    cache: dict[Setting, dict[str, tuple[str, ...]]] = {}
    for operation in work.operations:
        needs: dict[str, tuple[str, ...]] = {}
        if operation.setting is not None:
            if operation.setting not in cache:
                cache[operation.setting] = _needs(operation.setting, shop, heights, numbers)
            needs = cache[operation.setting]
        way = ordering.Alternative(needs=needs, minutes=operation.minutes)
        operations.append(ordering.Operation(operation.id, (way,)))
    _accept_tested(operations, numbers)
    found = reuse.find(_wants(work.operations, heights, shop), shelf, shop.minutes)
    index = {operation.id: n for n, operation in enumerate(work.operations)}
    problem = ordering.Problem(
        knobs=_knobs(shop, found, numbers),
        operations=tuple(operations),
        before=tuple((index[edge.before], index[edge.after]) for edge in work.edges),
        start=start or {},
        done=frozenset(index[name] for name in done if name in index),
    )
    return Framed(problem, numbers, found)


def _needs(
    setting: Setting,
    shop: Shop,
    heights: Mapping[_Height, tuple[str, ...]],
    numbers: dict[Named, Fraction],
) -> dict[str, tuple[str, ...]]:
    accepted = heights[_height(setting, shop)]
    for value in accepted:
        numbers["height", value] = Fraction(value.removesuffix(TESTED))
    needs = {
        "cutter": (setting.cutter,),
        "tilt": ("0",),
        "height": accepted,
        "carrier": (setting.carrier,),
        "guard": guards(setting, shop),
    }
    number = reading(setting, shop)
    if number is not None:
        tested = any(test.knob == "guide" for test in setting.tests)
        knob = guide_knob(setting, shop)
        value = f"{number}{TESTED if tested else ''}"
        needs[knob] = (value,)
        numbers[knob, value] = number
    return needs


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


def _height(setting: Setting, shop: Shop) -> _Height:
    low, high = (depth + deck(setting, shop) for depth in setting.depth)
    tested = any(test.knob == "height" for test in setting.tests)
    return _Height((low, high), tested, low if setting.through else high)


def _wants(
    operations: Iterable[Operation], heights: Mapping[_Height, tuple[str, ...]], shop: Shop
) -> dict[Named, Want]:
    """What each value must come out as, for looking it up among saved settings."""
    wants: dict[Named, Want] = {}

    def want(knob: str, value: str, span: Span, setting: Setting) -> None:
        tested = value.endswith(TESTED)
        found = wants.setdefault((knob, value), Want(span, tested))
        found.narrow(span, (setting.carrier, setting.cutter, setting.kerf))

    seen: set[tuple[Setting, object]] = set()
    for operation in operations:
        setting = operation.setting
        if setting is None or (setting, operation.checks) in seen:
            continue
        seen.add((setting, operation.checks))
        need = _height(setting, shop)
        for value in heights[need]:
            number = Fraction(value.removesuffix(TESTED))
            if need.tested:
                want("height", value, reuse.band(operation, "height", number), setting)
            elif not value.endswith(TESTED):
                want("height", value, (number, number), setting)
        shown = reading(setting, shop)
        if shown is not None:
            tested = any(test.knob == "guide" for test in setting.tests)
            value = f"{shown}{TESTED if tested else ''}"
            span = reuse.band(operation, "guide", shown)
            want(guide_knob(setting, shop), value, span, setting)
    return wants


def _heights(
    operations: Iterable[Operation], shop: Shop, shelf: Shelf
) -> dict[_Height, tuple[str, ...]]:
    """The values that each need of height accepts.

    A range is made discrete without losing the optimum: a set of ranges that meet share one of
    their ends, so the ends of all, and every exact need, are enough. Of the ends that suit the
    same needs one is kept, and none that suits fewer than another. Saved heights inside, being
    cheaper to set, are kept beside them.
    """
    settings = dict.fromkeys(o.setting for o in operations if o.setting is not None)
    needs = list(dict.fromkeys(_height(setting, shop) for setting in settings))
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
    kept += (h for h in _saved_heights(settings, shop, shelf) if h not in kept)
    accepted: dict[_Height, tuple[str, ...]] = {}
    for need in needs:
        if need.tested:
            accepted[need] = (f"{need.span[0]}{TESTED}",)
        else:
            plain = [str(end) for end in sorted(kept) if _in(end, need.span)]
            dialled = [f"{v}{TESTED}" for v in sorted(tested) if _in(v, need.span)]
            accepted[need] = (*plain, *dialled)
    return accepted


def _saved_heights(settings: Iterable[Setting], shop: Shop, shelf: Shelf) -> tuple[Fraction, ...]:
    wants: dict[Span, Want] = {}
    for setting in settings:
        need = _height(setting, shop)
        if not need.tested and need.span[0] < need.span[1]:
            want = wants.setdefault(need.span, Want(need.span, False))
            want.narrow(need.span, (setting.carrier, setting.cutter, setting.kerf))
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
        minutes: Fraction = getattr(shop.minutes, name)
        by_value: dict[str, Fraction] = {}
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
