"""What the command line shows, in a made-up dialect: nothing outside its brackets but the user's
own words, marks, names of files, options and keys."""

from __future__ import annotations

import argparse
import re
from collections.abc import Callable
from pathlib import Path

import pytest

from sequencer import cli
from sequencer.saved.entry import GAUGES
from sequencer.saw.fittings import NUMBERED
from sequencer.wording import room
from tests.saved.entries import entry
from tests.wording.wrapped import OPEN, Wrapped, baked_in

JOB = """\
unit = "in"
species = "cherry"
[stock]
thickness = "3/4"
[rails]
top = "2"
bottom = "2 1/16"
[[door]]
mark = "QX"
[door.opening]
width = "14"
height = "20"
"""
FILES = (
    "job.toml", "wrong.toml", "plan.html", "plan.json", "plan.pdf", "parts.csv", "x.json", "sheets",
    "parts.ods", "manifest.json", "recut", "store.sqlite", "none.toml", "job", "toml",
)  # fmt: skip
MARKS = ("QX", "QX1", "QX3")
NAMES = (
    "sequencer", "check", "plan", "recut", "follow", "times", "compare", "setups", "explain",
    "new", "list", "shop", "readings", "scales", "standards", "chart",
    "show", "add", "note", "forget", "export", "import",
)  # fmt: skip
OWN = (
    "built-in shop", "combination blade", "combination", "rip 2 in", "tall fence", "hutch",
    "rip-fence", "in", *GAUGES, *NUMBERED,
)  # fmt: skip
"""What was typed when the settings were added, and what the command takes for carriers and parts of
the saw."""

ADD = (
    "add", "--saw", "built-in shop", "--cutter", "combination blade", "--kerf", "1/8",
    "--carrier", "rip-fence", "--knob", "fence=2@2 1/64", "--makes", "rip 2 in", "--kind", "rip",
    "--note", "tall fence",
)  # fmt: skip

