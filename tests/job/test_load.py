"""Jobs: what a file says, what stands in where it says nothing, units, marks, bytes."""

from __future__ import annotations

import json
import tomllib
from fractions import Fraction
from pathlib import Path, PureWindowsPath

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sequencer.batch import is_table
from sequencer.cli.manifest import manifest
from sequencer.errors import InputError, SurroundingsError
from sequencer.facts import Length, doors
from sequencer.job.defaults import GROWTH, lengths, packaged
from sequencer.job.load import load_job, read_text
from sequencer.job.schema import Door, Job
from sequencer.job.shop import load_shop
from sequencer.lengths import Unit, convert, mixed
from tests.told import inch, refused

HEAD = 'unit = "in"\n[stock]\nthickness = "3/4"\n'
DOOR = '[[door]]\n{own}\n[door.opening]\nwidth = "14 1/2"\nheight = "22"\n'
PAIR = 'leaves = 2\ngaps.meeting = "1/8"'


def load(*doors: str, head: str = HEAD) -> Job:
    return load_job(head + "".join(DOOR.format(own=own) for own in doors), "job.toml")


def door(own: str = "", head: str = HEAD) -> Door:
    (only,) = load(own, head=head).doors
    return only


def test_the_starter_job_loads_and_shows_a_single_and_a_pair() -> None:
    job = load_job(packaged("starter.toml"), "job.toml")
    assert [d.marks for d in job.doors] == [("A",), ("B", "C")]
    assert (job.name, job.unit) == ("starter job", "in")


def test_what_the_starter_job_shows_behind_a_hash_are_the_defaults() -> None:
    shown = packaged("starter.toml").replace("# [", "[").replace("\n# ", "\n")
    table, found = "", 0
    for line in shown.splitlines():
        if line.startswith("["):
            table = line.split("]")[0].strip("[")
        key = f"{table}.{line.split(' =')[0]}"
        if " = " in line and key in lengths("in") and table != "stiles":
            value = tomllib.loads(line)[line.split(" =")[0]]
            assert value == mixed(lengths("in")[key]), line
            found += 1
    assert found >= 10


def test_defaults_for_all_but_opening_and_stock() -> None:
    only = door()
    assert only.name == doors.NUMBERED(n=1)
    assert only.where == "job.toml:4"
    assert {only.hinge_stile, only.free_stile, only.top_rail, only.bottom_rail} == {Fraction(2)}
    assert only.gaps.top == only.gaps.lock == Fraction(3, 32)
    assert only.gaps.meeting is None
    assert (only.joint.slot, only.groove.width, only.panel.thickness) == (None, None, None)
    assert (only.face_side, only.hinge, only.species) == ("out", "left", "hardwood")


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_every_default_and_limit_has_its_mark_and_source_and_both_units(unit: Unit) -> None:
    facts = tomllib.loads(packaged("defaults.toml"))
    for table in facts.values():
        for fact in table.values():
            assert set(fact) == {"in", "mm", "mark", "source"}
    other: Unit = "mm" if unit == "in" else "in"
    for key, value in lengths(unit).items():
        # Each unit's own rule, but the same size within a sixth.
        assert abs(convert(value, unit, other) - lengths(other)[key]) * 6 <= lengths(other)[key]


def test_a_door_overrides_the_file_key_by_key() -> None:
    head = HEAD + '[rails]\ntop = "2 1/4"\nbottom = "3"\n[gaps]\ntop = "1/8"\nbottom = "1/8"\n'
    one, two = load("", '[door.rails]\ntop = "2 1/2"\n[door.gaps]\ntop = "1/16"', head=head).doors
    assert [one.top_rail, one.bottom_rail] == [Fraction("2.25"), Fraction(3)]
    assert [two.top_rail, two.bottom_rail] == [Fraction("2.5"), Fraction(3)]
    assert (two.gaps.top, two.gaps.bottom) == (Fraction(1, 16), Fraction(1, 8))


def test_free_stiles_and_bottom_rails_fall_back_to_their_likes() -> None:
    head = HEAD + '[stiles]\nhinge = "2 1/4"\nlock = "2"\nmeeting = "1 3/4"\n[rails]\ntop = "3"\n'
    single, pair = load("", PAIR, head=head).doors
    assert [single.hinge_stile, single.free_stile] == [Fraction("2.25"), Fraction(2)]
    assert (pair.hinge_stile, pair.free_stile) == (Fraction(9, 4), Fraction(7, 4))
    assert single.bottom_rail == 3
    assert door(head=HEAD + '[stiles]\nhinge = "3"\n').free_stile == 3


def test_the_panel_is_of_the_frames_wood_unless_said() -> None:
    assert door('species = "ash"').panel.species == "ash"
    assert door('species = "ash"\npanel.species = "elm"').panel.species == "elm"


