"""The page at the saw: how soon it stands, how soon a tap is safe, how much is sent.

    python -m tests.benchmarks.sawside [DOORS]

Prints figures and their ratios to what is wanted: the first view within 1 s of the command with 40
doors, a tap on disk and answered within 50 ms at the median on the loopback, and under 100 kB for
page, cards and what is done together, as a browser gets them: compressed. Where Chromium is there,
also the page in it, at its own speed and with its processor slowed fourfold: the first load within
2 s, a tap drawn and answered, a second device within 0.3 s.
"""

from __future__ import annotations

import http.client
import json
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from statistics import median
from typing import Any

from sequencer.sawside.app import ASSETS

ROOT = Path(__file__).resolve().parent.parent.parent
HEIGHTS = ("14", "16", "20", "24")
WIDTHS = ("11", "13", "15", "17", "19")
TAPS = 60


def job(doors: int) -> str:
    """Doors of four heights and five widths."""
    made = ['unit = "in"', "[stock]", 'thickness = "3/4"']
    for n in range(doors):
        height, width = HEIGHTS[n % 4], WIDTHS[n % 5]
        made += ["[[door]]", "[door.opening]", f'width = "{width}"', f'height = "{height}"']
    return "\n".join(made) + "\n"


class Page:
    def __init__(self, url: str) -> None:
        self.url = url
        _, _, host, self.path = url.split("/", 3)
        self.path = f"/{self.path}"
        self.connection = http.client.HTTPConnection(host, timeout=60)

    def ask(
        self, name: str = "", events: list[dict[str, Any]] | None = None, *, packed: bool = False
    ) -> tuple[int, bytes]:
        """With `packed`, the body as it goes to a browser, compressed."""
        headers = {"Content-Type": "application/json"} if events else {}
        if packed:
            headers["Accept-Encoding"] = "gzip"
        body = json.dumps({"events": events}).encode() if events else None
        self.connection.request("POST" if events else "GET", self.path + name, body, headers)
        answer = self.connection.getresponse()
        return answer.status, answer.read()


def follow(folder: Path) -> tuple[subprocess.Popen[str], Page, float, float, float]:
    """The program, its page, and the seconds to the address, to the page and to the first card."""
    begun = time.perf_counter()
    command = [sys.executable, "-m", "sequencer", "follow", str(folder / "job.toml")]
    command += ["--followed", str(folder / "followed.sqlite"), "--port", "0"]
    program = subprocess.Popen(command, stdout=subprocess.PIPE, text=True, cwd=ROOT)
    assert program.stdout is not None
    page = Page(program.stdout.readline().strip())
    address = time.perf_counter() - begun
    page.ask()
    view = time.perf_counter() - begun
    while page.ask("cards")[0] != 200:
        time.sleep(0.02)
    return program, page, address, view, time.perf_counter() - begun


def taps(page: Page) -> list[float]:
    """Seconds of each of the first ticks, milling's readings among them."""
    took: list[float] = []
    cards = json.loads(page.ask("cards")[1])["cards"]
    for card in cards:
        for unit in card["units"]:
            event = {"id": f"benchmark-{len(took)}", "card": card["k"], "unit": unit["u"]}
            if "p" in unit:
                event |= {"kind": "read", "text": card["points"][unit["p"]]["target"]}
            else:
                event |= {"kind": "tick"}
            begun = time.perf_counter()
            page.ask("events", [event])
            took.append(time.perf_counter() - begun)
            if len(took) == TAPS:
                return took
    return took


STANDS = """new Promise((done) => { const look = setInterval(() => {
  if (stand && cards && document.querySelector('main .card')) { clearInterval(look); done(); }
}, 5); })"""
TAPPED = """new Promise((done) => {
  const began = performance.now(), card = current();
  const unit = card.units.find((u) => status(card, u) === 'open');
  const at = { card: card.k, unit: unit.u };
  const text = unit.p == null ? '' : card.points[unit.p].target;
  tap(text ? { kind: 'read', text, ...at } : { kind: 'tick', ...at });
  const drawn = performance.now() - began;
  const look = setInterval(() => {
    if (queue.length || sending) return;
    clearInterval(look);
    done([drawn, performance.now() - began]);
  }, 1); })"""
TOLD = """(known) => new Promise((done) => { const look = setInterval(() => {
  if (stand.version !== known) { clearInterval(look); done(Date.now()); }
}, 2); })"""
SLOWED = 4
FIRST, SECOND = 2.0, 0.3
"""Seconds wanted until the first card stands, and until a second device shows a tap."""


def in_a_browser(url: str) -> None:
    """Prints how soon a page stands, and how soon it and another show a tap."""
    chromium = shutil.which("chromium")
    if chromium is None:
        print("no chromium: nothing measured in a browser")
        return
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=chromium, args=["--no-sandbox"])
        for slowed in (1, SLOWED):
            loads: list[float] = []
            for _ in range(5):
                context = browser.new_context(viewport={"width": 390, "height": 844})
                page = context.new_page()
                context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate",
                                                   {"rate": slowed})  # fmt: skip
                began = time.perf_counter()
                page.goto(url)
                page.evaluate(STANDS)
                loads.append(time.perf_counter() - began)
                if len(loads) < 5:
                    context.close()
            other = browser.new_context().new_page()
            other.goto(url)
            other.evaluate(STANDS)
            drawn, answered, second = [], [], []
            for _ in range(15):
                known = other.evaluate("stand.version")
                began_at = page.evaluate("Date.now()")
                at, all_ = page.evaluate(TAPPED)
                drawn.append(at)
                answered.append(all_)
                second.append((other.evaluate(TOLD, known) - began_at) / 1000)
            speed = "at its own speed" if slowed == 1 else f"slowed {slowed} times"
            load, push = median(loads), median(second)
            print(f"browser {speed}: first card {load:.2f} s ({load / FIRST:.2f} of {FIRST} s); "
                  f"a tap drawn in {median(drawn):.0f} ms, on disk and answered in "
                  f"{median(answered):.0f} ms; a second device shows it in {push:.2f} s "
                  f"({push / SECOND:.2f} of {SECOND} s)")  # fmt: skip
        browser.close()


def main(doors: int) -> None:
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        (folder / "job.toml").write_text(job(doors), "utf-8")
        program, page, _, view, card = follow(folder)
        print(f"{doors} doors, planned for the first time: page {view:.2f} s ({view:.2f} of 1 s), "
              f"first card {card:.2f} s")  # fmt: skip
        program.kill()
        program.wait()
        program, page, _, view, card = follow(folder)
        print(f"{doors} doors, planned before: page {view:.2f} s ({view:.2f} of 1 s), "
              f"first card {card:.2f} s")  # fmt: skip
        found = median(taps(page))
        print(f"a tap on disk and answered: {1000 * found:.1f} ms at the median "
              f"({found / 0.05:.2f} of 50 ms)")  # fmt: skip
        assets = ("", *ASSETS)
        parts = {"page": assets, "cards": ("cards",), "what is done": ("stand",)}
        for packed, how in ((True, "sent to a browser"), (False, "the same not compressed")):
            sizes = {
                name: sum(len(page.ask(path, packed=packed)[1]) for path in paths)
                for name, paths in parts.items()
            }
            total = sum(sizes.values())
            each = ", ".join(f"{name} {size / 1000:.1f} kB" for name, size in sizes.items())
            print(f"{how}: {each}: {total / 1000:.1f} kB ({total / 100_000:.2f} of 100 kB)")
        in_a_browser(page.url)
        program.kill()
        program.wait()


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 40)