Run = Callable[..., str]


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    """Runs a command in a folder of its own, in the made-up dialect; what it shows."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    monkeypatch.setattr(room, "catalogue", lambda _: Wrapped())
    # What argparse itself says comes out of Python's own catalogue.
    monkeypatch.setattr(argparse, "_", Wrapped().gettext)
    monkeypatch.setattr("sequencer.cli.parser.gettext", Wrapped().gettext)
    monkeypatch.setattr(argparse, "ngettext", Wrapped().ngettext)
    Path("job.toml").write_text(JOB, "utf-8")

    def made(*arguments: str, code: int = 0) -> str:
        assert cli.main(arguments) == code
        said = capsys.readouterr()
        shown = said.out + said.err
        assert OPEN in shown
        return shown

    return made


def assert_worded(shown: str, *own: str) -> None:
    plain = re.sub(r"(?<!\w)--?[a-z][a-z-]*", " ", shown)  # options
    assert baked_in(plain, (*FILES, *MARKS, *own)) == []


def test_a_check_and_its_faults(run: Run) -> None:
    assert_worded(run("check", "job.toml"))
    Path("wrong.toml").write_text(JOB.replace('"14"', '"14 1/3"').replace("top", "topp"), "utf-8")
    shown = run("check", "wrong.toml", code=3)
    lines = [line for line in shown.splitlines() if not re.match(r" +\w+ = ", line)]
    assert_worded("\n".join(lines), "topp", "top", "in")  # without what stands in the file
    assert_worded(run("check", "none.toml", code=3))
    assert_worded(run("check", "job.toml", "job.toml", code=2), *NAMES)


def test_new_and_what_stands_in_its_way(run: Run) -> None:
    shown = run("new", "job.toml", code=4)
    assert_worded(shown, "sequencer")


def test_a_plan_its_changes_and_pieces_made_again(
    run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sequencer.saved.suggest.MOST_VALUES", 1)
    monkeypatch.setattr(
        "sequencer.cli.commands.sheets_of", lambda *_, **__: ({"parts.csv": b""}, None)
    )
    assert_worded(run("plan", "job.toml", "--no-pdf", "--suggest"))
    assert_worded(run("recut", "job.toml", "QX3", "--no-pdf"))
    assert_worded(
        run("recut", "job.toml", "QY", "--no-pdf", code=2), "sequencer", "QY", *_all_marks()
    )
    assert_worded(run("recut", "job.toml", "QX3", "--slot", "x", code=2), "sequencer")
    Path("store.sqlite").write_bytes(b"")
    assert_worded(run("plan", "job.toml", "--no-pdf", "--settings", "store.sqlite"))


def _all_marks() -> tuple[str, ...]:
    return tuple(f"QX{n}" for n in range(1, 9))


def test_saved_settings(run: Run) -> None:
    def setups(*arguments: str, code: int = 0) -> None:
        shown = run("setups", "--settings", "store.sqlite", *arguments, code=code)
        assert_worded(shown, *OWN, "sequencer")

    setups("list")
    setups(*ADD, "--gauge", "block", "B")
    setups("list")
    setups("show", "1")
    setups("note", "1", "hutch")
    setups("note", "--sharpened", "combination blade")
    setups("show", "1")
    setups("note", "--checked", "combination blade")
    setups("note", "--checked", "hutch", code=2)
    setups("note", code=2)
    setups(*ADD, "--gauge", "hutch", "B", code=2)
    setups("show", "7", code=2)
    Path("x.json").write_text("{", "utf-8")
    setups("import", "x.json", code=3)
    setups("export", "x.json", code=4)
    setups("forget", "1")


def test_what_was_measured_is_told(run: Run, tmp_path: Path) -> None:
    from sequencer.saved.store import Store

    with Store(tmp_path / "store.sqlite", lambda: "now") as store:
        kept = store.entry(store.add(entry(1)))
    shown = run("setups", "--settings", "store.sqlite", "show", "1")
    measures = [knob.measure for knob in kept.knobs if knob.measure]
    own = (kept.saw, kept.cutter, kept.carrier, kept.makes, *kept.jobs, *measures, "jig")
    assert_worded(shown, *own, *OWN)


COMMANDS = [
    (), ("check",), ("plan",), ("recut",), ("new",),
    *[("setups", *do) for do in ((), ("list",), ("show",), ("add",), ("note",), ("forget",),
                                 ("export",), ("import",))],
]  # fmt: skip
"""`follow` and `times` say their own help; they are looked at with the page."""


@pytest.mark.parametrize("command", COMMANDS, ids=lambda command: " ".join(command) or "all")
def test_help(run: Run, command: tuple[str, ...]) -> None:
    shown = run(*command, "--help")
    choices = re.sub(r"\{[^}⟦⟧]*\}", " ", shown)  # what an option may be
    upper = re.sub(r"\b[A-Z]{2,}(=[A-Z]+)?(\[@READ\])?\b", " ", choices)  # what stands for it
    assert_worded(upper, *NAMES, *OWN, "letter")


@pytest.mark.parametrize(
    "arguments",
    [[], ["check"], ["chek"], ["plan", "job.toml", "--paper", "legal"], ["check", "a", "--legal"]],
)
def test_wrong_usage(run: Run, arguments: list[str]) -> None:
    shown = re.sub(r"\{[^}⟦⟧]*\}", " ", run(*arguments, code=2))
    upper = re.sub(r"\b[A-Z]{2,}\b", " ", shown)
    assert_worded(upper, *NAMES, "chek", "legal", "letter")


def test_a_text_that_was_baked_in_is_found() -> None:
    with pytest.raises(AssertionError):
        assert_worded("⟦the slot⟧ of A1 is too wide")


@pytest.mark.parametrize(
    ("place", "words"),
    [("en_US.UTF-8", "dialed"), ("en_GB.UTF-8", "dialled"), ("de_DE", "dialled"), ("", "dialled")],
)
def test_until_a_file_is_read_the_words_are_those_of_the_place(
    place: str, words: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """POSIX.1-2017, 8.2: of these variables the first that is set and not empty counts."""
    for name, value in (("LC_ALL", ""), ("LC_MESSAGES", place), ("LANG", "en_US.UTF-8")):
        monkeypatch.setenv(name, value if place or name != "LANG" else "")
    assert cli.main(["setups", "--help"]) == 0
    assert f"one that was {words} in" in " ".join(capsys.readouterr().out.split())
