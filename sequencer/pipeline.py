"""The whole way from jobs to a plan, as one graph of pure stages. What they are `Given` is all that
they know: jobs, shop and shelf, what was measured, what is done. In order:

1. `doors`       jobs → leaves: parts with sizes, designed features and places
2. `operations`  leaves → operations, their settings, and what must come before what
3. `setups`      operations → an ordering problem, less what is done already
4. `ordering`    problem → the order of fewest minutes, proven or with its bound
5. `setups`      order → setups, steps, test cuts, guard changes
6. `safety`      plan → cautions in their setups, or a refusal
7. `tolerance`   plan → what is left of every requirement with all readings inside their windows
8. `stock`       plan, boards → rough list, and where each stick comes from
9. `proof`       plan → what was shown of it, or an error

Who asks for what: `planned` compares methods and values. Stages 1 to 4 run for each combination of
methods that its bound lets hope to be the cheapest (`setups.choose`), and so again for each value
worth trying of a dimension that the job leaves free (`free_values`); the cheapest goes on, or one
that comes near it and of whose joints so many more go together at once that it takes less with the
dry fit. `cut_as` has its methods already:
those of the plan that a piece is made again from, or whose rest is planned again at the saw.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from msgspec import Struct

from sequencer import ordering, safety, tolerance
from sequencer.errors import InternalError, Refusal, Unsupported
from sequencer.facts import Fact, claims, proofs
from sequencer.facts import pipelines as told
from sequencer.job.free import free_dimensions, with_values
from sequencer.job.schema import Job, Shop
from sequencer.measured import Measured
from sequencer.methods import Choices
from sequencer.operations import Setting
from sequencer.plan import Baseline, Plan, ToTick
from sequencer.proof import prove
from sequencer.records import replace
from sequencer.saw.fittings import SPACER
from sequencer.setups.calm import calm
from sequencer.setups.choose import Contest, states_for
from sequencer.setups.given import Candidate, Given
from sequencer.setups.halfway import continued
from sequencer.setups.mixed import least_at_any_value
from sequencer.setups.needs import tested_knob
from sequencer.setups.record import record_plan
from sequencer.setups.set_by import told_how
from sequencer.setups.steps import lay_out_steps
from sequencer.shelf import Shelf
from sequencer.stock import take_stock
from sequencer.trade.fits import FITTING


def plan(
    jobs: Sequence[Job],
    shop: Shop,
    measured: Measured | None = None,
    saved: Shelf | None = None,
    seconds: float | None = None,
) -> Plan:
    """Plan all jobs together. They are in one unit, the shop's lengths too. Raises as `planned`."""
    return planned(Given.of(jobs, shop, measured, saved, seconds))


def planned(given: Given) -> Plan:
    """The plan of what is given, by the cheapest methods. A dimension that a job leaves free gets
    the value that saves most.

    Raises `Refusal` where no method gives a plan that may be printed.
    """
    free = free_dimensions(given.jobs)
    if not free:
        return _drawn_to_given(given)
    from sequencer.free_values import Freedom  # most jobs leave nothing free

    choosing = Freedom(given)
    refused: Refusal | None = None
    for tried in choosing.ranked(free):
        jobs = with_values(given.jobs, zip(free, tried.values, strict=True))
        try:
            made = _drawn_to_given(replace(given, jobs=jobs))
        except Refusal as error:
            refused = refused or error
            continue
        found = made.ordering
        others = claims.OTHER_VALUES(could_save=found.minutes - least_at_any_value(found))
        found = replace(found, left_out=(*found.left_out, others))
        chosen = (*choosing.chosen(free, tried), *made.free)
        return replace(made, free=chosen, ordering=found)
    raise refused or Refusal(told.NO_FREE_VALUE())


def _drawn_to_given(given: Given) -> Plan:
    """The plan, with slots that the jobs leave open as what worked before or blocks at hand give
    them, where that is better and not refused."""
    contest = Contest(given)
    if given.saved is not None or given.shop.tools.blocks:
        from sequencer.drawn import drawn

        others, chosen = drawn(contest)
        if chosen:
            try:
                return replace(_first_safe(Contest(others)), free=chosen)
            except Refusal:
                pass
    return _first_safe(contest)


def cut_as(given: Given, choices: Choices) -> Plan:
    """The plan of what is given, by these methods; nothing may be free any more.

    Half-way through, it is whole nonetheless, done cuts first as they were made, so that it can be
    reviewed and proven from end to end. Raises `Refusal` where what was measured makes the rest
    impossible, `InternalError` where it cannot be worked into what is done.
    """
    if choices.dado is not None:
        sets = {each.name: each for each in given.dados}
        choices = replace(choices, dado=sets.get(choices.dado.name))
    if choices not in given.open():
        raise Refusal(told.JOINT_OFF_CENTRE())
    candidate = given.carried(choices)
    return _finished(_drawn_up(given, candidate, given.solve(candidate.problem)))


