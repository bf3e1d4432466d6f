"""Tenons with unlike shoulders, and halved ends."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.cuts.context import Context
from sequencer.cuts.model import Operation, ScrapPieces
from sequencer.cuts.tenon import Tenon, Tried, cut_tenon, halved, tenons
from sequencer.errors import Refusal
from sequencer.facts import feels
from sequencer.job.shop import default_shop
from sequencer.methods import Choices
from sequencer.plan import Feature, Part, Size, Span
from tests.stages import span
from tests.told import by_name

F = Fraction
SCRAP = ScrapPieces("#1", "#1a", "#1b", F(12))


def context(tenon_width: str = "jig") -> Context:
    """A shop with a kerf of 1/8 in."""
    shop = default_shop("in")
    choices = Choices(tenon_width=tenon_width)  # type: ignore[arg-type]  # both are answers
    return Context("in", shop, choices, shop.joinery_blade, F(1, 8))


def part(*features: Feature) -> Part:
    return Part(
        "A3", "A", "rail", by_name("top rail"), "cherry", Size(F(12), F(2), F(3, 4)), features
    )


def cheek(z: Span, long: Fraction, at: str = "A") -> Feature:
    along = (F(0), long) if at == "A" else (F(12) - long, F(12))
    return Feature("cheek", at, (along, (F(0), F(2)), z))


FACE, BACK = span("0", "1/4"), span("1/2", "3/4")


def cut(made: Part, tried: Tried | None = None) -> dict[str, Operation]:
    found = [o for tenon in tenons(made, tried) for o in cut_tenon(tenon, SCRAP, context())]
    return {operation.id: operation for operation in found}


def guides(operations: dict[str, Operation]) -> dict[str, Fraction | None]:
    return {name: o.setting.guide for name, o in operations.items() if o.setting is not None}


def test_equal_cheeks_take_one_setting_each() -> None:
    """By hand: 1 1/4 long by a kerf of 1/8: the stop at 1 1/8; cheeks from either face at 1/2."""
    made = cut(part(cheek(FACE, F(5, 4)), cheek(BACK, F(5, 4))))
    assert guides(made) == {"A3/shoulder-A": F(9, 8), "A3/cheek-A": F(1, 2)}
    assert [c.down for c in made["A3/shoulder-A"].cuts] == ["face", "back"]


def test_long_and_short_shoulders_take_a_setting_each() -> None:
    """By hand: in front 1 1/4 long, behind 1 in: stops at 1 1/8 and 7/8; the back's cheek is cut
    with the face against the jig. Shoulder to shoulder on 12 in: 9 1/2 in front, 10 behind."""
    made = cut(part(cheek(FACE, F(5, 4)), cheek(BACK, F(1))))
    assert guides(made) == {
        "A3/shoulder-A/face": F(9, 8),
        "A3/shoulder-A/back": F(7, 8),
        "A3/cheek-A/face": F(1, 2),
        "A3/cheek-A/back": F(1, 2),
    }
    depths = {name: o.setting.depth[1] for name, o in made.items() if o.setting is not None}
    assert depths["A3/cheek-A/face"] < F(1) < depths["A3/cheek-A/back"] < F(5, 4)
    tests = {str(t.measure): t for o in made.values() if o.setting for t in o.setting.tests}
    assert tests["shoulders/face"].target == F(19, 2)
    assert tests["shoulders/back"].target == F(10)


def test_a_cheek_by_itself_is_measured_from_the_jigs_side() -> None:
    """A rail's lap: the front is cut away, with the back against the jig."""
    made = cut(part(cheek(span("0", "3/8"), F(2))))
    (shoulder, side) = made.values()
    assert [(c.down, c.against) for c in shoulder.cuts] == [("face", "end-A")]
    assert [(c.down, c.against) for c in side.cuts] == [("end-A", "back")]
    assert side.setting is not None
    assert side.setting.guide == F(3, 8)
    (test,) = side.setting.tests
    assert str(test.measure) == "to-far-cheek/back"
    assert (test.target, test.per_unit) == (F(3, 8), F(1))


def test_a_halved_stile_is_cut_from_the_back() -> None:
    slot = Feature("slot", "B", (span("10", "12"), span("0", "2"), span("3/8", "3/4")))
    tried = Tried("#1a", alone=feels.LAPS_TOGETHER(), shoulders="from-end")
    (end,) = halved(part(slot), tried)
    shoulder, side = cut_tenon(end, SCRAP, context())
    assert [(c.down, c.against) for c in shoulder.cuts] == [("back", "end-B")]
    assert [(c.down, c.against) for c in side.cuts] == [("end-B", "face")]
    assert shoulder.setting is not None
    where = shoulder.setting.tests[0]
    assert (where.target, where.per_unit) == (F(2), F(1))
    under, over = where.target - where.low, where.high - where.target
    assert 0 < under < over, "sooner over than under"


def test_an_edge_shorter_than_the_face_is_cut_at_its_own_stop() -> None:
    edge = Feature("edge-cheek", "A", (span("0", "1"), span("0", "3/8"), span("0", "3/4")))
    made = cut(part(cheek(FACE, F(5, 4)), cheek(BACK, F(1)), edge))
    found = guides(made)
    assert found["A3/edge-shoulder-A"] == F(7, 8)
    assert found["A3/edge-cheek-A"] == F(2) - F(3, 8)


@pytest.mark.parametrize("long", [F(1, 8), F(1, 10)])
def test_a_tenon_no_longer_than_the_kerf_is_refused(long: Fraction) -> None:
    with pytest.raises(Refusal, match=r"sequence.tenon-too-short\(mark=A3, .*kerf=1/8 in"):
        cut(part(cheek(FACE, long), cheek(BACK, long)))


def test_both_ends_are_found_in_order() -> None:
    both = part(
        cheek(FACE, F(1), "B"), cheek(BACK, F(1), "B"), cheek(FACE, F(1)), cheek(BACK, F(1))
    )
    found: list[Tenon] = list(tenons(both))
    assert [tenon.at for tenon in found] == ["A", "B"]
