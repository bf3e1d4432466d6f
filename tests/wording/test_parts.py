"""What pieces are called, and the sizes that a mitre refuses."""

from __future__ import annotations

import pytest

from sequencer.facts import Fact, parts
from sequencer.wording import Room
from tests.told import inch

SAID: list[tuple[Fact, str]] = [
    *((parts.NAMED(name=name.replace(" ", "-")), name) for name in (
        "hinge stile", "meeting stile", "top rail", "bottom rail", "mid rail", "mullion", "muntin",
        "panel", "slab", "piece",
    )),
    (parts.NAMED(name="lock-stile"), "closing stile"),
    (parts.NUMBERED(name="board", n=3), "board 3"),
    (parts.OWN_NAME(name="apron"), "apron"),
    (parts.PIECE_WIDTH(piece="lock-stile", width=inch("2")), "closing stile 2″"),
]  # fmt: skip


@pytest.mark.parametrize(("fact", "words"), SAID, ids=str)
def test_what_is_said(fact: Fact, words: str) -> None:
    assert Room("UK").say(fact) == words
