"""In whose words an error is told."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from sequencer.cli import main
from sequencer.errors import Fault, InputError, Refusal
from sequencer.facts import Length, Unit, racks, shops
from sequencer.wording.complaints import dialect_of

JOB = """unit = "{unit}"
[stock]
thickness = "19 mm"
[[door]]
{own}
[door.opening]
width = "360 mm"
height = "560 mm"
"""
SHOP = """unit = "{unit}"
{words}
[jig]
rides = "slot"
thickness = "10 mm"
"""


@pytest.mark.parametrize(
    ("job", "shop", "words", "told"),
    [
        ("in", "in", "", "miter"),
        ("mm", "mm", "", "mitre"),
        ("mm", "in", "", "miter"),  # the shop's own unit goes before the job's
        ("in", "in", 'words = "UK"', "mitre"),
        ("mm", "mm", 'words = "US"', "miter"),
    ],
)
def test_a_shop_is_told_in_its_own_words(
    job: str,
    shop: str,
    words: str,
    told: str,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    (tmp_path / "job.toml").write_text(JOB.format(unit=job, own=""), "utf-8")
    (tmp_path / "shop.toml").write_text(SHOP.format(unit=shop, words=words), "utf-8")
    assert main(["check", str(tmp_path / "job.toml"), "--shop", str(tmp_path / "shop.toml")]) == 3
    assert f"a jig in the {told} slot adds nothing" in capsys.readouterr().err


@pytest.mark.parametrize(("unit", "told"), [("in", "millimeters"), ("mm", "millimetres")])
def test_a_job_alone_is_told_in_the_words_of_its_unit(
    unit: str, told: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    wrong = '[door.rails]\ntop = "50 1/2 mm"'
    (tmp_path / "job.toml").write_text(JOB.format(unit=unit, own=wrong), "utf-8")
    assert main(["check", str(tmp_path / "job.toml")]) == 3
    assert f"{told} take no fraction" in capsys.readouterr().err


@pytest.mark.parametrize(("unit", "dialect"), [("in", "US"), ("mm", "UK")])
def test_else_a_length_that_it_tells_decides(unit: Unit, dialect: str) -> None:
    told = racks.ENDS_LEAVE_NOTHING(gone=Length(Fraction(3), unit))
    assert dialect_of(Refusal(told)) == dialect
    assert dialect_of(InputError((Fault("f", 1, 1, shops.NO_BLADE(), told),))) == dialect
    assert dialect_of(Refusal(shops.NO_BLADE())) is None
