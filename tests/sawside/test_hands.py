"""Stiff fingers, a caliper that types, a foot switch, the browser's own Back: in real time."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from typing import TYPE_CHECKING, Any

import pytest
from playwright.sync_api import Error

from tests.sawside.conftest import PHONE, Phone, Program

if TYPE_CHECKING:
    from playwright.sync_api import Browser


@pytest.fixture
def phone(browser: Browser, program: Program) -> Iterator[Phone]:
    """A page whose guards run at their own times."""
    context = browser.new_context(viewport=PHONE)  # type: ignore[arg-type]  # a plain dict
    made = Phone(context.new_page(), program.url, quick=False)
    yield made
    context.close()
    assert made.faults == []


def centre(phone: Phone, selector: str) -> tuple[float, float]:
    """Where the element stands; the page may be drawing it anew at any moment."""
    for _ in range(100):
        box = phone.page.locator(selector).first.bounding_box()
        if box:
            return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
        phone.page.wait_for_timeout(20)
    raise AssertionError(f"no {selector}")


def taps(phone: Phone, selector: str, *waits: int, after: float | None = None) -> float:
    """Taps where the element stood first, that many milliseconds apart; when the last was made.

    Each says when it was made, as a finger's does: however long this machine stands still between
    two, the page hears them so far apart. The first comes that long after `after`, or after now.
    """
    x, y = centre(phone, selector)
    wire = phone.page.context.new_cdp_session(phone.page)
    made = after
    for wait in waits:
        phone.page.wait_for_timeout(wait)
        now: float = phone.page.evaluate("performance.timeOrigin + performance.now()")
        made = now if made is None else made + wait
        for kind in ("mousePressed", "mouseReleased"):
            tap = {"type": kind, "x": x, "y": y, "button": "left", "clickCount": 1}
            wire.send("Input.dispatchMouseEvent", {**tap, "timestamp": made / 1000})
    wire.detach()
    phone.settle()
    assert made is not None
    return made


def ticked(phone: Phone) -> int:
    found: int = phone.page.evaluate(
        "Object.values(stand.units).map((u) => Object.keys(u).length).reduce((a, b) => a + b, 0)"
    )
    return found


@pytest.mark.step("3")
def test_a_tap_that_bounces_counts_once_where_the_phone_stands_still(phone: Phone) -> None:
    """It is heard when the phone goes on, half a second after it was made."""
    before = ticked(phone)
    phone.page.wait_for_timeout(400)
    phone.page.evaluate(
        """() => {
            const button = document.querySelector("#foot .main");
            const tap = () => new MouseEvent("click", { bubbles: true });
            const taps = [tap(), tap()];
            button.dispatchEvent(taps[0]);
            const began = performance.now();
            while (performance.now() - began < 500);
            document.querySelector("#foot .main").dispatchEvent(taps[1]);
        }"""
    )
    phone.settle()
    assert ticked(phone) == before + 1


@pytest.mark.step("3")
def test_a_tap_that_bounces_counts_once(phone: Phone) -> None:
    """On the big button, on a piece, and where the next card's button takes the place of this."""
    before = ticked(phone)
    taps(phone, "#foot .main", 500, 150)
    assert ticked(phone) == before + 1
    assert phone.heading == "Step 3: Rip"
    # The last piece brings another card: its button, in the same place, is not meant.
    taps(phone, "#foot .main", 500, 150)
    assert ticked(phone) == before + 2
    assert phone.heading == "Before you leave this setup"
    taps(phone, "#undo", 500, 150)
    assert ticked(phone) == before + 1
    assert "Undone: #5 ticked" in phone.said
    taps(phone, ".pieces button:not(:disabled)", 500, 150)
    assert ticked(phone) == before + 2
    # Nor is a piece thrown away by one.
    taps(phone, "#undo", 500)
    phone.page.wait_for_timeout(400)
    phone.page.click("#more")
    phone.page.wait_for_timeout(400)
    phone.page.get_by_role("button", name="A piece is spoiled").click()
    last = taps(phone, ".rows .hold", 500, 150)
    assert phone.page.evaluate("stand.spoiled.length") == 0
    taps(phone, ".rows .hold", 600, after=last)
    assert phone.page.evaluate("stand.spoiled.length") == 1


