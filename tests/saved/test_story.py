"""Three jobs in one shop. The first is followed and its settings are kept; the second shares its
groove and slot, and is planned with and without the store; the third has another blade.

Kerf arithmetic is checked by hand from what a saw does (common practice): the far side of the kerf
makes a shoulder, so that shoulder stop + kerf stays tenon length.
"""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from sequencer import sheets
from sequencer.contract import from_json, to_json
from sequencer.facts import Fact, Length, notes
from sequencer.job.load import load_job
from sequencer.job.shop import load_shop
from sequencer.measured import Measured
from sequencer.pipeline import plan
from sequencer.plan import Plan, Setup
from sequencer.saved.store import Store
from sequencer.shelf import Gauge, Shelf
from tests.told import inch

JOB = """
unit = "in"
name = "{name}"
species = "cherry"

[stock]
thickness = "3/4"

[stiles]
hinge = "2"

[rails]
top = "2"
bottom = "{bottom}"

[groove]
width = "1/4"

[joint]
slot = "1/4"

[[door]]

[door.opening]
width = "{width}"
height = "{height}"
"""

SHOP = """
unit = "in"
name = "shed"

[[cutter]]
name = "{blade}"
kerf = "{kerf}"
grind = "flat-top"
"""

FIRST = JOB.format(name="hutch", bottom="2 1/4", width="14", height="20")
SECOND = JOB.format(name="larder", bottom="2 1/2", width="16 1/2", height="26")


def planned(
    text: str,
    shelf: Shelf | None = None,
    blade: str = "combination",
    kerf: str = "0.125",
    measured: Measured | None = None,
) -> Plan:
    job = load_job(text, "job.toml")
    shop = load_shop(SHOP.format(blade=blade, kerf=kerf), "shop.toml", "in")
    return plan([job], shop, measured, shelf)


def count(made: Plan, kind: str) -> int:
    return sum(step.kind == kind for step in made.steps)


@pytest.fixture(scope="module")
def first() -> Plan:
    return planned(FIRST)


@pytest.fixture(scope="module")
def path(tmp_path_factory: pytest.TempPathFactory, first: Plan) -> Path:
    """The store after the first job was followed: every setup that was tried on scrap is kept,
    with what passed and what the scales showed, a 64th more than computed."""
    path = tmp_path_factory.mktemp("story") / "settings.sqlite"
    with Store(path, lambda: "now") as store:
        for setup in first.setups:
            tests = [c for c in first.checkpoints if c.setup == setup.number and c.scrap]
            if tests:
                store.remember(
                    first,
                    setup.number,
                    when="2025-11-25",
                    measured={c.knob: c.target for c in tests if c.knob},
                    read={
                        change.knob: Fraction(change.after.removesuffix(" tested"))
                        + Fraction(1, 64)
                        for change in setup.changes
                        if change.knob in ("fence", "stop", "jig")
                    },
                )
    return path


@pytest.fixture
def shelf(path: Path) -> Shelf:
    with Store(path, lambda: "now") as store:
        return store.shelf("shed", "in")


def test_the_first_job_leaves_its_settings(path: Path, first: Plan) -> None:
    with Store(path, lambda: "now") as store:
        kept = store.entries()
    assert len(kept) == count(first, "test cut")
    assert all(e.jobs == ("hutch",) and e.cutter == "combination" for e in kept)
    groove, *_ = kept
    assert groove.carrier == "rip-fence"
    assert groove.makes == "groove width 1/4″, groove depth 1/4″; at 1/4″, in stock 3/4″ thick"
    assert [(k.knob, k.value, k.read) for k in groove.knobs] == [
        ("fence", Fraction(1, 4), Fraction(17, 64)),
        ("height", Fraction(1, 4), None),
    ]


def test_remembering_it_again_adds_the_job_and_nothing_else(path: Path, tmp_path: Path) -> None:
    copy = tmp_path / "copy.sqlite"
    copy.write_bytes(path.read_bytes())
    second = planned(SECOND)
    groove = next(c.setup for c in second.checkpoints if str(c.measure) == "channel-width/groove")
    assert groove is not None
    with Store(copy, lambda: "now") as store:
        before = store.entries()
        number = store.remember(second, groove, when="2025-12-01")
        again = store.remember(second, groove, when="2025-12-01")
        assert number == again == before[0].number
        assert len(store.entries()) == len(before)
        assert store.entry(before[0].number).jobs == ("hutch", "larder")
        assert store.entry(before[0].number).uid == before[0].uid


def test_the_same_job_again_needs_no_dialling_in(shelf: Shelf, first: Plan) -> None:
    again = planned(FIRST, shelf)
    assert again.ordering.minutes < first.ordering.minutes
    assert count(again, "test cut") == 0
    assert count(again, "check cut") == count(first, "test cut")
    assert again.proven == first.proven


def test_the_second_job_takes_fewer_minutes_and_test_cuts(shelf: Shelf) -> None:
    without, with_them = planned(SECOND), planned(SECOND, shelf)
    assert with_them.ordering.minutes < without.ordering.minutes
    assert count(with_them, "test cut") < count(without, "test cut")
    assert count(with_them, "check cut") > 0 == count(without, "check cut")
    assert with_them.proven == without.proven
    assert with_them.parts == without.parts
    # Setup by setup, what is saved is what the minutes say.
    assert sum(s.minutes for s in with_them.setups) == with_them.ordering.minutes


