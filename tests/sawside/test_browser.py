"""The page in a real browser, as on a small phone; reflow at 320 px is 1.4.10 of WCAG 2.2."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
import segno

from tests.sawside.conftest import Phone, Program
from tests.sawside.driver import PANTRY
from tests.sawside.screens import axe, seen

if TYPE_CHECKING:
    from playwright.sync_api import Browser


def test_a_whole_job(phone: Phone) -> None:
    """Every screen of it, from milling to hanging: big enough, none cut off, none scrolls."""
    kinds: set[str] = set()
    visited = 0
    while phone.page.evaluate("current()"):
        kind = phone.page.evaluate("current().kind") + (" reading" if phone.asked() else "")
        assert seen(phone.page) == [], phone.heading
        if kind not in kinds:
            assert axe(phone.page) == [], phone.heading
            kinds.add(kind)
        phone.step()
        visited += 1
    assert kinds == {
        "standing", "bench", "bench reading", "guard", "set", "power", "work", "work reading",
        "test", "test reading", "leave",
    }  # fmt: skip
    assert visited > 100


def test_text_twice_as_large_does_not_scroll_sideways(phone: Phone) -> None:
    phone.page.set_viewport_size({"width": 320, "height": 640})
    phone.page.evaluate("document.documentElement.style.fontSize = '32px'; draw()")
    for heading in ("Step 1", "Setup 1", "Before power", "Step 3", "Step 6"):
        phone.go(heading)
        assert phone.page.evaluate("document.documentElement.scrollWidth") <= 320


@pytest.mark.step("3")
@pytest.mark.parametrize(
    "panel", ["List", "More", "Measure kerf or panel", "A piece is spoiled", "Show the drawing"]
)
def test_the_other_panels(phone: Phone, panel: str) -> None:
    if panel in ("List", "More"):
        phone.tap(panel)
    else:
        phone.more(panel)
    if panel.startswith("Measure"):
        phone.page.get_by_role("button", name="Enter what was measured").first.click()
    assert seen(phone.page) == []
    assert axe(phone.page) == []
    phone.page.click("#foot button.main")
    assert phone.heading.startswith("Step")


@pytest.mark.step("13")
def test_a_test_cut_corrected_twice(phone: Phone, program: Program) -> None:
    """6 mm is the target, cut from both sides: each move is half of what the slot is off by. At
    last it is kept as it came out, and the rest planned to suit."""
    phone.main()
    phone.read("6.4")
    assert "move the fence 0.20 mm away from the blade" in phone.page.inner_text(".answer")
    assert "That was try 1" in phone.said
    assert seen(phone.page) == []
    phone.main()
    phone.read("5.7")
    assert "move the fence 0.15 mm toward the blade" in phone.page.inner_text(".answer")
    assert "try 2" in phone.said
    phone.main()
    phone.read("6.25")
    assert "try 3" in phone.said
    keep = "Keep it at 6.25 and plan the rest to suit"
    # What it would change stands there before and after, and may be declined.
    phone.tap(keep)
    rows = phone.page.locator("main tbody tr")
    rows.first.wait_for()
    assert rows.count() > 2
    assert any("47 mm" in row and "46.88 mm" in row for row in rows.all_inner_texts())
    assert seen(phone.page) == []
    assert axe(phone.page) == []
    version = phone.page.evaluate("stand.version")
    phone.tap("Leave the plan, correct the saw")
    assert phone.page.evaluate("stand.version") == version
    phone.tap(keep)
    rows.first.wait_for()
    phone.tap("Take these")
    assert "6.25 mm stays as it is" in phone.said
    assert "slot depth" in phone.page.inner_text(".measure h2")
    phone.step()
    assert "no longer hold: setups 9, 10 and steps 15, 16, 17, 18" in phone.told
    phone.go("Step 14")
    phone.go("Setup 8a")
    phone.tap("List")
    assert "Step 14a" in phone.page.inner_text("main") or "step 14a" in phone.page.inner_text(
        "main"
    )
    assert "no longer hold" in phone.page.inner_text("main")
    # The changed lines alone, to be printed; the code of each opens the page there.
    with phone.page.context.expect_page() as opened:
        phone.tap("Print the changed lines")
    sheet = opened.value
    sheet.wait_for_load_state()
    lines = sheet.inner_text("main")
    assert "setups 9, 10 and steps 15, 16, 17, 18. Strike them out" in lines
    assert "Setup 9, now setup 8a" in lines
    assert sheet.locator(".new").first.inner_text() == "47 mm (46.88 mm)"
    assert axe(sheet) == []
    key = phone.page.evaluate("cards.cards.find((card) => card.n === 'step 14c').k")
    codes = sheet.locator(".code svg")
    wanted = segno.make(f"{program.url}#{key}", error="m", micro=False)
    shown = codes.locator("path").evaluate_all("(all) => all.map((p) => p.getAttribute('d'))")
    assert sheet.evaluate("document.documentElement.scrollWidth") <= 360
    drawn = wanted.svg_inline(omitsize=True, border=2)
    assert [path in drawn for path in shown].count(True) == 1
    sheet.emulate_media(media="print")
    assert sheet.locator("button").is_hidden()
    sheet.goto(f"{program.url}#{key}")
    sheet.get_by_role("heading", name="Step 14c").wait_for(timeout=8000)
    assert "#" not in sheet.url
    sheet.evaluate("location.hash = '0123456789ab'")
    sheet.get_by_text("What this code was printed for has changed since").wait_for(timeout=8000)


@pytest.mark.step("17")
def test_too_tight_and_it_fits(phone: Phone) -> None:
    phone.main()
    phone.tap("Too tight")
    assert "a sheet of paper" in phone.page.inner_text(".answer")
    assert "move the fence 0.05 mm toward the blade" in phone.page.inner_text(".answer")
    phone.main()
    phone.tap("It fits")
    assert phone.heading == "Step 18: Cut the cheeks"


@pytest.mark.step("6")
def test_a_slip_of_the_unit_is_questioned(phone: Phone) -> None:
    phone.main()
    phone.read("0.24")
    assert "looks like inches" in phone.page.inner_text(".answer")
    phone.main()
    assert phone.page.input_value("#field") == "0.24"
    phone.page.fill("#field", "61/254 in")
    phone.page.press("#field", "Enter")
    phone.settle()
    assert "rule is divided in parts of 1/254" in phone.page.inner_text(".answer")


@pytest.mark.step("3")
def test_undo_and_undo_again(phone: Phone) -> None:
    phone.tap("Tick #1")
    assert phone.page.get_by_role("button", name="Tick #5").is_visible()
    phone.page.click("#undo")
    phone.settle()
    assert "Undone: #1 ticked" in phone.said
    assert phone.page.get_by_role("button", name="Tick #1").is_visible()
    phone.page.click("#undo")
    phone.settle()
    assert phone.heading == "Before power on"


@pytest.mark.step("7")
def test_a_reload_and_a_restart_come_back_to_the_same_step(phone: Phone, program: Program) -> None:
    phone.tap("Tick #1")
    phone.page.reload()
    phone.settle()
    assert phone.heading == "Step 7: Groove"
    assert phone.page.get_by_role("button", name="Tick #2").is_visible()
    program.kill()
    program.start()
    phone.page.reload()
    phone.settle()
    assert phone.page.get_by_role("button", name="Tick #2").is_visible()


@pytest.mark.step("3")
def test_two_pages_see_the_same(phone: Phone, program: Program, browser: Browser) -> None:
    context = browser.new_context(viewport={"width": 768, "height": 1024})
    other = Phone(context.new_page(), program.url)
    phone.tap("Tick #1")
    other.page.get_by_role("button", name="Tick #5").wait_for(timeout=5000)
    assert other.heading == "Step 3: Rip"
    other.tap("Tick #5")
    phone.page.get_by_role("heading", name="Before you leave this setup").wait_for(timeout=5000)
    # The same piece ticked on both at once counts once, and neither hears of a fault.
    phone.go("Step 4")
    other.page.get_by_role("button", name="Tick #2").wait_for(timeout=5000)
    phone.tap("Tick #2", settle=False)
    other.page.evaluate("tap({kind: 'tick', card: stand.now, unit: '#2'})")
    phone.settle()
    other.settle()
    assert "ticked already" in phone.said + other.said
    assert other.faults == []
    context.close()


@pytest.mark.step("7")
def test_ticks_without_a_connection_are_sent_once(phone: Phone, program: Program) -> None:
    program.kill()
    for mark in ("#1", "#2", "#3"):
        phone.tap(f"Tick {mark}", settle=False)
    phone.page.get_by_text("3 taps wait in this page").wait_for(timeout=8000)
    assert phone.page.get_by_role("button", name="Tick #4").is_visible()
    assert seen(phone.page) == []
    program.start()
    phone.settle()
    ticked = next(u for u in program.stand()["units"].values() if "#3" in u and "A3" not in u)
    assert phone.page.evaluate("stand.units[current().k]") == {
        "#1": "done", "#2": "done", "#3": "done",
    }  # fmt: skip
    assert ticked
    assert phone.page.is_hidden("#link")
    program.kill()
    program.start()
    assert phone.page.evaluate("queue.length") == 0


@pytest.mark.step("7")
def test_taps_that_wait_survive_the_page(phone: Phone, program: Program) -> None:
    """Written to the page's own storage, so that a page that is thrown out of memory keeps them."""
    phone.page.route("**/events", lambda route: route.abort())
    phone.tap("Tick #1", settle=False)
    phone.page.get_by_text("1 tap waits in this page").wait_for(timeout=8000)
    phone.page.unroute("**/events")
    phone.page.reload()
    phone.settle()
    assert phone.page.get_by_role("button", name="Tick #2").is_visible()
    assert program.stand()["undo"][1] == "#1 ticked"


