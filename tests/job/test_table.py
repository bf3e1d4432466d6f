"""A table of pieces: read strictly, every fault with its place."""

from __future__ import annotations

from fractions import Fraction
from io import BytesIO
from zipfile import ZipFile

import pytest

from sequencer.errors import InputError
from sequencer.facts import Length, tables
from sequencer.job.opendocument import as_text
from sequencer.job.piece import Joinery
from sequencer.job.table import load_pieces

F = Fraction
HEAD = "mark,length,width,thickness,unit,end_a,end_b,depth_a,depth_b,slot,groove_width,groove_depth"
STILE = "A1,24,2,3/4,in,slot,slot,1-3/4,1-3/4,1/4,1/4,1/4"
RAIL = "A3,16,2,3/4,in,tenon,tenon,2,2,1/4,1/4,1/4"


def faults(*rows: str, head: str = HEAD) -> list[str]:
    with pytest.raises(InputError) as caught:
        load_pieces("\n".join((head, *rows)), "pieces.csv")
    return [str(fault) for fault in caught.value.faults]


def test_a_frame_is_read() -> None:
    job = load_pieces(f"{HEAD}\n{STILE}\n{RAIL}", "shed/frame.csv")
    stile, rail = job.pieces
    assert (job.name, job.unit, job.doors) == ("frame", "in", ())
    assert stile.ends == (("A", "slot", F(7, 4)), ("B", "slot", F(7, 4)))
    assert rail.tenon_width == F(7, 4)
    assert rail.joinery == Joinery(F(1, 4), F(1, 256), F(1, 4), F(1, 4)) == stile.joinery
    assert (stile.name, stile.material, stile.where) == ("", "hardwood", "shed/frame.csv:2")


@pytest.mark.parametrize("separator", [",", ";", "\t"])
def test_separators_order_and_columns_of_others(separator: str) -> None:
    rows = ["Unit,Colour,Mark,width,Length,Thickness", "mm,white,P,300,700.5,6", ""]
    text = "\r\n".join(row.replace(",", separator) for row in rows)
    (piece,) = load_pieces("\ufeff" + text, "p.csv").pieces
    assert (piece.length, piece.width, piece.joinery) == (F(1401, 2), F(300), None)


def test_quoted_cells_and_a_spreadsheets_apostrophe() -> None:
    head = "mark,name,length,width,thickness,unit"
    (piece,) = load_pieces(f'{head}\nP,"\'=door, left","22 1/2",2,3/4,in\n', "p.csv").pieces
    assert (piece.name, piece.length) == ("=door, left", F(45, 2))


def test_another_unit_is_taken_exactly() -> None:
    (piece,) = load_pieces("mark,length,width,thickness,unit\nP,10,2,3/4,in", "p.csv", "mm").pieces
    assert (piece.length, piece.thickness) == (F(254), F(381, 20))


@pytest.mark.parametrize(
    ("row", "says"),
    [
        ("A1,24,2,3/4,in,slot,,,,1/4,,", "table.no-depth(joint=slot, end=A)"),
        ("A1,24,2,3/4,in,,,1,,,,", "table.depth-alone(end=A)"),
        ("A1,24,2,3/4,in,slot,,1,,,,", "table.no-slot-width"),
        ("A1,3,2,3/4,in,slot,slot,1-1/2,1-1/2,1/4,,", "table.nothing-between"),
        ("A1,24,2,3/4,in,slot,,1,,9/16,,", str(tables.AT_MOST_HERE(most=Length(F(1, 2), "in")))),
        ("A1,24,2,3/4,in,,,,,,5/8,1/4", str(tables.GROOVE_TOO_WIDE(width=Length(F(5, 8), "in")))),
        ("A1,24,2,3/4,in,,,,,,1/4,", "table.no-groove-depth"),
        ("A1,24,2,3/4,in,,,,,,1/4,2", "table.groove-too-deep"),
        ("A1,24,2,3/4,in,mitre,,1,,1/4,,", "table.no-end(column=end_a)"),
        ("A1,,2,3/4,in,,,,,,,", "table.lacks(column=length)"),
        ("A1,24,0,3/4,in,,,,,,,", "table.lacks(column=width)"),
        ("1A,24,2,3/4,in,,,,,,,", "table.no-mark"),
        ("A1,24,2,4/4,in,,,,,,,", "pieces.csv:2:9: spelling.not-below-one(fraction=4/4)"),
        (RAIL, "pieces.csv:2:16: table.no-slot-to-try"),
    ],
)
def test_what_is_wrong_with_a_row(row: str, says: str) -> None:
    (said,) = faults(row)
    assert says in said


