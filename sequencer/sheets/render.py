"""From decided fields to HTML, and from HTML to PDF. Nothing is fetched, nothing is dated."""

from __future__ import annotations

import datetime
import logging
import re
import warnings
from base64 import b64encode
from collections.abc import Mapping
from contextlib import redirect_stdout
from html import unescape
from io import StringIO
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

from sequencer.errors import InternalError, SurroundingsError
from sequencer.facts import papers
from sequencer.instructions.figures import Scale
from sequencer.plan import Plan
from sequencer.sheets.aids import aids
from sequencer.sheets.blocks import blocks, larger
from sequencer.sheets.boards import wood_page
from sequencer.sheets.front import front
from sequencer.sheets.heights import WIDE
from sequencer.sheets.lookup import asides
from sequencer.sheets.paging import pages
from sequencer.sheets.pinned import pinned
from sequencer.sheets.risks import risks
from sequencer.sheets.tools import tools
from sequencer.sheets.type import wide
from sequencer.wording import Room, for_plan
from sequencer.wording.pages import language

if TYPE_CHECKING:
    from jinja2 import Environment

Paper = Literal["letter", "a4"]

SIDES: Mapping[Paper, float] = {"letter": 612, "a4": 595.28}
"""Points that a page is wide."""

PLAN = "plan.json"
"""What the plan is called inside its PDF."""

_NEVER = datetime.datetime(2000, 1, 1, tzinfo=datetime.UTC)  # an attachment must bear a date
_PACKAGE = Path(__file__).resolve().parents[1]


def paper_for(plan: Plan) -> Paper:
    """What is in the printer where lengths are so measured."""
    return "a4" if plan.unit == "mm" else "letter"


def html(
    plan: Plan,
    paper: Paper | None = None,
    cache: str | None = None,
    *,
    short: bool = False,
    risk: bool = False,
    evenings: int | None = None,
) -> str:
    """The sheets as one self-contained page, for screen and print; `short`, only the doors, the
    strips and the page above the saw; `risk`, with the risk sheet at the end; `evenings`, how many
    pages hang above the saw, one after another. Without a `paper`, that of the plan's unit.
    `cache` is a folder that may keep the templates compiled."""
    room = for_plan(plan)
    scale = Scale.of(plan, room)
    paper = paper or paper_for(plan)
    made = blocks(plan, scale)
    template = environment(cache, room).get_template("sheets.html.j2")
    first = front(plan, scale)
    fields: dict[str, Any] = {"front": first, "wood": wood_page(plan, scale)}
    fields |= {"aids": aids(plan, scale), "tools": tools(plan, room), "short": short}
    fields["risks"] = risks(plan, room) if risk else ()
    fields["language"] = language(room)
    fields["pinned"] = pinned(plan, made, paper, room, brief=short, evenings=evenings)
    filled = () if short else pages(made, paper, larger, asides(first, plan, room))
    fields |= {"pages": filled, "paper": paper}
    fields |= {"wide": WIDE[paper], "side": (SIDES[paper] - WIDE[paper]) / 2}
    return template.render(fields) + "\n"


def pdf(page: str, attached: str = "") -> bytes:
    """The page that `html` made, as PDF/UA with a bookmark a heading and setup; `attached` goes
    into it as `plan.json`.

    Raises `SurroundingsError` where WeasyPrint or the Pango library cannot be loaded or there is no
    font, and
    `InternalError` for anything that WeasyPrint warns of.
    """
    try:
        # It prints how to install what it lacks, and warns where there are no fonts: we say that.
        with warnings.catch_warnings(), redirect_stdout(StringIO()):
            warnings.simplefilter("ignore")
            import weasyprint  # type: ignore[import-untyped]  # it ships no types
            from weasyprint.text import ffi  # type: ignore[import-untyped]
            from weasyprint.urls import URLFetcher  # type: ignore[import-untyped]
    except (ImportError, OSError) as error:
        raise SurroundingsError(papers.NO_PDF()) from error
    if not _fonts(ffi):
        raise SurroundingsError(papers.NO_FONTS())
    heard = _Listener()
    logger = logging.getLogger("weasyprint")
    logger.addHandler(heard)
    try:
        fetcher = URLFetcher(allowed_protocols=("data",))
        document = weasyprint.HTML(string=drawn_apart(page), url_fetcher=fetcher)
        files = [weasyprint.Attachment(string=attached, name=PLAN, created=_NEVER, modified=_NEVER)]
        made = document.write_pdf(
            pdf_identifier=b"sequencer",
            pdf_variant="pdf/ua-1",
            attachments=files if attached else None,
        )
    finally:
        logger.removeHandler(heard)
    if heard.said:
        raise InternalError(papers.NOT_AS_DRAWN(heard=heard.said[0]))
    return bytes(made)