@pytest.mark.step("7")
def test_an_answer_that_gets_lost_counts_once(phone: Phone, program: Program) -> None:
    """The tap arrives, its answer does not: the page sends it again, with the same id."""
    before = program.stand()["version"]
    lost: list[int] = []

    def lose(route: Any) -> None:
        if lost:
            route.continue_()
        else:
            lost.append(route.fetch().status)
            route.abort()

    phone.page.route("**/events", lose)
    phone.tap("Tick #1", settle=False)
    phone.settle()
    assert lost == [200]
    assert program.stand()["version"] == before + 1
    assert phone.page.get_by_role("button", name="Tick #2").is_visible()


@pytest.fixture
def keys(phone: Phone) -> Phone:
    """The page with every click forbidden."""
    phone.page.evaluate("addEventListener('pointerdown', () => { throw new Error('a click') })")
    return phone


def test_with_the_keyboard_alone(keys: Phone) -> None:
    """Tab and Enter from milling to the first groove, a reading typed in between; Enter twice where
    the button is held."""
    page = keys.page
    for _ in range(60):
        if keys.heading.startswith("Step 7"):
            break
        point = keys.asked()
        held = page.locator("#foot .hold").count()
        wanted = "field" if point else "tick" if keys.to_tick.count() else "main"
        for _ in range(40):
            page.keyboard.press("Tab")
            at = page.evaluate(
                "(({id, classList, dataset}) => dataset.rule ? 'tick' : id || classList[0])"
                "(document.activeElement)"
            )
            if at == wanted:
                break
        assert at == wanted, keys.heading
        ring = page.evaluate("getComputedStyle(document.activeElement).outlineWidth")
        assert ring == "5px"
        if point:
            page.keyboard.type(point["target"])
        page.keyboard.press("Enter")
        if held:
            page.keyboard.press("Enter")
        keys.settle()
    assert keys.heading == "Step 7: Groove"


