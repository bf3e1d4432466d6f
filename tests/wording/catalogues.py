"""Extracts every marked text, and brings the catalogues up to it. Used by the tests alone: the
program reads the compiled catalogues.

A new text whose words differ in the US gets a first translation word by word; it is then read and
mended in the catalogue, where nothing overwrites it.
"""

from __future__ import annotations

import gettext
import io
import re
from collections.abc import Iterator, Mapping
from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.extract import extract_from_dir
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po, write_po

from sequencer.facts import Dialect
from sequencer.wording.catalogue import DOMAIN, FOLDER, LOCALES

ROOT = Path(__file__).resolve().parents[2]

KEYWORDS = {"_": None, "counted_": (1, 2), "gettext": None, "ngettext": (1, 2)}
SOURCES = (
    (ROOT / "sequencer" / "wording", [("**.py", "python")]),
    (ROOT / "templates", [("**.j2", "jinja2.ext:babel_extract")]),
)

US_WORDS: Mapping[str, str] = {
    # Spelling.
    "centre": "center",
    "centres": "centers",
    "centred": "centered",
    "colour": "color",
    "mitre": "miter",
    "mitres": "miters",
    "mitred": "mitered",
    "moulding": "molding",
    "mouldings": "moldings",
    "millimetre": "millimeter",
    "millimetres": "millimeters",
    "metre": "meter",
    "metres": "meters",
    "calliper": "caliper",
    "programme": "program",
    "grey": "gray",
    "dialled": "dialed",
    "dialling": "dialing",
    "bevelled": "beveled",
    # The trade's words.
    "rebate": "rabbet",
    "rebates": "rabbets",
    "rebated": "rabbeted",
    "housing": "dado",
    "housings": "dadoes",
    "cramp": "clamp",
    "cramps": "clamps",
    "thicknesser": "planer",
    "closing stile": "latch stile",
    "closing side": "latch side",
    "grooving head": "dado set",
    "grooving heads": "dado sets",
}
"""What a US maker says for it: common practice of both trades. A British planer is a jointer in
the US, where a planer thicknesses: such a text is translated by hand, in the catalogue."""

_WORDS = re.compile(rf"\b({'|'.join(sorted(US_WORDS, key=len, reverse=True))})\b", re.IGNORECASE)


def american(text: str) -> str:
    """The text with US words, word by word; places in braces are left alone."""

    def swap(found: re.Match[str]) -> str:
        word = US_WORDS[found[0].lower()]
        return word.capitalize() if found[0][0].isupper() else word

    parts = re.split(r"(\{[^}]*\})", text)
    return "".join(p if p.startswith("{") else _WORDS.sub(swap, p) for p in parts)


def british_words(text: str) -> list[str]:
    """Words in the text that a US maker would not use."""
    return [found for found in _WORDS.findall(text) if american(found) != found]


def messages() -> Iterator[tuple[str, ...] | str]:
    """Every marked text, plural forms as a pair."""
    for folder, methods in SOURCES:
        options = {"**.j2": {"extensions": "jinja2.ext.i18n", "trim_blocks": "true",
                             "lstrip_blocks": "true", "silent": "false"}}  # fmt: skip
        for _file, _line, message, _comments, _context in extract_from_dir(
            str(folder), methods, options, keywords=KEYWORDS
        ):
            yield message


def template() -> Catalog:
    made = Catalog(charset="utf-8", header_comment="# The words of the program.")
    for message in messages():
        made.add(message)
    return made


def path(dialect: Dialect, ending: str) -> Path:
    return FOLDER / LOCALES[dialect] / "LC_MESSAGES" / f"{DOMAIN}.{ending}"


def read(dialect: Dialect) -> Catalog:
    file = path(dialect, "po")
    if not file.exists():
        return Catalog(locale=LOCALES[dialect])
    return read_po(io.BytesIO(file.read_bytes()), locale=LOCALES[dialect])


def brought_up(dialect: Dialect) -> Catalog:
    """The dialect's catalogue with every marked text and no other."""
    old, made = read(dialect), Catalog(locale=LOCALES[dialect], charset="utf-8", fuzzy=False)
    made.header_comment = "# What is said in this dialect; empty: as in the source."
    for message in sorted(template(), key=lambda m: str(m.id)):
        if not message.id:
            continue
        known = old.get(message.id[0] if isinstance(message.id, tuple | list) else message.id)
        said = known.string if known else ""
        if dialect == "US" and not (any(said) if isinstance(said, tuple | list) else said):
            forms = message.id if isinstance(message.id, tuple | list) else (message.id,)
            if any(british_words(form) for form in forms):
                told = tuple(american(form) for form in forms)
                said = told if len(told) > 1 else told[0]
        made.add(message.id, said)
    return made


def po_text(catalogue: Catalog) -> bytes:
    out = io.BytesIO()
    write_po(out, catalogue, width=100, omit_header=False, no_location=True, sort_output=True)
    # Dates and tool versions would change it at every run.
    dated = rb'^"(POT-Creation|PO-Revision|Generated|Last-|Language-Team|Report|Project)[^:]*: .*\n'
    return re.sub(dated, b"", out.getvalue(), flags=re.MULTILINE)


def mo_bytes(catalogue: Catalog) -> bytes:
    out = io.BytesIO()
    write_mo(out, read_po(io.BytesIO(po_text(catalogue)), locale=catalogue.locale))
    return out.getvalue()


def said(compiled: bytes) -> dict[object, str]:
    """What a compiled catalogue says, but its header, which is dated."""
    found: dict[object, str] = dict(gettext.GNUTranslations(io.BytesIO(compiled))._catalog)  # type: ignore[attr-defined]
    found.pop("", None)
    return found


def write(dialect: Dialect) -> None:
    made = brought_up(dialect)
    path(dialect, "po").parent.mkdir(parents=True, exist_ok=True)
    path(dialect, "po").write_bytes(po_text(made))
    path(dialect, "mo").write_bytes(mo_bytes(made))
