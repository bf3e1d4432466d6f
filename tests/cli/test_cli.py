"""The command as it is called: results, messages, exit codes, files."""

from __future__ import annotations

import io
import json
import os
import re
import sys
from pathlib import Path
from typing import Any

import pytest

from sequencer import pipeline
from sequencer.cli import main
from sequencer.cli.version import VERSION
from sequencer.cli.writing import Texts, write
from sequencer.errors import Refusal, SurroundingsError
from sequencer.facts import commands, notes
from sequencer.sheets.files import FILES
from tests.cli.processes import JOB, run

MADE = ["manifest.json", "parts.csv", "parts.ods", "plan.html", "plan.json"]
Capture = pytest.CaptureFixture[str]
GOOD = "good: all of it can be made in this shop\n"


@pytest.fixture(autouse=True)
def _in_a_folder_of_its_own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


@pytest.fixture
def job() -> str:
    Path("job.toml").write_text(JOB, "utf-8")
    return "job.toml"


def names(folder: str = "sheets") -> list[str]:
    return sorted(path.name for path in Path(folder).iterdir())


def test_new_writes_a_job_that_passes_and_is_never_overwritten(capsys: Capture) -> None:
    assert main(["new"]) == 0
    assert main(["check", "job.toml"]) == 0
    assert capsys.readouterr().out == f"job.toml\njob.toml reads well: 3 doors, A to C\n{GOOD}"
    Path("job.toml").write_text("mine", "utf-8")
    assert main(["new"]) == 4
    assert Path("job.toml").read_text("utf-8") == "mine"
    assert capsys.readouterr().err == (
        "sequencer: job.toml: already there, and kept; name another file\n"
    )


def test_new_where_nothing_can_be_written(capsys: Capture) -> None:
    assert main(["new", "no/such/folder/job.toml"]) == 4
    said = "sequencer: no/such/folder/job.toml: cannot be written: No such file or directory\n"
    assert capsys.readouterr().err == said


def test_the_starter_job_plans_as_it_stands(capsys: Capture) -> None:
    main(["new"])
    assert main(["plan", "job.toml", "--no-pdf"]) == 0
    assert names() == MADE
    out = capsys.readouterr().out.splitlines()
    assert out[1:5] == [f"sheets/{name}" for name in FILES if name != "plan.pdf"]
    assert out[5].endswith("minutes of setting up: the quickest of the ways compared (checked)")
    assert json.loads(Path("sheets/plan.json").read_text("utf-8"))["unit"] == "in"


def test_check_says_each_job(job: str, capsys: Capture) -> None:
    Path("b.toml").write_text(JOB.replace("[[door]]", "[[door]]\ncount = 2"), "utf-8")
    assert main(["check", job, "b.toml"]) == 0
    assert capsys.readouterr().out == (
        f"job.toml reads well: 1 door, A\nb.toml reads well: 2 doors, B to C\n{GOOD}"
    )


def test_jobs_of_a_batch_share_the_first_ones_unit_and_no_mark(job: str, capsys: Capture) -> None:
    mm = 'unit = "mm"\n[stock]\nthickness = "20"\n[[door]]\n[door.opening]\n'
    Path("mm.toml").write_text(f'{mm}width = "400"\nheight = "600"\n', "utf-8")
    assert main(["plan", job, "mm.toml", "--no-pdf", "-o", "out"]) == 0
    plan = json.loads(Path("out/plan.json").read_text("utf-8"))
    assert plan["unit"] == "in"
    assert [door["mark"] for door in plan["doors"]] == ["A", "B"]
    assert plan["doors"][1]["opening"]["width"] == "2000/127"  # 400 mm / 25.4
    capsys.readouterr()


def test_all_faults_of_all_files_at_once(capsys: Capture) -> None:
    for name in ("a.toml", "b.toml"):
        Path(name).write_text(JOB.replace("3/4", "3,4").replace("22", "x"), "utf-8")
    Path("shop.toml").write_text('unit = "in"\ngraduation = "1/7"\n', "utf-8")
    assert main(["check", "a.toml", "b.toml", "--shop", "shop.toml"]) == 3
    said = capsys.readouterr()
    places = [line.split(": ")[0] for line in said.err.splitlines() if line.count(":") > 2]
    assert places == ["a.toml:3:15", "a.toml:7:11", "b.toml:3:15", "b.toml:7:11", "shop.toml:2:15"]
    assert said.out == ""


