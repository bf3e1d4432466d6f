"""A batch is read together, wherever its texts lie."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from sequencer.batch import read_batch
from sequencer.contract import from_json, to_json
from sequencer.errors import InputError, Refusal
from sequencer.job.shop import default_shop
from sequencer.pipeline import plan
from tests.simulator.pairs import pair
from tests.test_hand_worked import FENCE_JIG, PAIR, SINGLE

EXAMPLES = Path(__file__).resolve().parent.parent / "examples"


def read(texts: Mapping[str, str], shop: str | None = None) -> tuple[str, ...]:
    """The faults of the texts; the one called `shop` is the shop file."""
    jobs = [name for name in texts if name != shop]
    with pytest.raises(InputError) as caught:
        read_batch(jobs, shop, texts.__getitem__)
    return tuple(str(fault).partition("\n")[0] for fault in caught.value.faults)


def test_all_is_in_the_unit_of_the_first_and_no_mark_comes_twice() -> None:
    texts = {"one.toml": SINGLE, "two.toml": PAIR}
    jobs, shop = read_batch(tuple(texts), None, texts.__getitem__)
    assert [job.unit for job in jobs] == ["mm", "mm"]
    assert [mark for job in jobs for door in job.doors for mark in door.marks] == ["A", "B", "C"]
    assert shop == default_shop("mm")


@pytest.mark.parametrize(("first", "second"), [("wall-cabinet", "pantry"), ("pantry", "dresser")])
def test_a_year_told_in_the_other_unit_adds_up(first: str, second: str) -> None:
    """What a panel's play is rounded to is a round figure of the batch's unit, when its year is
    worked out as when the job is read."""
    files = [str(EXAMPLES / name / "job.toml") for name in (first, second)]
    jobs, shop = read_batch(files, None, lambda name: Path(name).read_text("utf-8"))
    made = plan(jobs, shop, seconds=1)
    assert made.proven
    assert made.seasons


def test_the_faults_of_all_files_are_told_together() -> None:
    texts = {
        "one.toml": PAIR.replace("[[door]]", "[[dor]]", 1),
        "two.toml": SINGLE.replace("unit", "unot", 1),
        "shop.toml": FENCE_JIG.replace("kerf", "curf", 1),
    }
    told = read(texts, "shop.toml")
    assert {fault.partition(":")[0] for fault in told} == set(texts)


def test_what_the_shop_cannot_do_is_told_once_the_files_are_good() -> None:
    low = FENCE_JIG + '\n[saw]\nmax_height = "1"\n'
    told = read({"job.toml": PAIR, "shop.toml": low}, "shop.toml")
    assert told
    assert all(fault.startswith("job.toml:") for fault in told)


def test_limits_of_a_shop_are_read_with_the_rules_that_they_make_stricter() -> None:
    texts = {"job.toml": PAIR, "shop.toml": FENCE_JIG + '\n[limits]\nno_such_rule = "1"\n'}
    assert any("no_such_rule" in fault for fault in read(texts, "shop.toml"))


def test_random_jobs_together_are_planned_or_refused(large: bool) -> None:
    @settings(max_examples=600 if large else 10)
    @given(st.integers(0, 10**6), st.integers(0, 10**6))
    @example(831877, 508595)  # an order that asks for one test piece more than it begins with
    def go(first: int, second: int) -> None:
        one, other = pair("ordinary", first), pair("ordinary", second)
        texts = {"a.toml": one.job, "b.toml": other.job, "shop.toml": one.shop}
        try:
            jobs, shop = read_batch(("a.toml", "b.toml"), "shop.toml", texts.__getitem__)
            made = plan(jobs, shop, seconds=0.2)
        except (InputError, Refusal):
            return
        assert from_json(to_json(made)) == made

    go()
