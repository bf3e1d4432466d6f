"""Paper and page tell of the same dangers before the cut, and of all that the rules found.

What was found is asked of the rules anew, pass by pass; what is told is read off the sheet and off
the cards as a person gets them, by the hazard's own words and by the rule that each stands for.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cache
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest
from hypothesis import Phase, given, settings

from sequencer import safety
from sequencer.errors import InputError, Refusal
from sequencer.job.load import load_job
from sequencer.job.schema import Job, Shop
from sequencer.job.shop import default_shop, load_shop
from sequencer.job.validate import against_shop, check
from sequencer.methods import Choices
from sequencer.pipeline import plan as make_plan
from sequencer.plan import Caution, Plan, Setup
from sequencer.safety.moments import moments
from sequencer.safety.review import PREDICATES
from sequencer.safety.rules import WORDS, limits, load
from sequencer.sawside import view
from sequencer.sawside.cards import cards_of
from sequencer.sawside.state import Base, State
from sequencer.setups.given import Given
from sequencer.sheets import html
from sequencer.wording import Room, for_plan, papers
from sequencer.wording.cautions import parts
from tests import once
from tests.proof import plans
from tests.sawside.driver import dado_files
from tests.strategies import jobs_and_shops

ROOT = Path(__file__).resolve().parent.parent
EXAMPLES = sorted(path.parent for path in (ROOT / "examples").glob("*/job.toml"))
VOID = {"meta", "link", "br", "img", "input", "hr", "col"}
CUTS = ("work", "test")

Told = dict[str, str]
"""Words by rule; of a rule that is told twice, both."""


@dataclass
class Before:
    """What is told before a setup cuts: its hazards, and what is to be ticked."""

    cautions: Told = field(default_factory=lambda: defaultdict(str))
    ticks: Told = field(default_factory=lambda: defaultdict(str))


# ---------------------------------------------------------------- what the rules find
@dataclass
class Found:
    cautions: dict[int, dict[str, list[str]]]
    ticks: dict[int, dict[str, list[str]]]
    standing: dict[str, list[str]]
    bench: dict[int, dict[str, list[str]]] = field(default_factory=dict)
    """By the number of the bench step."""
    signs: dict[int, list[str]] = field(default_factory=dict)
    """What the signs beside a setup's heading stand for."""
    briefs: dict[int, dict[str, list[str]]] = field(default_factory=dict)
    written: dict[int, dict[str, list[str]]] = field(default_factory=dict)
    """What is to be ticked on paper."""
    words: dict[int, dict[str, list[str]]] = field(default_factory=dict)
    """The one line and the signal word of each."""


def found(plan: Plan, shop: Shop) -> Found:
    """Rules by setup with each hazard's words, each box to tick, and what always holds."""
    review = safety.review(plan, shop)
    room = for_plan(plan)
    asked = Found({}, {s.number: {} for s in plan.setups}, {})
    for each in review.standing:
        asked.standing.setdefault(each.rule, []).append(_full(each, room))
    # Told before, word for word but for lengths: what the paper may say in one line.
    told = {_way(each, room) for each in review.standing}
    for number in (setup.number for setup in plan.setups):
        rules = asked.cautions.setdefault(number, {})
        for each in review.cautions[number]:
            brief = parts(room, each).brief
            assert brief, each
            words = brief if _way(each, room) in told else _full(each, room)
            rules.setdefault(each.rule, []).append(words)
            asked.briefs.setdefault(number, {}).setdefault(each.rule, []).append(brief)
            asked.words.setdefault(number, {}).setdefault(each.rule, []).append(each.word)
        told |= {_way(each, room) for each in review.cautions[number]}
    for step in (step for step in plan.steps if step.setup is None):
        for each in review.at_bench.get(step.kind, ()):
            way = _way(each, room)
            said = parts(room, each).brief if way in told else _full(each, room)
            asked.bench.setdefault(step.number, {}).setdefault(each.rule, []).append(said)
            told.add(way)
    asked.signs = {setup.number: _signs(setup, shop) for setup in plan.setups}
    for flag in review.warnings:
        for number in flag.setups:
            asked.ticks[number].setdefault(flag.rule, []).append(room.say(flag.tick))
            # What covers the blade is asked in full once, then only written down again.
            again = flag.tick.id == "caution.tick-cover" and number != min(flag.setups)
            told_so = room.text(papers.COVERED_BY) if again else room.say(flag.tick)
            asked.written.setdefault(number, {}).setdefault(flag.rule, []).append(told_so)
    _nothing_is_lost_on_the_way(plan, shop, asked)
    return asked


