"""The plan's bookkeeping: does what the person reads agree with what was solved?

Operations, steps, setups, states, minutes, precedence and test cuts, each checked from the plan
alone, by other means than those that made it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from fractions import Fraction

from sequencer.errors import InternalError
from sequencer.plan import (
    SCRAP_STEPS,
    Alternative,
    Placed,
    Plan,
    Setup,
    ShopFacts,
    Step,
)
from sequencer.proof.carriers import CARRIERS
from sequencer.proof.follow import deck_of

TESTED = " tested"
AWAY = "away"
_ZERO = Fraction(0)


def check_numbers(plan: Plan) -> None:
    """Marks that are there once, and numbers without a gap: what all the rest relies on."""
    _unique("piece", [part.mark for part in plan.parts])
    _unique("stick", [stick.mark for stick in plan.sticks])
    _unique("piece on the sticks", [p.mark for stick in plan.sticks for p in stick.pieces])
    _unique("door", [door.mark for door in plan.doors])
    for name, numbers in (
        ("setup", [setup.number for setup in plan.setups]),
        ("step", [step.number for step in plan.steps]),
    ):
        for wanted, number in enumerate(numbers, 1):
            if number != wanted:
                raise InternalError(f"{name} {number} stands where {name} {wanted} should")


def check_books(plan: Plan) -> None:
    """Raises InternalError at the first entry that does not agree, with its step and pieces where
    it has them. The plan's numbers are known to be good."""
    _Books(plan).check()


