"""What a fact is: the id of its kind, and a value for each parameter that the kind declares."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from typing import Literal, TypeAlias, Union

from msgspec import Struct

Unit = Literal["in", "mm"]
Dialect = Literal["US", "UK"]


def dialect_for(unit: Unit) -> Dialect:
    """The dialect where the shop names none: who works in inches reads US words."""
    return "US" if unit == "in" else "UK"


class Length(Struct, frozen=True):
    """A length that is told, with its unit: how finely it is shown is for the words to decide."""

    value: Fraction
    unit: Unit

    def __str__(self) -> str:
        return f"{self.value} {self.unit}"


class Words(Struct, frozen=True):
    """What a room has said already, for a document of that room alone: no plan holds it, and
    nothing that is kept."""

    text: str

    def __str__(self) -> str:
        return self.text


Value: TypeAlias = Union[str, int, Fraction, Length, Words, "Fact", tuple["Value", ...], None]


class Sort(Struct, frozen=True):
    """What a parameter may be. `fits` tells whether a value is of it."""

    name: str
    fits: Callable[[Value], bool]
    of: Sort | None = None
    """The sort of each, of a tuple of many; of the value, of one that may be missing."""


def _is(*types: type) -> Callable[[Value], bool]:
    return lambda value: isinstance(value, types)


TEXT = Sort("text", _is(str))
"""Shown as it is: a mark, a key or a value of a file, the user's own words."""
TERM = Sort("term", _is(str))
"""A word of the trade by its id, which the vocabulary of each dialect spells."""
COUNT = Sort("count", _is(int))
NUMBER = Sort("number", _is(int, Fraction))
"""A number without a unit."""
MINUTES = Sort("minutes", _is(int, Fraction))
LENGTH = Sort("length", _is(Length))
FACT = Sort("fact", lambda value: isinstance(value, Fact))
SAID = Sort("said", lambda value: isinstance(value, Fact | Words))
"""A fact, or the words of one."""


def many(sort: Sort) -> Sort:
    """A tuple of values, each of the sort."""

    def fits(value: Value) -> bool:
        return isinstance(value, tuple) and all(sort.fits(each) for each in value)

    return Sort("many", fits, sort)


def maybe(sort: Sort) -> Sort:
    """A value of the sort, or `None`."""
    return Sort("maybe", lambda value: value is None or sort.fits(value), sort)


class Kind:
    """One entry of the closed list: an id, and the parameters that go with it.

    >>> kind = Domain("example")("too-wide", mark=TEXT, by=LENGTH)
    >>> kind(mark="A1", by=Length(Fraction(1, 8), "in")).id
    'example.too-wide'
    """

    __slots__ = ("bare", "id", "takes")

    def __init__(self, name: str, takes: dict[str, Sort]) -> None:
        self.id = name
        self.takes = takes
        self.bare = None if takes else Fact(self, ())

    def __call__(self, **given: Value) -> Fact:
        """The fact with these parameters. Raises `TypeError` unless they are exactly those that
        the kind takes, each of its sort."""
        if self.bare is not None and not given:
            return self.bare
        if given.keys() != self.takes.keys():
            raise TypeError(f"{self.id} takes {', '.join(self.takes)}, not {', '.join(given)}")
        for name, sort in self.takes.items():
            if not sort.fits(given[name]):
                raise TypeError(f"{self.id}: {name} is no {sort.name}: {given[name]!r}")
        return Fact(self, tuple(given[name] for name in self.takes))

    def __repr__(self) -> str:
        return f"<{self.id}>"

    def __reduce__(self) -> tuple[Callable[[str], Kind], tuple[str]]:
        from sequencer.facts.written import kind

        return kind, (self.id,)


class Domain:
    """The kinds that one module defines, by their ids."""

    def __init__(self, name: str) -> None:
        self.name = name
        self.kinds: dict[str, Kind] = {}

    def __call__(self, name: str, /, **takes: Sort) -> Kind:
        """A new kind of this domain. Raises `ValueError` where the name is taken."""
        made = Kind(f"{self.name}.{name}", takes)
        if self.kinds.setdefault(made.id, made) is not made:
            raise ValueError(f"{made.id} is defined twice")
        return made


class Fact(Struct, frozen=True):
    """`values` are in the order of the kind's parameters."""

    kind: Kind
    values: tuple[Value, ...] = ()

    @property
    def id(self) -> str:
        return self.kind.id

    @property
    def given(self) -> dict[str, Value]:
        """The parameters by their names."""
        return dict(zip(self.kind.takes, self.values, strict=True))

    def __str__(self) -> str:
        """For whoever reads a trace: `refusal.kerf-too-wide(mark=A1, …)`. No person is shown
        it: words are the wording room's."""
        given = ", ".join(f"{name}={_shown(value)}" for name, value in self.given.items())
        return f"{self.id}({given})"


def _shown(value: Value) -> str:
    """
    >>> print(_shown((Length(Fraction(1, 2), "in"), ("A1", "A2"), None)))
    (1/2 in, (A1, A2), None)
    """
    return f"({', '.join(map(_shown, value))})" if isinstance(value, tuple) else str(value)


def nested(value: Value) -> Iterator[Value]:
    """The value and all that is in it: of a fact its parameters, of many each, and so on."""
    yield value
    inside = value.values if isinstance(value, Fact) else value
    if isinstance(inside, tuple):
        for each in inside:
            yield from nested(each)
