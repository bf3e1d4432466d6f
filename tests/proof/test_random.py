"""Random doors in random shops: every plan is proven, or refused with its reason; none crashes.

2,000 of them with --large, and there every twentieth by the real search.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction

import pytest
from hypothesis import Phase, assume, given, settings
from hypothesis import strategies as st

from sequencer.contract import from_json, to_json
from sequencer.errors import Fault, InputError, Refusal
from sequencer.job.schema import Job, Opening, Shop
from sequencer.job.validate import against_shop, check
from sequencer.plan import Plan
from sequencer.proof import prove
from sequencer.records import replace
from sequencer.safety import Unsafe
from tests.proof.plans import make_plan
from tests.strategies import jobs_and_shops, measurements

MOST_REFUSED = Fraction(15, 100)


def test_random_doors_in_random_shops(large: bool) -> None:
    counts: Counter[str] = Counter()
    refused: list[tuple[Job, Shop]] = []

    # Shrinking takes minutes here, and the example is small as it is.
    # Files are checked by the hundred, for a share that means something; one in seven is planned.
    @settings(max_examples=2000 if large else 280, phases=[Phase.explicit, Phase.generate])
    @given(jobs_and_shops())
    def go(asked: tuple[Job, Shop]) -> None:
        job, shop = asked
        counts["all"] += 1
        if not large and counts["all"] % 7 and not faults(job, shop):
            counts["checked"] += 1
            return
        try:
            plan = planned(job, shop, search=large and counts["all"] % 20 == 0)
        except (InputError, Refusal) as error:
            counts["refused"] += 1
            counts["unplanned"] += isinstance(error, Refusal)
            for rule in rules(error):
                counts[rule] += 1
            refused.append(asked)
            return
        counts["proven"] += 1
        # It was proven when it was made.
        if large or counts["proven"] % 10 == 0:
            assert plan.proven == prove(plan)
            assert from_json(to_json(plan)) == plan

    go()
    print(dict(counts))  # noqa: T201  # counts, shown with -s
    remedies = Counter(remedy(job, shop) for job, shop in refused[: None if large else 3])
    print(dict(remedies))  # noqa: T201
    assert counts["all"] == counts["proven"] + counts["refused"] + counts["checked"]
    by_file = Fraction(counts["refused"] - counts["unplanned"], counts["all"])
    by_plan = Fraction(counts["unplanned"], counts["proven"] + counts["unplanned"])
    assert by_file + by_plan <= MOST_REFUSED


def planned(job: Job, shop: Shop, *, search: bool = False) -> Plan:
    """As from files: a job that the shop cannot cut does not come to be planned."""
    if found := faults(job, shop):
        raise InputError(found)
    return make_plan([job], shop, search=search)


def faults(job: Job, shop: Shop) -> tuple[Fault, ...]:
    """What a check of the files would say."""
    found = tuple(fault for door in job.doors for fault in check(door, job.unit))
    return found or tuple(against_shop(job, shop))


@given(st.data())
@settings(max_examples=10)
def test_plans_made_again_with_measured_kerf_and_stock(data: st.DataObject) -> None:
    job, shop = data.draw(jobs_and_shops(most=1))
    assume(not against_shop(job, shop))
    try:
        plan = make_plan([job], shop, data.draw(measurements(job, shop)))
    except Refusal:
        return
    assert plan.proven == prove(plan)


def rules(refusal: InputError | Refusal) -> list[str]:
    """What refused: the rules of safety, that the joint cannot be made, or the reader of files."""
    if isinstance(refusal, InputError):
        return ["file"]
    if isinstance(refusal, Unsafe):
        return sorted({found.rule for found in refusal.refusals})
    return ["joint"]


def changes(job: Job, shop: Shop) -> Iterator[tuple[str, Job, Shop]]:
    """One thing changed at a time, the small before the large; each with its name."""
    unit = Fraction(1, 4) if job.unit == "in" else Fraction(6)
    yield "a clamp on the sled", job, replace(shop, sled=replace(shop.sled, clamp=True))
    thinner = tuple(replace(c, kerf=3 * unit / 8) for c in shop.cutters if c.kind == "blade")
    yield "a thinner blade", job, replace(shop, cutters=thinner)
    for n in range(1, 25):
        by = n * unit
        jig = replace(shop.jig, opening=shop.jig.opening + by)
        yield "a jig that opens wider", job, replace(shop, jig=jig)
        saw = replace(shop.saw, max_height=shop.saw.max_height + by)
        yield "more height of blade", job, replace(shop, saw=saw)
        yield "narrower stiles and rails", _narrower(job, by), shop
        yield "a larger opening", _larger(job, by), shop
        sled = replace(
            shop.sled, widest=shop.sled.widest + 4 * by, longest=shop.sled.longest + 8 * by
        )
        yield "a sled for wider and longer stock", job, replace(shop, sled=sled)


def _freed(job: Job) -> Job:
    doors = (
        replace(
            door,
            joint=replace(door.joint, slot=None, offset=None),
            groove=replace(door.groove, width=None, offset=None),
            panel=replace(door.panel, thickness=None),
        )
        for door in job.doors
    )
    return replace(job, doors=tuple(doors))


def _narrower(job: Job, by: Fraction) -> Job:
    doors = (
        replace(
            door,
            hinge_stile=door.hinge_stile - by,
            free_stile=door.free_stile - by,
            top_rail=door.top_rail - by,
            bottom_rail=door.bottom_rail - by,
        )
        for door in job.doors
    )
    return replace(job, doors=tuple(doors))


def _larger(job: Job, by: Fraction) -> Job:
    doors = (
        replace(door, opening=Opening(door.opening.width + by, door.opening.height + by))
        for door in job.doors
    )
    return replace(job, doors=tuple(doors))


def remedy(job: Job, shop: Shop) -> str:
    """The smallest change that passes: slot and groove left to the program, or one thing else, or
    both."""
    freed, name = _freed(job), "slot and groove left to the program"
    if not refusal(freed, shop):
        return name
    for change, other, there in changes(job, shop):
        if not refusal(other, there):
            return change
    for change, other, there in changes(freed, shop):
        if not refusal(other, there):
            return f"{name} and {change}"
    pytest.fail(f"no change helps {job}, {shop}")


def refusal(job: Job, shop: Shop) -> list[str]:
    """The rules that refuse a plan; none where there is one."""
    try:
        planned(job, shop)
    except (InputError, Refusal) as refused:
        return rules(refused)
    return []
