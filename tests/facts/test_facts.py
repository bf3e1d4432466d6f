"""Facts: typed, and the same after JSON."""

from __future__ import annotations

import json
import pickle
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sequencer.facts import Fact, Kind, Length, Sort, Unit, Value, Words, cards, refusals
from sequencer.facts.written import from_json, kind, to_json
from tests.wording.kinds import every_kind


def values(sort: Sort, unit: Unit) -> st.SearchStrategy[Value]:
    """Any value of the sort."""
    plain: dict[str, st.SearchStrategy[Value]] = {
        "text": st.text(),
        "term": st.text(),
        "count": st.integers(),
        "number": st.fractions(),
        "minutes": st.fractions(),
        "length": st.fractions().map(lambda value: Length(value, unit)),
        "fact": st.just(refusals.KERF_TOO_WIDE(mark="A1", kerf=Length(Fraction(1, 8), unit),
                                               what="slot", width=Length(Fraction(1, 9), unit))),
    }  # fmt: skip
    plain["said"] = plain["fact"]
    if sort.of is None:
        return plain[sort.name]
    each = values(sort.of, unit)
    return st.none() | each if sort.name == "maybe" else st.lists(each).map(tuple)


@st.composite
def facts(draw: st.DrawFn, unit: Unit) -> Fact:
    of: Kind = draw(st.sampled_from(every_kind()))
    return of(**{name: draw(values(sort, unit)) for name, sort in of.takes.items()})


@given(st.data(), st.sampled_from(["in", "mm"]))
def test_a_fact_is_the_same_after_json(data: st.DataObject, unit: Unit) -> None:
    fact = data.draw(facts(unit))
    assert from_json(json.loads(json.dumps(to_json(fact))), unit) == fact
    assert pickle.loads(pickle.dumps(fact)) == fact


def test_words_that_were_said_are_kept_nowhere() -> None:
    with pytest.raises(TypeError, match="kept nowhere: slot"):
        to_json(cards.AT_END(verb=Words("slot"), end="A"))


def test_parameters_are_those_of_the_kind() -> None:
    with pytest.raises(TypeError, match="takes mark, kerf, what, width"):
        refusals.KERF_TOO_WIDE(mark="A1")
    with pytest.raises(TypeError, match="kerf is no length"):
        refusals.KERF_TOO_WIDE(mark="A1", kerf=3, what="slot", width=Length(Fraction(1), "in"))


@pytest.mark.parametrize("data", [
    {"id": "refusal.none", "with": {}},
    {"id": "nowhere.none", "with": {}},
    {"id": "refusal.kerf-too-wide", "with": {"mark": "A1"}},
])  # fmt: skip
def test_no_other_fact_is_read(data: dict[str, object]) -> None:
    with pytest.raises(ValueError, match=r"no kind|no facts|takes"):
        from_json(data, "in")


def test_kinds_are_found_by_their_ids() -> None:
    for each in every_kind():
        assert kind(each.id) is each
