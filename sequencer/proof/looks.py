"""Where a look at the first piece stands for a cut on scrap.

Only a depth, which is cut deeper on the piece itself where it is too little; only where the scale
of the height was read often enough, and scatters so little that too deep is hardly ever to be
feared; and only where the test piece is there for whoever has to dial in after all.
"""

from __future__ import annotations

from math import pi, sqrt

from sequencer.plan import Checkpoint, Plan

DEPTHS = frozenset({"channel-depth", "shoulder-depth", "edge-shoulder-depth"})
READ = 3
"""Readings of a scale before anything is left to it; ours."""
SPOILS, RECUT = 2.5, 1.9
"""Sigmas from what is planned to the limits, too deep and not deep enough: one piece in 160, and
one in 35. Ours; the check against its cost is Deming's (Out of the Crisis, ch. 15)."""


def looks(plan: Plan, check: Checkpoint) -> bool:
    """Whether the check is such a look, and may be."""
    if check.scrap is not None or check.knob != "height" or check.setup is None:
        return False
    spare = check.stands_by
    pieces = {scrap.mark for scrap in plan.scrap} | {stick.mark for stick in plan.sticks}
    if check.measure.what.value not in DEPTHS or check.tool != "caliper" or spare not in pieces:
        return False
    setup = next(each for each in plan.setups if each.number == check.setup)
    found = next((each for each in setup.known if each.knob == "height"), None)
    if found is None or found.spread is None or found.count < READ:
        return False
    sigma = float(found.spread) * sqrt(1 + pi / 2 / found.count)
    above, below = float(check.high - check.exact), float(check.exact - check.low)
    return above >= SPOILS * sigma and below >= RECUT * sigma
