"""Every kind of door at random: planned and proven, or refused with a reason; never a crash.

Of what is planned, the figures that a maker relies on are worked out here once more, by other
means: that nothing binds in the wettest season and everything holds in the driest, that wood adds
up, and that no two pieces lie on the same wood of a board.
"""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import HealthCheck, Phase, given, reject, settings

from sequencer.errors import InputError, Refusal
from sequencer.job.load import load_job
from sequencer.job.schema import Job
from sequencer.job.shop import default_shop
from sequencer.job.validate import against_shop
from sequencer.plan import Blank, Plan
from sequencer.proof import prove
from tests.proof.plans import make_plan
from tests.texts import FILLS, job_texts


@pytest.mark.parametrize("fill", FILLS)
def test_every_kind_of_door(fill: str, large: bool) -> None:
    counts: Counter[str] = Counter()
    reasons: Counter[str] = Counter()

    @settings(
        max_examples=300 if large else 7,
        phases=[Phase.explicit, Phase.generate],
        suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
    )
    @given(job_texts(fill))
    def go(text: str) -> None:
        try:
            job = load_job(text, "job.toml")
            plan = planned(job)
        except (InputError, Refusal) as error:
            reasons[_reason(error)] += 1
            counts["refused"] += 1
            if not counts["proven"]:
                reject()  # few are drawn, and at least one of them is to come through
            return
        counts["proven"] += 1
        assert plan.proven == prove(plan)
        check_seasons(plan)
        check_wood(plan)
        check_boards(plan)

    go()
    print(dict(sorted(counts.items())))  # noqa: T201  # counts, shown with -s
    print(reasons.most_common(12))  # noqa: T201
    assert "" not in reasons
    assert counts["proven"], f"no door with {fill} came through"


def _reason(error: InputError | Refusal) -> str:
    if isinstance(error, InputError):
        return str(error.faults[0].message)[:50]
    return str(error.says[0])[:50]


def planned(job: Job) -> Plan:
    shop = default_shop(job.unit)
    if faults := list(against_shop(job, shop)):
        raise InputError(tuple(faults))
    return make_plan([job], shop)


def check_seasons(plan: Plan) -> None:
    for season in plan.seasons:
        for panel in season.panels:
            for width, reach in zip(panel.widths, panel.reach, strict=True):
                assert reach == (width - panel.sight) / 2
                assert panel.engagement <= reach <= panel.depth
        for boards in season.boards:
            assert min(*boards.leave, *boards.edge) >= 0
            assert min(*boards.hold, *boards.reach) >= boards.engagement
            # What is not in the groove bridges the gap; a tongue swells by a few percent at most.
            gap, hold = boards.leave[1], boards.hold[1]
            assert gap + hold == boards.tongue <= boards.depth + gap
            for gap, hold in zip(boards.leave, boards.hold, strict=True):
                assert abs(gap + hold - boards.tongue) <= boards.tongue / 20
        if season.gap is not None:
            assert min(season.gap.gaps) >= season.gap.air


def check_wood(plan: Plan) -> None:
    """The rough list, worked out from the sticks: 144 cubic inches of bought stock are a board
    foot, and stock under an inch counts as an inch (US Navy, Builder training, on lumber)."""
    inch = Fraction(1) if plan.unit == "in" else Fraction(127, 5)
    by_mark = {stick.mark: stick for stick in plan.sticks}
    told = [mark for line in plan.rough for mark in (*line.sticks, *line.test_sticks)]
    assert sorted(told) == sorted(by_mark)
    for line in plan.rough:
        blanks = [by_mark[mark].blank for mark in (*line.sticks, *line.test_sticks)]
        surface = sum((b.length * b.width for b in blanks), Fraction(0))
        assert line.surface == surface
        thick = max(line.bought_thickness / inch, Fraction(1))
        assert line.board_feet == surface / inch**2 * thick / 144
        assert all(b.length <= line.longest and b.width <= line.widest for b in blanks)


def check_boards(plan: Plan) -> None:
    """Every blank lies on one board, within it and clear of all others, or is missing."""
    if not plan.boards:
        return
    for board in plan.boards:
        for blank in board.blanks:
            assert board.trim <= blank.at[0]
            assert blank.at[0] + blank.size.length <= board.size.length - board.trim
            assert board.edge <= blank.at[1]
            assert blank.at[1] + blank.size.width <= board.size.width
            assert blank.size.thickness <= board.size.thickness
        assert not any(overlap(one, other) for one, other in combinations(board.blanks, 2))
    laid = [blank.stick for board in plan.boards for blank in board.blanks]
    missing = [blank.stick for blank in plan.missing]
    assert {*laid, *missing} == {stick.mark for stick in plan.sticks}
    assert len({b.mark for b in _all(plan)}) == len(laid) + len(missing)


def _all(plan: Plan) -> list[Blank]:
    return [b for board in plan.boards for b in board.blanks] + list(plan.missing)


def overlap(one: Blank, other: Blank) -> bool:
    return (
        one.at[0] < other.at[0] + other.size.length
        and other.at[0] < one.at[0] + one.size.length
        and one.at[1] < other.at[1] + other.size.width
        and other.at[1] < one.at[1] + one.size.width
    )
