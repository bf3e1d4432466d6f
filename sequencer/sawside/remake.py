"""The plan made again half-way: what is done stays, the rest follows from what was measured.

Stages as in the pipeline, with the methods that were chosen at first, for the order of what is left
to do. The result is one whole plan, done cuts first as they were made, so that it can be reviewed
and proven from end to end.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from sequencer import ordering, safety
from sequencer.doors import Leaf, make_leaves, open_choices
from sequencer.errors import InternalError, Refusal
from sequencer.job.rack import together
from sequencer.job.schema import Job, Measured, Saved, Shop
from sequencer.job.shelf import Shelf
from sequencer.methods import Choices
from sequencer.operations import Context, Work, make_operations
from sequencer.plan import Plan, ToTick
from sequencer.proof import prove
from sequencer.sawside.facts import Fact, Real, work_in
from sequencer.sawside.values import number_of
from sequencer.sequencing.calm import calm
from sequencer.sequencing.choose import Given
from sequencer.sequencing.needs import TESTED, Framed, frame
from sequencer.sequencing.record import record_plan
from sequencer.sequencing.setups import lay_out_steps
from sequencer.sheets.figures import Scale
from sequencer.trade import fits


@dataclass(frozen=True, slots=True)
class Done:
    """An operation that was done, and every knob as it stood then, in the words of the plan it
    was done by. `untested` names the knobs whose test cut was passed over."""

    operation: str
    state: Mapping[str, str]
    untested: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Held:
    """How a knob stands: its value, the operation it was set for, and whether its test cut, if it
    needs one, has passed."""

    value: str
    operation: str
    passed: bool


@dataclass(frozen=True, slots=True)
class Request:
    """All that a plan made again depends on."""

    jobs: tuple[Job, ...]
    shop: Shop
    choices: Choices
    facts: tuple[Fact, ...]
    done: tuple[Done, ...]
    held: Mapping[str, Held]
    known: frozenset[str] = frozenset()
    """The operations of the plan so far."""
    reused: tuple[Saved, ...] = ()
    """The saved settings of the plan that is printed."""


@dataclass(frozen=True, slots=True)
class _Stages:
    real: Real
    leaves: tuple[Leaf, ...]
    work: Work
    framed: Framed
    index: Mapping[str, int]


def chosen(plan: Plan, jobs: Sequence[Job], shop: Shop) -> Choices:
    """The methods of a plan; what was not open had one answer."""
    answers = next((method.choices for method in plan.methods if method.chosen), {})
    return Given(tuple(jobs), shop, Measured()).answered(answers)


def remake(request: Request, seconds: float | None = None) -> Plan:
    """The whole plan as it is now.

    Raises `Refusal` where what was measured makes the rest impossible, `InternalError` where it
    cannot be worked into what is done.
    """
    stages = _stages(request)
    problem = stages.framed.problem
    scale = Scale(request.jobs[0].unit, request.shop.graduation)
    placed = _as_done(request.done, stages, request.shop, scale)
    needs = {o.id: o.alternatives[0].needs for o in problem.operations}
    rest = replace(
        problem,
        start=_stand(request.held, needs, [cutter.name for cutter in request.shop.cutters]),
        done=frozenset(step.operation for step in placed),
    )
    order = ordering.solve(rest, seconds=seconds)
    after = calm(rest, order.steps, stages.work.ranks)
    steps = (*placed, *_continued(after, placed, problem))
    cost = ordering.check.recompute(problem, steps)
    whole = ordering.Order(
        steps, cost.minutes, cost.minutes - (order.minutes - order.bound), False, cost.tie,
        "made again half-way",
    )  # fmt: skip
    plan = _written(request, stages, whole)
    return replace(plan, proven=prove(plan, _made(plan, request.done)))


def _made(plan: Plan, done: Sequence[Done]) -> frozenset[tuple[int, str]]:
    """The cuts that were made, by the numbers that their steps have in `plan`."""
    names = {each.operation for each in done}
    found: set[tuple[int, str]] = set()
    for step in plan.steps:
        each = len(step.cuts) // max(len(step.operations), 1)
        for n, operation in enumerate(step.operations):
            if operation in names:
                found |= {(step.number, cut.mark) for cut in step.cuts[n * each : (n + 1) * each]}
    return frozenset(found)


def _stages(request: Request) -> _Stages:
    jobs, shop = request.jobs, request.shop
    real = work_in(request.facts, jobs, shop, request.choices)
    choices = _as_it_cuts(request.choices, real.measured)
    blade = shop.joinery_blade
    kerf = real.measured.kerf.get(blade.name, blade.kerf)
    deepest = shop.saw.max_height - shop.jig.deck
    leaves = make_leaves(real.jobs, kerf, real.measured, choices, deepest)
    dados = () if choices.dado is None else (choices.dado,)
    if choices not in open_choices(real.jobs, kerf, real.measured, deepest, dados):
        raise Refusal(
            "with what was measured the joint is no longer in the middle of the stock, and cannot "
            "be cut by turning the pieces round: measure again, or plan the job anew"
        )
    cutter = replace(blade, kerf=kerf)
    try:
        rack = together(tuple(job.rack for job in jobs))
        work = make_operations(leaves, Context(jobs[0].unit, shop, choices, cutter, kerf, rack))
    except ValueError as error:  # a kerf wider than the cut
        raise Refusal(f"{error}: fit a thinner blade, or make the joint wider") from None
    done = frozenset(each.operation for each in request.done)
    work = _without_passes_too_late(work, done, request.known)
    framed = frame(work, shop, Shelf.of(request.reused, jobs[0].unit))
    index = {operation.id: n for n, operation in enumerate(work.operations)}
    return _Stages(real, leaves, work, framed, index)


def _as_it_cuts(choices: Choices, measured: Measured) -> Choices:
    """With the kerf of the dado set as measured, where slots are cut with one."""
    dado = choices.dado
    if dado is None:
        return choices
    return replace(choices, dado=replace(dado, kerf=measured.kerf.get(dado.name, dado.kerf)))


def _without_passes_too_late(work: Work, done: frozenset[str], known: frozenset[str]) -> Work:
    """Without the passes that a thinner kerf would add to what was cut and accepted with fewer,
    or where later cuts were made already. The proof tells whether they left a fin."""
    late = {edge.before for edge in work.edges if edge.after in done} - done
    begun = {operation.rpartition("/")[0] for operation in done}
    late |= {
        operation.id
        for operation in work.operations
        if _is_middle(operation.id)
        and operation.id not in known
        and operation.id.rpartition("/")[0] in begun
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


def _is_middle(operation: str) -> bool:
    """Whether it is a pass between two others, which a thicker kerf does not need."""
    return operation.rpartition("/")[2].startswith("middle")


def _as_done(
    done: Sequence[Done], stages: _Stages, shop: Shop, scale: Scale
) -> tuple[ordering.Placed, ...]:
    """What was done, in the words of the plan as it is now: a tested setting was accepted at what
    is wanted, whatever number that has now; any other stands at the number it was set to. A pass
    between two others overlaps both by more than it may be off."""
    placed: list[ordering.Placed] = []
    state: dict[str, str] = {}
    cutters = [cutter.name for cutter in shop.cutters]
    for each in done:
        number = stages.index.get(each.operation)
        middle = _is_middle(each.operation)
        if number is None and middle:
            continue
        if number is None:
            raise InternalError(
                f"what was measured leaves no place for {each.operation}, which is done already"
            )
        needs = stages.framed.problem.operations[number].alternatives[0].needs
        for knob, accepted in needs.items():
            was = each.state[knob]
            now = state[knob] = _now(was, accepted, cutters)
            if now == was or (knob not in each.untested and was.endswith(TESTED)):
                continue
            (_, stood), (_, wanted) = number_of(was, cutters), number_of(now, cutters)
            if stood is None or wanted is None:
                raise InternalError(f"{each.operation}: {knob} {was} has become {now}")
            near = fits.OVERLAP.of(scale.unit) if middle else fits.FIT_BAND.of(scale.unit) / 2
            if abs(stood - wanted) > near:
                raise Refusal(
                    f"{each.operation} was cut with the {knob} at {scale.length(stood)}, and by "
                    f"what was measured it should have been {scale.length(wanted)}: measure what "
                    "was cut, enter that reading at its own step, then this one again"
                )
        placed.append(ordering.Placed(number, 0, dict(state)))
    return tuple(placed)


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
    """One that was set but not yet tried out is only a number."""
    start: dict[str, str] = {}
    for knob, at in held.items():
        value = at.value
        if value.endswith(TESTED) and not at.passed:
            value = value.removesuffix(TESTED)
        elif value.endswith(TESTED):
            value = _now(value, needs.get(at.operation, {}).get(knob, (value,)), cutters)
        start[knob] = value
    return start


def _now(was: str, accepted: Sequence[str], cutters: Sequence[str]) -> str:
    """The accepted value that stands for what was set: itself, or the nearest."""
    if was in accepted:
        return was
    if len(accepted) == 1:
        return accepted[0]
    at = number_of(was, cutters)[1] or Fraction(0)
    return min(
        accepted,
        key=lambda value: (abs((number_of(value, cutters)[1] or Fraction(0)) - at), value),
    )


def _continued(
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


def _written(request: Request, stages: _Stages, order: ordering.Order) -> Plan:
    jobs, shop = request.jobs, request.shop
    laid_out = lay_out_steps(stages.work, stages.framed, order.steps, shop, jobs[0].unit)
    plan = record_plan(
        stages.real.jobs, shop, stages.leaves, stages.work, stages.framed, order, order.steps,
        laid_out, (), (),
    )  # fmt: skip
    found = safety.review(plan, shop)
    if found.refusals:
        raise safety.Unsafe(found.refusals)
    return replace(
        plan,
        setups=tuple(
            replace(setup, cautions=found.cautions.get(setup.number, ())) for setup in plan.setups
        ),
        standing=found.standing,
        warnings=tuple(ToTick(flag.tick, flag.setups, flag.caution) for flag in found.warnings),
        before_power=tuple(check.text for check in found.before_power),
        before_leaving=tuple(check.text for check in found.before_leaving),
    )
