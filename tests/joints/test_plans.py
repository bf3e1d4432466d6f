"""Whole plans of doors with every joint: proven by the virtual saw, ordered as the trade does."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from sequencer.errors import InputError, Refusal
from sequencer.facts import Kind, reasons
from sequencer.job.kinds import CORNER_JOINTS
from sequencer.lengths import Unit
from sequencer.operations import Work
from sequencer.plan import SCRAP_STEPS, Plan
from sequencer.saw.measures import What
from tests.joints.jobs import job, random_jobs
from tests.joints.test_fit import BARRED, TEES
from tests.stages import to_plan, to_work

GLASS = 'fill = "glass"\n'


def check(made: Plan) -> None:
    """It is proven, cut by cut, and nothing is cut on good wood before it was tried on scrap."""
    assert made.proven[0].id == "proof.sawn"
    scraps = {scrap.mark for scrap in made.scrap} | {s.mark for s in made.sticks if s.test}
    for step in made.steps:
        if step.kind in SCRAP_STEPS:
            assert {cut.mark for cut in step.cuts} <= scraps
    tried = {point.setup for point in made.checkpoints if point.scrap is not None}
    fitted = {"slot", "cheek", "mitre", "housing"}
    knobs = {"jig", "stop", "mitre stop"}
    for setup in made.setups:
        steps = [step for step in made.steps if step.setup == setup.number]
        kinds = {step.kind for step in steps}
        # What is left between two passes that were tried needs no try of its own.
        inner = all("/middle" in name for step in steps for name in step.operations)
        if not inner and kinds & fitted and any(change.knob in knobs for change in setup.changes):
            assert setup.number in tried, (setup.number, kinds)


@pytest.mark.parametrize("unit", ["in", "mm"])
@pytest.mark.parametrize("kind", CORNER_JOINTS)
def test_a_door_of_each_joint(kind: str, unit: Unit) -> None:
    check(to_plan(job(kind, unit=unit)))


@pytest.mark.parametrize(("lap", "laid"), [("", True), ('slot = "5/16"', False)])
def test_laps_are_laid_on_each_other_where_they_are_halves(lap: str, laid: bool) -> None:
    """A second one cut at the same setting is as thick as the stock with it, or it is not."""
    made = to_plan(job("half-lap", lap))
    cheeks = [c for c in made.checkpoints if c.measure.what is What.TO_FAR_CHEEK]
    assert cheeks
    assert all((point.exact * 2 == Fraction(3, 4)) == laid for point in cheeks)
    assert all((point.feel.id == "feel.laps-together") == laid for point in cheeks)


@pytest.mark.parametrize("kind", ["bridle", "stub tenon"])
@pytest.mark.parametrize(("unit", "wide", "deep", "web"), [
    ("in", "1", "1/2", Fraction(1, 2)),
    ("in", "1", "31/64", Fraction(1, 2)),
    ("mm", "30", "15", Fraction(12)),
])  # fmt: skip
def test_a_test_strip_keeps_wood_between_its_grooves(
    kind: str, unit: Unit, wide: str, deep: str, web: Fraction
) -> None:
    """Tried on one edge, the groove runs along the other too: there would be nothing between."""
    members = f'[stiles]\nhinge = "{wide}"\n[rails]\ntop = "{wide}"\n[groove]\ndepth = "{deep}"'
    made = to_plan(job(kind, more=members, unit=unit))
    check(made)
    (strip,) = (s for s in made.sticks if s.test and any(p.mark for p in s.pieces))
    assert strip.size.width - 2 * Fraction(deep) >= web


@pytest.mark.parametrize("width", ["1/4", "3/8"])
def test_nothing_is_slid_into_a_groove_before_it_is_clear(width: str) -> None:
    """Two passes of 1/8 in meet in 1/4 in; in 3/8 in they leave wood between them."""
    made = to_plan(job("bridle", more=f'[groove]\nwidth = "{width}"'))
    points = [c for c in made.checkpoints if str(c.measure) == "channel-width/groove"]
    assert points
    left = Fraction(width) > 2 * Fraction(1, 8)
    assert all((point.feel.id == "feel.slides-in-cleared") == left for point in points)


@pytest.mark.parametrize("joints", TEES, ids=" ".join)
def test_a_divided_door_of_each_joint(joints: tuple[str, str]) -> None:
    kind, bars = joints
    text, _ = BARRED["both, one beside the other"]
    check(to_plan(job(kind, f'bars = "{bars}"') + text))


@pytest.mark.parametrize("kind", ["bridle", "mitred bridle", "half-lap"])
def test_a_door_for_glass_of_each_joint(kind: str) -> None:
    check(to_plan(GLASS + job(kind)))


@pytest.mark.parametrize("bars", ["a mid rail", "a mullion"])
def test_a_divided_door_for_glass(bars: str) -> None:
    check(to_plan(GLASS + job("bridle", 'bars = "T-bridle"') + BARRED[bars][0]))


def test_glass_on_both_sides_of_a_mid_rail_takes_no_mullion() -> None:
    text = GLASS + job("bridle", 'bars = "T-bridle"') + BARRED["both, one beside the other"][0]
    with pytest.raises(Refusal, match="bar-meets-glass"):
        to_plan(text)


@settings(max_examples=3)
@given(st.sampled_from(tuple(CORNER_JOINTS)).flatmap(random_jobs))
def test_random_doors_are_proven_or_refused(drawn: tuple[str, Unit, object]) -> None:
    check_random(drawn[0])


@pytest.mark.large
@settings(max_examples=40)
@given(st.sampled_from(tuple(CORNER_JOINTS)).flatmap(random_jobs))
def test_many_random_doors_are_proven_or_refused(drawn: tuple[str, Unit, object]) -> None:
    check_random(drawn[0])


def check_random(text: str) -> None:
    try:
        made = to_plan(text)
    except (InputError, Refusal):
        assume(False)
        raise
    check(made)


def because(work: Work, reason: Kind) -> Iterator[tuple[str, str]]:
    for edge in work.edges:
        if edge.reason.kind is reason:
            yield edge.before, edge.after


def test_a_mitre_comes_before_what_would_hollow_the_wood_behind_it() -> None:
    found = set(because(to_work(job("mitred bridle")), reasons.BACKED))
    assert ("A1/mitre-A", "A1/slot-A/outer") in found
    assert ("A3/mitre-B", "A3/cheek-B/face") in found
    assert ("A1/mitre-A", "A1/slot-B/outer") not in found


def test_a_mitre_may_begin_in_the_very_corner() -> None:
    """Nothing stands proud: the stop stands at the kerf, and its check answers one way alone."""
    made = to_plan(
        'unit = "mm"\n[stock]\nthickness = "19.5"\n[joint]\nkind = "mitred bridle"\n'
        'proud = "0"\n[groove]\ndepth = "10"\n[stiles]\nhinge = "50"\nlock = "50"\n'
        '[rails]\ntop = "50"\nbottom = "50"\n'
        '[[door]]\n[door.opening]\nwidth = "356.5"\nheight = "500"\n'
    )
    check(made)
    (line,) = (point for point in made.checkpoints if str(point.measure) == "to-mitre")
    assert line.target == 0


def test_what_stands_on_too_little_is_refused_and_says_where() -> None:
    """Mitre, slot and rebate leave the stile's end 0.414 in of 1 1/4 one way, 0.625 of 1 5/16 the
    other, less than half either way."""
    job = (
        'unit = "in"\nfill = "glass"\n[stock]\nthickness = "1 1/4"\n'
        '[joint]\nkind = "mitred bridle"\nbars = "T-bridle"\n[stiles]\nhinge = "1 5/16"\n'
        '[rails]\ntop = "1 5/16"\n[groove]\ndepth = "11/16"\n[glass]\nthickness = "1/8"\n'
        '[[door]]\n[door.opening]\nwidth = "10 13/16"\nheight = "14 1/4"\n'
        '[[door.bar]]\nkind = "mid rail"\nwidth = "2 3/8"\n'
    )
    shop = (
        'unit = "in"\n[[cutter]]\nname = "blade"\nkerf = "3/32"\n[sled]\ndeck = "1/2"\n'
        '[jig]\nrides = "fence"\nthickness = "1 5/16"\nopening = "3 13/16"\n'
    )
    with pytest.raises(Refusal, match=r"nothing-held\(.*piece=A1.*nothing-to-stand-on"):
        to_plan(job, shop)


def test_a_tongue_is_fitted_to_a_slot_that_is_there() -> None:
    text = job("stub tenon", 'bars = "T-bridle"') + BARRED["a mid rail"][0]
    work = to_work(text)
    fitted = set(because(work, reasons.TONGUE_FITTED))
    # The mid rail's left end goes into the hinge stile, its right end into the lock stile.
    assert ("A5/slot-A/outer", "A1/housing-A5A/far") in fitted
    assert ("A5/slot-B/outer", "A2/housing-A5B/near") in fitted
    assert ("A5/slot-B/outer", "A1/housing-A5A/far") not in fitted
    near = set(because(work, reasons.NEAR_FIRST))
    assert ("A1/housing-A5A/near", "A1/housing-A5A/far") in near


def test_a_half_lap_cuts_shoulders_before_cheeks_in_both_pieces() -> None:
    before = {(e.before, e.after) for e in to_work(job("half-lap")).edges}
    assert ("A1/shoulder-A/back", "A1/cheek-A/face") in before
    assert ("A3/shoulder-A/face", "A3/cheek-A/back") in before


def test_halves_of_equal_thickness_share_the_jigs_setting() -> None:
    """Common practice: both halves gauged at one setting, each from its own outer face."""
    work = to_work(job("half-lap"))
    cheeks = [o for o in work.operations if o.kind == "cheek"]
    assert len({o.setting.guide for o in cheeks if o.setting is not None}) == 1
    assert {(c.down[-1], c.against) for o in cheeks for c in o.cuts} == {
        ("A", "face"), ("B", "face"), ("A", "back"), ("B", "back"),
    }  # fmt: skip