@pytest.mark.parametrize(
    ("more", "cells", "says"),
    [
        ("not_in_columns", "rebate", "table.not-carried(joints=rebate)"),
        ("joints", "slot at A; mitre at A", "table.not-carried(joints=slot at A; mitre at A)"),
        ("Qty", "2", "table.several(column=qty)"),
        ("colour", "red,5", "table.more-cells(cells=14, columns=13)"),
        ("colour", "red,", "table.more-cells(cells=14, columns=13)"),
    ],
)
def test_nothing_that_a_row_says_of_its_piece_is_lost(more: str, cells: str, says: str) -> None:
    (said,) = faults(f"P,24,2,3/4,in,,,,,,,,{cells}", head=f"{HEAD},{more}")
    assert says in said


def test_emptying_the_cells_as_advised_has_the_piece_cut_without() -> None:
    head = f"{HEAD},joints,not_in_columns"
    (said,) = faults("P,24,2,3/4,in,,,,,,,,rebate,rebate", head=head)
    assert "table.plan-its-job(columns=(joints, not_in_columns))" in said
    (piece,) = load_pieces(f"{head}\nP,24,2,3/4,in,,,,,,,,,", "p.csv").pieces
    assert piece.ends == ()


@pytest.mark.parametrize(
    ("column", "meant"),
    [
        ("Groove_Dpeth", "groove_depth"),
        ("tenon", "tenon_width"),
        ("slot width", "slot"),
        ("end-A.", "end_a"),
    ],
)
def test_a_column_that_is_spelt_nearly_like_one_is_a_fault(column: str, meant: str) -> None:
    head = "mark,length,width,thickness,unit"
    (said,) = faults("P,10,2,3/4,in,1", head=f"{head},{column}")
    assert f"file.did-you-mean(name={meant})" in said


def test_a_column_of_others_is_passed_over_and_named() -> None:
    head = "mark,length,width,thickness,unit,colour,stick,note"
    job = load_pieces(f"{head}\nP,10,2,3/4,in,red,#1,x", "p.csv")
    assert job.passed_over == ("colour", "note")


@pytest.mark.parametrize(
    "date", ["4-Mar", "Mar-04", "2026-03-04", "3/4/2026", "04.03.2026", "04. Mrz"]
)
def test_a_length_that_a_spreadsheet_made_a_date_of(date: str) -> None:
    (said,) = faults(f"A1,24,2,{date},in,,,,,,,")
    assert "table.made-a-date(column=thickness)" in said


def sheet(cells: str) -> bytes:
    """A spreadsheet of two rows, as another program may write it."""
    names = "urn:oasis:names:tc:opendocument:xmlns"
    head = "".join(
        f"<t:table-cell><x:p>{name}</x:p></t:table-cell>"
        for name in ("mark", "length", "width", "thickness", "unit")
    )
    text = (
        f'<o:c xmlns:o="{names}:office:1.0" xmlns:t="{names}:table:1.0" xmlns:x="{names}:text:1.0">'
        f"<t:table><t:table-row>{head}</t:table-row><t:table-row>{cells}</t:table-row>"
        '<t:table-row t:number-rows-repeated="1048574"><t:table-cell '
        't:number-columns-repeated="16384"/></t:table-row></t:table></o:c>'
    )
    packed = BytesIO()
    with ZipFile(packed, "w") as archive:
        archive.writestr("content.xml", text)
    return packed.getvalue()


