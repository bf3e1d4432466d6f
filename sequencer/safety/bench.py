"""Rules on what is done at the bench (group K), and on the wood itself.

Each is met by a kind of step, whatever its pieces.
"""

from __future__ import annotations

from collections.abc import Mapping

from sequencer.plan import Plan
from sequencer.saw.kinds import KindName
from sequencer.trade.species import find

MET_BY: Mapping[str, tuple[KindName, ...]] = {
    "K01": ("shaped groove",),
    "K02": ("finish",),
    "K03": ("glaze",),
}
"""The kinds of step that meet a rule."""


def harmful_woods(plan: Plan) -> tuple[str, ...]:
    """The plan's woods, as the job names them, that are listed for what their dust does."""
    woods = dict.fromkeys(part.material for part in plan.parts)
    return tuple(wood for wood in woods if any(each.listed for each in find(wood)))
