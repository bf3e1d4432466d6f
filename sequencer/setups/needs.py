"""What each operation accepts of each knob, and the ordering problem that this makes.

The search never reads a knob's values: it gets their text. Where a setting must have been dialled
in on scrap, a rough cut takes it too. Where a plan uses several cutters, or leans the blade for
some cuts, heights and guides do not survive a change: their values then name both.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction

from msgspec import Struct, field

from sequencer import ordering
from sequencer.cuts.model import Tuned
from sequencer.errors import Refusal
from sequencer.facts import sequences
from sequencer.job.schema import Shop
from sequencer.lengths import Unit
from sequencer.operations import Operation, ScrapTest, Setting, Work
from sequencer.plan import Span
from sequencer.records import replace
from sequencer.saw.fittings import CARRIERS, GUIDES, KNOBS, SPACER
from sequencer.saw.values import AWAY, KnobValue, lean
from sequencer.setups import reuse
from sequencer.setups.reuse import Named, Reuse, Want
from sequencer.setups.spacers import with_blocks
from sequencer.setups.tries import Dialling
from sequencer.setups.wants import wants_of
from sequencer.shelf import Shelf

AWAY_SHARE = Fraction(1, 4)
"""What pushing it there takes, of the minutes for setting it; ours."""
_ZERO = Fraction(0)


class Framed(Struct, frozen=True):
    """An ordering problem with what its values say, `values[knob, text]`, of knobs with a scale;
    `reuse` says which of them saved settings set, `tried` what the test cuts of each take."""

    problem: ordering.Problem
    values: Mapping[Named, KnobValue]
    reuse: Reuse = field(default_factory=Reuse)
    tried: Mapping[Named, Fraction] = field(default_factory=dict)


class _Height(Struct, frozen=True):
    """A need of blade height above the table, between `low` and the number of `high`, which names
    what it holds for; `prefers` is taken where all suit equally."""

    low: Fraction
    high: KnobValue
    prefers: Fraction

    @property
    def span(self) -> Span:
        return (self.low, self.high.number)

    @property
    def tested(self) -> bool:
        return self.high.tested

    def at(self, number: Fraction, *, tested: bool = False) -> KnobValue:
        return replace(self.high, number=number, tested=tested)


def guide_knob(setting: Setting, shop: Shop) -> str:
    """The knob that a setting's guide is set by."""
    return CARRIERS[setting.carrier].guide_knob(shop.jig.rides)


def tested_knob(test: ScrapTest, setting: Setting, shop: Shop) -> str:
    """The knob that a test cut dials in."""
    return guide_knob(setting, shop) if test.knob == "guide" else test.knob


def reading(setting: Setting, shop: Shop) -> Fraction | None:
    """What the guide knob's scale shows: the guide, a spacer, and the jig's thickness where it
    rides."""
    if setting.guide is None:
        return None
    return setting.guide + setting.spacer + rides(setting.carrier, shop)


def rides(carrier: str, shop: Shop) -> Fraction:
    """What a carrier that rides the fence adds to what the fence's scale shows."""
    row = CARRIERS[carrier]
    return shop.jig.thickness if row.guide_knob(shop.jig.rides) != row.knob else _ZERO


def out_of_the_way(setting: Setting, shop: Shop) -> tuple[str, ...]:
    """The knobs of what must stand well clear of the cut: the rip fence wherever it guides nothing,
    and the sled's stop where an end is squared by eye, whose offcut falls on the stop's side."""
    fence = () if guide_knob(setting, shop) == "fence" else ("fence",)
    return fence if setting.guide is not None else (*fence, guide_knob(setting, shop))


def deck(carrier: str, shop: Shop) -> Fraction:
    """What the carrier adds between the table and the work."""
    return {"fence": _ZERO, "sled": shop.sled.deck, "jig": shop.jig.deck}[CARRIERS[carrier].body]


