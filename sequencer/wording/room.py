"""Says facts: looks the sentence up, has it translated, and puts the parameters in."""

from __future__ import annotations

import gettext
from collections.abc import Mapping, Sequence
from fractions import Fraction
from functools import cache, partial
from importlib import import_module
from string import Formatter
from typing import TYPE_CHECKING, Any

from sequencer.facts import Dialect, Fact, Length, Sort, Value
from sequencer.facts.model import LENGTH, NUMBER, SAID, TEXT, Words
from sequencer.facts.written import module_of
from sequencer.wording.catalogue import Counted, Table, _, catalogue, counted_
from sequencer.wording.numbers import as_written, decimal, fine, inline, minutes, tenth
from sequencer.wording.terms import TERMS

if TYPE_CHECKING:
    from sequencer.plan import Plan

_AND, _OR = _("and"), _("or")
BUILT_IN = frozenset({
    _("built-in shop"), _("combination blade"), _("featherboard and push block"), _("hardwood"),
})  # fmt: skip
"""Texts that stand in where job and shop say nothing; `tests/wording/test_shown.py` holds them to
the defaults."""


def for_plan(plan: Plan) -> Room:
    """The room of a plan: its shop's dialect and graduation."""
    return Room(plan.shop.words, plan.shop.graduation)


class Room:
    """Words for one dialect.

    `graduation` is how finely a rule is read, for lengths that are shown as fractions; without it
    1/64 in, and a decimal of millimetres. `translation` stands in for the dialect's catalogue.

    >>> from sequencer.facts import reasons
    >>> Room("UK").say(reasons.SLOT_FIRST())
    'slots before the tenons that are fitted to them'
    """

    def __init__(
        self,
        dialect: Dialect,
        graduation: Fraction | None = None,
        translation: gettext.NullTranslations | None = None,
    ) -> None:
        self.dialect = dialect
        self.graduation = graduation
        self._translation = translation
        self._formatter = _Formatter(self)

    @property
    def translation(self) -> gettext.NullTranslations:
        if self._translation is None:
            self._translation = catalogue(self.dialect)
        return self._translation

    def say(self, fact: Fact) -> str:
        """The fact in words, beginning small and without a full stop unless it is a sentence."""
        wording = _table(fact.id.partition(".")[0])[fact.kind]
        if callable(wording):
            return wording(self, fact)
        takes = fact.kind.takes
        if isinstance(wording, Counted):
            count = fact.given[wording.by]
            assert isinstance(count, int)
            text = self.translation.ngettext(wording.one, wording.other, count)
        else:
            text = self.text(wording)
        return self._formatter.fill(text, dict(zip(takes, fact.values, strict=True)), takes)

    def sentence(self, fact: Fact) -> str:
        """The same as a sentence of its own: a capital first, a full stop last."""
        return sentence(self.say(fact))

    def text(self, text: str, **given: Value) -> str:
        """A marked text of the wording room or of a template, translated; `given` fill its
        places: facts are said, lengths shown, strings put as they are."""
        translated = self.translation.gettext(text)
        return self._formatter.fill(translated, given, {}) if given else translated

    def counted(self, texts: Counted, count: int, **given: Value) -> str:
        """The one of two marked texts that goes with the count, its places filled; the count is
        `{n}`, or whatever else the texts name it by."""
        text = self.translation.ngettext(texts.one, texts.other, count)
        return self._formatter.fill(text, {texts.by: count, **given}, {})

    def term(self, name: str) -> str:
        """A word of the trade. Raises `KeyError` where the vocabulary has none."""
        return self.text(TERMS[name])

    def length(self, length: Length) -> str:
        """`22 1/2″`, `1/16″ (0.055″)` where it was rounded, `571.5 mm`."""
        return inline(length, self.graduation)

    def minutes(self, value: Fraction) -> str:
        """`41½ minutes`, `1 minute`."""
        text = self.translation.ngettext(_MINUTES.one, _MINUTES.other, 1 if 0 < value <= 1 else 2)
        return text.format(n=minutes(value))

    def listed(self, words: Sequence[str], last: str = _AND) -> str:
        """`A1, A2 and B1`."""
        if len(words) < 2:
            return "".join(words)
        return f"{', '.join(words[:-1])} {self.text(last)} {words[-1]}"

    def shown(self, value: Value, sort: Sort, spec: str = "") -> str:
        """One parameter in words; `spec` is what stands behind its name in the text.

        Of a length `file` gives it as a job file has it, `decimal` as a caliper shows it, `fine`
        with a place more where that would hide a difference; of a number `tenth` rounds it to one;
        of many `or` joins with that word and `comma` with commas alone; `cap` begins with a
        capital.
        """
        if spec == "cap":
            return capitalised(self.shown(value, sort))
        if value is None:
            return ""
        if isinstance(value, tuple):
            of = sort.of or sort_of(value[0] if value else "")
            words = [self.shown(each, of) for each in value]
            if spec == "comma":
                return ", ".join(words)
            return self.listed(words, _OR if spec == "or" else _AND)
        if isinstance(value, Length):
            ways = {"file": as_written, "decimal": decimal, "fine": fine}
            return ways[spec](value) if spec else self.length(value)
        if isinstance(value, Fact):
            return self.say(value)
        if isinstance(value, Words):
            return value.text
        if spec == "tenth":
            return tenth(Fraction(str(value)))
        name = (sort.of or sort).name if sort.name == "maybe" else sort.name
        if name == "term":
            return self.term(str(value))
        if name == "minutes":
            return self.minutes(Fraction(str(value)))
        return self.own(str(value)) if name == "text" else str(value)

    def own(self, text: str) -> str:
        """The user's own words as they are; what stands in where the files say nothing,
        translated."""
        return self.text(text) if text in BUILT_IN else text


@cache
def _table(domain: str) -> Table:
    found: Table = import_module(f"sequencer.wording.{module_of(domain)}").TEXTS
    return found


_MINUTES = counted_("{n} minute", "{n} minutes")


def sort_of(value: Value) -> Sort:
    """The sort of a value that no kind declares."""
    if isinstance(value, Fact | Words):
        return SAID
    if isinstance(value, Length):
        return LENGTH
    return NUMBER if isinstance(value, int | Fraction) else TEXT


class _Formatter(Formatter):
    """Puts parameters into a text; what a parameter says is never read as a place itself."""

    def __init__(self, room: Room) -> None:
        self._room = room

    def fill(self, text: str, given: Mapping[str, Value], takes: Mapping[str, Sort]) -> str:
        if "{" not in text:
            return text
        return self.vformat(
            text,
            (),
            {
                name: _Shown(partial(self._room.shown, value, takes.get(name) or sort_of(value)))
                for name, value in given.items()
            },
        )

    def format_field(self, value: Any, format_spec: str) -> Any:
        return value.by(format_spec)


class _Shown:
    """A parameter that waits for how it is to be shown."""

    __slots__ = ("by",)

    def __init__(self, by: Any) -> None:
        self.by = by


def capitalised(text: str) -> str:
    return text[:1].upper() + text[1:]


def sentence(text: str) -> str:
    """With a capital and a full stop.

    >>> sentence("hand pressure closes it"), sentence("Really?"), sentence("")
    ('Hand pressure closes it.', 'Really?', '')
    """
    closed = text if text.endswith((".", "?", "!", ":", "____")) or not text else f"{text}."
    return capitalised(closed)
