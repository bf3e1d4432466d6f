"""The whole way from jobs to a plan, as one pure function. The stages, in order:

1. `doors`       jobs → leaves: parts with sizes, designed features and places
2. `operations`  leaves → operations, their settings, and what must come before what
3. `sequencing`  operations → an ordering problem
4. `ordering`    problem → the order of fewest minutes, proven or with its bound
5. `sequencing`  order → setups, steps, test cuts, guard changes
6. `safety`      plan → cautions in their setups, or a refusal
7. `proof`       plan → the line that says what was proven, or an error

Stages 1 to 4 run once for each combination of methods that is open; the cheapest goes on.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from sequencer import ordering, safety
from sequencer.doors import Leaf, make_leaves, open_choices
from sequencer.errors import InternalError, Refusal
from sequencer.job.schema import Cutter, Job, Measured, Shop
from sequencer.job.shelf import Shelf
from sequencer.methods import QUESTIONS, Choices
from sequencer.operations import Context, Work, make_operations
from sequencer.ordering.least import least_minutes
from sequencer.plan import Baseline, Method, Plan, ToTick
from sequencer.proof import prove
from sequencer.sequencing.calm import calm
from sequencer.sequencing.needs import Framed, frame
from sequencer.sequencing.record import record_plan
from sequencer.sequencing.setups import lay_out_steps


@dataclass(frozen=True, slots=True)
class _Candidate:
    """One combination of methods, carried through to its ordering problem."""

    choices: Choices
    leaves: tuple[Leaf, ...]
    work: Work
    framed: Framed


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
    together with what is done. Raises `Refusal` where no method gives a plan that may be printed.
    """
    measured = measured or Measured()
    saved = None if saved is None else saved.trusting(measured.kerf)
    cutter = joinery_cutter(shop, measured)
    candidates: list[_Candidate] = []
    deepest = shop.saw.max_height - shop.jig.deck
    for choices in open_choices(jobs, cutter.kerf, measured, deepest):
        leaves = make_leaves(jobs, cutter.kerf, measured, choices, deepest)
        context = Context(jobs[0].unit, shop, choices, cutter, cutter.kerf)
        work = make_operations(leaves, context)
        candidates.append(_Candidate(choices, leaves, work, frame(work, shop, saved, start, done)))
    return _first_safe(jobs, shop, candidates, seconds)


def joinery_cutter(shop: Shop, measured: Measured) -> Cutter:
    """The blade that does everything: flat-top teeth where there are any, for square corners."""
    blades = [cutter for cutter in shop.cutters if cutter.kind == "blade"]
    if not blades:
        raise Refusal('the shop file names no blade: add a [[cutter]] of kind = "blade"')
    chosen = next((blade for blade in blades if blade.grind == "flat-top"), blades[0])
    return replace(chosen, kerf=measured.kerf.get(chosen.name, chosen.kerf))


def _first_safe(
    jobs: Sequence[Job], shop: Shop, candidates: Sequence[_Candidate], seconds: float | None
) -> Plan:
    """The cheapest combination that safety lets through; where none is, the refusals of the
    cheapest of all."""
    orders: dict[int, ordering.Order] = {}
    refused: dict[int, safety.Unsafe] = {}
    while len(refused) < len(candidates):
        best, methods = _cheapest(candidates, orders, frozenset(refused), seconds)
        try:
            return _finish(jobs, shop, candidates[best], orders[best], methods)
        except safety.Unsafe as unsafe:
            refused[best] = unsafe
    raise next(iter(refused.values()), InternalError("no combination of methods was planned"))


def _cheapest(
    candidates: Sequence[_Candidate],
    orders: dict[int, ordering.Order],
    refused: frozenset[int],
    seconds: float | None,
) -> tuple[int, tuple[Method, ...]]:
    """Order the combinations that are not `refused`, each bounded by the best so far; of equals
    the first stays. `orders` keeps what was found."""
    best: int | None = None
    found: list[tuple[Fraction, bool]] = []
    for number, candidate in enumerate(candidates):
        least = least_minutes(candidate.framed.problem)
        beaten = best is not None and least >= orders[best].minutes
        if number not in orders and (beaten or number in refused):
            found.append((least, False))
            continue
        if number not in orders:
            orders[number] = ordering.solve(candidate.framed.problem, seconds=seconds)
        order = orders[number]
        found.append((order.minutes, order.proven))
        if number not in refused and (best is None or order.minutes < orders[best].minutes):
            best = number
    if best is None:
        raise InternalError("no combination of methods was planned")
    answers = {name: {getattr(c.choices, name) for c in candidates} for name in QUESTIONS}
    open_names = [name for name in QUESTIONS if len(answers[name]) > 1]
    methods = tuple(
        Method(
            choices={name: getattr(candidate.choices, name) for name in open_names},
            minutes=minutes,
            exact=exact,
            chosen=number == best,
            refused=number in refused,
        )
        for number, (candidate, (minutes, exact)) in enumerate(zip(candidates, found, strict=True))
    )
    return best, methods


def _finish(
    jobs: Sequence[Job],
    shop: Shop,
    candidate: _Candidate,
    order: ordering.Order,
    methods: tuple[Method, ...],
) -> Plan:
    work, problem = candidate.work, candidate.framed.problem
    steps = calm(problem, order.steps, work.ranks)
    cost = ordering.check.recompute(problem, steps)
    if cost.minutes > order.minutes or cost.minutes < order.bound:
        raise InternalError(f"rewriting the order changed it: {order.minutes} to {cost.minutes}")
    order = replace(order, minutes=cost.minutes)
    laid_out = lay_out_steps(work, candidate.framed, steps, shop, jobs[0].unit)
    if len(laid_out.setups) != cost.setups:
        raise InternalError(f"{len(laid_out.setups)} setups laid out, {cost.setups} in the order")
    baselines = (
        _baseline("door by door", problem, ordering.baselines.group_by_group(problem, work.doors)),
        _baseline("by kind of cut", problem, ordering.baselines.by_rank(problem, work.ranks)),
        _baseline("cheapest next setting", problem, ordering.baselines.greedy(problem)),
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
        methods,
    )
    cautioned = _cautioned(drawn_up, shop)
    if problem.done or problem.start:
        return cautioned
    return replace(cautioned, proven=prove(cautioned))


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
