"""A block at hand behind the piece, in place of moving the jig by as much.

Where two cuts in the tenoning jig are as far apart as a block is thick, both can be made with the
jig at one number: the nearer one with the block between jig and piece. That is another way of
making the cut, and the search takes it where it is cheaper. It is tried on scrap like any other
setting that a fit hangs on, and corrected by what stands behind the piece, since the jig's own
number is another cut's.

Not so both cheeks of a tenon from one face: what the second frees would lie between jig and blade,
and, where the shoulder is sawn last, between stop and blade (rules E03 and E04).
"""

from __future__ import annotations

from collections.abc import Container, Iterable, Mapping, Sequence, Set
from fractions import Fraction

from msgspec import Struct

from sequencer import ordering
from sequencer.cuts.model import Operation
from sequencer.job.schema import Shop
from sequencer.operations import Work
from sequencer.records import replace
from sequencer.saw.fittings import CARRIERS, SPACER
from sequencer.saw.values import AWAY, KnobValue

Named = tuple[str, str]


class Behind(Struct, frozen=True):
    """A way of making a cut: the `block` behind the piece, and what the `jig` then stands at, in
    all the values of that number that will do."""

    block: KnobValue
    jig: tuple[KnobValue, ...]


def spaced(
    operation: Operation, state: Mapping[str, str], values: Mapping[Named, KnobValue]
) -> Operation:
    """The operation as it is made with the knobs so: with the block behind the piece, where there
    is one."""
    setting, value = operation.setting, values.get((SPACER, state.get(SPACER, AWAY)))
    if setting is None or value is None or not _takes_blocks(operation):
        return operation
    return replace(operation, setting=replace(setting, spacer=value.number))


def behind(
    own: KnobValue, known: Iterable[KnobValue], blocks: Container[Fraction]
) -> tuple[Behind, ...]:
    """The ways of making a cut whose own number of the jig is `own`, by numbers that are `known` of
    other cuts, as the blocks reach them.

    >>> ways = behind(KnobValue(Fraction(1)), [KnobValue(Fraction(3))], [Fraction(2), Fraction(5)])
    >>> [(str(way.block), [str(value) for value in way.jig]) for way in ways]
    [('2 at 3', ['3'])]
    """
    found: dict[Fraction, dict[KnobValue, None]] = {}
    for value in known:
        if value.alike(own) and value.number - own.number in blocks:
            # A rough cut takes the jig as its scale sets it, too.
            rough = {} if own.tested else {replace(value, tested=False): None}
            found.setdefault(value.number, {}).update({value: None, **rough})
    return tuple(
        Behind(replace(own, number=at - own.number, at=at), tuple(values))
        for at, values in sorted(found.items())
    )


def with_blocks(
    operations: Sequence[ordering.Operation],
    work: Work,
    named: Mapping[Named, KnobValue],
    shop: Shop,
    used: str = "",
) -> tuple[list[ordering.Operation], dict[Named, KnobValue]]:
    """The operations, cuts in the jig with these ways beside their own; and what the new values
    say. Unchanged where no block at hand reaches from one cut to another. Where one was `used`
    already, as a value of its knob, all go without."""
    jig = _numbers(operations, work, shop)
    known = dict.fromkeys(named[key] for key in jig.values())
    blocks = frozenset() if used else frozenset(shop.tools.blocks)
    ways = {key: behind(named[key], known, blocks) for key in dict.fromkeys(jig.values())}
    if not used and not any(ways.values()):
        return list(operations), {}
    thick = {p.mark: s.stick.size.thickness for s in work.layout.sticks for p in s.stick.pieces}
    guides = {knob for knob, _ in ways}
    found = [_without(operation, guides) for operation in operations]
    made: dict[tuple[object, ...], ordering.Operation] = {}
    for n, key in jig.items():
        (way,) = operations[n].alternatives
        most = thick[work.operations[n].mark]
        same = (id(way.needs), key, most, way.minutes)
        if same not in made:
            most = min(most, shop.jig.opening - most)
            these = (each for each in ways[key] if each.block.number <= most)
            made[same] = ordering.Operation("", _either(way, key[0], these))
        found[n] = replace(made[same], id=operations[n].id)
    cutters = [cutter.name for cutter in shop.cutters]
    values = {(SPACER, used): KnobValue.parse(used, cutters)} if used else {}
    for (knob, _), several in ways.items():
        for each in several:
            values[SPACER, str(each.block)] = each.block
            values |= {(knob, str(value)): value for value in each.jig}
    return found, values


def _numbers(
    operations: Sequence[ordering.Operation],
    work: Work,
    shop: Shop,
) -> dict[int, Named]:
    """By the cuts that take blocks, what they need the jig to stand at."""
    found: dict[int, Named] = {}
    for n, operation in enumerate(work.operations if shop.tools.blocks else ()):
        if _takes_blocks(operation) and operation.setting is not None:
            knob = CARRIERS[operation.setting.carrier].guide_knob(shop.jig.rides)
            found[n] = knob, operations[n].alternatives[0].needs[knob][0]
    return found


def _takes_blocks(operation: Operation) -> bool:
    """Whether a block may stand behind the piece: in the jig, which clamps both, where a face lies
    against it. It is no thicker than the piece; ours."""
    setting = operation.setting
    if setting is None or CARRIERS[setting.carrier].body != "jig":
        return False
    return all(cut.against in ("face", "back") for cut in operation.cuts)


def _without(operation: ordering.Operation, guides: Set[str]) -> ordering.Operation:
    """An operation that moves one of the guides, with no block behind its piece: where the guide
    goes elsewhere between two cuts with a block, both are tried."""
    (way,) = operation.alternatives
    if guides.isdisjoint(way.needs):
        return operation
    return replace(operation, alternatives=_either(way, "", ()))


def _either(
    way: ordering.Alternative, knob: str, ways: Iterable[Behind]
) -> tuple[ordering.Alternative, ...]:
    """The cut as it is without a block, and each way with one."""
    found = [replace(way, needs={**way.needs, SPACER: (AWAY,)})]
    for each in ways:
        jig = tuple(str(value) for value in each.jig)
        needs = {**way.needs, knob: jig, SPACER: (str(each.block),)}
        found.append(replace(way, needs=needs))
    return tuple(found)
