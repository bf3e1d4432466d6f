"""Single slips of a finished paper's text: the reader catches each, and says where it is.

150 of them over all examples with `--large` and on request; on each commit's own seed some of every
kind otherwise.
"""

from __future__ import annotations

import random
from collections import Counter
from functools import cache

import pytest

from sequencer.plan import Plan
from sequencer.sheets import html
from tests.reader import page, paper, slips_in_lines, slips_in_pages
from tests.reader.jobs import EXAMPLES, planned
from tests.reader.seen import lines
from tests.reader.slips import Slip, slips
from tests.reader.told import Document
from tests.reader.whole import cards, faults

KINDS = {**slips_in_lines.KINDS, **slips_in_pages.KINDS}


@cache
def printed(name: str) -> tuple[Plan, list[str], Document]:
    """An example's plan, its paper's lines and its page as read."""
    plan, asked = planned(name)
    seen = lines(html(plan, "a4"))
    return plan, seen, page.read(cards(plan, asked.jobs, asked.shop), paper.read(seen))


def test_every_slip_is_caught_where_it_is(large: bool, seed: int) -> None:
    chance = random.Random(seed)
    found: dict[str, list[tuple[str, Slip]]] = {}
    for name in EXAMPLES if large else chance.sample(EXAMPLES, 3):
        for kind, each in slips(printed(name)[1], KINDS).items():
            found.setdefault(kind, []).extend((name, slip) for slip in each)
    tried: Counter[str] = Counter()
    missed = []
    for kind, places in found.items():
        for name, slip in chance.sample(places, min(4 if large else 1, len(places))):
            plan, seen, told = printed(name)
            made = slip.made(seen)
            assert made != seen
            tried[kind] += 1
            if not slip.told(faults(plan, made, told)):
                missed.append((name, kind, seen[slip.line], slip.said))
    print(dict(tried))  # noqa: T201  # counts, shown with -s
    assert missed == []
    assert tried.total() >= (150 if large else 30)


@pytest.mark.parametrize("name", ["alcove", "china-cabinet"])
def test_every_caution_left_out_is_missed_at_setups_and_at_the_bench(name: str) -> None:
    plan, seen, told = printed(name)
    left_out = slips(seen, KINDS)["a caution missing"]
    assert {where.split()[0] for slip in left_out for where in slip.names} == {"setup", "step"}
    assert [slip for slip in left_out if not slip.told(faults(plan, slip.made(seen), told))] == []


def test_an_example_has_slips_of_every_kind() -> None:
    """All of them together, that is: nothing is swept on some doors, and no jig rides the fence."""
    kinds = [set(slips(printed(name)[1], KINDS)) for name in ("pantry", "dresser", "alcove")]
    assert set.union(*kinds) == set(KINDS)


@pytest.mark.parametrize("kind", ["marked face or back", "end A or B", "a correction's way"])
def test_a_slip_that_changes_nothing_is_none(kind: str) -> None:
    _, seen, _ = printed("pantry")
    assert all(slip.made(seen) != seen for slip in slips(seen, KINDS)[kind])
