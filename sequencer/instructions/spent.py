"""What is left of a test piece where a test cut is not good.

Where a cut leaves too much standing, the same place is cut again. Where it took too much, that end
is spent: the other end serves, then what is spent is sawn off, as often as enough is left to hold.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from msgspec import Struct

from sequencer.plan import Checkpoint, Plan, Scrap
from sequencer.saw.fittings import CARRIERS
from sequencer.saw.measures import STANDING, What
from sequencer.trade import fits


class Ends(Struct, frozen=True):
    """Of a test piece: what is sawn off a spent end, so many `times`; where something on it is
    measured between both ends, off both together."""

    off: Fraction
    times: int


def spends(check: Checkpoint, value: Fraction) -> bool:
    """Whether what was measured says that too much is gone to cut there again."""
    if check.measure.what in STANDING:
        return value < check.target
    return value > check.target


def along(carrier: str) -> bool:
    """Whether what is cut on a carrier is cut along a strip, so that no end is spent."""
    return CARRIERS[carrier].body == "fence"


def ends_of(plan: Plan, mark: str) -> Ends | None:
    """`None` where nothing is tried at an end: along a strip no end is spent."""
    scrap = next((each for each in plan.scrap if each.mark == mark), None)
    reach = [] if scrap is None else list(_reach(plan, scrap))
    if scrap is None or not reach:
        return None
    checks = [check for check in plan.checkpoints if check.scrap == mark]
    both = any(check.measure.what is What.SHOULDERS for check in checks)
    step = fits.BLANK_STEP.of(plan.unit)
    off = -(-max(reach) // step) * step
    kerf = max(setup.kerf for setup in plan.setups)
    spare = scrap.size.length - fits.JIG_HOLD.of(plan.unit) - max(reach)
    times = max(Fraction(0), spare) // ((off + kerf) * (2 if both else 1))
    return Ends(off, int(times))


def _reach(plan: Plan, scrap: Scrap) -> Iterator[Fraction]:
    """How far from an end each setup cuts that is tried on the piece."""
    numbers = {check.setup for check in plan.checkpoints if check.scrap == scrap.mark}
    for setup in plan.setups:
        carrier = CARRIERS[setup.carrier]
        if setup.number not in numbers or along(setup.carrier):
            continue
        if carrier.slanted and setup.guide is not None:
            yield setup.guide + setup.kerf + scrap.size.width  # a mitre runs across it
        elif carrier.body == "jig":
            yield setup.depth
        elif setup.guide is not None:
            yield setup.guide + setup.kerf
