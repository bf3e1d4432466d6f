"""Pieces made again: as their mates, proven, batched, with test pieces of their own."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from sequencer import sheets
from sequencer.contract import from_json, to_json
from sequencer.errors import Refusal, UsageError
from sequencer.facts import advices, feels, proofs
from sequencer.job.load import load_job
from sequencer.job.schema import Job, Shop
from sequencer.job.shop import default_shop, load_shop
from sequencer.measured import Measured
from sequencer.pipeline import cut_as, plan
from sequencer.plan import Plan
from sequencer.proof import prove
from sequencer.records import replace
from sequencer.saved.evidence import Noted
from sequencer.saved.recut import recut, spare, told, worth_a_spare
from sequencer.sawside import again
from sequencer.sawside.saving import learned
from sequencer.setups.given import Given
from tests.saved.test_story import FIRST
from tests.sawside.driver import Saw, exact

SHOP: Shop = default_shop("in")


def given(job: Job) -> Given:
    return Given((job,), SHOP)


@pytest.fixture(scope="module")
def job() -> Job:
    return load_job(FIRST, "job.toml")


@pytest.fixture(scope="module")
def original(job: Job) -> Plan:
    return plan([job], SHOP)


@pytest.mark.parametrize("marks", [["A1"], ["A4"], ["A5"], ["A1", "A3", "A4"]], ids="+".join)
def test_a_piece_comes_out_as_its_twin_did(original: Plan, job: Job, marks: list[str]) -> None:
    made = recut(original, given(job), marks)
    wanted = {part.mark: part for part in original.parts}
    assert list(made.parts) == [wanted[mark] for mark in marks]
    assert made.again == tuple(marks)
    assert prove(made) == made.proven
    (sawn,) = made.proven  # and no door
    assert proofs.PARTS(n=len(marks)) in sawn.values
    assert made.ordering.proven
    assert from_json(to_json(made)) == made
    assert sheets.html(made, "letter")


def test_no_order_of_these_cuts_takes_fewer_minutes_and_one_batch_takes_fewer_than_two(
    original: Plan, job: Job
) -> None:
    both = recut(original, given(job), ["A3", "A4"])
    alone = [recut(original, given(job), [mark]) for mark in ("A3", "A4")]
    assert both.ordering.bound == both.ordering.minutes
    assert both.ordering.minutes < sum(made.ordering.minutes for made in alone)


def test_a_rail_is_tried_in_its_mates_slots(original: Plan, job: Job) -> None:
    made = recut(original, given(job), ["A3"])
    (fit,) = [c for c in made.checkpoints if str(c.measure) == "tenon"]
    assert fit.feel.given["into"] == feels.OWN_SLOT(mates=("A1", "A2"))
    assert [len(stick.pieces) for stick in made.sticks if stick.test] == [1]
    whole = [c.feel for c in original.checkpoints if str(c.measure) == "tenon"]
    assert all(feel.given["into"] == feels.OTHER_PIECE() for feel in whole)


def test_a_rail_made_with_its_stile_is_tried_in_a_slot_that_is_cut_with_it(
    original: Plan, job: Job
) -> None:
    made = recut(original, given(job), ["A1", "A3"])
    (fit,) = [c for c in made.checkpoints if str(c.measure) == "tenon"]
    assert fit.feel.given["into"] == feels.OTHER_PIECE()


def test_a_stile_has_its_test_piece_and_its_test_cut(original: Plan, job: Job) -> None:
    made = recut(original, given(job), ["A1"])
    assert [step.kind for step in made.steps].count("test cut") >= 2  # groove and slot
    assert any(stick.test for stick in made.sticks)


def test_the_methods_are_those_of_the_plan_that_was_followed(original: Plan, job: Job) -> None:
    methods = dict(original.answers)
    other = next(m for m in original.methods if m.choices["slot"] != methods["slot"])
    only = replace(given(job), only=frozenset({"A1"}))
    pretended = replace(
        original,
        methods=tuple(replace(m, chosen=m == other) for m in original.methods),
        parts=cut_as(only, only.answered(other.choices)).parts,
    )
    made = recut(pretended, given(job), ["A1"])
    kinds = {name.rpartition("/")[2] for step in made.steps for name in step.operations}
    assert ("first" in kinds) == (other.choices["slot"] == "one-face")


def test_a_slot_that_was_cut_otherwise_makes_another_tenon(original: Plan, job: Job) -> None:
    measured = Measured(slot={Fraction(1, 4): Fraction(253, 1000)})
    made = recut(original, replace(given(job), measured=measured), ["A3"])

    def thickness(made: Plan) -> Fraction:
        part = next(part for part in made.parts if part.mark == "A3")
        front, back = (f.box[2] for f in part.features if f.kind == "cheek" and f.at == "A")
        return back[0] - front[1]

    assert thickness(made) - thickness(original) == Fraction(3, 1000)


def test_a_changed_job_or_an_unknown_mark_is_refused(original: Plan, job: Job) -> None:
    with pytest.raises(UsageError, match=r"advice.no-piece\(mark=B7, known=\(A1, A2"):
        recut(original, given(job), ["B7"])
    changed = load_job(FIRST.replace('width = "14"', 'width = "14 1/4"'), "job.toml")
    with pytest.raises(Refusal, match=r"comes-out-otherwise\(mark=A3, how=.*size\.length"):
        recut(original, given(changed), ["A3"])


def test_a_spare_cut_along_takes_no_further_setting(original: Plan, job: Job) -> None:
    """Ordered again with the spare: what the sheet says of it is what the search finds."""
    for mark in ("A1", "A3", "A5"):
        made = recut(original, given(job), [mark])
        cost = spare(original, given(job), made)
        assert cost.along == 0
        assert cost.again == made.ordering.minutes
        again = made.ordering.minutes
        free = advices.NO_SETTING_MORE()
        assert told(cost) == advices.SPARE_SAVES(marks=(mark,), along=free, again=again)


def test_the_night_before_names_pieces_worth_a_spare(original: Plan, job: Job) -> None:
    lines = worth_a_spare(original, given(job))
    assert [line.given["mark"] for line in lines] == ["A1", "A3"]
    for line, mark in zip(lines, ("A1", "A3"), strict=True):
        least = line.given["least"]
        assert isinstance(least, Fraction)
        assert 10 <= least <= recut(original, given(job), [mark]).ordering.minutes


@pytest.mark.parametrize("mark", ["A3", "A5"])
def test_what_the_bench_shapes_is_made_again_with_its_shape(mark: str) -> None:
    arched = load_job(ARCHED, "job.toml")
    original = plan([arched], SHOP)
    made = recut(original, given(arched), [mark])
    kinds = [step.kind for step in made.steps if step.marks == (mark,)]
    assert ("shape" if mark == "A3" else "shape panel") in kinds
    assert prove(made) == made.proven
    cost = spare(original, given(arched), made)
    assert cost.along < cost.again


ARCHED = """
unit = "in"
[stock]
thickness = "3/4"
[shape]
kind = "arch"
rise = "1-1/2"
[[door]]
opening = { width = "14", height = "20" }
"""


def test_a_leaf_of_a_pair_is_made_again_without_its_mate() -> None:
    """Of solid doors a leaf is one piece, so that the plan holds a leaf and no pair."""
    pair = load_job(SOLID, "job.toml")
    original = plan([pair], SHOP)
    made = recut(original, given(pair), ["B1"])
    assert [(door.mark, door.pair) for door in made.doors] == [("B", ("B",))]
    assert [door.pair for door in original.doors] == [("A", "B"), ("A", "B")]
    assert prove(made) == made.proven
    assert sheets.html(made, "letter")


SOLID = """
unit = "in"
[stock]
thickness = "3/4"
[slab]
[gaps]
meeting = "1/4"
[[door]]
leaves = 2
opening = { width = "25", height = "20" }
"""


def test_a_raised_panel_is_measured_where_the_plan_has_no_other_length_so_fine() -> None:
    """Its thickness is measured 15/64 in from the edge, and nothing else there is in 64ths."""
    text = (
        'unit = "in"\nfill = "raised"\n[stiles]\nlock = "1 5/8"\n[panel]\nthickness = "1/2"\n'
        '[sits]\nhow = "overlay"\ntop = "5/8"\nbottom = "5/8"\nlock = "9/16"\n'
        '[stock]\nthickness = "0.774"\n[[door]]\n[door.opening]\nwidth = "21.5"\n'
        'height = "27 3/16"\n'
    )
    shop = load_shop('unit = "in"\n[[cutter]]\nname = "blade"\nkerf = "0.107"\n', "shop.toml", "in")
    job = load_job(text, "job.toml")
    made = recut(plan([job], shop), Given((job,), shop), ["A5"])
    assert any(str(point.measure).startswith("bevel:") for point in made.checkpoints)


def test_a_kerf_that_changed_since_moves_nothing_that_is_cut(original: Plan, job: Job) -> None:
    """A thinner blade makes what is wanted by other settings; the piece fits its mates."""
    blade = replace(SHOP.joinery_blade, kerf=Fraction(1, 10))
    now = replace(given(job), shop=replace(SHOP, cutters=(blade,)))
    mates = again.as_printed(original, now)
    made = recut(original, mates.given, ["A3"], mates.choices)
    assert list(made.parts) == [part for part in original.parts if part.mark == "A3"]
    assert {setup.kerf for setup in made.setups} == {Fraction(1, 10)}
    assert prove(made) == made.proven
    assert [str(each.kind.id) for each in mates.says] == ["command.mates-have"]


def test_a_slot_that_no_piece_has_or_no_saw_cuts_is_refused(original: Plan, job: Job) -> None:
    mates = again.as_printed(original, given(job))
    with pytest.raises(UsageError, match=r"no-slot\(slot=3/10 in, known=\(1/4 in\)"):
        again.with_slot(mates, Fraction(3, 10), Fraction(1, 4))
    with pytest.raises(UsageError, match="slot-too-far"):
        again.with_slot(mates, Fraction(1, 4), Fraction("2.50"))
    known = again.with_slot(mates, Fraction(1, 4), Fraction("0.253")).given.measured
    assert known.slot == {Fraction(1, 4): Fraction("0.253")}


def test_what_was_followed_tells_the_state_of_the_mates(tmp_path: Path) -> None:
    """A slot that was left wider than planned: the tenon of the rail that is made again is as much
    thicker, and nobody types it."""
    saw = Saw(tmp_path / "events.sqlite")
    saw.go_to_measure("channel-width/slot")
    point = saw.card.points[saw.unit.point or 0]
    wider = point.high + (point.high - point.target)
    saw.keep(exact(wider, saw.state))
    saw.finish()
    state = saw.state
    mates = again.as_followed(state, state.base.given, "events.sqlite")
    rail = next(p.mark for p in state.plan.parts if p.role == "rail")
    made = recut(mates.plan, mates.given, [rail], mates.choices)
    assert list(made.parts) == [part for part in state.plan.parts if part.mark == rail]
    printed = next(part for part in state.base.plan.parts if part.mark == rail)
    assert made.parts[0] != printed
    assert {each.kind.id for each in mates.says} == {"command.as-followed", "command.mates-have"}


def test_a_slot_that_came_out_otherwise_and_is_good_tells_its_tenon_too(tmp_path: Path) -> None:
    """At the edge of its wide window nothing is planned anew; the page's tenon goes by it, and so
    does a rail that is made again."""
    saw = Saw(tmp_path / "events.sqlite")
    saw.go_to_measure("channel-width/slot")
    point = saw.card.points[saw.unit.point or 0]
    saw.read(exact(point.high, saw.state))
    saw.go_to_measure("tenon")
    tenon = saw.card.points[saw.unit.point or 0]
    off = point.high - point.target
    assert Fraction(saw.wanted()) == tenon.target + off
    saw.finish()
    assert saw.state.measurements == []
    mates = again.as_followed(saw.state, saw.state.base.given, "events.sqlite")
    rail = next(p.mark for p in saw.state.plan.parts if p.role == "rail")
    assert mates.otherwise
    made = recut(mates.plan, mates.given, [rail], mates.choices, otherwise=True)
    alone = next(c for c in made.checkpoints if str(c.measure) == "tenon")
    assert alone.exact == tenon.exact + (point.high - point.exact)
    assert {each.kind.id for each in mates.says} == {"command.as-followed", "command.mates-have"}
    noted = [n for n in learned(saw.state).values() if isinstance(n, Noted)]
    assert [(n.what, n.planned, n.value) for n in noted if n.what == "slot"] == [
        ("slot", point.exact, point.high)
    ]
