"""Whatever is advised of a refused job was tried: applied, the job plans."""

from __future__ import annotations

from pathlib import Path

import pytest

from sequencer.cli import main
from sequencer.facts import Fact, files
from sequencer.facts import offers as told
from sequencer.job.document import read_document
from sequencer.job.edit import Edit, Line, edited, line_of
from sequencer.remedies import Remedy
from tests.remedies.proven import FILE, count, refused

MITRED = """# my door
unit = "in"
[stock]
thickness = "3/4"   # as planed
[joint]
kind = "mitred bridle"
slot = "1/4"
[[door]]
[door.panel]
thickness = "1/2"
[door.opening]
width = "14 1/2"
height = "22"
"""
STEPPED = """UNIT
[stock]
thickness = "1 in"
[stiles]
hinge = "1 1/2 in"
[groove]
depth = "3/8 in"
[raised]
step = "1/8 in"
[[door]]
[door.opening]
width = "14 in"
height = "36 in"
"""
SHARED = """[raised]
step = "3/16"
"""
DOORS = """[[door]]
[door.opening]
width = "15"
height = "20"
[[door]]
[door.opening]
width = "16"
height = "22"
"""
STOCK = """unit = "in"
[stock]
thickness = "3/4"
"""
Capture = pytest.CaptureFixture[str]


def test_each_remedy_of_random_refusals_plans(seed: int, large: bool) -> None:
    told: list[str] = []
    found = count(400 if large else 12, seed, 30.0, told.append)
    print(dict(found))  # noqa: T201  counts, shown with -s
    assert not found["do not plan"], "\n".join(told)
    assert not found["lost a comment"]
    assert found["remedies"]


