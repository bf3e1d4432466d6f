"""Medians of what really took how long, and how they are written into a shop file."""

from __future__ import annotations

import tomllib
from fractions import Fraction
from pathlib import Path

import pytest

from sequencer.cli.timing import into_shop
from sequencer.errors import InputError, SurroundingsError
from sequencer.job.shop import load_shop
from sequencer.saved.evidence import TIME, Noted
from sequencer.saved.memory import as_known, timed, typical
from sequencer.saved.store import Store
from tests.saved.test_known_saw import HUTCH
from tests.sawside.test_saving import Keeping


def noted_as(n: int, what: str, name: str, planned: str, value: str) -> Noted:
    numbers = Fraction(planned), Fraction(value)
    return Noted(str(n), f"2025-11-2{n}", "hutch", "s", what, name, *numbers, "in")


def test_the_median_of_all() -> None:
    found = typical([("fence", Fraction(1)), ("fence", Fraction(3)), ("fence", Fraction(20))])
    assert [(t.name, t.minutes, t.count) for t in found] == [("fence", Fraction(3), 3)]


def test_rounded_to_a_quarter_and_never_to_nothing() -> None:
    found = {
        t.name: t.minutes for t in typical([("fence", Fraction(1, 100)), ("stop", Fraction("1.4"))])
    }
    assert found == {"fence": Fraction(1, 4), "stop": Fraction(3, 2)}


def test_a_check_cut_is_no_test_cut_and_all_jobs_count(tmp_path: Path) -> None:
    """Two jobs of one saw: the second sets by what the first saved, and is timed so."""
    first = Keeping(tmp_path / "first.sqlite", HUTCH)
    first.finish()
    second = Keeping(tmp_path / "second.sqlite", HUTCH)
    second.finish()
    with Store(first.settings, lambda: "now") as store:
        noted = store.noted()
    found = {each.name: each for each in typical(timed(noted))}
    jobs = {each.uid.partition("/")[0] for each in noted}
    assert len(jobs) == 2
    steps = [step.kind for saw in (first, second) for step in saw.state.plan.steps]
    assert found["test_cut"].count == steps.count("test cut")
    assert found["check_cut"].count == steps.count("check cut") > 0
    assert found["saved"].count > 0
    # A change of several is shared as planned; every one took ten seconds.
    assert all(each.minutes <= Fraction(1, 2) for each in found.values())


def test_minutes_that_a_file_leaves_open_are_those_that_were_timed() -> None:
    noted = [
        Noted(
            str(n), f"2025-11-2{n}", "hutch", "s", TIME, name, Fraction(1), Fraction(minutes), "in"
        )
        for n, (name, minutes) in enumerate(
            [("fence", "2"), ("fence", "3"), ("fence", "4"), ("stop", "9")]
        )
    ]
    shop, says = as_known(load_shop('unit = "in"\n', "shop.toml", "in"), noted, "in")
    assert says == ()
    assert shop.minutes.of("fence") == 3
    assert shop.minutes.of("stop") == 1  # timed once
    assert "minutes-timed(what=minutes.fence, value=3, n=3)" in " ".join(map(str, shop.assumed))
    stated = load_shop('unit = "in"\n[minutes]\nfence = 1\n', "shop.toml", "in")
    assert as_known(stated, noted, "in")[0].minutes.of("fence") == 1


def test_a_kerf_that_was_measured_stands_for_the_files_until_that_is_changed() -> None:
    text = 'unit = "in"\n[[cutter]]\nname = "c"\nkerf = "{}"\n'
    noted = [
        Noted(
            "1", "2025-11-20", "hutch", "s", "kerf", "c", Fraction("0.125"), Fraction("0.122"), "in"
        ),
        Noted(
            "2",
            "2025-11-21",
            "larder",
            "s",
            "kerf",
            "c",
            Fraction("0.122"),
            Fraction("0.121"),
            "in",
        ),
    ]
    for stated, known in (("0.125", "0.121"), ("0.118", "0.118"), ("0.122", "0.121")):
        shop, says = as_known(load_shop(text.format(stated), "shop.toml", "in"), noted, "in")
        assert shop.joinery_blade.kerf == Fraction(known)
        assert len(says) == (stated != known)


SHOPS = {
    "with minutes": 'unit = "mm"\n\n[minutes]\nfence = 1   # a guess\n\n[sled]\ndeck = "18"\n',
    "without": 'unit = "mm"\n# the sled\n[sled]\ndeck = "18"\n\n\n',
    "at the end": 'unit = "mm"\n[minutes]\n"fence" = "1/2"',
    "in one line": 'unit = "mm"\nminutes = { fence = "1/2" }  # a guess\n',
    "behind cutters": '[[cutter]]\nname = "thin"\n\n[ minutes ]  # a guess\nstop = 1\n[saw]\n',
    "of another system": 'unit = "mm"\r\n[minutes]  # a guess\r\nfence = 1\r\n',
}


@pytest.mark.parametrize("name", SHOPS)
def test_only_the_minutes_change(name: str) -> None:
    text = SHOPS[name]
    made = into_shop(text, "shop.toml", {"fence": Fraction(7, 4), "test_cut": Fraction(4)})
    before, after = tomllib.loads(text), tomllib.loads(made)
    assert after.pop("minutes") == {
        **before.pop("minutes", {}), "fence": "1 3/4", "test_cut": "4",
    }  # fmt: skip
    assert after == before
    assert ("# a guess" in made) == ("# a guess" in text)
    assert made.count("\r\n") == ("\r\n" in text) * made.count("\n")
    assert ("# the sled" in made) == ("# the sled" in text)


def test_new_minutes_stand_in_their_order() -> None:
    minutes = {"fence": Fraction(7, 4), "stop": Fraction(2), "test_cut": Fraction(4)}
    made = into_shop("[minutes]\nstop = 1\n", "shop.toml", minutes)
    assert made == '[minutes]\nfence = "1 3/4"\ntest_cut = "4"\nstop = "2"\n'


def test_a_file_written_otherwise_is_left_alone() -> None:
    with pytest.raises(SurroundingsError, match=r"follow\.not-line-by-line"):
        into_shop("minutes.stop = 1\n", "shop.toml", {"fence": Fraction(2)})
    with pytest.raises(InputError, match=r"shop\.toml"):
        into_shop("minutes\n", "shop.toml", {"fence": Fraction(2)})