@pytest.mark.step("3")
def test_power_on_is_held_or_tapped_twice(phone: Phone) -> None:
    phone.page.wait_for_timeout(400)
    phone.page.click("#undo")
    phone.settle()
    assert phone.heading == "Before power on"
    while phone.to_tick.count():
        phone.page.wait_for_timeout(400)
        phone.to_tick.first.click()
        phone.settle()
    while phone.page.locator("#foot .main:not(.hold)").count():
        phone.page.wait_for_timeout(400)
        phone.page.click("#foot .main")
        phone.settle()
    before = ticked(phone)
    last = taps(phone, "#foot .hold", 500, 150)
    assert ticked(phone) == before
    assert "now tap again" in phone.page.inner_text("#foot .hold")
    taps(phone, "#foot .hold", 600, after=last)
    assert ticked(phone) == before + 1
    phone.page.wait_for_timeout(400)
    phone.page.click("#undo")
    phone.settle()
    # A touch that is let go too soon starts nothing; a second starts it.
    phone.page.wait_for_timeout(4500)
    x, y = centre(phone, "#foot .hold")
    phone.page.mouse.move(x, y)
    phone.page.mouse.down()
    phone.page.wait_for_timeout(1200)
    phone.page.mouse.up()
    phone.settle()
    assert ticked(phone) == before + 1
    assert phone.heading.startswith("Step 3")


@pytest.mark.step("13")
def test_a_caliper_that_types(phone: Phone) -> None:
    """Figures and Enter go to the reading wherever the focus is, and to nothing else."""
    type_ = phone.page.keyboard.type
    # Thrice as long as it is: where this machine stands still between two keys, it is one number.
    phone.page.evaluate("STREAM = 3000")
    before = ticked(phone)
    type_("6.02\n")
    phone.settle()
    assert ticked(phone) == before
    assert "no reading is asked for here" in phone.said
    phone.page.wait_for_timeout(3100)
    phone.page.keyboard.press("Enter")  # the foot switch
    phone.settle()
    assert ticked(phone) == before + 1
    assert phone.asked()
    phone.page.wait_for_timeout(400)
    type_("6.02\n")
    phone.settle()
    assert ticked(phone) == before + 2
    assert "6.02 mm" in phone.said
    phone.page.wait_for_timeout(400)
    type_("51.1mm\n")
    phone.settle()
    assert ticked(phone) == before + 3
    assert phone.heading.startswith("Step 14")
    # An Enter that is held down is one.
    phone.page.wait_for_timeout(3100)
    before = ticked(phone)
    for _ in range(8):
        phone.page.keyboard.down("Enter")
    phone.page.keyboard.up("Enter")
    phone.settle()
    assert ticked(phone) == before + 1


@pytest.mark.step("4")
def test_back_and_forward_walk_through_the_cards(phone: Phone) -> None:
    shown = [phone.heading]
    for _ in range(3):
        phone.page.wait_for_timeout(400)
        phone.page.click("#foot .main")
        phone.settle()
        shown.append(phone.heading)
    assert len(set(shown)) > 1
    url = phone.page.url
    phone.page.evaluate("history.back()")
    phone.page.wait_for_timeout(100)
    last = phone.heading
    assert last in shown[:-1]
    assert phone.page.url == url
    assert phone.page.locator("#foot .main", has_text="Back").count() == 1
    phone.page.evaluate("history.forward()")
    phone.page.wait_for_timeout(100)
    assert phone.heading == shown[-1]


@pytest.mark.step("20")
def test_where_one_is(phone: Phone) -> None:
    assert phone.page.inner_text("#where").startswith("20 of 29 steps")
    assert "min setting" in phone.page.inner_text("#where")
    phone.page.wait_for_timeout(400)
    phone.page.click("#list")
    here = phone.page.locator(".rows .here")
    assert here.get_attribute("aria-current") == "step"
    box, main = here.bounding_box(), phone.page.locator("main").bounding_box()
    assert box
    assert main
    assert main["y"] <= box["y"] <= main["y"] + main["height"] - box["height"]
    assert phone.page.evaluate("document.activeElement.className") == "here"