def _first_safe(contest: Contest) -> Plan:
    """The cheapest combination that safety and the virtual saw let through, or one that fits so
    much better; where none is let through, why the cheapest of all is refused."""
    refused: Refusal | None = None
    while (best := contest.cheapest()) is not None:
        taken = best
        try:
            drawn = _drawn_of(contest, best)
            better = _fitting_better(contest, best, drawn)
            if better is not None:
                taken, drawn = better
            return _finished(replace(drawn, plan=contest.claim(taken).made_of(drawn.plan)))
        except safety.Unsafe as unsafe:
            refused = refused or unsafe
        except Unsupported as fault:
            refused = refused or Refusal(told.NOTHING_HELD(what=fault.says[0]))
        contest.refused.add(taken)
    raise refused or InternalError(told.NOTHING_PLANNED())


def _drawn_of(contest: Contest, number: int) -> _Drawn:
    """Of a combination that was ordered. Raises `Unsafe`."""
    return _drawn_up(contest.given, contest.candidate(number), contest.orders[number])


def _fitting_better(contest: Contest, best: int, drawn: _Drawn) -> tuple[int, _Drawn] | None:
    """A combination that takes more minutes of setting up than the best, `drawn`, and with what is
    to be expected at the dry fit fewer: the number and the plan of the one that takes the fewest;
    `None` where there is none."""
    fitting = _fitting(drawn.plan)
    quickest = drawn.plan.ordering.minutes
    least = quickest + _quarters(fitting)
    found: tuple[int, _Drawn] | None = None
    for number in contest.fitting_otherwise(best, fitting):
        try:
            other = _drawn_of(contest, number)
        except (safety.Unsafe, Unsupported):
            contest.refused.add(number)
            continue
        takes = _quarters(_fitting(other.plan))
        if other.plan.ordering.minutes + takes < least:
            least = other.plan.ordering.minutes + takes
            found = number, _told_why(other, quickest, _quarters(fitting) - takes)
    return found


def _told_why(drawn: _Drawn, quickest: Fraction, fitting: Fraction) -> _Drawn:
    """What a plan says that takes more minutes than the quickest, and less at the dry fit."""
    ordering = drawn.plan.ordering
    could_save = ordering.minutes - quickest
    if not could_save:
        return drawn
    why = claims.FITS_BETTER(could_save=could_save, fitting=fitting)
    ordering = replace(ordering, left_out=(*ordering.left_out, why))
    return replace(drawn, plan=replace(drawn.plan, ordering=ordering))


def _fitting(plan: Plan) -> Mapping[str, Fraction]:
    """By requirement, minutes that are to be expected at the dry fit for joints that do not go
    together at once."""
    found: dict[str, Fraction] = {}
    for each in plan.requirements:
        found[each.what] = found.get(each.what, Fraction(0)) + each.amiss * FITTING
    return found


def _quarters(fitting: Mapping[str, Fraction]) -> Fraction:
    """All of them together, in quarters."""
    return round(sum(fitting.values(), Fraction(0)) * 4) * Fraction(1, 4)


class _Drawn(Struct, frozen=True):
    """A plan that may be printed, with what it was drawn up from."""

    given: Given
    candidate: Candidate
    order: ordering.Order
    plan: Plan


def _drawn_up(given: Given, candidate: Candidate, order: ordering.Order) -> _Drawn:
    """The plan without what stands beside it only once it is printed. Raises `Unsafe`."""
    jobs, shop, past = given.jobs, given.shop, given.past
    order = _calmed(candidate, order, shop)
    framed = candidate.framed
    laid_out = lay_out_steps(candidate.work, framed, order.steps, shop, jobs[0].unit)
    if past is None:
        if laid_out.short:
            # An order that comes back to a setting tries it again, on wood that nothing was cut in.
            more = given.with_test_pieces(laid_out.short)
            again = more.carried(candidate.choices)
            found = given.solve(again.problem, states_for(again.problem))
            return _drawn_up(more, again, found)
        setups = ordering.check.recompute(framed.problem, order.steps).setups
        if len(laid_out.setups) != setups:
            count = len(laid_out.setups)
            raise InternalError(told.SETUPS_DIFFER(laid_out=count, ordered=setups))
    recorded = record_plan(given, candidate, order, laid_out)
    return _Drawn(given, candidate, order, tolerance.held(_cautioned(recorded, shop)))


