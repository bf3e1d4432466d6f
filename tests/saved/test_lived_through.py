"""Three jobs lived through as a maker would: what went wrong there, by the commands and on the page
that a person has."""

from __future__ import annotations

from pathlib import Path

import pytest

from sequencer import pipeline
from sequencer.cli.run import main
from sequencer.contract import from_json, to_json
from sequencer.job.load import load_job
from sequencer.job.shop import load_shop
from sequencer.saved.store import Store
from sequencer.sawside import view
from tests.saved.test_known_saw import HUTCH, OWN
from tests.saved.test_story import FIRST
from tests.sawside.test_saving import Keeping


@pytest.fixture(scope="module")
def saws(tmp_path_factory: pytest.TempPathFactory) -> tuple[Keeping, Keeping]:
    """One followed until its groove was dialled in, and one after it, beside the same store."""
    folder = tmp_path_factory.mktemp("lived")
    first = Keeping(folder / "first.sqlite", HUTCH)
    first.go_to_measure("channel-width/groove")
    card = first.card.key
    while first.card.key == card:
        first.read(first.wanted())
    second = Keeping(folder / "second.sqlite", HUTCH)
    second.go_to_measure("channel-width/groove")
    return first, second


def test_the_card_of_one_check_cut_is_not_called_a_test_cut(saws: tuple[Keeping, Keeping]) -> None:
    second = saws[1]
    assert second.card.step is not None
    assert second.card.step.kind == "check cut"
    shown = view.cards(second.state)["cards"]
    steps = [(card.key, card.step) for card in second.state.cards if card.kind == "test"]
    tests = {key: step.kind for key, step in steps if step is not None}
    titles = {each["k"]: each["title"].lower() for each in shown if each["k"] in tests}
    assert {"check cut", "test cut"} == set(tests.values())
    assert all(tests[key] in title for key, title in titles.items())


def test_times_are_those_of_all_jobs_of_the_saw(
    saws: tuple[Keeping, Keeping],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """Asked of a job that was never followed: what two others took stands there."""
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    monkeypatch.chdir(tmp_path)
    Path("job.toml").write_text(FIRST)
    Path("shop.toml").write_text(OWN)
    with Store(saws[0].settings, lambda: "now") as store:
        taken = [each for each in store.noted() if (each.what, each.name) == ("time", "fence")]
    assert len({each.uid.partition("/")[0] for each in taken}) == 2
    command = ["times", "job.toml", "--shop", "shop.toml", "--settings"]
    assert main([*command, str(saws[0].settings)]) == 0
    (line,) = [line for line in capsys.readouterr().out.splitlines() if line.startswith("fence")]
    assert str(len(taken)) in line


def test_a_piece_is_made_again_after_the_kerf_changed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """By the printed plan, which is named, with no other job beside it; the blade was sharpened
    since. The piece is the one that was printed."""
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    monkeypatch.chdir(tmp_path)
    printed = pipeline.plan([load_job(FIRST, "job.toml")], load_shop(OWN, "shop.toml", "in"))
    Path("printed.json").write_text(to_json(printed))
    Path("job.toml").write_text(FIRST)
    Path("shop.toml").write_text(OWN.replace('kerf = "0.125"', 'kerf = "0.121"'))
    command = ["recut", "job.toml", "A3", "--plan", "printed.json", "--shop", "shop.toml"]
    assert main([*command, "--no-pdf"]) == 0
    (piece,) = from_json(Path("recut/plan.json").read_text()).parts
    (twin,) = [part for part in printed.parts if part.mark == "A3"]
    assert piece == twin
