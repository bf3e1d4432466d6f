"""Values of knobs and their one text form; the texts are those of `plan.json` as it was first
written down in its contract."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sequencer.saw.values import KnobValue, is_tested, lean, parse_lean, plain

# A name that ends like another name with a number behind it cannot be told from that.
names = st.text("abc 1/", min_size=1).filter(lambda name: not re.search(r"/-?\d*$", name))
tilts = st.fractions(max_denominator=2000)
values = st.builds(
    KnobValue,
    st.fractions(max_denominator=10**6),
    st.booleans(),
    st.one_of(st.just(""), names),
    st.one_of(st.just(Fraction(0)), tilts),
)


@given(values, st.lists(names))
def test_a_value_is_read_as_it_is_written(value: KnobValue, others: list[str]) -> None:
    cutters = [value.cutter, *others] if value.cutter else []
    assert KnobValue.parse(str(value), cutters) == value


@given(values)
def test_tested_can_be_read_off_a_text_and_taken_off(value: KnobValue) -> None:
    assert is_tested(str(value)) == value.tested
    assert plain(str(value)) == str(value).removesuffix(" tested")


@given(tilts)
def test_a_lean_is_read_as_it_is_written(tilt: Fraction) -> None:
    assert parse_lean(lean(tilt)) == tilt


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("3/8", KnobValue(Fraction(3, 8))),
        ("3/8 tested", KnobValue(Fraction(3, 8), True)),
        ("dado set/3/8 tested", KnobValue(Fraction(3, 8), True, "dado set")),
        ("1 in 8/5/4", KnobValue(Fraction(5, 4), tilt=Fraction(1, 8))),
        ("blade 1/-1 in 8/5/4", KnobValue(Fraction(5, 4), False, "blade 1", Fraction(-1, 8))),
    ],
)
def test_the_text_is_the_contracts(text: str, value: KnobValue) -> None:
    assert str(value) == text
    assert KnobValue.parse(text, ["blade", "blade 1", "dado set"]) == value


@pytest.mark.parametrize("text", ["rip-fence", "fitted", "dado set", "1 in 8", "", "a/b"])
def test_a_name_is_no_number(text: str) -> None:
    assert KnobValue.read(text, ["dado set"]) is None


@pytest.mark.parametrize("text", ["", "1", "1 in", "in 8", "1 in 8 in 9", "-0"])
def test_what_is_no_lean_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="no lean"):
        parse_lean(text)
