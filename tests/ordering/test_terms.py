"""The simplest form of what is left to do, rule by rule as the module tells them: what is done at
the same moment is one term, however many operations are behind it."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.ordering import Alternative, Knob, Operation, Problem
from sequencer.ordering.model import Model
from sequencer.ordering.space import Space
from sequencer.ordering.terms import BENCH, DONE

NEEDS = {
    "p": {"height": ("p",)},
    "p again": {"height": ("p",)},
    "p at a": {"height": ("p",), "fence": ("a",)},
    "q": {"height": ("q",)},
    "a": {"fence": ("a",)},
}
"""What each operation needs; whatever meets `p at a` meets `p` and `a` too."""


@pytest.fixture(scope="module")
def space() -> Space:
    knobs = (Knob("height", Fraction(1)), Knob("fence", Fraction(1)))
    cuts = tuple(Operation(name, (Alternative(needs),)) for name, needs in NEEDS.items())
    model = Model(Problem(knobs, cuts, ()))
    return Space(model, range(2), keep_dear=True)


def term(space: Space, name: str, *before: int) -> int:
    return space.term(space.operation_needs[list(NEEDS).index(name)], list(before))


def test_equal_needs_behind_equal_terms_are_one_term(space: Space) -> None:
    assert term(space, "p") == term(space, "p again")
    assert term(space, "q", term(space, "p")) == term(space, "q", term(space, "p again"))
    assert term(space, "q", term(space, "p")) != term(space, "q", term(space, "a"))


def test_what_can_be_done_with_its_last_forerunner_is_that_forerunner(space: Space) -> None:
    both = term(space, "p at a")
    assert term(space, "p", both) == both
    assert term(space, "p", term(space, "q", both)) != both


def test_a_forerunner_that_can_be_done_with_the_term_gives_way_to_its_own(space: Space) -> None:
    q = term(space, "q")
    assert term(space, "p at a", term(space, "p", q)) == term(space, "p at a", q)
    assert term(space, "p at a", term(space, "p")) == term(space, "p at a")


def test_forerunners_of_equal_needs_are_one_behind_those_of_both(space: Space) -> None:
    a, q = term(space, "a"), term(space, "q")
    once = term(space, "p", a, q)
    assert space.goal([term(space, "p", a), term(space, "p", q)]) == once
    r = term(space, "q", term(space, "p", a), term(space, "p", term(space, "q")))
    assert r == term(space, "q", once)


def test_what_another_implies_is_left_out(space: Space) -> None:
    a, q = term(space, "a"), term(space, "q")
    last = term(space, "q", a)
    assert space.goal([a, last]) == last
    assert term(space, "p", a, last) == term(space, "p", last)
    assert space.goal([a, q]) not in (a, q)
    both = term(space, "p at a", q)
    assert space.goal([term(space, "p", q), both]) == both
    assert space.goal([term(space, "p", q), term(space, "p at a")]) != term(space, "p at a")


def test_work_without_a_need_is_what_comes_before_it(space: Space) -> None:
    a = term(space, "a")
    assert space.term(BENCH, [a]) == a
    assert space.term(BENCH, []) == DONE


def test_a_value_that_must_be_left_before_it_serves_is_forgotten(space: Space) -> None:
    """The height at p is of no use to a cut at p that waits for one at q, but is to one that waits
    for the fence."""
    value = space.model.value_index[0]["p"] << space.model.offsets[0]
    p, q, a = term(space, "p"), term(space, "q"), term(space, "a")
    assert space.canonical(term(space, "p", q), value) == 0
    assert space.canonical(space.goal([term(space, "p", q), a]), value) == 0
    assert space.canonical(term(space, "p", a), value) == value
    assert space.canonical(p, value) == value
    assert space.canonical(q, value) == 0