@pytest.mark.parametrize(
    ("doors", "marks"),
    [
        (["", "", PAIR], ["A", "B", "CD"]),
        (["count = 3", ""], ["A", "B", "C", "D"]),
        (["", 'mark = "A"', ""], ["B", "A", "C"]),
        ([f'mark = "K"\n{PAIR}', ""], ["KL", "A"]),
        ([f'mark = "K"\n{PAIR}', 'mark = "L"', ""], ["KM", "L", "A"]),
        ([f'mark = ["L", "K"]\n{PAIR}'], ["LK"]),
        (['mark = "K"\ncount = 3', ""], ["K", "A", "B", "C"]),
        ([f"count = 2\n{PAIR}"], ["AB", "CD"]),
        (['mark = "Z"', f'mark = "Y"\n{PAIR}'], ["Z", "YAA"]),
    ],
)
def test_marks(doors: list[str], marks: list[str]) -> None:
    assert ["".join(d.marks) for d in load(*doors).doors] == marks


def test_the_27th_leaf_is_aa() -> None:
    assert [d.marks[0] for d in load("count = 28").doors][-3:] == ["Z", "AA", "AB"]


def test_later_jobs_of_a_batch_take_other_marks() -> None:
    text = HEAD + DOOR.format(own="") + DOOR.format(own='mark = "C"')
    job = load_job(text, "job.toml", taken={"A", "D"})
    assert [d.marks for d in job.doors] == [("B",), ("C",)]
    with pytest.raises(InputError, match=r"file\.mark-of-the-batch\(mark=C\)"):
        load_job(text, "job.toml", taken={"C"})


def test_a_job_in_another_unit_is_converted_exactly() -> None:
    text = HEAD + DOOR.format(own='[door.joint]\nproud = "1/16"')
    inches, mm = load_job(text, "job.toml"), load_job(text, "job.toml", "mm")
    assert mm.unit == "mm"
    assert mm.doors[0].opening.width == Fraction("14.5") * Fraction("25.4")
    assert mm.doors[0].joint.proud == Fraction("25.4") / 16
    assert mm.doors[0].joint.slot is None
    assert mm.doors[0].places == inches.doors[0].places


def test_every_value_keeps_its_place() -> None:
    places = door('[door.rails]\ntop = "3"', head=HEAD + '[rails]\nbottom = "4"\n').places
    assert {key: (place.line, place.column) for key, place in places.items()} == {
        "stock.thickness": (3, 13),
        "rails.bottom": (5, 10),
        "rails.top": (8, 7),
        "opening.width": (10, 9),
        "opening.height": (11, 10),
        "door": (6, 1),
    }


@pytest.mark.parametrize("name", ["<b>&amp;</b>", "Küche – ½″", "食器棚", "{{ 7 * 7 }}", "a\\b'c"])
def test_names_are_kept_as_written(name: str) -> None:
    quoted = '"' + name.replace("\\", "\\\\") + '"'
    job = load(f"name = {quoted}\nspecies = {quoted}", head=f"name = {quoted}\n{HEAD}")
    assert (job.name, job.doors[0].species) == (name, name)
    assert job.doors[0].name == doors.OWN_NAME(name=name)


def test_a_job_without_a_name_is_called_like_its_file() -> None:
    assert load_job(HEAD + DOOR.format(own=""), "some/where/pantry.toml").name == "pantry"


def test_windows_files_read_like_others() -> None:
    text = HEAD + DOOR.format(own="")
    assert load_job("\ufeff" + text.replace("\n", "\r\n"), "job.toml") == load("")


def test_meeting_gap_by_hand() -> None:
    # Four stiles of 2 in: 8 in of width, of which 1/200 is 0.04 in; with 1/16 in of air 0.1025 in,
    # on a 64th 7/64 = 0.109 in. In mm: 4 x 50 = 200, of which 1/200 is 1; with 1.6 mm 2.6 mm.
    ok = 'leaves = 2\ngaps.meeting = "{}"'
    assert door(ok.format("7/64")).gaps.meeting == Fraction(7, 64)
    least = doors.LEAST_GAP(least=inch("7/64"))
    assert least in refused(lambda: door(ok.format("0.1")))
    mm = 'unit = "mm"\n[stock]\nthickness = "19"\n[[door]]\nleaves = 2\n[door.opening]\n'
    mm += 'width = "700"\nheight = "550"\n[door.gaps]\nmeeting = "{}"\n'
    assert load_job(mm.format("2.6"), "job.toml").doors[0].gaps.meeting == Fraction("2.6")
    least = doors.LEAST_GAP(least=Length(Fraction("2.6"), "mm"))
    assert least in refused(lambda: load_job(mm.format("2.5"), "job.toml"))


