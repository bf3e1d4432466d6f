"""Every card of the examples on one screen, at five sizes, without a finger: the page gets its
documents from here, and is shown each card as if all before it were done."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

import sequencer.sawside
from sequencer.sawside import view
from sequencer.sawside.app import ASSETS, page
from sequencer.wording import Room
from tests.sawside.driver import ROOT, Saw, files_of
from tests.sawside.screens import SCAN, axe

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page, Route

STATIC = Path(sequencer.sawside.__file__).parent / "static"
EXAMPLES = sorted(path.parent.name for path in (ROOT / "examples").glob("*/job.toml"))
ORDINARY = ("key-cupboard", "wall-cabinet")
SIZES = {
    "small phone": (360, 640),
    "phone": (390, 844),
    "phone on its side": (844, 390),
    "tablet": (820, 1180),
    "desk": (1280, 800),
}
PICTURE = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 600 300"><path d="M0 0h9v9z"/></svg>'
)

WALK = f"""(() => {{
  const scan = {SCAN};
  const faults = [], counted = [];
  const text = (e) => e.textContent.replace(/\\s+/g, ' ');
  for (const [place, card] of cards.cards.entries()) {{
    const before = Object.fromEntries(cards.cards.slice(0, place).map((c) =>
      [c.k, Object.fromEntries(c.units.map((u) => [u.u, 'done']))]));
    // Nothing done on it, and everything up to each reading.
    const upTo = [0, ...card.units.flatMap((u, n) => u.p != null ? [n] : [])];
    for (const done of upTo) {{
      const units = Object.fromEntries(card.units.slice(0, done).map((u) => [u.u, 'done']));
      stand = {{ ...stand, now: card.k, units: {{ ...before, [card.k]: units }} }};
      looking = null; panel = 'card'; screens.clear();
      draw();
      let shown = '', last = '', count = 0;
      for (;;) {{
        count += 1;
        faults.push(...scan().map((fault) => `${{card.heading}}, screen ${{count}}: ${{fault}}`));
        last = text($('main'));
        shown += last;
        const on = document.querySelector('#foot .main');
        if (on && on.textContent === WORDS.tick_these)
          for (const unit of card.units) if (unit.rule) units[unit.u] = 'done';
        if (on && on.textContent === WORDS.tick_these) {{ draw(); }}
        const go = document.querySelector('#foot .main');
        if (!go || go.textContent !== WORDS.go_on_card || count > 12) break;
        acted = -Infinity;
        go.click();
      }}
      counted.push([card.kind, count, card.heading]);
      if (card.units[done] && card.units[done].p != null) continue;  // measured, not cut
      for (const c of card.cautions) for (const said of [c.hazard, c.consequence, c.avoidance]) {{
        if (said && !shown.includes(said)) faults.push(`${{card.heading}}: “${{said}}” is missing`);
        if (said && !c.avoidance && ['work', 'test'].includes(card.kind) && !last.includes(said))
          faults.push(`${{card.heading}}: “${{said}}” stands apart from the cut`);
      }}
    }}
  }}
  return [faults, counted];
}})()"""


@pytest.fixture(scope="module")
def shown(browser: Browser) -> Iterator[Page]:
    context = browser.new_context()
    yield context.new_page()
    context.close()


def serve(at: Page, example: str, folder: Path) -> None:
    """Open the page on a job of which nothing is done."""
    saw = Saw(folder / "a.sqlite", files_of(ROOT / "examples" / example))
    documents: dict[str, Any] = {
        "cards": {**view.cards(saw.state), "version": 1},
        "stand": {**view.stand(saw.state), "version": 1},
    }
    saw.store.close()

    def answer(route: Route) -> None:
        name = route.request.url.split("/page/", 1)[-1].partition("?")[0]
        if name in documents:
            route.fulfill(body=json.dumps(documents[name]), content_type="application/json")
        elif name in ASSETS:
            file, kind = ASSETS[name]
            route.fulfill(body=(STATIC / file).read_bytes(), content_type=kind)
        elif name.startswith("drawing/"):
            route.fulfill(body=PICTURE, content_type="image/svg+xml")
        elif name:
            route.fulfill(status=204)
        else:
            room = Room(saw.state.plan.shop.words)
            route.fulfill(body=page(room), content_type="text/html; charset=utf-8")

    at.unroute_all()
    at.route("**/*", answer)
    at.goto("http://saw.example/page/")
    for _ in range(200):
        if at.evaluate("Boolean(stand && cards)"):
            return
        at.wait_for_timeout(10)
    raise AssertionError("no cards")


@pytest.mark.parametrize("example", EXAMPLES)
def test_no_card_scrolls(example: str, shown: Page, tmp_path: Path, large: bool) -> None:
    if not large and example not in ORDINARY:
        pytest.skip("with --large")
    serve(shown, example, tmp_path)
    for size, (width, height) in SIZES.items():
        shown.set_viewport_size({"width": width, "height": height})
        faults, counted = shown.evaluate(WALK)
        assert faults == [], (size, faults[:5])
        # What always holds is read once and takes what it takes; of the rest a small phone may
        # need a second screen, and nothing else does but for a card or two of the longest.
        rest = [(count, heading) for kind, count, heading in counted if kind != "standing"]
        longer = [each for each in rest if each[0] > (2 if height < 700 else 1)]
        assert len(longer) <= len(rest) // 50, (size, longer)
        assert sum(count > 1 for count, _ in rest) <= len(rest) // 12, size
        if large or example == ORDINARY[1]:
            for kind in {kind for kind, *_ in counted} if large else ("set", "work"):
                shown.evaluate(
                    "(kind) => { const c = cards.cards.find((c) => c.kind === kind);"
                    " stand = {...stand, now: c.k, units: Object.fromEntries(c.after.map((k) => [k,"
                    " Object.fromEntries(find(k).units.map((u) => [u.u, 'done']))]))};"
                    " screens.clear(); draw(); }", kind,
                )  # fmt: skip
                assert axe(shown) == [], (size, kind)
