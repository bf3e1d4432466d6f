"""The README tells the truth: its keys, its defaults, its exit codes, its commands."""

from __future__ import annotations

import json
import re
import shlex
from fractions import Fraction
from pathlib import Path

import pytest

from sequencer import errors
from sequencer.cli import main as cli_main
from sequencer.cli.explaining import CODES
from sequencer.cli.manifest import MANIFEST
from sequencer.cli.parser import parser_of
from sequencer.contract.shapes import SCHEMA
from sequencer.facts import Length, notes, written
from sequencer.job import bars, boards, load, shop
from sequencer.job import table as pieces
from sequencer.job.defaults import lengths, shop_facts
from sequencer.job.free import FREE_KEYS
from sequencer.lengths import parse
from sequencer.sheets.files import FILES
from sequencer.trade.moisture import REGIONS, USUAL_TEMPERATURE, celsius
from sequencer.wording import Room

ROOT = Path(__file__).resolve().parent.parent
README, GUIDE, REFERENCE = (
    (ROOT / f"{name}.md").read_text("utf-8")
    for name in ("README", "examples/GUIDE", "examples/REFERENCE")
)


def rows(heading: str) -> list[list[str]]:
    """The cells of every table row under a heading."""
    text = next(text for text in (REFERENCE, README, GUIDE) if f"\n## {heading}\n" in text)
    section = text.partition(f"\n## {heading}\n")[2].partition("\n## ")[0]
    found = [line.strip("|").split("|") for line in section.splitlines() if line.startswith("|")]
    return [[cell.strip() for cell in row] for row in found[2:]]


def test_every_key_of_a_job_file_stands_in_order() -> None:
    tables = [f"{table}.{key}" for table, keys in load.TABLES.items() for key in keys]
    top = ["unit", "name", "sure", "species", "face_side", "fill"]
    door = [f"door.{key}" for key in load._DOOR]
    bar = [f"bar.{key}" for key in bars.BAR]
    rough = [f"rough.{key}" for key in boards.ROUGH]
    board = [f"board.{key}" for key in boards.BOARD]
    told = [row[0].strip("`") for row in rows("The job file")]
    assert told == [*top, *tables, *door, *bar, *rough, *board]


def test_the_defaults_of_a_job_file_are_those_of_the_program() -> None:
    inch, mm = lengths("in"), lengths("mm")
    told = {row[0].strip("`"): row[1:3] for row in rows("The job file")}
    for key in inch:
        if not key.startswith("limits."):
            assert [parse(told[key][0], "in"), parse(told[key][1], "mm")] == [inch[key], mm[key]]
    for key, (in_inches, in_mm) in told.items():
        if key not in inch and key not in ("door.count", "door.leaves", "board.count"):
            if key == "rough.allowance":
                assert in_inches == in_mm == str(boards.USUAL_ALLOWANCE)
                continue
            if key == "room.temperature":
                usual = USUAL_TEMPERATURE
                assert in_mm == f"{usual} C"
                assert celsius(Fraction(in_inches[:-2])) == usual
                continue
            assert not re.match(r"\d", in_inches + in_mm), f"{key} has no such default"


def test_it_tells_which_dimensions_may_be_left_free() -> None:
    sentence = GUIDE.partition("left free, as a range: ")[2].partition(", for instance")[0]
    assert re.findall(r"`([\w.]+)`", sentence) == list(FREE_KEYS)


def test_every_region_is_told() -> None:
    told = GUIDE.partition("Regions: ")[2].partition(". Species")[0]
    assert re.findall(r'"([^"]+)"', told) == list(REGIONS)


def test_every_column_of_a_table_of_pieces_stands_in_order() -> None:
    told = rows("Pieces drawn elsewhere")
    assert [row[0].strip("`") for row in told] == list(pieces.COLUMNS)
    assert all(row[1] for row in told)


def test_every_file_that_a_plan_is_written_as_is_told() -> None:
    told = [row[0].strip("`") for row in rows("From the openings to the sheets")]
    assert told == [*FILES, MANIFEST]


