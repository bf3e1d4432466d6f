"""Signs, alike on paper and page: what covers the blade, and hazards that a few words and a sign
call to mind where they were told in full before.

Each is the path of a line drawing, 24 by 24 units, y down: black strokes, nothing filled.
"""

from __future__ import annotations

from collections.abc import Mapping

from sequencer.facts import cautions
from sequencer.plan import Plan, Setup
from sequencer.saw.fittings import CARRIERS
from sequencer.wording import Room
from sequencer.wording.cautions import parts_of
from sequencer.wording.changes import guarded

_BLADE = "M2 19 H22 M7 19 A5 5 0 0 1 17 19"
_KNIFE = "M18 19 A6 6 0 0 0 14 13.3"
_HOOD = "M4 15 Q4 5 12 5 Q20 5 20 15"
_BOX = "M4 19 V8 H20 V19"
_TEETH = "M6 15 L4 13 M8.5 12.5 L7 10 M12 11 V8 M15.5 12.5 L17 10"

PICTOGRAMS: Mapping[str, str] = {
    # A blade that comes out through the back of a sled.
    "C04": "M1 21 H23 M2 21 V16 H7 V4 H11 V21 M7 21 A8 8 0 0 1 23 21 M17 10 V13 M22 13 L20 15",
    # A plug drawn from its socket.
    "C13": "M2 12 H6 M6 7 V17 H10 A5 5 0 0 0 10 7 Z M15 10 H18 M15 14 H18 M19 6 V18 M19 12 H22",
    # A blade, an arrow back over it, struck through.
    "C15": f"{_BLADE} M20 8 H5 M9 4 L5 8 L9 12 M9 14 L17 2",
    # A long piece that lies on a stand.
    "G05": "M2 8 H22 M9 11 A3 3 0 0 1 15 11 A3 3 0 0 1 9 11 M12 14 V21 M8 21 H16",
}
"""By the hazard's rule."""


def signs_of(setup: Setup, plan: Plan, room: Room) -> tuple[tuple[str, str], ...]:
    """What stands beside a setup's heading, each with its words: what covers the blade; that sled
    and jig are not drawn back past it."""
    cover = plan.shop.cover
    found = [(guard_sign(setup, cover), guarded(setup.guard, plan.shop, room))]
    if CARRIERS[setup.carrier].body != "fence":
        found.append((PICTOGRAMS["C15"], parts_of(room, cautions.C15()).brief))
    return tuple(found)


def guard_sign(setup: Setup, cover: str | None) -> str:
    """What covers the blade in a setup: its guard, what the shop names instead, or nothing; and the
    riving knife, where one is on."""
    if setup.guard == "fitted":
        return f"{_BLADE} {_KNIFE} {_HOOD}"
    over = _BOX if cover else _TEETH
    return f"{_BLADE} {over}" if setup.guard == "cover" else f"{_BLADE} {_KNIFE} {over}"
