"""What a screen of the page is held to: sizes of text and targets, gaps, nothing cut off.

Legibility by ISO 9241-3 (16 arcmin is the floor, 22 easy) worked out for a phone in the hand
(40 cm) and for a tablet or a desk on a stand (70 cm), on their CSS pixels; contrast 7:1 is WCAG 2.2
level AAA (1.4.6).
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from playwright.sync_api import Page

AXE_RULES = {"runOnly": ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa", "best-practice"],
             "rules": {"color-contrast-enhanced": {"enabled": True}}}  # fmt: skip

SCAN = """() => {
  const found = [];
  const sizes = innerHeight < 480 ? { targets: [68, 56, 56], text: [17, 48, 28] }
    : innerWidth >= 1000 ? { targets: [112, 84, 72], text: [20, 48, 28] }
    : innerWidth >= 700 ? { targets: [126, 96, 72], text: [26, 48, 28] }
    : { targets: [68, 68, 56], text: [17, 48, 28] };
  const shown = (e) => { const b = e.getBoundingClientRect(); const s = getComputedStyle(e);
    return b.width > 2 && b.height > 2 && s.visibility !== 'hidden' && !e.closest('.vh'); };
  for (const b of document.querySelectorAll('button, input')) {
    if (!shown(b)) continue;
    const box = b.getBoundingClientRect();
    const [main, key, other] = sizes.targets;
    const least = b.closest('.keys') ? key : b.classList.contains('main') ? main : other;
    if (box.height < least - 0.5 || box.width < Math.min(least, 56))
      found.push(`${b.textContent || b.id}: ${box.width} x ${box.height}, least ${least}`);
    if (box.left < 0 || box.right > innerWidth + 0.5) found.push(`${b.textContent} sticks out`);
  }
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let t = walk.nextNode(); t; t = walk.nextNode()) {
    const e = t.parentElement;
    if (!t.textContent.trim() || !shown(e) || e.closest('noscript, script')) continue;
    const size = parseFloat(getComputedStyle(e).fontSize);
    const far = e.closest('.far dd');
    const digits = far && !e.closest('.unit, .decimal, .note');
    const least = sizes.text[!digits ? 0 : e.closest('.over, .under') ? 2 : 1];
    if (size < least) found.push(`"${t.textContent}" ${size} px, least ${least}`);
    const range = document.createRange(); range.selectNodeContents(t);
    for (const r of range.getClientRects())
      if (r.right > innerWidth + 0.5) found.push(`"${t.textContent}" is cut off`);
  }
  const gaps = [...document.querySelectorAll('button, input')].filter(shown)
    .map((e) => [e.textContent || e.id, e.getBoundingClientRect(),
      e.closest('footer, header, nav, main')]);
  for (const [n, a, f] of gaps) for (const [m, b, g] of gaps) {
    if (n === m || f !== g) continue;
    const x = Math.max(a.left, b.left) - Math.min(a.right, b.right);
    const y = Math.max(a.top, b.top) - Math.min(a.bottom, b.bottom);
    if (Math.max(x, y) < 7.9) found.push(`${n} and ${m} are ${Math.max(x, y)} px apart`);
  }
  const own = panel === 'card' && looking === null;
  for (const b of own ? document.querySelectorAll('main button') : []) {
    const box = b.getBoundingClientRect();
    for (const y of [box.top + 4, box.bottom - 4]) {
      const at = document.elementFromPoint(box.left + box.width / 2, y);
      if (shown(b) && at && !b.contains(at) && !at.closest('#said'))
        found.push(`${b.textContent} lies under ${at.className || at.tagName}`);
    }
  }
  if (document.documentElement.scrollWidth > innerWidth) found.push('scrolls sideways');
  const main = document.querySelector('main'), card = document.querySelector('.card');
  const longer = (e) => e.scrollHeight > e.clientHeight + 1;
  if (panel === 'card' && looking === null && current() && (longer(main) || longer(card)))
    found.push(`${main.scrollHeight}, ${card.scrollHeight} px scroll in ${main.clientHeight}`);
  return found;
}"""
"""A function of the page that finds what is wrong with what it shows."""


def axe(page: Page) -> list[str]:
    from axe_playwright_python.sync_playwright import Axe  # type: ignore[import-untyped]

    found: Any = Axe().run(page, options=AXE_RULES)
    assert "color-contrast-enhanced" in {each["id"] for each in found.response["passes"]}
    return [
        f"{each['id']}: {node['html']}"
        for each in found.response["violations"]
        for node in each["nodes"]
    ]


def seen(page: Page) -> list[str]:
    found: list[str] = page.evaluate(f"({SCAN})()")
    return found