GUARDS = {
    "fitted": "guard and riving knife on",
    "knife": "guard off, riving knife low",
    "cover": "guard and riving knife off",
}


def _signs(setup: Setup, shop: Shop) -> list[str]:
    guard = GUARDS[setup.guard]
    if setup.guard != "fitted" and shop.saw.cover:
        guard = f"{guard}; over the blade instead: {shop.saw.cover}"
    return [guard] if setup.carrier == "rip-fence" else [guard, "Stop first."]


def _full(caution: Caution, room: Room) -> str:
    said = parts(room, caution)
    return f"{said.hazard} {said.consequence} {said.avoidance}"


def _way(caution: Caution, room: Room) -> tuple[str, str]:
    """The signal word and the words without their figures."""
    said = re.sub(r"[\d /.]+(mm|″)( \([\d.]+″\))?", " # ", _full(caution, room))
    return caution.word, said


def _nothing_is_lost_on_the_way(plan: Plan, shop: Shop, asked: Found) -> None:
    """The predicates themselves, pass by pass, against what the stage made of them. Rules that ask
    for the very same share one box."""
    figures = limits(plan.unit, shop.limits)
    rules = load().by_id
    met: dict[int, set[str]] = {}
    to_tick: dict[int, set[str]] = {s.number: set() for s in plan.setups}
    for moment in moments(plan, shop):
        for predicate in PREDICATES.values():
            one = predicate(moment, figures)
            if one is None:
                continue
            met.setdefault(moment.setup.number, set()).add(one.rule)
            if one.level == "warn":
                to_tick[moment.setup.number].add(rules[one.rule].case(one.case).tick)
    assert {n: set(told) for n, told in asked.cautions.items()} == met
    ticks: dict[int, set[str]] = {s.number: set() for s in plan.setups}
    for flag in safety.review(plan, shop).warnings:
        for number in flag.setups:
            ticks[number].add(flag.tick.id.removeprefix("caution.tick-"))
    assert ticks == to_tick


