"""What a sheet claims, tried on random jobs: every listed way ordered once more and for longer, and
doors cut each by methods of their own.

    python -m tests.benchmarks.claims [JOBS [SEED]]

Prints how many of the plans were proven, how far from their bounds the others are, and each claim
that an order beats: none may be. Exits 1 where one is.
"""

from __future__ import annotations

import argparse
import sys
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from random import Random
from unittest.mock import patch

from sequencer import ordering
from sequencer.errors import InputError, Refusal
from sequencer.facts import claims
from sequencer.job.schema import Door, Job
from sequencer.methods import Choices, answers
from sequencer.operations import Edge, Operation, Work
from sequencer.ordering.least import least_minutes
from sequencer.pipeline import plan
from sequencer.plan import Plan
from sequencer.records import replace
from sequencer.setups.given import Given
from sequencer.setups.needs import frame
from tests.setups.batches import families
from tests.stages import to_job, to_shop
from tests.test_hand_worked import FENCE_JIG

SHOPS = (
    "",
    FENCE_JIG,
    FENCE_JIG + '\n[saw]\ndado = true\n[[cutter]]\nname = "dado set"\nkind = "dado"\nkerf = "1/4"\n'
    'diameter = "8"\ngrind = "flat-top"\n',
)
STATES = 3_000
"""What an order is searched for that comes near to beating a claim; all others with a tenth."""
NEAR = Fraction(105, 100)
MIXTURES = 2
"""How many are tried of each job: each lot as it takes least by itself, and others at random."""


@dataclass(slots=True)
class Tried:
    """One job's plan held against orders found apart from it; `beaten` says which claims fell.
    `mixed` is the least found of mixtures, `unseen` what the sheet says they take at least."""

    made: Plan
    ways: int = 0
    beaten: list[str] = field(default_factory=list)
    mixed: Fraction | None = None

    @property
    def gap(self) -> Fraction:
        return self.made.ordering.minutes - self.made.ordering.bound

    @property
    def unseen(self) -> Fraction:
        """What the sheet says that no mixture beats."""
        found = self.made.ordering
        saved = [
            left.given["could_save"]
            for left in found.left_out
            if left.kind is claims.EACH_BY_ITS_OWN
        ]
        return found.minutes - Fraction(str(saved[0])) if saved else found.bound

    def refute(self, claim: str, said: Fraction, found: Fraction) -> None:
        if found < said:
            self.beaten.append(f"{claim}: {float(said):g} minutes, and {float(found):g} do")


def tried(text: str, shop: str, random: Random, states: int = STATES) -> Tried:
    """Raises `Refusal` or `InputError` where the job cannot be made in that shop."""
    job = to_job(text)
    given = Given((job,), to_shop(shop, job))
    with patch("sequencer.pipeline.prove", return_value=()):  # no claim hangs on the proof
        found = Tried(plan(given.jobs, given.shop))
    _ways(found, given, states)
    _mixtures(found, given, random, states)
    return found


def _ways(found: Tried, given: Given, states: int) -> None:
    """Every way that is listed as compared, ordered."""
    said = found.made.ordering
    open_ = given.open()
    by_answers = dict(zip(map(_key, answers(open_)), open_, strict=True))
    listed = {_key(method.choices): method for method in found.made.methods}
    assert listed.keys() == by_answers.keys()
    compared = {_key(each.choices): each for each in said.compared}
    assert compared.keys() >= {key for key, method in listed.items() if not method.refused}
    best = min(
        each.minutes for each in said.compared if each.minutes is not None and not each.refused
    )
    assert said.minutes >= best
    for key, each in compared.items():
        problem = given.carried(by_answers[key]).problem
        order = ordered(problem, states, said.bound if not each.refused else each.bound)
        found.ways += 1
        name = " ".join(f"{question}={answer}" for question, answer in key)
        found.refute(f"bound of {name}", each.bound, order.minutes)
        if each.minutes is not None:
            found.refute(f"its order's bound of {name}", order.bound, each.minutes)
        if listed[key].exact:
            assert each.minutes == each.bound == listed[key].minutes
        if not each.refused:
            found.refute(f"bound of the plan, by {name}", said.bound, order.minutes)


