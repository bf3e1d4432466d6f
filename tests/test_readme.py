"""The README tells the truth: its keys, its defaults, its exit codes, its commands."""

from __future__ import annotations

import json
import re
import shlex
from collections.abc import Callable, Mapping
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
from sequencer.job import shop
from sequencer.job import table as pieces
from sequencer.job.free import FREE_KEYS
from sequencer.job.load import load_job
from sequencer.job.schema import Job, Shop
from sequencer.lengths import Unit
from sequencer.records import replace
from sequencer.sheets.files import FILES
from sequencer.trade.moisture import REGIONS
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


JOB_DEFAULTS = {
    "stock.edge_allowance": ("0", "0"),
    "stiles.hinge": ("2", "50"),
    "rails.top": ("2", "50"),
    "groove.depth": ("1/4", "6"),
    "panel.play_side": ("1/16", "1.5"),
    "panel.play_end": ("5/64", "2"),
    "panel.engagement": ("3/32", "2.5"),
    "joint.clearance": ("1/256", "0.1"),
    "joint.proud": ("5/64", "2"),
    "gaps.top": ("3/32", "2.5"),
    "gaps.bottom": ("3/32", "2.5"),
    "gaps.hinge": ("3/32", "2.5"),
    "gaps.lock": ("3/32", "2.5"),
    "sits.top": ("3/8", "10"),
    "sits.bottom": ("3/8", "10"),
    "sits.hinge": ("3/8", "10"),
    "sits.lock": ("3/8", "10"),
    "raised.bevel": ("1 1/4", "32"),
    "raised.step": ("1/16", "1.5"),
    "boarded.width": ("3", "75"),
    "glass.thickness": ("1/8", "3"),
    "glass.under": ("1/8", "3"),
    "rough.trim": ("1", "25"),
    "rough.edge": ("1/4", "6"),
    "rough.milling": ("1/8", "3"),
    "rough.kerf": ("1/8", "3.2"),
    "rough.allowance": ("20", "20"),
}
"""In inches and in millimetres."""
SHOP_DEFAULTS = {
    "graduation": ("1/64", "0.5"),
    "saw.max_height": ("3 1/8", "79"),
    "saw.hold_down": ("featherboard and push block", "featherboard and push block"),
    "saw.fence": ("right", "right"),
    "saw.tilts": ("left", "left"),
    "cutter.kerf": ("1/8", "3.2"),
    "cutter.diameter": ("10", "254"),
    "sled.deck": ("3/4", "18"),
    "sled.longest": ("60", "1500"),
    "sled.widest": ("24", "600"),
    "jig.rides": ("slot", "slot"),
    "jig.thickness": ("0", "0"),
    "jig.deck": ("0", "0"),
    "jig.opening": ("3", "75"),
    "jig.side": ("right", "right"),
    "tools.caliper": ("0.001", "0.01"),
    "tools.caliper_reach": ("6", "150"),
    "tools.rule": ("1/64", "0.5"),
    "tools.rule_reach": ("24", "600"),
    "tools.tape": ("1/32", "1"),
    "minutes.cutter": ("5", "5"),
    "minutes.tilt": ("2", "2"),
    "minutes.height": ("1", "1"),
    "minutes.carrier": ("2", "2"),
    "minutes.guard": ("1", "1"),
    "minutes.fence": ("1", "1"),
    "minutes.stop": ("1", "1"),
    "minutes.jig": ("2", "2"),
    "minutes.spacer": ("1/2", "1/2"),
    "minutes.test_cut": ("3", "3"),
    "minutes.nibble": ("1/4", "1/4"),
    "minutes.saved": ("3/4", "3/4"),
    "minutes.gauge": ("1/2", "1/2"),
    "minutes.check_cut": ("1", "1"),
}
BESIDE = {"door.count", "door.leaves", "board.count", "room.temperature"}
"""Figures that are no measures; of the room's warmth `test_reference.py` asks."""


Says = Callable[[Unit, str, str | None], Job | Shop]


def in_figures(heading: str) -> set[str]:
    return {row[0].strip("`") for row in rows(heading) if re.match(r"\d", row[1] + row[2])}


def job_that_says(unit: Unit, key: str, value: str | None) -> Job:
    """A job in which the key counts, with the value or left out; where it stands is not told."""
    table, _, name = key.partition(".")
    lines = [f'unit = "{unit}"', 'species = "cherry"']
    lines += [f'fill = "{table}"'] if table in ("raised", "boarded", "glass") else []
    tables = {"stock": ['thickness = "3/4 in"']}
    tables |= {"sits": ['how = "overlay"']} if table == "sits" else {}
    tables[table] = [*tables.get(table, ()), *([f'{name} = "{value}"'] if value else [])]
    if name == "engagement":
        tables |= {"wood": ["moisture = 8"], "room": ["driest = 6", "wettest = 12"]}
    for each, said in tables.items():
        lines += [f"[{each}]", *said]
    if table == "rough":
        lines += ["[[board]]", 'thickness = "1 in"', 'width = "8 in"', 'length = "90 in"']
    lines += ["[[door]]", "[door.opening]", 'width = "15 in"', 'height = "22 in"']
    job = load_job("\n".join(lines), "job.toml")
    return replace(job, doors=tuple(replace(d, places={}, where="") for d in job.doors))


def shop_that_says(unit: Unit, key: str, value: str | None) -> Shop:
    table, _, name = key.rpartition(".")
    said = {} if value is None else {name: value}
    if table == "cutter" and said:  # the one that there is otherwise, whole
        sizes = {key: SHOP_DEFAULTS[f"cutter.{key}"][unit == "mm"] for key in ("kerf", "diameter")}
        said = {"name": "combination blade", "grind": "alternate", **sizes, **said}
    lines = [f'unit = "{unit}"', 'name = "one"']
    if said and table:
        lines += [f"[[{table}]]" if table == "cutter" else f"[{table}]"]
    lines += [f'{each} = "{what}"' for each, what in said.items()]
    lines += ["[tools]", 'blocks = ["1/4 in"]'] if name == "spacer" else []
    made = shop.load_shop("\n".join(lines), "shop.toml", unit)
    return replace(made, assumed=())


@pytest.mark.parametrize("unit", ["in", "mm"])
@pytest.mark.parametrize(
    ("heading", "defaults", "read"),
    [
        ("The job file", JOB_DEFAULTS, job_that_says),
        ("The shop file", SHOP_DEFAULTS, shop_that_says),
    ],
)
def test_what_is_left_out_is_as_the_reference_says(
    unit: Unit, heading: str, defaults: Mapping[str, tuple[str, str]],
    read: Says,
) -> None:  # fmt: skip
    told = {row[0].strip("`"): (row[1], row[2]) for row in rows(heading)}
    assert in_figures(heading) - BESIDE <= defaults.keys()
    for key, both in defaults.items():
        assert told[key] == both
        value = both[unit == "mm"]
        left_out = read(unit, key, None)
        assert read(unit, key, value) == left_out, key
        if value[0].isdigit():
            assert counts(read, unit, key, left_out), key


def counts(read: Says, unit: Unit, key: str, left_out: Job | Shop) -> bool:
    """Whether another value of the key makes another job or shop, or is refused."""
    try:
        return read(unit, key, "7/16") != left_out
    except errors.InputError:
        return True


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
