"""The examples plan as they stand, and their sheets say what they said before.

`sheets.txt` beside each job holds the text of its sheets, line by line as they read. After a wanted
change: `bash tests/run.sh --refresh -k examples`, and read the difference before committing it.
"""

from __future__ import annotations

import re
from html.parser import HTMLParser
from pathlib import Path

import pytest

from sequencer import cli

ROOT = Path(__file__).resolve().parent.parent
JOBS = sorted((ROOT / "examples").glob("*/job.toml"))

BLOCKS = {
    "article", "caption", "div", "figure", "footer", "h1", "h2", "h3", "h4", "header", "li", "ol",
    "p", "section", "svg", "table", "tr", "ul",
}  # fmt: skip
CELLS = {"td", "th", "text"}
UNREAD = {"head", "script", "style"}


class Reader(HTMLParser):
    """Keeps the text that a reader sees, a line a block, cells set apart."""

    def __init__(self) -> None:
        super().__init__()
        self.said: list[str] = []
        self.unread = 0

    def handle_starttag(self, tag: str, _: object) -> None:
        self.unread += tag in UNREAD
        self.said.append("\n" if tag in BLOCKS or tag == "br" else "\t" if tag in CELLS else "")

    def handle_endtag(self, tag: str) -> None:
        self.unread -= tag in UNREAD
        self.said.append("\n" if tag in BLOCKS else "\t" if tag in CELLS else "")

    def handle_data(self, data: str) -> None:
        if not self.unread:
            self.said.append(re.sub(r"\s+", " ", data))

    def text(self) -> str:
        lines = [
            " | ".join(" ".join(cell.split()) for cell in line.split("\t") if cell.strip())
            for line in "".join(self.said).split("\n")
        ]
        return "".join(f"{line}\n" for line in lines if line)


def read(html: str) -> str:
    reader = Reader()
    reader.feed(html)
    return reader.text()


def test_the_reader_reads() -> None:
    html = "<head><title>x</title></head><h1>A  b</h1><table><tr><td>1<td> 2</table><p>3 <b>4</b>"
    assert read(html) == "A b\n1 | 2\n3 4\n"


def test_there_are_examples() -> None:
    assert [job.parent.name for job in JOBS] == [
        "alcove", "broom-cupboard", "china-cabinet", "clock-case", "dresser", "key-cupboard",
        "linen-press", "pantry", "spice-cupboard", "wall-cabinet",
    ]  # fmt: skip


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.parent.name)
def test_the_sheets_of_an_example_are_as_they_were(
    path: Path, refresh: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(path.parent)
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))  # no settings of one's own
    shop = ["--shop", "shop.toml"] if path.with_name("shop.toml").is_file() else []
    assert cli.main(["plan", "job.toml", *shop, "--no-pdf", "-o", str(tmp_path / "sheets")]) == 0
    text = read((tmp_path / "sheets" / "plan.html").read_text("utf-8"))
    golden = path.with_name("sheets.txt")
    if refresh:
        golden.write_text(text, "utf-8")
    assert text == golden.read_text("utf-8")
