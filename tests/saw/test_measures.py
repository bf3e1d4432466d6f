"""What is measured, and its one text form, which plans and saved settings hold."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sequencer.contract import from_json, to_json
from sequencer.errors import InputError
from sequencer.facts import Length
from sequencer.saw.measures import Measure, What, places
from tests.proof import hand

marks = st.from_regex(r"([A-Z]{1,2})?[1-9][0-9]?", fullmatch=True)
distances = st.builds(
    Length, st.fractions(0, 40, max_denominator=64), st.sampled_from(["in", "mm"])
)


@st.composite
def measures(draw: st.DrawFn) -> Measure:
    what = draw(st.sampled_from(What))
    place = draw(st.sampled_from(places(what)))
    if what is What.BEVEL or place.startswith("from-"):
        return Measure(what, place, draw(distances))
    several = what.value.startswith(("pane-", "light-"))
    return Measure(what, place, draw(marks)) if several else Measure(what, place)


@given(measures())
def test_a_measure_is_read_as_it_is_written(measure: Measure) -> None:
    assert Measure.parse(str(measure)) == measure


def test_no_two_measures_are_written_alike() -> None:
    forms = [str(Measure(what, place, "7")) for what in What for place in places(what)]
    assert len(set(forms)) == len(forms)
    assert not any("{" in form for form in forms)


@pytest.mark.parametrize(
    ("text", "measure"),
    [
        ("channel-width/slot", Measure(What.CHANNEL_WIDTH, "slot")),
        ("shoulders", Measure(What.SHOULDERS)),
        ("light-height/lowest:1", Measure(What.LIGHT_HEIGHT, "lowest", "1")),
        ("light-height/highest:1", Measure(What.LIGHT_HEIGHT, "highest", "1")),
        ("pane-width:G1", Measure(What.PANE_WIDTH, which="G1")),
        (
            "edge-height/from-left:5/2 in",
            Measure(What.EDGE_HEIGHT, "from-left", Length(Fraction(5, 2), "in")),
        ),
        ("bevel:10 mm", Measure(What.BEVEL, which=Length(Fraction(10), "mm"))),
    ],
)
def test_a_measure_is_written_by_its_ids(text: str, measure: Measure) -> None:
    assert str(measure) == text
    assert Measure.parse(text) == measure


WRONG = ["", "width", "slot width", "channel-width", "channel-width/slot:1", "tenon/", "bevel:3",
         "light-width"]  # fmt: skip


@pytest.mark.parametrize("text", WRONG)
def test_what_nobody_measures_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="measured"):
        Measure.parse(text)
    plan = to_json(hand.make()).replace('"channel-width/slot"', f'"{text}"', 1)
    with pytest.raises(InputError, match=r"checkpoints\[\d\].measure"):
        from_json(plan)
