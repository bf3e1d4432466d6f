"""No text of the sheets is baked in: said in a dialect that wraps every text in brackets, nothing
that a person sees stands outside them but what the user wrote, marks, numbers and units. And inch
plans say US words, plans in millimetres British ones, unless the shop says otherwise."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from html.parser import HTMLParser
from pathlib import Path

import pytest

from sequencer import sheets
from sequencer.facts import TEXT, Dialect, Fact
from sequencer.facts.parts import BOUGHT
from sequencer.plan import Plan
from sequencer.records import replace
from sequencer.sheets import render
from sequencer.wording import Room
from sequencer.wording.room import BUILT_IN
from tests.sheets.jobs import MITRED, plan_of
from tests.stages import to_plan
from tests.wording.wrapped import Wrapped, baked_in

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
SHOWN = {"aria-label", "title", "alt"}
UNSEEN = {"style", "script"}


class Seen(HTMLParser):
    """What a person sees or hears of a page: its text in one run, so that brackets that open in
    one node may close in another, and what its attributes say."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.text = ""
        self.told: list[str] = []
        self.language = ""
        self._within = ""
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.text += " "
        if tag in UNSEEN:
            self._within = tag
        self.told += [value for name, value in attrs if name in SHOWN and value]
        if tag == "html":
            self.language = dict(attrs)["lang"] or ""

    def handle_endtag(self, tag: str) -> None:
        self.text += " "
        if tag == self._within:
            self._within = ""

    def handle_data(self, data: str) -> None:
        if not self._within:
            self.text += data


@cache
def made(name: str) -> Plan:
    """Framed and raised in inches with mitred corners, framed in millimetres, divided and glazed
    with shaped leaves; boarded and slab doors of the examples."""
    if (EXAMPLES / name).is_dir():
        shop = EXAMPLES / name / "shop.toml"
        text = (EXAMPLES / name / "job.toml").read_text(encoding="utf-8")
        return to_plan(text, shop.read_text(encoding="utf-8") if shop.exists() else "")
    return plan_of(name)


def page(plan: Plan, monkeypatch: pytest.MonkeyPatch, dialect: Dialect) -> Seen:
    room = Room(dialect, plan.shop.graduation, translation=Wrapped())
    monkeypatch.setattr(render, "for_plan", lambda *_: room)
    return Seen(sheets.html(plan))


def texts(fact: Fact) -> Iterator[str]:
    """What a fact has from elsewhere: names of places and publications."""
    for value, sort in zip(fact.values, fact.kind.takes.values(), strict=True):
        if isinstance(value, Fact):
            yield from texts(value)
        elif sort is TEXT and isinstance(value, str):
            yield value


def own_words(plan: Plan) -> set[str]:
    """What the user wrote, and what no dialect changes."""
    holds = plan.shop.hold_down  # with a great letter too, where a line begins with it
    own = {"mm", "in", "m³", plan.unit, "A", "B", holds, holds[:1].upper() + holds[1:]}
    own |= {str(order.what.given["what"]) for order in plan.orders if order.what.id == BOUGHT.id}
    own |= {each for season in plan.seasons for each in texts(season.source)}
    own |= (
        {each for door in plan.doors for each in texts(door.name)}
        | {door.job for door in plan.doors}
        | {*plan.jobs}
    )
    own |= {part.material for part in plan.parts} | {stick.material for stick in plan.sticks}
    own |= {setup.cutter for setup in plan.setups}
    own |= {part.mark for part in plan.parts} | {board.mark for board in plan.boards}
    own |= {
        name
        for season in plan.seasons
        for each in (*season.panels, *season.boards, season.slab, season.gap)
        if each is not None
        for name in each.species
    }
    own |= {name.split(",")[0] for name in own}
    return (own | {chosen.place for chosen in plan.free}) - BUILT_IN


def _flat(text: str) -> str:
    return re.sub(r"\s+", " ", text).strip()


def bare(seen: Seen, own: set[str]) -> Iterator[str]:
    for told in (_flat(seen.text), *seen.told):
        yield from baked_in(told, own)


@pytest.mark.parametrize(
    ("name", "dialect"),
    [
        ("mitred", "US"),  # raised, mitred; a leaning blade
        ("pair", "UK"),
        ("single", "UK"),
        ("barred", "UK"),  # bars, glass, shapes
        ("matched", "US"),  # resawn
        ("broom-cupboard", "UK"),
        ("key-cupboard", "UK"),
        ("linen-press", "US"),
        ("spice-cupboard", "US"),
        ("wall-cabinet", "US"),
    ],
)
def test_no_text_is_baked_in(name: str, dialect: Dialect, monkeypatch: pytest.MonkeyPatch) -> None:
    plan = made(name)
    seen = page(plan, monkeypatch, dialect)
    assert len(seen.text) > 5000
    assert not sorted(set(bare(seen, own_words(plan))))


def words_of(plan: Plan) -> tuple[str, set[str]]:
    """The language of the page, and its words."""
    seen = Seen(sheets.html(plan))
    return seen.language, set(re.findall(r"[a-z]+", f"{seen.text} {' '.join(seen.told)}".lower()))


def in_words_of(plan: Plan, dialect: Dialect) -> Plan:
    return replace(plan, shop=replace(plan.shop, words=dialect))


def test_inches_read_us_words() -> None:
    language, words = words_of(made("mitred"))
    assert language == "en-US"
    assert {"mitered", "centered", "clamp"} <= words
    assert not words & {"centred", "cramp"}
    divided = Seen(sheets.html(in_words_of(made("barred"), "US"))).text
    assert "rabbet 6 mm wide" in divided
    assert re.search(r"dado [\d.]+ mm deep", divided)


def test_millimetres_read_british_words() -> None:
    language, words = words_of(made("barred"))
    assert language == "en-GB"
    assert {"rebate", "housing", "centred", "cramp"} <= words
    assert not words & {"rabbet", "dado", "centered", "mitered"}


def test_the_shop_file_may_ask_for_the_other_countrys_words() -> None:
    plan = to_plan(MITRED, 'unit = "in"\nwords = "UK"\n')
    language, words = words_of(plan)
    assert language == "en-GB"
    assert {"centred", "cramp"} <= words
    assert not words & {"centered", "dado"}
    assert "″" in Seen(sheets.html(plan)).text


def test_a_baked_in_text_is_found() -> None:
    seen = Seen('<p title="hover">⟦Set <b>A1</b>⟧ now</p><svg aria-label="⟦x⟧"/>')
    assert list(bare(seen, {"A1"})) == ["now", "hover"]
