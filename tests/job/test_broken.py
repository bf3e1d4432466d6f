"""Every broken file of `broken.txt` gets exactly the message that stands there."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

import pytest

from sequencer.cli import main

TABLE = Path(__file__).with_name("broken.txt")
GOOD_JOB = (
    'unit = "in"\n[stock]\nthickness = "3/4"\n[[door]]\n'
    '[door.opening]\nwidth = "14 1/2"\nheight = "22"\n'
)


class Case(NamedTuple):
    title: str
    files: dict[str, str]
    says: str


def _cases(text: str) -> list[Case]:
    cases = []
    for block in text.split("\n== ")[1:]:
        title, _, body = block.partition("\n")
        parts = dict(part.partition("\n")[::2] for part in f"\n{body}".split("\n-- ")[1:])
        files = {name: f"{part.strip()}\n" for name, part in parts.items() if name != "says"}
        cases.append(Case(title, files, parts.get("says", "").strip()))
    return cases


def _written(cases: list[Case]) -> str:
    return "".join(
        f"\n== {case.title}\n"
        + "".join(f"-- {name}\n{text}" for name, text in case.files.items())
        + f"-- says\n{case.says}\n"
        for case in cases
    )


CASES = _cases(TABLE.read_text("utf-8"))


def _says(
    case: Case, folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> tuple[int, str]:
    monkeypatch.chdir(folder)
    for name, text in {"job.toml": GOOD_JOB, **case.files}.items():
        (folder / name).write_text(text, "utf-8")
    shop = ["--shop", "shop.toml"] if "shop.toml" in case.files else []
    code = main(["check", "job.toml", *shop])
    said = capsys.readouterr()
    assert said.out == ""
    return code, said.err.strip()


@pytest.mark.parametrize("case", CASES, ids=[case.title for case in CASES])
def test_the_message_is_the_one_in_the_table(
    case: Case,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    refresh: bool,
) -> None:
    code, said = _says(case, tmp_path, monkeypatch, capsys)
    if refresh:
        now = _cases(TABLE.read_text("utf-8"))
        head = TABLE.read_text("utf-8").partition("\n== ")[0]
        new = [old._replace(says=said) if old.title == case.title else old for old in now]
        TABLE.write_text(head + "\n" + _written(new).removeprefix("\n"), "utf-8")
        return
    assert said == case.says
    assert code == 3


def test_the_table_is_long_enough_and_its_titles_differ() -> None:
    assert len(CASES) >= 25
    assert len({case.title for case in CASES}) == len(CASES)
