"""The plan: everything the person at the saw reads, and nothing of how it was found.

The one contract with other programs is its JSON form (`sequencer.contract`). Lengths are
`Fraction`s in `Plan.unit`, minutes `Fraction`s. Piece frame: x along the grain from end A, y across
the width from the inside edge, z through the thickness from the show face.
"""

from __future__ import annotations

from sequencer.plan.aids import Aid, AidBoard
from sequencer.plan.handling import Freed, Hold, KerfSide, Waste
from sequencer.plan.order import (
    Alternative,
    Baseline,
    Chosen,
    Compared,
    Knob,
    Method,
    Ordering,
    Placed,
    ProblemOperation,
)
from sequencer.plan.pieces import (
    AS_THE_STOCK,
    Against,
    Box,
    Door,
    Down,
    Feature,
    Hand,
    Keeps,
    Marked,
    Pane,
    Part,
    Place,
    Prism,
    Size,
    Span,
    Stick,
    StickPiece,
)
from sequencer.plan.requirements import Requirement, Share
from sequencer.plan.season import (
    BoardSeason,
    GapSeason,
    PanelSeason,
    Season,
    SlabSeason,
    Three,
)
from sequencer.plan.stock import Blank, Board, Order, RoughLine, ShopFacts
from sequencer.plan.warned import in_full
from sequencer.plan.whole import Plan, ToTick
from sequencer.plan.work import (
    Caution,
    Change,
    Checkpoint,
    Cut,
    Known,
    Removal,
    Scrap,
    SetBy,
    Setup,
    Step,
)
from sequencer.saw.fittings import CarrierName, GuardState
from sequencer.saw.kinds import SCRAP_STEPS, KindName
from sequencer.saw.measures import Measure

__all__ = [
    "AS_THE_STOCK",
    "SCRAP_STEPS",
    "Against",
    "Aid",
    "AidBoard",
    "Alternative",
    "Baseline",
    "Blank",
    "Board",
    "BoardSeason",
    "Box",
    "CarrierName",
    "Caution",
    "Change",
    "Checkpoint",
    "Chosen",
    "Compared",
    "Cut",
    "Door",
    "Down",
    "Feature",
    "Freed",
    "GapSeason",
    "GuardState",
    "Hand",
    "Hold",
    "Keeps",
    "KerfSide",
    "KindName",
    "Knob",
    "Known",
    "Marked",
    "Measure",
    "Method",
    "Order",
    "Ordering",
    "Pane",
    "PanelSeason",
    "Part",
    "Place",
    "Placed",
    "Plan",
    "Prism",
    "ProblemOperation",
    "Removal",
    "Requirement",
    "RoughLine",
    "Scrap",
    "Season",
    "SetBy",
    "Setup",
    "Share",
    "ShopFacts",
    "Size",
    "SlabSeason",
    "Span",
    "Step",
    "Stick",
    "StickPiece",
    "Three",
    "ToTick",
    "Waste",
    "in_full",
]
