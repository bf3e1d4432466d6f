"""The files of a plan are one set: swapped in together, told by a manifest, held to it."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
from pathlib import Path
from random import Random

import pytest

from sequencer.cli import main, swapping
from sequencer.cli.manifest import MANIFEST, digest, manifest, not_of_the_set, read
from sequencer.cli.swapping import JOURNAL, finish, put
from sequencer.cli.version import VERSION
from sequencer.job.kept import NOTHING
from sequencer.sawside.engine import Files
from tests.cli.processes import JOB, ROOT
from tests.sawside.driver import Saw

Capture = pytest.CaptureFixture[str]


@pytest.fixture(autouse=True)
def _in_a_folder_of_its_own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("job.toml").write_text(JOB, "utf-8")


def test_the_manifest_says_what_the_set_was_made_from() -> None:
    Path("shop.toml").write_text('unit = "in"\n', "utf-8")
    assert main(["plan", "job.toml", "--shop", "shop.toml", "--no-pdf"]) == 0
    known = read(Path("sheets"))
    assert known is not None
    assert known.program == VERSION
    assert known.jobs == {"job.toml": digest(JOB)}
    assert known.shop == {"shop.toml": digest('unit = "in"\n')}
    made = {path.name: digest(path.read_bytes()) for path in Path("sheets").iterdir()}
    made.pop(MANIFEST)
    assert known.files == made
    assert not_of_the_set(Path("sheets")) == ()


def test_recut_takes_no_plan_of_another_set(capsys: Capture) -> None:
    assert main(["plan", "job.toml", "--no-pdf"]) == 0
    path = Path("sheets/plan.json")
    path.write_text(path.read_text("utf-8") + " ", "utf-8")
    capsys.readouterr()
    assert main(["recut", "job.toml", "A1", "--no-pdf"]) == 3
    assert capsys.readouterr().err == (
        "sheets/plan.json: not the plan that the manifest beside it tells of\n"
        "    plan the job again, and print its sheets\n"
    )
    assert not Path("recut").exists()


def test_recut_and_plan_say_what_changed_since(capsys: Capture) -> None:
    assert main(["plan", "job.toml", "--no-pdf"]) == 0
    assert "other than" not in capsys.readouterr().out
    Path("job.toml").write_text(JOB.replace('"22"', '"23"'), "utf-8")
    assert main(["recut", "job.toml", "A3", "--no-pdf"]) == 0
    assert "job.toml: changed since the sheets in sheets were made" in capsys.readouterr().err
    assert main(["plan", "job.toml", "--no-pdf"]) == 0
    said = capsys.readouterr().out
    assert "\nother than on the sheets that were here:\n" in said
    assert "\n  A1: its length 22 31/32″, not 21 31/32″\n" in said


def test_two_plans_are_compared(capsys: Capture) -> None:
    assert main(["plan", "job.toml", "--no-pdf", "-o", "old"]) == 0
    assert main(["plan", "job.toml", "--no-pdf", "-o", "same"]) == 0
    Path("job.toml").write_text(JOB.replace("[[door]]", "[[door]]\ncount = 2"), "utf-8")
    assert main(["plan", "job.toml", "--no-pdf", "-o", "new"]) == 0
    capsys.readouterr()
    assert main(["compare", "old", "same/plan.json"]) == 0
    assert capsys.readouterr().out == "nothing to be cut differs\n"
    assert main(["compare", "old", "new"]) == 0
    assert "new: B1, B2, B3, B4 and B5\n" in capsys.readouterr().out
    assert main(["compare", "old", "none"]) == 3


FRONT = '[[door]]\n[door.opening]\nwidth = "12"\nheight = "20"\n'


def marks_of(folder: str = "sheets") -> list[tuple[str, str]]:
    doors = json.loads(Path(folder, "plan.json").read_text("utf-8"))["doors"]
    return [(door["mark"], door["opening"]["width"]) for door in doors]


def test_printed_marks_stay_where_a_door_is_put_in_front(capsys: Capture) -> None:
    assert main(["plan", "job.toml", "--no-pdf"]) == 0
    (before,) = marks_of()
    Path("job.toml").write_text(JOB.replace("[[door]]", FRONT + "[[door]]"), "utf-8")
    assert main(["plan", "job.toml", "--no-pdf"]) == 0
    assert sorted(marks_of()) == [before, ("B", "12")]
    known = read(Path("sheets"))
    assert known is not None
    files = Files((("job.toml", Path("job.toml").read_text()),), None)
    followed = Saw(Path("a.sqlite"), files.marked(known.printed))
    assert [(door.mark, f"{door.opening[0]}") for door in followed.state.plan.doors] == marks_of()
    assert main(["recut", "job.toml", "A3", "--no-pdf"]) == 0
    recut = json.loads(Path("recut/plan.json").read_text("utf-8"))
    assert {part["mark"] for part in recut["parts"] if part["mark"][0] == "A"} == {"A3"}
    capsys.readouterr()
    assert main(["check", "job.toml"]) == 0
    assert main(["plan", "job.toml", "--no-pdf", "-o", "anew"]) == 0
    assert sorted(marks_of("anew")) == [("A", "12"), ("B", before[1])]


def test_what_is_followed_stays_the_same_whether_its_sheets_are_there_or_not() -> None:
    """Else ticks would have to be carried over for nothing, and could not be undone."""
    text = JOB.replace("[[door]]", FRONT + "[[door]]")
    Path("job.toml").write_text(text, "utf-8")
    files = Files((("job.toml", text),), None)
    assert main(["plan", "job.toml", "--no-pdf"]) == 0
    known = read(Path("sheets"))
    assert known is not None
    assert known.printed["job.toml"].own == {"A", "B"}
    assert files.marked(known.printed) == files
    assert files.marked({"job.toml": NOTHING}) == files
    assert Files.of(files.text) == files


def test_printed_marks_stay_where_a_job_is_put_in_front() -> None:
    assert main(["plan", "job.toml", "--no-pdf"]) == 0
    (before,) = marks_of()
    front = JOB.replace("[[door]]", FRONT + 'mark = "C"\n[[door]]', 1)
    Path("first.toml").write_text(front.replace('mark = "C"\n', ""), "utf-8")
    assert main(["plan", "first.toml", "job.toml", "--no-pdf"]) == 0
    assert before in marks_of()
    assert {mark for mark, _ in marks_of()} == {"A", "B", "C"}
    assert main(["plan", "job.toml", "first.toml", "--no-pdf"]) == 0
    assert before in marks_of()


def test_a_mark_that_is_given_away_by_hand_is_told(capsys: Capture) -> None:
    assert main(["plan", "job.toml", "--no-pdf"]) == 0
    front = FRONT.replace("[[door]]\n", '[[door]]\nmark = "A"\n')
    Path("job.toml").write_text(JOB.replace("[[door]]", front + "[[door]]"), "utf-8")
    assert main(["plan", "job.toml", "--no-pdf"]) == 0
    said = 'the door that was A is B now: mark = "A" under its [[door]] keeps its mark\n'
    assert said in capsys.readouterr().out


def test_without_locks_of_the_system_it_writes_all_the_same(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name in ("fcntl", "msvcrt"):
        monkeypatch.setitem(sys.modules, name, None)
    put(tmp_path / "out", FILES, [])
    put(tmp_path / "out", FILES, ["f0"])
    assert sorted(path.name for path in (tmp_path / "out").iterdir()) == ["f1", "f2", "f3"]


FILES = {f"f{number}": b"%d" % number * 5000 for number in range(4)}


def test_a_journal_is_finished_by_whoever_comes_next(tmp_path: Path) -> None:
    folder = tmp_path / "out"
    put(folder, FILES, [])
    new = {name: data + b"new" for name, data in FILES.items()}
    for name in ("f0", "f2", "f3"):  # f1 was renamed before the process was killed
        (folder / f".{name}.1.part").write_bytes(new[name])
    (folder / "f1").write_bytes(new["f1"])
    said = {"put": {f".{name}.1.part": name for name in FILES}, "gone": []}
    (folder / JOURNAL).write_text(json.dumps(said), "utf-8")
    finish(folder)
    assert {path.name: path.read_bytes() for path in folder.iterdir()} == new


def test_what_was_killed_before_its_journal_leaves_what_was(tmp_path: Path) -> None:
    folder = tmp_path / "out"
    put(folder, FILES, [])
    (folder / ".f0.1.part").write_bytes(b"half")
    put(folder, FILES, [])
    assert {path.name: path.read_bytes() for path in folder.iterdir()} == FILES


def test_what_fails_before_anything_is_replaced_leaves_what_was(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "out"
    put(folder, FILES, [])
    count = iter(range(3))

    def full(_handle: int) -> None:
        if next(count) == 2:
            raise KeyboardInterrupt

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(KeyboardInterrupt):
        put(folder, dict.fromkeys(FILES, b"new"), [])
    assert {path.name: path.read_bytes() for path in folder.iterdir()} == FILES


WRITER = """
import sys
from pathlib import Path
from sequencer.cli.swapping import put
folder, name, times = Path(sys.argv[1]), sys.argv[2].encode(), int(sys.argv[3])
for number in range(times):
    files = {f"f{n}": name * 4000 + b"%d" % number for n in range(4)}
    put(folder, files, ["old"])
