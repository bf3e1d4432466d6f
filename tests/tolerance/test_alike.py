"""What is required alike of several doors is one requirement, whatever asks for it of each."""

from __future__ import annotations

from sequencer.job.load import load_job
from sequencer.job.shop import default_shop
from sequencer.pipeline import plan

DOOR = """
[[door]]
opening = { width = "312.5", height = "401.5" }
hinge = "left"
stock = { thickness = "22" }
stiles = { hinge = "53" }
rails = { top = "60" }
"""
PLAIN = """groove = { depth = "5" }
panel = { play_side = "2", play_end = "1.5", engagement = "2.5" }
"""
IN_ITS_ROOM = """groove = { depth = "5.5" }
panel = { play_side = "2.5", play_end = "1", engagement = "1" }
wood = { moisture = "7" }
room = { driest = "8", wettest = "11.9" }
"""


def test_a_door_in_its_room_and_one_that_is_in_none_share_what_is_alike() -> None:
    text = f'unit = "mm"\nspecies = "cherry"\n{DOOR}{PLAIN}{DOOR}{IN_ITS_ROOM}'
    made = plan([load_job(text, "job.toml")], default_shop("mm"))
    assert made.proven
    (held,) = (each for each in made.requirements if each.what == "panel-held-across")
    assert {mark[0] for mark in held.of} == {"A", "B"}
    first, second = held.source.split("; ")
    assert first != second
