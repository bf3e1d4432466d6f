"""Sentences that are acted on: how a piece lies, which way a knob is turned."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.facts import feels
from sequencer.instructions import words
from sequencer.instructions.figures import Scale
from sequencer.instructions.spent import spends
from sequencer.plan import Against, Checkpoint, Cut, Down, Step
from sequencer.records import replace
from sequencer.saw.measures import Measure, What
from sequencer.sawside.corrections import by_feel
from sequencer.sheets.blocks import blocks
from sequencer.sheets.checks import check, corrections
from sequencer.wording import Room, for_plan
from sequencer.wording.changes import change_words
from tests.reader.jobs import planned
from tests.stages import to_plan
from tests.test_hand_worked import FENCE_JIG, PAIR

ROOM = Room("UK")

INCH = Scale("in", Fraction(1, 64), Room("US", Fraction(1, 64)))


@pytest.mark.parametrize(
    ("cuts", "carrier", "said"),
    [
        (
            [Cut("#1", "back", "inside-edge", "guide")],
            "rip-fence",
            "back down, inside edge against the fence",
        ),
        (
            [Cut("A1", "end-A", "face", None), Cut("A1", "end-A", "back", None)],
            "tenoning-jig",
            "end A down, marked face against the jig; turn round, back against the jig",
        ),
        (
            [Cut("A3", "face", "end-B", None), Cut("A3", "back", "end-B", None)],
            "crosscut-sled",
            "marked face down, end B at the stop; turn over, back down",
        ),
        (
            [Cut("#1", "back", None, "larger")],
            "crosscut-sled",
            "back down, inside edge away from you; just clean the end on the stop's side",
        ),
        (
            [
                Cut("S1", "face", "end-A", None),
                Cut("S1", "back", "end-A", None),
                Cut("S1", "face", "end-B", None),
                Cut("S1", "back", "end-B", None),
            ],
            "crosscut-sled",
            (
                "marked face down, end A at the stop; turn over, back down;"
                " then the other end the same way"
            ),
        ),
        (
            [Cut("#1", "face", "outside-edge", "far")],
            "rip-fence",
            (
                "marked face down, outside edge against the fence;"
                " the part is the strip on the open side"
            ),
        ),
        (
            [Cut("A3", "inside-edge", "end-A", None, sweep=True)],
            "crosscut-sled",
            (
                "inside edge down, end A at the stop;"
                " then slide away from it pass by pass until all the waste is gone"
            ),
        ),
    ],
)
def test_how_a_piece_lies(cuts: list[Cut], carrier: str, said: str) -> None:
    assert words.passes(cuts, words.Rest(carrier), "face", ROOM) == said


def test_a_bearing_strip_is_fitted_between_the_rebates_of_a_tongue() -> None:
    """Before, the wood that is still there stands where it goes."""
    sides: tuple[Against, ...] = ("face", "back")
    cuts = [Cut("#1", "outside-edge", against, None) for against in sides]
    assert words.passes(cuts, words.Rest("rip-fence", strip=True), "face", ROOM) == (
        "outside edge down, marked face against the fence; when all are cut so, blade still, fit "
        "the bearing strip; turn round, back against the fence"
    )


def point(knob: str | None, per_unit: Fraction | None) -> Checkpoint:
    return Checkpoint(
        at_step=4,
        before_step=5,
        setup=2,
        measure=Measure.parse("channel-width/slot"),
        target=Fraction(1, 4),
        low=Fraction(1, 4),
        high=Fraction(65, 256),
        knob=knob,
        per_unit=per_unit,
        feel=feels.ALIKE_ALONG(),
        scrap="S1",
    )


@pytest.mark.parametrize(
    ("knob", "per_unit", "said"),
    [
        # A turned slot is thickness - 2 · guide: too wide by e, the guide grows by e/2.
        (
            "jig",
            Fraction(-2),
            "Too much, new end: jig away by half that. Too little: toward.",
        ),
        # A turned tenon is 2 · guide - thickness: too thick by e, the guide shrinks by e/2.
        (
            "fence",
            Fraction(2),
            "Too much, new end: fence toward by half that. Too little: away.",
        ),
        # A piece cut to length is as long as the guide.
        (
            "stop",
            Fraction(1),
            "Too much, new end: stop toward by that much. Too little: away.",
        ),
        # A groove is as deep as the blade stands above the table.
        (
            "height",
            Fraction(1),
            "Too much, new end: lower blade by that much. Too little: raise it.",
        ),
        # What is left under a cut shrinks as the blade rises.
        (
            "height",
            Fraction(-1),
            "Too much, new end: raise blade by that much. Too little: lower it.",
        ),
        (
            "jig",
            Fraction(4),
            "Too much, new end: jig toward by 0.250 of that. Too little: away.",
        ),
        (None, None, ""),
    ],
)
def test_which_way_and_how_far(knob: str | None, per_unit: Fraction | None, said: str) -> None:
    assert corrections(point(knob, per_unit), INCH) == said


@pytest.mark.parametrize(
    ("measure", "knob", "per_unit", "said"),
    [
        # A turned slot is thickness - 2 · guide: too tight, it wants to be wider, so the guide
        # shrinks by half of what is missing.
        (
            "channel-width/slot", "jig", -2,
            (
                "Too tight: jig toward by half the thickness of a sheet of paper. "
                "Too loose, new end: away."
            ),
        ),
        # A tenon turned on the jig is 2 · guide - thickness: too tight, it wants to be thinner.
        (
            "tenon", "jig", 2,
            (
                "Too tight: jig toward by half the thickness of a sheet of paper. "
                "Too loose, new end: away."
            ),
        ),
        # The far shoulder of a housing moves away with the stop.
        (
            "housing-width", "stop", 1,
            (
                "Too tight: stop away by the thickness of a sheet of paper. "
                "Too loose, new end: toward."
            ),
        ),
        # What a rebate leaves of a tongue shrinks as the blade rises.
        (
            "tongue", "height", -2,
            (
                "Too tight: raise blade by half the thickness of a sheet of paper. "
                "Too loose, new end: lower it."
            ),
        ),
    ],
)  # fmt: skip
def test_a_fit_is_told_as_it_is_felt_and_as_the_page_tells_it(
    measure: str, knob: str, per_unit: int, said: str
) -> None:
    tried = replace(point(knob, Fraction(per_unit)), measure=Measure.parse(measure), tool="fit")
    assert corrections(tried, INCH) == said
    (line,) = check([tried], "", INCH).measures
    assert line.by_fit
    # The page moves the same knob the same way, by a paper's thickness and its share.
    move = by_feel(tried, "tight", INCH).move
    assert move is not None
    assert (move < 0) == any(way in said for way in ("t: jig toward", "t: lower"))
    assert abs(move) * abs(per_unit) == Fraction(4, 1000)


def test_limits_are_told_as_the_tool_shows_them() -> None:
    by_caliper = replace(point("jig", Fraction(-2)), tool="caliper", resolution=Fraction(1, 1000))
    by_caliper = replace(by_caliper, low=Fraction(31, 125), high=Fraction(63, 250))
    (measure,) = check([by_caliper], "", INCH).measures
    assert (measure.low, measure.high, measure.tool) == ("0.248", "0.252", "by caliper")
    assert measure.target is not None
    assert measure.target.text == "0.250"
    by_rule = replace(
        by_caliper, target=Fraction(9), low=Fraction(287, 32), high=Fraction(289, 32),
        tool="rule", resolution=Fraction(1, 64),
    )  # fmt: skip
    (measure,) = check([by_rule], "", INCH).measures
    assert (measure.low, measure.high, measure.tool) == ("8 31/32", "9 1/32", "by rule")
    assert measure.target is not None
    assert measure.target.text == "9"


def test_a_limit_alone_is_said_as_one() -> None:
    zero = Checkpoint(
        9,
        10,
        None,
        Measure(What.DIAGONALS),
        Fraction(0),
        Fraction(0),
        Fraction(1, 32),
        None,
        None,
        feels.CORNERS_INSIDE(),
        None,
    )
    (measure,) = check([zero], "", INCH).measures
    assert (measure.target, measure.low, measure.high) == (None, "", "0.031")
    either_way = replace(zero, measure=Measure(What.TO_MITRE), low=Fraction(-7, 1000))
    (measure,) = check([either_way], "", INCH).measures
    assert measure.target is not None
    assert (measure.target.text, measure.low, measure.high) == ("0.000", "−0.007", "0.031")


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (Fraction(45, 2), "22 1/2"),
        (Fraction(3), "3"),
        (Fraction(133, 512), "17/64 (0.260)"),
        (Fraction(1, 1000), "0 (0.001)"),
        (Fraction(-3, 8), "3/8"),
    ],
)
def test_rounding_shows(value: Fraction, text: str) -> None:
    assert INCH.text(value) == text


def test_millimetres_off_the_graduation_are_a_decimal() -> None:
    half = Scale("mm", Fraction(1, 2), Room("UK"))
    assert half.text(Fraction(2223, 5)) == "444.6"
    figure = half.figure(Fraction(2223, 5))
    assert (figure.whole, figure.decimal) == ("444.5", "444.60")


def test_a_test_cut_asks_for_fresh_wood_where_it_would_free_what_hangs_on() -> None:
    def tried(number: int, down: Down, against: Against) -> Step:
        return Step(number, 1, "test cut", (), (Cut("#1b", down, against, None),))

    cheek, shoulder = tried(1, "end-A", "face"), tried(2, "back", "end-A")
    assert words.on_fresh_wood(shoulder, [cheek, shoulder], ROOM) == (
        "saw off first the end that was tried in the jig"
    )
    on_edge, flat = tried(1, "inside-edge", "face"), tried(2, "back", "inside-edge")
    assert (
        words.on_fresh_wood(flat, [on_edge, flat], ROOM) == "along an edge that was not tried yet"
    )
    # The usual order frees nothing, nor does another piece's.
    assert not words.on_fresh_wood(cheek, [replace(shoulder, number=0), cheek], ROOM)
    other = replace(cheek, cuts=(replace(cheek.cuts[0], mark="#2b"),))
    assert not words.on_fresh_wood(shoulder, [other, shoulder], ROOM)


def test_a_knob_is_told_by_its_own_scale() -> None:
    """The fence's is divided in 1/8 in, all else in 1/64: large figure, words and picture agree."""
    plan = to_plan(PAIR, FENCE_JIG + '[scales]\nfence = "1/8"\n')
    scale = Scale.of(plan, for_plan(plan))
    found = 0
    for block in blocks(plan, scale):
        setup = next((s for s in plan.setups if s.number == block.number), None)
        if setup is None or setup.reading is None or setup.carrier != "tenoning-jig":
            continue
        found += 1
        figure = block.settings[0].figure
        assert figure == scale.dial(setup.reading, "fence")
        assert int(figure.bottom or 1) <= 8
        told = [change_words(c, plan, scale.room) for c in setup.changes if c.knob == "fence"]
        assert all(figure.text.replace(")", "″)").replace(" (", "″ (") in words or "away" in words
                   or "toward" in words for words in told)  # fmt: skip
        distance = scale.dial(setup.guide or Fraction(0), "fence")
        assert distance.text in block.picture
    assert found


@pytest.mark.parametrize("name", ["wall-cabinet", "china-cabinet", "linen-press"])
def test_a_new_end_is_asked_for_just_where_too_much_is_gone(name: str) -> None:
    """`tests/proof/test_spent.py` saws to find out where that is."""
    plan = planned(name)[0]
    on = {setup.number: setup.carrier for setup in plan.setups}
    seen = set()
    for each in plan.checkpoints:
        if not each.scrap:
            continue
        fence = on[each.setup or 0] == "rip-fence"
        first, then = corrections(each, Scale.of(plan, for_plan(plan)), fence).split(". ")[:2]
        told = [", new" in half for half in (first, then)]
        spent = spends(each, each.high + 1)
        assert told == [spent, not spent] or (told == [False, True] and each.tool == "fit")
        assert ("new strip" in first + then) == fence
        seen |= {first.startswith("Too much, new"), fence}
    assert seen == {True, False}