def test_a_spreadsheet_of_another_program_is_read() -> None:
    """Attributes as ODF 1.3, part 3, 19.642 and 19.675 have them."""
    cells = (
        "<t:table-cell><x:p>P</x:p></t:table-cell>"
        '<t:table-cell o:value-type="float" o:value="22.3125"><x:p>22 5/16</x:p></t:table-cell>'
        '<t:table-cell t:number-columns-repeated="2"><x:p>0<x:s/>3/4</x:p></t:table-cell>'
        "<t:table-cell><x:p>in</x:p></t:table-cell>"
    )
    (piece,) = load_pieces(as_text(sheet(cells), "p.ods"), "p.ods").pieces
    assert (piece.length, piece.width, piece.thickness) == (F(357, 16), F(3, 4), F(3, 4))


def test_a_date_in_a_spreadsheet_is_told() -> None:
    kind = 'o:value-type="date" o:date-value="2026-03-04"'
    date = f"<t:table-cell {kind}><x:p>3/4</x:p></t:table-cell>"
    mark, unit = (f"<t:table-cell><x:p>{text}</x:p></t:table-cell>" for text in ("P", "in"))
    cells = f"{mark}{date * 3}{unit}"
    with pytest.raises(InputError, match=r"table\.made-a-date\(column=length\)"):
        load_pieces(as_text(sheet(cells), "p.ods"), "p.ods")


@pytest.mark.parametrize("data", [b"", b"mark,length", b"PK\x03\x04 and no more", sheet("<")])
def test_what_is_no_spreadsheet(data: bytes) -> None:
    with pytest.raises(InputError, match=r"table\.no-spreadsheet"):
        as_text(data, "p.ods")


def test_all_faults_are_told_with_their_places() -> None:
    told = faults(STILE, STILE, "B1,24,2,19 mm,mm,,,,,,,", "B2,2x,2,3/4,in,,,,,,,")
    assert told[0] == (
        "pieces.csv:3:1: table.mark-taken(mark=A1, line=2)\n"
        f"    {STILE}\n"
        "    ^\n"
        "    table.own-mark()"
    )
    assert told[1].startswith("pieces.csv:4:15: table.other-unit")
    assert told[2].startswith("pieces.csv:5:5: ")
    assert len(told) == 3


def test_the_hand_of_a_piece_is_read_or_told() -> None:
    head = f"{HEAD},inside"
    pieces = load_pieces(f"{head}\n{STILE},right\n{RAIL},", "frame.csv").pieces
    assert [piece.inside for piece in pieces] == ["right", None]
    (said,) = faults(f"{STILE},up", head=head)
    assert str(tables.NO_SIDE()) in said


def test_a_tenon_no_wider_than_the_groove_leaves() -> None:
    head = f"{HEAD},tenon_width"
    (said,) = faults(f"{STILE},", f"{RAIL},1-7/8", head=head)
    assert str(tables.TENON_AT_MOST(most=Length(F(7, 4), "in"))) in said


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", r"table\.no-column\(names=\(mark, length, width, thickness, unit\)"),
        ("mark,length,width,thickness", r"table\.no-column\(names=\(unit\)"),
        ("mark,mark,length,width,thickness,unit", r"table\.column-twice\(name=mark\)"),
        ("mark,length,width,thickness,unit\n,,,,\n", "table.no-pieces"),
        ("mark,length,width,thickness,unit\nA,1,2,3,feet", "table.no-unit"),
        ('mark,length,width,thickness,unit\n"A,1,2,3,in', "table.no-table"),
        (
            "mark,length,width,thickness,unit\n" + "".join(f"A{n},9,2,1,in\n" for n in range(501)),
            r"table\.too-many\(most=500\)",
        ),
    ],
)
def test_what_is_no_table(text: str, says: str) -> None:
    with pytest.raises(InputError, match=says):
        load_pieces(text, "pieces.csv")
