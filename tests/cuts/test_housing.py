"""Housings: where both shoulders are, what is nibbled away, and which way a test answers."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sequencer.cuts.context import Context
from sequencer.cuts.housing import cut_housings, furthest
from sequencer.cuts.model import Operation, ScrapTest
from sequencer.errors import Refusal
from sequencer.job.shop import default_shop
from sequencer.methods import Choices
from sequencer.plan import Feature, Part, Size, Span
from tests.stages import span
from tests.told import by_name

F = Fraction
KERF = F(1, 8)


def context() -> Context:
    shop = default_shop("in")
    return Context("in", shop, Choices(), shop.joinery_blade, KERF)


def housing(at: str, along: Span, z: Span, mate: str = "A5/A") -> Feature:
    return Feature("housing", at, (along, (F(0), F(2)), z), mate)


def stile(*features: Feature) -> Part:
    return Part(
        "A1", "A", "stile", by_name("hinge stile"), "cherry", Size(F(20), F(2), F(3, 4)), features
    )


def both(along: Span, mate: str = "A5/A") -> tuple[Feature, Feature]:
    return (
        housing("face", along, span("0", "1/4"), mate),
        housing("back", along, span("1/2", "3/4"), mate),
    )


def cut(part: Part) -> dict[str, Operation]:
    return {operation.id: operation for operation in cut_housings(part, "#1b", context())}


def measured(operation: Operation) -> dict[str, ScrapTest]:
    assert operation.setting is not None
    return {str(test.measure): test for test in operation.setting.tests}


def removed(part: Part, operation: Operation) -> set[Span]:
    """What each pass clears along the part, by the contract's words on `back`."""
    assert operation.setting is not None
    guide = operation.setting.guide
    assert guide is not None
    found = set()
    for one in operation.cuts:
        low, high = (guide + KERF - one.back if one.back else guide), guide + KERF
        length = part.size.length
        found.add((low, high) if one.against == "end-A" else (length - high, length - low))
    return found


def test_two_settings_make_a_pair_of_housings() -> None:
    """By hand: from 4 to 6 in: the first shoulder's stop at 4, the second's at 6 less the kerf; the
    waste of 2 in in passes of 1/8 less 0.010 in: 18 of each face."""
    part = stile(*both(span("4", "6")))
    near, far = cut(part).values()
    assert (near.id, far.id) == ("A1/housing-A5A/near", "A1/housing-A5A/far")
    assert near.setting is not None
    assert far.setting is not None
    assert (near.setting.guide, far.setting.guide) == (F(4), F(6) - KERF)
    assert near.setting.depth == far.setting.depth == (F(1, 4), F(1, 4))
    assert [c.down for c in far.cuts] == ["face", "back"]
    assert not near.minutes
    assert far.minutes == 36 * context().shop.minutes.nibble
    assert removed(part, far) == {span("4", "6")}
    assert removed(part, near) == {(F(4), F(4) + KERF)}


def test_the_nearer_end_lies_at_the_stop() -> None:
    part = stile(*both(span("15", "17")))
    near, far = cut(part).values()
    assert {c.against for o in (near, far) for c in o.cuts} == {"end-B"}
    assert near.setting is not None
    assert near.setting.guide == F(3)
    assert removed(part, far) == {span("15", "17")}
    assert furthest(part) == F(5)
    assert furthest(stile()) == 0


def test_unlike_housings_are_cut_each_by_itself() -> None:
    part = stile(
        housing("face", span("4", "6"), span("0", "1/4")),
        housing("back", span("9/2", "11/2"), span("1/2", "3/4")),
    )
    made = cut(part)
    assert list(made) == [
        "A1/housing-A5A/face/near", "A1/housing-A5A/face/far",
        "A1/housing-A5A/back/near", "A1/housing-A5A/back/far",
    ]  # fmt: skip
    assert removed(part, made["A1/housing-A5A/back/far"]) == {span("9/2", "11/2")}
    left = measured(made["A1/housing-A5A/face/far"])["under-housing/face"]
    assert (left.target, left.per_unit) == (F(1, 2), F(-1))


@given(st.fractions(F(-1, 16), F(1, 16)))
def test_tests_answer_as_they_say(by: Fraction) -> None:
    """Each measure worked out again with its knob moved: stop by its knob, tongue by the height."""
    near, far = cut(stile(*both(span("4", "6")))).values()
    place, width = measured(near)["to-housing"], measured(far)["housing-width"]
    tongue = measured(far)["tongue"]
    assert near.setting is not None
    assert far.setting is not None
    assert near.setting.guide is not None
    assert far.setting.guide is not None
    moved = far.setting.guide + by + KERF - near.setting.guide
    assert moved == width.target + width.per_unit * by
    assert near.setting.guide + by == place.target + place.per_unit * by
    assert F(3, 4) - 2 * (far.setting.depth[0] + by) == tongue.target + tongue.per_unit * by


def test_two_bars_in_one_place_are_refused() -> None:
    part = stile(*both(span("4", "6")), *both(span("5", "7"), "A6/B"))
    with pytest.raises(Refusal, match=r"sequence.housings-meet.*A5.*A6"):
        cut(part)
    assert len(cut(stile(*both(span("4", "6")), *both(span("6", "8"), "A6/B")))) == 4
