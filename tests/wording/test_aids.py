"""Every aid has its words: a name, and how it is made and stands."""

from __future__ import annotations

import pytest

from sequencer.trade.aids import AIDS as ROWS
from sequencer.wording import Room
from sequencer.wording.aids import AIDS, OFF


def test_the_registry_and_its_words_agree() -> None:
    assert list(AIDS) == list(ROWS)


@pytest.mark.parametrize("name", AIDS)
def test_an_aid_is_named_and_its_making_is_a_sentence(name: str) -> None:
    room = Room("UK")
    assert room.term(f"aid.{name}") == AIDS[name].name
    assert AIDS[name].name[0].islower()
    how = room.text(AIDS[name].how)
    assert how[0].isupper()
    assert how.endswith(".")
    assert {room.term(f"wood.{board.wood}") for board in ROWS[name].boards}


def test_an_aid_comes_off_by_its_name() -> None:
    assert Room("UK").text(OFF, aid="tall fence") == "take off: tall fence"
