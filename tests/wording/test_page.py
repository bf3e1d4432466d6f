"""The page: whatever it gets is said by the wording room, and it holds no words of its own.

Its documents are said in a made-up dialect in which every text of the catalogues stands in
brackets; outside them stand the user's own words, marks, numbers and units alone.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

import sequencer.sawside
from sequencer.facts import Dialect, Words, cards
from sequencer.sawside import view
from sequencer.sawside.app import page
from sequencer.sawside.changed import changed_lines
from sequencer.sawside.comparing import compared
from sequencer.sawside.engine import Outcome
from sequencer.wording import Room
from sequencer.wording.pages import WORDS, words
from sequencer.wording.room import BUILT_IN
from tests.sawside.driver import ROOT, Saw, exact, files_of
from tests.wording.wrapped import Wrapped, baked_in

STATIC = Path(sequencer.sawside.__file__).parent / "static"
SCRIPTS = sorted(STATIC.glob("*.js"))
NEVER_SHOWN = {
    "k", "kind", "u", "of", "rule", "word", "after", "rev", "now", "jobs", "unit", "mark", "card",
    "what", "verdict", "units", "drawing", "digest",
}  # fmt: skip
"""Keys whose values the script compares or sends back, and shows nowhere."""


def room_of(saw: Saw) -> Room:
    shop = saw.state.plan.shop
    return Room(shop.words, shop.graduation, Wrapped())


def shown(found: Any, key: str = "") -> Iterator[str]:
    if isinstance(found, dict):
        for name, each in found.items():
            if name not in NEVER_SHOWN:
                yield from shown(each, name)
    elif isinstance(found, list | tuple):
        for each in found:
            yield from shown(each, key)
    elif isinstance(found, str):
        yield found


def bare(saw: Saw, *more: str) -> list[str]:
    """What of the page's documents, and of `more` texts, no catalogue gave."""
    room = room_of(saw)
    texts = [*shown(view.cards(saw.state, room)), *shown(view.stand(saw.state, room)), *more]
    # An undo is sent back by its tap's id.
    cutters = {setup.cutter for setup in saw.state.plan.setups}
    woods = {stick.material for stick in saw.state.plan.sticks}
    own = {
        "mm",
        "in",
        saw.state.plan.shop.hold_down,
        *woods,
        *(tap for tap, _ in saw.state.taps),
    } - BUILT_IN | cutters  # a kerf is sent back by its cutter's name
    return [f"{word}: {text}" for text in texts for word in baked_in(text, own)]


def said(saw: Saw, outcome: Outcome) -> str:
    return view.all_said(outcome.says, room_of(saw))


@pytest.mark.parametrize("example", ["pantry", "dresser", "wall-cabinet"])
def test_every_card_is_said(example: str, tmp_path: Path) -> None:
    saw = Saw(tmp_path / "a.sqlite", files_of(ROOT / "examples" / example))
    assert bare(saw) == []
    assert len(view.cards(saw.state)["cards"]) > 20


