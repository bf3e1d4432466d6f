"""Sheets go into a folder without taking anything of somebody else's out of it."""

from __future__ import annotations

from pathlib import Path

import pytest

from sequencer.cli import main
from sequencer.cli.writing import Texts, write
from tests.cli.processes import JOB

MADE = ["manifest.json", "parts.csv", "parts.ods", "plan.html", "plan.json"]
Capture = pytest.CaptureFixture[str]


@pytest.fixture(autouse=True)
def job(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    monkeypatch.chdir(tmp_path)
    Path("job.toml").write_text(JOB, "utf-8")
    return "job.toml"


def contents(folder: str = ".") -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in Path(folder).iterdir() if path.is_file()}


@pytest.mark.parametrize(
    "name", ["labels.pdf", "pictures.pdf", "parts.csv", "plan.json", "manifest.json", "plan.pdf"]
)
def test_a_file_of_somebody_else_is_kept_and_named(job: str, name: str, capsys: Capture) -> None:
    Path(name).write_text("mine", "utf-8")
    before = contents()
    assert main(["plan", job, "--no-pdf", "-o", "."]) == 4
    assert f"sequencer: {name}: already there, and kept" in capsys.readouterr().err
    assert main(["recut", job, "A1", "--no-pdf", "-o", "."]) == 4
    assert f"sequencer: {name}: already there, and kept" in capsys.readouterr().err
    assert contents() == before


def test_a_sheet_that_somebody_has_changed_is_kept(job: str, capsys: Capture) -> None:
    assert main(["plan", job, "--no-pdf"]) == 0
    Path("sheets/parts.csv").write_text("with my own column", "utf-8")
    Path("sheets/labels.pdf").write_text("mine", "utf-8")
    Path("sheets/plan.html").unlink()  # what is gone is nobody's
    before = contents("sheets")
    capsys.readouterr()
    assert main(["plan", job, "--no-pdf"]) == 4
    assert "sequencer: sheets/parts.csv and sheets/labels.pdf: already" in capsys.readouterr().err
    assert contents("sheets") == before
    Path("sheets/parts.csv").unlink()
    Path("sheets/labels.pdf").unlink()
    assert main(["plan", job, "--no-pdf"]) == 0
    assert sorted(contents("sheets")) == sorted(MADE)


def test_what_a_plan_is_made_from_is_never_written_over(capsys: Capture) -> None:
    """Not even where the table has come from a set of this program's own."""
    table = b"name,count,length,width,thickness\nshelf,2,20,6,3/4\n"
    write(Path("out"), {"parts.csv": table}, Texts())
    Path("shop").mkdir()
    Path("shop/parts.csv").symlink_to("../out/parts.csv")
    before = contents("out")
    for file in ("out/parts.csv", "shop/parts.csv"):
        capsys.readouterr()
        assert main(["plan", file, "-o", "out", "--no-pdf"]) == 4
        said = f"sequencer: {file}: this is what the plan is made from, and kept"
        assert said in capsys.readouterr().err
        assert contents("out") == before


def test_parts_that_are_somebody_elses_are_not_swept_away(job: str) -> None:
    for name in (".foo.12.part", ".set.json.12.part"):
        Path(name).write_text("mine", "utf-8")
    Path(".plan.html.12.part").write_text("half", "utf-8")
    assert main(["plan", job, "--no-pdf", "-o", "."]) == 0
    assert {".foo.12.part", ".set.json.12.part"} <= contents().keys()
    assert ".plan.html.12.part" not in contents()


@pytest.mark.parametrize("text", ["", "{", "[]", '{"put": {"a": "job.toml"}, "gone": []}',
    '{"put": {}, "gone": ["sub/a"]}', '{"name": "mine"}'])  # fmt: skip
def test_a_file_that_has_the_journals_name_is_kept(job: str, text: str, capsys: Capture) -> None:
    Path(".set.json").write_text(text, "utf-8")
    before = contents()
    assert main(["plan", job, "--no-pdf", "-o", "."]) == 4
    assert "sequencer: .set.json: this name is needed" in capsys.readouterr().err
    assert contents() == before


def test_a_folder_without_a_name_is_wrong_usage(job: str, capsys: Capture) -> None:
    for command in (["plan", job], ["recut", job, "A1"]):
        assert main([*command, "--no-pdf", "-o", ""]) == 2
        assert (
            capsys.readouterr().err
            == 'sequencer: -o names no folder; write "." for the current one\n'
        )
    assert sorted(contents()) == ["job.toml"]