def _sets(setup: Setup) -> list[Fact]:
    """By what its saved settings set it."""
    sets = [each.given.get("sets") for each in setup.saved]
    return [each for group in sets if isinstance(group, tuple) for each in group
            if isinstance(each, Fact)]  # fmt: skip


def test_the_numbers_stand_on_the_sheet_and_in_the_file(shelf: Shelf) -> None:
    made = planned(SECOND, shelf)
    said = [setup.saved for setup in made.setups if setup.saved]
    reads, height = notes.READS(reads=inch("17/64")), notes.READS(reads=inch("1/4"))
    by = notes.SET_BY(number=1, sets=(reads, notes.HEIGHT(sets=height)))
    assert (by, notes.ONE_CHECK_CUT()) in said
    page = sheets.html(made, "letter")
    assert "saved setting 1: reads 17/64″" in page
    assert from_json(to_json(made)) == made


def test_a_gauge_stands_on_the_sheet_in_place_of_the_scale(path: Path, tmp_path: Path) -> None:
    copy = tmp_path / "copy.sqlite"
    copy.write_bytes(path.read_bytes())
    with Store(copy, lambda: "now") as store:
        store.name_gauge(1, Gauge("block", "B"))
        gauged = store.shelf("shed", "in")
    made = planned(SECOND, gauged)
    assert any(
        notes.BY_GAUGE(gauge=notes.BLOCK(name="B"), reads=inch("17/64")) in _sets(s)
        for s in made.setups
    )


def test_another_saws_settings_are_not_looked_at(path: Path) -> None:
    with Store(path, lambda: "now") as store:
        assert store.shelf("other shed", "in").shares == {}


def test_the_same_store_serves_a_job_in_millimetres(path: Path) -> None:
    text = FIRST.replace('unit = "in"', 'unit = "mm"')
    for inches, mm in (("3/4", "19.05"), ("2 1/4", "57.15"), ("1/4", "6.35"), ("14", "355.6")):
        text = text.replace(f'"{inches}"', f'"{mm}"')
    text = text.replace('"20"', '"508"').replace('"2"', '"50.8"')
    job = load_job(text, "job.toml")
    shop = load_shop(SHOP.format(blade="combination", kerf="0.125"), "shop.toml", "mm")
    with Store(path, lambda: "now") as store:
        made = plan([job], shop, None, store.shelf("shed", "mm"))
    assert any(
        notes.READS(reads=Length(Fraction("6.746875"), "mm")) in _sets(s) for s in made.setups
    )


def test_the_third_job_with_the_blade_measured_anew_is_corrected(shelf: Shelf) -> None:
    kerf = Fraction(121, 1000)
    measured = Measured(kerf={"combination": kerf})
    without, made = planned(FIRST, measured=measured), planned(FIRST, shelf, measured=measured)
    assert made.ordering.minutes < without.ordering.minutes
    corrected = [
        s
        for s in made.setups
        if any(each.given.get("now") == Length(kerf, "in") for each in _sets(s))
    ]
    shoulder = next(s for s in corrected if s.carrier == "crosscut-sled")
    # The far side makes the shoulder: the stop is 0.004 further off; the near side has come 0.002
    # closer to it of itself.
    assert shoulder.guide == Fraction(2) + Fraction(5, 64) - kerf
    assert any(each.kind is notes.CORRECTED_UP for each in _sets(shoulder))
    groove = next(s for s in corrected if s.carrier == "rip-fence")
    assert groove.guide == Fraction(1, 4)
    assert any(each.kind is notes.CORRECTED_DOWN for each in _sets(groove))
    page = sheets.html(made, "letter")
    assert "kerf 0.125″ then, 0.121″ now" in page
    assert "reading corrected by +0.002″" in page
    assert "one check cut in place of dialing in" in page
    assert count(made, "check cut") > 0


def test_the_third_job_with_another_blade_is_refused(shelf: Shelf) -> None:
    without = planned(FIRST, blade="thin blade", kerf="0.095")
    made = planned(FIRST, shelf, blade="thin blade", kerf="0.095")
    assert made.ordering.minutes == without.ordering.minutes
    assert not any(setup.saved for setup in made.setups)
    assert count(made, "check cut") == 0
    (note,) = [note for note in made.notes if note.kind is notes.OTHER_CUTTER]
    assert note.given["cutter"] == "combination"


def test_a_sharpened_blade_waits_for_its_kerf(path: Path, tmp_path: Path) -> None:
    copy = tmp_path / "copy.sqlite"
    copy.write_bytes(path.read_bytes())
    with Store(copy, lambda: "now") as store:
        store.doubt("combination", True)
        doubted = store.shelf("shed", "in")
    made = planned(FIRST, doubted)
    assert not any(setup.saved for setup in made.setups)
    assert any(note.kind is notes.DOUBTED for note in made.notes)
    known = planned(FIRST, doubted, measured=Measured(kerf={"combination": Fraction(1, 8)}))
    assert any(setup.saved for setup in known.setups)