"""


def test_two_processes_and_kills_leave_one_set(tmp_path: Path, seed: int, large: bool) -> None:
    """After every kill, whoever comes next finds one set: never files of two."""
    folder, chance = tmp_path / "out", Random(seed)
    killed = mixed = 0
    for _ in range(250 if large else 5):
        two = [
            subprocess.Popen(
                [sys.executable, "-c", WRITER, str(folder), name, "500"],
                env={**os.environ, "PYTHONPATH": str(ROOT)},
            )
            for name in ("a", "b")
        ]
        while not folder.exists():
            assert two[0].poll() is None or two[1].poll() is None
        for process in two:
            try:
                process.wait(chance.uniform(0.0, 0.15))
            except subprocess.TimeoutExpired:
                process.send_signal(signal.SIGKILL)
                process.wait()
                killed += 1
        finish(folder)
        contents = {path.read_bytes() for path in folder.iterdir() if not path.name.startswith(".")}
        mixed += len(contents) > 1
    print(f"{killed} killed, {mixed} mixed")  # noqa: T201  a count, shown with -s
    assert killed
    assert not mixed


def test_a_folder_in_use_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    fcntl = pytest.importorskip("fcntl")
    monkeypatch.setattr(swapping, "PATIENCE", 0)
    folder = tmp_path / "out"
    folder.mkdir()
    handle = os.open(folder, os.O_RDONLY)
    fcntl.flock(handle, fcntl.LOCK_EX)
    with pytest.raises(Exception, match=r"command\.folder-busy"):
        put(folder, FILES, [])
    os.close(handle)
    put(folder, FILES, [])


@pytest.mark.parametrize("text", ["", "[]", "{", "null", '{"schema": "sequencer-set/1"}'])
def test_a_manifest_that_is_none_says_nothing(text: str, tmp_path: Path) -> None:
    (tmp_path / MANIFEST).write_text(text, "utf-8")
    assert read(tmp_path) is None
    assert not_of_the_set(tmp_path) == ()


def test_a_file_of_another_set_is_named(tmp_path: Path) -> None:
    put(tmp_path, {**FILES, MANIFEST: manifest({}, {}, FILES, {}).encode()}, [])
    (tmp_path / "f2").write_bytes(b"another")
    (tmp_path / "f3").unlink()
    assert not_of_the_set(tmp_path) == ("f2", "f3")
