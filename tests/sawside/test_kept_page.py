"""The page kept on a phone: served over https, the program killed, the page opened without it, and
all that was ticked and measured there sent once when it is back."""

from __future__ import annotations

import json
import shutil
import urllib.request
from collections.abc import Iterator
from fractions import Fraction
from hashlib import sha256
from pathlib import Path
from random import Random
from typing import TYPE_CHECKING

import pytest

from sequencer.instructions.figures import Scale
from sequencer.lengths import Unit, parse
from sequencer.sawside.engine import Planning
from sequencer.sawside.store import Store
from sequencer.wording import Room
from tests import once
from tests.sawside.conftest import PHONE, Phone, Program, ahead
from tests.sawside.driver import PANTRY, files_of
from tests.sawside.screens import seen

if TYPE_CHECKING:
    from playwright.sync_api import Browser, BrowserContext, Page


@pytest.fixture(scope="module")
def kept(
    planned: Path, certified: Path, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Program]:
    """Running over https, up to step 13."""
    store = Path(shutil.copy(planned, tmp_path_factory.mktemp("kept")))
    ahead(store, "13")
    made = Program(store)
    made.tls = True
    made.certificates.parent.mkdir(parents=True)
    shutil.copy(certified, made.certificates)
    made.start()
    yield made
    made.kill()


@pytest.fixture(scope="module")
def trusting(browser: Browser) -> Iterator[BrowserContext]:
    context = browser.new_context(viewport=PHONE)  # type: ignore[arg-type]  # a plain dict
    yield context
    context.close()


def until(page: Page, true: str) -> None:
    for _ in range(1000):
        if page.evaluate(true):
            return
        page.wait_for_timeout(20)
    raise AssertionError(f"never {true}")


def opened(page: Page) -> None:
    """Shown, with guards that let a quick hand through."""
    until(page, "Boolean(stand && cards)")
    page.evaluate("BOUNCE = -Infinity, APART = 0")


def hand(phone: Phone) -> None:
    """The next thing done as it is wanted; without the program nothing is waited for."""
    point = phone.page.evaluate(WANTED)
    if phone.to_tick.count():
        phone.to_tick.first.click()
    elif point is None:
        phone.main(settle=False)
    elif point["by_fit"]:
        phone.tap("It fits", settle=False)
    else:
        measured(phone, point["target"])


def measured(phone: Phone, text: str) -> None:
    phone.page.fill("#field", text)
    phone.page.click(".keys button.main")


def edit(program: Program) -> None:
    """Another job file, planned already."""
    other = files_of(PANTRY, lambda text: text.replace('"640"', '"650"'))
    program.job = program.store.with_name("job.toml")
    program.job.write_text(other.jobs[0][1], "utf-8")
    store = Store(program.store)
    store.put_base(other.digest, other.text)
    Planning(store, once.planned).base(other.digest)
    store.close()


WANTED = (
    "(() => { const card = current(); const unit = card.units.find((u) => status(card, u) ==="
    " 'open'); return unit && unit.p != null && panel === 'card' && document.querySelector('.ask')"
    " ? pointOf(card, unit) : null; })()"
)


def test_the_program_s_own_origin_is_https_and_no_other(kept: Program) -> None:
    origin = kept.url.rpartition("/")[0].rpartition("/")[0]
    assert origin.startswith("https://127.0.0.1:")
    for told, status in ((origin, 200), (origin.replace("https", "http"), 403), ("null", 403)):
        assert kept.post(Origin=told)[0] == status
    assert kept.get("stand", Host="example.org")[0] == 421
    for name in ("worker.js", "manifest.webmanifest", "trust.crt"):
        assert kept.get(name)[0] == 200
        asked = kept.url.replace(kept.url.split("/")[3], "0" * 32) + name
        assert kept.ask(urllib.request.Request(asked))[0] == 404
    manifest = json.loads(kept.get("manifest.webmanifest")[1])
    assert (manifest["start_url"], manifest["scope"], manifest["display"]) == (
        ".", ".", "standalone",
    )  # fmt: skip
    assert b"PRIVATE" not in kept.get("trust.crt")[1]


