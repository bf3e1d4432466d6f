"""Whatever stands in a file, it is read or its faults are told: with their places, in words, and
never with a trace. Thousands of changed files, of each kind."""

from __future__ import annotations

from collections import Counter
from pathlib import Path
from random import Random

import pytest

from sequencer.batch import read_batch
from sequencer.cli import main
from sequencer.errors import InputError, SequencerError
from sequencer.sheets import parts_csv
from sequencer.wording import Room
from sequencer.wording.complaints import fault_text
from tests.job.mutants import mutant
from tests.job.test_broken import CASES
from tests.sheets.jobs import plan_of

ROOT = Path(__file__).resolve().parents[2]
GOOD = [path.read_text("utf-8") for path in sorted(ROOT.glob("examples/*/job.toml"))]
JOBS = [*GOOD, *(case.files["job.toml"] for case in CASES if "job.toml" in case.files)]
GOOD_SHOPS = [path.read_text("utf-8") for path in sorted(ROOT.glob("examples/*/shop.toml"))]
SHOPS = [*GOOD_SHOPS, *(case.files["shop.toml"] for case in CASES if "shop.toml" in case.files)]

FILES = 5000
TABLES = 300
COMMANDS = 60


def outcome(job: str, shop: str | None, name: str = "job.toml") -> str:
    """Whether it is read, or told; what is told is told in words, with places that are there."""
    texts = {name: job, "shop.toml": shop or ""}
    try:
        read_batch([name], None if shop is None else "shop.toml", texts.__getitem__)
    except InputError as error:
        room = Room(error.words or "UK")
        for fault in error.faults:
            lines = texts[fault.file].replace("\r\n", "\n").removeprefix("\ufeff").split("\n")
            assert 0 <= fault.line <= len(lines)
            assert fault_text(fault, room).startswith(fault.file)
        return "told"
    except SequencerError as error:
        return type(error).__name__
    return "read"


def test_changed_files_are_read_or_told(seed: int, large: bool) -> None:
    chance, found = Random(seed), Counter[str]()
    for number in range(FILES * 20 if large else FILES):
        job, shop = chance.choice(GOOD), None
        if number % 3:
            job = mutant(chance, chance.choice(chance.choice((GOOD, GOOD, JOBS))), JOBS)
        else:
            shop = mutant(chance, chance.choice(chance.choice((GOOD_SHOPS, SHOPS))), SHOPS)
        try:
            found[outcome(job, shop)] += 1
        except Exception as error:
            error.add_note(f"{job}\n----- in the shop\n{shop}")
            raise
    print(dict(found))  # noqa: T201  counts, shown with -s
    assert found["read"] > FILES / 20
    assert found["told"] > FILES / 2


def test_changed_tables_are_read_or_told(seed: int, large: bool) -> None:
    chance, found = Random(seed), Counter[str]()
    texts = [parts_csv(plan_of(name)) for name in ("pair", "single", "mitred")]
    for _ in range(TABLES * 20 if large else TABLES):
        text = mutant(chance, chance.choice(texts), texts)
        try:
            found[outcome(text, None, "parts.csv")] += 1
        except Exception as error:
            error.add_note(text)
            raise
    print(dict(found))  # noqa: T201
    assert min(found["read"], found["told"]) > TABLES / 20


def test_the_command_says_what_is_wrong_with_changed_files(
    seed: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """As bytes, which need be no UTF-8: an exit code of the table, and a message unless it is 0."""
    monkeypatch.chdir(tmp_path)
    chance, found = Random(seed), Counter[int]()
    for _ in range(COMMANDS):
        data = bytearray(mutant(chance, chance.choice(JOBS), JOBS).encode("utf-8", "replace"))
        for _ in range(chance.choice((0, 0, 1, 3))):
            data.insert(chance.randint(0, len(data)), chance.randrange(256))
        Path("job.toml").write_bytes(bytes(data))
        code = main(["check", "--quick", "job.toml"])
        said = capsys.readouterr()
        assert code in (0, 1, 3), said.err
        assert "a fault of this program" not in said.err
        assert bool(said.err.strip()) == (code != 0)
        found[code] += 1
    print(dict(found))  # noqa: T201
    assert found[3]
