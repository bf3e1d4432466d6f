"""What a refusal tells, as facts: tests outside the wording room read no words."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from fractions import Fraction

from sequencer.errors import Fault, InputError
from sequencer.facts import Fact, Kind, Length, Value, parts
from sequencer.plan import Part


def inch(text: str) -> Length:
    """`1 1/2` or `0.833` in inches."""
    return Length(sum(map(Fraction, text.split()), Fraction(0)), "in")


def mm(text: str) -> Length:
    return Length(Fraction(text), "mm")


def by_name(name: str) -> Fact:
    """The name of a piece that no program made up."""
    return parts.OWN_NAME(name=name)


def name_of(part: Part) -> str:
    """What a part is called, by the terms: `top-rail`, `panel 2`."""
    return " ".join(str(value) for value in part.name.values)


def told(faults: Iterable[Fault]) -> tuple[Fact, ...]:
    """Messages and hints, with the facts that stand inside them."""
    return tuple(
        each
        for fault in faults
        for fact in (fault.message, fault.hint)
        if isinstance(fact, Fact)
        for each in _all(fact)
    )


def nested(facts: Iterable[Fact]) -> dict[str, Fact]:
    """The facts and those inside them, by id."""
    return {each.id: each for fact in facts for each in _all(fact)}


def _all(fact: Value) -> Iterator[Fact]:
    if isinstance(fact, Fact):
        yield fact
        for value in fact.values:
            yield from _all(value)
    elif isinstance(fact, tuple):
        for each in fact:
            yield from _all(each)


def refused(made: Callable[[], object]) -> tuple[Fact, ...]:
    """What the call is refused with; nothing where it is not."""
    try:
        made()
    except InputError as error:
        return told(error.faults)
    return ()


def tells(facts: Iterable[Fact], wanted: Fact | Kind) -> bool:
    """Whether the fact, or any of that kind, is among them."""
    if isinstance(wanted, Fact):
        return wanted in facts
    return any(fact.kind is wanted for fact in facts)
