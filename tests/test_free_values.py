"""Free dimensions: the value taken is the best of a fine grid, too, and nothing else is changed."""

from __future__ import annotations

from fractions import Fraction
from itertools import product

import pytest

from sequencer.contract import from_json, to_json
from sequencer.errors import InputError
from sequencer.free_values import Cost, Freedom
from sequencer.job.free import free_dimensions, with_values
from sequencer.job.load import load_job
from sequencer.job.schema import Job
from sequencer.job.shop import load_shop
from sequencer.pipeline import plan
from sequencer.plan import Plan
from sequencer.records import replace
from sequencer.setups.given import Given
from sequencer.shelf import Saved, Shelf

# The groove within the slot and off its middle, so that there are few methods, and the search of a
# whole grid by brute force stays small.
JOB = """
unit = "in"
species = "cherry"
[stock]
thickness = "3/4"
[stiles]
hinge = "2"
[rails]
top = "{top}"
bottom = "{bottom}"
[groove]
width = "{groove}"
depth = "{depth}"
[joint]
slot = "1/4"
offset = "5/16"
[[door]]
[door.opening]
width = "14"
height = "20"
"""
SHOP = load_shop('unit = "in"\nname = "shed"\n', "shop.toml", "in")
STEP = Fraction(1, 64)


def job(top: str = "2", bottom: str = "2 1/4", groove: str = "1/4", depth: str = "1/4") -> Job:
    return load_job(JOB.format(top=top, bottom=bottom, groove=groove, depth=depth), "job.toml")


def grid(low: Fraction, high: Fraction) -> list[Fraction]:
    return [low + n * STEP for n in range(int((high - low) / STEP) + 1)]


@pytest.mark.parametrize(
    "changes",
    [
        pytest.param({"top": "2 1/8 to 2 3/8"}, id="rail"),
        pytest.param({"depth": "7/32 to 9/32"}, id="groove depth", marks=pytest.mark.large),
        pytest.param({"groove": "7/32 to 1/4"}, id="groove width"),
    ],
)
def test_no_value_of_a_fine_grid_is_better(changes: dict[str, str], large: bool) -> None:
    free_job = job(**changes)
    (dimension,) = free_dimensions([free_job])
    vary = Freedom(Given((free_job,), SHOP))
    best = vary.ranked([dimension])[0]
    values = grid(dimension.low, dimension.high)
    fresh = Freedom(Given((free_job,), SHOP))
    costs = [fresh.cost(((dimension, v),)) for v in (values if large else values[::3])]
    assert best.cost <= min(cost for cost in costs if cost is not None)
    if "top" in changes:  # as wide as the bottom rail: one width, one depth of slot
        assert best.values == (Fraction(9, 4),)


@pytest.mark.large
def test_no_pair_of_values_is_better() -> None:
    free_job = job(top="2 1/8 to 2 3/8", depth="7/32 to 9/32")
    dimensions = free_dimensions([free_job])
    best = Freedom(Given((free_job,), SHOP)).ranked(dimensions)[0]
    fresh = Freedom(Given((free_job,), SHOP))
    for values in product(*(grid(d.low, d.high) for d in dimensions)):
        cost = fresh.cost(tuple(zip(dimensions, values, strict=True)))
        assert cost is None or best.cost <= cost


@pytest.fixture(scope="module")
def made() -> Plan:
    """A rail left free: as wide as the other, it takes the fewest settings."""
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr("sequencer.free_values.MOST_VALUES", 4)
        return plan([job(top="2 to 2 1/4")], SHOP)


def test_the_plan_takes_the_value_and_says_what_the_others_cost(made: Plan) -> None:
    (chosen,) = made.free
    assert (chosen.key, chosen.value) == ("rails.top", Fraction(9, 4))
    assert chosen.place == "job.toml:9:7"
    fixed = plan([job(top="2 1/4")], SHOP)
    at_it = replace(made.ordering, left_out=fixed.ordering.left_out)
    assert replace(made, free=(), ordering=at_it) == fixed
    other = plan([job(top="2")], SHOP)
    assert chosen.others == {"2": other.ordering.minutes}
    assert made.ordering.minutes < other.ordering.minutes
    assert from_json(to_json(made)) == made


def test_made_again_it_keeps_what_was_chosen(made: Plan) -> None:
    fixed, choices = Given((job(top="2 to 2 1/4"),), SHOP).as_in(made)
    assert free_dimensions(fixed.jobs) == ()
    assert fixed.jobs[0].doors[0].top_rail == Fraction(9, 4)
    assert {name: getattr(choices, name) for name in made.answers} == made.answers
    alone = Given((job(),), SHOP)
    assert alone.as_in(replace(made, free=()))[0] == alone


def test_a_value_that_meets_a_saved_setting_is_taken(monkeypatch: pytest.MonkeyPatch) -> None:
    """Three widths of rail would do alike; one of them has a saved rip with a gauge."""
    free_job = job(top="2 3/8 to 2 1/2")
    number = Fraction(2) + Fraction(29, 64)
    blade = SHOP.joinery_blade
    saved = Saved(3, blade.name, blade.kerf, "rip-fence", "fence", number)
    monkeypatch.setattr("sequencer.free_values.MOST_VALUES", 5)
    without = plan([job(top="2 3/8")], SHOP)
    made = plan([free_job], SHOP, None, Shelf.of([saved], "in"))
    assert made.free[0].value == number
    assert made.ordering.minutes < without.ordering.minutes
    assert [fact.kind.id for setup in made.setups for fact in setup.saved] == ["note.set-by"]


def test_doors_that_share_a_line_share_its_value_and_followers_follow() -> None:
    text = JOB.replace("[[door]]", "[[door]]\ncount = 2", 1)
    text = text.replace('bottom = "{bottom}"\n', "").replace('hinge = "2"', 'hinge = "2 to 2 1/4"')
    two = load_job(text.format(top="2", groove="1/4", depth="1/4"), "job.toml")
    (dimension,) = free_dimensions([two])
    assert dimension.doors == ((0, 0), (0, 1))
    (changed,) = with_values([two], [(dimension, Fraction(17, 8))])
    assert {d.hinge_stile for d in changed.doors} == {d.free_stile for d in changed.doors}
    assert changed.doors[0].hinge_stile == Fraction(17, 8)


@pytest.mark.parametrize(
    ("top", "says"),
    [
        ("2 1/4 to 2", "file.no-range"),
        ("2 to 2", "file.no-range"),
        ("1 to 2 to 3", "file.no-range"),
        ("2 to 2 1/3", "spelling.not-on-rules(parts=3)"),
        ("1/8 to 2", "door.within-groove"),
    ],
)
def test_a_range_is_checked_at_both_its_ends(top: str, says: str) -> None:
    with pytest.raises(InputError) as caught:
        job(top=top)
    assert says in str(caught.value)
    assert caught.value.faults[0].line == 9


def test_costs_are_compared_by_minutes_then_setups() -> None:
    assert Cost(Fraction(60), 14) < Cost(Fraction(61), 12) < Cost(Fraction(61), 13)
