"""What is measured, in words: every kind at every place."""

from __future__ import annotations

import pytest

from sequencer.facts import measures
from sequencer.saw.measures import Measure, What, places
from sequencer.wording import Room
from sequencer.wording.measures import MEASURES, measure_words

UK = Room("UK")


def test_every_measure_has_words_of_its_own() -> None:
    assert set(MEASURES) == {(what, place) for what in What for place in places(what)}
    alike = {"from the marked face to the groove"}
    """Of a groove sawn, and of one routed along a shape."""
    said = [words for words in MEASURES.values() if words not in alike]
    assert len(set(said)) == len(said)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("channel-width/slot", "slot width"),
        ("to-shoulder/back", "from the end to the shoulder, on the back"),
        ("to-far-cheek/marked", "from the marked face to the far cheek"),
        ("light-height/lowest:1", "height of light 1, where it is lowest"),
        ("light-height/highest:1", "height of light 1, where it is highest"),
        ("edge-height/from-left:5/2 in", "height of the edge 2 1/2″ from the left shoulder"),
        ("bevel:10 mm", "thickness 10 mm from the edge"),
        ("gap/lock", "gap on the closing side"),
    ],
)
def test_a_measure_is_said(text: str, words: str) -> None:
    assert measure_words(Measure.parse(text), UK) == words
    assert UK.say(measures.MEASURED(form=text)) == words
