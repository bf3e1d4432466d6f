"""What is said of one pass over the saw: each sentence once."""

from __future__ import annotations

import pytest

from sequencer.facts import Fact, sawings
from sequencer.wording import Room

SAID: list[tuple[Fact, str]] = [
    (sawings.PASSES_BESIDE(), "the blade passes beside it"),
    (sawings.NOTHING_LEFT(), "nothing is left of the piece"),
    (sawings.TAKES_SIDE(side="side.end-A"), "the cut takes away its whole end A"),
    (
        sawings.TRAPPED(guide="guide.fence"),
        "what it frees is trapped between the blade and the fence",
    ),
    (sawings.BELOW_TABLE(), "the blade does not reach above the table"),
    (
        sawings.NO_GUIDE(guide="guide.fence"),
        "the cut needs both a setting of the fence and what lies against it",
    ),
    (sawings.SQUARED_ON_SLED_ONLY(), "only an end is squared by eye, on the sled"),
    (
        sawings.NOT_HELD_SO(
            carrier="carrier.rip-fence", down="side.face", against="side.inside-edge"
        ),
        "the rip fence takes no piece with its face down, inside edge to it",
    ),
    (sawings.BLADE_IN_GUIDE(guide="guide.fence"), "the blade stands in the fence"),
    (sawings.LEANS_INTO_GUIDE(guide="guide.fence"), "the blade leans into the fence"),
    (sawings.NIBBLED_ON_SLED_ONLY(), "only waste on the sled is nibbled away"),
    (sawings.MITRE_IS_NIBBLED(), "on the mitre sled all beyond the line is nibbled away"),
    (sawings.NIBBLED_UPRIGHT_ONLY(), "only an upright blade nibbles waste away"),
    (sawings.NO_SECOND_SHOULDER(), "only waste that is nibbled away has a second shoulder"),
    (
        sawings.SHOULDERS_TOO_NEAR(),
        "its two shoulders are nearer to each other than the kerf is wide",
    ),
    (
        sawings.SHORT_BEARING(side="side.end-A", guide="guide.fence"),
        "its end A does not bear on the fence over a safe length",
    ),
    (sawings.NOTHING_TO_STAND_ON(side="side.end-A"), "its end A is not there to stand on"),
    (sawings.NOT_THROUGH(), "the cut does not go through"),
    (sawings.NONE_KEPT(), "no wood is left on the side that is kept"),
]


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_what_is_said(fact: Fact, words: str) -> None:
    assert Room("UK").say(fact) == words


def test_every_sentence_is_in_the_table() -> None:
    assert {fact.kind for fact, _ in SAID} == set(sawings.kind_of.kinds.values())