def test_answers_and_refusals_are_said(tmp_path: Path) -> None:
    """Good, adjusted, questioned, by feel, refused; at the bench, noted and taken as it is."""
    saw = Saw(tmp_path / "a.sqlite")
    told: dict[str, str] = {}

    def hear(name: str, **body: Any) -> None:
        told[name] = said(saw, saw.send(card=saw.card.key, unit=saw.unit.name, **body))

    saw.tick()
    saw.tick()
    hear("thinnest", kind="read", text="20.00")
    hear("uneven", kind="read", text="20.2")
    saw.go_to_measure("channel-width/slot")
    hear("ticked instead", kind="tick")
    hear("wrong unit", kind="read", text="0.24")
    hear("too far", kind="read", text="9.9")
    hear("no length", kind="read", text="6,1")
    hear("no number", kind="read", text=None)
    hear("adjust", kind="read", text="6.3")
    hear("tight", kind="read", feel="tight")
    hear("loose", kind="read", feel="loose")
    assert bare(saw, *told.values()) == []
    hear("good", kind="read", text="6.13")
    hear("depth by feel", kind="read", feel="fits")
    hear("the rest follows", kind="read", text=saw.wanted())
    hear("skipped", kind="skip")
    told["undone"] = said(saw, saw.send(kind="undo", of=saw.state.taps[-1][0]))
    told["spoiled"] = said(saw, saw.send(kind="spoil", mark="A3"))
    told["twice"] = said(saw, saw.send(kind="spoil", mark="A3"))
    told["no part"] = said(saw, saw.send(kind="spoil", mark="Z9"))
    cutter = saw.state.plan.setups[0].cutter
    told["kerf"] = said(saw, saw.send(kind="measure", what="kerf", name=cutter, text="3.1"))
    told["kerf, far off"] = said(saw, saw.send(kind="measure", what="kerf", name=cutter, text="9"))
    assert bare(saw, *told.values()) == []
    saw.go_to_measure("opening-width")
    hear("noted", kind="read", text=exact(saw.card.points[0].target + 2, saw.state))
    saw.restart(files_of(ROOT / "examples" / "pantry", lambda text: f"{text}\n# later\n"))
    told["changed"] = view.all_said(saw.state.says, room_of(saw))
    assert bare(saw, *told.values()) == []
    assert all(told.values()), told


def test_a_baked_in_text_is_found() -> None:
    """In a place of a text that is translated, too, and in words that paper has too."""
    room = Room("UK", None, Wrapped())
    at = cards.AT_END(verb=Words("Slot"), end="A")
    off = cards.FROM_STRIP(strip="box", how=Words(""))
    told = view.in_words({"title": at, "how": [Words("hover"), off]}, room)
    assert [word for each in shown(told) for word in baked_in(each, ())] == ["Slot", "Hover", "box"]


@pytest.mark.parametrize(("dialect", "tag"), [("US", "en-US"), ("UK", "en-GB")])
def test_the_page_declares_its_language_and_brings_its_words(dialect: Dialect, tag: str) -> None:
    text = page(Room(dialect))
    assert f'<html lang="{tag}">' in text
    found = re.search(r'<script type="application/json" id="words">(.*?)</script>', text, re.DOTALL)
    assert found
    assert json.loads(found[1]) == words(Room(dialect))


def test_the_page_holds_no_words() -> None:
    text = page(Room("UK", None, Wrapped()))
    text = re.sub(r"<script.*?</script>", "", text, flags=re.DOTALL)
    labels = re.findall(r'aria-label="([^"]*)"', text)
    stand = [*labels, *re.sub(r"<[^>]*>", " ", text).split("\n")]
    assert [word for each in stand for word in baked_in(each, ())] == []
    assert len(labels) == 1


def test_what_an_edit_changes_and_what_is_printed_of_changes_is_said(tmp_path: Path) -> None:
    saw = Saw(tmp_path / "a.sqlite")
    saw.go_to_measure("channel-width/slot")
    saw.keep("6.27")
    saw.step()
    printed = changed_lines(saw.state, "http://saw.example/", room_of(saw))
    texts = re.sub(r"(?s)<svg.*?</svg>|<[^>]*>", "\n", printed).split("\n")
    texts = [text for text in texts if not set(text.split(", ")) <= set(saw.state.plan.jobs)]
    assert sum("⟦" in text for text in texts) > 10
    assert bare(saw, *(text.replace(": Pantry", "") for text in texts)) == []
    other = files_of(ROOT / "examples" / "pantry", lambda text: text.replace('"640"', '"650"'))
    saw.restart(other, take=False)
    after = saw.engine.changed()
    assert after is not None
    found = compared(saw.state, after, other.digest, room_of(saw))
    assert found["lost"]
    assert found["changes"]
    assert bare(saw, *shown(found)) == []


