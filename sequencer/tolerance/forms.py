"""How far something is off, as a sum of what each source of error adds: exact, and affine.

A form tells of the difference from what the plan says, so that nothing but errors stands in it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import NamedTuple

from msgspec import Struct, field


class Source(NamedTuple):
    """One error. `kind` is `window` or `reading`, both of the check `of`; `mark`, by how much what
    is aimed at there lies off what the plan makes, which is no error but always the same; `pass`
    (of the cut `of`), `thick` (of the strip `of`), `knob` (a setting, told by its knob and the
    setup that it was set for) or `kerf` (of the cutter `of`). Where what is likely is told,
    `accepted` and `noise` stand for a check's setting and for the errors of its last try."""

    kind: str
    of: str


class Form(Struct, frozen=True):
    """What each source adds, in parts of itself; none of them 0."""

    parts: Mapping[Source, Fraction] = field(default_factory=dict)

    def __add__(self, other: Form) -> Form:
        found = dict(self.parts)
        for source, part in other.parts.items():
            found[source] = found.get(source, Fraction(0)) + part
        return Form({source: part for source, part in found.items() if part})

    def __mul__(self, by: Fraction | int) -> Form:
        return Form({source: part * by for source, part in self.parts.items()} if by else {})

    def __sub__(self, other: Form) -> Form:
        return self + other * -1

    def put(self, source: Source, form: Form) -> Form:
        """The same with a form in place of a source.

        >>> a, b = Source("knob", "a"), Source("pass", "b")
        >>> (of(a) * 2 + of(b)).put(a, of(b) * -1).parts == {b: Fraction(-1)}
        True
        """
        part = self.parts.get(source)
        if part is None:
            return self
        rest = Form({each: value for each, value in self.parts.items() if each != source})
        return rest + form * part


NONE = Form()


def of(source: Source) -> Form:
    return Form({source: Fraction(1)})


def total(forms: Iterable[Form]) -> Form:
    """All of them together."""
    found = NONE
    for form in forms:
        found = found + form
    return found
