"""Files to begin with: written from what somebody says, and good as they stand."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest

from sequencer.cli import main
from sequencer.job.load import load_job
from sequencer.job.new import new_job, new_shop, opening
from sequencer.job.shop import default_shop, load_shop
from sequencer.lengths import Unit

Capture = pytest.CaptureFixture[str]
UNITS: tuple[Unit, ...] = ("in", "mm")


@pytest.fixture(autouse=True)
def _in_a_folder_of_its_own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def test_a_job_from_its_openings_plans(capsys: Capture) -> None:
    asked = ["15 3/8 x 23 1/2 left", "30 x 23 1/2 pair", "--wood", "cherry", "--thickness", "3/4"]
    assert main(["new", *asked, "--unit", "in"]) == 0
    assert main(["check", "job.toml"]) == 0
    assert capsys.readouterr().out == (
        "job.toml\njob.toml reads well: 3 doors, A to C\ngood: all of it can be made in this shop\n"
    )
    assert main(["plan", "job.toml", "--no-pdf"]) == 0
    read = tomllib.loads(Path("job.toml").read_text("utf-8"))
    assert [door["opening"] for door in read["door"]] == [
        {"width": "15 3/8", "height": "23 1/2"}, {"width": "30", "height": "23 1/2"},
    ]  # fmt: skip
    assert (read["species"], read["stock"]) == ("cherry", {"thickness": "3/4"})
    assert main(["new", *asked]) == 4  # nothing is overwritten


def test_a_thickness_with_an_inch_mark_is_written_as_it_can_be_read() -> None:
    assert main(["new", "15 3/8 x 23 1/2", "--thickness", '3/4"', "--wood", 'the "good" ash']) == 0
    read = tomllib.loads(Path("job.toml").read_text("utf-8"))
    assert (read["species"], read["stock"]) == ('the "good" ash', {"thickness": '3/4"'})


@pytest.mark.parametrize("more", [[], ["--wood", "ash"], ["15 x 20"], ["--unit", "mm"]])
def test_a_job_has_the_name_that_was_given(more: list[str]) -> None:
    assert main(["new", "--name", 'The "new" kitchen', *more]) == 0
    text = Path("job.toml").read_text("utf-8")
    assert tomllib.loads(text)["name"] == 'The "new" kitchen'
    assert main(["new", *more, "other.toml"]) == 0
    other = Path("other.toml").read_text("utf-8")
    assert len(text.splitlines()) == len(other.splitlines())
    assert tomllib.loads(other)["name"] != tomllib.loads(text)["name"]


@pytest.mark.parametrize("unit", UNITS)
def test_every_line_behind_its_mark_says_the_default(unit: Unit) -> None:
    """Taken in, nothing changes: as the file stands and with each # gone."""
    sizes = "15 x 22 left" if unit == "in" else "380 x 560 left"
    text = new_job("job.toml", "job", unit, None, None, [opening(sizes, unit)])
    told = re.sub(r"(?m)^# (\w+ = )", r"\1", text.partition("# Where the wood")[0])
    told += text[text.index("# One [[door]]") :]
    plain, full = load_job(text, "j"), load_job(told, "j")
    one, other = plain.doors[0], full.doors[0]
    for name in ("gaps", "joint", "hinge_stile", "free_stile", "top_rail", "groove", "panel"):
        if name != "panel":
            assert getattr(one, name) == getattr(other, name), name
    shop = new_shop("shed", unit).partition("# [minutes]")[0]
    own = load_shop(re.sub(r"(?m)^# (\w+ = (?!true\b)[^t])", r"\1", shop), "s", unit)
    usual = default_shop(unit)
    for name in ("graduation", "cutters", "sled", "jig", "minutes"):
        assert getattr(own, name) == getattr(usual, name), name
    assert own.saw.max_height == usual.saw.max_height


def test_a_shop_is_written_and_good(capsys: Capture) -> None:
    assert main(["new", "--shop"]) == 0
    assert main(["new", "metric.toml", "--shop", "--unit", "mm", "--name", "shed"]) == 0
    assert main(["new"]) == 0
    for file in ("shop.toml", "metric.toml"):
        assert main(["check", "job.toml", "--shop", file]) == 0
    assert 'name = "shed"' in Path("metric.toml").read_text("utf-8")
    assert capsys.readouterr().err == ""


@pytest.mark.parametrize("text", ["15", "15 x", "15 3,8 x 22", "15 x 22 middle", "15 x 22 x 1"])
def test_what_is_no_opening_is_wrong_usage(text: str, capsys: Capture) -> None:
    assert main(["new", text]) == 2
    assert capsys.readouterr().err.startswith("sequencer: ")
    assert not Path("job.toml").exists()


def test_openings_are_read_as_people_say_them() -> None:
    for text in ("15 3/8 x 23 1/2 left", "15 3/8×23 1/2", "15 3/8 by 23 1/2  left "):
        found = opening(text, "in")
        assert (found.width, found.height, found.hangs) == ("15 3/8", "23 1/2", "left")
    assert opening("1' 3\" x 571.5 mm pair", "in").text.count("leaves = 2") == 1
