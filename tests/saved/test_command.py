"""`sequencer setups`, `recut` and what `plan` does with a store: as a person calls them."""

from __future__ import annotations

import errno
import io
import json
import os
import re
from pathlib import Path

import pytest

from sequencer import cli
from sequencer.saved.store import Store
from tests.saved.entries import entry
from tests.saved.test_story import FIRST

ADD = (
    "add", "--saw", "built-in shop", "--cutter", "combination blade", "--kerf", "1/8",
    "--carrier", "rip-fence", "--knob", "fence=2@2 1/64", "--makes", "rip 2 in", "--kind", "rip",
)  # fmt: skip


class Shell:
    """Runs commands in a folder of its own, with a store of its own."""

    def __init__(self, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
        self.store = folder / "store.sqlite"
        self.capsys = capsys

    def run(self, *arguments: str, code: int = 0) -> str:
        """What the command printed: to stdout where it went well, else to stderr."""
        assert cli.main(arguments) == code
        out, err = self.capsys.readouterr()
        return err if code else out

    def setups(self, *arguments: str, code: int = 0) -> str:
        return self.run("setups", "--settings", str(self.store), *arguments, code=code)


@pytest.fixture
def shell(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> Shell:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    (tmp_path / "job.toml").write_text(FIRST)
    return Shell(tmp_path, capsys)


def test_settings_are_added_listed_and_shown(shell: Shell) -> None:
    assert (
        shell.setups("list")
        == "no saved settings yet: follow a plan, or write sequencer setups add\n"
    )
    assert (
        shell.setups(*ADD, "--gauge", "block", "B", "--note", "tall fence") == "saved setting 1\n"
    )
    head, row = shell.setups("list").splitlines()
    heads = ["no.", "saw", "cutter", "kerf", "fence or jig", "setting", "makes", "gauge", "date"]
    assert re.split("  +", head) == heads
    assert "1/8″" in row
    assert "fence 2 1/64″" in row
    assert "gauge block B" in row
    shown = shell.setups("show", "1")
    assert "fence    2″ as computed, 2 1/64″ as read; gauge block B" in shown
    assert "note     tall fence" in shown
    (data,) = json.loads(shell.setups("list", "--json"))
    assert (data["number"], data["kerf"], data["knobs"][0]["share"]) == (1, "1/8", "0")
    assert json.loads(shell.setups("show", "1", "--json")) == [data]


def test_a_file_that_cannot_be_written_is_named_with_what_the_system_says(shell: Shell) -> None:
    shell.setups(*ADD)
    said = shell.setups("export", "no/such/folder/x.json", code=4)
    assert said.endswith(f"no/such/folder/x.json: cannot be written: {os.strerror(errno.ENOENT)}\n")


def test_data_for_other_programs_can_be_read_by_people_too(shell: Shell) -> None:
    shell.setups(*ADD, "--note", "½ Eiche, größer")
    assert '"note": "½ Eiche, größer"' in shell.setups("list", "--json")
    assert shell.setups("export", "Größen.json", "--json") == '{"file": "Größen.json"}\n'


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (("--knob", "fence"), "write what is set, =, and its length"),
        (("--knob", "fence=2 1/3"), "no rule is divided in parts of 1/3"),
        (("--knob", "lever=2"), "what is set is one of"),
        (("--knob", "jig=2"), "rip fence has no jig: write height or fence"),
        (("--knob", "height=1@7"), "height: 7 in as read is too far from 1 in as computed"),
        (("--knob", "height=1@0"), "height: 0 in as read is too far from 1 in as computed"),
        (("--kerf", "3.2"), "a kerf of 3.200 in: cutters have 1/16 in to 13/16 in"),
        (("--kerf", "12"), "a kerf of 12 in: cutters have 1/16 in to 13/16 in"),
        (("--date", "2025-13-01"), "2025-13-01 is no date; write it as 2025-11-25"),
        (("--date", "25.11.2025"), "25.11.2025 is no date"),
        (("--date", "2025-1-5"), "2025-1-5 is no date"),
        (("--date", ""), " is no date"),
        (("--kerf", "thin"), "thin"),
        (("--gauge", "wedge", "B"), "wedge: a gauge is block, spacer or story stick"),
    ],
)
def test_what_is_added_wrongly_is_refused(shell: Shell, change: tuple[str, ...], says: str) -> None:
    assert says in shell.setups(*ADD, *change, code=2)
    assert "no saved settings" in shell.setups("list")


