"""How much wood: areas add up, and the figures by hand."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given

from sequencer.job.rack import Rack
from sequencer.lengths import convert
from sequencer.plan import Plan, Size, Stick
from sequencer.records import replace
from sequencer.stock.rough import rough_list
from tests.sheets.jobs import plan_of
from tests.stock.sticks import sticks

F = Fraction
RACK = Rack((), 25, F(1, 8), F(1, 8))


def stick(mark: str, material: str, length: int, width: int, thickness: str) -> Stick:
    size = Size(F(length), F(width), F(thickness))
    return Stick(mark, material, size, size, (), test=mark == "#1")


def listed(*made: Stick) -> Plan:
    plan = replace(plan_of("pair"), sticks=made)
    return replace(plan, rough=rough_list(plan, RACK))


def test_figures_worked_by_hand() -> None:
    """Two sticks 48 × 3 in and one 24 × 6: 432 square inches, 3 board feet of 4/4, 3 3/4 with a
    quarter more; 432 cubic inches are 0.00708 cubic metres."""
    plan = listed(
        stick("#1", "cherry", 48, 3, "3/4"),
        stick("#2", "cherry", 48, 3, "3/4"),
        stick("#3", "cherry", 24, 6, "3/4"),
    )
    (line,) = plan.rough
    assert (line.surface, line.board_feet, line.board_feet_with) == (F(432), F(3), F(15, 4))
    assert round(line.cubic_metres, 5) == F("0.00708")
    assert (line.buy, line.yields, line.bought_thickness) == ("4/4", F(13, 16), F(1))
    assert (line.test_sticks, line.sticks) == (("#1",), ("#2", "#3"))
    assert (line.longest, line.widest) == (F(48), F(6))


def test_thicker_stock_counts_by_its_nominal_thickness() -> None:
    (line,) = listed(stick("#2", "cherry", 48, 3, "7/8")).rough
    assert (line.buy, line.board_feet) == ("5/4", F(5, 4))


def test_thin_stock_counts_as_an_inch_and_softwood_by_its_own_table() -> None:
    thin, pine = listed(
        stick("#2", "cherry", 48, 3, "1/4"), stick("#3", "eastern white pine", 48, 3, "3/4")
    ).rough
    assert (thin.buy, thin.board_feet) == ("4/4", F(1))
    assert (pine.buy, pine.yields) == ("1 × 4", F(3, 4))
    (wide,) = listed(stick("#3", "eastern white pine", 48, 9, "3/4")).rough
    assert wide.buy == "1 in nominal"


def test_what_no_table_names_is_counted_as_it_is_sawn() -> None:
    (line,) = listed(stick("#2", "cherry", 48, 3, "23/8")).rough
    assert (line.buy, line.yields, line.bought_thickness) == ("", None, F(3))


@given(sticks())
def test_areas_and_volumes_add_up(made: tuple[Stick, ...]) -> None:
    plan = listed(*made)
    areas = sum((s.blank.length * s.blank.width for s in made), F(0))
    assert sum(line.surface for line in plan.rough) == areas
    marks = [mark for line in plan.rough for mark in (*line.test_sticks, *line.sticks)]
    assert sorted(marks) == sorted(s.mark for s in made)
    for line in plan.rough:
        assert line.board_feet == line.surface * max(line.bought_thickness, F(1)) / 144
        assert line.cubic_metres == line.surface * line.bought_thickness * F("0.0254") ** 3
        assert line.board_feet_with == line.board_feet * F(125, 100)
        assert line.bought_thickness > line.thickness
        assert line.yields is None or line.yields >= line.thickness


@given(sticks())
def test_a_millimetre_plan_buys_the_same_wood(made: tuple[Stick, ...]) -> None:
    def in_mm(size: Size) -> Size:
        return Size(*(convert(v, "in", "mm") for v in (size.length, size.width, size.thickness)))

    inches = listed(*made)
    metric = replace(
        inches,
        unit="mm",
        sticks=tuple(replace(s, size=in_mm(s.size), blank=in_mm(s.blank)) for s in made),
    )
    rack = replace(RACK, milling=convert(RACK.milling, "in", "mm"))
    for one, other in zip(inches.rough, rough_list(metric, rack), strict=True):
        assert (one.buy, one.board_feet, one.cubic_metres_with) == (
            other.buy, other.board_feet, other.cubic_metres_with,
        )  # fmt: skip
