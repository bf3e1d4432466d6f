"""What is said of ways of cutting: every answer to every question."""

from __future__ import annotations

from typing import get_args, get_type_hints

from sequencer.facts import methods
from sequencer.methods import QUESTIONS, Choices
from sequencer.wording import Room
from sequencer.wording.methods import ANSWERS, HERE

UK = Room("UK")


def test_every_answer_has_words() -> None:
    hints = get_type_hints(Choices)
    asked = {(name, answer) for name in QUESTIONS for answer in get_args(hints[name])}
    assert set(ANSWERS) | {("groove", "dado")} == asked, "no groove is cut with a dado set"
    assert set(ANSWERS) == set(HERE)


def test_another_answer_stands_beside_the_one_taken() -> None:
    said = UK.say(methods.INSTEAD(question="slot_depth", answer="common", here="each"))
    assert said == "one slot depth for all rails (here: each its own)"
    said = UK.say(methods.INSTEAD(question="slot", answer="dado:1/4 set", here="turned"))
    assert said == "slots in one pass with the 1/4 set (here: both faces to the jig)"
    said = UK.say(methods.ANSWERED(question="groove_on", answer="piece"))
    assert said == "groove after crosscutting"
