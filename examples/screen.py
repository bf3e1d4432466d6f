"""A card of the page at the saw as a small picture, as the README shows it.

    .venv/bin/python -m examples.screen "Setup 9" examples/card.png

Follows the wall cabinet to the first card whose heading begins so. Needs what the tests need.
"""

from __future__ import annotations

import io
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

from PIL import Image
from playwright.sync_api import sync_playwright

from tests.sawside.conftest import CHROMIUM, FLAGS, Phone, Program

FOLDER = Path(__file__).resolve().parent / "wall-cabinet"
PHONE = {"width": 390, "height": 844}


def main(heading: str, target: str) -> None:
    with TemporaryDirectory() as folder, sync_playwright() as playwright:
        program = Program(Path(folder, "store.sqlite"), FOLDER)
        program.start()
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=list(FLAGS))
        page = browser.new_page(viewport=PHONE)  # type: ignore[arg-type]  # a plain dict
        Phone(page, program.url).go(heading)
        seen = Image.open(io.BytesIO(page.screenshot()))
        seen.convert("L").quantize(16).save(target, optimize=True)
        browser.close()
        program.kill()


if __name__ == "__main__":
    main(*sys.argv[1:3])
