"""What stages tell, as data: an id from a closed list with typed parameters, never a sentence.

One module for each domain defines its kinds of fact; `sequencer.wording` holds a module of the
same name with the words for each. An id is its domain and its name: `reason.slots-first`.
"""

from __future__ import annotations

from sequencer.facts.model import (
    COUNT,
    FACT,
    LENGTH,
    MINUTES,
    NUMBER,
    SAID,
    TERM,
    TEXT,
    Dialect,
    Domain,
    Fact,
    Kind,
    Length,
    Sort,
    Unit,
    Value,
    Words,
    dialect_for,
    many,
    maybe,
    nested,
)

__all__ = [
    "COUNT",
    "FACT",
    "LENGTH",
    "MINUTES",
    "NUMBER",
    "SAID",
    "TERM",
    "TEXT",
    "Dialect",
    "Domain",
    "Fact",
    "Kind",
    "Length",
    "Sort",
    "Unit",
    "Value",
    "Words",
    "dialect_for",
    "many",
    "maybe",
    "nested",
]