def ordered(problem: ordering.Problem, states: int, claim: Fraction) -> ordering.Order:
    """An order of the problem, searched for longer where it comes near the claim."""
    order = ordering.solve(problem, max_states=states // 10)
    if order.proven or order.minutes > NEAR * claim:
        return order
    return ordering.solve(problem, max_states=states)


def _key(choices: object) -> tuple[tuple[str, str], ...]:
    return tuple(sorted(dict(choices).items()))  # type: ignore[call-overload]


def _mixtures(found: Tried, given: Given, random: Random, states: int) -> None:
    """Doors cut each by methods of their own, in one order."""
    lots = list(_lots(given))
    for number in range(MIXTURES):
        if number:
            chosen = [(lot, random.choice(open_)) for lot, open_ in lots]
        else:
            chosen = [(lot, _cheapest(given, lot, open_)) for lot, open_ in lots]
        try:
            problem = mixture(given, chosen)
        except (Refusal, ValueError):  # ValueError: a kerf wider than the cut
            continue
        minutes = ordered(problem, states, found.unseen).minutes
        found.mixed = minutes if found.mixed is None else min(found.mixed, minutes)
        found.refute("what a mixture takes at least", found.unseen, minutes)


def _lots(given: Given) -> Iterator[tuple[Job, tuple[Choices, ...]]]:
    """The doors that the same methods are open for, with these."""
    found: dict[tuple[Choices, ...], list[Door]] = {}
    (job,) = given.jobs
    for door in job.doors:
        found.setdefault(given.open((replace(job, doors=(door,)),)), []).append(door)
    for open_, doors in found.items():
        yield replace(job, doors=tuple(doors)), open_


def _cheapest(given: Given, lot: Job, open_: Sequence[Choices]) -> Choices:
    """At a glance, and on the stick: where the groove is run changes no setting."""

    def glance(choices: Choices) -> Fraction:
        return least_minutes(given.carried(choices, (lot,)).problem)

    return min((choices for choices in open_ if choices.groove_on == "stick"), key=glance)


def mixture(given: Given, lots: Sequence[tuple[Job, Choices]]) -> ordering.Problem:
    """The doors of each lot by methods of their own, all in one problem. Each lot has sticks and
    test pieces of its own, which is more work than there need be."""
    works = [given.work(choices, (job,))[1] for job, choices in lots]
    named = [_named(work, f"{n}.") for n, work in enumerate(works)]
    together = replace(
        works[0],
        operations=tuple(operation for operations, _ in named for operation in operations),
        edges=tuple(edge for _, edges in named for edge in edges),
    )
    return frame(together, given.shop, given.jobs[0].unit).problem


def _named(work: Work, lot: str) -> tuple[list[Operation], list[Edge]]:
    operations = [
        replace(o, name=replace(o.name, mark=lot + o.name.mark), mark=lot + o.mark)
        for o in work.operations
    ]
    return operations, [Edge(lot + e.before, lot + e.after, e.reason) for e in work.edges]


def main(jobs: int, seed: int) -> int:
    done: list[Tried] = []
    refused = 0
    number = seed
    begun = time.monotonic()
    while len(done) < jobs:
        random = Random(number)
        text, shop = families(random.getrandbits(32)), random.choice(SHOPS)
        try:
            one = tried(text, shop, random)
        except (InputError, Refusal):
            refused += 1
        else:
            done.append(one)
            order = one.made.ordering
            found = (order.minutes, order.bound, one.unseen, one.mixed or 0)
            minutes, bound, unseen, mixed = (f"{float(each):g}" for each in found)
            print(
                f"job {number}: {len(one.made.doors)} doors, {one.ways} ways, {minutes} minutes, "
                f"bound {bound}, mixtures at least {unseen}, found {mixed}", flush=True,
            )  # fmt: skip
            for claim in one.beaten:
                print(f"  BEATEN {claim}", flush=True)
        number += 1
    print("\n" + summary(done, refused) + f"; {time.monotonic() - begun:.0f} s")
    return int(any(one.beaten for one in done))


def summary(done: Sequence[Tried], refused: int) -> str:
    gaps = [one.gap / one.made.ordering.minutes for one in done if not one.made.ordering.proven]
    mean, most = (sum(gaps) / len(gaps), max(gaps)) if gaps else (Fraction(0), Fraction(0))
    beaten = sum(len(one.beaten) for one in done)
    return (
        f"{len(done)} jobs ({refused} more refused), {sum(one.ways for one in done)} ways ordered: "
        f"{len(done) - len(gaps)} proven, {len(gaps)} bounded, above the bound by "
        f"{float(mean):.1%} on average and {float(most):.1%} at most; beaten: {beaten}"
    )


if __name__ == "__main__":
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.claims")
    parser.add_argument("jobs", type=int, nargs="?", default=20, help="(20)")
    parser.add_argument("seed", type=int, nargs="?", default=0, help="(0)")
    given_ = parser.parse_args()
    sys.exit(main(given_.jobs, given_.seed))
