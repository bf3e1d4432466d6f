"""What goes by what: which checks refer to which, and that the printed sum and the page say so."""

from __future__ import annotations

import re
from fractions import Fraction
from pathlib import Path

import pytest

from sequencer import pipeline
from sequencer.errors import InternalError
from sequencer.instructions.figures import Scale
from sequencer.job.load import load_job
from sequencer.job.shop import default_shop
from sequencer.plan import Checkpoint, Plan
from sequencer.proof import prove
from sequencer.records import replace
from sequencer.saw.measures import What
from sequencer.setups.set_by import told_how
from sequencer.sheets.checks import check as told
from sequencer.tolerance import held
from sequencer.trade.fits import FOLLOWED_BAND
from sequencer.wording import for_plan
from tests.proof.test_intent import EXAMPLES, example
from tests.tolerance.jobs import checked, planned, with_check
from tests.tolerance.test_two_stocks import planned as two_stocks

Mates = dict[str, Fraction]
HALF = Fraction(1, 2)


def mates(plan: Plan) -> dict[str, Mates]:
    """By what is measured, what it goes by, and by which share."""
    return {
        str(check.measure): {
            str(plan.checkpoints[n].measure): share for n, share in check.refers
        }
        for check in plan.checkpoints
        if check.after
    }  # fmt: skip


@pytest.mark.parametrize(
    ("kind", "bars", "answers", "wanted"),
    [
        ("bridle", "", {"slot": "turned"}, {"tenon": {"channel-width/slot": 1}}),
        # From one face the second cheek makes good the first, too.
        (
            "bridle",
            "",
            {"slot": "one-face"},
            {"to-far-cheek/back": {"channel-width/slot": 1, "to-far-cheek/face": -1}},
        ),
        ("stub tenon", "", {"groove": "turned"}, {"tenon": {"channel-width/groove": 1}}),
        (
            "bridle",
            "T-bridle",
            {"slot": "turned"},
            {"tenon": {"channel-width/slot": 1}, "tongue": {"channel-width/slot": 1}},
        ),
        # Bars go into the groove, and corners into slots, by one setting: slots are made as the
        # groove came out, and so are all the tenons.
        (
            "bridle",
            "stub tenon",
            {"slot": "turned", "groove": "turned"},
            {
                "channel-width/slot": {"channel-width/groove": 1},
                "tenon": {"channel-width/groove": 1},
            },
        ),
        (
            "mitred bridle",
            "",
            {"slot": "turned"},
            {"to-far-cheek/face": {"channel-width/slot": 1, "mitre-depth": 1}},
        ),
        # Both halves by one setting, which nothing was cut before.
        ("half-lap", "", {}, {}),
    ],
)  # fmt: skip
def test_what_a_joint_goes_by(
    kind: str, bars: str, answers: dict[str, str], wanted: dict[str, Mates]
) -> None:
    assert mates(planned(kind, bars, **answers)) == wanted


def test_what_the_examples_go_by() -> None:
    """Cheeks of unlike lengths are cut one by one at one setting, which counts twice; a raised
    panel and tongued boards go by their grooves."""
    found = {path.parent.name: mates(example(path)) for path in EXAMPLES}
    slot, groove = "channel-width/slot", "channel-width/groove"
    halved = {slot: HALF}
    assert found["china-cabinet"] == {"under-housing/face": halved, "to-far-cheek/face": halved}
    assert found["dresser"]["bevel:23/64 in"] == {groove: 1}
    assert found["broom-cupboard"]["tongue"] == {groove: 1}


@pytest.mark.parametrize(("thick", "told_so"), [("6", True), ("5.75", False)])
def test_a_groove_goes_by_a_panel_that_was_bought(thick: str, told_so: bool) -> None:
    """Of 6 mm its groove is 6.25, between marks. One of 5.75 suits a groove that stands on them,
    and is planed to it."""
    text = (
        'unit = "mm"\nspecies = "ash"\n[stock]\nthickness = "20"\n[panel]\n'
        f'thickness = "{thick}"\n[[door]]\n[door.opening]\nwidth = "400"\nheight = "500"\n'
    )
    plan = pipeline.plan([load_job(text, "job.toml")], default_shop("mm"))
    groove = {"channel-width/groove": {"stock": Fraction(1)}} if told_so else {}
    assert {k: v for k, v in mates(plan).items() if "groove" in k} == groove
    summed(plan)


def test_stock_of_two_thicknesses_goes_by_nothing_that_is_wider_by_more_than_air() -> None:
    plan = two_stocks("mm", "18", "22", "400", "600")
    for check in plan.checkpoints:
        for n, _ in check.refers:
            air = plan.checkpoints[n].exact - check.exact
            panel = plan.checkpoints[n].knob is None
            assert 0 <= (-air if panel else air) <= Fraction(1, 2)


TERM = re.compile(
    r"(?P<sign>[+−]? ?)(?P<share>half of |twice )?"
    r"(?:(?P<what>[a-z ,()]+) as measured|(?P<strip>middle thickness of #\d+)|(?P<n>[\d. /]+))"
)
SHARES = {None: Fraction(1), "half of ": HALF, "twice ": Fraction(2)}


def worked_out(line: str, read: dict[str, Fraction]) -> Fraction:
    """The printed sum, as a person works it out."""
    printed = line[line.index(": ") + 2 :].removesuffix(" =")
    found = Fraction(0)
    for term in re.split(r" (?=[+−] )", printed):
        each = TERM.fullmatch(term)
        assert each, term
        way = -1 if each["sign"].strip() == "−" else 1
        value = Fraction(each["n"].strip()) if each["n"] else read[each["what"] or each["strip"]]
        found += way * SHARES[each["share"]] * value
    return found


