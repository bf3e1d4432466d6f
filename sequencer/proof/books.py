"""The plan's bookkeeping: does what the person reads agree with what was solved?

Operations, steps, setups, states, minutes, precedence and test cuts, each checked from the plan
alone, by other means than those that made it.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from sequencer.errors import InternalError
from sequencer.facts import Fact, Kind, Length
from sequencer.facts import books as told
from sequencer.plan import (
    SCRAP_STEPS,
    Alternative,
    Checkpoint,
    Placed,
    Plan,
    Setup,
    Step,
)
from sequencer.proof.carriers import CARRIERS
from sequencer.proof.dials import SPACER, TESTED, guide_reading, spacer_in, value_number
from sequencer.proof.follow import deck_of, kind_term
from sequencer.proof.looks import looks

_ZERO = Fraction(0)
FARTHEST_OFF: Mapping[str, Fraction] = {"in": Fraction(1, 4), "mm": Fraction(6)}
"""As far as a scale may be off: beyond it is no scale's error but a wrong number. Ours."""


def check_numbers(plan: Plan) -> None:
    """Marks that are there once, and numbers without a gap: what all the rest relies on."""
    _unique(told.PIECE_TWICE, [part.mark for part in plan.parts])
    _unique(told.STRIP_TWICE, [stick.mark for stick in plan.sticks])
    _unique(told.LAID_OUT_TWICE, [p.mark for stick in plan.sticks for p in stick.pieces])
    _unique(told.DOOR_TWICE, [door.mark for door in plan.doors])
    for kind, numbers in (
        (told.SETUP_OUT_OF_PLACE, [setup.number for setup in plan.setups]),
        (told.STEP_OUT_OF_PLACE, [step.number for step in plan.steps]),
    ):
        for wanted, number in enumerate(numbers, 1):
            if number != wanted:
                raise InternalError(kind(found=number, wanted=wanted))


def check_books(plan: Plan) -> None:
    """Raises InternalError at the first entry that does not agree, with its step and pieces where
    it has them. The plan's numbers are known to be good."""
    _Books(plan).check()


def _unique(twice: Kind, marks: list[str]) -> None:
    seen: set[str] = set()
    for mark in marks:
        if mark in seen:
            raise InternalError(twice(mark=mark))
        seen.add(mark)