@pytest.mark.parametrize(
    "arguments",
    [
        [],
        ["chek", "job.toml"],
        ["check"],
        ["check", "job.toml", "job.toml"],
        ["plan", "job.toml", "--paper", "legal"],
        ["plan", "job.toml", "--fast"],
    ],
)
def test_wrong_usage_is_2_and_says_the_right_one(
    arguments: list[str], job: str, capsys: Capture
) -> None:
    assert main(arguments) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.startswith("sequencer: ")
    assert "usage: " in said.err or "given twice" in said.err
    assert job in os.listdir()  # noqa: PTH208  nothing else happened


def test_the_same_job_by_another_path_is_given_twice(job: str, capsys: Capture) -> None:
    Path("link.toml").symlink_to(job)
    for other in (f"./{job}", str(Path(job).resolve()), "link.toml"):
        assert main(["check", job, other]) == 2
        assert "is given twice" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("arguments", "hint"),
    [
        (["check", "jbo.toml"], "did you mean job.toml?"),
        (["check", "job.toml", "--shop", "shop.toml"], "sequencer new --shop writes one to begin"),
        (["check", "none/job.toml"], "there is no folder none"),
        (["plan", "pieces.csv"], None),
        (["recut", "job.toml", "A1", "--plan", "p.json"], "sequencer plan writes one into its"),
    ],
)
def test_what_a_missing_file_wants_depends_on_the_file(
    arguments: list[str], hint: str | None, job: str, capsys: Capture
) -> None:
    assert Path(job).exists()
    assert main(arguments) == 3
    first, *rest = capsys.readouterr().err.splitlines()
    assert first.endswith(": no such file")
    assert [line.strip()[: len(hint or "")] for line in rest] == ([] if hint is None else [hint])


def test_it_says_which_version_it_is(capsys: Capture) -> None:
    assert main(["--version"]) == 0
    assert capsys.readouterr().out == f"sequencer {VERSION}\n"


def test_a_missing_file_is_3(capsys: Capture) -> None:
    assert main(["plan", "no.toml"]) == 3
    assert capsys.readouterr().err == (
        "no.toml: no such file\n    sequencer new writes one to begin with\n"
    )
    assert not Path("sheets").exists()


def test_a_folder_that_is_a_file_is_4_and_stays(job: str, capsys: Capture) -> None:
    assert main(["plan", job, "--no-pdf", "-o", job]) == 4
    said = capsys.readouterr().err
    assert said == "sequencer: job.toml: this is a file; name a folder with -o\n"
    assert Path(job).read_text("utf-8") == JOB


def test_a_folder_below_a_file_is_4(job: str, capsys: Capture) -> None:
    assert main(["plan", job, "--no-pdf", "-o", f"{job}/out"]) == 4
    assert "job.toml/out: cannot be written to: " in capsys.readouterr().err


def test_our_files_are_replaced_and_nothing_else_is_touched(job: str) -> None:
    folder = Path("deep/er")
    folder.mkdir(parents=True)
    (folder / "notes.txt").write_text("old", "utf-8")
    old = dict.fromkeys((*FILES, "labels.html"), b"old")
    write(folder, old, Texts())
    assert main(["plan", job, "--no-pdf", "-o", str(folder)]) == 0
    # An old PDF is gone: it would be another plan's.
    assert names(str(folder)) == sorted(["notes.txt", *MADE])
    assert (folder / "notes.txt").read_text("utf-8") == "old"
    assert all((folder / name).read_bytes() != b"old" for name in MADE)


def test_what_cannot_be_replaced_leaves_no_half_made_file(job: str, capsys: Capture) -> None:
    Path("sheets/plan.json/inside").mkdir(parents=True)
    assert main(["plan", job, "--no-pdf"]) == 4
    assert capsys.readouterr().err.startswith(
        "sequencer: sheets/plan.json: already there, and kept"
    )
    assert [name for name in names() if name.startswith(".")] == []