@pytest.mark.step("7")
def test_a_request_that_hangs_is_told_and_work_goes_on(phone: Phone, program: Program) -> None:
    def hang(route: Any) -> None:
        held.append(route)

    held: list[Any] = []
    phone.page.route("**/events", hang)
    phone.page.wait_for_timeout(400)
    phone.page.click("#foot .main")
    phone.page.get_by_text("1 tap waits in this page").wait_for(timeout=3000)
    phone.page.wait_for_timeout(400)
    phone.page.click("#foot .main")
    phone.page.wait_for_timeout(400)
    phone.page.click("#foot .main")
    assert phone.page.inner_text("#foot .main") == "Tick #4"
    # What is not on its way is taken back here, what is, there.
    for waits in (2, 1):
        phone.page.wait_for_timeout(400)
        phone.page.click("#undo")
        assert phone.page.evaluate("queue.length") == waits
    phone.page.wait_for_timeout(400)
    phone.page.click("#undo")
    assert phone.page.evaluate("queue.map((event) => event.kind).join()") == "tick,undo"
    assert phone.page.inner_text("#foot .main") == "Tick #1"
    phone.page.unroute("**/events", hang)
    for route in held:
        with suppress(Error):  # given up by the page, and sent again
            route.continue_()
    phone.settle()
    assert program.stand()["now"] == phone.page.evaluate("stand.now")
    assert phone.page.inner_text("#foot .main") == "Tick #1"
    assert phone.page.is_hidden("#link")


@pytest.mark.step("3")
def test_a_second_device_sees_a_tap_at_once(
    phone: Phone, program: Program, browser: Browser
) -> None:
    """Pushed: within 0.3 s, at the best of five taps on a machine that is shared."""
    other = Phone(browser.new_page(), program.url)
    other.page.wait_for_timeout(300)
    took = []
    for _ in range(5):
        phone.page.wait_for_timeout(400)
        known = other.page.evaluate("stand.version")
        began = phone.page.evaluate("Date.now()")
        phone.page.click("#undo")
        saw = other.page.evaluate(
            "(known) => new Promise((done) => { const look = setInterval(() => {"
            " if (stand.version !== known) { clearInterval(look); done(Date.now()); } }, 5); })",
            known,
        )
        took.append(saw - began)
        phone.settle()
    assert min(took) < 300, took
    other.page.close()
    # Another program on the same file pushes to this one's pages, too.
    second = Program(program.store)
    second.start()
    known = phone.page.evaluate("stand.version")
    assert second.post({"id": "from-the-other", "kind": "undo", "of": second.stand()["undo"][0]})
    for _ in range(150):
        if phone.page.evaluate("stand.version") != known:
            break
        phone.page.wait_for_timeout(10)
    assert phone.page.evaluate("stand.version") == known + 1
    assert program.stand()["version"] == known + 1
    second.kill()


@pytest.mark.large
def test_a_whole_job_with_every_tap_doubled(phone: Phone, program: Program) -> None:
    """150 ms apart, on whatever stands there: nothing is ticked, entered or undone twice."""
    for _ in range(400):
        if not phone.page.evaluate("Boolean(current())"):
            break
        before = program.stand()["version"]
        point = phone.asked()
        phone.page.wait_for_timeout(360)
        if phone.to_tick.count():
            taps(phone, "button[data-rule]:not([disabled])", 0, 150)
        elif phone.page.locator("#field").count() and point:
            phone.page.fill("#field", point["target"])
            taps(phone, ".keys .main", 0, 150)
        elif point and point["by_fit"]:
            taps(phone, "#foot button:last-child", 0, 150)
        elif phone.page.locator("#foot .hold").count():
            taps(phone, "#foot .hold", 0, 600)
        else:
            taps(phone, "#foot .main", 0, 150)
        assert program.stand()["version"] <= before + 1, phone.heading
    assert phone.page.evaluate("current()") is None
    left = [u for c in phone.page.evaluate("cards.cards") for u in c["units"]]
    assert ticked(phone) == len(left)


@pytest.mark.large
def test_a_whole_job_by_a_keyboard_that_types(phone: Phone) -> None:
    """Figures and Enter alone, as a caliper and a foot switch send them; Tab to what is ticked."""
    phone.page.evaluate("addEventListener('pointerdown', () => { throw new Error('a click') })")
    for _ in range(400):
        if not phone.page.evaluate("Boolean(current())"):
            break
        point = phone.asked()
        phone.page.wait_for_timeout(360)
        if phone.to_tick.count():
            phone.to_tick.first.focus()
        elif phone.page.locator("#field").count() and point:
            phone.page.keyboard.type(point["target"])
        held = phone.page.locator("#foot .hold").count() and not phone.to_tick.count()
        phone.page.keyboard.press("Enter")
        if held:
            phone.page.wait_for_timeout(600)
            phone.page.keyboard.press("Enter")
        phone.settle()
    assert phone.page.evaluate("current()") is None
