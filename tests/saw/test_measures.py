"""What is measured, and its one text form, which plans that are followed and settings that are
saved already hold."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sequencer.contract import from_json, to_json
from sequencer.errors import InputError
from sequencer.saw.measures import Measure, What, places
from tests.proof import hand

which = st.from_regex(r"([A-Z]{1,2})?[1-9][0-9]?( [1-9]/[1-9] (in|mm))?", fullmatch=True)


@st.composite
def measures(draw: st.DrawFn) -> Measure:
    what = draw(st.sampled_from(What))
    measure = Measure(what, draw(st.sampled_from(places(what))))
    several = "{which}" in str(Measure(what, measure.place, "{which}"))
    return Measure(what, measure.place, draw(which)) if several else measure


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
        ("slot width", Measure(What.CHANNEL_WIDTH, "slot")),
        ("wall beside the groove", Measure(What.CHANNEL_WALL, "groove")),
        ("shoulder to shoulder, on the face", Measure(What.SHOULDERS, "face")),
        ("left under the back", Measure(What.UNDER_HOUSING, "back")),
        ("height of light 1, where it is highest", Measure(What.LIGHT_HEIGHT, "highest", "1")),
        ("height of the edge at either shoulder", Measure(What.EDGE_HEIGHT, "either")),
        (
            "height of the edge 2 1/2 in from the left shoulder",
            Measure(What.EDGE_HEIGHT, "from left", "2 1/2 in"),
        ),
        ("lap over the case at the hinge side", Measure(What.LAP, "hinge")),
        ("thickness 3/8 in from the edge", Measure(What.BEVEL, "", "3/8 in")),
    ],
)
def test_the_text_is_that_of_plans_made_before(text: str, measure: Measure) -> None:
    assert str(measure) == text
    assert Measure.parse(text) == measure


@pytest.mark.parametrize("text", ["", "width", "slot width ", "height of light "])
def test_what_nobody_measures_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="nothing that is measured"):
        Measure.parse(text)
    plan = to_json(hand.make()).replace('"slot width"', f'"{text}"', 1)
    with pytest.raises(InputError, match=r"checkpoints\[0\].measure"):
        from_json(plan)