@pytest.mark.parametrize("coefficient", ["0.00248", "0.00353", "0.00369"])
def test_the_meeting_gap_takes_up_two_percent_of_moisture(coefficient: str) -> None:
    # Tangential coefficients of black cherry, sugar maple and red oak: Wood Handbook (FPL-GTR-190,
    # 2010), table 13-5, p. 13-16; growth by eq. 13-2, p. 13-15. Four stiles of up to 3 in.
    width = Fraction(12)
    growth = width * Fraction(coefficient) * 2
    assert lengths("in")["limits.meeting_air"] + GROWTH * width > growth


SIZES = st.integers(10 * 64, 40 * 64).map(lambda n: Fraction(n, 64))


@given(SIZES, SIZES, st.integers(64, 4 * 64).map(lambda n: Fraction(n, 64)))
def test_lengths_come_in_exactly_and_stay_so_in_the_other_unit(
    width: Fraction, height: Fraction, rail: Fraction
) -> None:
    text = (
        f'{HEAD}[rails]\ntop = "{mixed(rail)}"\n[[door]]\n[door.opening]\n'
        f'width = "{mixed(width)}"\nheight = "{mixed(height)} in"\n'
    )
    (here,), (there,) = load_job(text, "j").doors, load_job(text, "j", "mm").doors
    assert (here.opening.width, here.opening.height, here.top_rail) == (width, height, rail)
    assert there.opening.width == width * Fraction(127, 5)
    assert there.top_rail == here.top_rail * Fraction(127, 5)


@given(st.data())
def test_a_spoilt_file_is_refused_with_places_in_it_or_read(data: st.DataObject) -> None:
    text = packaged("starter.toml")
    for _ in range(data.draw(st.integers(1, 3))):
        at = data.draw(st.integers(0, len(text)))
        end = data.draw(st.integers(at, min(at + 12, len(text))))
        new = data.draw(st.text("[]{}=\"'\\\n\t#.,-/ 0123x½é\x00", max_size=4))
        text = text[:at] + new + text[end:]
    lines = text.count("\n") + 1
    try:
        load_job(text, "job.toml")
    except InputError as error:
        assert error.faults  # noqa: PT017  either outcome is right
        for fault in error.faults:
            assert fault.message
            assert 0 <= fault.line <= lines
            assert str(fault)


BYTES = [
    (b"", None),
    (b"\xef\xbb\xbfunit", None),
    (b"x" * 1_000_000, None),
    (b"x" * 1_000_001, "job.toml: file.too-large()"),
    (b"x" * 10_000_000, "job.toml: file.too-large()"),
    (b"\x7fELF\x00\x01", "job.toml: file.no-text()"),
    ("unit".encode("utf-16"), "job.toml: file.utf-16()"),
    ("a\nb = 'é'".encode("latin-1"), "job.toml: file.no-utf-8(byte=e9, line=2)"),
]


@pytest.mark.parametrize(("content", "says"), BYTES, ids=range(len(BYTES)))
def test_what_bytes_are_read(
    content: bytes, says: str | None, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("job.toml").write_bytes(content)
    if says is None:
        assert read_text("job.toml") == content.decode("utf-8-sig")
        return
    with pytest.raises(InputError) as caught:
        read_text("job.toml")
    assert str(caught.value).partition("\n")[0] == says


@pytest.mark.parametrize(("path", "says"), [("no.toml", "file.missing"), (".", "file.folder")])
def test_what_is_no_file(
    path: str, says: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    with pytest.raises(InputError, match=says):
        read_text(path)


def test_a_path_that_the_system_refuses() -> None:
    with pytest.raises(SurroundingsError, match=r"file\.unreadable"):
        read_text("a\0b")


def test_a_file_of_faults_is_told_its_first_hundred() -> None:
    with pytest.raises(InputError) as caught:
        load_job("unit = 7\n" + "".join(f"k{n} = 1\n" for n in range(5000)), "job.toml")
    assert len(caught.value.faults) == 101
    assert str(caught.value.faults[-1]) == "job.toml: file.more-may-follow(n=100)"


def test_a_file_of_doors_is_not_read_to_its_end() -> None:
    with pytest.raises(InputError, match=r"file\.too-many-doors\(most=300\)"):
        load(*[""] * 301)


def test_files_are_named_by_their_last_part_on_any_system(monkeypatch: pytest.MonkeyPatch) -> None:
    """Paths as Windows writes them: the name is the file's, messages have the path as it was."""
    for module in ("load", "shop", "table"):
        monkeypatch.setattr(f"sequencer.job.{module}.PurePath", PureWindowsPath)
    path = r"C:\cabinets\hall\doors.toml"
    job = load_job(HEAD + DOOR.format(own=""), path)
    assert (job.name, job.file, job.doors[0].where) == ("doors", path, f"{path}:4")
    assert load_shop('unit = "in"\n', r"C:\cabinets\shed.toml", "in").name == "shed"
    assert is_table(r"C:\cabinets\PARTS.CSV")
    told = manifest({path: "a"}, {}, {}, {})
    assert json.loads(told)["jobs"].keys() == {path}
