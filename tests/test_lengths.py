"""Lengths: what is read, what is refused and how it is said, exact conversion, what is shown."""

from __future__ import annotations

import subprocess
import sys
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sequencer.facts import Fact, spellings
from sequencer.lengths import LengthError, Unit, convert, exact, mixed, parse, show

READ = [
    ("22-1/2", "in", Fraction(45, 2)),
    ("22 1/2", "in", Fraction(45, 2)),
    ("22  1/2", "in", Fraction(45, 2)),
    ("22½", "in", Fraction(45, 2)),
    ("22 ½", "in", Fraction(45, 2)),
    ("22-½", "in", Fraction(45, 2)),
    ("22 1⁄2", "in", Fraction(45, 2)),
    ("22.5 in", "in", Fraction(45, 2)),
    ("22.5in", "in", Fraction(45, 2)),
    ('22 1/2"', "in", Fraction(45, 2)),
    ("22 1/2″", "in", Fraction(45, 2)),
    ('3/4"', "in", Fraction(3, 4)),
    ("8/16", "in", Fraction(1, 2)),
    ("⅞", "in", Fraction(7, 8)),
    ("15/64", "in", Fraction(15, 64)),
    ("0.0625", "in", Fraction(1, 16)),
    ("0", "in", Fraction(0)),
    (" 5 ", "in", Fraction(5)),
    ("6'", "in", Fraction(72)),
    ("6' 3-1/2\"", "in", Fraction(151, 2)),
    ("6' 3 1/2 in", "in", Fraction(151, 2)),
    ("6′ 3½″", "in", Fraction(151, 2)),
    ("6'-3\"", "in", Fraction(75)),
    ("6'3\"", "in", Fraction(75)),
    ("571.5", "mm", Fraction(1143, 2)),
    ("571.5 mm", "mm", Fraction(1143, 2)),
    ("57.15 cm", "mm", Fraction(1143, 2)),
    ("571.5 mm", "in", Fraction(45, 2)),
    ("57.15cm", "in", Fraction(45, 2)),
    ("22 1/2 in", "mm", Fraction(1143, 2)),
    ("22½″", "mm", Fraction(1143, 2)),
    ("1'", "mm", Fraction(1524, 5)),
]


@pytest.mark.parametrize(("text", "unit", "value"), READ)
def test_reads(text: str, unit: Unit, value: Fraction) -> None:
    assert parse(text, unit) == value


LIKE = spellings.LIKE(example="22 1/2")
SPACE = spellings.STRANGE_SPACE()
NEGATIVE = spellings.NEGATIVE()
COMMA = spellings.COMMA()
POWER = spellings.POWER_OF_TEN()
BAR = spellings.SPACE_AT_BAR()
JOIN = spellings.TWO_JOINS()
BOTH = spellings.DECIMAL_AND_FRACTION()
ZERO = spellings.LEADING_NOUGHT()
NAME = spellings.UNIT_NAME()
TWICE = spellings.TWO_UNITS()
NUMBER = spellings.NO_NUMBER()
FEET = spellings.PART_OF_A_FOOT()
LONGEST = spellings.TOO_LONG(most=40)
NO_FRACTION = spellings.MM_FRACTION()
TWO_NUMBERS = spellings.TWO_NUMBERS()
TWELVE = spellings.TWELVE_INCHES()


def write(text: str) -> Fact:
    return spellings.WRITE(text=text)


def either(text: str, other: str) -> Fact:
    return spellings.WRITE_EITHER(text=text, other=other)


def rough(text: str) -> Fact:
    return spellings.WRITE_ROUGH(text=text)


def or_inches(text: str, inches: str) -> Fact:
    return spellings.WRITE_OR_INCHES(text=text, inches=inches)


def nearest(text: str, nearest: str) -> Fact:
    return spellings.WRITE_NEAREST(text=text, nearest=nearest)


def over(fraction: str) -> Fact:
    return spellings.NOT_BELOW_ONE(fraction=fraction)


def after(rest: str) -> Fact:
    return spellings.AFTER_LENGTH(rest=rest)


