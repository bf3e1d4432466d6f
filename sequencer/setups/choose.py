"""The choice of methods: every open combination a problem of its own, each bounded by the best so
far.

A combination that cannot win is not carried through. Its bound: what the joints of one door of
each kind cannot do without, and the rips and crosscuts, which are the same for all combinations.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from msgspec import Struct

from sequencer import ordering
from sequencer.errors import InternalError, Refusal
from sequencer.facts import Fact, claims
from sequencer.job.schema import Job
from sequencer.methods import QUESTIONS, Choices, answers
from sequencer.operations.precedence import graph
from sequencer.ordering.least import Dues, dues, least_minutes
from sequencer.plan import Compared, Method, Plan
from sequencer.records import replace
from sequencer.setups.given import Candidate, Given
from sequencer.setups.mixed import common, mixed_minutes, one_of_each_kind

STATES = ((100, 20_000), (130, 3_000))
"""How many states the search may look at in a problem of up to so many kinds of operation."""
MOST_STATES = max(states for _, states in STATES)
FEW_STATES = 300
"""For larger problems, some thirty unlike doors and up, where thousands of states more take seconds
and find nothing better; and for a first look at every rival that could win."""
_JOINTS, _FILLS = ("tenon-in-slot", "halves-flush"), ("panel-in-groove", "tongue-in-groove")
FITS: Mapping[str, tuple[str, ...]] = {"slot": _JOINTS, "slot_depth": _JOINTS, "groove": _FILLS}
"""The requirements that hang on the answer to a question; on the other questions no fit hangs."""
ZERO = Fraction(0)
RIVAL_STATES = 2_000
"""For the rival whose bound is least of all, for that is the bound of the plan."""


class Claim(Struct, frozen=True):
    """What may be said of a plan beside its order: the methods, what no order of any of them beats,
    what was compared, and what no `mixed` way beats, where there is one."""

    methods: tuple[Method, ...]
    bound: Fraction
    compared: tuple[Compared, ...]
    mixed: Fraction | None

    def made_of(self, plan: Plan) -> Plan:
        """The plan with the claim, and the bound of all that was compared. One with more test
        pieces than were compared is no better for them: whoever does without has the former
        bound."""
        found = plan.ordering
        bound = min(found.bound, self.bound)
        found = replace(
            found,
            bound=bound,
            proven=bound == found.minutes,
            compared=self.compared,
            left_out=(*found.left_out, *self._left_out(found.minutes)),
        )
        return replace(plan, methods=self.methods, ordering=found)

    def _left_out(self, minutes: Fraction) -> tuple[Fact, ...]:
        """What was not looked at, of a plan of so many minutes."""
        if self.mixed is None or self.mixed >= minutes:
            return ()
        return (claims.EACH_BY_ITS_OWN(could_save=minutes - self.mixed),)


class Contest:
    """The open combinations, made and ordered only as far as it takes to name the cheapest and to
    say what none of them can beat. In a `large` job, where making and ordering take their time,
    those with two and more other answers than the best are left to their bounds, which the plan's
    own then is no higher than."""

    def __init__(self, given: Given) -> None:
        self.given = given
        self.choices = given.open()
        self.kinds = tuple(one_of_each_kind(job) for job in given.jobs)
        self.made: dict[int, Candidate] = {0: given.carried(self.choices[0])}
        self.orders: dict[int, ordering.Order] = {}
        self.spent: dict[int, int] = {}
        self.bounds: dict[int, Fraction] = {}
        self.small: dict[tuple[Choices, str], Candidate] = {}
        self.relaxed: set[int] = set()
        self.refused: set[int] = set()
        self.impossible: set[int] = set()
        self.large = self._most(0) == FEW_STATES

    def cheapest(self) -> int | None:
        """The number of the cheapest combination that is not refused; of equals the first.

        Every one that is not proven dearer has been ordered, however briefly, but for the far ones
        of a large job.
        """
        while standing := self._standing():
            ordered = [n for n in standing if n in self.orders]
            if not ordered:
                self._order(standing[0], self._most(standing[0]))
                continue
            best = min(ordered, key=lambda n: (self.orders[n].minutes, n))
            rival = self._rival(best)
            if rival is not None:
                self._order(rival, FEW_STATES)
            elif self.spent[best] < self._most(best):
                self._order(best, self._most(best))
            else:
                least = min(ordered, key=lambda n: (self._bound(n), n != best, n))
                most = min(self._most(best), RIVAL_STATES)
                if self._bound(least) >= self.orders[best].minutes or self.spent[least] >= most:
                    return best
                self._order(least, most)
        return None

    def fitting_otherwise(self, best: int, fitting: Mapping[str, Fraction]) -> Iterator[int]:
        """Those that may take less than the best with the dry fit, which takes the best `fitting`
        minutes by requirement: each ordered, however briefly. What takes longer for an answer that
        no fit hangs on is none of them. None of a large job."""
        one, minutes = self.choices[best], self.orders[best].minutes
        for number in self._standing() if not self.large else ():
            other = self.choices[number]
            unlike = [name for name in QUESTIONS if getattr(one, name) != getattr(other, name)]
            if not unlike or not all(name in FITS for name in unlike):
                continue
            there = {what for name in unlike for what in FITS[name]}
            below = minutes + sum((fitting.get(what, ZERO) for what in there), ZERO)
            try:
                if self._raised(number, below) < below:
                    if number not in self.orders:
                        self._order(number, FEW_STATES)
                    if self.orders[number].minutes < below:
                        yield number
            except Refusal:
                self.impossible.add(number)

    def claim(self, chosen: int) -> Claim:
        """What may be said of the plan that takes the chosen combination."""
        standing = self._standing()
        bound = min(self._bound(n) for n in standing)
        told = answers(self.choices)
        compared = tuple(
            Compared(
                choices=told[n],
                minutes=self.orders[n].minutes if n in self.orders else None,
                bound=self._bound(n),
                refused=n in self.refused,
            )
            for n in sorted({*standing, *self.refused})
        )
        enough = self.orders[chosen].minutes
        mixed = mixed_minutes(self.given, self.kinds, self.made[0], self._joints, enough)
        return Claim(self.methods(chosen), bound, compared, mixed)

    def methods(self, chosen: int) -> tuple[Method, ...]:
        """Every open combination, with its minutes, or with what it takes at least."""
        found: list[Method] = []
        for number, said in enumerate(answers(self.choices)):
            order = self.orders.get(number)
            exact = order is not None and order.proven
            impossible = number in self.impossible
            found.append(
                Method(
                    choices=said,
                    minutes=self._common().minutes if impossible else self._bound(number),
                    exact=exact,
                    chosen=number == chosen,
                    refused=impossible or number in self.refused,
                )
            )
        return tuple(found)

    def candidate(self, number: int) -> Candidate:
        if number not in self.made:
            self.made[number] = self.given.carried(self.choices[number])
        return self.made[number]

    def _standing(self) -> list[int]:
        gone = self.refused | self.impossible
        return [number for number in range(len(self.choices)) if number not in gone]

    def _most(self, number: int) -> int:
        return states_for(self.candidate(number).problem)

    def _order(self, number: int, states: int) -> None:
        """Order a combination, or order it again with more states."""
        candidate = self.candidate(number)
        try:
            order = self.given.solve(candidate.problem, max_states=states)
        except InternalError:
            # If operations wait for each other, the graph says so with its own names.
            graph(candidate.work.operations, candidate.work.edges)
            raise
        # A search that no limit ended finds nothing more with more states.
        self.spent[number] = states if order.limit is not None else MOST_STATES
        former = self.orders.get(number, order)
        self.orders[number] = former if former.minutes < order.minutes else order
        bound = max(order.bound, self.bounds.get(number, order.bound))
        self.bounds[number] = bound
        if bound > self.orders[number].bound:
            minutes = self.orders[number].minutes
            self.orders[number] = replace(self.orders[number], bound=bound, proven=bound == minutes)

    def _rival(self, best: int) -> int | None:
        """The most promising of those that may beat the best and that were not ordered yet."""
        found: list[tuple[Fraction, int]] = []
        for number in self._standing():
            if number in self.orders or (self.large and not self._near(number, best)):
                continue
            try:
                enough = self.orders[best].minutes
                if self._raised(number, enough) < enough:
                    found.append((self._bound(number), number))
            except Refusal:
                self.impossible.add(number)
        return min(found)[1] if found else None

    def _near(self, number: int, best: int) -> bool:
        """Whether two combinations differ in one answer only."""
        one, other = self.choices[number], self.choices[best]
        return len([n for n in QUESTIONS if getattr(one, n) != getattr(other, n)]) <= 1

    def _raised(self, number: int, enough: Fraction) -> Fraction:
        """What a combination takes at least, looked at as a whole where its joints alone do not
        show that it takes `enough`."""
        if self._bound(number) < enough and number not in self.relaxed:
            self.relaxed.add(number)
            least = least_minutes(self.candidate(number).problem)
            self.bounds[number] = max(self.bounds[number], least)
        return self.bounds[number]

    def _bound(self, number: int) -> Fraction:
        if number not in self.bounds:
            # Where the groove is run changes no setting that it needs.
            alike = replace(self.choices[number], groove_on="stick")
            joints = self._joints(alike, self.kinds)
            rips = set(common(joints))
            own = [n for n in range(len(joints.work.operations)) if n not in rips]
            owed = dues(joints.problem, own)
            heights = {k: v for k, v in dues(joints.problem).settings.items() if k[0] == "height"}
            both = {**self._beside(owed.settings, joints), **owed.settings, **heights}
            self.bounds[number] = Dues(both, owed.own).minutes
        return self.bounds[number]

    def _beside(
        self, owed: Mapping[tuple[str, str], Fraction], joints: Candidate
    ) -> dict[tuple[str, str], Fraction]:
        """What rips and crosscuts owe beside what the joints do: no height, for which one serves
        depends on all others, and no number that a joint's setting has as well."""

        def number(key: tuple[str, str], of: Candidate) -> tuple[str, object]:
            value = of.framed.values.get(key)
            return key[0], key[1] if value is None else value.number

        taken = {number(key, joints) for key in owed}
        return {
            key: minutes
            for key, minutes in self._common().settings.items()
            if key[0] != "height" and number(key, self.made[0]) not in taken
        }

    def _joints(self, choices: Choices, jobs: tuple[Job, ...]) -> Candidate:
        """Some doors of the jobs, made once by each combination."""
        if jobs == self.given.jobs and choices in self.choices:
            return self.candidate(self.choices.index(choices))
        key = (choices, " ".join(mark for job in jobs for door in job.doors for mark in door.marks))
        if key not in self.small:
            self.small[key] = self.given.carried(choices, jobs)
        return self.small[key]

    def _common(self) -> Dues:
        usual = self.made[0]
        return dues(usual.problem, common(usual))


def states_for(problem: ordering.Problem) -> int:
    """States that the search may look at, by the problem's size."""
    kinds = {
        tuple((way.minutes, *way.needs.items()) for way in operation.alternatives)
        for operation in problem.operations
    }
    return next((states for most, states in STATES if len(kinds) <= most), FEW_STATES)
