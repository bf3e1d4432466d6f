"""Random doors in random shops: every plan is proven, or refused with its reason; none crashes.

2,000 of them with --large, and there every twentieth by the real search.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings

from sequencer.contract import from_json, to_json
from sequencer.errors import Refusal
from sequencer.job.schema import Job, Shop
from sequencer.proof import prove
from sequencer.safety import Unsafe
from tests.proof.plans import make_plan
from tests.strategies import jobs_and_shops

MOST_REFUSED = Fraction(15, 100)


def test_random_doors_in_random_shops(large: bool) -> None:
    counts: Counter[str] = Counter()
    remedies: Counter[str] = Counter()

    @settings(max_examples=2000 if large else 80)
    @given(jobs_and_shops())
    def go(asked: tuple[Job, Shop]) -> None:
        job, shop = asked
        counts["all"] += 1
        try:
            plan = make_plan([job], shop, search=large and counts["all"] % 20 == 0)
        except Refusal as refusal:
            counts["refused"] += 1
            for rule in rules(refusal):
                counts[rule] += 1
            if large or counts["refused"] <= 3:
                remedies[remedy(job, shop)] += 1
            return
        counts["proven"] += 1
        assert plan.proven == prove(plan)
        if large or counts["proven"] % 10 == 0:
            assert from_json(to_json(plan)) == plan

    go()
    print(dict(counts), dict(remedies))  # noqa: T201  # counts, shown with -s
    assert counts["all"] == counts["proven"] + counts["refused"]
    assert counts["refused"] <= MOST_REFUSED * counts["all"]


def rules(refusal: Refusal) -> list[str]:
    """What refused: the rules of safety, or that the joint cannot be made."""
    if isinstance(refusal, Unsafe):
        return sorted({found.rule for found in refusal.refusals})
    return ["joint"]


def changes(job: Job, shop: Shop) -> Iterator[tuple[str, Job, Shop]]:
    """One thing changed at a time, the small before the large; each with its name."""
    unit = Fraction(1, 4) if job.unit == "in" else Fraction(6)
    yield "a clamp on the sled", job, replace(shop, sled=replace(shop.sled, clamp=True))
    doors = tuple(
        replace(
            door,
            joint=replace(door.joint, slot=None, offset=None),
            groove=replace(door.groove, width=None, offset=None),
            panel=replace(door.panel, thickness=None),
        )
        for door in job.doors
    )
    yield "slot and groove left to the program", replace(job, doors=doors), shop
    for n in range(1, 25):
        by = n * unit
        yield (
            "a jig that opens wider",
            job,
            replace(shop, jig=replace(shop.jig, opening=shop.jig.opening + by)),
        )
        yield (
            "more height of blade",
            job,
            replace(shop, saw=replace(shop.saw, max_height=shop.saw.max_height + by)),
        )
        yield "narrower stiles and rails", replace(
            job, doors=tuple(
                replace(
                    door,
                    hinge_stile=door.hinge_stile - by,
                    free_stile=door.free_stile - by,
                    top_rail=door.top_rail - by,
                    bottom_rail=door.bottom_rail - by,
                )
                for door in job.doors
            )
        ), shop  # fmt: skip
        yield "a larger opening", replace(
            job, doors=tuple(
                replace(door, opening=replace(
                    door.opening, width=door.opening.width + by, height=door.opening.height + by
                ))
                for door in job.doors
            )
        ), shop  # fmt: skip
        yield (
            "a sled for wider and longer stock",
            job,
            replace(
                shop,
                sled=replace(
                    shop.sled, widest=shop.sled.widest + 4 * by, longest=shop.sled.longest + 8 * by
                ),
            ),
        )


def remedy(job: Job, shop: Shop) -> str:
    """The smallest change that passes. There is one for every refusal."""
    for name, other, there in changes(job, shop):
        try:
            make_plan([other], there)
        except Refusal:
            continue
        return name
    pytest.fail(f"no change helps {job}, {shop}")