def guards(setting: Setting, shop: Shop) -> tuple[str, ...]:
    """Guard states that a setting accepts: no riving knife fits a dado set. Raises `Refusal` where
    the shop names none."""
    if CARRIERS[setting.carrier].guarded and setting.through:
        return ("fitted",)
    if any(cutter.name == setting.cutter and cutter.kind == "dado" for cutter in shop.cutters):
        return ("cover",)
    states = ("knife",) * shop.saw.knife + ("cover",) * (shop.saw.cover is not None)
    if not states:
        raise Refusal(sequences.NO_LOW_GUARD())
    return states


def frame(
    work: Work, shop: Shop, unit: Unit, saved: Shelf | None = None, block: str = ""
) -> Framed:
    """The ordering problem of all operations, by their index. With a `block` that was used already
    nothing more is cut with one: it is taken away first."""
    shelf = saved or Shelf()
    first_of: dict[Setting, Operation] = {}
    # Of equal settings the first stands for all: comparing them over and over takes its time.
    first = [
        None if o.setting is None else first_of.setdefault(o.setting, o) for o in work.operations
    ]
    naming = _Naming.of(list(first_of), shop)
    heights = _heights(first_of, naming, shelf)
    named: dict[Named, KnobValue] = {}
    operations: list[ordering.Operation] = []
    cache = {setting: _needs(setting, naming, heights, named) for setting in first_of}
    of_first = {first_of[setting].id: needs for setting, needs in cache.items()}
    for operation, one in zip(work.operations, first, strict=True):
        needs = {} if one is None else of_first[one.id]
        way = ordering.Alternative(needs=needs, minutes=operation.minutes)
        operations.append(ordering.Operation(operation.id, (way,)))
    _accept_tested(operations, named)
    operations, blocks = with_blocks(operations, work, named, shop, block)
    named |= blocks
    found = Reuse()
    if saved is not None:
        found = reuse.find(
            wants_of(first_of, cache, named, shop.tools), shelf, shop.minutes, shop.scales
        )
    index = {operation.id: n for n, operation in enumerate(work.operations)}
    tried = _tried(operations, first, named, Dialling(shop, unit))
    problem = ordering.Problem(
        knobs=_knobs(shop, found, named, tried),
        operations=tuple(operations),
        before=tuple((index[edge.before], index[edge.after]) for edge in work.edges),
    )
    return Framed(problem, named, found, tried)


class _Naming(Struct, frozen=True):
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

    def value(self, setting: Setting, tuned: Tuned, number: Fraction) -> KnobValue:
        tested = any(test.knob == tuned for test in setting.tests)
        cutter = setting.cutter if self.by_cutter else ""
        return KnobValue(number, tested, cutter, setting.tilt if self.by_tilt else _ZERO)

    def height(self, setting: Setting) -> _Height:
        low, high = (depth + deck(setting.carrier, self.shop) for depth in setting.depth)
        value = self.value(setting, "height", high)
        return _Height(low, value, low if setting.through else high)


def _needs(
    setting: Setting,
    naming: _Naming,
    heights: Mapping[_Height, tuple[KnobValue, ...]],
    named: dict[Named, KnobValue],
) -> dict[str, tuple[str, ...]]:
    shop = naming.shop

    def texts(knob: str, *accepted: KnobValue) -> tuple[str, ...]:
        named.update(((knob, str(value)), value) for value in accepted)
        return tuple(str(value) for value in accepted)

    needs: dict[str, tuple[str, ...]] = {
        "cutter": (setting.cutter,),
        "tilt": (lean(setting.tilt),),
        "height": texts("height", *heights[naming.height(setting)]),
        "carrier": (setting.carrier,),
        "guard": guards(setting, shop),
    }
    number = reading(setting, shop)
    if number is not None:
        knob = guide_knob(setting, shop)
        needs[knob] = texts(knob, naming.value(setting, "guide", number))
    return needs | dict.fromkeys(out_of_the_way(setting, shop), (AWAY,))


