"""What is told in full, and what in one line."""

from __future__ import annotations

from fractions import Fraction

from sequencer.facts import Fact, Length
from sequencer.facts import cautions as c
from sequencer.plan import Caution, in_full


def length(value: int) -> Length:
    return Length(Fraction(value), "in")


def crosscut(least: int, *, clamped: bool = True) -> Fact:
    held = (c.CLAMP if clamped else c.CLAMP_OR_HOLD)(side=c.SIDE_STOP(least=length(least)))
    return c.C04_SLED(held=held)


def setup(*cautions: tuple[str, str, Fact]) -> tuple[Caution, ...]:
    return tuple(Caution(*each, "common practice") for each in cautions)


def test_a_hazard_is_told_in_full_where_it_first_applies() -> None:
    rip, other = ("B05", "WARNING", c.B05(measured=length(3))), ("C13", "WARNING", c.C13())
    wider = ("B05", "WARNING", c.B05(measured=length(4)))
    assert in_full([setup(rip), setup(wider, other), setup(other)], ()) == (
        (True,),
        (False, True),
        (False,),
    )


def test_it_is_told_in_full_again_where_it_is_held_otherwise_or_bare() -> None:
    first = ("C04", "DANGER", crosscut(9))
    for told, full in (
        (("C04", "DANGER", crosscut(5)), False),
        (("C04", "DANGER", crosscut(9, clamped=False)), True),
        (("C04", "WARNING", crosscut(9)), True),
    ):
        assert in_full([setup(first), setup(told)], ())[1] == (full,)


def test_what_always_holds_was_told_before() -> None:
    standing = (Caution("C13", "WARNING", c.C13(), "common practice"),)
    assert in_full([setup(("C13", "WARNING", c.C13()))], standing) == ((False,),)
