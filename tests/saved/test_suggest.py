"""Suggestions: held to a search by brute force of all that was to be looked at, and of a grid of a
64th of an inch besides."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.facts import Fact, Length, advices
from sequencer.free_values import Cost, Freedom
from sequencer.job.free import Dimension, with_values
from sequencer.job.load import load_job
from sequencer.lengths import parse
from sequencer.pipeline import plan
from sequencer.plan import Plan
from sequencer.saved.suggest import Suggestion, fixed_dimensions, near_values, suggest, told
from sequencer.setups.given import Given
from sequencer.wording import Room
from tests.test_free_values import JOB, SHOP, STEP, job

NEAR_MISS = job(top="2 3/16")  # a 16th short of the bottom rail
GIVEN = Given((NEAR_MISS,), SHOP)


@pytest.fixture(scope="module")
def before() -> Plan:
    return plan([NEAR_MISS], SHOP)


@pytest.fixture(scope="module")
def found(before: Plan) -> tuple[Suggestion, ...]:
    assert before.free == ()
    made = suggest(GIVEN)
    assert made.looked_at > len(made.found)
    assert made.passed_over == 0
    return made.found


def test_the_near_miss_is_found_first(before: Plan, found: tuple[Suggestion, ...]) -> None:
    first = found[0]
    assert first.dimension.key in ("rails.top", "rails.bottom")
    assert first.setups >= 2  # one rip, one depth of slot
    changed = plan(with_values([NEAR_MISS], first.changes), SHOP)
    now = before
    assert now.ordering.minutes - changed.ordering.minutes == first.minutes
    assert now.ordering.setups - changed.ordering.setups == first.setups


def test_nothing_better_was_missed(found: tuple[Suggestion, ...], large: bool) -> None:
    """Every value looked at, and every 64th of each window, planned with every method."""
    brute = Freedom(GIVEN)
    now = brute.cost(())
    assert now is not None
    best = {s.dimension: s.minutes for s in found if len(s.changes) == 1}
    least = min(s.minutes for s in found) if len(found) == 5 else Fraction(0)
    dimensions = fixed_dimensions([NEAR_MISS])
    for dimension in dimensions if large else dimensions[1:2]:
        for value in (*near_values(brute, dimension), *_grid(dimension, every=1 if large else 3)):
            cost = brute.cost(((dimension, value),))
            if cost is not None:
                saved = now.minutes - cost.minutes
                most = max(best.get(dimension, least), least)
                assert saved <= most, f"{dimension.key} at {value}"


def _grid(dimension: Dimension, every: int) -> list[Fraction]:
    count = int((dimension.high - dimension.low) / STEP)
    return [dimension.low + n * STEP for n in range(0, count + 1, every)]


def test_nothing_is_changed_unasked(before: Plan, found: tuple[Suggestion, ...]) -> None:
    assert found
    assert job(top="2 3/16") == NEAR_MISS
    assert plan([NEAR_MISS], SHOP) == before


def test_the_best_of_all_comes_first_and_a_combination_saves_more_than_its_parts(
    found: tuple[Suggestion, ...],
) -> None:
    minutes = [one.minutes for one in found]
    assert minutes == sorted(minutes, reverse=True)
    alone = {one.changes[0]: one.minutes for one in found if len(one.changes) == 1}
    for several in (one for one in found if len(one.changes) > 1):
        assert all(several.minutes > alone.get(change, 0) for change in several.changes)


def test_what_is_typed_as_it_is_printed_saves_as_much(found: tuple[Suggestion, ...]) -> None:
    room = Room("US", Fraction(1, 64))
    now = plan([NEAR_MISS], SHOP).ordering.minutes
    for one in found[:2]:
        typed = [(d, parse(_printed(room.length(Length(value, "in"))), "in"))
                 for d, value in one.changes]  # fmt: skip
        assert typed == list(one.changes)
        then = plan(with_values([NEAR_MISS], typed), SHOP).ordering.minutes
        assert now - then == one.minutes


def _printed(text: str) -> str:
    return text.removesuffix("″")


NOW = Cost(Fraction(70), 16)
FINE, WIDE = Fraction("2.309401"), Fraction(5, 2)
SAVES = {
    ("rails.top",): Cost(Fraction(63), 16),
    ("rails.bottom",): Cost(Fraction(68), 13),
    ("rails.bottom", "rails.top"): Cost(Fraction(57), 13),
}
"""What a job costs with another top rail, another bottom rail, and both."""


class Priced:
    """A job whose costs are known: in place of one that is planned."""

    def __init__(self, given: Given) -> None:
        self.given = given

    def narrow(self, dimensions: object) -> None:
        pass

    def cost(self, chosen: tuple[tuple[Dimension, Fraction], ...]) -> Cost | None:
        keys = tuple(sorted(dimension.key for dimension, _ in chosen))
        # To the last digit it would save more than it does as it can be typed.
        typed = all(value in (WIDE, Fraction("2.309")) for _, value in chosen)
        if not chosen:
            return NOW
        return SAVES.get(keys) if typed else Cost(Fraction(1), 1)

    def near_misses(self, dimension: Dimension, _most: int) -> tuple[Fraction, ...]:
        return {"rails.top": (FINE,), "rails.bottom": (WIDE,)}.get(dimension.key, ())


def test_minutes_come_first_combined_and_as_typed(monkeypatch: pytest.MonkeyPatch) -> None:
    """Against the table: both rails save 13 minutes, the top one 7 without a setup fewer, the
    bottom one 2 with three setups fewer."""
    monkeypatch.setattr("sequencer.saved.suggest.Freedom", Priced)
    monkeypatch.setattr("sequencer.saved.suggest._planned_again", lambda _, one, __: one)
    found = suggest(GIVEN).found
    told_of = [(sorted(d.key for d, _ in one.changes), one.minutes, one.setups) for one in found]
    assert told_of == [
        (["rails.bottom", "rails.top"], Fraction(13), 3),
        (["rails.top"], Fraction(7), 0),
        (["rails.bottom"], Fraction(2), 3),
    ]
    values = {d.key: value for one in found for d, value in one.changes}
    assert values == {"rails.top": Fraction("2.309"), "rails.bottom": WIDE}


def test_it_is_said_where_and_how_much(found: tuple[Suggestion, ...]) -> None:
    said, first = told(found[0], GIVEN).given, found[0]
    lines = said["each"]
    assert isinstance(lines, tuple)
    each = lines[0]
    assert isinstance(each, Fact)
    line = first.dimension.place.line
    assert each.given["where"] == advices.AT_LINE(file="job.toml", line=line)
    assert each.given["value"] == Length(first.value, "in")
    assert said["marks"] == ("A",)
    assert said["saves"] == advices.SETUPS_AND_MINUTES(n=first.setups, minutes=first.minutes)


def test_each_dimension_is_looked_at_once_and_followers_not_at_all() -> None:
    keys = [dimension.key for dimension in fixed_dimensions([NEAR_MISS])]
    assert keys == ["stiles.hinge", "rails.top", "rails.bottom", "groove.depth", "groove.width",
                    "joint.slot"]  # fmt: skip
    alone = fixed_dimensions([job(top="2 1/8 to 2 1/4")])
    assert "rails.top" not in [dimension.key for dimension in alone]


def test_a_large_job_is_looked_at_in_part_and_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    """The likeliest values: the one dimension that nearly equals another comes first."""
    monkeypatch.setattr("sequencer.saved.suggest.WORK", 1)
    monkeypatch.setattr("sequencer.saved.suggest.LEAST_LOOKS", 2)
    made = suggest(GIVEN)
    assert made.looked_at == 2
    assert made.passed_over > 0
    assert [one.dimension.key for one in made.found] == ["rails.top"]


def test_minutes_alone_are_worth_a_word() -> None:
    """Rails alike, a groove that is no whole number of passes: another depth of groove saves no
    setup, but a knob that would be set within one."""
    alike = Given((job(top="2 3/16", bottom="2 3/16", groove="0.24"),), SHOP)
    (deeper, *_) = [
        one for one in suggest(alike).found if [d.key for d, _ in one.changes] == ["groove.depth"]
    ]
    assert deeper.setups == 0
    assert deeper.minutes > 0
    now = plan(alike.jobs, SHOP).ordering
    then = plan(with_values(alike.jobs, deeper.changes), SHOP).ordering
    assert (now.setups - then.setups, now.minutes - then.minutes) == (0, deeper.minutes)
    assert told(deeper, alike).given["saves"] == advices.JUST_MINUTES(minutes=deeper.minutes)


def test_no_value_is_looked_at_that_one_of_its_doors_cannot_have() -> None:
    """A groove 5/16 in deep would do for the first door; of the second's stiles, 3/4 in wide, it
    leaves less than 1/2 in."""
    text = JOB.format(top="2 3/16", bottom="2 3/16", groove="0.24", depth="1/4")
    second = text[text.index("[[door]]") :]
    narrow = load_job(f'{text}{second}[door.stiles]\nhinge = "3/4"\n', "job.toml")
    values = {}
    for made in (load_job(text + second, "job.toml"), narrow):
        depth = next(d for d in fixed_dimensions([made]) if d.key == "groove.depth")
        assert len(depth.doors) == 2
        values[made] = near_values(Freedom(Given((made,), SHOP)), depth)
    wide, both = values.values()
    assert Fraction(5, 16) in wide
    assert both
    assert Fraction(5, 16) not in both
