"""The choice of methods: every open combination a problem of its own, each bounded by the best so
far.

A combination that cannot win is not carried through. Its bound: what the joints of one door of
each kind cannot do without, and the rips and crosscuts, which are the same for all combinations.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from sequencer import ordering
from sequencer.errors import InternalError
from sequencer.job.schema import Door, Job, Opening
from sequencer.methods import QUESTIONS, Choices
from sequencer.operations.precedence import graph
from sequencer.ordering.least import Dues, dues, least_minutes
from sequencer.plan import Method
from sequencer.sequencing.given import Candidate, Given

_COMMON = ("rip", "square", "crosscut")


SHORTLIST = 3
STATES = ((100, 20_000), (130, 3_000))
"""How many states the search may look at in a problem of up to so many kinds of operation."""
FEW_STATES = 300
"""For larger problems, some thirty unlike doors and up, where thousands of states more take seconds
and find nothing better; and for rivals of a best that is not proven."""
RIVAL_STATES = 2_000
"""For rivals of a best that is proven."""


class Contest:
    """The open combinations, made and ordered only as far as it takes to name the cheapest."""

    def __init__(self, given: Given) -> None:
        self.given = given
        self.choices = given.open()
        self.kinds = tuple(_one_of_each_kind(job) for job in given.jobs)
        self.made: dict[int, Candidate] = {0: given.carried(self.choices[0])}
        self.orders: dict[int, ordering.Order] = {}
        self.bounds: dict[int, Fraction] = {}
        self.owed: dict[Choices, Fraction] = {}
        self.refused: set[int] = set()
        self.large = states_for(self.made[0].problem) == FEW_STATES

    def cheapest(self) -> int | None:
        """The number of the cheapest combination that is not refused; of equals the first."""
        best: int | None = None
        for number in range(len(self.choices)):
            if number in self.refused:
                continue
            if best is not None and self._beaten(number, best):
                continue
            order = self._ordered(number)
            if best is None or order.minutes < self.orders[best].minutes:
                best = number
        return best

    def methods(self, chosen: int) -> tuple[Method, ...]:
        """What was compared, and by how much it lost: exactly, or at least."""
        answers = {name: {getattr(c, name) for c in self.choices} for name in QUESTIONS}
        names = [name for name in QUESTIONS if len(answers[name]) > 1]
        found: list[Method] = []
        for number, choices in enumerate(self.choices):
            order = self.orders.get(number)
            found.append(
                Method(
                    choices={name: getattr(choices, name) for name in names},
                    minutes=self._least(number) if order is None else order.minutes,
                    exact=order is not None and order.proven,
                    chosen=number == chosen,
                    refused=number in self.refused,
                )
            )
        return tuple(found)

    def _least(self, number: int) -> Fraction:
        if self.large and number not in self.bounds:
            return self._common().minutes
        return self._bound(number)

    def candidate(self, number: int) -> Candidate:
        if number not in self.made:
            self.made[number] = self.given.carried(self.choices[number])
        return self.made[number]

    def _ordered(self, number: int) -> ordering.Order:
        if number not in self.orders:
            candidate = self.candidate(number)
            states = states_for(candidate.problem)
            if self.orders:
                proven = all(order.proven for order in self.orders.values())
                states = min(states, RIVAL_STATES if proven else FEW_STATES)
            try:
                self.orders[number] = self.given.solve(candidate.problem, max_states=states)
            except InternalError:
                # If operations wait for each other, the graph says so with its own names.
                graph(candidate.work.operations, candidate.work.edges)
                raise
        return self.orders[number]

    def _beaten(self, number: int, best: int) -> bool:
        """Whether it is not worth ordering. Against a best that is proven, only where it cannot
        win; in a job so large that the search is cut short, where each order takes its time,
        unless it is among the few that look better than the best at a glance."""
        minutes = self.orders[best].minutes
        if number in self.orders:
            return self.orders[number].minutes >= minutes
        if not self.orders[best].proven:
            return number not in self._shortlist(best)
        if self._bound(number) < minutes:
            problem = self.candidate(number).problem
            self.bounds[number] = max(self.bounds[number], least_minutes(problem))
            if self.bounds[number] < minutes:
                self.bounds[number] = ordering.bound(problem, minutes, max_states=RIVAL_STATES)
        return self.bounds[number] >= minutes

    def _shortlist(self, best: int) -> list[int]:
        """Equal at a glance, the more usual one wins: it has fewer settings that glances miss. In
        a large job, where each glance takes its time, only at those with one other answer."""
        rivals = [n for n in range(len(self.choices)) if not self.large or self._near(n, best)]
        rivals = [n for n in rivals if self._bound(n) < self._bound(best)]
        return sorted(rivals, key=lambda n: (self._bound(n), n))[:SHORTLIST]

    def _near(self, number: int, best: int) -> bool:
        one, other = self.choices[number], self.choices[best]
        return len([n for n in QUESTIONS if getattr(one, n) != getattr(other, n)]) == 1

    def _bound(self, number: int) -> Fraction:
        if number not in self.bounds:
            # Where the groove is run changes no setting that it needs.
            alike = replace(self.choices[number], groove_on="stick")
            if alike not in self.owed:
                at = self.choices.index(alike)
                whole = at in self.made or self.kinds == self.given.jobs
                joints = self.candidate(at) if whole else self.given.carried(alike, self.kinds)
                own = [n for n, o in enumerate(joints.work.operations) if o.kind not in _COMMON]
                owed = dues(joints.problem, own)
                both = {**self._common().settings, **owed.settings}
                self.owed[alike] = Dues(both, owed.own).minutes
            self.bounds[number] = self.owed[alike]
        return self.bounds[number]

    def _common(self) -> Dues:
        usual = self.made[0]
        rips = [n for n, o in enumerate(usual.work.operations) if o.kind in _COMMON]
        return dues(usual.problem, rips)


def states_for(problem: ordering.Problem) -> int:
    """States that the search may look at, by the problem's size."""
    kinds = {
        tuple((way.minutes, *way.needs.items()) for way in operation.alternatives)
        for operation in problem.operations
    }
    return next((states for most, states in STATES if len(kinds) <= most), FEW_STATES)


def _one_of_each_kind(job: Job) -> Job:
    """The job with one door for each kind of joint: those that differ in size alone are alike."""
    kinds: dict[Door, int] = {}
    for number, door in enumerate(job.doors):
        nothing = Opening(Fraction(0), Fraction(0))
        kind = replace(
            door, opening=nothing, marks=("",) * door.leaves, name="", where="", places={}
        )
        kinds.setdefault(kind, number)
    return replace(job, doors=tuple(job.doors[number] for number in kinds.values()))