# ---------------------------------------------------------------- what the paper tells
class Sheet(HTMLParser):
    """Reads the sheets as far as they tell of danger; a setup's up to its first step."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.standing: Told = defaultdict(str)
        self.setups: dict[int, Before] = {}
        self.text: dict[int, str] = defaultdict(str)
        """All words of a setup before its first step."""
        self.bench: dict[int, Told] = defaultdict(lambda: defaultdict(str))
        """Hazards of bench steps, by the step's number."""
        self.signs: dict[int, list[str]] = defaultdict(list)
        self.counted = 0
        """Words of caution: those of the first page's list and of every box."""
        self.front = self.all = ""
        self._open: list[tuple[str, dict[str, str]]] = []
        self.words: dict[int, dict[str, set[str]]] = defaultdict(lambda: defaultdict(set))
        """The signal words that lead a rule's lines in a setup's box."""
        self._word = ""
        self._setup: int | None = None
        self._bench: int | None = None
        self._begun = False
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag in VOID:
            return
        given = {name: value or "" for name, value in attrs}
        if tag == "article":
            kind, _, number = given.get("id", "").partition("-")
            self._setup = int(number) if kind == "setup" else None
            self._bench = int(number) if kind == "step" else None
            self._begun = False
            if self._setup is not None:
                self.setups[self._setup] = Before()
        if given.get("class") in ("step", "chips", "check"):
            self._begun = True
        if given.get("class") == "sign" and given.get("aria-label") and self._setup is not None:
            self.signs[self._setup].append(given["aria-label"])
        self._open.append((tag, given))

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Nothing stands in it."""

    def handle_endtag(self, tag: str) -> None:
        while self._open and self._open.pop()[0] != tag:
            pass

    def handle_data(self, data: str) -> None:
        words = re.sub(r"\s+", " ", data.replace("⚠", ""))  # a sign, and no word
        self.all += words
        if words.strip() in WORDS:
            self._word = words.strip()
        rule = next((g["data-rule"] for _, g in reversed(self._open) if "data-rule" in g), None)
        classes = {g.get("class", "") for _, g in self._open}
        if classes & {"caution", "standing"}:
            self.counted += len(words.split())
        if self._bench is not None and rule is not None and not self._begun:
            self.bench[self._bench][rule] += words
        if not self.setups and self._bench is None:
            self.front += words
            if rule is not None and "standing" in classes:
                self.standing[rule] += words
        elif self._setup is not None and not self._begun:
            self.text[self._setup] += words
            if rule is not None:
                told = self.setups[self._setup]
                (told.ticks if "turns" in classes else told.cautions)[rule] += words
                if "caution" in classes:
                    self.words[self._setup][rule].add(self._word)


# ---------------------------------------------------------------- what the page tells
def page_of(plan: Plan, job: Job, shop: Shop) -> list[tuple[int | None, dict[str, Any]]]:
    """The cards as the page gets them, each with its setup."""
    state = State(Base("", Given((job,), shop), plan, Choices()), plan, list(cards_of(plan)))
    faces = view.cards(state)["cards"]
    return [
        (card.setup.number if card.setup else None, face)
        for card, face in zip(state.cards, faces, strict=True)
    ]


def words_of(value: Any) -> str:
    if isinstance(value, dict):
        return " ".join(map(words_of, value.values()))
    if isinstance(value, list | tuple):
        return " ".join(map(words_of, value))
    return value if isinstance(value, str) else ""


def told_by(face: dict[str, Any]) -> Before:
    told = Before()
    for each in face.get("cautions", ()):
        rest = f" {each['consequence']} {each['avoidance']}" if "avoidance" in each else ""
        told.cautions[each["rule"]] += f" {each['word']} {each['hazard']}{rest}"
    for unit in face["units"]:
        if "rule" in unit:
            told.ticks[unit["rule"]] += f" {unit['tick']}"
    return told


# ---------------------------------------------------------------- the comparison
def same(told: Told, wanted: dict[str, list[str]], where: str) -> None:
    assert set(told) == set(wanted), where
    for rule, words in wanted.items():
        for each in words:
            assert each in told[rule], (where, rule)


def compare(plan: Plan, job: Job, shop: Shop) -> None:
    asked = found(plan, shop)
    sheet = Sheet(html(plan))
    page = page_of(plan, job, shop)
    # First by the words alone, whatever says which rule they are for.
    lost = [*_lost_on_paper(asked, sheet), *_lost_on_the_page(asked, page)]
    assert not lost, f"{len(lost)} lost: {lost}"
    # Then exactly.
    same(sheet.standing, asked.standing, "paper")
    assert page[0][1]["kind"] == "standing"
    same(told_by(page[0][1]).cautions, asked.standing, "page")
    assert set(sheet.bench) == set(asked.bench)
    for step, rules in asked.bench.items():
        same(sheet.bench[step], rules, f"paper, step {step}")
    assert sheet.signs == asked.signs
    bench = {}
    for place, (number, face) in enumerate(page):
        assert [each["words"] for each in face["signs"]] == (
            asked.signs[number] if number and face["kind"] in (*CUTS, "set", "guard") else []
        ), f"page, card {place}"
        if face["kind"] == "bench" and face["cautions"]:
            bench[int(re.findall(r"\d+", face["n"])[0])] = told_by(face).cautions
    assert set(bench) == set(asked.bench)
    for step, rules in asked.bench.items():
        same(bench[step], rules, f"page, step {step}")
    for setup, told in sheet.setups.items():
        same(told.cautions, asked.cautions[setup], f"paper, setup {setup}")
        same(told.ticks, asked.written.get(setup, {}), f"paper, setup {setup}")
        wanted = {rule: set(words) for rule, words in asked.words[setup].items()}
        assert sheet.words[setup] == wanted, f"paper, setup {setup}"
    ticked: dict[int, list[dict[str, Any]]] = {}
    for place, (number, face) in enumerate(page):
        if number is None:
            continue
        if face["kind"] == "power":
            same(told_by(face).ticks, asked.ticks[number], f"page, setup {number}")
            ticked.setdefault(number, []).append(face)
        if face["kind"] in (*CUTS, "set", "guard"):
            first = not any(n == number for n, _ in page[:place])
            told_so = (asked.cautions if first else asked.briefs)[number]
            same(told_by(face).cautions, told_so, f"page, card {place}")
            for each in face["cautions"]:
                assert each["word"] in asked.words[number][each["rule"]]
        if face["kind"] in CUTS:
            # What holds it back until it is ticked.
            assert face["after"] == [each["k"] for each in ticked[number]]


def _lost_on_paper(asked: Found, sheet: Sheet) -> Iterator[str]:
    for rule, words in asked.standing.items():
        if not all(each in sheet.front for each in words):
            yield f"paper: standing {rule}"
    for number, rules in asked.cautions.items():
        for rule, words in rules.items():
            if not all(each in sheet.text[number] for each in words):
                yield f"paper, setup {number}: {rule}"
        for rule, words in asked.written.get(number, {}).items():
            if not all(each in sheet.text[number] for each in words):
                yield f"paper, setup {number}: tick {rule}"


def _lost_on_the_page(asked: Found, page: list[tuple[int | None, dict[str, Any]]]) -> Iterator[str]:
    before = defaultdict[int | None, str](str)
    for number, face in page:
        card = words_of(face)
        before[number] += card
        if face["kind"] not in CUTS or number is None:
            continue
        for rule, words in asked.standing.items():
            if not all(each in before[None] for each in words):
                yield f"page: standing {rule}"
        for rule, words in asked.cautions[number].items():
            if not all(each in before[number] for each in words):
                yield f"page, setup {number}, {face['n']}: {rule}"
            if not all(each in card for each in asked.briefs[number][rule]):
                yield f"page, setup {number}, {face['n']}: {rule} in one line"
        for rule, words in asked.ticks[number].items():
            if not all(each in before[number] for each in words):
                yield f"page, setup {number}, {face['n']}: tick {rule}"


@cache
def example(folder: Path) -> tuple[Plan, Job, Shop]:
    job = load_job((folder / "job.toml").read_text("utf-8"), "job.toml")
    shop = folder / "shop.toml"
    at_hand = (
        load_shop(shop.read_text("utf-8"), "shop.toml", job.unit) if shop.is_file()
        else default_shop(job.unit)
    )  # fmt: skip
    return once.planned([job], at_hand), job, at_hand


@pytest.mark.parametrize("folder", EXAMPLES, ids=lambda folder: folder.name)
def test_paper_and_page_of_an_example_tell_all_that_was_found(folder: Path) -> None:
    compare(*example(folder))


def test_what_is_told_is_short_enough_to_be_read() -> None:
    """A list that is always the same is not read the eleventh time. Ours: half of the 10,568 words
    that the ten examples had when every box told all of its hazards in full."""
    assert sum(Sheet(html(example(folder)[0])).counted for folder in EXAMPLES) <= 10_568 / 2


def test_a_dado_set_is_warned_of_wherever_it_is_used() -> None:
    """No riving knife fits it (manual of a US table saw, on dado sets): none is told of."""
    files = dado_files()
    job = load_job(files.jobs[0][1], "job.toml")
    assert files.shop is not None
    shop = load_shop(files.shop[1], "shop.toml", job.unit)
    plan = make_plan([job], shop)
    sheet = Sheet(html(plan))
    dado = [setup for setup in plan.setups if setup.cutter == "dado set"]
    assert dado
    for setup in dado:
        assert sheet.setups[setup.number].cautions["D04"]
        assert sheet.signs[setup.number][0] == "guard and riving knife off"
        assert "knife low" not in sheet.text[setup.number]
    assert not any("D04" in sheet.setups[s.number].cautions for s in plan.setups if s not in dado)
    compare(plan, job, shop)


def test_paper_and_page_of_random_jobs_tell_all_that_was_found(large: bool) -> None:
    compared = 0

    @settings(max_examples=500 if large else 5, phases=[Phase.explicit, Phase.generate])
    @given(jobs_and_shops())
    def go(asked: tuple[Job, Shop]) -> None:
        nonlocal compared
        job, shop = asked
        if any(check(door, job.unit) for door in job.doors) or list(against_shop(job, shop)):
            return
        try:
            plan = plans.make_plan([job], shop)
        except (InputError, Refusal):
            return
        compare(plan, job, shop)
        compared += 1

    go()
    assert compared >= 2
