"""What the command `shop` asks and says: each sentence once."""

from __future__ import annotations

import pytest

from sequencer.facts import Fact
from sequencer.facts import namings as n
from sequencer.wording import Room
from tests.told import inch

JIG = "carrier.tenoning-jig"
SAID: list[tuple[Fact, str]] = [
    (n.WHICH_SAW(usual="shed"), "What do you call this saw? (shed)"),
    (
        n.SAME_SAW(n=3, name="shop"),
        "3 settings and readings are kept under the name “shop”. Are they of this saw? (y/N)",
    ),
    (
        n.WHICH_FITTING(body=JIG),
        "If you have more than one tenoning jig, what do you call this one? (Enter: there is one)",
    ),
    (n.SAW_IS(id="shed k3f9", n=1), "saw: shed k3f9; 1 setting or reading is kept of it"),
    (
        n.NO_NAME(file="shop.toml"),
        "shop.toml: the saw has no name of its own yet: write --saw, then its name",
    ),
    (n.FITTING_IS(body=JIG, name="tall"), "tenoning jig: tall"),
    (
        n.CUTTER_IS(name="thin", kerf=inch("0.093"), times=n.SHARPENED(n=2)),
        "cutter: thin, kerf 0.093″, sharpened 2 times",
    ),
    (n.SHARPENED(n=1), ", sharpened once"),
    (
        n.TAKEN_OVER(n=3, name="shop"),
        "3 settings and readings that were kept under “shop” are this saw's now",
    ),
    (n.WRITTEN(file="shop.toml"), "shop.toml: written"),
    (
        n.NO_SUCH_CUTTER(name="thin", file="shop.toml"),
        "shop.toml: no [[cutter]] is called thin",
    ),
    (n.KERF_OF_WHICH(), "--kerf goes with --sharpened: one blade, and its new kerf"),
    (n.NOTHING_KEPT(name="shop"), "nothing is kept under the name “shop”"),
    (
        n.BY_HAND(file="shop.toml"),
        "shop.toml: cannot be changed line by line; write the keys by hand",
    ),
    (
        n.MEASURE_KERF(name="thin"),
        (
            "thin: saw a scrap, measure the kerf and write it in the shop file; until then its "
            "settings wait"
        ),
    ),
]


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_said(fact: Fact, words: str) -> None:
    assert Room("UK").say(fact) == words


def test_each_is_said_once() -> None:
    assert [fact.kind for fact, _ in SAID] == list(n.kind_of.kinds.values())
