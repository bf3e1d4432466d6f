"""One page of a PDF as a small grey picture, as the README shows it.

    .venv/bin/python examples/picture.py sheets/plan.pdf "1 of" sheet.png

Takes the first page whose text holds the given words. Needs what the tests need.
"""

from __future__ import annotations

import sys

import pypdfium2

SCALE = 1.0  # 72 dots to the inch: 612 across on letter


def main(source: str, words: str, target: str) -> int:
    document = pypdfium2.PdfDocument(source)
    for page in document:
        if words in page.get_textpage().get_text_bounded():
            picture = page.render(scale=SCALE, grayscale=True).to_pil()
            picture.quantize(16).save(target, optimize=True)
            return 0
    sys.stderr.write(f'{source}: no page holds "{words}"\n')
    return 1


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:4]))