def _unique(name: str, marks: list[str]) -> None:
    seen: set[str] = set()
    for mark in marks:
        if mark in seen:
            raise InternalError(f"{name} {mark} is there twice")
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
                    f"step {checkpoint.at_step}: there is no scrap {checkpoint.scrap}"
                )
            if not checkpoint.low <= checkpoint.target <= checkpoint.high:
                raise InternalError(
                    f"step {checkpoint.at_step}: {checkpoint.measure} {checkpoint.target} would "
                    f"not be good itself, {checkpoint.low} to {checkpoint.high}"
                )

    def order(self) -> None:
        """Every operation in exactly one step, and the steps in the order that was solved."""
        order = [placed.operation for placed in self.plan.ordering.order]
        _unique("operation", [operation.id for operation in self.plan.ordering.operations])
        done: list[str] = []
        last = 0
        for step in self.plan.steps:
            if step.setup is not None and step.setup not in self.setups:
                raise _at(step, f"there is no setup {step.setup}")
            if step.cuts and step.setup is None:
                raise _at(step, "it cuts without a setup")
            if step.setup is not None:
                if step.setup < last:
                    raise _at(step, f"setup {step.setup} comes after setup {last}")
                last = step.setup
            if step.kind in SCRAP_STEPS and not step.cuts:
                raise _at(step, "nothing is cut on the scrap")
            for operation in step.operations:
                if operation in self.step_of:
                    raise _at(
                        step, f"{operation} was done in step {self.step_of[operation].number}"
                    )
                if operation not in self.operations:
                    raise _at(step, f"{operation} is no operation of the plan")
                self.step_of[operation] = step
                done.append(operation)
        for operation, solved in zip(done, order, strict=False):
            if operation != solved:
                raise _at(self.step_of[operation], f"{operation} stands where {solved} was solved")
        missing = [name for name in (*order, *self.operations) if name not in self.step_of]
        if missing or len(order) != len(done):
            raise InternalError(f"{(missing or done)[0]} is not in steps and order alike")

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
                    raise InternalError(
                        f"stick {stick.mark} is not as wide and thick as {piece.mark}"
                    )
                if piece.start + size.length > min(stick.size.length, stick.blank.length):
                    raise InternalError(f"stick {stick.mark} is too short for {piece.mark}")

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
                raise _at(step, f"no step says that the guard is {setup.guard}")
            for cut in step.cuts:
                through = CARRIERS[setup.carrier].kind == "fence" and cut.keeps is not None
                if through != (setup.guard == "fitted"):
                    raise _at(step, f"{cut.mark} is cut with the guard {setup.guard}")

    def precedence(self) -> None:
        place = {placed.operation: n for n, placed in enumerate(self.plan.ordering.order)}
        for first, later, reason in self.plan.ordering.before:
            if first not in place or later not in place:
                raise InternalError(f"{first} before {later}: there is no such operation")
            if place[first] >= place[later]:
                raise _at(self.step_of[later], f"{later} comes before {first} ({reason})")

    def states(self) -> None:
        """What is set at each operation suits it, and is what its setup says."""
        state: Mapping[str, str] = {}
        setup: Setup | None = None
        for placed in self.plan.ordering.order:
            step = self.step_of[placed.operation]
            needs = self.alternative(placed).needs
            if step.setup is None:
                if needs or placed.state != state:
                    raise _at(step, f"{placed.operation} is bench work, and the saw is set for it")
                continue
            for knob, accepted in needs.items():
                if placed.state.get(knob) not in accepted:
                    found = placed.state.get(knob, "not set")
                    wanted = " or ".join(accepted) or "nothing"
                    raise _at(step, f"{placed.operation} needs {knob} {wanted}, not {found}")
            changed = [knob for knob, value in placed.state.items() if state.get(knob) != value]
            entered = self.setups[step.setup]
            if entered is not setup:
                if entered.number != (setup.number + 1 if setup else 1):
                    raise _at(step, f"setup {entered.number} does not follow the one before")
                if not changed and setup is not None:
                    raise _at(step, f"setup {entered.number} changes nothing")
                self.entered(step, entered, placed.state, state, changed)
                setup = entered
            elif changed:
                raise _at(step, f"{changed[0]} changes within setup {entered.number}")
            self.clear(step, entered, placed.state)
            self.tested(step, placed, needs)
            state = placed.state

    def clear(self, step: Step, setup: Setup, state: Mapping[str, str]) -> None:
        """Nothing stands where waste falls loose: no fence beside a cut that it does not guide,
        no stop where an end is squared."""
        knob, _ = guide_reading(setup, self.plan.shop)
        if knob != "fence" and state.get("fence") != AWAY:
            raise _at(step, "the rip fence is not pushed away from the blade")
        if setup.guide is None and state.get(knob) != AWAY:
            raise _at(step, f"its offcut is left between the blade and the {knob}")

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
            raise _at(step, f"{lost[0]} was set, and is forgotten")
        for knob in changed:
            self.set_at[knob] = setup.number
        said = {change.knob: (change.before, change.after) for change in setup.changes}
        if said and said != {knob: (before.get(knob), state[knob]) for knob in changed}:
            raise _at(step, f"setup {setup.number} says other changes than it makes")
        if setup.minutes != sum((self.cost(knob, state[knob]) for knob in changed), _ZERO):
            raise _at(step, f"setup {setup.number} does not cost {setup.minutes} minutes")
        shop = self.plan.shop
        knob, reading = guide_reading(setup, shop)
        shown = [("cutter", setup.cutter), ("carrier", setup.carrier), ("guard", setup.guard)]
        for name, value in shown:
            if state.get(name, value) != value:
                raise _at(step, f"setup {setup.number} has {name} {value}, not {state[name]}")
        numbers = [("height", setup.height), ("tilt", setup.tilt)]
        if reading is not None:
            numbers.append((knob, reading))
            if setup.reading != reading:
                raise _at(
                    step, f"the {knob} shows {setup.reading} where the guide is {setup.guide}"
                )
            if knob not in state:
                raise _at(step, f"setup {setup.number} needs a {knob}, and none is set")
        for name, number in numbers:
            if name in state and self.number(state[name]) != number:
                raise _at(step, f"setup {setup.number} has {name} {number}, not {state[name]}")
        deck = deck_of(setup, shop.decks)
        if setup.height != setup.depth + deck and (
            shop.decks or CARRIERS[setup.carrier].kind == "fence"
        ):
            raise _at(step, f"height {setup.height} over a deck of {deck} cuts not {setup.depth}")
        move = None
        if knob in changed and knob in before and reading is not None:
            held = self.number(before[knob])
            move = None if held is None else reading - held
        if setup.move != move:
            raise _at(step, f"the {knob} moves by {move}, not {setup.move}")

    def number(self, value: str) -> Fraction | None:
        return value_number(value, self.cutters)

    def tested(self, step: Step, placed: Placed, needs: Mapping[str, tuple[str, ...]]) -> None:
        """A fit-critical setting was tried on scrap after it was last set."""
        for knob, accepted in needs.items():
            if not all(value.endswith(TESTED) for value in accepted):
                continue
            if not any(
                checkpoint.knob == knob
                and checkpoint.setup is not None
                and checkpoint.setup >= self.set_at[knob]
                and checkpoint.at_step < checkpoint.before_step <= step.number
                and self.plan.steps[checkpoint.at_step - 1].kind in SCRAP_STEPS
                for checkpoint in self.plan.checkpoints
            ):
                raise _at(step, f"{placed.operation} relies on {knob} {accepted[0]}, never tried")

    def minutes(self) -> None:
        ordering = self.plan.ordering
        own = sum((self.alternative(placed).minutes for placed in ordering.order), _ZERO)
        total = own + sum((setup.minutes for setup in self.plan.setups), _ZERO)
        if total != ordering.minutes:
            raise InternalError(f"setups and cuts take {total} minutes, not {ordering.minutes}")
        used = {step.setup for step in self.plan.steps if step.setup is not None}
        if not ordering.setups == len(self.plan.setups) == len(used):
            raise InternalError(f"the plan has {len(used)} setups, not {ordering.setups}")
        if ordering.bound > ordering.minutes:
            raise InternalError(f"{ordering.minutes} minutes are below the bound {ordering.bound}")
        if ordering.proven and ordering.bound != ordering.minutes:
            raise InternalError(f"called proven, with a bound of {ordering.bound} minutes")

    def alternative(self, placed: Placed) -> Alternative:
        ways = self.operations[placed.operation].alternatives
        if not 0 <= placed.alternative < len(ways):
            raise InternalError(f"{placed.operation} has no way number {placed.alternative}")
        return ways[placed.alternative]

    def cost(self, name: str, value: str) -> Fraction:
        knob = self.knobs.get(name)
        if knob is None:
            raise InternalError(f"there is no knob {name}")
        return knob.by_value.get(value, knob.minutes)