def test_lengths_are_read_as_the_program_reads_them(
    kept: Program, trusting: BrowserContext
) -> None:
    """What the page reads by itself, the program reads the same; what it shows is what the program
    would show."""
    page = trusting.new_page()
    page.goto(kept.url)
    chance = Random(17)
    texts = ["", ".", "6.", ".262", "0.262", "007", "1,5", "3/2", "1 1/3", "1-1/2", "0 1/2", "1/0"]
    texts += ["6 mm", "6mm", "1/4 in", "-1", "1e3"]
    texts += ["1 1/2048", "½", "1  1/2", "2/4", "  5.5 "]
    texts += [f"{chance.randrange(40)}.{chance.randrange(1000):03d}" for _ in range(60)]
    texts += [f"{chance.randrange(9)} {chance.randrange(1, 64)}/64" for _ in range(60)]
    read = page.evaluate(
        "(texts) => ['mm', 'in'].map((unit) => texts.map((text) => { const found ="
        " lengthOf(text, unit); return found && found.top + '/' + found.bottom; }))", texts
    )  # fmt: skip
    units: tuple[Unit, Unit] = ("mm", "in")
    for unit, found in zip(units, read, strict=True):
        good = [(text, each) for text, each in zip(texts, found, strict=True) if each]
        assert len(good) > 60
        for text, each in good:
            typed = text.strip()
            typed = f"0{typed}" if typed.startswith(".") else typed
            assert Fraction(each) == parse(typed, unit), (text, unit)
    cases: list[tuple[Unit, str | None, Fraction]] = []
    steps = {
        "mm": ("1/100", "1/20", "1/2", "1", None),
        "in": ("1/1000", "1/64", "1/32", None),
    }
    for unit in units:
        for step in steps[unit] * 40:
            value = Fraction(chance.randrange(1, 20000), chance.choice([64, 128, 200, 1000, 3]))
            cases.append((unit, step, value))
    seen_as = page.evaluate(
        "(cases) => cases.map(([unit, step, value]) =>"
        " asRead(written(value), step && written(step), unit))",
        [(unit, step, str(value)) for unit, step, value in cases],
    )
    room = Room("UK", Fraction(1, 64))
    for (unit, step, value), text in zip(cases, seen_as, strict=True):
        scale = Scale(unit, Fraction(1, 64), room)
        assert text == scale.read(value, Fraction(step) if step else None), (unit, step, value)
    page.close()


def test_the_page_goes_on_without_the_program(kept: Program, trusting: BrowserContext) -> None:
    phone = Phone(trusting.new_page(), kept.url)
    page = phone.page
    until(page, "isKept")
    assert page.evaluate("awake && !awake.released")
    asked = trusting.new_cdp_session(page).send("Page.getInstallabilityErrors")
    lacks = {each["errorId"] for each in asked["installabilityErrors"]}
    assert lacks <= {"in-incognito"}  # as every page of a test is
    phone.main()
    before = kept.stand()["version"]
    kept.kill()
    # Opened anew without the program: the same card, said to be what is kept.
    page.reload()
    opened(page)
    assert phone.heading.startswith("Step 13")
    assert page.inner_text("#where") == "13 of 29 steps · no program"
    assert page.is_hidden("#link")
    assert seen(page) == []
    # A reading inside its window counts, and what refers to it moves by as much.
    assert page.evaluate(WANTED)["target"] == "6.00"
    measured(phone, "6.03")
    assert "slot depth" in page.inner_text(".measure h2")
    while not phone.heading.startswith("Step 17"):
        hand(phone)
    hand(phone)
    wanted = page.evaluate(WANTED)
    assert (wanted["target"], wanted["low"], wanted["high"]) == ("5.93", "5.88", "5.98")
    assert "Moved as the slot" in page.inner_text("main")
    assert seen(page) == []
    # One outside it is not judged here: what the sheet prints of it, and no number beside.
    measured(phone, "6.05")
    told = page.inner_text("main")
    assert "6.05 is not good: that is from 5.88 to 5.98." in told
    assert "By hand, as printed:" in told
    assert "its answer comes" in told
    assert phone.heading.startswith("Step 17")
    assert seen(page) == []
    phone.main(settle=False)
    measured(phone, "5.97")
    page.evaluate("Date.now = () => 1")  # the phone's clock is set back
    while not phone.heading.startswith("Step 18"):
        hand(phone)
    at, waiting = phone.heading, page.evaluate("queue.map((event) => event.id)")
    assert len(waiting) > 20
    # Thrown out of memory, and opened once more: nothing of it is gone.
    page.reload()
    opened(page)
    assert (phone.heading, page.evaluate("queue.map((event) => event.id)")) == (at, waiting)
    # The whole plan is there, with every drawing.
    assert page.evaluate(
        "Promise.all(cards.cards.filter((card) => card.drawing).map((card) =>"
        " fetch(drawingOf(card)).then((got) => got.ok, () => false)))"
        ".then((all) => all.length > 20 && all.every(Boolean))"
    )
    # The program is back, with a job that was edited meanwhile: all of it is on disk, once, in its
    # order; what the edit would change is shown, left aside, and nothing is changed by it.
    edit(kept)
    kept.start()
    phone.settle()
    page.get_by_role("heading", name="The job was changed").wait_for(timeout=8000)
    told = page.inner_text("main")
    assert "ticks hold" in told
    assert "528 mm" in told
    assert seen(page) == []
    phone.tap("Leave them, go on as before")
    assert "toward the blade" not in phone.told  # nor is a correction told that was made already
    assert (phone.heading, page.evaluate("online && !stand.kept")) == (at, True)
    store = Store(kept.store)
    events = store.events()[0][before:]
    store.close()
    assert [event.id for event in events[:-1]] == waiting
    assert events[-1].body["kind"] == "decline"
    stands = kept.stand()
    assert stands["offered"] is None
    tried = [each for of in stands["readings"].values() for each in of.values() if each["before"]]
    assert [(each["verdict"], each["value"], each["before"]) for each in tried] == [
        ("good", "5.97", ["6.05"])
    ]
    assert phone.faults == []
    page.close()
    # What the terminal shows of the certificate is what the phone loads.
    loaded = sha256(kept.get("trust.crt")[1]).hexdigest()
    told = kept.stop()
    assert loaded in told.replace(":", "").lower()
    assert f"{kept.url}trust.crt" in told
