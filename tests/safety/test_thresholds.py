"""Every figure of every rule: just under it, at it, just over it; in inches and in millimetres.

Each row names one of the publications that the figure comes from, as the rule's list has it; ours
where it is ours. Where a figure is the shop's or follows from another size, it stands here as it
was worked out.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

import pytest

from sequencer.lengths import Unit
from sequencer.safety.handling import hold
from sequencer.safety.moments import Moment
from sequencer.safety.review import PREDICATES
from sequencer.safety.rules import limits, load
from tests.safety.build import (
    bevel,
    change,
    cheek,
    crosscut,
    end_bevel,
    groove,
    mitre,
    rail,
    rebate,
    rip,
    shoulder,
)

F = Fraction
Values = dict[str, Any]

HAND: dict[Unit, F] = {"in": F(7, 2), "mm": F(90)}
"""A hand's breadth, from memory; ours as a figure."""


@dataclass(frozen=True)
class Row:
    """`ordinary` is a pass that differs from an ordinary one only so far that the figure decides;
    `put` sets what is measured. `levels` under, at and over the figure; `-` is none. `bound` is
    empty where the figure is the shop's or the piece's."""

    rule: str
    bound: str
    inch: F | int
    mm: F | int
    ordinary: Callable[[Unit], Moment]
    put: Callable[[Fraction, Moment, Unit], Values]
    levels: tuple[str, str, str]
    source: str

    @property
    def name(self) -> str:
        return f"{self.rule}-{self.bound}" if self.bound else self.rule


def plain(name: str) -> Callable[[Fraction, Moment, Unit], Values]:
    return lambda value, _, __: {name: value}


def reach(value: F, moment: Moment, unit: Unit) -> Values:
    """A piece whose longer side leaves `value` between the hand at its end and the blade."""
    return {"length": value + (moment.setup.guide or F(0)) + moment.setup.kerf + HAND[unit]}


def left_above(value: F, moment: Moment, _: Unit) -> Values:
    return {"length": value + moment.setup.depth}


def with_far_side(far: int) -> Callable[[Fraction, Moment, Unit], Values]:
    """The fence at `value`, and `far` inches on the open side."""

    def put(value: F, moment: Moment, unit: Unit) -> Values:
        side = far if unit == "in" else far * 25
        return {"guide": value, "width": value + moment.setup.kerf + side}

    return put


def between_shoulders(value: F, _: Moment, unit: Unit) -> Values:
    """A rail with tenons of 2 in (50 mm) and `value` between their shoulders."""
    return {"length": value + (4 if unit == "in" else 100)}


TENONED = frozenset({("A", "cheek face"), ("B", "cheek face")})