def guide_reading(setup: Setup, shop: ShopFacts) -> tuple[str, Fraction | None]:
    """The knob that the setup's guide is dialled with, and what its scale must show."""
    carrier = CARRIERS[setup.carrier]
    if setup.guide is None:
        return carrier.knob, None
    if carrier.kind == "jig" and shop.jig_rides == "fence":
        return "fence", setup.guide + shop.jig_thickness
    return carrier.knob, setup.guide


_TILT = re.compile(r"(-?\d+) in (\d+)")


def value_number(value: str, cutters: Iterable[str]) -> Fraction | None:
    """The number in a knob's value: `7/8`, `7/8 tested`, a tilt as `1 in 8`; or after the cutter's
    name, the tilt or both, `dado/1/4`, `1 in 8/1/4`, `blade/1 in 8/1/4`.

    >>> value_number("blade 1/5 tested", ["blade", "blade 1"])
    Fraction(5, 1)
    """
    text = value.removesuffix(TESTED)
    # A name may end in a number: the longest name that fits is the cutter's.
    names = sorted((name for name in cutters if text.startswith(f"{name}/")), key=len)
    if names:
        text = text.removeprefix(f"{names[-1]}/")
    tilt, mark, rest = text.partition("/")
    if mark and _TILT.fullmatch(tilt):
        text = rest
    elif tilted := _TILT.fullmatch(text):
        rise, run = (int(number) for number in tilted.groups())
        return Fraction(rise, run) if run else None
    try:
        return Fraction(text)
    except (ValueError, ZeroDivisionError):
        return None


def _at(step: Step, what: str) -> InternalError:
    pieces = f", piece {', '.join(step.marks[:4])}" if step.marks else ""
    return InternalError(f"step {step.number} ({step.kind}){pieces}: {what}")
