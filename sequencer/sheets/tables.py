"""The parts list as a table for other programs."""

from __future__ import annotations

import csv
import io

from sequencer.plan import Plan
from sequencer.sheets.figures import Scale
from sequencer.sheets.stock import part_joints

COLUMNS = (
    "mark",
    "door",
    "job",
    "name",
    "material",
    "length",
    "width",
    "thickness",
    "unit",
    "joints",
)
_FORMULA = ("=", "+", "-", "@", "\t", "\r")


def parts_csv(plan: Plan) -> str:
    """One line a part, as it leaves the saw: lengths to the shop's graduation, with the decimal
    beside a rounded one.

    A spreadsheet would run a name that begins like a formula: such a cell gets an apostrophe.
    """
    scale = Scale(plan.unit, plan.shop.graduation)
    jobs = {door.mark: door.job for door in plan.doors}
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(COLUMNS)
    for part in plan.parts:
        size = part.size
        cells = [
            part.mark,
            part.door,
            jobs.get(part.door, ""),
            part.name,
            part.material,
            *(scale.text(length) for length in (size.length, size.width, size.thickness)),
            plan.unit,
            part_joints(part),
        ]
        writer.writerow([f"'{cell}" if cell.startswith(_FORMULA) else cell for cell in cells])
    return out.getvalue()