ROWS = (
    Row("A04", "", 4, 100, lambda u: rip(u, keeps="far"), with_far_side(4),
        ("refuse", "-", "-"), "on shoulder cuts"),
    Row("A07", "fence_contact_across_grain", 12, 305, lambda u: rip(u, against="end-A"),
        plain("width"), ("refuse", "-", "-"), "woodworking club"),
    Row("A08", "", F(5, 2), 63, rip, plain("length"), ("warn", "-", "-"), "common practice"),
    Row("B01", "shortest_rip", 12, 300, rip, plain("length"),
        ("refuse", "-", "-"), "UK HSE, Circular saw bench"),
    # Open blade: 2·√(1 · 9) + 5/16 in with a 10 in blade; 2·√(25 · 225) + 8 with one of 250 mm.
    Row("B02", "", 6 + F(5, 16), 150 + 8,
        lambda u: rip(u, depth=F(1) if u == "in" else F(25), diameter=F(10 if u == "in" else 250)),
        plain("length"), ("refuse", "-", "-"), "worked out from the geometry"),
    Row("B03", "shortest_crosscut", 6, 150, lambda u: crosscut(u, clamp=False), plain("guide"),
        ("warn", "-", "-"), "manual of a US table saw, on crosscutting"),
    Row("B04", "hand_to_blade_warned", 6, 150, lambda u: shoulder(u, clamp=False, guide=F(1)),
        reach, ("warn", "-", "-"), "manual of a US table saw"),
    Row("B04", "hand_to_blade", 3, 75, lambda u: shoulder(u, clamp=False, guide=F(1)),
        reach, ("warn", "warn", "warn"), "Modern Cabinetmaking (2016), p. 406"),
    Row("B05", "push_stick_gap", 6, 150, rip, plain("guide"),
        ("caution", "-", "-"), "believed IEC/EN 62841-3-1"),
    Row("B06", "push_block_gap", 2, 50, rip, plain("guide"),
        ("warn", "-", "-"), "believed IEC/EN 62841-3-1"),
    Row("B08", "shortest_on_fence", 12, 300, groove, plain("length"),
        ("warn", "-", "-"), "woodworking magazine, on small parts"),
    Row("B08", "shortest_on_fence", 12, 300, end_bevel, plain("width"),
        ("warn", "-", "-"), "woodworking magazine, on small parts"),
    Row("B06", "push_block_gap", 2, 50, lambda u: rebate(u, guard="fitted"), plain("guide"),
        ("caution", "-", "-"), "believed IEC/EN 62841-3-1"),
    # Held by hand at 45°, a piece is no longer than on the plain sled.
    Row("B04", "hand_to_blade", 3, 75, lambda u: mitre(u, clamp=False), reach,
        ("warn", "warn", "warn"), "Modern Cabinetmaking (2016), p. 406"),
    Row("B09", "small_length", 8, 200, lambda u: shoulder(u, clamp=False), plain("length"),
        ("warn", "-", "-"), "ours"),
    Row("B09", "small_width", F(3, 2), 40, lambda u: shoulder(u, clamp=False), plain("width"),
        ("warn", "-", "-"), "ours"),
    Row("C01", "blade_above_work", F(1, 4), 6, lambda u: rip(u, thickness=F(0)), plain("depth"),
        ("-", "-", "warn"), "US school's woodshop"),
    Row("C02", "", F(3, 4), 19, rip, plain("depth"), ("refuse", "refuse", "-"), "UK HSE, WIS16"),
    # Thicker than the plate, thinner than the kerf.
    Row("C05", "", F(1, 8), F(16, 5), rip, plain("knife_thickness"),
        ("-", "refuse", "refuse"), "UK HSE, Circular saw bench"),
    Row("C05", "", F(3, 32), F(11, 5), rip, plain("knife_thickness"),
        ("refuse", "refuse", "-"), "UK HSE, Circular saw bench"),
    # Three fifths of 10 in, of 254 mm.
    Row("C11", "", 6, F(762, 5), rip, plain("diameter"),
        ("warn", "-", "-"), "UK HSE, WIS16"),
    Row("D03", "dado_width", F(13, 16), 20, lambda u: groove(u, kind="dado", diameter=F(8)),
        plain("kerf"), ("-", "-", "refuse"), "EN 1870-1:2007, scope"),
    Row("D03", "dado_diameter", 8, 203, lambda u: groove(u, kind="dado", kerf=F(1, 4)),
        plain("diameter"), ("-", "-", "refuse"), "manual of a US table saw, on dado sets"),
    Row("D05", "groove_depth", F(3, 8), 10, groove, plain("depth"),
        ("-", "-", "warn"), "common practice"),
    Row("E02", "longest_on_end", 36, 900, cheek, plain("length"), ("-", "-", "warn"), "ours"),
    Row("E05", "ordinary_fence", F(5, 2), 65, lambda u: groove(u, fence_height=None),
        lambda v, _, __: {"width": 2 * v}, ("-", "-", "warn"), "on tall fences for panels"),
    Row("E05", "", 3, 75, groove,
        lambda v, _, __: {"width": 2 * v}, ("-", "-", "warn"), "on tall fences for panels"),
    Row("E05", "tall_fence", 8, 200, lambda u: groove(u, width=F(20 if u == "in" else 500)),
        plain("fence_height"), ("warn", "-", "-"), "ours"),
    Row("E07", "insert_opening", F(1, 4), 6, groove, plain("thickness"),
        ("warn", "warn", "-"), "woodworking club"),
    Row("E07", "insert_opening", F(1, 4), 6, rip,
        lambda v, m, _: {"width": (m.setup.guide or F(0)) + m.setup.kerf + v},
        ("warn", "warn", "-"), "woodworking magazine, on small parts"),
    Row("E07", "insert_opening", F(1, 4), 6, bevel, plain("guide"),
        ("warn", "warn", "-"), "woodworking club"),
    # A panel on its end is as tall as it is long.
    Row("E05", "", 6, 155, lambda u: end_bevel(u, length=F(12 if u == "in" else 310)),
        plain("fence_height"), ("warn", "-", "-"), "on tall fences for panels"),
    Row("E02", "tallest_on_end", 60, 1500, cheek, plain("length"), ("warn", "warn", "refuse"),
        "worked out from the geometry"),
    Row("E02", "tallest_on_end", 60, 1500, end_bevel, plain("length"),
        ("warn", "warn", "refuse"), "worked out from the geometry"),
    Row("E02", "longest_on_end", 36, 900, end_bevel, plain("length"),
        ("-", "-", "warn"), "ours"),
    Row("D05", "groove_depth", F(3, 8), 10, rebate, plain("depth"),
        ("-", "-", "warn"), "common practice"),
    Row("E08", "highest_on_end", F(5, 2), 65, cheek, plain("depth"), ("-", "-", "warn"), "ours"),
    Row("F01", "strip_at_fence", F(1, 2), 12, rip, plain("guide"),
        ("refuse", "warn", "warn"), "woodworking magazine, on thin strips"),
    Row("F01", "strip", F(3, 2), 38, rip, plain("guide"), ("warn", "-", "-"), "ours"),
    Row("F02", "strip_parent", 3, 75, lambda u: rip(u, keeps="far"), with_far_side(1),
        ("refuse", "warn", "warn"), "Modern Cabinetmaking (2016), p. 406"),
    Row("G05", "long_piece", 36, 900, crosscut, plain("length"),
        ("-", "-", "caution"), "UK HSE, Circular saw bench"),
    # The shop's own.
    Row("H01", "", 60, 1500, crosscut, plain("length"), ("-", "-", "refuse"), "ours"),
    Row("H02", "", 24, 600, crosscut, plain("width"), ("-", "-", "refuse"), "ours"),
    Row("H03", "", 3, 75, cheek, plain("thickness"), ("-", "-", "refuse"), "ours"),
    Row("H03", "", 3, 75, lambda u: cheek(u, against="outside-edge"), plain("width"),
        ("-", "-", "refuse"), "ours"),
    Row("H04", "", F(25, 8), 79, cheek, plain("height"), ("-", "-", "refuse"), "ours"),
    # 2 in less across than the largest reaches 1 in less: 3-1/8 − 1; 79 − 27 for 200 mm.
    Row("H05", "", F(17, 8), 52, lambda u: cheek(u, diameter=F(8 if u == "in" else 200)),
        plain("height"), ("-", "-", "refuse"), "worked out from the geometry"),
    Row("H06", "clamped_on_end", 4, 100, cheek, left_above, ("refuse", "-", "-"), "ours"),
    Row("H07", "bearing_between_shoulders", 12, 300,
        lambda u: groove(u, part=rail(u), done=TENONED), between_shoulders,
        ("refuse", "-", "-"), "ours"),
    Row("H08", "bearing_in_jig", 2, 50,
        lambda u: cheek(u, part=rail(u), against="back", done=TENONED), between_shoulders,
        ("refuse", "-", "-"), "ours"),
    Row("H01", "", 60, 1500, mitre, plain("length"), ("-", "-", "refuse"), "ours"),
    Row("J01", "base_at_fence", 6, 150, groove, plain("length"), ("refuse", "-", "-"), "ours"),
    Row("J01", "base_carried", 4, 100, bevel, plain("length"), ("refuse", "-", "-"), "ours"),
    Row("J01", "base_carried", 4, 100, end_bevel, plain("width"),
        ("refuse", "-", "-"), "common practice"),
    Row("J04", "edge_on_end", F(5, 8), 15, lambda u: cheek(u, against="outside-edge"),
        plain("thickness"), ("refuse", "warn", "warn"), "ours"),
    Row("J09", "stands_on_tongue", F(1, 2), 12,
        lambda u: rebate(u, does="rebate", down="outside-edge", against="back",
                         done=frozenset({("outside-edge", "rebate face")})),
        lambda v, m, _: {"guide": (m.thickness + v) / 2}, ("warn", "-", "-"), "ours"),
    Row("J10", "thin_at_fence", F(1, 8), F(16, 5), rip, plain("thickness"),
        ("warn", "warn", "caution"), "manuals of table saws, on thin stock"),
    Row("J10", "thin", F(1, 4), 6, rip, plain("thickness"), ("caution", "caution", "-"), "ours"),
    Row("J04", "narrow_on_end", F(3, 4), 20, cheek, plain("width"),
        ("refuse", "warn", "warn"), "ours"),
    Row("J04", "narrow_on_end_warned", F(3, 2), 38, cheek, plain("width"),
        ("warn", "-", "-"), "common practice"),
)  # fmt: skip


