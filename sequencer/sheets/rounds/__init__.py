"""Pictures in the round: the very solids that the proof saws, seen from before the saw and above.

    shown = moments(plan)                          once a plan: the wood at each setup
    picture(plan, shown[4], room)                  62 by 45 mm, with words
    picture(plan, shown[4], room, SMALL)           30 by 21 mm, without

What is not shown: guard, riving knife and hands. They would hide the cut; the sheet tells of them.
"""

from sequencer.sheets.rounds.moments import Moment, moments
from sequencer.sheets.rounds.picture import LARGE, SMALL, Frame, picture

__all__ = ["LARGE", "SMALL", "Frame", "Moment", "moments", "picture"]
