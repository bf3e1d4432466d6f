"""The contest of methods, batches, and why each setup stands where it does."""

from __future__ import annotations

from fractions import Fraction
from itertools import product

import pytest

from sequencer import ordering
from sequencer.facts import reasons
from sequencer.job.load import load_job
from sequencer.pipeline import plan
from sequencer.plan import Plan, Setup
from sequencer.setups.choose import Contest
from sequencer.setups.given import Given
from tests.stages import to_job, to_plan, to_shop
from tests.test_hand_worked import FENCE_JIG, PAIR, SINGLE, SLOT_JIG

DADO = (
    FENCE_JIG
    + """
[saw]
dado = true
[[cutter]]
name = "dado set"
kind = "dado"
kerf = "1/4"
diameter = "8"
grind = "flat-top"
"""
)


def contest(text: str, shop: str) -> Contest:
    job = to_job(text)
    return Contest(Given((job,), to_shop(shop, job)))


@pytest.mark.parametrize(("text", "shop"), [(PAIR, FENCE_JIG), (SINGLE, SLOT_JIG), (PAIR, DADO)])
def test_no_combination_that_was_not_carried_through_would_have_won(text: str, shop: str) -> None:
    held = contest(text, shop)
    best = held.cheapest()
    assert best is not None
    methods = held.methods(best)
    for number, method in enumerate(methods):
        minutes = ordering.solve(held.candidate(number).framed.problem).minutes
        assert minutes >= held.orders[best].minutes
        assert method.minutes == minutes if method.exact else method.minutes <= minutes
    assert [number for number, method in enumerate(methods) if method.chosen] == [best]


def test_every_open_combination_is_there() -> None:
    held = contest(PAIR, DADO)
    slots = ("turned", "one-face", "dado")
    grooves, places = ("turned", "one-face"), ("stick", "piece")
    wanted = {
        (slot, groove, depth, width, place)
        for slot, groove, place in product(slots, grooves, places)
        for depth, width in (
            ("each", "jig"),
            ("common", "jig"),
            ("common", "sled"),
        )
    }
    found = {(c.slot, c.groove, c.slot_depth, c.tenon_width, c.groove_on) for c in held.choices}
    assert found == wanted


def test_a_dado_set_is_open_only_where_the_saw_takes_one() -> None:
    without = contest(PAIR, DADO.replace("dado = true", "dado = false"))
    assert {choices.slot for choices in without.choices} == {"turned", "one-face"}


def test_values_carry_their_cutter_where_there_are_two() -> None:
    """Height and guides do not survive a change of cutter."""
    held = contest(PAIR, DADO)
    number = next(n for n, c in enumerate(held.choices) if c.slot == "dado")
    problem = held.candidate(number).framed.problem
    for operation in problem.operations:
        (way,) = operation.alternatives
        for knob in ("height", "fence", "stop", "jig"):
            for value in way.needs.get(knob, ()):
                # What is out of the way stays so, whatever is on the arbor.
                assert value == "away" or value.startswith(f"{way.needs['cutter'][0]}/")


def test_a_groove_on_the_piece_comes_after_its_crosscut_and_before_its_slots() -> None:
    held = contest(PAIR, FENCE_JIG)
    number = next(n for n, c in enumerate(held.choices) if c.groove_on == "piece")
    edges = {(e.before, e.after) for e in held.candidate(number).work.edges}
    assert ("A1/crosscut", "A1/groove/outer") in edges
    assert ("A1/groove/outer", "A1/slot-A/outer") in edges


@pytest.fixture(scope="module")
def batch() -> Plan:
    first = load_job(PAIR, "first.toml")
    taken = {mark for door in first.doors for mark in door.marks}
    second = load_job(SINGLE, "second.toml", "in", taken=taken)
    return plan([first, second], to_shop(FENCE_JIG, first))


def test_a_batch_shares_settings(batch: Plan) -> None:
    """Common practice: what is cut together is set up once."""
    alone = next(b for b in batch.ordering.baselines if b.name == "each-job-alone")
    apart = to_plan(PAIR, FENCE_JIG).ordering.minutes
    job = load_job(SINGLE, "second.toml", "in")
    apart += plan([job], to_shop(FENCE_JIG, job)).ordering.minutes
    assert alone.minutes == apart
    assert batch.ordering.minutes < alone.minutes
    assert [door.mark for door in batch.doors] == ["A", "B", "C"]
    assert len(batch.jobs) == 2


def test_a_knob_that_no_cut_asks_for_is_no_part_of_the_problem() -> None:
    plain, mitred = (
        contest(PAIR.replace('bottom = "2-1/2"', 'bottom = "2"').replace("1-3/4", "2")
                    .replace("[joint]", f'[joint]\nkind = "{kind}"'), FENCE_JIG)
        for kind in ("bridle", "mitred bridle")
    )  # fmt: skip
    names = [{knob.name for knob in held.candidate(0).problem.knobs} for held in (plain, mitred)]
    assert names[1] - names[0] == {"mitre stop"}


def test_a_batch_in_two_units_is_exact(batch: Plan) -> None:
    """20 mm is 100/127 in."""
    assert {p.size.thickness for p in batch.parts if p.door == "C" and p.role == "stile"} == {
        Fraction(100, 127)
    }


def test_every_setup_says_why_it_stands_here(batch: Plan) -> None:
    known = {reason for _, _, reason in batch.ordering.before}
    for setup in batch.setups:
        assert setup.why
        for why in setup.why:
            assert why.given.get("because", reasons.MILLED()) in known
    kept = batch.setups[1]
    changed = {f"knob.{change.knob}" for change in kept.changes}
    assert not changed & _stay(kept)


def test_a_jig_that_rides_the_fence_has_no_setting_that_could_stay(batch: Plan) -> None:
    told = set().union(*map(_stay, batch.setups))
    assert "knob.height" in told
    assert "knob.jig" not in told


def _stay(setup: Setup) -> set[str]:
    """The knobs that are said to stay as set."""
    told = (why.given["knobs"] for why in setup.why if why.kind is reasons.STAY)
    return {str(knob) for knobs in told if isinstance(knobs, tuple) for knob in knobs}


def test_more_test_pieces_change_no_mark() -> None:
    """A plan that is made again half-way must call every piece and stick what it is called."""
    given = contest(PAIR, FENCE_JIG).given
    choices = given.open()[0]
    usual = given.carried(choices).work.layout
    names = next(names for stock, names in usual.tests.items() if stock.joint is not None)
    more = given.with_test_pieces(dict.fromkeys((names.stick, names.stile, names.rail), 2))
    layout = more.carried(choices).work.layout
    assert layout.sticks[: len(usual.sticks)] == usual.sticks
    assert layout.tests == usual.tests
    for mark in (names.stick, names.stile, names.rail):
        assert len(layout.spares[mark]) == len(usual.spares[mark]) + 2


def test_no_riving_knife_is_asked_of_a_dado_set() -> None:
    """No riving knife fits a dado set (manual of a US table saw, on dado sets)."""
    held = contest(PAIR, DADO)
    number = next(n for n, c in enumerate(held.choices) if c.slot == "dado")
    operations = held.candidate(number).framed.problem.operations
    guards = [
        tuple(map(str, way.needs["guard"]))
        for operation in operations
        for way in operation.alternatives
        if "dado set" in map(str, way.needs.get("cutter", ()))
    ]
    assert guards
    assert set(guards) == {("cover",)}