def parts(number: int) -> Fact:
    return spellings.NOT_ON_RULES(parts=number)


REFUSED = [  # text, unit, offset, message, hint
    ("", "in", 0, spellings.NO_LENGTH(), LIKE),
    ("   ", "in", 0, spellings.NO_LENGTH(), LIKE),
    ("", "mm", 0, spellings.NO_LENGTH(), spellings.LIKE(example="571.5")),
    ("571,5 mm", "in", 3, COMMA, write("571.5 mm")),
    ("1,250", "mm", 1, COMMA, either("1250", "1.250")),
    ("1,250 mm", "in", 1, COMMA, either("1250 mm", "1.250 mm")),
    ("22 1/2,", "in", 6, COMMA, write("22 1/2")),
    ("-3", "in", 0, NEGATIVE, write("3")),
    ("- 3", "in", 0, NEGATIVE, write("3")),
    ("−3", "in", 0, NEGATIVE, write("3")),
    ("--", "in", 0, NEGATIVE, LIKE),
    ("+3", "in", 0, spellings.PLUS_SIGN(), write("3")),
    ("nan", "in", 0, NUMBER, LIKE),
    ("inf", "in", 0, NUMBER, LIKE),
    ("1e3", "in", 1, POWER, LIKE),
    ("1E-3 mm", "in", 1, POWER, LIKE),
    ("3/2", "in", 0, over("3/2"), write("1 1/2")),
    ("22-3/2", "in", 3, over("3/2"), write("23 1/2")),
    ("8/8", "in", 0, over("8/8"), write("1")),
    ("4/4", "in", 0, over("4/4"), rough("1")),
    ("5/4 in", "in", 0, over("5/4"), rough("1 1/4")),
    ("221/2", "in", 0, over("221/2"), write("110 1/2")),
    (
        "22 3/46",
        "in",
        3,
        parts(46),
        nearest("22.0652 in", "22 1/16 in"),
    ),
    (
        "⅓",
        "in",
        0,
        parts(3),
        nearest("0.3333 in", "21/64 in"),
    ),
    ("1/2048", "in", 0, parts(2048), write("0.0005 in")),
    (
        "1' 1/3\"",
        "in",
        3,
        parts(3),
        nearest("1' 0.3333\"", "1' 21/64\""),
    ),
    ("3/0", "in", 2, spellings.OVER_NOTHING(), LIKE),
    ("0/4", "in", 0, spellings.OF_NOTHING(), write("0")),
    ("22 0/4", "in", 3, spellings.OF_NOTHING(), write("22")),
    ("3 /4", "in", 2, BAR, write("3/4")),
    ("22 3 / 4", "in", 5, BAR, write("22 3/4")),
    ("22 - 1/2", "in", 3, JOIN, write("22-1/2")),
    ("22–1/2", "in", 2, JOIN, write("22-1/2")),
    ("22--1/2", "in", 2, JOIN, write("22-1/2")),
    (".5", "in", 0, spellings.POINT_FIRST(), write("0.5")),
    ("5.", "in", 1, spellings.POINT_LAST(), write("5")),
    ("1.2.3", "in", 1, spellings.SECOND_POINT(), LIKE),
    ("22.5 1/2", "in", 3, BOTH, LIKE),
    ("22.5½", "in", 3, BOTH, LIKE),
    ("1/2.5", "in", 1, BOTH, LIKE),
    ("1/2/3", "in", 3, spellings.SECOND_BAR(), LIKE),
    ("007", "in", 0, ZERO, write("7")),
    ("01/2", "in", 0, ZERO, write("1/2")),
    ("22 in mm", "in", 3, TWICE, write("22 in")),
    ('22" in', "in", 2, TWICE, write('22"')),
    ("22'\"", "in", 3, TWICE, write("22'")),
    ("6' in", "in", 3, TWICE, write("6'")),
    ("22 inches", "in", 3, NAME, write("22 in")),
    ("22 in.", "in", 3, NAME, write("22 in")),
    ("22 IN", "in", 3, NAME, write("22 in")),
    ("571.5 MM", "in", 6, NAME, write("571.5 mm")),
    ("571.5 millimetres", "mm", 6, NAME, write("571.5 mm")),
    ("6 ft", "in", 2, NAME, write("6'")),
    ("6 ft 3 in", "in", 2, NAME, write("6' 3 in")),
    ("22”", "in", 2, NAME, write('22"')),
    ("6’ 3”", "in", 1, NAME, write("6' 3\"")),
    ("22''", "in", 2, NAME, write('22"')),
    ("22 m", "in", 3, after("m"), LIKE),
    ("in", "in", 0, NUMBER, LIKE),
    ('"', "in", 0, NUMBER, LIKE),
    ("about 22", "in", 0, NUMBER, LIKE),
    ("/2", "in", 0, NUMBER, LIKE),
    ("２２", "in", 0, NUMBER, LIKE),
    ("22 about", "in", 3, after("about"), LIKE),
    ("22 1/2 # measured", "in", 7, after("# measured"), write("22 1/2")),
    ("22 x 18", "in", 3, after("x 18"), LIKE),
    ("22_000", "in", 2, after("_000"), LIKE),
    ("22/", "in", 2, after("/"), LIKE),
    ("22-", "in", 2, after("-"), LIKE),
    ("22½½", "in", 3, after("½"), LIKE),
    ("22 3", "in", 3, TWO_NUMBERS, LIKE),
    ("22 1 1/2", "in", 3, TWO_NUMBERS, LIKE),
    ("22\u00a01/2", "in", 2, SPACE, write("22 1/2")),
    ("22\t1/2", "in", 2, SPACE, write("22 1/2")),
    ("22 1/2\n", "in", 6, SPACE, write("22 1/2")),
    ("6' 15\"", "in", 2, TWELVE, write("7' 3\"")),
    ("6' 12\"", "in", 2, TWELVE, write("7'")),
    ("6' 3", "in", 2, spellings.INCHES_UNMARKED(), write("6' 3\"")),
    ("6' 30 mm", "in", 6, spellings.FEET_AND_MM(), either("6' 3\"", "1905 mm")),
    ("6.5'", "in", 3, FEET, LIKE),
    ("6 1/2'", "in", 5, FEET, LIKE),
    ("6½'", "in", 2, FEET, LIKE),
    ("1" * 41, "in", 40, LONGEST, LIKE),
    ("22-1/2", "mm", 3, NO_FRACTION, or_inches("22.5 mm", "22 1/2 in")),
    ("3/2", "mm", 0, NO_FRACTION, or_inches("1.5 mm", "1 1/2 in")),
    ("1/64", "mm", 0, NO_FRACTION, spellings.WRITE_DECIMAL_OR_INCHES(inches="1/64 in")),
    ("1/3", "mm", 0, NO_FRACTION, spellings.WRITE_DECIMAL()),
    ("½ mm", "in", 0, NO_FRACTION, write("0.5 mm")),
    ("22 1/2 cm", "mm", 3, NO_FRACTION, write("22.5 cm")),
]


