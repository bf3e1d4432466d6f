"""The stage as a whole, on hand-made plans and on plans of the pipeline."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise

import pytest

from sequencer import safety
from sequencer.errors import Refusal
from sequencer.facts import Fact, Length, cautions
from sequencer.job.load import load_job
from sequencer.job.schema import Shop
from sequencer.job.shop import default_shop
from sequencer.lengths import Unit
from sequencer.pipeline import plan as make_plan
from sequencer.plan import Plan
from sequencer.records import replace
from sequencer.safety.findings import Finding
from sequencer.safety.moments import Moment
from sequencer.safety.review import PREDICATES
from sequencer.safety.rules import WORDS, limits, load
from sequencer.safety.telling import caution, hazard
from sequencer.wording import Room
from sequencer.wording.cautions import parts
from sequencer.wording.changes import guarded
from sequencer.wording.complaints import complaint
from tests import bystander
from tests.proof import hand
from tests.safety.build import (
    bevel,
    change,
    cheek,
    crosscut,
    groove,
    housing,
    mitre,
    rebate,
    rip,
    ripped_late_without_refit,
    shoulder,
)

F = Fraction
GLANCE = 280
"""Characters of the message that leads a setup's box: about four lines at the size that is read at
the saw; ours."""

COMMON = {
    "in": """
        unit = "in"
        species = "cherry"
        [stock]
        thickness = "3/4"
        [stiles]
        hinge = "{stile}"
        [rails]
        top = "{rail}"
        [gaps]
        meeting = "3/16"
        [[door]]
        leaves = {leaves}
        [door.opening]
        width = "{width}"
        height = "{height}"
        """,
    "mm": """
        unit = "mm"
        species = "cherry"
        [stock]
        thickness = "19"
        [stiles]
        hinge = "{stile}"
        [rails]
        top = "{rail}"
        [gaps]
        meeting = "5"
        [[door]]
        leaves = {leaves}
        [door.opening]
        width = "{width}"
        height = "{height}"
        """,
}


def doors(unit: Unit, width: str, height: str, leaves: int, stile: str, rail: str) -> Plan:
    text = COMMON[unit].format(width=width, height=height, leaves=leaves, stile=stile, rail=rail)
    if leaves == 1:
        text = "\n".join(
            line for line in text.splitlines() if "meeting" not in line and "[gaps]" not in line
        )
    text = "\n".join(line.strip() for line in text.splitlines())
    return make_plan([load_job(text, "job.toml")], default_shop(unit))


@pytest.fixture(scope="module")
def pair() -> Plan:
    return doors("in", "30", "24", 2, "2", "2")


def named(shop: Shop) -> Shop:
    """A shop that answers what covers the blade."""
    return replace(shop, saw=replace(shop.saw, cover="blade box on the sled, cover on the jig"))


# The commonest doors: kitchen and wall-cupboard sizes, frames of 2 to 2-1/4 in (50 to 57 mm).
@pytest.mark.parametrize(
    ("unit", "width", "height", "leaves", "stile", "rail"),
    [
        ("in", "15", "24", 1, "2", "2"),
        ("in", "30", "30", 2, "2 1/4", "2 1/4"),
        ("in", "24", "18", 2, "2", "2 1/2"),
        ("mm", "400", "720", 1, "50", "50"),
        ("mm", "600", "600", 2, "57", "57"),
    ],
)
def test_the_commonest_doors_pass(
    unit: Unit, width: str, height: str, leaves: int, stile: str, rail: str
) -> None:
    plan = doors(unit, width, height, leaves, stile, rail)
    found = safety.review(plan, default_shop(unit))
    assert found.refusals == ()
    # The built-in shop names no cover and lays blanks out with thin strips to spare: both are
    # asked; nothing else about such doors is.
    assert {flag.rule for flag in found.warnings} <= {"C04", "E07"}
    assert {flag.rule for flag in safety.review(plan, named(default_shop(unit))).warnings} <= {
        "E07"
    }


def test_every_setup_has_a_message_and_the_worst_word_leads(pair: Plan) -> None:
    found = safety.review(pair, default_shop("in"))
    assert set(found.cautions) == {setup.number for setup in pair.setups}
    for messages in found.cautions.values():
        words = [WORDS.index(message.word) for message in messages]
        assert all(first <= second for first, second in pairwise(words))


def test_the_box_says_what_is_held_and_heeds_what_covers_the_blade(pair: Plan) -> None:
    for shop, word in ((default_shop("in"), "DANGER"), (named(default_shop("in")), "WARNING")):
        found = safety.review(pair, shop)
        for setup in pair.setups:
            box = found.cautions[setup.number][0]
            if setup.guard == "fitted":
                assert box.says.kind in (cautions.B05, cautions.B06, cautions.B07)
                assert box.word == "WARNING"
                continue
            assert box.word == word
            held = {fact.id for fact in bystander.told(box.says)}
            if setup.carrier == "crosscut-sled" and setup.guide is not None:
                assert held & {"caution.side-stop", "caution.side-beyond", "caution.side-longer"}
            if setup.carrier == "rip-fence":
                assert box.says.given["hold_down"] == shop.saw.hold_down


def test_a_box_is_read_at_a_glance(pair: Plan) -> None:
    # The other messages stand below it.
    room = Room("UK", F(1, 64))
    for shop in (default_shop("in"), named(default_shop("in"))):
        for messages in safety.review(pair, shop).cautions.values():
            assert len(f"{messages[0].word} {room.say(messages[0].says)}") <= GLANCE


@pytest.mark.parametrize("moment", [groove(), rebate(), bevel(), housing(), mitre(), cheek()])
def test_the_main_text_of_every_kind_of_cut_leaves_the_box_readable(moment: Moment) -> None:
    moment = change(moment, cover=None, hold_down="featherboard and push block")
    finding = PREDICATES["C09"](moment, limits("in", {}))
    assert finding is not None
    assert load().by_id["C09"].case(finding.case).main
    message = caution(finding, (moment,), "in")
    assert message.word == "DANGER"
    assert len(f"DANGER {Room('UK').say(message.says)}") <= GLANCE


def holding(finding: Finding, seen: Sequence[Moment]) -> Fact:
    held = hazard(finding, seen, "in").given["held"]
    assert isinstance(held, Fact)
    return held


def test_a_piece_is_held_by_hand_only_where_the_hand_stays_away() -> None:
    # Manuals keep hands 6 in from the blade; a hand at the end of the longer side takes 3-1/2.
    def box(length: Fraction, *, clamp: bool) -> Fact:
        piece = shoulder(length=length, clamp=clamp)
        return holding(Finding("C09", "caution", case="sled"), [piece])

    def beyond(least: Fraction | None) -> Fact:
        return cautions.SIDE_BEYOND(least=None if least is None else Length(least, "in"))

    # The shoulder stands 1-7/8 from the end and takes a kerf of 1/8.
    near, hair = 2 + F(19, 2), F(1, 64)
    # How long the side is, is told where that is too little for a hand.
    assert box(near, clamp=True) == cautions.CLAMP_OR_HOLD(side=beyond(None))
    assert box(near - hair, clamp=True) == cautions.CLAMP(side=beyond(F(19, 2) - hair))
    assert box(near, clamp=False) == cautions.HOLD_ONLY(side=beyond(None))
    # Nearer than that a clamp is made for the sled that has none.
    assert box(near - hair, clamp=False) == cautions.CLAMP(side=beyond(F(19, 2) - hair))


def test_what_is_crosscut_is_held_between_stop_and_blade() -> None:
    """The longer side is the stick that is left, nearly always; the piece that is kept lies captive
    between stop and blade, and must be what hand or clamp holds (manual of a US table saw, on short
    work; which side, common practice)."""

    def box(*pieces: Moment) -> Fact:
        return holding(Finding("C04", "caution", case="sled"), pieces)

    def at_stop(least: int | None) -> Fact:
        return cautions.SIDE_STOP(least=None if least is None else Length(F(least), "in"))

    both = [crosscut(length=F(60), guide=guide) for guide in (F(16), F(10))]
    assert box(*both) == cautions.CLAMP_OR_HOLD(side=at_stop(None))
    shorter = crosscut(length=F(60), guide=F(5))
    assert box(shorter) == box(*both, shorter) == cautions.CLAMP(side=at_stop(5))
    squared = crosscut(length=F(60), guide=None)
    assert box(squared) == cautions.CLAMP_OR_HOLD(side=cautions.SIDE_STICK(least=None))
    # With nothing but the hand, a piece that leaves it no room waits for a clamp, however long its
    # stick.
    figures = limits("in", {})
    near = crosscut(length=F(60), guide=F(6), clamp=False)
    found = PREDICATES["B04"](near, figures)
    assert found is not None
    assert (found.level, found.measured) == ("warn", F(5, 2))


@pytest.mark.parametrize("gap", [1, 3, 8])
def test_every_rip_is_told_to_set_the_fence_short(gap: int) -> None:
    """UK HSE, Circular saw bench: a fence overlaps the blade by at most 18 mm (A12)."""
    figures, moment = limits("in", {}), rip(guide=F(gap), width=F(12))
    met = [found for name in ("B05", "B06", "B07") if (found := PREDICATES[name](moment, figures))]
    assert len(met) == 1
    said = parts(Room("UK"), caution(met[0], (moment,), "in"))
    assert "short" in said.avoidance.lower()


def test_what_is_clamped_is_said_by_its_side() -> None:
    for moment, side in (
        (crosscut(length=F(7), guide=F(5), clamp=False), "the stop side (5″ or longer)"),
        (crosscut(length=F(7), guide=None, clamp=False), "the strip (6 7/8″ or longer)"),
        (shoulder(length=F(7), clamp=False), "the far part (5″ or longer)"),
    ):
        found = PREDICATES["B09"](moment, limits("in", {}))
        assert found is not None
        said = parts(Room("UK"), caution(found, (moment,), "in"))
        assert said.avoidance == f"Clamp {side} to the sled."
        assert said.brief == f"Small piece, 7″: clamp {side}."


def test_the_saw_is_unplugged_where_cutter_or_guard_change(pair: Plan) -> None:
    found = safety.review(pair, default_shop("in"))
    for setup in pair.setups:
        unplug = [c for c in found.cautions[setup.number] if c.rule == "C13"]
        touched = {change.knob for change in setup.changes} & {"cutter", "guard"}
        assert len(unplug) == bool(touched)


def test_a_shop_without_a_cover_is_asked_once(pair: Plan) -> None:
    found = safety.review(pair, default_shop("in"))
    asked = [flag for flag in found.warnings if flag.tick == cautions.TICK_COVER()]
    assert len(asked) == 1
    bare = {setup.number for setup in pair.setups if setup.guard != "fitted"}
    assert set(asked[0].setups) == bare


def test_the_first_page_defers_and_says_it_once() -> None:
    plan, shop = hand.make(), rip().shop
    found = safety.review(plan, shop)
    said = " ".join(Room("UK").say(each.says) for each in found.standing).lower()
    for needed in (
        "manual, local rules, qualified instruction come first", "minors", "unplug", "eye",
        "dust", "gloves", "flat, straight", "checks", "a jammed piece", "switch off",
        "never pull back", "visitors", "drawing back past the running blade",
    ):  # fmt: skip
        assert needed in said
    checked = " ".join(Room("UK").say(each) for each in found.before_power).lower()
    for needed in (
        "parallel", "locked within 5/16″", "guard on the work", "sharp, tight", "flat and straight",
        "switch within reach", "for rips at most 11/16″ past its first teeth",
    ):  # fmt: skip
        assert needed in checked
    assert safety.standing(plan) == found.standing


def test_woods_that_harm_are_named_on_the_first_page() -> None:
    """Oak and beech are on the Health and Safety Commission's list of timbers implicated with
    effects on health (Hansard, 2 August 1978); cherry is not."""
    for wood, named in (("cherry", False), ("oak, white", True), ("beech", True)):
        parts = tuple(replace(part, material=wood) for part in hand.make().parts)
        standing = safety.standing(replace(hand.make(), parts=parts))
        dust = next(each for each in standing if each.rule == "G03")
        assert (dust.says == cautions.G03_WOODS(woods=(wood,))) is named
        assert (dust.says == cautions.G03()) is not named


def test_the_bench_warns_of_rags_router_and_glass() -> None:
    found = safety.review(hand.make(), rip().shop).at_bench
    assert {kind: [each.rule for each in all_] for kind, all_ in found.items()} == {
        "finish": ["K02"], "shaped groove": ["K01"], "glaze": ["K03"],
    }  # fmt: skip


def test_a_warning_has_every_piece_and_the_figures_of_the_worst(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """One cut in three short rails, the shortest in the middle."""
    lengths = {"A3": F(7), "A4": F(6), "A5": F(13, 2)}
    passes = [shoulder(mark=m, length=long, clamp=False) for m, long in lengths.items()]
    monkeypatch.setitem(vars(sys.modules[safety.review.__module__]), "moments", lambda *_: passes)
    found = safety.review(hand.make(), passes[0].shop)
    (flag,) = (flag for flag in found.warnings if flag.rule == "B09")
    assert sorted(flag.marks) == ["A3", "A4", "A5"]
    assert (flag.measured, flag.limit) == (F(6), F(8))


def test_all_refusals_come_at_once_with_piece_cut_rule_and_remedy() -> None:
    shop = rip().shop
    # A sled for 12 in at most, and a jig that opens 1/2 in.
    small = replace(
        shop, sled=replace(shop.sled, longest=F(12)), jig=replace(shop.jig, opening=F(1, 2))
    )
    found = safety.review(hand.make(), small)
    assert {each.rule for each in found.refusals} == {"H01", "H03"}
    rail = next(r for r in found.refusals if r.mark == "A3" and r.does == "shoulder")
    assert (rail.rule, rail.measured, rail.limit) == ("H01", F(193, 16), F(12))
    with pytest.raises(Refusal) as raised:
        raise safety.Unsafe(found.refusals)
    text = complaint(raised.value, Room("UK"))
    assert (
        "A3 (top rail); A4 (bottom rail), shoulder: At 12 1/16″ the piece is longer than the "
        "12″ that the sled takes. It tips off the sled in the cut.\n"
        "    What would do: Crosscut it roughly with a hand saw first"
    ) in text
    squared = "strip for A1, A2, A3, A4; test strip for S1, S2; strip for A5, squaring cut: At 59″"
    assert squared in text
    assert "test piece S1; A1 (hinge stile); A2 (lock stile), slot: The jig" in text
    assert "test piece S2; A3 (top rail); A4 (bottom rail), cheek: The jig" in text
    assert [text.count(f"Rule {rule}: ours") for rule in ("H01", "H03")] == [3, 2]


def test_a_measure_that_rounds_to_its_limit_is_told_exactly() -> None:
    shop = rip().shop
    most = F(59) - F(1, 2) - F(1, 100000)
    found = safety.review(hand.make(), replace(shop, sled=replace(shop.sled, longest=most)))
    room = Room("UK", F(1, 64))
    assert any("5849999/100000″" in room.say(each.why) for each in found.refusals)


def test_words_of_the_shop_are_never_read_as_places() -> None:
    shop = rip().shop
    odd = replace(shop, saw=replace(shop.saw, hold_down="{oops} & <b>"))
    found = safety.review(hand.make(), odd)
    groove = next(s for s in hand.make().setups if s.guide == F(1, 4) and s.carrier == "rip-fence")
    box = parts(Room("UK"), found.cautions[groove.number][0])
    assert "Press down before it: {oops} & <b>." in box.avoidance
    covered = guarded("knife", replace(hand.make().shop, cover="{0} {gap}"), Room("UK"))
    assert covered == "guard off, riving knife low; over the blade instead: {0} {gap}"


def test_a_shop_can_be_stricter_not_looser() -> None:
    shop = rip().shop
    strict = replace(shop, limits={"clamped_on_end": F(11)})
    assert {r.rule for r in safety.review(hand.make(), strict).refusals} == {"H06"}
    loose = replace(shop, limits={"push_stick_gap": F(1), "insert_opening": F(2)})
    assert safety.review(hand.make(), loose).refusals == ()
    rips = safety.review(hand.make(), loose).cautions[1]
    assert "B05" in {message.rule for message in rips}


def test_a_missing_refit_step_is_refused() -> None:
    found = safety.review(ripped_late_without_refit(), rip().shop)
    assert [(r.rule, r.mark) for r in found.refusals] == [("C08", "#3")]


def test_the_order_of_rules_is_the_order_of_warnings(pair: Plan) -> None:
    found = safety.review(pair, default_shop("in"))
    order = list(load().by_id)
    places = [order.index(flag.rule) for flag in found.warnings]
    assert places == sorted(places)
    assert found == safety.review(pair, default_shop("in"))


@pytest.mark.parametrize(
    ("rule", "table", "key", "small"),
    [
        ("H01", "sled", "longest", F(20)),
        ("H02", "sled", "widest", F(5)),
        ("H03", "jig", "opening", F(1, 2)),
        ("H04", "saw", "max_height", F(3, 2)),
    ],
)
def test_what_a_refusal_asks_of_the_shop_is_enough_and_no_more(
    rule: str, table: str, key: str, small: Fraction
) -> None:
    def reviewed(value: Fraction) -> set[str]:
        part = replace(getattr(shop, table), **{key: value})
        found = safety.review(hand.make(), replace(shop, **{table: part}))
        measured.extend(r.measured for r in found.refusals if r.measured is not None)
        return {r.rule for r in found.refusals}

    shop, measured = rip().shop, list[Fraction]()
    assert reviewed(small) == {rule}
    asked = max(measured)
    assert reviewed(asked) == set()
    assert reviewed(asked - F(1, 1000)) == {rule}


def test_a_short_piece_on_a_sled_without_a_clamp_gets_one_made() -> None:
    shop = rip().shop
    short = replace(shop, limits={"hand_to_blade": F(9)}, sled=replace(shop.sled, clamp=False))
    found = safety.review(hand.make(), short)
    assert found.refusals == ()
    assert "B04" in {flag.rule for flag in found.warnings}
    assert "sled-clamp" in {aid.name for aid in found.aids}
    clamped = replace(short, sled=shop.sled)
    assert "sled-clamp" not in {aid.name for aid in safety.review(hand.make(), clamped).aids}


def test_a_refusal_tightened_past_its_warning_still_refuses() -> None:
    strip = PREDICATES["F01"](rip(), limits("in", {"strip_at_fence": F(5)}))
    assert strip is not None
    assert strip.level == "refuse"