_DRAWN = re.compile(
    r'<svg (?P<kept>[^>]*\brole="img"[^>]*?)\baria-label="(?P<says>[^"]*)"(?P<rest>[^>]*)>'
    r".*?</svg>",
    re.DOTALL,
)
_HIDDEN = re.compile(r'(<svg [^>]*\bdata-says="([^"]*)"[^>]*>)')
"""A sign: in a page the words beside it say it, in a PDF it is a figure."""
_CLASS = re.compile(r'\bclass="[^"]*"')


_ANCHORED = re.compile(
    r'<text x="(?P<x>[-\d.]+)"(?P<so>[^>]*?) text-anchor="(?P<anchor>middle|end)"(?P<too>[^>]*)>'
    r"(?P<words>[^<]*)</text>"
)


def drawn_apart(page: str) -> str:
    """The page as WeasyPrint is to have it: its drawings as images, words at its signs. Words that
    stand about a place begin where they begin: it would put each of them into an object of its
    own, to move it there."""
    begun = _ANCHORED.sub(_begun, page)
    return _HIDDEN.sub(r"\1<title>\2</title>", _DRAWN.sub(_apart, begun))


def _begun(found: re.Match[str]) -> str:
    told = found["so"] + found["too"]
    size = re.search(r'font-size="([\d.]+)"', told)
    assert size is not None
    across = wide(unescape(found["words"]), float(size[1]), 'font-weight="bold"' in told)
    x = float(found["x"]) - (across / 2 if found["anchor"] == "middle" else across)
    return f'<text x="{x:.2f}"{told}>{found["words"]}</text>'


def _apart(found: re.Match[str]) -> str:
    """A drawing as an image of its own, with its words for who does not see it. In the page each of
    its lines would be styled as an element; so it takes half the time and memory."""
    known = _CLASS.search(found["kept"] + found["rest"])
    data = b64encode(found[0].encode()).decode()
    return (
        f'<img {known[0] if known else ""} role="img" alt="{found["says"]}"'
        f' src="data:image/svg+xml;base64,{data}">'
    )


def _fonts(ffi: Any) -> int:
    """How many fonts there are. Without any, Pango takes the whole process down."""
    config = ffi.fontconfig.FcInitLoadConfigAndFonts()
    found = ffi.fontconfig.FcConfigGetFonts(config, ffi.fontconfig.FcSetSystem)
    number = int(found.nfont) if found else 0
    ffi.fontconfig.FcConfigDestroy(config)
    return number


class _Listener(logging.Handler):
    """Keeps what is logged as a warning or worse."""

    def __init__(self) -> None:
        super().__init__(logging.WARNING)
        self.said: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        self.said.append(record.getMessage())


_COMPILED: dict[str, bytes] = {}
"""Templates by their key; each has its source's checksum with it."""


def environment(cache: str | None, room: Room) -> Environment:
    """Where templates are found, their texts said by the room."""
    from jinja2 import (
        BytecodeCache,
        Environment,
        FileSystemBytecodeCache,
        FileSystemLoader,
        StrictUndefined,
    )

    class Remembered(BytecodeCache):
        """Templates that this process has compiled."""

        def load_bytecode(self, bucket: Any) -> None:
            if (found := _COMPILED.get(bucket.key)) is not None:
                bucket.bytecode_from_string(found)

        def dump_bytecode(self, bucket: Any) -> None:
            _COMPILED[bucket.key] = bucket.bytecode_to_string()

    folders = [_PACKAGE / "templates", _PACKAGE.parent / "templates"]
    options: dict[str, Any] = {"trim_blocks": True, "lstrip_blocks": True}
    made = Environment(
        extensions=["jinja2.ext.i18n"],
        loader=FileSystemLoader([folder for folder in folders if folder.is_dir()]),
        autoescape=True,
        undefined=StrictUndefined,
        bytecode_cache=Remembered() if cache is None else FileSystemBytecodeCache(cache),
        **options,
    )
    install: Any = made.install_gettext_translations  # type: ignore[attr-defined]
    install(room.translation, newstyle=True)
    return made