def test_focus_goes_to_the_heading_of_each_card(phone: Phone) -> None:
    phone.go("Setup 1")
    assert phone.page.evaluate("document.activeElement.tagName") == "H1"
    phone.main()
    assert phone.page.evaluate("document.activeElement.tagName") == "H1"
    assert phone.page.get_attribute("#said", "role") == "status"


def test_a_hazard_stands_before_what_it_is_about(phone: Phone) -> None:
    phone.go("Setup 1")
    boxes = phone.page.locator(".caution")
    caution = boxes.last.bounding_box()
    moves = phone.page.locator("main ol").bounding_box()
    done = phone.page.locator("#foot button.main").bounding_box()
    assert caution
    assert moves
    assert done
    assert caution["y"] < moves["y"] < done["y"]
    assert phone.page.locator(".caution .word svg").count() == boxes.count()


def test_no_cut_is_shown_before_its_setup_is_ticked(phone: Phone, program: Program) -> None:
    """Nor its numbers, its drawing or its pieces; the hazards are."""
    cards = program.cards()["cards"]
    cut = next(card for card in cards if card["kind"] in ("work", "test") and card["after"])
    ticked = next(card for card in cards if card["k"] == cut["after"][0])
    shown = ".far, .near, .fig, .pieces, .step, button"
    phone.page.evaluate(f"looking = '{cut['k']}'; draw()")
    assert cut["heading"] in phone.heading
    assert phone.page.locator(f"main :is({shown})").count() == 0
    assert phone.page.locator("main .caution").count()
    assert seen(phone.page) == []
    # Up to the last tick of that setup it stays so; then the cut is shown.
    phone.page.evaluate("looking = null; draw()")
    phone.go(str(ticked["heading"]))
    phone.page.evaluate(f"looking = '{cut['k']}'; draw()")
    assert phone.page.locator(f"main :is({shown})").count() == 0
    phone.page.evaluate("looking = null; draw()")
    phone.go(str(cut["heading"]))
    assert phone.page.locator("main .near").count() == 1


