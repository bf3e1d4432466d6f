"""The parts list for other programs, and read in again."""

from __future__ import annotations

import csv
import io
from fractions import Fraction
from xml.etree import ElementTree
from zipfile import ZipFile

import pytest

from sequencer.doors import make_leaves
from sequencer.errors import InputError
from sequencer.facts import tables
from sequencer.job.opendocument import as_text
from sequencer.job.table import load_pieces
from sequencer.lengths import parse
from sequencer.measured import Measured
from sequencer.methods import Choices
from sequencer.plan import Feature, Plan
from sequencer.records import replace
from sequencer.sheets import parts_csv
from sequencer.sheets.tables import COLUMNS, JOINERY, parts_ods
from sequencer.wording import for_plan
from tests.sheets.jobs import plan_of

F = Fraction


def rows_of(plan: Plan) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(parts_csv(plan))))


def test_a_line_a_part() -> None:
    plan = plan_of("pair")
    rows = rows_of(plan)
    assert [row["mark"] for row in rows] == [part.mark for part in plan.parts]
    stile = rows[0]
    # 29-3/4 in opening less two gaps of 3/32 is 29-9/16, and 1/32 stands proud at each end.
    assert (stile["length"], stile["width"], stile["thickness"]) == ("29 23/32", "2", "0 3/4")
    assert stile["joints"] == "slot at A and B; groove"
    assert rows[2]["joints"] == "tenon at A and B; groove"
    assert {row["unit"] for row in rows} == {"in"}
    assert {row["not_in_columns"] for row in rows} == {""}


def test_joints_stand_in_columns() -> None:
    plan = plan_of("pair")
    stile, rail = (next(r for r in rows_of(plan) if r["joints"].startswith(k)) for k in ("s", "t"))
    part = next(p for p in plan.parts if p.mark == stile["mark"])
    slot = next(f for f in part.features if f.kind == "slot" and f.at == "A")
    assert (stile["end_a"], stile["end_b"]) == ("slot", "slot")
    assert parse(stile["depth_a"], "in") == slot.box[0][1] - slot.box[0][0]
    assert parse(stile["slot"], "in") == slot.box[2][1] - slot.box[2][0]
    assert (rail["end_a"], rail["end_b"], rail["slot"]) == ("tenon", "tenon", stile["slot"])


@pytest.mark.parametrize("name", ["pair", "single"])
def test_what_was_written_is_read_in_again(name: str) -> None:
    plan = plan_of(name)
    job = load_pieces(parts_csv(plan), "parts.csv")
    # Turned slots and tenons lie in the middle, as the plan has them.
    leaves = make_leaves([job], F(1, 8), Measured(), Choices())
    again = {part.mark: part for leaf in leaves for part in leaf.parts}
    assert job.unit == plan.unit
    assert sorted(again) == sorted(part.mark for part in plan.parts)
    say = for_plan(plan).say
    for part in plan.parts:
        read = again[part.mark]
        assert (read.size, read.material) == (part.size, part.material)
        assert say(read.name) == say(part.name)
        assert read.door == part.door
        assert boxes(read.features) == boxes(part.features), part.mark


def test_the_spreadsheet_says_the_same_and_is_read_in_again() -> None:
    """ODF 1.3, part 2, 3.3: `mimetype` comes first, stored as it is, without an extra field."""
    plan = plan_of("pair")
    made = parts_ods(plan)
    assert made == parts_ods(plan)
    assert made[30:38] == b"mimetype"
    assert made[38:84] == b"application/vnd.oasis.opendocument.spreadsheet"
    with ZipFile(io.BytesIO(made)) as packed:
        assert packed.testzip() is None
        content = ElementTree.fromstring(packed.read("content.xml"))
    kinds = {value for each in content.iter() for key, value in each.items() if "value-type" in key}
    assert kinds == {"string"}
    text = as_text(made, "parts.ods")
    rows = [line.split("\t") for line in text.split("\n")]
    assert [[*row, *[""] * (len(COLUMNS) - len(row))] for row in rows] == list(
        csv.reader(io.StringIO(parts_csv(plan)))
    )
    assert load_pieces(text, "p").pieces == load_pieces(parts_csv(plan), "p").pieces


@pytest.mark.parametrize("name", ["mitred", "barred"])
def test_a_part_is_read_in_again_whole_or_not_at_all(name: str) -> None:
    """Mitres, bars and rebates: no piece comes back without what it had."""
    plan = plan_of(name)
    text = parts_csv(plan)
    with pytest.raises(InputError) as caught:
        load_pieces(text, "parts.csv")
    refused = {fault.line: fault.message.kind for fault in caught.value.faults}
    assert set(refused.values()) <= {tables.NOT_CARRIED}
    rows = rows_of(plan)
    kept = [row for number, row in enumerate(rows, 2) if number not in refused]
    # What is kept has all its joints in columns; a plain panel has none.
    for row in kept:
        assert not row["not_in_columns"]
        assert not row["joints"] or row["end_a"] or row["end_b"] or row["groove_width"]
    assert len(kept) < len(rows)


def boxes(features: tuple[Feature, ...]) -> list[tuple[object, ...]]:
    return sorted((f.kind, f.at, f.box) for f in features)


def test_what_the_columns_cannot_say_is_named_and_they_are_empty() -> None:
    plan = plan_of("pair")
    first, *others = plan.parts
    box = ((F(0), F(1)), (F(0), F(1)), (F(0), F(1, 4)))
    odd = replace(first, features=(*first.features, Feature("rebate", "inside-edge", box)))
    rows = rows_of(replace(plan, parts=(odd, *others)))
    assert rows[0]["not_in_columns"] in ("rebate", "rabbet")
    assert not any(rows[0][name] for name in JOINERY)
    # Its rails' tenons would have no slot to be tried in.
    mates = {r["mark"] for r in rows if "the piece with its slot" in r["not_in_columns"]}
    mated = {p.mark for p in others for f in p.features if f.mate and f.mate.startswith("A1/")}
    assert mates == mated
    assert rows[1]["not_in_columns"] == ""


def test_a_joint_off_the_middle_is_left_out() -> None:
    plan = plan_of("pair")
    first, *others = plan.parts
    moved = tuple(
        replace(f, box=(f.box[0], f.box[1], (f.box[2][0] + F(1, 64), f.box[2][1] + F(1, 64))))
        for f in first.features
    )
    rows = rows_of(replace(plan, parts=(replace(first, features=moved), *others)))
    assert "not as these columns have it" in rows[0]["not_in_columns"]
    assert rows[0]["end_a"] == ""


def test_a_name_that_looks_like_a_formula_is_none() -> None:
    plan = plan_of("single")
    parts = tuple(replace(part, material="=1+1") for part in plan.parts)
    rows = list(csv.DictReader(io.StringIO(parts_csv(replace(plan, parts=parts)))))
    assert {row["material"] for row in rows} == {"'=1+1"}