def lines(plan: Plan, check: Checkpoint) -> tuple[str, list[str]]:
    """The line that is printed, and how what it refers to is called."""
    scale = Scale(plan.unit, plan.shop.graduation, for_plan(plan))
    said = told([check], "", scale, plan.checkpoints).measures[0].as_measured
    others = []
    for n in check.after:
        mate = plan.checkpoints[n]
        name = told([mate], "", scale).measures[0].name
        others.append(name if mate.knob else f"middle thickness of {mate.marks[0]}")
    return said, others


@pytest.mark.parametrize("path", EXAMPLES, ids=[path.parent.name for path in EXAMPLES])
def test_the_printed_sum_is_what_the_proof_goes_by(path: Path) -> None:
    summed(example(path))


def test_what_is_taken_off_is_printed_so() -> None:
    plan = planned("bridle", slot="one-face")
    summed(plan)
    (last,) = (check for check in plan.checkpoints if len(check.after) == 2)
    assert re.search(r"[+] \d+\.\d+ − [a-z ]+ as measured =$", lines(plan, last)[0])


def summed(plan: Plan) -> None:
    """With every mate read off its target, at either limit, and in between."""
    for check in plan.checkpoints:
        if not check.after:
            assert not lines(plan, check)[0]
            continue
        line, names = lines(plan, check)
        for part in (Fraction(-1), Fraction(0), Fraction(1, 2), Fraction(1)):
            others = [plan.checkpoints[n] for n in check.after]
            read = [
                c.target + part * (c.high - c.target if part > 0 else c.target - c.low)
                for c in others
            ]
            off = sum(
                (
                    share * (value - c.target)
                    for value, c, (_, share) in zip(read, others, check.refers, strict=True)
                ),
                Fraction(0),
            )
            assert worked_out(line, dict(zip(names, read, strict=True))) == check.target + off
        steps = {plan.checkpoints[n].at_step for n in check.after}
        assert {int(n) for n in re.findall(r"\d+", line[: line.index(" came")])} == steps


def test_a_housing_is_tried_with_its_bar() -> None:
    """Nobody measures how wide the bar was ripped: a number would promise what it cannot."""
    plan = next(example(path) for path in EXAMPLES if path.parent.name == "china-cabinet")
    checks = [c for c in plan.checkpoints if c.measure.what is What.HOUSING_WIDTH]
    assert checks
    for check in checks:
        setup = next(s for s in plan.setups if s.number == check.setup)
        assert check.tool == "fit"
        assert setup.how("stop") == "mate"
        by_number = replace(check, tool="caliper", resolution=Fraction(1, 1000))
        told_so = replace(
            plan, checkpoints=tuple(by_number if c is check else c for c in plan.checkpoints)
        )
        with pytest.raises(InternalError, match=r"check\.made-for-a-bar"):
            prove(told_so)


def test_what_all_goes_by_may_be_off_and_nothing_else() -> None:
    """A slot whose tenon goes by it is good a whole depth's band about; a panel's groove is not.
    The proof takes no window for wider than that, nor where the tenon goes by nothing."""
    plan = planned("bridle", slot="turned", groove="turned")
    number, slot = checked(plan, "channel-width/slot")
    _, groove = checked(plan, "channel-width/groove")
    assert (slot.low, slot.high) == (slot.target - Fraction(1, 5), slot.target + Fraction(1, 5))
    assert groove.high - groove.low == Fraction(1, 10)
    wider = with_check(plan, checked(plan, "channel-width/groove")[0], low=slot.low, high=slot.high)
    where, tenon = checked(plan, "tenon")
    by_nothing = with_check(plan, where, after=(), shares=())
    assert number in tenon.after
    # Nor is its setting then told as one to fit.
    by_nothing = replace(by_nothing, setups=told_how(by_nothing))
    for each in (wider, by_nothing):
        wrong = replace(each, requirements=plan.requirements)
        with pytest.raises(InternalError, match=r"check\.wide-window"):
            prove(wrong)


LAPPED = """
unit = "mm"
stock.thickness = "23"
joint = {kind = "half-lap", bars = "stub tenon"}
stiles.hinge = "46"
rails = {top = "52", bottom = "75"}
groove.depth = "6"
fill = "raised"
panel.thickness = "13"
[[door]]
opening = {width = "608", height = "856"}
bar = [{kind = "mid rail", width = "50"}]
"""


def test_what_is_followed_stays_narrow_where_a_must_would_not_hold() -> None:
    """A groove that stub tenons and a raised panel go by may be off by the band of what is
    followed, but for the bar's faces: these go by the groove's walls, and would stand out of the
    stiles' by more than planing takes off."""
    plan = pipeline.plan([load_job(LAPPED, "job.toml")], default_shop("mm"))
    number, groove = checked(plan, "channel-width/groove")
    assert len([check for check in plan.checkpoints if number in check.after]) > 1
    assert all(each.holds for each in plan.requirements if each.kind == "must")
    band = FOLLOWED_BAND.mm
    assert groove.high - groove.low < 2 * band
    loose = with_check(plan, number, low=groove.target - band, high=groove.target + band)
    broken = [each for each in held(loose).requirements if each.kind == "must" and not each.holds]
    assert {each.what for each in broken} == {"faces-in-line", "backs-in-line"}