def test_signs_say_what_covers_the_blade(phone: Phone) -> None:
    phone.go("Setup 1")
    signs = phone.page.locator("#signs .sign")
    assert [signs.nth(n).get_attribute("aria-label") for n in range(signs.count())] == [
        "guard and riving knife on"
    ]
    assert phone.page.locator(".caution .sign path").count() >= 1
    box = signs.first.bounding_box()
    assert box
    assert box["width"] >= 28


@pytest.mark.step("13")
def test_a_spoiled_test_piece_comes_again_at_once(phone: Phone) -> None:
    phone.main()
    phone.more("A piece is spoiled")
    here = phone.page.locator("h2:has-text('At this step') + .rows button .held")
    assert here.all_inner_texts() == ["#1a, test piece"]
    assert seen(phone.page) == []
    here.first.click()
    assert axe(phone.page) == []
    here.first.click()
    phone.settle()
    assert phone.heading == "Make #1a again"
    assert "make it again now, the next step needs it" in phone.said
    assert "Then set the saw back as it stood" in phone.page.inner_text("main")
    assert seen(phone.page) == []
    assert axe(phone.page) == []
    phone.main()
    assert phone.heading.startswith("Step 13")


@pytest.mark.step("13")
def test_what_was_passed_over_can_be_made_up_for(phone: Phone) -> None:
    """The measuring skipped, then entered from the list once the work has gone on."""
    phone.main()
    phone.more("Skip measuring slot width")
    phone.more("Skip measuring slot depth")
    assert phone.heading.startswith("Step 14")
    phone.tap("List")
    phone.tap("step 13: Test cut on #1a, something left out")
    assert "Something was left out here." in phone.page.inner_text("main")
    phone.tap("Measure slot width", settle=False)
    phone.page.fill("#field", "6.02")
    phone.page.press("#field", "Enter")
    phone.settle()
    assert "slot width: 6.02" in phone.page.inner_text("main")
    assert seen(phone.page) == []


