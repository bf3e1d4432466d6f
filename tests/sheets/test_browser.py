"""The sheets in a browser: printed they have WeasyPrint's pages, on a screen anybody reads them."""

from __future__ import annotations

import io
import re
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pypdfium2  # type: ignore[import-untyped]  # it ships no types
import pytest

from sequencer.sheets import html, pdf
from tests.reader.jobs import EXAMPLES, planned
from tests.sawside.conftest import CHROMIUM, FLAGS
from tests.sheets.jobs import page_of, plan_of
from tests.sheets.test_full_size import by_chromium

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Playwright

FOOT = 20
"""Points under which WeasyPrint writes the job's name, which a browser does not."""


def letters(document: bytes) -> list[Counter[str]]:
    """How often each letter stands on each page, above the foot: readers of PDF do not agree on
    the order in which words come."""
    found = []
    for page in pypdfium2.PdfDocument(io.BytesIO(document)):
        wide, high = page.get_size()
        text = page.get_textpage().get_text_bounded(0, FOOT, wide, high)
        found.append(Counter(re.sub(r"\s", "", text)))
    return found


def alike(page: str, folder: Path) -> None:
    """As many pages, those above the saw and at work letter by letter. What stands before them
    flows on from page to page, and may do so a row sooner or later."""
    ours, theirs = letters(pdf(page)), letters(by_chromium(page, folder))
    assert len(ours) == len(theirs)
    first = page[: page.index('class="pinned"')].count('class="work"')
    assert first == 0
    at_saw = page.count('class="pinned"') + page.count('class="work"')
    assert ours[-at_saw:] == theirs[-at_saw:]
    flowing = [sum(pages[:-at_saw], Counter()) for pages in (ours, theirs)]
    lost = (flowing[0] - flowing[1]) + (flowing[1] - flowing[0])
    assert sum(lost.values()) < 250, lost  # heads of tables that go on are repeated


@pytest.mark.skipif(CHROMIUM is None, reason="needs chromium: apt-get install chromium")
def test_a_browser_prints_the_same_pages(tmp_path: Path) -> None:
    alike(page_of("single", "a4"), tmp_path)


@pytest.mark.large
@pytest.mark.skipif(CHROMIUM is None, reason="needs chromium: apt-get install chromium")
@pytest.mark.parametrize("name", EXAMPLES)
def test_a_browser_prints_the_same_pages_of_every_example(name: str, tmp_path: Path) -> None:
    alike(html(planned(name)[0]), tmp_path)


@pytest.fixture(scope="module")
def opened(driver: Playwright) -> Iterator[Browser]:
    if CHROMIUM is None:
        pytest.skip("needs chromium: apt-get install chromium")
    made = driver.chromium.launch(executable_path=CHROMIUM, args=list(FLAGS))
    yield made
    made.close()


RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]


@pytest.mark.parametrize(
    ("wide", "scheme"),
    [
        (320, "dark"),
        (1280, "light"),
        pytest.param(768, "dark", marks=pytest.mark.large),
    ],
)
def test_anybody_reads_the_sheets_on_a_screen(
    opened: Browser, tmp_path: Path, wide: int, scheme: str
) -> None:
    """axe finds nothing (contrast by WCAG 2 AA among its rules), and nothing scrolls sideways."""
    from axe_playwright_python.sync_playwright import (  # type: ignore[import-untyped]
        Axe,  # it ships no types
    )

    source = tmp_path / "plan.html"
    source.write_text(page_of("single", "a4"), encoding="utf-8")
    page = opened.new_page(
        viewport={"width": wide, "height": 800},
        color_scheme="dark" if scheme == "dark" else "light",
    )
    page.goto(source.as_uri())
    found = Axe().run(page, options={"runOnly": RULES}).response["violations"]
    assert [each["id"] for each in found] == []
    assert page.evaluate("document.documentElement.scrollWidth") <= wide
    page.close()


_APART = """() => [...document.querySelectorAll(".large .pin")].every((pin) => {
  const told = pin.querySelector(".told").getBoundingClientRect();
  return [...pin.querySelectorAll(".big, .picture")].every(
    (each) => each.getBoundingClientRect().bottom <= told.top + 1);
})"""


@pytest.mark.parametrize("wide", [320, 390])
def test_large_rows_above_the_saw_are_read_on_a_phone(
    opened: Browser, tmp_path: Path, wide: int
) -> None:
    """Their words stand below the figures there, and nothing scrolls sideways."""
    source = tmp_path / "plan.html"
    source.write_text(html(plan_of("single"), evenings=2), encoding="utf-8")
    page = opened.new_page(viewport={"width": wide, "height": 800})
    page.goto(source.as_uri())
    assert page.locator(".large .pin").count() > 3
    assert page.evaluate(_APART)
    assert page.evaluate("document.documentElement.scrollWidth") <= wide
    page.close()
