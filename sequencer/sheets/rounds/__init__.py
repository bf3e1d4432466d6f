"""Pictures in the round: the very solids that the proof saws, seen from before the saw and above.

    shown = moments(plan)                          once a plan: the wood at each setup
    picture(plan, shown[4], room)                  62 by 45 mm, with words
    picture(plan, shown[4], room, SMALL)           30 by 14.5 mm, without

    part_picture(plan, part, room)                 with its joints, face up, inside edge toward you
    leaf_picture(plan, door, room, apart=True)     pulled apart, or whole
    strip_picture(plan, stick, room)               as it is crosscut, with the hands of its pieces
    gathered(plan, room)                           all of these, each once

What is not shown: guard, riving knife and hands. They would hide the cut; the sheet tells of them.
"""

from sequencer.sheets.rounds.at_saw import LARGE, SMALL, Frame, picture
from sequencer.sheets.rounds.gathered import Gathered, gathered
from sequencer.sheets.rounds.leaves import leaf_picture
from sequencer.sheets.rounds.parts import part_picture
from sequencer.sheets.rounds.strips import strip_picture
from sequencer.sheets.rounds.walk import Moment, moments

__all__ = [
    "LARGE",
    "SMALL",
    "Frame",
    "Gathered",
    "Moment",
    "gathered",
    "leaf_picture",
    "moments",
    "part_picture",
    "picture",
    "strip_picture",
]