@pytest.mark.step("28")
def test_bench_work_that_was_passed_over_is_ticked_later(phone: Phone) -> None:
    """What waited for it is open by then, too."""
    phone.more("Skip A")
    while not phone.heading.startswith("The end"):
        phone.step()
    assert "left out: it waits for another piece" in phone.page.inner_text("main")
    for step in ("step 28", "step 29"):
        phone.tap("List")
        phone.page.locator(".rows button", has_text=step).click()
        leaf = phone.page.locator(".pieces button").first
        assert leaf.is_enabled()
        leaf.click()
        phone.settle()
        assert leaf.inner_text().endswith("✓ done")


@pytest.mark.step("6")
def test_an_answer_stands_once(phone: Phone) -> None:
    """In the card, and above it only for those who listen."""
    phone.main()
    phone.read(".24")
    words = phone.page.inner_text(".answer")
    assert "looks like inches" in words
    assert phone.said == words
    box = phone.page.locator("#said").bounding_box()
    assert box is None or box["height"] < 3
    phone.main()
    phone.page.fill("#field", "")
    phone.page.click(".keys button.main")
    box = phone.page.locator("#said").bounding_box()
    assert box is not None
    assert box["height"] > 20


@pytest.mark.step("12")
def test_a_spoiled_piece_comes_again(phone: Phone) -> None:
    phone.tap("Tick A3")
    phone.spoil("A3")
    assert "A3 is spoiled: it is made again before setup 8" in phone.said
    phone.go("Make A3 again")
    assert "spoiled at step 12" in phone.page.inner_text("main")
    assert seen(phone.page) == []
    phone.main()
    assert phone.heading.startswith("Setup 8")


@pytest.mark.large
@pytest.mark.step("12")
def test_an_edited_job_is_shown_before_it_counts(
    phone: Phone, program: Program, tmp_path: Path
) -> None:
    """What holds, what is lost and what changes on one screen; left aside it changes nothing, and
    can be taken from the list."""
    program.kill()
    text = (PANTRY / "job.toml").read_text("utf-8")
    program.job = tmp_path / "job.toml"
    program.job.write_text(text.replace('"640"', '"650"'), "utf-8")
    program.start()
    heading, before = phone.heading, program.stand()
    phone.page.get_by_role("heading", name="The job was changed").wait_for(timeout=8000)
    told = phone.page.inner_text("main")
    assert "ticks hold" in told
    assert "Step 4: #2, #3" in told
    assert "530.5 mm" in told
    assert seen(phone.page) == []
    assert axe(phone.page) == []
    phone.tap("Leave them, go on as before")
    assert phone.heading == heading
    assert program.stand()["units"] == before["units"]
    assert program.stand()["offered"] is None
    phone.page.reload()
    phone.settle()
    assert phone.heading == heading
    phone.tap("List")
    phone.tap("The job was changed: look at what that changes")
    phone.page.get_by_role("button", name="Take the changes").wait_for()
    phone.main()
    assert not program.stand()["edited"]
    assert "look at #2, #3" in phone.told
    assert phone.heading.startswith("Step 4")


def test_the_drawing_is_shown_and_named(phone: Phone) -> None:
    phone.go("Setup 1")
    phone.more("Show the drawing")
    drawing = phone.page.locator("img.drawing")
    drawing.wait_for()
    for _ in range(100):
        if phone.page.evaluate("document.querySelector('img.drawing').naturalWidth"):
            break
        phone.page.wait_for_timeout(20)
    assert phone.page.evaluate("document.querySelector('img.drawing').naturalWidth") > 100
    assert "fence 70 mm" in (drawing.get_attribute("alt") or "")


def test_nothing_is_asked_of_anywhere_else(phone: Phone, program: Program) -> None:
    asked: list[str] = []
    phone.page.on("request", lambda request: asked.append(request.url))
    phone.page.reload()
    phone.settle()
    phone.go("Step 3")
    assert asked
    assert all(url.startswith(program.url) for url in asked)
