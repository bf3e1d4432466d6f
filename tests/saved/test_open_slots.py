"""A slot that a job leaves open is drawn to one that was dialled in before, where that saves."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from sequencer.contract import from_json, to_json
from sequencer.job.load import load_job
from sequencer.job.shop import load_shop
from sequencer.pipeline import cut_as, plan
from sequencer.plan import Plan
from sequencer.saved.store import Store
from sequencer.setups.given import Given
from sequencer.shelf import Shelf
from tests.saved.test_story import FIRST, SECOND, SHOP

OWN = load_shop(SHOP.format(blade="combination", kerf="0.125"), "shop.toml", "in")
BEFORE = load_job(FIRST.replace('slot = "1/4"', 'slot = "17/64"'), "job.toml")
OPEN = load_job(SECOND.replace('[joint]\nslot = "1/4"\n', ""), "job.toml")


@pytest.fixture(scope="module")
def shelf(tmp_path_factory: pytest.TempPathFactory) -> Shelf:
    """A slot and tenon of 17/64 in that were dialled in, where a third of the thickness is 1/4."""
    path = tmp_path_factory.mktemp("open") / "settings.sqlite"
    made = plan([BEFORE], OWN)
    with Store(path, lambda: "now") as store:
        for setup in made.setups:
            if any(c.setup == setup.number and c.scrap for c in made.checkpoints):
                store.remember(made, setup.number, when="2025-11-25")
        return store.shelf("shed", "in")


def slot_of(made: Plan) -> Fraction:
    (width,) = {
        f.box[2][1] - f.box[2][0] for p in made.parts for f in p.features if f.kind == "slot"
    }
    return width


def test_a_slot_left_open_takes_what_was_dialled_in(shelf: Shelf) -> None:
    alone, made = plan([OPEN], OWN), plan([OPEN], OWN, None, shelf)
    assert slot_of(alone) == Fraction(1, 4)
    assert slot_of(made) == Fraction(17, 64)
    (chosen,) = made.free
    assert (chosen.key, chosen.value) == ("joint.slot", Fraction(17, 64))
    assert chosen.others["1/4"] > made.ordering.minutes
    assert made.proven
    # Whoever follows it, or makes a piece again, has it as it was planned.
    given, choices = Given.of([OPEN], OWN, saved=shelf).as_in(from_json(to_json(made)))
    assert given.jobs[0].doors[0].joint.slot == Fraction(17, 64)
    assert cut_as(given, choices).parts == made.parts


def test_where_all_of_its_settings_were_dialled_in_no_other_width_is_tried(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made = plan([OPEN], OWN)
    with Store(tmp_path / "s", lambda: "now") as store:
        for setup in made.setups:
            store.remember(made, setup.number, when="2025-11-25")
        before = plan([BEFORE], OWN)
        for setup in before.setups:
            store.remember(before, setup.number, when="2025-11-26")
        known = store.shelf("shed", "in")
    tried: list[Fraction] = []
    monkeypatch.setattr("sequencer.drawn._tried", lambda *asked: tried.append(asked[2]))
    again = plan([OPEN], OWN, None, known)
    assert tried == []
    assert (again.free, slot_of(again)) == ((), Fraction(1, 4))
    assert again.ordering.minutes < made.ordering.minutes


def test_a_slot_that_is_stated_stays(shelf: Shelf) -> None:
    made = plan([load_job(SECOND, "job.toml")], OWN, None, shelf)
    assert made.free == ()
    assert slot_of(made) == Fraction(1, 4)


def test_without_saved_settings_nothing_is_drawn(tmp_path: Path) -> None:
    with Store(tmp_path / "s", lambda: "now") as store:
        empty = store.shelf("shed", "in")
    assert plan([OPEN], OWN, None, empty) == plan([OPEN], OWN)


BLOCKS = load_shop(
    SHOP.format(blade="combination", kerf="0.125") + '[tools]\nblocks = ["33/128"]\n',
    "shop.toml",
    "in",
)


WHOLLY_OPEN = SECOND.replace('[joint]\nslot = "1/4"\n', "").replace('[groove]\nwidth = "1/4"\n', "")


def by_block(made: Plan) -> list[Fraction | None]:
    """The guides that a block sets."""
    return [s.guide for s in made.setups if any(b.how == "block" for b in s.set_by)]


def test_a_slot_left_open_is_drawn_to_a_block_at_hand() -> None:
    """Walls of 33/128 in make a slot of 15/64 in 3/4 stock: as quick as 7/32, and set by a block;
    the groove, which nothing else gives a width, follows it."""
    job = load_job(WHOLLY_OPEN, "job.toml")
    without, made = plan([job], OWN), plan([job], BLOCKS)
    assert by_block(without) == []
    assert slot_of(made) == Fraction(15, 64) != slot_of(without)
    assert made.ordering.minutes <= without.ordering.minutes
    assert set(by_block(made)) == {Fraction(33, 128)}
    assert made.proven


@pytest.mark.large
@pytest.mark.parametrize("key", ["groove", "joint"])
def test_a_range_goes_to_a_block_at_equal_minutes(
    key: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Of values that take the same minutes the one that a block sets is taken, of a slot that the
    groove follows, and of a groove that the slot follows."""
    monkeypatch.setattr("sequencer.free_values.MOST_VALUES", 4)
    table = {"joint": '[joint]\nslot = "7/32 to 1/4"', "groove": '[groove]\nwidth = "7/32 to 1/4"'}
    job = load_job(WHOLLY_OPEN.replace("[[door]]", f"{table[key]}\n[[door]]", 1), "job.toml")
    without, made = plan([job], OWN), plan([job], BLOCKS)
    assert by_block(without) == []
    assert slot_of(made) == Fraction(15, 64)
    assert set(by_block(made)) == {Fraction(33, 128)}
    assert made.ordering.minutes <= without.ordering.minutes
