"""Every aid has its words: a name, and how it is made and stands."""

from __future__ import annotations

import pytest

from sequencer.trade.aids import AIDS as ROWS
from sequencer.wording import Room
from sequencer.wording.aids import AIDS, OFF, ON, ON_FENCE


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


def test_what_stands_at_the_fence_is_measured_from() -> None:
    """A low or tall fence on the rip fence's face moves its scale; what hangs on the piece does
    not (manuals of table saws, on auxiliary fences)."""
    assert {name for name, said in AIDS.items() if said.shifts} == {
        "narrow-rip-fence",
        "tall-fence",
    }
    room = Room("UK")
    assert room.text(ON, aid="tall fence") == "Fit: tall fence"
    assert room.text(OFF, aid="tall fence") == "Take off: tall fence"
    assert room.text(ON_FENCE, aid="tall fence") == (
        "Fit: tall fence. Measure from its edge to the blade, not by the fence's scale"
    )
