"""What is shown is words: no id of a fact, a term or an operation, no `None`, no doubled stop, no
“1/4 in toward”, and a capital behind each full stop. On the sheets, in the table and on the page's
cards; and in every text of the catalogues, before its places are filled."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from sequencer import sheets
from sequencer.instructions.bench import bench_lines
from sequencer.instructions.figures import Scale
from sequencer.job.load import load_job
from sequencer.job.shop import default_shop
from sequencer.sawside import view
from sequencer.sheets.tables import parts_csv
from sequencer.wording import Room, for_plan
from sequencer.wording.room import BUILT_IN
from sequencer.wording.terms import TERMS
from tests.sawside.driver import ROOT, Saw, files_of
from tests.wording import catalogues
from tests.wording.kinds import every_kind
from tests.wording.test_page import shown
from tests.wording.test_paper import Seen, made
from tests.wording.wrapped import Wrapped

FAULTS = {
    "an operation's id": r"(?<![\w“\"/])(?:[A-Z]+\d+|[a-z]+-[a-z-]+)/[a-z]+[a-z-]*",
    "an empty value": r"\bNone\b|\bTrue\b|\bFalse\b|Fraction\(",
    "a place left open": r"[{}]",
    "a doubled stop": r"(?<!\.)\.\.(?!\.)|[.;,:] ?[.;,](?=\s|$)|;;",
    "an inch that reads as the word": r"\d in (?:toward|away|in|from|to|its|up|down|deep|wide)\b",
    "no capital behind a full stop": r"[a-z″)]\. [a-z]",
}
"""By what is wrong; each is looked for in one stretch of text."""


@cache
def ids() -> re.Pattern[str]:
    """Ids of facts and terms that are no words of their own."""
    terms = {name for name, said in TERMS.items() if re.search(r"[.-]", name) and said != name}
    names = terms | {kind.id for kind in every_kind()}
    listed = "|".join(re.escape(name) for name in sorted(names, key=len, reverse=True))
    return re.compile(rf"(?<![\w.-])(?:{listed})(?![\w.-])")


def faults(text: str) -> Iterator[str]:
    for name, pattern in (*FAULTS.items(), ("an id", ids().pattern)):
        for found in re.finditer(pattern, text):
            yield f"{name}: {found[0]}: {text[max(0, found.start() - 40) : found.end() + 40]}"


class Stretches(Seen):
    """The text of a page node by node."""

    def __init__(self, page: str) -> None:
        self.nodes: list[str] = []
        super().__init__(page)

    def handle_data(self, data: str) -> None:
        if not self._within and data.strip():
            self.nodes.append(re.sub(r"\s+", " ", data).strip())


@pytest.mark.parametrize(
    "wrong",
    [
        "card.test-piece", "the lock-stile", "channel-width/slot", "A1/cheek", "target None",
        "closes it..", "is cut.; then", "fence 1/4 in toward the blade", "Saw it. then plane",
        "from {end}",
    ],
)  # fmt: skip
def test_faults_are_seen(wrong: str) -> None:
    assert list(faults(wrong))


@pytest.mark.parametrize(
    "right",
    [
        "fence 1/4″ toward the blade. Then #7/1, short no. 2: 3/4 (0.751)", "half-lap", "One …",
        "a stile 22 1/2 in. Or 571.5 mm.", "no glue: leave [groove] depth out",
    ],
)  # fmt: skip
def test_what_reads_right_is_none(right: str) -> None:
    assert list(faults(right)) == []


@pytest.mark.parametrize(
    "name",
    ["mitred", "barred", "matched", "broom-cupboard", "key-cupboard", "pantry", "wall-cabinet"],
)
def test_sheets_show_words(name: str) -> None:
    plan = made(name)
    seen = Stretches(sheets.html(plan))
    assert len(seen.nodes) > 100
    table = parts_csv(plan).replace(",", "\n").splitlines()
    assert not [fault for text in (*seen.nodes, *seen.told, *table) for fault in faults(text)]


@pytest.mark.parametrize("example", ["pantry", "wall-cabinet"])
def test_cards_show_words(example: str, tmp_path: Path) -> None:
    saw = Saw(tmp_path / "a.sqlite", files_of(ROOT / "examples" / example))
    room = for_plan(saw.state.plan)
    texts = [*shown(view.cards(saw.state, room)), *shown(view.stand(saw.state, room))]
    own = {tap for tap, _ in saw.state.taps}
    assert not [fault for text in texts if text not in own for fault in faults(text)]


def test_texts_of_the_catalogues_read_right() -> None:
    """Places aside: what an id, an open brace or a lower case before `:cap` is, only a filled text
    can tell."""
    unfit = ("a place left open", "no capital behind a full stop")
    found = []
    for message in catalogues.read("US"):
        for forms in (message.id, message.string):
            for text in map(str, forms if isinstance(forms, tuple | list) else (forms,)):
                bare = re.sub(r"\{[^}]*\}|%\([^)]*\)s", "X", text)
                found += [each for each in faults(bare) if not each.startswith(unfit)]
    assert not found


def test_a_bench_step_says_the_same_on_page_and_paper(tmp_path: Path) -> None:
    """What to leave beside a panel at glue-up, and a measure that has a most alone."""
    saw = Saw(tmp_path / "a.sqlite", files_of(ROOT / "examples" / "pantry"))
    plan = saw.state.plan
    room = for_plan(plan)
    cards = {card["title"]: card for card in view.cards(saw.state, room)["cards"]}
    glued = next(card for title, card in cards.items() if "Glue the corners" in title)
    (step,) = (step for step in plan.steps if step.kind == "glue-up")
    _, lines = bench_lines(plan, step, Scale(plan.unit, plan.shop.graduation, room))
    assert tuple(glued["how"]) == lines
    assert any(line.startswith("Leave ") for line in lines)
    dry = next(card for title, card in cards.items() if "together dry" in title)
    most = {point["name"]: point["at_most"] for point in dry["points"]}
    assert {name for name, alone in most.items() if alone} == {"difference of the diagonals"}


def test_what_stands_in_for_the_users_words_is_translated() -> None:
    """The built-in shop and a job that names no wood: each text that a default gives is marked, and
    nothing else is."""
    shop = default_shop("in")
    opening = 'opening = { width = "16", height = "22" }'
    job = load_job(f'unit = "in"\nstock.thickness = "3/4"\n[[door]]\n{opening}\n', "job")
    given = {shop.name, shop.saw.hold_down, *(cutter.name for cutter in shop.cutters)}
    assert given | {job.doors[0].species} == BUILT_IN
    assert Room("UK", translation=Wrapped()).own("hardwood") == "⟦hardwood⟧"
    assert Room("UK", translation=Wrapped()).own("Ash") == "Ash"
