"""Bevels of a raised panel: standing on the edge or end, its back against a tall fence, the blade
leaning away from the fence. What is freed is a wedge on the open side; the blade's top leaves the
field's step. Ends come before long edges, whose passes take away what tears out across the grain.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from msgspec import Struct

from sequencer.cuts.context import Context, exactly
from sequencer.cuts.model import Operation, Setting
from sequencer.facts import Length, feels
from sequencer.plan import CarrierName, Cut, Down, Part
from sequencer.saw.measures import Measure, What
from sequencer.saw.operation import OperationId

CARRIER: CarrierName = "rip-fence"
_DOWN: dict[str, Down] = {
    "A": "end-A",
    "B": "end-B",
    "inside-edge": "inside-edge",
    "outside-edge": "outside-edge",
}


class Bevel(Struct, frozen=True):
    """The same on every edge of a part: `width` from the edge to the field, `edge` what the edge
    keeps of the thickness, `slope` how much thicker it grows in one unit from there."""

    ats: tuple[str, ...]
    width: Fraction
    edge: Fraction
    slope: Fraction


def bevel_of(part: Part) -> Bevel | None:
    """As the part's features say; `None` where it has none."""
    found = [f for f in part.features if f.kind == "bevel" and f.prism is not None]
    if not found:
        return None
    prism = found[0].prism
    assert prism is not None
    inward = [corner[0] for corner in prism.corners]
    width, deepest = max(inward) - min(inward), max(corner[1] for corner in prism.corners)
    # Two corners lie on the face; of the others the lower is at the field.
    step = min(c[1] for c in prism.corners if c[1] > 0)
    edge, slope = part.size.thickness - deepest, (deepest - step) / width
    return Bevel(tuple(f.at for f in found), width, edge, slope)


def cut_bevels(part: Part, reach: Fraction, scrap: str, context: Context) -> Iterator[Operation]:
    """All bevels of a panel, ends and then edges. Tried on the test stick `scrap`: it is to fit the
    groove's mouth where it is `reach` from its edge. Kind: bevel."""
    bevel = bevel_of(part)
    if bevel is None:
        return
    setting = _setting(bevel, reach, scrap, context)
    for name, ats in (("ends", ("A", "B")), ("edges", ("inside-edge", "outside-edge"))):
        cuts = tuple(Cut(part.mark, _DOWN[at], "back", None) for at in bevel.ats if at in ats)
        yield Operation(OperationId(part.mark, "bevel", name), "bevel", part.mark, setting, cuts)


def _setting(bevel: Bevel, reach: Fraction, scrap: str, context: Context) -> Setting:
    thick = bevel.edge + reach * bevel.slope
    inward = Length(reach, context.unit)
    test = context.fit(Measure(What.BEVEL, which=inward), thick, 1, feels.BEVEL_SLIDES(), scrap)
    return Setting(
        carrier=CARRIER,
        cutter=context.cutter.name,
        kerf=context.kerf,
        guide=bevel.edge,
        depth=exactly(bevel.width),
        through=False,
        tests=(test,),
        tilt=-bevel.slope,
    )