def test_mend_writes_the_first_and_says_so(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    monkeypatch.setattr("sequencer.cli.commands._PATIENCE", 60)
    monkeypatch.chdir(tmp_path)
    Path("kept").mkdir()
    Path("kept/own.toml").write_text(MITRED, "utf-8")
    Path("kept/own.toml").chmod(0o600)
    Path("job.toml").symlink_to("kept/own.toml")
    assert main(["plan", "job.toml", "--no-pdf"]) in (1, 3)
    assert Path("job.toml").read_text("utf-8") == MITRED
    capsys.readouterr()
    assert main(["plan", "job.toml", "--no-pdf", "--mend"]) in (1, 3)
    assert "job.toml: changed: " in capsys.readouterr().err
    assert Path("job.toml").is_symlink()
    assert Path("kept/own.toml").stat().st_mode & 0o777 == 0o600
    changed = Path("job.toml").read_text("utf-8")
    assert changed.count("#") == MITRED.count("#")
    assert main(["plan", "job.toml", "--no-pdf"]) == 0


@pytest.mark.parametrize(
    ("unit", "step"),
    [
        ('unit = "in"', "7/64"),
        ('unit = "in"                  # or "mm": then 571.5 is 571.5 mm', "7/64"),
        ("unit = 'in'", "7/64"),
        ("unit = 'mm'", "2.9"),
        ('# of "in" none\n"unit" = "mm"', "2.9"),
    ],
)
def test_figures_are_in_the_unit_of_the_file_however_it_is_written(unit: str, step: str) -> None:
    made = refused(STEPPED.replace("UNIT", unit), 30)
    assert made is not None
    assert made[0] == "part.step-too-high"
    assert [edit.value for edit in made[1][0].edits] == [step]


@pytest.mark.parametrize("text", [STOCK + SHARED + DOORS, STOCK + DOORS + SHARED])
def test_what_doors_share_is_changed_where_it_stands_before_them_or_behind(text: str) -> None:
    made = refused(text, 30)
    assert made is not None
    assert made[0] == "part.step-too-high"
    assert made[1][0].edits == (Edit("raised", "step", "7/64"),)
    assert made[1][0].text({FILE: text}) == text.replace("3/16", "7/64")


def test_what_a_door_says_otherwise_is_changed_under_it() -> None:
    text = STOCK + DOORS + '[door.raised]\nstep = "3/16"\n' + SHARED.replace("3/16", "3/32")
    made = refused(text, 30)
    assert made is not None
    assert made[1][0].text({FILE: text}) == text.replace("3/16", "7/64")


@pytest.mark.parametrize(
    ("edit", "becomes"),
    [
        (Edit("joint", "slot", "5/16"), 'slot = "5/16"  # tight'),
        (Edit("joint", "slot", None), "kind = \"bridle\"\n[[door]]"),
        (Edit("joint", "proud", "1/16"), '[joint]\nproud = "1/16"\n'),
        (Edit("groove", "depth", "3/8"), '[groove]\ndepth = "3/8"\n[[door]]'),
        (Edit("panel", "thickness", "1/4", 1), '[door.panel]\nthickness = "1/4"\n'),
        (Edit("rails", "top", "3", 1), '[door.rails]\ntop = "3"\n'),
        (Edit("opening", "width", '15 1/2"', 0), "opening = { width = '15 1/2\"', height = "),
        (Edit("opening", "more", "2", 0), 'height = "20", more = "2" }'),
        (Edit("", "species", "cherry"), 'unit = "in"  # of all\nspecies = "cherry"\n[joint]'),
    ],
)  # fmt: skip
def test_a_text_is_changed_in_one_place(edit: Edit, becomes: str) -> None:
    text = (
        'unit = "in"  # of all\n[joint]\nkind = "bridle"\nslot = "1/4"  # tight\n'
        '[[door]]\nopening = { width = "15", height = "20" }\n'
        '[[door]]\n[door.opening]\nwidth = "15"\nheight = "20"\n[rough]\ntrim = "1"\n'
    )
    made = edited(text, [edit])
    assert made is not None
    assert becomes in made
    gone = [line for line in text.split("\n") if line not in made.split("\n")]
    assert len(gone) <= 1


@pytest.mark.parametrize(
    ("text", "becomes", "says"),
    [
        ('[a]\nb = "1"  # x\nc = "2"\n', '[a]\nc = "2"\n', told.TAKE_OUT(key="b", table="[a]")),
        ('a."b" = "1"\na.c = "2"\n', 'a.c = "2"\n', told.TAKE_LINE_OUT(key='a."b"')),
        ('a = { b = "1" , c = "2" }\n', 'a = { c = "2" }\n',
         files.WRITE(text='a = { c = "2" }')),
        ('[x]\n[a]\nc = { b = "1" }\nb = [\n"1",\n]\nd = 1\n', '[x]\n[a]\nc = { b = "1" }\nd = 1\n',
         told.TAKE_OUT(key="b", table="[a]")),
        ('a = { c = "2", b = "1" }\n', 'a = { c = "2" }\n', files.WRITE(text='a = { c = "2" }')),
        ('a = {b = "1"}\n', "a = {}\n", files.WRITE(text="a = {}")),
    ],
)  # fmt: skip
def test_a_key_is_taken_out_with_its_line_or_out_of_its_braces(
    text: str, becomes: str, says: Fact
) -> None:
    edit = Edit("a", "b", None)
    assert edited(text, [edit]) == becomes
    assert Remedy(FILE, (edit,)).says({FILE: text}) == told.BOTH(each=(says,))


def test_what_is_no_file_of_keys_is_not_changed() -> None:
    assert edited("not toml at all", [Edit("a", "b", None)]) is None


BOTH_DOORS = STOCK + '[joint]\nslot = "1/4"\n' + DOORS


def test_what_is_not_there_is_not_said_to_be_left_out() -> None:
    both = Remedy(FILE, (Edit("joint", "slot", None), Edit("joint", "offset", None, 1)))
    only = told.TAKE_OUT(key="slot", table="[joint]")
    assert both.says({FILE: BOTH_DOORS}) == told.BOTH(each=(only,))


@pytest.mark.parametrize(
    ("text", "edit", "says"),
    [
        (BOTH_DOORS, Edit("groove", "depth", "3/8"),
         files.WRITE_UNDER(text='depth = "3/8"', table="[groove]")),
        (BOTH_DOORS, Edit("groove", "depth", "3/8", 1),
         told.WRITE_OF_DOOR(text='depth = "3/8"', table="[door.groove]", n=2)),
        (BOTH_DOORS + '[door.joint]\nslot = "1/4"\n', Edit("joint", "slot", None, 1),
         told.TAKE_OUT_OF_DOOR(key="slot", table="[door.joint]", n=2)),
        (MITRED, Edit("joint", "slot", "5/16", 0),
         files.WRITE_UNDER(text='slot = "5/16"', table="[door.joint]")),
        ("joint.slot = '1/4'\n" + STOCK + DOORS, Edit("joint", "slot", "3/8"),
         files.WRITE(text='joint.slot = "3/8"')),
        ("joint = { bars = 'stub tenon' }\n" + STOCK + DOORS, Edit("joint", "slot", "3/8"),
         files.WRITE(text="joint = { bars = 'stub tenon', slot = \"3/8\" }")),
    ],
)  # fmt: skip
def test_what_is_written_is_said_as_the_file_then_has_it(text: str, edit: Edit, says: Fact) -> None:
    remedy = Remedy(FILE, (edit,))
    assert remedy.says({FILE: text}) == told.BOTH(each=(says,))
    if edit.value is not None:
        assert str(says.given["text"]) in remedy.text({FILE: text}).split("\n")


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ('[joint]\nkind = "a" # b\n', Line('kind = "a"', "[joint]")),
        ('[ "joint" ]\n"kind" = "a"\n', Line('"kind" = "a"', '[ "joint" ]')),
        ('joint.kind = "a"\n', Line('joint.kind = "a"', "")),
        ('x = 1\njoint = { kind = "a", b = 1 }\n', Line('joint = { kind = "a", b = 1 }', "")),
        ('[x]\na = [\n["b"],\n]\n[joint]\nkind = "a"', Line('kind = "a"', "[joint]")),
        ('[joint]\na = [\n["b"],\n]\nkind = "a"', Line('kind = "a"', "[joint]")),
    ],
)
def test_a_line_is_said_as_the_file_has_it(text: str, line: Line) -> None:
    assert line_of(read_document(text, FILE), ("joint", "kind")) == line