@pytest.mark.parametrize(("text", "unit", "offset", "message", "hint"), REFUSED)
def test_refuses(text: str, unit: Unit, offset: int, message: Fact, hint: Fact) -> None:
    with pytest.raises(LengthError) as caught:
        parse(text, unit)
    error = caught.value
    assert (error.text, error.offset, error.message, error.hint) == (text, offset, message, hint)
    assert str(error) == f"{message}: {hint}"  # for traces


@given(
    st.text("0123456789½⅓ -−./⁄,'\"″′incmftexN#" + "\u00a0", max_size=12),
    st.sampled_from(["in", "mm"]),
)
def test_any_text_is_read_or_refused_with_a_right_spelling(text: str, unit: Unit) -> None:
    if (error := _refusal(text, unit)) is None:
        assert parse(text, unit) >= 0
        return
    assert 0 <= error.offset <= len(text)
    for spelling in error.hint.values:  # all that a hint has are spellings
        parse(str(spelling), unit)


def _refusal(text: str, unit: Unit) -> LengthError | None:
    try:
        parse(text, unit)
    except LengthError as error:
        return error
    return None


INCH_GRADUATIONS = [Fraction(1, 2**n) for n in range(8)]
MM_GRADUATIONS = [Fraction(1), Fraction(1, 2), Fraction(1, 5), Fraction(1, 10), Fraction(1, 20)]
GRADUATIONS: list[tuple[Unit, Fraction]] = [
    *(("in", g) for g in INCH_GRADUATIONS),
    *(("mm", g) for g in MM_GRADUATIONS),
]


