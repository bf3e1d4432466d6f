"""A slip that changes a part is never passed over.

Whether it changes the part is for the point sampler to say, which is another saw altogether.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from itertools import chain

import pytest
from hypothesis import HealthCheck, Phase, given, settings

from sequencer.errors import InternalError, Refusal
from sequencer.facts import Fact, Value
from sequencer.job.schema import Job, Shop
from sequencer.plan import Plan
from sequencer.proof import prove
from sequencer.proof.assembly import assemble
from sequencer.proof.compare import saw_and_compare
from sequencer.proof.grain import grain_of
from tests.proof import hand, mutants, sampler
from tests.proof.plans import make_plan
from tests.strategies import jobs_and_shops


def caught(plan: Plan) -> Fact | None:
    """What the saw and the assembly say of a plan, the bookkeeping left out."""
    try:
        grain = grain_of(plan)
        assemble(plan, saw_and_compare(plan, grain), grain)
    except InternalError as error:
        (found,) = error.says
        assert isinstance(found, Fact)
        return found
    return None


def try_all(plan: Plan, made: Iterable[mutants.Mutant]) -> Counter[str]:
    """Counts by kind of slip: all, `changed`, `caught` of the changed, `there` of the caught: the
    altered step, or one of the altered setup, is among those named."""
    counts: Counter[str] = Counter()
    before = sampler.read(plan)
    for mutant in made:
        after = sampler.read(mutant.plan)
        changed = any(sampler.changed(before.get(p.mark), after.get(p.mark)) for p in plan.parts)
        error = caught(mutant.plan)
        counts["all"] += 1
        counts["caught though the same"] += error is not None and not changed
        if not changed:
            continue
        counts[mutant.what] += 1
        counts["changed"] += 1
        assert error is not None, f"{mutant.what}, step {mutant.step}, setup {mutant.setup}"
        assert error.id in ("proof.at-step", "proof.at-bench"), error
        counts["caught"] += 1
        steps = {error.given["step"], *_beside(error)}
        altered = {
            step.number
            for step in mutant.plan.steps
            if mutant.step == step.number or (mutant.setup and mutant.setup == step.setup)
        }
        counts["there"] += not steps.isdisjoint(altered)
    return counts


def _beside(error: Fact) -> Iterator[Value]:
    """The steps that are named beside the one that is blamed."""
    what = error.given["what"]
    assert isinstance(what, Fact)
    others = what.given.get("steps")
    for other in others if isinstance(others, tuple) else ():
        assert isinstance(other, Fact)
        yield other.given["step"]


def all_of(plan: Plan) -> Iterable[mutants.Mutant]:
    return chain(mutants.numbers(plan), mutants.cuts(plan))


def test_every_slip_in_the_hand_worked_plan_is_caught() -> None:
    plan = hand.make()
    counts = try_all(plan, all_of(plan))
    assert counts["caught"] == counts["changed"] > 150
    for kind in ("guide", "height", "kerf", "face", "end", "dropped"):
        assert counts[kind] > 0, kind
    # A cut left out leaves no trace of itself: what is named then is the cut next to it.
    assert counts["there"] > 0.6 * counts["caught"]


def test_every_swap_across_an_edge_is_caught() -> None:
    plan = hand.make()
    made = list(mutants.swaps(plan))
    assert len(made) > 20
    for mutant in made:
        with pytest.raises(InternalError, match=r"^(proof|book)\.at-(step|bench)\(step=\d+"):
            prove(mutant.plan)


def sample(most: int) -> list[Plan]:
    """Plans of random jobs and shops, the same ones every time."""
    found: list[Plan] = []

    @settings(
        max_examples=6 * most, database=None, derandomize=True, deadline=None,
        phases=[Phase.generate], suppress_health_check=list(HealthCheck),
    )  # fmt: skip
    @given(jobs_and_shops(most=1))
    def draw(asked: tuple[Job, Shop]) -> None:
        if len(found) < most:
            try:
                found.append(make_plan([asked[0]], asked[1]))
            except Refusal:
                return

    draw()
    assert len(found) == most
    return found


def test_slips_in_random_plans(large: bool) -> None:
    """All of them in twelve plans with --large, every fifteenth of two without."""
    total: Counter[str] = Counter()
    for plan in sample(12 if large else 2):
        prove(plan)
        made = list(all_of(plan))
        total += try_all(plan, made if large else made[::15])
        swapped = list(mutants.swaps(plan))
        for mutant in swapped if large else swapped[::15]:
            with pytest.raises(InternalError, match=r"^(proof|book)\.at-(step|bench)\(step=\d+"):
                prove(mutant.plan)
            total["swapped"] += 1
    assert total["caught"] == total["changed"] > 0
    print(dict(total))  # noqa: T201  # counts, shown with -s