class _Books:
    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.knobs = {knob.name: knob for knob in plan.ordering.knobs}
        self.setups = {setup.number: setup for setup in plan.setups}
        self.operations = {o.id: o for o in plan.ordering.operations}
        self.cutters = tuple(dict.fromkeys(setup.cutter for setup in plan.setups))
        self.step_of: dict[str, Step] = {}
        self.set_at: dict[str, int] = {}
        """For each knob the setup that it was last set on entering."""
        self.offs: dict[str, Fraction] = {}
        """What its scale shows more than where it stands, since it was last told."""

    def check(self) -> None:
        self.order()
        self.guards()
        self.sticks()
        self.precedence()
        self.states()
        self.minutes()
        scrap = {s.mark for s in self.plan.scrap} | {s.mark for s in self.plan.sticks}
        for checkpoint in self.plan.checkpoints:
            if checkpoint.scrap is not None and checkpoint.scrap not in scrap:
                raise InternalError(
                    told.NO_SUCH_SCRAP(step=checkpoint.at_step, scrap=checkpoint.scrap)
                )
            if not checkpoint.low <= checkpoint.target <= checkpoint.high:
                raise InternalError(
                    told.TARGET_NOT_GOOD(
                        step=checkpoint.at_step,
                        measure=str(checkpoint.measure),
                        target=self.length(checkpoint.target),
                        low=self.length(checkpoint.low),
                        high=self.length(checkpoint.high),
                    )
                )

    def length(self, value: Fraction) -> Length:
        return Length(value, self.plan.unit)

    def order(self) -> None:
        """Every operation in exactly one step, and the steps in the order that was solved."""
        order = [placed.operation for placed in self.plan.ordering.order]
        _unique(told.OPERATION_TWICE, [operation.id for operation in self.plan.ordering.operations])
        done: list[str] = []
        last = 0
        for step in self.plan.steps:
            if step.setup is not None and step.setup not in self.setups:
                raise at(step, told.NO_SUCH_SETUP(setup=step.setup))
            if step.cuts and step.setup is None:
                raise at(step, told.CUTS_WITHOUT_SETUP())
            if step.setup is not None:
                if step.setup < last:
                    raise at(step, told.SETUP_AFTER(setup=step.setup, after=last))
                last = step.setup
            if step.kind in SCRAP_STEPS and not step.cuts:
                raise at(step, told.SCRAP_UNCUT())
            for operation in step.operations:
                if operation in self.step_of:
                    done_in = self.step_of[operation].number
                    raise at(step, told.DONE_BEFORE(operation=operation, step=done_in))
                if operation not in self.operations:
                    raise at(step, told.NO_SUCH_OPERATION(operation=operation))
                self.step_of[operation] = step
                done.append(operation)
        for operation, solved in zip(done, order, strict=False):
            if operation != solved:
                what = told.OTHER_ORDER(operation=operation, solved=solved)
                raise at(self.step_of[operation], what)
        missing = [name for name in (*order, *self.operations) if name not in self.step_of]
        if missing or len(order) != len(done):
            raise InternalError(told.NOT_IN_BOTH(operation=(missing or done)[0]))

    def sticks(self) -> None:
        """What is laid out for a stick is what comes off it."""
        sizes = {part.mark: part.size for part in self.plan.parts}
        sizes |= {scrap.mark: scrap.size for scrap in self.plan.scrap}
        for stick in self.plan.sticks:
            for piece in stick.pieces:
                size = sizes.get(piece.mark)
                if size is None:
                    continue
                if (size.width, size.thickness) != (stick.size.width, stick.size.thickness):
                    raise InternalError(told.UNLIKE_STRIP(strip=stick.mark, piece=piece.mark))
                if piece.start + size.length > min(stick.size.length, stick.blank.length):
                    raise InternalError(told.SHORT_STRIP(strip=stick.mark, piece=piece.mark))

    def guards(self) -> None:
        """Through cuts on the fence are made with guard and knife on, all else without; where the
        guard changes, a step of its own comes first in the setup."""
        fitted: bool | None = None
        for step in self.plan.steps:
            if step.setup is None:
                continue
            setup = self.setups[step.setup]
            if step.kind in ("refit guard", "remove guard"):
                fitted = step.kind == "refit guard"
            elif fitted != (setup.guard == "fitted"):
                raise at(step, told.GUARD_UNSAID(guard=setup.guard))
            for cut in step.cuts:
                through = CARRIERS[setup.carrier].kind == "fence" and cut.keeps is not None
                if through != (setup.guard == "fitted"):
                    raise at(step, told.WRONG_GUARD(mark=cut.mark, guard=setup.guard))

    def precedence(self) -> None:
        place = {placed.operation: n for n, placed in enumerate(self.plan.ordering.order)}
        for first, later, _ in self.plan.ordering.before:
            if first not in place or later not in place:
                raise InternalError(told.EDGE_OF_NOTHING(first=first, later=later))
            if place[first] >= place[later]:
                raise at(self.step_of[later], told.COMES_BEFORE(later=later, first=first))

    def states(self) -> None:
        """What is set at each operation suits it, and is what its setup says."""
        state: Mapping[str, str] = {}
        setup: Setup | None = None
        for placed in self.plan.ordering.order:
            step = self.step_of[placed.operation]
            needs = self.alternative(placed).needs
            if step.setup is None:
                if needs or placed.state != state:
                    raise at(step, told.BENCH_IS_SET_FOR(operation=placed.operation))
                continue
            for knob, accepted in needs.items():
                found = placed.state.get(knob)
                if found not in accepted:
                    raise at(step, _needs(placed.operation, knob, accepted, found))
            changed = [knob for knob, value in placed.state.items() if state.get(knob) != value]
            entered = self.setups[step.setup]
            if entered is not setup:
                if entered.number != (setup.number + 1 if setup else 1):
                    raise at(step, told.NOT_NEXT(setup=entered.number))
                if not changed and setup is not None:
                    raise at(step, told.CHANGES_NOTHING(setup=entered.number))
                self.entered(step, entered, placed.state, state, changed)
                setup = entered
            elif changed:
                raise at(step, told.CHANGES_WITHIN(knob=changed[0], setup=entered.number))
            self.tested(step, placed, needs)
            state = placed.state

    def entered(
        self,
        step: Step,
        setup: Setup,
        state: Mapping[str, str],
        before: Mapping[str, str],
        changed: list[str],
    ) -> None:
        """A setup's numbers against the knobs: all that is dialled, and what it costs."""
        lost = [knob for knob in before if knob not in state]
        if lost:
            raise at(step, told.FORGOTTEN(knob=lost[0]))
        for knob in changed:
            self.set_at[knob] = setup.number
        said = {change.knob: (change.before, change.after) for change in setup.changes}
        if said and said != {knob: (before.get(knob), state[knob]) for knob in changed}:
            raise at(step, told.OTHER_CHANGES(setup=setup.number))
        if setup.minutes != sum((self.cost(knob, state[knob]) for knob in changed), _ZERO):
            raise at(step, told.WRONG_COST(setup=setup.number, minutes=setup.minutes))
        shop = self.plan.shop
        knob, reading = guide_reading(setup, shop)
        shown = [("cutter", setup.cutter), ("carrier", setup.carrier), ("guard", setup.guard)]
        for name, value in shown:
            if state.get(name, value) != value:
                raise at(step, _has(setup, name, value, state[name]))
        numbers = [("height", setup.height), ("tilt", setup.tilt)]
        if reading is not None:
            numbers.append((knob, reading))
            if setup.reading != reading + setup.off(knob):
                found, guide = str(setup.reading), str(setup.guide)
                raise at(step, told.SHOWS_OTHER(knob=knob, found=found, guide=guide))
            if knob not in state:
                raise at(step, told.NOT_SET(setup=setup.number, knob=knob))
        for name, number in numbers:
            if name in state and self.number(state[name]) != number:
                raise at(step, _has(setup, name, str(number), state[name]))
        self.spacer(step, setup, state, reading)
        deck = deck_of(setup, shop.decks)
        if setup.height != setup.depth + deck and (
            shop.decks or CARRIERS[setup.carrier].kind == "fence"
        ):
            height, over, depth = map(self.length, (setup.height, deck, setup.depth))
            raise at(step, told.WRONG_DEPTH(height=height, deck=over, depth=depth))
        move = None
        if knob in changed and knob in before and reading is not None:
            held = self.number(before[knob])
            more = setup.off(knob) - self.offs.get(knob, _ZERO)
            move = None if held is None else reading - held + more
        if setup.move != move:
            by, said_by = str(move), str(setup.move)
            raise at(step, told.WRONG_MOVE(knob=knob, found=by, wanted=said_by))
        for each in setup.known:
            stays = each.knob not in changed and each.knob in before
            farthest = FARTHEST_OFF[self.plan.unit]
            if abs(each.off) > farthest or (stays and self.offs.get(each.knob, _ZERO) != each.off):
                found, guide = str(each.off), str(setup.guide)
                raise at(step, told.SHOWS_OTHER(knob=each.knob, found=found, guide=guide))
        for name in (knob, "height"):
            self.offs[name] = setup.off(name)

    def spacer(
        self, step: Step, setup: Setup, state: Mapping[str, str], reading: Fraction | None
    ) -> None:
        """A block behind the piece is one at hand, stands in the jig, and is there with the jig at
        that number."""
        value = state.get(SPACER, "") if CARRIERS[setup.carrier].kind == "jig" else ""
        found, tools = spacer_in(value, self.cutters), self.plan.shop.tools
        wanted = None if not setup.spacer or reading is None else (setup.spacer, reading)
        at_hand = tools is None or not setup.spacer or setup.spacer in tools.blocks
        if found != wanted or not at_hand:
            raise at(step, _has(setup, SPACER, str(setup.spacer), value))

    def number(self, value: str) -> Fraction | None:
        return value_number(value, self.cutters)

    def tested(self, step: Step, placed: Placed, needs: Mapping[str, tuple[str, ...]]) -> None:
        """A fit-critical setting was tried on scrap after it was last set."""
        for knob, accepted in needs.items():
            if not all(value.endswith(TESTED) for value in accepted):
                continue
            if not any(
                (checkpoint.knob == knob or (knob == SPACER and self.behind(checkpoint)))
                and checkpoint.setup is not None
                and checkpoint.setup >= self.set_at[knob]
                and (
                    (
                        checkpoint.at_step < checkpoint.before_step <= step.number
                        and self.plan.steps[checkpoint.at_step - 1].kind in SCRAP_STEPS
                    )
                    or self.looked_at(checkpoint, step)
                )
                for checkpoint in self.plan.checkpoints
            ):
                what = told.NEVER_TRIED(operation=placed.operation, knob=knob, value=accepted[0])
                raise at(step, what)

    def behind(self, check: Checkpoint) -> bool:
        """Whether it was made with a block behind the piece, by moving the jig: as long as no other
        cut goes by the jig's number."""
        setup = self.setups.get(check.setup or 0)
        if setup is None or not setup.spacer:
            return False
        return check.knob == guide_reading(setup, self.plan.shop)[0]

    def looked_at(self, check: Checkpoint, step: Step) -> bool:
        """Whether the first piece of this step, or of one before it, is looked at instead."""
        there = self.plan.steps[check.at_step - 1]
        first = bool(there.cuts) and there.cuts[0].mark in check.marks
        return first and check.at_step <= step.number and looks(self.plan, check)

    def minutes(self) -> None:
        ordering = self.plan.ordering
        own = sum((self.alternative(placed).minutes for placed in ordering.order), _ZERO)
        total = own + sum((setup.minutes for setup in self.plan.setups), _ZERO)
        if total != ordering.minutes:
            raise InternalError(told.WRONG_MINUTES(found=total, told=ordering.minutes))
        used = {step.setup for step in self.plan.steps if step.setup is not None}
        if not ordering.setups == len(self.plan.setups) == len(used):
            raise InternalError(told.WRONG_SETUPS(found=len(used), told=ordering.setups))
        if ordering.bound > ordering.minutes:
            minutes, bound = ordering.minutes, ordering.bound
            raise InternalError(told.BELOW_BOUND(minutes=minutes, bound=bound))
        if ordering.proven and ordering.bound != ordering.minutes:
            raise InternalError(told.NOT_PROVEN(bound=ordering.bound))

    def alternative(self, placed: Placed) -> Alternative:
        ways = self.operations[placed.operation].alternatives
        if not 0 <= placed.alternative < len(ways):
            what = told.NO_SUCH_WAY(operation=placed.operation, way=placed.alternative)
            raise InternalError(what)
        return ways[placed.alternative]

    def cost(self, name: str, value: str) -> Fraction:
        knob = self.knobs.get(name)
        if knob is None:
            raise InternalError(told.NO_SUCH_KNOB(knob=name))
        return knob.by_value.get(value, knob.minutes)


def _needs(operation: str, knob: str, values: tuple[str, ...], found: str | None) -> Fact:
    if found is None:
        return told.NEEDS_UNSET(operation=operation, knob=knob, values=values)
    return told.NEEDS(operation=operation, knob=knob, values=values, found=found)


def _has(setup: Setup, knob: str, found: str, wanted: str) -> Fact:
    return told.HAS_VALUE(setup=setup.number, knob=knob, found=found, wanted=wanted)


def at(step: Step, what: Fact) -> InternalError:
    """The error of a step, with the pieces that are cut in it."""
    number, kind, pieces = step.number, kind_term(step), step.marks[:4]
    if not pieces:
        return InternalError(told.AT_STEP_ALONE(step=number, kind=kind, what=what))
    return InternalError(told.AT_STEP(step=number, kind=kind, pieces=pieces, what=what))
