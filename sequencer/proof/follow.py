"""Following the plan as the person would: blanks laid out, then every step, cut by cut.

Reads sticks, setups and steps only; of the parts it knows no more than their marks on the sticks.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from fractions import Fraction

from msgspec import Struct

from sequencer.errors import InternalError, Unsupported
from sequencer.facts import Fact, sawings
from sequencer.facts import proofs as told
from sequencer.plan import SCRAP_STEPS, Cut, Plan, Setup, Step
from sequencer.proof.carriers import CARRIERS
from sequencer.proof.cells import Brick, Length
from sequencer.proof.grain import Grain
from sequencer.proof.hands import STICK, Marks, X, in_hand
from sequencer.proof.kerf import Pass
from sequencer.proof.saw import Sawn, saw
from sequencer.proof.solid import Solid, bounds, difference, moved, pieces, shared

_ZERO = Fraction(0)


class Event(Struct, frozen=True):
    """A piece or stick has changed: `cleared` is the space that was emptied, `solid` what is left,
    both in the wood of `mark`. A piece just cut from a stick names it in `stick`, and where on the
    stick it began in `start`. `guided` is the axis that the cut is guided along; `at_saw` is false
    at the bench."""

    step: Step
    mark: str
    cleared: Solid
    solid: Solid
    stick: str | None = None
    start: Length = 0
    guided: int = 0
    at_saw: bool = True


_UNSUPPORTED = (sawings.SHORT_BEARING, sawings.NOTHING_TO_STAND_ON)


def fault(step: Step, mark: str, what: Fact) -> InternalError:
    """The error of a step and a piece, the two always named."""
    number, kind = step.number, kind_term(step)
    if step.setup is None:
        return InternalError(told.AT_BENCH(step=number, kind=kind, piece=mark, what=what))
    where = told.AT_STEP(step=number, kind=kind, setup=step.setup, piece=mark, what=what)
    return Unsupported(where) if what.kind in _UNSUPPORTED else InternalError(where)


def kind_term(step: Step) -> str:
    """The kind of a step by its id in the vocabulary."""
    return f"step.{step.kind.replace(' ', '-')}"


Made = frozenset[tuple[int, str]]
"""What was made and found good, by step number and mark."""


def deck_of(setup: Setup, decks: Mapping[str, Fraction]) -> Fraction:
    """How thick the deck is that the piece lies on; any sled has the crosscut sled's where it has
    none of its own."""
    sled = _ZERO if CARRIERS[setup.carrier].kind != "sled" else decks.get("crosscut-sled", _ZERO)
    return decks.get(setup.carrier, sled)


Look = Callable[[Step, Cut, str, Solid, Pass, Sawn, bool], None]
"""Sees a pass: its step and cut, what a fault calls the piece, the wood before, how it was made,
what it left, and whether more pieces follow off the stick."""


class _Floor:
    def __init__(
        self, plan: Plan, grain: Grain, thinner: int, made: Made, look: Look | None
    ) -> None:
        self.grain = grain
        self.thinner = thinner
        self.made = made
        self.look = look
        self.setups = {setup.number: setup for setup in plan.setups}
        self.decks = plan.shop.decks
        self.bearing = {
            name: carrier.least(plan.unit, grain.parts) for name, carrier in CARRIERS.items()
        }
        self.waiting = {stick.mark: list(stick.pieces) for stick in plan.sticks}
        """The pieces still on each stick, the next to come off first."""
        self.solids: dict[str, Solid] = {
            stick.mark: (grain.block(stick.blank),) for stick in plan.sticks
        }
        self.blocks: dict[str, Brick] = {
            stick.mark: grain.block(stick.blank) for stick in plan.sticks
        }
        """What each stick, and each piece as it came off it, fills."""
        self.marks: dict[str, Marks] = {stick.mark: STICK for stick in plan.sticks}
        self.marked_again = in_hand(plan)
        self.known: dict[tuple[Solid, Pass], Sawn] = {}

    def sawn(self, step: Step, cut: Cut, name: str) -> Sawn:
        """One pass of what `cut` names; `name` is what a fault calls it."""
        solid = self.solids.get(cut.mark)
        if not solid:
            raise fault(step, name, told.NOTHING_THERE(mark=cut.mark))
        made = self.read(step, cut, name)
        key = (solid, made)
        result = self.known.get(key)
        if result is None:
            result = self.known[key] = saw(solid, made)
        if result.fault is not None:
            raise fault(step, name, result.fault)
        if self.look is not None:
            self.look(step, cut, name, solid, made, result, bool(self.waiting.get(cut.mark)))
        return result

    def read(self, step: Step, cut: Cut, name: str) -> Pass:
        """What the person reads from setup and step, and from the stick where an end is squared."""
        setup = self.setups.get(step.setup) if step.setup is not None else None
        if setup is None:
            raise fault(step, name, told.NO_SETUP())
        of = self.grain.of
        less = self.less(step, cut)
        by_eye = None
        if cut.against is None and self.waiting.get(cut.mark):
            by_eye = of(self.waiting[cut.mark][0].start)
        return Pass(
            carrier=setup.carrier,
            kerf=of(setup.kerf) - less,
            guide=None if setup.guide is None or cut.against is None else of(setup.guide),
            depth=of(self.depth(setup)),
            down=cut.down,
            against=cut.against,
            keeps=cut.keeps,
            sweep=cut.sweep,
            bearing=self.bearing[setup.carrier],
            by_eye=by_eye,
            tilt=setup.tilt,
            back=None if cut.back is None else of(cut.back) - less,
            marks=self.marks[cut.mark],
        )

    def less(self, step: Step, cut: Cut) -> int:
        known = cut.keeps is not None or (step.number, cut.mark) in self.made
        return 0 if known else self.thinner

    def depth(self, setup: Setup) -> Fraction:
        return setup.height - deck_of(setup, self.decks) if self.decks else setup.depth

    def crosscut(self, step: Step, cut: Cut) -> Event:
        """The next piece comes off its stick, which goes on from the far side of the kerf."""
        if not self.waiting[cut.mark]:
            raise fault(step, cut.mark, told.ALL_CUT())
        piece = self.waiting[cut.mark].pop(0)
        if piece.mark not in step.marks:
            raise fault(step, piece.mark, told.NOT_NAMED(strip=cut.mark))
        result = self.sawn(step, cut, piece.mark)
        start = bounds(result.kept)[:5:2]
        if start[0] != self.grain.of(piece.start):
            found, wanted = (self.grain.told(x) for x in (start[0], self.grain.of(piece.start)))
            what = told.COMES_OFF_ELSEWHERE(strip=cut.mark, found=found, laid_out=wanted)
            raise fault(step, piece.mark, what)
        shift = (-start[0], -start[1], -start[2])
        self.solids[piece.mark] = moved(result.kept, shift)
        self.blocks[piece.mark] = bounds(self.solids[piece.mark])
        self.marks[piece.mark] = self.marked_again[piece.mark]
        self.solids[cut.mark] = result.rest
        cleared = moved((*result.cleared, *result.rest), shift)
        return Event(step, piece.mark, cleared, self.solids[piece.mark], cut.mark, start[0])

    def cut(self, step: Step, cut: Cut) -> Event:
        setup = self.setups.get(step.setup) if step.setup is not None else None
        across = (
            setup is not None and CARRIERS[setup.carrier].kind == "sled" and cut.against is not None
        )
        if across and cut.keeps is not None and cut.mark in self.waiting:
            return self.crosscut(step, cut)
        result = self.sawn(step, cut, cut.mark)
        if bounds(result.kept)[2] != bounds(self.solids[cut.mark])[2] and cut.mark in self.waiting:
            raise fault(step, cut.mark, told.INSIDE_EDGE_CUT_OFF())
        self.solids[cut.mark] = result.kept
        guided = X if cut.against is None else self.marks[cut.mark].at(cut.against)[0]
        cleared = (*result.cleared, *result.rest)
        return Event(step, cut.mark, cleared, result.kept, guided=guided)

    def tried(self, step: Step, cut: Cut) -> None:
        """A test cut, which must leave something to measure."""
        result = self.sawn(step, cut, cut.mark)
        if not shared(self.solids[cut.mark], result.cleared[:1]):
            raise fault(step, cut.mark, told.NOTHING_TO_MEASURE())
        self.solids[cut.mark] = result.kept

    def bench(self, step: Step) -> Iterator[Event]:
        for removal in step.removes:
            mark = removal.mark
            try:
                taken = self.grain.shape(removal)
            except ValueError:
                raise fault(step, mark, told.BENCH_SHAPE()) from None
            before = self.solids.get(mark)
            if not before:
                raise fault(step, mark, told.NOT_THERE_YET())
            taken = self.marks[mark].told(taken, self.blocks[mark])
            left = difference(before, taken)
            if not left or left == before:
                raise fault(step, mark, told.BENCH_MISSES())
            kept, *fallen = pieces(left)
            self.solids[mark] = kept
            cleared = (*taken, *(part for solid in fallen for part in solid))
            yield Event(step, mark, cleared, kept, at_saw=False)


def follow(
    plan: Plan,
    grain: Grain,
    thinner: int = 0,
    made: Made = frozenset(),
    look: Look | None = None,
) -> Iterator[Event]:
    """Every change of every stick and piece, in the order of the steps. Kerfs of cuts that do not
    go through are `thinner` than measured by as much, but for those that are `made` already. `look`
    sees every pass, of test pieces too.

    Test pieces are sawn too, each test cut on what those before it have left; they have no design,
    and what is cut on them is no event. Raises InternalError at the first cut that must not be
    made.
    """
    floor = _Floor(plan, grain, thinner, made, look)
    for step in plan.steps:
        if step.kind in SCRAP_STEPS:
            for cut in step.cuts:
                floor.tried(step, cut)
            continue
        for cut in step.cuts:
            yield floor.cut(step, cut)
        yield from floor.bench(step)