def _accept_tested(operations: list[ordering.Operation], named: Mapping[Named, KnobValue]) -> None:
    """Let a rough cut take a tested guide of the same number, where there is one."""
    tested = {
        (knob, str(replace(value, tested=False))): text
        for (knob, text), value in named.items()
        if knob in GUIDES and value.tested
    }
    for n, operation in enumerate(operations):
        way = operation.alternatives[0]
        wider = {
            knob: (values[0], tested[knob, values[0]])
            for knob, values in way.needs.items()
            if (knob, values[0]) in tested
        }
        if wider:
            needs = {**way.needs, **wider}
            operations[n] = ordering.Operation(
                operation.id, (ordering.Alternative(needs=needs, minutes=way.minutes),)
            )


def _tried(
    operations: Iterable[ordering.Operation],
    first: Iterable[Operation | None],
    named: Mapping[Named, KnobValue],
    dialling: Dialling,
) -> dict[Named, Fraction]:
    """What the test cuts of each tested value take; of a value that several are tried by, the most.
    Behind a block it is the block that is tried."""
    found: dict[Named, Fraction] = {}
    seen: set[tuple[str, int]] = set()
    for operation, one in zip(operations, first, strict=True):
        setting = None if one is None else one.setting
        if one is None or setting is None or not setting.tests:
            continue
        for way in operation.alternatives:
            if (one.id, id(way.needs)) in seen:
                continue
            seen.add((one.id, id(way.needs)))
            block = way.needs.get(SPACER, (AWAY,)) != (AWAY,)
            for test in setting.tests:
                knob = (
                    SPACER
                    if block and test.knob == "guide"
                    else tested_knob(test, setting, dialling.shop)
                )
                for text in way.needs[knob]:
                    value = named.get((knob, text))
                    if value is not None and value.tested:
                        takes = dialling.minutes(test, setting, knob, value.number)
                        found[knob, text] = max(takes, found.get((knob, text), takes))
    return found


def _heights(
    settings: Iterable[Setting], naming: _Naming, shelf: Shelf
) -> dict[_Height, tuple[KnobValue, ...]]:
    """The values that each need of height accepts, cutter by cutter and tilt by tilt."""
    together: dict[tuple[str, Fraction], list[Setting]] = {}
    for setting in settings:
        together.setdefault((setting.cutter, setting.tilt), []).append(setting)
    accepted: dict[_Height, tuple[KnobValue, ...]] = {}
    for alike in together.values():
        accepted |= _heights_of(alike, naming, shelf)
    return accepted


def _heights_of(
    settings: Sequence[Setting], naming: _Naming, shelf: Shelf
) -> dict[_Height, tuple[KnobValue, ...]]:
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
    accepted: dict[_Height, tuple[KnobValue, ...]] = {}
    for need in needs:
        if need.tested:
            accepted[need] = (need.at(need.low, tested=True),)
        else:
            plain = [need.at(end) for end in sorted(kept) if _in(end, need.span)]
            dialled = [need.at(v, tested=True) for v in sorted(tested) if _in(v, need.span)]
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
    shop: Shop,
    found: Reuse,
    named: Mapping[Named, KnobValue],
    tries: Mapping[Named, Fraction],
) -> tuple[ordering.Knob, ...]:
    """Minutes of each knob. A tested value is dearer by its test cuts, unless a saved setting sets
    it or its scale is known. Among equal orders, the fewest settings of tested values, then of the
    carrier."""
    knobs: list[ordering.Knob] = []
    for name, row in KNOBS.items():
        if row.spare and not any(knob == name for knob, _ in named):
            continue
        minutes = shop.minutes.of(name)
        by_value = {AWAY: AWAY_SHARE * minutes} if name in GUIDES else {}
        if name == SPACER:
            by_value = {AWAY: _ZERO}  # the next piece is laid without it
        ties: dict[str, int] = {}
        for knob, value in sorted(named):
            if knob != name:
                continue
            tested = named[knob, value].tested
            cost = minutes + tries.get((knob, value), _ZERO)
            cost = min(cost, found.minutes.get((knob, value), cost))
            if cost != minutes:
                by_value[value] = cost
            if tested:
                ties[value] = 1000
        tie = 1 if name == "carrier" else 0
        knobs.append(ordering.Knob(name, minutes, by_value, tie, ties))
    return tuple(knobs)