def test_every_key_of_a_shop_file_stands_in_order() -> None:
    tables = [f"{table}.{key}" for table, keys in shop._TABLES.items() for key in keys]
    cutter = [f"cutter.{key}" for key in shop._CUTTER]
    told = [row[0].strip("`") for row in rows("The shop file")]
    assert sorted(told) == sorted(["name", "sure", "words", "graduation", *tables, *cutter])


def test_the_defaults_of_a_shop_file_are_those_of_the_program() -> None:
    told = {row[0].strip("`"): row[1:3] for row in rows("The shop file")}
    for key, fact in shop_facts().items():
        if key.startswith("limits."):
            continue
        in_inches, in_mm = told[key.removeprefix("shop.")]
        if "value" in fact:
            value = str(fact["value"]).lower()
            assert (in_inches.lower(), in_mm.lower()) == (value, value), key
        else:
            assert parse(in_inches, "in") == parse(fact["in"], "in"), key
            assert parse(in_mm, "mm") == parse(fact["mm"], "mm"), key


def test_every_exit_code_of_an_error_is_told() -> None:
    leaves = errors.SequencerError.__subclasses__()
    told = {int(row[0]) for row in rows("Exit codes")}
    assert {leaf.exit_code for leaf in leaves} | {0, 130} == told
    assert {code: Room("UK").say(kind()) for code, kind in CODES.items()} == dict(
        rows("Exit codes")
    )


def test_its_commands_are_there() -> None:
    for command in re.findall(r"^    bash (\S+)", README, re.MULTILINE):
        assert (ROOT / command).is_file()


def test_it_tells_of_every_command() -> None:
    told = re.findall(r"^    sequencer (\S+)", README, re.MULTILINE)
    listed = re.findall(r"^    (\w+)  +\S", parser_of(Room("UK")).format_help(), re.MULTILINE)
    assert set(told) == set(listed)


def test_its_links_are_there() -> None:
    for target in re.findall(r"\]\(([^)#:]+)\)", README):
        assert (ROOT / target).is_file(), target


def test_what_it_quotes_is_said() -> None:
    """A saved setting by the wording room, a change as a sheet of the examples has it."""
    gauge = notes.BY_GAUGE(gauge=notes.BLOCK(name="B"), reads=Length(Fraction(81, 32), "in"))
    saved = Room("US").say(notes.SET_BY(number=12, sets=(gauge,)))
    sheets = (ROOT / "examples/wall-cabinet/sheets.txt").read_text("utf-8").splitlines()
    sheets = [line.removeprefix("☐ ") for line in sheets]
    quoted = re.findall(r"“(.+?)”", GUIDE)
    changes = [each for each in quoted if each != saved]
    assert len(changes) == len(quoted) - 1
    assert changes == [change for change in changes if change in sheets] != []


def test_the_fact_that_it_shows_is_one() -> None:
    shown = json.loads(GUIDE.partition("such as\n`")[2].partition("`;")[0])
    assert written.to_json(written.from_json(shown, "in")) == shown
    assert GUIDE.count(f"`{SCHEMA}`") == 1


def test_it_is_short_enough_to_be_read() -> None:
    assert len(README.split()) <= 1800


def test_the_walk_through_goes_as_it_says(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Block by block: commands are run, without the PDF, what they say is compared, and the line of
    the job file is changed."""
    monkeypatch.chdir(tmp_path)
    said, ran = "", 0
    for kind, block in re.findall(r"^```(\w+)\n(.*?)^```$", README, re.MULTILINE | re.DOTALL):
        if kind == "sh":
            for line in block.splitlines():
                program, *arguments = shlex.split(line)
                assert program == "sequencer"
                ran += 1
                quick = ["--no-pdf"] if arguments[0] in ("plan", "recut") else []
                assert cli_main([*arguments, *quick]) == 0, capsys.readouterr().err
                said = capsys.readouterr().out
        elif kind == "text":
            assert said == block
        else:
            key = block.partition(" ")[0]
            job = Path("job.toml").read_text("utf-8")
            changed = re.sub(rf"(?m)^# {key} = .*$", block.strip(), job, count=1)
            assert changed != job
            Path("job.toml").write_text(changed, "utf-8")
    assert ran > 6
    assert "A2" in Path("sheets/parts.csv").read_text("utf-8")