@pytest.mark.parametrize("unit", ["in", "mm"])
@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.name)
def test_a_rule_at_its_figure(row: Row, unit: Unit) -> None:
    figure = F(row.inch if unit == "in" else row.mm)
    figures = limits(unit, {})
    if row.bound:
        assert figures[row.bound] == figure
    ordinary = row.ordinary(unit)
    found = []
    for value in (figure - F(1, 1000), figure, figure + F(1, 1000)):
        finding = PREDICATES[row.rule](change(ordinary, **row.put(value, ordinary, unit)), figures)
        found.append("-" if finding is None else finding.level)
        if row.bound and finding is not None and finding.limit == figure:
            assert finding.measured == value
    assert tuple(found) == row.levels
    assert row.source in load().by_id[row.rule].source


HELD = (
    ("push_block_gap", rip, plain("guide"), ("push-block", "push-stick", "push-stick")),
    ("push_stick_gap", rip, plain("guide"), ("push-stick", "hand", "hand")),
    ("hand_to_blade_warned", lambda u: shoulder(u, guide=F(1)), reach, ("clamp", "hand", "hand")),
)


@pytest.mark.parametrize("unit", ["in", "mm"])
@pytest.mark.parametrize(("bound", "ordinary", "put", "held"), HELD, ids=[row[0] for row in HELD])
def test_what_holds_the_piece_is_what_the_rules_ask_for_to_the_very_figure(
    bound: str,
    ordinary: Callable[[Unit], Moment],
    put: Callable[[Fraction, Moment, Unit], Values],
    held: tuple[str, ...],
    unit: Unit,
) -> None:
    """Under the figure, at it, over it: as B06, B05 and B04 above, which have the sources."""
    figures, usual = limits(unit, {}), ordinary(unit)
    values = [figures[bound] + off for off in (-F(1, 1000), F(0), F(1, 1000))]
    passes = [change(usual, **put(value, usual, unit)) for value in values]
    assert tuple(hold(each, figures).by for each in passes) == held


