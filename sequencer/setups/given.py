"""What a plan is made from, and the stages that lead from it to an ordering problem.

One frozen input, whatever is asked: a plan, pieces made again, the rest of a plan that is half
done, a change that might save setups. Each stage is a pure function of it and of the methods.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction

from msgspec import Struct, field

from sequencer import ordering
from sequencer.doors import Leaf, make_leaves, open_choices
from sequencer.errors import Refusal
from sequencer.facts import methods, sequences
from sequencer.job.free import free_dimensions, open_slots, place_of, with_values
from sequencer.job.rack import together
from sequencer.job.schema import Cutter, Job, Shop
from sequencer.measured import Measured
from sequencer.methods import Choices, Marks
from sequencer.operations import Context, Work, make_operations
from sequencer.operations.filling import Stock, TestRole
from sequencer.plan import Plan
from sequencer.records import replace
from sequencer.setups.halfway import Past
from sequencer.setups.needs import Framed, frame
from sequencer.shelf import Shelf


class Candidate(Struct, frozen=True):
    """One combination of methods, carried through to the ordering problem of what is left to do;
    `placed` is what is done already."""

    choices: Choices
    leaves: tuple[Leaf, ...]
    work: Work
    framed: Framed
    problem: ordering.Problem
    placed: tuple[ordering.Placed, ...] = ()


class Given(Struct, frozen=True):
    """Everything that a plan is made from, but the methods. `measured` stands for what the jobs and
    the shop say of the same; `saved` is what worked before."""

    jobs: tuple[Job, ...]
    shop: Shop
    measured: Measured = field(default_factory=Measured)
    saved: Shelf | None = None
    only: frozenset[str] | None = None
    """The marks of the parts to be made, where that is not all of them."""
    past: Past | None = None
    """What is done of it already."""
    seconds: float | None = None
    """The longest that one order is searched for."""
    more: Mapping[str, int] = field(default_factory=dict)
    """How many further test pieces are wanted beside one, by its mark."""

    @staticmethod
    def of(
        jobs: Sequence[Job],
        shop: Shop,
        measured: Measured | None = None,
        saved: Shelf | None = None,
        seconds: float | None = None,
    ) -> Given:
        """Jobs to be planned from nothing: of a cutter whose kerf was `measured`, no saved setting
        is doubted."""
        known = measured or Measured()
        shelf = None if saved is None else saved.trusting(known.kerf)
        return Given(tuple(jobs), shop, known, shelf, seconds=seconds)

    @property
    def cutter(self) -> Cutter:
        """The blade that does everything, its kerf as measured."""
        return self.measured.of(self.shop.joinery_blade)

    @property
    def dados(self) -> tuple[Cutter, ...]:
        """The dado sets, where the saw may take one; their kerfs as measured."""
        sets = (self.measured.of(each) for each in self.shop.cutters if each.kind == "dado")
        return tuple(sets) if self.shop.saw.dado else ()

    @property
    def deepest(self) -> Fraction:
        """The deepest slot that can be cut on end."""
        return self.shop.saw.max_height - self.shop.jig.deck

    def open(self, jobs: Sequence[Job] | None = None) -> tuple[Choices, ...]:
        """The combinations that are open for the jobs, or for others in their place."""
        kerf, marks = self.cutter.kerf, Marks.of(self.shop)
        return open_choices(jobs or self.jobs, kerf, self.measured, self.deepest, self.dados, marks)

    def answered(self, given: Mapping[str, str]) -> Choices:
        """The open combination that gives these answers; the questions that are not among them had
        one answer only. Raises `Refusal` where it is not open any more."""
        for choices in self.open():
            if all(answer in choices.names(question) for question, answer in given.items()):
                return choices
        was = (methods.ANSWERED(question=name, answer=answer) for name, answer in given.items())
        raise Refusal(sequences.NOT_AS_IT_WAS(answers=tuple(was)))

    def carried(self, choices: Choices, jobs: Sequence[Job] | None = None) -> Candidate:
        """The jobs, or others in their place, cut by these methods."""
        return self._framed(choices, *self.work(choices, jobs))

    def with_spares(self, choices: Choices, marks: Sequence[str]) -> Candidate:
        """The same with a second piece of each of some parts, its mark with a + behind."""
        leaves, _ = self.work(choices)
        twins = [leaf.twin() for leaf in leaves if any(p.mark in marks for p in leaf.parts)]
        only = frozenset(part.mark for leaf in leaves for part in leaf.parts)
        only |= {f"{mark}+" for mark in marks}
        work = make_operations((*leaves, *twins), self._context(choices), only)
        return self._framed(choices, leaves, work)

    def work(
        self, choices: Choices, jobs: Sequence[Job] | None = None
    ) -> tuple[tuple[Leaf, ...], Work]:
        kerf = self.cutter.kerf
        leaves = make_leaves(jobs or self.jobs, kerf, self.measured, choices, self.deepest)
        work = make_operations(leaves, self._context(choices), self.only)
        if self.more:
            counts = Counter[tuple[Stock, TestRole]]()
            for scrap, count in self.more.items():
                counts[work.layout.role(scrap)] += count
            work = make_operations(leaves, self._context(choices), self.only, counts)
        return leaves, work if self.past is None else self.past.without_late(work)

    def for_job(self, job: Job) -> Given:
        """One of the jobs by itself. How many test pieces it wants is for its own order to say."""
        return replace(self, jobs=(job,), more={})

    def for_pieces(self, marks: Iterable[str]) -> Given:
        """These pieces alone; their test pieces, likewise."""
        return replace(self, only=frozenset(marks), more={})

    def with_test_pieces(self, short: Mapping[str, int]) -> Given:
        """The same with so many more of the test pieces with these marks. They come off at a stop
        that is set anyway."""
        return replace(self, more=Counter(self.more) + Counter(short))

    def solve(self, problem: ordering.Problem, max_states: int | None = None) -> ordering.Order:
        """The order of fewest minutes."""
        limits = {} if max_states is None else {"max_states": max_states}
        return ordering.solve(problem, seconds=self.seconds, **limits)

    def as_in(self, plan: Plan) -> tuple[Given, Choices]:
        """The same with the values that a plan of it took where the jobs leave them free, and the
        methods of that plan. Raises `Refusal` where they are not open any more."""
        values = {(each.key, each.place): each.value for each in plan.free}
        dimensions = (*free_dimensions(self.jobs), *open_slots(self.jobs))
        free = [(d, values.get((d.key, place_of(d)))) for d in dimensions]
        jobs = with_values(self.jobs, [(d, value) for d, value in free if value is not None])
        given = replace(self, jobs=tuple(jobs))
        choices = given.answered(plan.answers)
        spares = given.work(choices)[1].layout.spares
        # Of a batch these may be some of the jobs: their stock need not be all that was tried.
        wanted = {
            scrap: len(marks) - len(spares[scrap])
            for scrap, marks in plan.spares.items()
            if scrap in spares
        }
        return replace(given, more={scrap: n for scrap, n in wanted.items() if n > 0}), choices

    def _framed(self, choices: Choices, leaves: tuple[Leaf, ...], work: Work) -> Candidate:
        block = self.past.block if self.past is not None else ""
        framed = frame(work, self.shop, self.jobs[0].unit, self.saved, block)
        if self.past is None:
            return Candidate(choices, leaves, work, framed, framed.problem)
        placed = self.past.placed(framed.problem, self.shop, self.jobs[0].unit)
        rest = replace(
            framed.problem,
            start=self.past.start(framed.problem, self.shop),
            done=frozenset(step.operation for step in placed),
        )
        return Candidate(choices, leaves, work, framed, rest, placed)

    def _context(self, choices: Choices) -> Context:
        cutter = self.cutter
        rack = together(tuple(job.rack for job in self.jobs))
        glued = None if self.past is None else self.past.glued
        return Context(self.jobs[0].unit, self.shop, choices, cutter, cutter.kerf, rack, glued)
