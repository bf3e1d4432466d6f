"""The order laid out: test cuts where they belong, corrections that correct, guards, calm runs."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest

from sequencer.errors import Refusal
from sequencer.measured import Measured
from sequencer.pipeline import cut_as, plan
from sequencer.plan import Checkpoint, Plan
from sequencer.records import replace
from sequencer.saw.fittings import NUMBERED
from sequencer.saw.values import AWAY, KnobValue
from sequencer.setups.given import Given
from sequencer.setups.halfway import Done, Held, Past
from tests.setups.batches import one_off_centre
from tests.stages import to_job, to_plan, to_shop
from tests.test_hand_worked import FENCE_JIG, PAIR, SINGLE, SLOT_JIG

PLANS = {
    "pair, jig on the fence": (PAIR, FENCE_JIG),
    "single, from the face side": (SINGLE, SLOT_JIG),
}


@pytest.fixture(scope="module", params=PLANS)
def made(request: pytest.FixtureRequest) -> Plan:
    return to_plan(*PLANS[request.param])


def test_every_operation_stands_in_one_step_in_the_order(made: Plan) -> None:
    stepped = [name for step in made.steps for name in step.operations]
    assert stepped == [placed.operation for placed in made.ordering.order]
    assert len(set(stepped)) == len(made.ordering.operations) == len(stepped)


def test_minutes_add_up(made: Plan) -> None:
    own = {o.id: o.alternatives for o in made.ordering.operations}
    spent = sum(own[p.operation][p.alternative].minutes for p in made.ordering.order)
    assert sum(setup.minutes for setup in made.setups) + spent == made.ordering.minutes


def test_a_setup_begins_where_a_needed_knob_changes(made: Plan) -> None:
    for before, after in pairwise(made.setups):
        assert after.number == before.number + 1
        assert after.changes
    assert len(made.setups) == made.ordering.setups


def test_a_change_tells_where_the_knob_stood_and_where_it_is_set(made: Plan) -> None:
    """From there it is moved; out of the way, or not set yet, it stood at no number."""
    stood: dict[str, str] = {}
    numbers = 0
    for change in (change for setup in made.setups for change in setup.changes):
        assert change.before == stood.get(change.knob)
        if change.knob in NUMBERED:
            was = KnobValue.read(stood.get(change.knob, AWAY))
            now = KnobValue.read(change.after)
            assert change.stood == (None if was is None else was.number)
            assert change.number == (None if now is None else now.number)
            numbers += was is not None and now is not None
        stood[change.knob] = change.after
    assert numbers > 5


def test_a_freshly_tested_knob_has_its_checkpoint_before_good_wood(made: Plan) -> None:
    """Every ` tested` value that a setup sets is checked on scrap in that setup, before its first
    good cut that relies on it."""
    for setup in made.setups:
        fresh = {c.knob for c in setup.changes if c.after.endswith(" tested")}
        points = [p for p in made.checkpoints if p.setup == setup.number and p.scrap]
        assert {p.knob for p in points} == fresh, setup.number
        for point in points:
            step = made.steps[point.at_step - 1]
            assert (step.kind, step.operations) == ("test cut", ())
            assert point.before_step > point.at_step
            assert made.steps[point.before_step - 1].setup == setup.number


@pytest.mark.parametrize(
    ("usual", "own"),
    [
        ('slot = "17/64"', 'slot = "1/4"\noffset = "3/16"'),
        ('slot = "1/4"', 'slot = "1/4"\noffset = "3/16"'),
        ('slot = "1/4"\noffset = "1/8"', 'slot = "7/32"\noffset = "1/8"'),
    ],
    ids=["between the walls", "at a wall", "at the first walls"],
)
def test_unlike_channels_from_one_face_share_settings_and_each_is_measured(
    usual: str, own: str
) -> None:
    """Slots off the centre, which cannot be turned: a setting for one channel serves another's wall
    or pass between the walls. A width is measured only where both walls are cut, and all that is
    tried at a setting comes before good wood."""
    text = one_off_centre(2).replace('slot = "1/4"\noffset = "3/16"', own)
    made = to_plan(text.replace("[stiles]", f"[joint]\n{usual}\n[stiles]"), FENCE_JIG)
    at = {name: step.number for step in made.steps for name in step.operations}
    widened = [name for name in at if name.endswith("/widen")]
    assert widened
    for name in widened:
        assert at[name.replace("/widen", "/first")] < at[name]
    test_a_freshly_tested_knob_has_its_checkpoint_before_good_wood(made)
    for setup in made.setups:
        kinds = [step.kind for step in made.steps if step.setup == setup.number]
        tried = [n for n, kind in enumerate(kinds) if kind == "test cut"]
        assert all(kind in ("test cut", "refit guard", "remove guard")
                   for kind in kinds[: max(tried, default=0)])  # fmt: skip


def test_tolerances_lean_where_the_trades_do(made: Plan) -> None:
    """Common practice: shoulder depth and tenon width sooner under than over, slot depth sooner
    over; and an ordinary error to the other side still passes."""
    by_measure: dict[str, list[Checkpoint]] = {}
    for point in made.checkpoints:
        by_measure.setdefault(str(point.measure), []).append(point)
    for point in by_measure["shoulder-depth"]:
        assert 0 < point.high - point.target < point.target - point.low
    for point in by_measure["channel-depth/slot"]:
        assert 0 < point.target - point.low < point.high - point.target


def test_every_check_can_be_read_with_its_tool(made: Plan) -> None:
    """Target and limits are marks of the tool, the target inside, no further from what is planned
    than half a step; only two diagonals may not differ at all."""
    for point in made.checkpoints:
        assert point.resolution is not None
        assert point.tool != "fit"
        for value in (point.target, point.low, point.high):
            assert value % point.resolution == 0
        if str(point.measure) == "diagonals":
            assert point.low == point.target == 0 < point.high
        else:
            assert point.low < point.target < point.high
        if point.knob is not None:
            assert abs(point.target - point.exact) <= point.resolution / 2


def test_the_whole_fit_tolerance_is_a_quarter_of_a_64th(made: Plan) -> None:
    """Ours, after the clearance that joints are strongest with (about 0.1 mm); on the marks of a
    caliper. A slot may be off as far as a depth, where its tenons go by what it was measured as."""
    band = Fraction(4, 1000) if made.unit == "in" else Fraction(1, 10)
    wide = Fraction(14, 1000) if made.unit == "in" else Fraction(2, 5)
    last = [p for p in made.checkpoints if str(p.measure) in ("tenon", "to-far-cheek/back")]
    slots = {n: p for n, p in enumerate(made.checkpoints) if str(p.measure) == "channel-width/slot"}
    assert last
    assert {p.high - p.low for p in last} == {band}
    for n, slot in slots.items():
        followed = any(n in p.after for p in last)
        assert slot.high - slot.low == (wide if followed else band)
    assert {p.tool for p in (*last, *slots.values())} == {"caliper"}


def test_guards_go_back_on_before_a_rip(made: Plan) -> None:
    state = None
    for step in made.steps:
        if step.kind in ("refit guard", "remove guard"):
            state = step.kind
        elif step.setup is not None:
            on = made.setups[step.setup - 1].guard == "fitted"
            assert state == ("refit guard" if on else "remove guard"), step
            assert on == (step.kind == "rip"), step


def test_test_pieces_are_long_enough_and_cut_at_a_parts_stop(made: Plan) -> None:
    least = Fraction(10) if made.unit == "in" else Fraction(250)
    lengths = {part.size.length for part in made.parts}
    for scrap in made.scrap:
        assert scrap.size.length >= least
        assert scrap.size.length in lengths
        assert scrap.serves


def test_one_visit_for_one_kind_of_bench_work(made: Plan) -> None:
    kinds = [step.kind for step in made.steps if step.setup is None]
    assert len(kinds) == len(set(kinds))


SIGNS = {"channel-width/slot": -2, "channel-width/groove": -2, "tenon": 2, "shoulders": -2}


def test_a_correction_corrects() -> None:
    """The sign and size of `per_unit` against the geometry itself: the guide is moved, and what is
    measured changes by as much as the plan says. A slot turned round: walls `guide` thick on both
    sides, so T − 2·guide; a tenon: 2·guide − T; shoulders: length − 2·(guide + kerf)."""
    made = to_plan(PAIR, FENCE_JIG)
    thickness = made.parts[0].size.thickness
    for point in made.checkpoints:
        if str(point.measure) not in SIGNS or point.setup is None:
            continue
        setup = made.setups[point.setup - 1]
        assert setup.guide is not None
        scrap = next((s for s in made.scrap if s.mark == point.scrap), made.scrap[0])

        def measure(guide: Fraction, of: str = str(point.measure), kerf: Fraction = setup.kerf,
                    length: Fraction = scrap.size.length) -> Fraction:  # fmt: skip
            if of in ("channel-width/slot", "channel-width/groove"):
                return thickness - 2 * guide
            if of == "tenon":
                return 2 * guide - thickness
            return length - 2 * (guide + kerf)

        assert measure(setup.guide) == point.exact
        off = setup.guide + Fraction(1, 50)
        assert point.per_unit == SIGNS[str(point.measure)]
        move = (point.exact - measure(off)) / point.per_unit
        assert measure(off + move) == point.exact


def test_a_measured_kerf_moves_shoulders_and_not_crosscuts() -> None:
    job = to_job(PAIR)
    shop = to_shop(FENCE_JIG, job)
    kerf = Fraction(121, 1000)
    as_said = plan([job], shop)
    as_cut = plan([job], shop, Measured(kerf={"joinery": kerf}))

    def stops(of: Plan) -> set[Fraction | None]:
        return {s.guide for s in of.setups if s.carrier == "crosscut-sled"}

    assert Fraction(61, 32) in stops(as_said)
    assert Fraction(65, 32) - kerf in stops(as_cut)
    assert Fraction(289, 16) in stops(as_said) & stops(as_cut)


def test_a_measured_thickness_moves_turned_guides() -> None:
    """Guide (T − s)/2: 0.744 in stock instead of 3/4."""
    job = to_job(PAIR)
    measured = Measured(thickness={Fraction(3, 4): Fraction(93, 125)})
    made = plan([job], to_shop(FENCE_JIG, job), measured)
    (slot,) = {p.exact for p in made.checkpoints if str(p.measure) == "channel-width/slot"}
    on_end = {s.guide for s in made.setups if s.carrier == "tenoning-jig"}
    assert (Fraction(93, 125) - slot) / 2 in on_end


def test_a_plan_made_again_half_way_goes_on_from_what_is_done() -> None:
    job = to_job(PAIR)
    whole = plan([job], to_shop(FENCE_JIG, job))
    order = whole.ordering.order
    placed = order[: len(order) // 2]
    last = placed[-1]
    held = {knob: Held(value, last.operation, True) for knob, value in last.state.items()}
    past = Past(tuple(Done(each.operation, each.state) for each in placed), held)
    given, choices = Given((job,), to_shop(FENCE_JIG, job)).as_in(whole)
    again = cut_as(replace(given, past=past), choices)
    assert again.ordering.order[: len(placed)] == placed
    assert {p.operation for p in again.ordering.order} == {p.operation for p in order}
    assert again.ordering.minutes == whole.ordering.minutes
    assert again.proven


def test_half_way_what_was_cut_within_half_the_fit_band_is_good_and_beyond_it_is_not() -> None:
    """The whole band of a fit is 1/256 in: cut off by half of it, a length is as planned. Cut off
    by all of it, the plan says so rather than go on as if it were."""
    job = to_job(PAIR)
    whole = plan([job], to_shop(FENCE_JIG, job))
    last = next(n for n, p in enumerate(whole.ordering.order) if p.operation == "A4/crosscut")
    placed = whole.ordering.order[: last + 1]
    given, choices = Given((job,), to_shop(FENCE_JIG, job)).as_in(whole)

    def gone_on(off: Fraction) -> Plan:
        stop = Fraction(placed[-1].state["stop"]) + off
        states = [*(p.state for p in placed[:-1]), {**placed[-1].state, "stop": str(stop)}]
        done = tuple(Done(p.operation, s) for p, s in zip(placed, states, strict=True))
        held = {knob: Held(value, "A4/crosscut", True) for knob, value in states[-1].items()}
        return cut_as(replace(given, past=Past(done, held)), choices)

    assert gone_on(Fraction(1, 512)).ordering.order[: last + 1] == placed
    for off in (Fraction(1, 256), -Fraction(1, 256)):
        with pytest.raises(Refusal, match=r"cut-elsewhere.*A4/crosscut"):
            gone_on(off)


def test_what_was_made_half_way_is_told_piece_by_piece() -> None:
    """Of slots that are one step, those that were cut; of bench work, the leaf that it was of."""
    made = to_plan(PAIR, FENCE_JIG)
    slots = next(step for step in made.steps if step.kind == "slot")
    fit = next(step for step in made.steps if step.kind == "dry fit")
    assert len({cut.mark for cut in slots.cuts}) == len(slots.operations) > 2
    for name in (*slots.operations, *fit.operations):
        step = slots if name in slots.operations else fit
        past = Past((Done(name, {}),), {})
        assert past.made(made) == {(step.number, name.split("/")[0])}


def test_the_order_does_not_hang_on_equal_doors() -> None:
    """Doubling a door adds no setup: every knob value is the same."""
    one = to_plan(SINGLE, SLOT_JIG)
    two = to_plan(SINGLE.replace("[[door]]", "[[door]]\ncount = 2"), SLOT_JIG)
    assert two.ordering.minutes == one.ordering.minutes
    assert len(two.parts) == 2 * len(one.parts)


def test_baselines_are_of_the_same_problem(made: Plan) -> None:
    names = [baseline.name for baseline in made.ordering.baselines]
    assert names == ["door-by-door", "by-kind-of-cut", "cheapest-next"]
    assert all(b.minutes >= made.ordering.minutes for b in made.ordering.baselines)
    assert made.ordering.proven
    assert made.ordering.bound == made.ordering.minutes


def test_the_calm_rewrite_keeps_the_states() -> None:
    """Each cut is made in a state that it accepts, and no knob moves without need."""
    made = to_plan(PAIR, FENCE_JIG)
    needs = {o.id: o.alternatives for o in made.ordering.operations}
    state: dict[str, str] = {}
    for placed in made.ordering.order:
        wanted = needs[placed.operation][placed.alternative].needs
        for knob, values in wanted.items():
            assert placed.state[knob] in values
        moved = {k for k, v in placed.state.items() if state.get(k) != v}
        assert moved <= set(wanted)
        state = dict(placed.state)
