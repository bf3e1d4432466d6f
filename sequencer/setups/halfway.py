"""What is done of a plan, and how the saw stands, in the words of the plan made again.

What is done stays, as it was made; the rest follows from what was measured. The stages are those of
every plan: here is only what a plan that begins half-way has more.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from msgspec import Struct

from sequencer import ordering
from sequencer.errors import InternalError, Refusal
from sequencer.facts import Length, sequences
from sequencer.job.schema import Shop
from sequencer.lengths import Unit
from sequencer.operations import Work
from sequencer.plan import Plan
from sequencer.records import replace
from sequencer.saw.fittings import GUIDES, SPACER
from sequencer.saw.operation import OperationId
from sequencer.saw.values import AWAY, KnobValue, is_tested, plain
from sequencer.trade import fits


class Done(Struct, frozen=True):
    """An operation that was done, and every knob as it stood then, in the words of the plan it
    was done by. `untested` names the knobs whose test cut was passed over."""

    operation: str
    state: Mapping[str, str]
    untested: frozenset[str] = frozenset()


class Held(Struct, frozen=True):
    """How a knob stands: its value, the operation it was set for, and whether its test cut, if it
    needs one, has passed."""

    value: str
    operation: str
    passed: bool


class Past(Struct, frozen=True):
    """All that was done, in its order, and what the saw is `held` at; `known` are the operations of
    the plan so far, and `glued` of how many boards its sticks are glued up, by their marks: what
    was measured since changes neither."""

    done: tuple[Done, ...]
    held: Mapping[str, Held]
    known: frozenset[str] = frozenset()
    glued: Mapping[str, int] | None = None

    @property
    def block(self) -> str:
        """A block that stands, or stood, between jig and piece, as a value of its knob; empty where
        none was used yet. What is left is then planned without: a block reaches from one setting to
        another only where both are what they were."""
        states = [each.state.get(SPACER, AWAY) for each in self.done]
        held = self.held.get(SPACER)
        used = [value for value in states if value != AWAY]
        return held.value if held and held.value != AWAY else "".join(used[-1:])

    def without_late(self, work: Work) -> Work:
        """Without the passes that a thinner kerf would add to what was cut and accepted with fewer,
        or where later cuts were made already. The proof tells whether they left a fin."""
        done = frozenset(each.operation for each in self.done)
        late = {edge.before for edge in work.edges if edge.after in done} - done
        begun = {OperationId.parse(operation).whole for operation in done}
        late |= {
            operation.id
            for operation in work.operations
            if operation.name.between
            and operation.id not in self.known
            and operation.name.whole in begun
        }
        if not late:
            return work
        kept = [n for n, operation in enumerate(work.operations) if operation.id not in late]
        return replace(
            work,
            operations=tuple(work.operations[n] for n in kept),
            edges=tuple(e for e in work.edges if e.before not in late and e.after not in late),
            ranks=tuple(work.ranks[n] for n in kept),
            doors=(),
        )

    def placed(
        self, problem: ordering.Problem, shop: Shop, unit: Unit
    ) -> tuple[ordering.Placed, ...]:
        """What was done, in the words of the plan as it is now: a tested setting was accepted at
        what is wanted, whatever number that has now; any other stands at the number it was set to.
        A pass between two others overlaps both by more than it may be off."""
        placed: list[ordering.Placed] = []
        state: dict[str, str] = {}
        cutters = [cutter.name for cutter in shop.cutters]
        index = {operation.id: n for n, operation in enumerate(problem.operations)}
        for each in self.done:
            number = index.get(each.operation)
            middle = OperationId.parse(each.operation).between
            if number is None and middle:
                continue
            if number is None:
                raise InternalError(sequences.NO_PLACE(operation=each.operation))
            needs = problem.operations[number].alternatives[0].needs
            block = KnobValue.read(each.state.get(SPACER, AWAY), cutters)
            for knob, accepted in needs.items():
                was = AWAY if knob == SPACER else each.state[knob]
                now = state[knob] = _now(was, accepted, cutters)
                if now == was or (knob not in each.untested and is_tested(was)):
                    continue
                stood, wanted = KnobValue.read(was, cutters), KnobValue.read(now, cutters)
                if stood is None or wanted is None:
                    raise InternalError(
                        sequences.HAS_BECOME(
                            operation=each.operation, knob=f"knob.{knob}", was=was, now=now
                        )
                    )
                behind = block is not None and SPACER in needs and knob in GUIDES
                at = stood.number - (block.number if block and behind else 0)
                near = fits.OVERLAP.of(unit) if middle else fits.FIT_BAND.of(unit) / 2
                if abs(at - wanted.number) > near:
                    raise Refusal(
                        sequences.CUT_ELSEWHERE(
                            operation=each.operation,
                            knob=f"knob.{knob}",
                            was=Length(at, unit),
                            wanted=Length(wanted.number, unit),
                        )
                    )
            placed.append(ordering.Placed(number, 0, dict(state)))
        return _together(placed, problem)

    def start(self, problem: ordering.Problem, shop: Shop) -> Mapping[str, str]:
        """How the saw stands, in the words of the problem."""
        needs = {o.id: o.alternatives[0].needs for o in problem.operations}
        return _stand(self.held, needs, [cutter.name for cutter in shop.cutters])

    def made(self, plan: Plan) -> frozenset[tuple[int, str]]:
        """What was made, by the numbers that its steps have in `plan`: cuts by the marks of what
        they are in, bench work by the mark that its operation is named for."""
        names = {each.operation for each in self.done}
        found: set[tuple[int, str]] = set()
        for step in plan.steps:
            each = len(step.cuts) // max(len(step.operations), 1)
            for n, operation in enumerate(step.operations):
                if operation in names:
                    cuts = step.cuts[n * each : (n + 1) * each]
                    marks = {cut.mark for cut in cuts} or {OperationId.parse(operation).mark}
                    found |= {(step.number, mark) for mark in marks}
        return frozenset(found)


def _together(
    placed: Sequence[ordering.Placed], problem: ordering.Problem
) -> tuple[ordering.Placed, ...]:
    """What was done, a piece that was made later beside those that were made with the saw set so
    before, behind all that it waits for: the setting was tried once, and no test piece is told to
    be cut twice."""
    waits: dict[int, set[int]] = {}
    for first, later in problem.before:
        waits.setdefault(later, set()).add(first)
    found: list[ordering.Placed] = []
    for each in placed:
        before, at = waits.get(each.operation, set()), len(found)
        for n in reversed(range(len(found))):
            if found[n].state == each.state:
                at = n + 1
                break
            if found[n].operation in before:
                break
        found.insert(at, each)
    return tuple(found)


def standing(held: Mapping[str, Held], plan: Plan) -> dict[str, str]:
    """The knobs as they stand, in the words of `plan`."""
    needs = {o.id: o.alternatives[0].needs for o in plan.ordering.operations}
    return _stand(held, needs, cutters_of(plan))


def cutters_of(plan: Plan) -> list[str]:
    return list(dict.fromkeys(setup.cutter for setup in plan.setups))


def _stand(
    held: Mapping[str, Held],
    needs: Mapping[str, Mapping[str, tuple[str, ...]]],
    cutters: Sequence[str],
) -> dict[str, str]:
    """One that was set but not yet tried out is only a number; so is the jig where a block may have
    stood before it, for whatever number its cut has now."""
    start: dict[str, str] = {}
    for knob, at in held.items():
        value = at.value
        if is_tested(value) and not at.passed:
            value = plain(value)
        elif is_tested(value) and knob != SPACER and not (SPACER in held and knob in GUIDES):
            value = _now(value, needs.get(at.operation, {}).get(knob, (value,)), cutters)
        elif is_tested(value) and value not in needs.get(at.operation, {}).get(knob, (value,)):
            value = plain(value)
        start[knob] = value
    return start


def _now(was: str, accepted: Sequence[str], cutters: Sequence[str]) -> str:
    """The accepted value that stands for what was set: itself, or the nearest."""
    if was in accepted:
        return was
    if len(accepted) == 1:
        return accepted[0]
    at = _number(was, cutters)
    return min(accepted, key=lambda value: (abs(_number(value, cutters) - at), value))


def _number(value: str, cutters: Sequence[str]) -> Fraction:
    read = KnobValue.read(value, cutters)
    return Fraction(0) if read is None else read.number


def continued(
    after: Sequence[ordering.Placed], placed: Sequence[ordering.Placed], problem: ordering.Problem
) -> list[ordering.Placed]:
    """The rest, each knob carried on from what is done until something needs it."""
    state = dict(placed[-1].state) if placed else {}
    found: list[ordering.Placed] = []
    for step in after:
        needs = problem.operations[step.operation].alternatives[step.alternative].needs
        state |= {knob: step.state[knob] for knob in needs}
        found.append(ordering.Placed(step.operation, step.alternative, dict(state)))
    return found