def test_a_setting_that_cannot_be_is_left_out_of_the_plan_and_named(
    shell: Shell, tmp_path: Path
) -> None:
    """What was kept before it was asked for, or has come from another store."""
    shell.setups(*ADD)
    exported = tmp_path / "export.json"
    shell.setups("export", str(exported))
    exported.write_text(exported.read_text().replace('"read": "129/64"', '"read": "9"'))
    shell.setups("forget", "1")
    shell.setups("import", str(exported))
    shell.run("plan", "job.toml", "--settings", str(shell.store), "--no-pdf")
    notes = json.loads((tmp_path / "sheets/plan.json").read_text())["notes"]
    (told,) = (note for note in notes if note["id"] == "note.useless")
    assert told["with"]["settings"]["with"]["numbers"] == [2]


def test_notes_gauges_and_blades(shell: Shell) -> None:
    shell.setups(*ADD)
    shell.setups("note", "1", "moved the fence face", "--gauge", "story stick", "4")
    shown = shell.setups("show", "1")
    assert "note     moved the fence face" in shown
    assert "story stick mark 4" in shown
    shell.setups("note", "1", "--no-gauge")
    assert "story stick" not in shell.setups("show", "1")
    marked = shell.setups("note", "--sharpened", "combination blade")
    assert marked == "combination blade: 1 saved setting marked: kerf to be checked\n"
    assert "kerf to be checked" in shell.setups("show", "1")
    shell.setups("note", "--checked", "combination blade")
    assert "kerf to be checked" not in shell.setups("show", "1")
    for wrong in (("note",), ("note", "1"), ("note", "1", "x", "--checked", "combination blade")):
        assert "name a setting and what to note" in shell.setups(*wrong, code=2)


def test_a_cutter_that_no_setting_knows_is_not_taken_for_done(shell: Shell) -> None:
    shell.setups(*ADD)
    said = shell.setups("note", "--sharpened", "combination", code=2)
    assert "no saved setting was dialled in with combination: there are " in said
    assert "combination blade" in said
    assert "kerf to be checked" not in shell.setups("show", "1")


def test_every_command_answers_other_programs(shell: Shell) -> None:
    def data(*arguments: str) -> object:
        return json.loads(shell.setups(*arguments, "--json"))

    assert data("list") == []
    assert not shell.store.exists()  # looking makes no file
    assert data(*ADD) == {"number": 1}
    assert data("note", "1", "tall fence") == {"number": 1, "marked": {}}
    assert data("note", "--sharpened", "combination blade") == {
        "number": None,
        "marked": {"combination blade": 1},
    }
    assert data("export", "x.json") == {"file": "x.json"}
    assert data("import", "x.json") == {"added": [], "replaced": [], "joined": [], "kept": []}
    assert data("forget", "1") == {"forgotten": [1]}
    assert data("import", "x.json") == {"added": [2], "replaced": [], "joined": [], "kept": []}


class Keyboard(io.StringIO):
    def isatty(self) -> bool:
        return True


@pytest.mark.parametrize(
    ("answer", "note"),
    [("y\n", "theirs; ours"), ("\n", "ours; theirs"), ("", "ours; theirs")],
)
def test_an_import_asks_before_it_overwrites(
    shell: Shell, monkeypatch: pytest.MonkeyPatch, answer: str, note: str
) -> None:
    shell.setups(*ADD, "--note", "theirs")
    shell.setups("export", "x.json")
    shell.setups("note", "1", "ours")
    monkeypatch.setattr("sys.stdin", Keyboard(answer))
    assert cli.main(["setups", "--settings", str(shell.store), "import", "x.json"]) == 0
    asked = "saved setting 1 differs: note: here ours, in the file theirs. Take the file's? [y/N]"
    assert asked in shell.capsys.readouterr().err
    assert f"note     {note}\n" in shell.setups("show", "1")