def _finished(drawn: _Drawn) -> Plan:
    """The plan with what its aids and other orders take, its boards, and what was shown of it."""
    given, made, past = drawn.given, drawn.plan, drawn.given.past
    if made.aid_minutes:
        left_out = (*made.ordering.left_out, claims.AIDS(could_save=made.aid_minutes))
        made = replace(made, ordering=replace(made.ordering, left_out=left_out))
    if past is None:
        baselines = (*_baselines(drawn.candidate, drawn.order), *_each_alone(given))
        made = replace(made, ordering=replace(made.ordering, baselines=baselines))
    if given.only is None and past is None:
        made = take_stock(made, [job.rack for job in given.jobs])
    made = replace(made, setups=told_how(made))
    # What is made again by itself is not all that its job asks for.
    asked = given.jobs if given.only is None else ()
    proven = shown(made, asked, given.shop, frozenset() if past is None else past.made(made))
    if any(job.pieces for job in given.jobs):
        proven = (*proven, proofs.DRAWN_ELSEWHERE())
    return replace(made, proven=proven)


def shown(
    plan: Plan, jobs: Sequence[Job], shop: Shop, made: frozenset[tuple[int, str]] = frozenset()
) -> tuple[Fact, ...]:
    """What was shown of a finished plan before any of it is printed: it is proven, as its jobs
    asked, and says of its hazards what the rules say. Raises `InternalError` where it is not."""
    proven = prove(plan, made, jobs)
    safety.check_printed(plan, shop)
    return proven


def _tried(setting: Setting, shop: Shop) -> set[str]:
    """The knobs that a cut is tried for on scrap: with a block behind the piece, that as well."""
    knobs = {tested_knob(test, setting, shop) for test in setting.tests}
    return knobs | ({SPACER} if any(test.knob == "guide" for test in setting.tests) else set())


def _calmed(candidate: Candidate, order: ordering.Order, shop: Shop) -> ordering.Order:
    """The order without needless moves, behind what is done already."""
    problem, placed = candidate.problem, candidate.placed
    tried = {
        n: _tried(operation.setting, shop)
        for n, operation in enumerate(candidate.work.operations)
        if operation.setting is not None
    }
    steps = calm(problem, order.steps, candidate.work.ranks, tried)
    cost = ordering.check.recompute(problem, steps)
    if cost.minutes > order.minutes or cost.minutes < order.bound:
        raise InternalError(told.CALM_DIFFERS(before=order.minutes, after=cost.minutes))
    if problem is candidate.framed.problem:
        return replace(order, steps=tuple(steps), minutes=cost.minutes)
    whole = candidate.framed.problem
    steps = (*placed, *continued(steps, placed, whole))
    cost = ordering.check.recompute(whole, steps)
    bound = cost.minutes - (order.minutes - order.bound)
    return ordering.Order(steps, cost.minutes, bound, False, cost.tie, "half-way")


def _cautioned(drawn_up: Plan, shop: Shop) -> Plan:
    """The plan with hold and waste of every cut, and with what the safety rules say of it. Raises
    `Unsafe` with all refusals."""
    drawn_up = safety.handled(drawn_up, shop)
    found = safety.review(drawn_up, shop)
    if found.refusals:
        raise safety.Unsafe(found.refusals)
    return replace(
        drawn_up,
        aids=found.aids,
        setups=tuple(
            replace(setup, cautions=found.cautions.get(setup.number, ()))
            for setup in drawn_up.setups
        ),
        steps=tuple(
            replace(step, cautions=found.at_bench.get(step.kind, ())) for step in drawn_up.steps
        ),
        standing=found.standing,
        warnings=tuple(ToTick(flag.tick, flag.setups, flag.caution) for flag in found.warnings),
        before_power=found.before_power,
        before_leaving=found.before_leaving,
    )


def _baselines(candidate: Candidate, order: ordering.Order) -> tuple[Baseline, ...]:
    """What the ways that come to mind first would take."""
    work, problem = candidate.work, candidate.problem
    ways = ordering.baselines
    return (
        _baseline("door-by-door", problem, ways.group_by_group(problem, work.doors)),
        _baseline("by-kind-of-cut", problem, ways.by_rank(problem, work.ranks)),
        _baseline("cheapest-next", problem, order.quick or ways.greedy(problem)),
    )


def _baseline(name: str, problem: ordering.Problem, steps: Sequence[ordering.Placed]) -> Baseline:
    cost = ordering.check.recompute(problem, steps)
    return Baseline(name, cost.minutes, cost.setups)


def _each_alone(given: Given) -> tuple[Baseline, ...]:
    """What the jobs of a batch would take one after the other, each planned best by itself."""
    if len(given.jobs) == 1:
        return ()
    minutes, setups = Fraction(0), 0
    for job in given.jobs:
        alone = Contest(given.for_job(job))
        best = alone.cheapest()
        if best is None:
            return ()
        problem = alone.candidate(best).problem
        cost = ordering.check.recompute(problem, alone.orders[best].steps)
        minutes += cost.minutes
        setups += cost.setups
    return (Baseline("each-job-alone", minutes, setups),)