# ------------------------------------------------------------------ the script
TECHNICAL = {
    # HTML and SVG: elements, attributes, roles and their values.
    "button", "div", "p", "b", "h1", "h2", "ol", "ul", "li", "dl", "dt", "dd", "span", "section",
    "table", "thead", "tbody", "tr", "th", "td", "row", "col", "tabindex",
    "img", "input", "svg", "path", "aria-hidden", "true", "d", "fill-rule",
    "evenodd", "M10 1 19.5 18.5H.5ZM9 7v6h2V7Zm0 7.5v2h2v-2Z",
    "0 0 24 24", "aria-label", "aria-pressed", "aria-expanded", "aria-current",
    "data-rule", "text", "none", "off", "group", "step", "H1", "BUTTON", "40",
    "ask", "goal step", "under", "#list, #more, .keys button", "--beside",
    # What is asked of the browser.
    "use strict", "click", "keydown", "Enter", "online", "offline", "visibilitychange", "message",
    "contextmenu", "pointerdown", "pointerup", "pointerleave", "pointercancel", "resize",
    "popstate", "pushState", "replaceState",
    "_blank", "noopener", "changed", "print", "hashchange",
    "beforeinstallprompt", "error", "edited",
    "end", "POST", "Content-Type", "application/json", "no-store", "cards", "stand", "events",
    "live", "?known=", "drawing/", ".svg?", "taps ", "http://www.w3.org/2000/svg",
    # What a phone keeps, and what runs there beside the page.
    "https:", "serviceWorker", "caches", "worker.js", "plan ", "kept/", "kept/stand", "2-digit",
    "page ", "EDITION", "PARTS", "GET", "install", "activate", "fetch", "icon.svg",
    # The documents' own: kinds of cards, units and taps, how they stand.
    "standing", "set", "power", "work", "test", "leave", "bench", "remake", "done",
    "skipped", "spoiled", "waits", "open", "tick", "skip", "read", "adopt", "high", "low",
    "measure",
    "spoil", "undo",
    "tight", "loose", "fits", "adjust", "NOTICE", "on", "main_",
    # Panels, and what tells one view from another.
    "card", "list", "news", "weighed", "screen", "spoil ", " looked at", "m ", "why", "words",
    # Units as they are typed.
    "mm", "in",
}  # fmt: skip


def literals(source: str) -> list[str]:
    """Every string of a script, with those that stand inside template strings."""
    source = re.sub(r"(?m)(^|\s)//.*$|/\*.*?\*/", "", source)
    return [a or b or c for a, b, c in re.findall(
        r'"((?:[^"\\\n]|\\.)*)"|\'((?:[^\'\\\n]|\\.)*)\'|`((?:[^`\\]|\\.)*)`', source
    )]  # fmt: skip


def words_in(script: str) -> set[str]:
    """Strings that are no key of the words, no class or id of the page and nothing technical."""
    named = set(re.findall(r"[.#]([a-z][\w-]*)", (STATIC / "page.css").read_text("utf-8")))
    named |= set(re.findall(r'id="(\w+)"', (STATIC / "page.html").read_text("utf-8")))
    script = re.sub(r'(querySelector(All)?|closest)\("[^"]*"\)', "", script)
    return {
        each
        for each in literals(script)
        if re.search(r"[^\W\d_]{2,}", each)
        and each not in WORDS
        and each not in TECHNICAL
        and not set(each.split()) <= named
    }


def test_the_script_holds_no_words() -> None:
    script = "\n".join(path.read_text("utf-8") for path in SCRIPTS)
    assert words_in(script) == set()
    assert "`" not in script
    baked = 'say("Go on: taps wait."); make("p", {}, "wanted ", x); title = \'Undo\';'
    assert words_in(script + baked) == {"Go on: taps wait.", "wanted ", "Undo"}


def test_every_word_is_asked_for() -> None:
    text = "".join(path.read_text("utf-8") for path in (*SCRIPTS, STATIC / "page.html"))
    unused = [
        key for key in WORDS
        if not key.startswith("main_") and f'"{key}"' not in text and f"{{{key}}}" not in text
    ]  # fmt: skip
    assert unused == []
    asked = set(re.findall(r'\b(?:t|parted)\("(\w+)"', text))
    assert asked <= set(WORDS)


def test_what_is_said_on_the_page() -> None:
    assert WORDS["main_power"] == "All checked: switch on"
    assert WORDS["really"].format(text="0.26") == "Yes, it measures 0.26"