def test_forgetting_takes_all_or_none(shell: Shell) -> None:
    shell.setups(*ADD)
    shell.setups(*ADD)
    assert "no saved setting 7" in shell.setups("forget", "1", "7", code=2)
    assert len(shell.setups("list").splitlines()) == 3
    assert shell.setups("forget", "1", "2").count("forgotten: saved setting") == 2


def test_export_and_import(shell: Shell, tmp_path: Path) -> None:
    shell.setups(*ADD)
    shell.setups("export", "x.json")
    assert "already there, and kept" in shell.setups("export", "x.json", code=4)
    assert shell.setups("export") == (tmp_path / "x.json").read_text()
    with Store(shell.store, lambda: "now") as store:
        store.doubt("combination blade", True)
    said = shell.setups("import", "x.json")
    assert "saved setting 1 stays as it is here" in said
    assert "doubted: here True, in the file False" in said
    assert "0 added, 1 replaced" in shell.setups("import", "x.json", "--take", "file")
    shell.setups("forget", "1")
    assert "1 added" in shell.setups("import", "x.json")
    assert "no such file" in shell.setups("import", "y.json", code=3)


def test_a_torn_store_is_said_and_its_rest_exported(shell: Shell, tmp_path: Path) -> None:
    with Store(shell.store, lambda: "now") as store:
        lot = [entry(n, uid=f"uid {n}") for n in range(500)]
        store.merge(lot, lambda *_: False)
    data = shell.store.read_bytes()
    shell.store.write_bytes(data[: len(data) // 2])
    said = shell.setups("list", code=4)
    assert "damaged" in said
    assert "could be read" in said
    shell.setups("export", "rest.json", code=4)
    rest = json.loads((tmp_path / "rest.json").read_text())
    assert 0 < len(rest["settings"]) < 500
    shell.store.rename(tmp_path / "torn")
    assert f"{len(rest['settings'])} added" in shell.setups("import", "rest.json")


def test_a_plan_is_made_without_a_store_that_is_torn_and_says_so(
    shell: Shell, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    shell.store.write_bytes(b"")
    assert cli.main(["plan", "job.toml", "--no-pdf", "--settings", str(shell.store)]) == 0
    assert "planned without saved settings" in capsys.readouterr().err
    notes = json.loads((tmp_path / "sheets" / "plan.json").read_text())["notes"]
    assert notes[0]["id"] == "command.without-saved"
    assert shell.store.read_bytes() == b""
    assert "no such file of saved settings" in shell.run(
        "plan", "job.toml", "--settings", "nowhere", code=2
    )


def test_planning_alone_makes_no_store(shell: Shell, tmp_path: Path) -> None:
    shell.run("plan", "job.toml", "--no-pdf")
    assert not (tmp_path / "data").exists()


def test_a_saved_rip_stands_on_the_sheet(shell: Shell, tmp_path: Path) -> None:
    shell.setups(*ADD, "--gauge", "block", "B")
    shell.run("plan", "job.toml", "--no-pdf", "--settings", str(shell.store))
    page = (tmp_path / "sheets" / "plan.html").read_text()
    assert "saved setting 1: gauge block B, reads 2 1/64″" in page


def test_a_piece_is_made_again_by_the_methods_of_the_plan(shell: Shell, tmp_path: Path) -> None:
    said = shell.run("recut", "job.toml", "A3", "--no-pdf")
    assert "no sheets/plan.json here, so the job was planned anew" in said
    shell.run("plan", "job.toml", "--no-pdf")
    said = shell.run("recut", "job.toml", "A3", "A1", "--no-pdf")
    assert "methods as in sheets/plan.json" in said
    assert "a spare of A1 and A3 cut along with the job would have taken no extra setup" in said
    made = json.loads((tmp_path / "recut" / "plan.json").read_text())
    assert made["again"] == ["A1", "A3"]
    assert [part["mark"] for part in made["parts"]] == ["A1", "A3"]
    assert "no piece B1 in this plan" in shell.run("recut", "job.toml", "B1", code=2)
    other = FIRST.replace('width = "14"', 'width = "15"')
    (tmp_path / "job.toml").write_text(other)
    assert "would not come out as it was planned" in shell.run("recut", "job.toml", "A3", code=1)


def test_a_piece_of_a_batch_asks_for_the_job_that_it_is_of(shell: Shell, tmp_path: Path) -> None:
    (tmp_path / "other.toml").write_text(FIRST)
    shell.run("plan", "job.toml", "other.toml", "--no-pdf")
    said = shell.run("recut", "job.toml", "B3", "B1", "--no-pdf", code=2)
    assert "B1 and B3: of another job of this plan; name all its job files" in said
    shell.run("recut", "job.toml", "B3", "--also", "other.toml", "--no-pdf")


PIECES = """\
mark,name,material,length,width,thickness,unit,end_a,end_b,depth_a,depth_b,slot
A1,stile,cherry,20,2,3/4,in,slot,slot,2,2,1/4
A2,stile,cherry,20,2,3/4,in,slot,slot,2,2,1/4
A3,rail,cherry,14,2,3/4,in,tenon,tenon,2,2,1/4
A4,rail,cherry,14,2,3/4,in,tenon,tenon,2,2,1/4
"""


def test_a_piece_of_a_table_is_made_again_too(shell: Shell, tmp_path: Path) -> None:
    (tmp_path / "pieces.csv").write_text(PIECES)
    shell.run("plan", "pieces.csv", "--no-pdf")
    said = shell.run("recut", "pieces.csv", "A3", "--no-pdf")
    assert "methods as in sheets/plan.json" in said
    made = json.loads((tmp_path / "recut" / "plan.json").read_text())
    assert [part["mark"] for part in made["parts"]] == ["A3"]
    assert "proof.drawn-elsewhere" in [fact["id"] for fact in made["proven"]]
    (fit,) = [c["feel"] for c in made["checkpoints"] if c["measure"] == "tenon"]
    assert fit["with"]["into"]["id"] == "feel.some-own-slot"


def test_minutes_are_said_as_on_a_clock(shell: Shell) -> None:
    shell.setups(*ADD, "--gauge", "block", "B")
    said = shell.run("plan", "job.toml", "--no-pdf", "--settings", str(shell.store))
    assert re.search("[¼½¾] minutes of setting up", said)
    said = shell.run("recut", "job.toml", "A3", "--no-pdf", "--settings", str(shell.store))
    assert re.search("takes [0-9]+[¼½¾]? minutes", said)
    assert not re.search("/[24] minutes", said)


def test_suggestions_are_printed_after_the_plan(
    shell: Shell, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sequencer.saved.suggest.MOST_VALUES", 1)
    near = FIRST.replace('bottom = "2 1/4"', 'bottom = "2 1/16"')
    (tmp_path / "job.toml").write_text(near)
    said = shell.run("plan", "job.toml", "--no-pdf", "--suggest").splitlines()
    assert any(
        line.startswith("job.toml:14: bottom rail width 2″ instead of 2 1/16″ (door A): saves ")
        for line in said
    )


def test_a_chart_for_the_wall_has_every_setting_that_is_sure(shell: Shell, tmp_path: Path) -> None:
    shell.setups(*ADD, "--gauge", "block", "B")
    shell.setups(*ADD[:-4], "--makes", "in doubt")
    with Store(shell.store, lambda: "now") as store:
        store.add(entry(1, saw="other", doubted=True))
    assert "of: built-in shop, other" in shell.setups("chart", code=2)
    shell.setups("chart", "wall.html", "--saw", "built-in shop")
    page = (tmp_path / "wall.html").read_text()
    assert page.count("2 1/64") == 2  # what the scale shows, not what was computed
    assert "gauge block B" in page
    assert "0 in doubt are left off" in page
    assert "1 setting in doubt" in shell.setups("chart", "--saw", "other")
