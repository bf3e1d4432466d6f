"""The parts list for other programs."""

from __future__ import annotations

import csv
import io
from dataclasses import replace

from sequencer.sheets import parts_csv
from tests.sheets.jobs import plan_of


def test_a_line_a_part() -> None:
    plan = plan_of("pair")
    rows = list(csv.DictReader(io.StringIO(parts_csv(plan))))
    assert [row["mark"] for row in rows] == [part.mark for part in plan.parts]
    stile = rows[0]
    # 29-3/4 in opening less two gaps of 3/32 is 29-9/16, and 1/32 stands proud at each end.
    assert (stile["length"], stile["width"], stile["thickness"]) == ("29 5/8", "2", "3/4")
    assert stile["joints"] == "slot at A and B; groove"
    assert rows[2]["joints"] == "tenon at A and B; groove"
    assert {row["unit"] for row in rows} == {"in"}


def test_a_name_that_looks_like_a_formula_is_none() -> None:
    plan = plan_of("single")
    parts = tuple(replace(part, material="=1+1") for part in plan.parts)
    rows = list(csv.DictReader(io.StringIO(parts_csv(replace(plan, parts=parts)))))
    assert {row["material"] for row in rows} == {"'=1+1"}