# Open blade at the table, twice the root of h·(D − h), with D = 254 mm, worked out by hand to the
# nearest millimetre.
CHORDS = ((6, 77), (10, 99), (15, 120), (22, 143), (25, 151), (40, 185), (50, 202), (75, 232))


@pytest.mark.parametrize(("height", "chord"), CHORDS)
def test_a_piece_shorter_than_the_open_blade(height: int, chord: int) -> None:
    figures = limits("mm", {})
    # The knife stands up to 8 mm behind the teeth (EN 1870-19).
    for length, refused in ((chord + 8 - 1, True), (chord + 8 + 1, False)):
        pass_ = rip("mm", thickness=F(1), depth=F(height), length=F(length))
        finding = PREDICATES["B02"](pass_, figures)
        assert (finding is not None) is refused
        if finding is not None and finding.limit is not None:
            assert abs(finding.limit - chord - 8) < 1


def test_a_19_mm_board_shorter_than_151_mm_never_reaches_the_knife() -> None:
    # Worked out by hand: h = 22, D = 254, 2·√(22 · 232) = 142.9, and the gap of 8.
    figures = limits("mm", {})
    assert PREDICATES["B02"](rip("mm", length=F(150)), figures) is not None
    assert PREDICATES["B02"](rip("mm", length=F(151)), figures) is None
