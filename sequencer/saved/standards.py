"""Blocks and a story stick worth making once, over past, present and coming jobs.

A block lies between guide and blade and sets the guide without its scale: alone, two of them
together, or one laid against the far side of the teeth, which sets a kerf less. A handful is
chosen one after another, each time the thickness that sets most of what is still dialled. The
sled's stop, too far from the blade for a block, gets a mark on a stick instead.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction

from msgspec import Struct, field

from sequencer.facts import Fact, Length, standards
from sequencer.lengths import Unit, convert
from sequencer.plan import Plan
from sequencer.saved.entry import Entry
from sequencer.saved.gauges import ALIKE, THICKEST, THINNEST
from sequencer.saw.fittings import CARRIERS
from sequencer.trade.fits import Datum

MOST = 5
"""Blocks that are named: what stays in one box by the saw; ours."""

LEAST = 2
"""Settings that a block must serve; ours."""

DISTINCT = 300
"""Numbers that are looked at, those dialled most often; ours."""

WIDTH = Datum(Fraction(2), Fraction(50), "ours: a block that stands by itself")
LENGTH = Datum(Fraction(4), Fraction(100), "ours: long enough to feel that it lies flat")
SPARE = Datum(Fraction(2), Fraction(50), "ours: what a story stick is longer than its last mark")


class Dialled(Struct, frozen=True):
    """A number that a carrier's guide is dialled to, with that kerf, `times` over all jobs."""

    carrier: str
    number: Fraction
    kerf: Fraction
    times: int = 1


class Way(Struct, frozen=True):
    """How a block sets a number: alone, with an `other`, by its letter, or `behind` the teeth."""

    of: Dialled
    other: str = ""
    behind: bool = False


class Block(Struct, frozen=True):
    mark: str
    thickness: Fraction
    ways: tuple[Way, ...] = ()

    @property
    def sets(self) -> int:
        return sum(way.of.times for way in self.ways)


class Standards(Struct, frozen=True):
    """Blocks in the order in which they are worth making; `marks` of a story stick, each with how
    often it serves. Of `of` settings that are dialled, `sets` are set by blocks."""

    blocks: tuple[Block, ...]
    marks: tuple[tuple[Fraction, int], ...]
    sets: int
    of: int


def dialled_in(entries: Iterable[Entry], plans: Iterable[Plan], unit: Unit) -> list[Dialled]:
    """What was dialled and what will be, equal numbers together: those of saved settings, once for
    each job that used them, and those of plans."""
    found: dict[tuple[str, Fraction, Fraction], int] = {}

    def add(carrier: str, number: Fraction, kerf: Fraction, own: Unit, times: int) -> None:
        key = (carrier, convert(number, own, unit), convert(kerf, own, unit))
        found[key] = found.get(key, 0) + times

    for entry in entries:
        for knob in entry.knobs:
            if knob.knob == CARRIERS[entry.carrier].knob:
                times = max(1, len(entry.jobs))
                add(entry.carrier, knob.value + knob.off, entry.kerf, entry.unit, times)
    for plan in plans:
        for setup in plan.setups:
            turned = {change.knob for change in setup.changes}
            if (
                setup.stands is not None
                and not setup.tilt
                and CARRIERS[setup.carrier].knob in turned
            ):
                add(setup.carrier, setup.stands, setup.kerf, plan.unit, 1)
    often = sorted(found.items(), key=lambda item: (-item[1], item[0]))[:DISTINCT]
    return [Dialled(*key, times) for key, times in often]


def worth_making(lot: Sequence[Dialled], unit: Unit, most: int = MOST) -> Standards:
    """The blocks that set most of what is dialled, and marks for stops that none of them sets."""
    choosing = _Choosing(lot, unit)
    while len(choosing.blocks) < most and choosing.add():
        pass
    marks: dict[Fraction, int] = {}
    for n, each in enumerate(lot):
        if n not in choosing.done and each.carrier == "crosscut-sled" and each.times >= LEAST:
            marks[each.number] = marks.get(each.number, 0) + each.times
    sets = sum(lot[n].times for n in choosing.done)
    return Standards(
        tuple(choosing.blocks), tuple(sorted(marks.items())), sets, sum(d.times for d in lot)
    )


class _Choosing(Struct):
    lot: Sequence[Dialled]
    unit: Unit
    blocks: list[Block] = field(default_factory=list)
    done: set[int] = field(default_factory=set)

    def add(self) -> bool:
        """One block more; whether any is worth it."""
        best: tuple[tuple[object, ...], Fraction, Mapping[int, Way]] | None = None
        for thickness in self._candidates():
            ways = self._ways(thickness)
            gain = sum(self.lot[n].times for n in ways)
            # Of equals the one that a rule shows, then the thinner.
            rank = (-gain, thickness.denominator, thickness)
            if gain >= LEAST and (best is None or rank < best[0]):
                best = rank, thickness, ways
        if best is None:
            return False
        self.done |= set(best[2])
        mark = chr(ord("A") + len(self.blocks))
        self.blocks.append(Block(mark, best[1], tuple(best[2].values())))
        return True

    def _candidates(self) -> Iterable[Fraction]:
        thin, thick = THINNEST.of(self.unit), THICKEST.of(self.unit)
        found: dict[Fraction, None] = {}
        for n, each in enumerate(self.lot):
            if n not in self.done:
                less = (each.number - block.thickness for block in self.blocks)
                for value in (each.number, each.number + each.kerf, *less):
                    if thin <= value <= thick:
                        found[value] = None
        return found

    def _ways(self, thickness: Fraction) -> dict[int, Way]:
        """What a block of that thickness would set of what is still dialled."""
        near = ALIKE.of(self.unit) / 2
        found: dict[int, Way] = {}
        for n, each in enumerate(self.lot):
            if n in self.done:
                continue
            if abs(each.number - thickness) <= near:
                found[n] = Way(each)
            elif abs(each.number + each.kerf - thickness) <= near:
                found[n] = Way(each, behind=True)
            else:
                for block in self.blocks:
                    if abs(each.number - thickness - block.thickness) <= near:
                        found[n] = Way(each, other=block.mark)
                        break
        return found


def told(made: Standards, unit: Unit) -> Iterator[Fact]:
    """What they save, a line to cut each by, and the stick."""

    def length(value: Fraction) -> Length:
        return Length(value, unit)

    if not made.blocks:
        yield standards.NONE(n=made.of)
    else:
        yield standards.UNPLUG()
        yield standards.BLOCKS(n=len(made.blocks), sets=made.sets, of=made.of)
    for block in made.blocks:
        yield standards.BLOCK(
            mark=block.mark,
            thickness=length(block.thickness),
            width=length(WIDTH.of(unit)),
            length=length(LENGTH.of(unit)),
            n=block.sets,
            ways=tuple(_way(way, unit) for way in block.ways),
        )
    if made.marks:
        yield standards.STICK(
            length=length(made.marks[-1][0] + SPARE.of(unit)),
            marks=tuple(
                standards.MARK(number=n, at=length(at), n=times)
                for n, (at, times) in enumerate(made.marks, 1)
            ),
        )
    if made.blocks:
        yield standards.NAME_IT()


def _way(way: Way, unit: Unit) -> Fact:
    carrier, number = f"carrier.{way.of.carrier}", Length(way.of.number, unit)
    if way.other:
        return standards.WAY_TOGETHER(carrier=carrier, number=number, other=way.other)
    kind = standards.WAY_BEHIND if way.behind else standards.WAY_ALONE
    return kind(carrier=carrier, number=number)
