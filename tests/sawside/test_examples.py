"""Every example can be followed from its first card to its last, each reading as it is wanted."""

from __future__ import annotations

from pathlib import Path

import pytest

from sequencer.sawside import view
from tests.sawside.driver import ROOT, Saw, files_of

EXAMPLES = sorted(path.parent for path in (ROOT / "examples").glob("*/job.toml"))


def test_every_card_of_a_bevel_says_that_the_blade_leans(tmp_path: Path) -> None:
    saw = Saw(tmp_path / "follow.sqlite", files_of(ROOT / "examples" / "dresser"))
    faces = zip(saw.state.cards, view.cards(saw.state)["cards"], strict=True)
    told = {
        bool(card.setup and card.setup.tilt): [n["note"] for n in face["big"]][-1]
        for card, face in faces
        if "big" in face
    }
    assert told[True].startswith("blade leans left 19.2°, away from the fence")
    assert not told[False]
    saw.store.close()


@pytest.mark.parametrize("folder", EXAMPLES, ids=lambda folder: folder.name)
def test_an_example_is_followed_to_its_end(folder: Path, tmp_path: Path) -> None:
    saw = Saw(tmp_path / "follow.sqlite", files_of(folder))
    saw.finish()
    ordered = {placed.operation for placed in saw.state.plan.ordering.order}
    assert ordered == saw.state.done.keys()
    assert not saw.state.trouble
    saw.store.close()
