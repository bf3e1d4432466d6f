"""The whole way from jobs to a plan, as one pure function. The stages, in order:

1. `doors`       jobs → leaves: parts with sizes, designed features and places
2. `operations`  leaves → operations, their settings, and what must come before what
3. `sequencing`  operations → an ordering problem
4. `ordering`    problem → the order of fewest minutes, proven or with its bound
5. `sequencing`  order → setups, steps, test cuts, guard changes
6. `safety`      plan → cautions in their setups, or a refusal
7. `stock`       plan, boards → rough list, and where each stick comes from
8. `proof`       plan → the line that says what was proven, or an error

Stages 1 to 4 run once for each combination of methods that is open, and for each value worth trying
of a dimension that the job leaves free (`freedom`); the cheapest goes on.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from functools import partial
from typing import TYPE_CHECKING

from sequencer import ordering, safety
from sequencer.errors import InternalError, Refusal
from sequencer.job.free import free_dimensions, with_values
from sequencer.job.schema import Job, Measured, Shop
from sequencer.job.shelf import Shelf
from sequencer.plan import Baseline, LeftOut, Plan, ToTick
from sequencer.proof import prove
from sequencer.sequencing.calm import calm
from sequencer.sequencing.choose import Candidate, Claim, Contest, Given
from sequencer.sequencing.mixed import least_at_any_value
from sequencer.sequencing.record import record_plan
from sequencer.sequencing.setups import lay_out_steps
from sequencer.stock import take_stock

if TYPE_CHECKING:
    from sequencer.freedom import Freedom


def plan(
    jobs: Sequence[Job],
    shop: Shop,
    measured: Measured | None = None,
    saved: Shelf | None = None,
    done: frozenset[str] = frozenset(),
    start: Mapping[str, str] | None = None,
    seconds: float | None = None,
) -> Plan:
    """Plan all jobs together. They are in one unit, the shop's lengths too.

    `done` operations are left out and `start` gives the knobs as they stand, so that a plan can be
    made again half-way; the rest of a plan cannot be proven by itself, and its caller proves it
    together with what is done. A dimension that a job leaves free gets the value that saves most;
    for making a plan again, `freedom.as_chosen` fixes it first. Raises `Refusal` where no method
    gives a plan that may be printed.
    """
    measured = measured or Measured()
    free = free_dimensions(jobs)
    if not free:
        given = _given(jobs, shop, measured, saved, done, start)
        return _first_safe(given, seconds)
    choosing = freedom(jobs, shop, measured, saved, seconds)
    refused: Refusal | None = None
    ranked = choosing.ranked(free)
    for tried in ranked:
        fixed = with_values(jobs, zip(free, tried.values, strict=True))
        try:
            made = plan(fixed, shop, measured, saved, done, start, seconds)
        except Refusal as error:
            refused = refused or error
            continue
        found = made.ordering
        others = LeftOut("other values", found.minutes - least_at_any_value(found))
        found = replace(found, left_out=(*found.left_out, others))
        return replace(made, free=choosing.chosen(free, tried), ordering=found)
    raise refused or Refusal("no value within the ranges that the job leaves free can be made")


def freedom(
    jobs: Sequence[Job],
    shop: Shop,
    measured: Measured | None = None,
    saved: Shelf | None = None,
    seconds: float | None = None,
) -> Freedom:
    """The batch with its dimensions to be varied, every value planned with every method."""
    given = _given(jobs, shop, measured or Measured(), saved)
    from sequencer.freedom import Freedom  # most jobs leave nothing free

    return Freedom(given, partial(ordering.solve, seconds=seconds))


def again(
    jobs: Sequence[Job],
    shop: Shop,
    marks: Sequence[str],
    methods: Mapping[str, str],
    measured: Measured | None = None,
    saved: Shelf | None = None,
    seconds: float | None = None,
) -> Plan:
    """Only the named parts, from blank to their last cut, by the `methods` that their mates were
    cut by, as `Method.choices` gives them. Raises `Refusal` as `plan` does."""
    given = replace(_given(jobs, shop, measured or Measured(), saved), only=frozenset(marks))
    candidate = given.carried(given.answered(methods))
    order = ordering.solve(candidate.framed.problem, seconds=seconds)
    return _finish(given, candidate, order, Claim(), seconds)


def _given(
    jobs: Sequence[Job],
    shop: Shop,
    measured: Measured,
    saved: Shelf | None = None,
    done: frozenset[str] = frozenset(),
    start: Mapping[str, str] | None = None,
) -> Given:
    shelf = None if saved is None else saved.trusting(measured.kerf)
    return Given(tuple(jobs), shop, measured, shelf, done, start or {})


def _first_safe(given: Given, seconds: float | None) -> Plan:
    """The cheapest combination that safety lets through; where none is, the refusals of the
    cheapest of all."""
    contest = Contest(given, partial(ordering.solve, seconds=seconds))
    refused: safety.Unsafe | None = None
    while (best := contest.cheapest()) is not None:
        try:
            order = contest.orders[best]
            return _finish(given, contest.candidate(best), order, contest.claim(best), seconds)
        except safety.Unsafe as unsafe:
            refused = refused or unsafe
            contest.refused.add(best)
    raise refused or InternalError("no combination of methods was planned")


def _finish(
    given: Given,
    candidate: Candidate,
    order: ordering.Order,
    claim: Claim,
    seconds: float | None,
) -> Plan:
    jobs, shop = given.jobs, given.shop
    work, problem = candidate.work, candidate.framed.problem
    steps = calm(problem, order.steps, work.ranks)
    cost = ordering.check.recompute(problem, steps)
    if cost.minutes > order.minutes or cost.minutes < order.bound:
        raise InternalError(f"rewriting the order changed it: {order.minutes} to {cost.minutes}")
    bound = order.bound if claim.bound is None else min(order.bound, claim.bound)
    order = replace(order, minutes=cost.minutes, bound=bound, proven=bound == cost.minutes)
    laid_out = lay_out_steps(work, candidate.framed, steps, shop, jobs[0].unit)
    if len(laid_out.setups) != cost.setups:
        raise InternalError(f"{len(laid_out.setups)} setups laid out, {cost.setups} in the order")
    baselines = (
        _baseline("door by door", problem, ordering.baselines.group_by_group(problem, work.doors)),
        _baseline("by kind of cut", problem, ordering.baselines.by_rank(problem, work.ranks)),
        _baseline(
            "cheapest next setting", problem, order.quick or ordering.baselines.greedy(problem)
        ),
        *_each_alone(given, seconds),
    )
    drawn_up = record_plan(
        jobs,
        shop,
        candidate.leaves,
        work,
        candidate.framed,
        order,
        steps,
        laid_out,
        baselines,
        claim.methods,
    )
    compared = replace(drawn_up.ordering, compared=claim.compared, left_out=claim.left_out)
    drawn_up = replace(drawn_up, ordering=compared)
    cautioned = _cautioned(drawn_up, shop)
    if given.only is None and not problem.done:
        cautioned = take_stock(cautioned, [job.rack for job in jobs])
    if problem.done or problem.start:
        return cautioned
    proven = prove(cautioned)
    if any(job.pieces for job in jobs):
        proven += " Assembly not proven: the pieces were drawn elsewhere; fit them together dry."
    return replace(cautioned, proven=proven)


def _cautioned(drawn_up: Plan, shop: Shop) -> Plan:
    """The plan with what the safety rules say of it. Raises `Unsafe` with all refusals."""
    found = safety.review(drawn_up, shop)
    if found.refusals:
        raise safety.Unsafe(found.refusals)
    return replace(
        drawn_up,
        setups=tuple(
            replace(setup, cautions=found.cautions.get(setup.number, ()))
            for setup in drawn_up.setups
        ),
        standing=found.standing,
        warnings=tuple(ToTick(flag.tick, flag.setups, flag.caution) for flag in found.warnings),
        before_power=tuple(check.text for check in found.before_power),
        before_leaving=tuple(check.text for check in found.before_leaving),
    )


def _baseline(name: str, problem: ordering.Problem, steps: Sequence[ordering.Placed]) -> Baseline:
    cost = ordering.check.recompute(problem, steps)
    return Baseline(name, cost.minutes, cost.setups)


def _each_alone(given: Given, seconds: float | None) -> tuple[Baseline, ...]:
    """What the jobs of a batch would take one after the other, each planned best by itself."""
    if len(given.jobs) == 1 or given.done:
        return ()
    minutes, setups = Fraction(0), 0
    for job in given.jobs:
        alone = Contest(replace(given, jobs=(job,)), partial(ordering.solve, seconds=seconds))
        best = alone.cheapest()
        if best is None:
            return ()
        problem = alone.candidate(best).framed.problem
        cost = ordering.check.recompute(problem, alone.orders[best].steps)
        minutes += cost.minutes
        setups += cost.setups
    return (Baseline("each job alone", minutes, setups),)