def test_without_the_pdf_library_the_rest_is_written_and_it_is_4(
    job: str, monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    def no_pango(_page: str, _plan: str) -> bytes:
        raise SurroundingsError(commands.UNWRITABLE(path="plan.pdf", reason="no library"))

    monkeypatch.setattr("sequencer.sheets.files.pdf", no_pango)
    assert main(["plan", job]) == 4
    assert names() == MADE
    assert capsys.readouterr().err == "sequencer: plan.pdf: cannot be written: no library\n"


def test_with_the_pdf_library_all_four_are_written(job: str) -> None:
    assert main(["plan", job, "--paper", "a4"]) == 0
    assert names() == sorted([*MADE, "plan.pdf"])
    assert Path("sheets/plan.pdf").read_bytes().startswith(b"%PDF")


def test_a_refusal_is_1_and_writes_nothing(
    job: str, monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    def refuse(*_: object, **__: object) -> None:
        raise Refusal(notes.PANEL_KEEPS_PLAY())

    monkeypatch.setattr(pipeline, "planned", refuse)
    assert main(["plan", job]) == 1
    assert capsys.readouterr().err == (
        "sequencer: the panel keeps the play in the job file\n"
        "none of the small changes that were tried would do\n"
    )
    assert not Path("sheets").exists()


def test_check_refuses_what_only_sizing_shows(job: str, capsys: Capture) -> None:
    # 3/4 in stock: the slot, about a third, is centred; the groove of 1/8 in begins at 1/8 in.
    text = JOB + '[door.groove]\nwidth = "1/8"\noffset = "1/8"\n'
    Path(job).write_text(text, "utf-8")
    assert main(["check", job]) == 1
    assert "a gap would show" in capsys.readouterr().err


def test_check_refuses_what_only_a_plan_shows(job: str, capsys: Capture) -> None:
    """A stile on end in the jig, higher than a person reaches."""
    Path(job).write_text(JOB.replace('"22"', '"66"'), "utf-8")
    Path("shop.toml").write_text('unit = "in"\n[sled]\nlongest = "80"\n', "utf-8")
    files = [job, "--shop", "shop.toml"]
    assert main(["check", "--quick", *files]) == 0
    assert main(["check", *files]) == 1
    said = capsys.readouterr()
    assert said.out == 2 * "job.toml reads well: 1 door, A\n"
    assert main(["plan", *files]) == 1
    assert capsys.readouterr().err.splitlines()[0] == said.err.splitlines()[0]


def test_a_fault_of_its_own_is_told_by_its_place_in_the_program(
    job: str, monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    """Not in a library, wherever that lies."""
    library: dict[str, Any] = {}
    text = "def fails(*_: object) -> None:\n    raise KeyError('a')\n"
    exec(compile(text, "/srv/sequencer/.venv/lib/other.py", "exec"), library)
    monkeypatch.setattr(pipeline, "plan", library["fails"])
    assert main(["check", job]) == 1
    assert re.search(r"none of your files: KeyError: 'a', at sequencer/cli/commands\.py:\d+\n",
                     capsys.readouterr().err)  # fmt: skip


def test_interrupted_is_130(job: str, monkeypatch: pytest.MonkeyPatch, capsys: Capture) -> None:
    def interrupt(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(pipeline, "planned", interrupt)
    assert main(["plan", job]) == 130
    assert capsys.readouterr().err == "interrupted\n"
    assert not Path("sheets").exists()


class _Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


@pytest.mark.parametrize(
    ("variable", "value", "coloured"),
    [("TERM", "xterm", True), ("NO_COLOR", "1", False), ("NO_COLOR", "", False),
     ("TERM", "dumb", False)],
)  # fmt: skip
def test_colour_only_where_it_is_wanted(
    variable: str, value: str, coloured: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("NO_COLOR", raising=False)
    monkeypatch.setenv("TERM", "xterm")
    monkeypatch.setenv(variable, value)
    terminal = _Terminal()
    monkeypatch.setattr(sys, "stderr", terminal)
    assert main(["check", "no.toml"]) == 3
    assert ("\x1b[31mno.toml: no such file\x1b[39m\n" in terminal.getvalue()) is coloured
    assert ("\x1b" in terminal.getvalue()) is coloured


def test_what_a_file_says_cannot_drive_the_terminal(job: str, capsys: Capture) -> None:
    Path(job).write_text(JOB + '"\\u001b[2J" = 1\n', "utf-8")
    assert main(["check", job]) == 3
    said = capsys.readouterr().err
    assert "\x1b" not in said
    assert "unknown key \ufffd[2J" in said


def test_limits_of_the_shop_reach_the_rules(job: str, capsys: Capture) -> None:
    Path("shop.toml").write_text('unit = "in"\n[limits]\nshortest_rip = "1"\n', "utf-8")
    assert main(["check", job, "--shop", "shop.toml"]) == 3
    assert "this is looser than the rule's own 12 in" in capsys.readouterr().err


def test_messages_survive_a_screen_without_unicode() -> None:
    Path("job.toml").write_text(JOB.replace("22", "22½½"), "utf-8")
    done = run("check", "job.toml", env={"PYTHONIOENCODING": "ascii"})
    assert done.returncode == 3
    assert r"\xbd" in done.stderr
    assert "after the length cannot be read" in done.stderr


def test_nobody_reading_is_no_crash(job: str) -> None:
    reading, writing = os.pipe()
    os.close(reading)
    done = run("check", job, stdout=writing)
    os.close(writing)
    assert (done.returncode, done.stderr) == (4, "")


def test_a_check_loads_nothing_slow(job: str) -> None:
    code = (
        "import sys; from sequencer.cli import main; main(['check', '--quick', sys.argv[1]]);"
        "slow = {'pint', 'networkx', 'jinja2', 'weasyprint', 'sequencer.plan', 'threading'};"
        "sys.exit(', '.join(slow & set(sys.modules)) or 0)"
    )
    done = run(job, code=code)
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout == "job.toml reads well: 1 door, A\n"


@pytest.mark.parametrize(("command", "frozen"), [("check", True), ("times", False)])
def test_the_end_looks_for_garbage_only_where_a_store_is_open(
    command: str, frozen: bool, job: str
) -> None:
    code = (
        "import atexit, gc; from sequencer.__main__ import entry;"
        "atexit.register(lambda: print(gc.get_freeze_count() > 0));"
        "entry()"
    )
    done = run(command, job, code=code)
    assert done.stdout.splitlines()[-1] == str(frozen)


def test_the_module_and_its_exit_code(job: str) -> None:
    done = run("check", job)
    assert (done.returncode, done.stdout, done.stderr) == (
        0,
        f"job.toml reads well: 1 door, A\n{GOOD}",
        "",
    )
    assert run("check").returncode == 2


@pytest.mark.parametrize("evenings", ["0", "-1", "99", "two"])
def test_evenings_are_a_number_that_the_setups_go_round(
    evenings: str, job: str, capsys: Capture
) -> None:
    assert main(["plan", job, "--no-pdf", "--evenings", evenings]) == 2
    assert f"'{evenings}'" in (err := capsys.readouterr().err) or f"--evenings {evenings}: " in err
    assert not Path("sheets").exists()


def test_a_page_an_evening_hangs_above_the_saw(job: str) -> None:
    assert main(["plan", job, "--no-pdf", "--above", "--evenings", "2"]) == 0
    for name in ("plan.html", "above.html"):
        page = Path("sheets", name).read_text("utf-8")
        assert page.count('<section class="pinned"') == 2
        assert "evening 1 of 2: " in page


def test_a_spreadsheet_of_parts_is_checked_like_the_table(job: str, capsys: Capture) -> None:
    assert main(["plan", job, "--no-pdf"]) == 0
    capsys.readouterr()
    for kind in ("csv", "ods"):
        assert main(["check", f"sheets/parts.{kind}"]) == 0
        assert capsys.readouterr().out == f"sheets/parts.{kind} reads well: 5 pieces\n{GOOD}"
    Path("colour.csv").write_text("mark,length,width,thickness,unit,colour\nP,9,2,1,in,red\n")
    assert main(["check", "colour.csv"]) == 0
    said = capsys.readouterr().err
    assert said == "colour.csv: columns that nothing was read from: colour\n"
