"""The catalogues hold every marked text and no other, and US words are US words.

`bash tests/run.sh --refresh -k catalogues` brings them up to the source.
"""

from __future__ import annotations

import string
from importlib import import_module

import pytest

from sequencer.facts import Dialect, Domain
from sequencer.facts.written import module_of
from sequencer.wording.catalogue import Counted
from tests.wording import catalogues

FACTS = catalogues.ROOT / "sequencer" / "facts"
PLUMBING = {"__init__", "model", "written"}
DOMAINS = [path.stem for path in sorted(FACTS.glob("*.py")) if path.stem not in PLUMBING]


@pytest.mark.parametrize("dialect", ["US", "UK"])
def test_catalogues_hold_every_text_and_no_other(dialect: Dialect, refresh: bool) -> None:
    if refresh:
        catalogues.write(dialect)
    made = catalogues.brought_up(dialect)
    assert catalogues.path(dialect, "po").read_bytes() == catalogues.po_text(made)
    compiled = catalogues.said(catalogues.path(dialect, "mo").read_bytes())
    assert compiled == catalogues.said(catalogues.mo_bytes(made))


def test_us_texts_have_no_british_words() -> None:
    found = []
    for message in catalogues.read("US"):
        forms = message.id if isinstance(message.id, tuple | list) else (message.id,)
        said = message.string if isinstance(message.string, tuple | list) else (message.string,)
        found += [text for pair in zip(forms, said, strict=True)
                  if catalogues.british_words(text := pair[1] or pair[0])]  # fmt: skip
    assert not found


@pytest.mark.parametrize("module", DOMAINS)
def test_every_kind_of_fact_has_words_for_its_parameters(module: str) -> None:
    domain: Domain = import_module(f"sequencer.facts.{module}").kind_of
    assert module_of(domain.name) == module
    texts = import_module(f"sequencer.wording.{module}").TEXTS
    assert set(texts) == set(domain.kinds.values())
    for kind, wording in texts.items():
        forms: tuple[str, ...] = (wording,) if isinstance(wording, str) else ()
        if isinstance(wording, Counted):
            assert wording.by in kind.takes, kind
            forms = (wording.one, wording.other)
        for form in forms:
            places = {name for _, name, _, _ in string.Formatter().parse(form) if name}
            assert places <= kind.takes.keys(), kind