@pytest.mark.parametrize(("unit", "graduation"), GRADUATIONS)
@given(count=st.integers(0, 10**6))
def test_what_is_shown_exactly_reads_back(unit: Unit, graduation: Fraction, count: int) -> None:
    value = count * graduation
    shown = show(value, unit, graduation)
    assert shown.exact
    assert parse(shown.text, unit) == value
    assert parse(f"{shown.text} {unit}", "mm" if unit == "in" else "in") == convert(
        value, unit, "mm" if unit == "in" else "in"
    )


@pytest.mark.parametrize(("unit", "graduation"), GRADUATIONS)
@given(value=st.fractions(0, 10000))
def test_what_is_shown_is_the_nearest_graduation(
    unit: Unit, graduation: Fraction, value: Fraction
) -> None:
    shown = show(value, unit, graduation)
    read = parse(shown.text, unit)
    assert read % graduation == 0
    assert abs(read - value) <= graduation / 2
    assert shown.exact == (read == value)
    places = 3 if unit == "in" else 2
    assert abs(parse(shown.decimal, unit) - value) <= Fraction(1, 2 * 10**places)
    assert len(shown.decimal.split(".")[1]) == places


@pytest.mark.parametrize(
    ("value", "unit", "graduation", "text", "decimal"),
    [
        (Fraction(15, 64), "in", Fraction(1, 64), "15/64", "0.234"),
        (Fraction(15, 64), "in", Fraction(1, 32), "1/4", "0.234"),
        (Fraction(3, 128), "in", Fraction(1, 64), "1/32", "0.023"),  # halfway: 3/128 to 2/64
        (Fraction(1, 128), "in", Fraction(1, 64), "0", "0.008"),  # halfway: 1/128 to 0/64
        (Fraction(24), "in", Fraction(1, 64), "24", "24.000"),
        (Fraction(45, 2), "in", Fraction(1, 16), "22 1/2", "22.500"),
        (Fraction(-1, 8), "in", Fraction(1, 64), "-1/8", "-0.125"),
        (Fraction(1905, 100), "mm", Fraction(1, 2), "19", "19.05"),
        (Fraction(1143, 2), "mm", Fraction(1, 10), "571.5", "571.50"),
    ],
)
def test_shows(value: Fraction, unit: Unit, graduation: Fraction, text: str, decimal: str) -> None:
    shown = show(value, unit, graduation)
    assert (shown.text, shown.decimal) == (text, decimal)


def test_exact_and_mixed_are_in_lowest_terms() -> None:
    assert [exact(Fraction(46, 8)), exact(Fraction(19))] == ["23/4", "19"]
    assert [mixed(Fraction(46, 8)), mixed(Fraction(0))] == ["5 3/4", "0"]


def test_one_inch_is_25_4_mm_exactly() -> None:
    # NIST SP 811 (2008), appendix B.6: 1 in = 0.0254 m exactly. From memory, not seen.
    assert convert(Fraction(1), "in", "mm") == Fraction("25.4")
    assert convert(Fraction("25.4"), "mm", "in") == 1


@given(st.fractions(0, 10000))
def test_conversion_there_and_back_changes_nothing(value: Fraction) -> None:
    assert convert(convert(value, "in", "mm"), "mm", "in") == value


def test_lengths_in_one_unit_load_no_unit_library() -> None:
    code = (
        "import sys; from sequencer.lengths import parse; parse('22 1/2 in', 'in');"
        " parse('571.5 mm', 'mm'); sys.exit('pint' in sys.modules)"
    )
    subprocess.run([sys.executable, "-c", code], check=True)
