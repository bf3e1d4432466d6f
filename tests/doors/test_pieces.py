"""Pieces drawn elsewhere: planned, sawn virtually, and nothing said of a door."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sequencer.doors import make_leaves, open_choices
from sequencer.errors import Refusal
from sequencer.facts import notes, proofs
from sequencer.job.schema import Job
from sequencer.job.shop import default_shop
from sequencer.job.table import load_pieces
from sequencer.measured import Measured
from sequencer.methods import Choices
from sequencer.pipeline import plan
from sequencer.plan import Plan
from sequencer.records import replace
from sequencer.sheets import html
from tests.sheets.jobs import PAIR
from tests.stages import to_parts
from tests.told import name_of

F = Fraction
HEAD = (
    "mark,name,door,material,length,width,thickness,unit,end_a,end_b,depth_a,depth_b,slot,"
    "tenon_width,groove_width,groove_depth"
)
FRAME = [
    "A1,left stile,A,cherry,24,2,3/4,in,slot,slot,1-3/4,1-3/4,1/4,,1/4,1/4",
    "A2,right stile,A,cherry,24,2,3/4,in,slot,slot,1-3/4,1-3/4,1/4,,1/4,1/4",
    "A3,top rail,A,cherry,16,2,3/4,in,tenon,tenon,2,2,1/4,,1/4,1/4",
    "A4,bottom rail,A,cherry,16,2,3/4,in,tenon,tenon,2,2,1/4,,1/4,1/4",
    "A5,panel,A,cherry,20-3/8,12-3/8,15/64,in,,,,,,,,",
]


def job(*rows: str) -> Job:
    return load_pieces("\n".join((HEAD, *rows)), "pieces.csv")


def planned(*rows: str) -> Plan:
    return plan([job(*rows)], default_shop("in"))


def test_a_frame_is_planned_and_sawn_but_not_put_together() -> None:
    made = planned(*FRAME)
    assert [part.mark for part in made.parts] == ["A1", "A2", "A3", "A4", "A5"]
    assert made.doors == ()
    sawn, elsewhere = made.proven
    assert sawn.given["parts"] == proofs.PARTS(n=5)
    assert elsewhere == proofs.DRAWN_ELSEWHERE()
    assert "fit of the pieces is not proven" in html(made)
    bench = {"dry fit", "glue-up", "hang", "trim", "flush"}
    assert not bench & {step.kind for step in made.steps}


def test_the_hand_that_a_table_does_not_tell_is_said_where_it_matters() -> None:
    """A1 has a slot at end A alone: of the other hand it is another piece. A2 has equal ends."""
    rows = [FRAME[0].replace("slot,slot,1-3/4,1-3/4", "slot,,1-3/4,"), FRAME[1]]
    made = planned(*rows)
    assert [part.inside for part in made.parts] == ["left", "left"]
    assert notes.HAND_TAKEN(marks=("A1",)) in made.notes
    told = load_pieces("\n".join((f"{HEAD},inside", f"{rows[0]},right", rows[1])), "pieces.csv")
    other = plan([told], default_shop("in"))
    assert [part.inside for part in other.parts] == ["right", "left"]
    assert not [note for note in other.notes if note.kind is notes.HAND_TAKEN]
    laid = {p.mark: (p.end_a, p.remarked) for s in other.sticks for p in s.pieces}
    assert (laid["A1"], laid["A2"]) == (("right", False), ("left", True))


def test_slots_come_before_the_tenons_that_are_tried_in_them() -> None:
    steps = planned(*FRAME).steps
    last_slot = max(step.number for step in steps if step.kind == "slot")
    assert last_slot < min(step.number for step in steps if step.kind == "cheek")


def test_a_frame_is_cut_as_the_same_door_would_be() -> None:
    """The parts of a door of ours, written as a table, get the same features."""
    ours = to_parts(PAIR)
    rows = []
    for part in ours.values():
        if part.door != "A":
            continue
        size = ",".join(f"{float(v)}" for v in (part.size.length, part.size.width))
        ends = {f.at: f for f in part.features if f.kind in ("slot", "cheek")}
        kind = {"stile": "slot", "rail": "tenon"}.get(part.role, "")
        depths = [
            str(float(ends[at].box[0][1] - ends[at].box[0][0])) if at in ends else "" for at in "AB"
        ]
        groove = next((f.box for f in part.features if f.kind == "groove"), None)
        wide = "" if groove is None else str(float(groove[2][1] - groove[2][0]))
        deep = "" if groove is None else str(float(groove[1][1]))
        thick = float(part.size.thickness)
        rows.append(
            f"{part.mark},{name_of(part)},A,{part.material},{size},{thick},in,{kind},{kind},"
            f"{','.join(depths)},{wide if kind else ''},,{wide},{deep}"
        )
    leaves = make_leaves([job(*rows)], F(1, 8), Measured(), Choices())
    theirs = {part.mark: part for leaf in leaves for part in leaf.parts}
    for mark, part in theirs.items():
        assert part.size == ours[mark].size
        unnamed = {replace(feature, mate=None) for feature in ours[mark].features}
        assert set(part.features) == unnamed


def test_plain_pieces_take_no_joint_and_no_test_stick() -> None:
    made = planned("B1,shelf edge,,ash,30,1-1/2,3/4,in,,,,,,,,")
    assert made.scrap == ()
    cuts = [step.kind for step in made.steps if step.cuts]
    assert cuts == ["rip", "square", "crosscut"]


def test_a_groove_alone() -> None:
    made = planned("B1,rail,,ash,30,2,3/4,in,,,,,,,1/4,3/8")
    assert [f.kind for f in made.parts[0].features] == ["groove"]
    assert "groove" in {step.kind for step in made.steps}


def test_a_narrower_tenon_gets_its_edge_cheek() -> None:
    rails = [row.replace("1/4,,1/4,1/4", "1/4,1-1/2,1/4,1/4") for row in FRAME[2:4]]
    made = planned(*FRAME[:2], *rails)
    edges = [f for part in made.parts for f in part.features if f.kind == "edge-cheek"]
    assert {f.box[1] for f in edges} == {(F(0), F(1, 2))}
    assert len(edges) == 4


def test_a_joint_too_deep_for_the_blade_is_refused() -> None:
    deep = FRAME[0].replace("1-3/4,1-3/4", "1-3/4,3-1/4")
    with pytest.raises(
        Refusal, match=r"too-deep-on-end\(.*joint=slot, end=B, mark=A1, depth=13/4 in"
    ):
        planned(deep)


def test_open_choices() -> None:
    framed = open_choices([job(*FRAME)], F(1, 8), Measured())
    assert framed[0] == Choices()
    assert len(framed) == len(set(framed)) == 16
    plain = open_choices([job("B1,edge,,ash,30,2,3/4,in,,,,,,,,")], F(1, 8), Measured())
    assert plain == (Choices(),)


@st.composite
def tables(draw: st.DrawFn) -> list[str]:
    """A slotted piece, a tenoned one and whatever else, on eighths and sixteenths."""

    def eighths(low: int, high: int) -> str:
        return f"{draw(st.integers(low, high)) / 8}"

    slot = draw(st.sampled_from(("0.25", "0.3125", "0.1875")))
    groove = draw(st.sampled_from((",", "0.25,0.25", "0.1875,0.375")))
    rows = []
    for mark, kind in (("A", "slot"), ("B", "tenon")):
        far = draw(st.sampled_from(("", kind)))
        depths = f"{eighths(6, 20)},{eighths(6, 20) if far else ''}"
        rows.append(
            f"{mark},one,,cherry,{eighths(100, 240)},{eighths(12, 24)},0.75,in,{kind},{far},"
            f"{depths},{slot},,{groove}"
        )
    more = range(draw(st.integers(0, 2)))
    plain = "0.75,in,,,,,,,,"
    return rows + [f"C{n},more,,cherry,{eighths(100, 240)},{eighths(16, 60)},{plain}" for n in more]


@settings(max_examples=12)
@given(tables())
def test_what_is_planned_is_proven(rows: list[str]) -> None:
    """`plan` saws every plan virtually, and fails where a part is not as designed."""
    try:
        made = planned(*rows)
    except Refusal:
        return  # too short to hold, or too deep: said in words that other tests hold
    assert made.proven
    assert len(made.parts) == len(rows)
