"""Medians of what really took how long, and how they are written into a shop file."""

from __future__ import annotations

import tomllib
from fractions import Fraction

import pytest

from sequencer.errors import Refusal
from sequencer.sawside.state import Took
from sequencer.sawside.times import into_shop, typical


def took(minutes: str, **knobs: int) -> Took:
    return Took(tuple((k, Fraction(v)) for k, v in knobs.items()), int(Fraction(minutes) * 60_000))


def test_the_median_of_single_changes() -> None:
    found = typical([took("1", fence=1), took("3", fence=1), took("20", fence=1)])
    assert [(t.name, t.minutes, t.count) for t in found] == [("fence", Fraction(3), 3)]


def test_a_change_of_several_is_shared_as_planned() -> None:
    """Nine minutes for what was planned as two and one: six and three."""
    found = {t.name: t.minutes for t in typical([took("9", jig=2, height=1)])}
    assert found == {"jig": Fraction(6), "height": Fraction(3)}


def test_rounded_to_a_quarter_and_never_to_nothing() -> None:
    found = {t.name: t.minutes for t in typical([took("1/100", fence=1), took("1.4", stop=1)])}
    assert found == {"fence": Fraction(1, 4), "stop": Fraction(3, 2)}


def test_a_knob_timed_as_another_goes_by_its_key() -> None:
    """No shop file has minutes of the mitre sled's stop."""
    both = (Took((("stop", Fraction(1)),), 60_000), Took((("mitre stop", Fraction(1)),), 180_000))
    assert [(t.name, t.minutes, t.count) for t in typical(both)] == [("stop", Fraction(2), 2)]


SHOPS = {
    "with minutes": 'unit = "mm"\n\n[minutes]\nfence = 1   # a guess\n\n[sled]\ndeck = "18"\n',
    "without": 'unit = "mm"\n# the sled\n[sled]\ndeck = "18"\n\n\n',
    "at the end": 'unit = "mm"\n[minutes]\n"fence" = "1/2"',
}


@pytest.mark.parametrize("name", SHOPS)
def test_only_the_minutes_change(name: str) -> None:
    text = SHOPS[name]
    made = into_shop(text, {"fence": Fraction(7, 4), "test_cut": Fraction(4)})
    before, after = tomllib.loads(text), tomllib.loads(made)
    assert after.pop("minutes") == {
        **before.pop("minutes", {}), "fence": "1 3/4", "test_cut": "4",
    }  # fmt: skip
    assert after == before
    assert ("# a guess" in made) == ("# a guess" in text)
    assert ("# the sled" in made) == ("# the sled" in text)


def test_a_file_written_otherwise_is_left_alone() -> None:
    with pytest.raises(Refusal, match=r"follow\.not-line-by-line"):
        into_shop('minutes = { fence = "1" }\n', {"fence": Fraction(2)})
