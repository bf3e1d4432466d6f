"""From reading to correction. The arithmetic is worked out by hand beside each case.

A sheet of office paper of 80 g/m² is about 0.1 mm thick: common practice.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sequencer.errors import Refusal
from sequencer.facts import Fact, Length, answers, feels
from sequencer.instructions.figures import Scale
from sequencer.plan import Checkpoint
from sequencer.saw.measures import Measure
from sequencer.sawside.corrections import FARTHEST, by_feel, judge
from sequencer.wording import Room
from tests.told import inch, mm

INCH = Scale("in", Fraction(1, 64), Room("UK"))
MM = Scale("mm", Fraction(1, 2), Room("UK"))


def point(measure: str, target: str, band: str, knob: str | None, per: int | None) -> Checkpoint:
    low, high = Fraction(target) - Fraction(band), Fraction(target) + Fraction(band)
    per_unit = None if per is None else Fraction(per)
    return Checkpoint(
        1, 2, None if knob is None else 1, Measure.parse(measure), Fraction(target), low, high,
        knob, per_unit, feels.ALIKE_ALONG(), "#1a" if knob else None,
    )  # fmt: skip


@pytest.mark.parametrize(
    ("knob", "per", "measured", "move", "way"),
    [
        # Turned slot, 0.262 for 0.250: 0.012 too wide, both walls move, so 0.006 away.
        ("jig", -2, "0.262", Fraction(6, 1000), "way.away"),
        # From one face, the same slot: 0.012 toward, since the far wall alone moves.
        ("jig", 1, "0.262", Fraction(-12, 1000), "way.toward"),
        # Turned tenon too thin by 0.010: 0.005 away.
        ("fence", 2, "0.240", Fraction(5, 1000), "way.away"),
        # Depth under by 1/64: the blade up by it, one graduation.
        ("height", 1, "0.234375", Fraction(1, 64), "way.up"),
        ("height", 1, "0.265625", Fraction(-1, 64), "way.down"),
    ],
)
def test_knob_way_and_amount(knob: str, per: int, measured: str, move: Fraction, way: str) -> None:
    answer = judge(point("channel-width/slot", "1/4", "1/512", knob, per), Fraction(measured), INCH)
    assert answer.verdict == "adjust"
    assert answer.move == move
    told = answer.says[0].given["move"]
    assert told == answers.MOVE(setting=f"moved.{knob}", by=Length(abs(move), "in"), way=way)
    assert (answers.TWICE() in answer.says) == (abs(per) == 2)
    if knob == "height":
        assert answer.says[-1] == answers.GRADUATIONS(n=1, step=Length(Fraction(1, 64), "in"))


def test_a_block_between_jig_and_piece() -> None:
    """A cheek 0.006 too far from the face that lies against the block: as much more behind it. Too
    near: nothing can be planed off a setup block, so a thinner one, with paper."""
    cheek = point("to-far-cheek/face", "0.418", "0.002", "spacer", -1)
    far, near = (judge(cheek, Fraction(said), INCH) for said in ("0.424", "0.412"))
    six = Fraction(6, 1000)
    assert (far.move, near.move) == (six, -six)
    thin = answers.FEELER(size=inch("0.006"))
    assert far.says[0].given["move"] == answers.THICKER(by=Length(six, "in"), thin=thin)
    assert near.says[0].given["move"] == answers.THINNER(by=Length(six, "in"))
    slot = point("channel-width/slot", "1/4", "1/512", "spacer", 2)  # turned, 0.012 too narrow
    narrow = judge(slot, Fraction("0.238"), INCH)
    assert narrow.move == six
    assert answers.TWICE() in narrow.says


@pytest.mark.parametrize(
    ("off", "amount"),
    [
        ("0.1", answers.LESS(step=mm("0.5"), thin=answers.PAPER(n=1, size=mm("0.1")))),
        ("0.3", answers.LESS(step=mm("0.5"), thin=answers.PAPER(n=3, size=mm("0.3")))),
        ("0.15", answers.LESS(step=mm("0.5"), thin=answers.FEELER(size=mm("0.15")))),
        ("0.02", answers.LESS(step=mm("0.5"), thin=answers.NO_FEELER(size=mm("0.05")))),
        ("0.5", answers.GRADUATIONS(n=1, step=mm("0.5"))),
        ("1.2", answers.ABOUT_GRADUATIONS(n=Fraction(5, 2), step=mm("0.5"))),
    ],
)
def test_less_than_a_graduation_is_told_as_paper(off: str, amount: Fact) -> None:
    answer = judge(point("channel-width/slot", "6", "0.01", "jig", 1), 6 + Fraction(off), MM)
    assert answer.says[-1] == amount


@pytest.mark.parametrize(
    ("off", "amount"),
    [
        ("0.004", answers.LESS(step=inch("1/64"), thin=answers.PAPER(n=1, size=inch("0.004")))),
        ("0.006", answers.LESS(step=inch("1/64"), thin=answers.FEELER(size=inch("0.006")))),
        ("0.001", answers.LESS(step=inch("1/64"), thin=answers.NO_FEELER(size=inch("0.002")))),
    ],
)
def test_who_works_in_inches_has_feelers_in_inches(off: str, amount: Fact) -> None:
    exact = point("channel-width/slot", "1/4", "0.0001", "jig", 1)
    answer = judge(exact, Fraction("0.25") + Fraction(off), INCH)
    assert answer.says[-1] == amount


def test_an_inch_shop_has_its_paper_too() -> None:
    """0.0039 in: a sheet."""
    answer = judge(point("channel-width/slot", "1/4", "1/512", "jig", 1), Fraction("0.2539"), INCH)
    assert answer.says[-1].given["thin"] == answers.PAPER(n=1, size=inch("0.004"))


@pytest.mark.parametrize(
    ("scale", "target", "measured", "question"),
    [
        (INCH, "1/4", "6.35", "answer.other-unit"),
        (INCH, "1/4", "6.6", "answer.other-unit"),
        (MM, "6.1", "0.24", "answer.other-unit"),
        (MM, "6.1", "9.2", "answer.too-far"),
        (MM, "444.6", "441.5", "answer.too-far"),
    ],
)
def test_what_cannot_be_is_questioned(
    scale: Scale, target: str, measured: str, question: str
) -> None:
    answer = judge(
        point("channel-width/slot", target, "0.002", "jig", -2), Fraction(measured), scale
    )
    assert answer.verdict == "question"
    assert [each.id for each in answer.says] == [question, "answer.nothing-changed"]
    assert answer.move is None


@pytest.mark.parametrize(
    ("measure", "per", "feel", "way"),
    [
        # A slot that is too tight wants to be wider; turned, that is toward the blade.
        ("channel-width/slot", -2, "tight", "way.toward"),
        ("channel-width/slot", -2, "loose", "way.away"),
        ("channel-width/slot", 1, "tight", "way.away"),
        # A tenon that is too tight wants to be thinner.
        ("tenon", 2, "tight", "way.toward"),
        ("tenon", 2, "loose", "way.away"),
    ],
)
def test_by_feel_one_paper_at_a_time(measure: str, per: int, feel: str, way: str) -> None:
    answer = by_feel(point(measure, "6", "0.05", "jig", per), feel, MM)  # type: ignore[arg-type]
    assert answer.move is not None
    assert abs(answer.move) == Fraction(1, 10) / abs(per)
    assert answer.says[0].id == f"answer.{feel}"
    told = answer.says[0].given["move"]
    assert isinstance(told, Fact)
    assert told.given["way"] == way


def test_a_depth_is_not_told_by_feel() -> None:
    with pytest.raises(Refusal, match=r"tap\.no-feel"):
        by_feel(point("channel-depth/slot", "50", "0.4", "height", 1), "tight", MM)


def test_the_bench_is_told_how_much_it_is_off() -> None:
    answer = judge(point("opening-width", "333", "0.8", None, None), Fraction(334), MM)
    assert answer.verdict == "noted"
    over = answers.TOO_MUCH(measured=mm("334"), target=mm("333"), by=mm("1"))
    assert over in answer.says


@given(
    target=st.fractions(Fraction(3), Fraction(600), max_denominator=20),
    off=st.fractions(-FARTHEST, FARTHEST, max_denominator=1000),
    per=st.sampled_from([-2, -1, 1, 2]),
)
def test_the_move_brings_the_measure_to_its_target(
    target: Fraction, off: Fraction, per: int
) -> None:
    """The knob moved as told, the next cut measures what was wanted; at once good is not moved."""
    answer = judge(point("channel-width/slot", str(target), "0.05", "jig", per), target + off, MM)
    if abs(off) <= Fraction(50, 1000):
        assert answer.verdict == "good"
        assert answer.move is None
    elif answer.verdict == "adjust":
        assert answer.move is not None
        assert target + off + per * answer.move == target
        told = answer.says[0].given["move"]
        assert isinstance(told, Fact)
        assert (told.given["way"] == "way.away") == (answer.move > 0)
