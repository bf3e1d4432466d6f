"""Raised panels: the wedge in its groove over the year, the field's step, and what is refused."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from hypothesis import assume, event, given
from hypothesis import strategies as st

from sequencer import contract
from sequencer.doors import Leaf, make_leaves
from sequencer.doors.fills.raised import Wedge
from sequencer.errors import InputError, Refusal
from sequencer.job.load import load_job
from sequencer.lengths import Unit, mixed, show
from sequencer.measured import Measured
from sequencer.methods import Choices
from sequencer.plan import Part
from sequencer.records import replace
from tests.stages import to_leaves, to_plan

F = Fraction

DOOR = """
unit = "in"
species = "cherry"
[stock]
thickness = "3/4"
[groove]
width = "1/4"
[wood]
moisture = "8"
[room]
region = "most of the US"
[panel]
thickness = "9/16"
[raised]
bevel = "1-1/4"
[[door]]
[door.opening]
width = "15"
height = "20"
"""


def test_a_panel_worked_by_hand() -> None:
    """In a groove 1/4 by 1/4 in the panel fits with 0.240 in, where it is 1/4 − 1/64 = 15/64 in
    from its edge: no deeper does it ever go. At the bevel's end, 1-1/4 in from the edge, it is
    9/16 − 1/16 = 1/2 in thick. Slope (0.5 − 0.24) / (1.25 − 0.234375) = 0.256; the edge
    0.24 − 0.234375 · 0.256 = 0.18 in thick."""
    (leaf,) = to_leaves(DOOR)
    (panel,) = leaf.fills
    assert panel.size.thickness == F(9, 16)
    assert [feature.at for feature in panel.features] == ["A", "B", "inside-edge", "outside-edge"]
    prism = panel.features[2].prism
    assert prism is not None
    assert prism.axes == "yz"
    assert prism.corners == (
        (F(0), F(0)),
        (F(0), F(9, 16) - F("0.18")),
        (F(5, 4), F(1, 16)),
        (F(5, 4), F(0)),
    )
    wedge = Wedge(F(9, 16), F(5, 4), F(1, 16), F("0.18"), F(15, 64))
    assert wedge.slope == F("0.256")
    assert wedge.thick(F(15, 64)) == F("0.24")
    # The back lies where a flat panel's would: 1/4 + 1/4 − 0.005 in from the frame's face.
    (place,) = (place for place in leaf.door.places if place.mark == panel.mark)
    assert place.origin[2] == F("0.495") - F(9, 16)


def test_the_virtual_saw_proves_it() -> None:
    plan = to_plan(DOOR)
    assert "proof.panels-free" in str(plan.proven[1])
    assert contract.from_json(contract.to_json(plan)) == plan
    (setup,) = (setup for setup in plan.setups if setup.tilt)
    assert setup.tilt == F("-0.256")
    assert setup.guide == F("0.18")
    (step,) = (step for step in plan.steps if step.kind == "bevel")
    assert [cut.down for cut in step.cuts] == ["end-A", "end-B", "inside-edge", "outside-edge"]
    assert {cut.against for cut in step.cuts} == {"back"}
    kinds = [each.kind for each in plan.steps]
    assert kinds.index("dry fit") < kinds.index("bevel") < kinds.index("finish")
    (point,) = (point for point in plan.checkpoints if point.setup == setup.number)
    assert (point.target, point.per_unit, point.knob) == (F("0.24"), F(1), "fence")
    (scrap,) = (stick for stick in plan.sticks if stick.mark == point.scrap)
    assert (scrap.size.thickness, scrap.test) == (F(9, 16), True)


def test_two_panels_between_bars() -> None:
    text = DOOR.replace("[raised]", '[[bar]]\nkind = "mid rail"\n[raised]')
    plan = to_plan(text.replace('height = "20"', 'height = "30"'))
    assert plan.proven
    assert len([part for part in plan.parts if part.role == "panel"]) == 2


def test_a_step_over_the_kerf() -> None:
    """1/8 in of kerf less 0.010 in, so that a thinner one leaves no fin: 0.115 in."""
    for step in ("3/16", "1/8"):
        text = DOOR.replace("[raised]", f'[raised]\nstep = "{step}"')
        with pytest.raises(Refusal, match=f"most=23/200 in, step={step} in"):
            to_leaves(text)
    plan = to_plan(DOOR.replace("[raised]", '[raised]\nstep = "0.115"'))
    assert plan.proven


def test_a_panel_too_thin_to_bevel() -> None:
    with pytest.raises(Refusal, match="bevel-too-thin"):
        to_leaves(DOOR.replace("9/16", "1/4"))


def test_an_edge_too_thin_for_its_groove() -> None:
    """A bevel 1/2 in wide on 3/4 in stock falls steeply: 0.24 − 0.234375 · 1.6894 < 0. Wide enough
    for an edge of 1/16 in: 0.234375 · (0.6875 − 0.0625) / (0.24 − 0.0625) = 0.8253 in."""
    text = DOOR.replace("9/16", "3/4").replace("1-1/4", "1/2")
    with pytest.raises(Refusal, match=r"wider=([0-9/]+) in") as refused:
        to_leaves(text)
    assert "least=1/16 in" in str(refused.value)
    assert float(F(re.findall(r"wider=([0-9/]+)", str(refused.value))[0])) == pytest.approx(
        0.8253, abs=1e-4
    )
    to_leaves(text.replace('"1/2"', '"53/64"'))


def test_a_groove_too_narrow_for_any_edge() -> None:
    """1/16 in and the 0.010 in that a panel slides in by: however wide the bevel, what enters the
    groove is as thin as an edge may be, and the edge thinner. No width is named as the remedy."""
    text = DOOR.replace('width = "1/4"', 'width = "0.0725"')
    with pytest.raises(Refusal, match=r"edge-too-thin.*wider=None"):
        to_leaves(text)


@st.composite
def asked(draw: st.DrawFn) -> str:
    unit: Unit = draw(st.sampled_from(("in", "mm")))
    step = F(1, 32) if unit == "in" else F(1, 2)

    def said(low: str, high: str) -> str:
        scale = 1 if unit == "in" else F(127, 5)
        length = step * draw(st.integers(int(F(low) * scale / step), int(F(high) * scale / step)))
        return mixed(length) if unit == "in" else show(length, unit, F(1)).decimal

    moist = sorted(draw(st.integers(50, 140)) for _ in range(2))
    today = draw(st.integers(50, 140))
    sawn = draw(st.sampled_from(("flat", "quarter")))
    year = (
        f'[wood]\nmoisture = "{today / 10}"\nsawn = "{sawn}"\n'
        f'[room]\ndriest = "{moist[0] / 10} %"\nwettest = "{moist[1] / 10}"\n'
    )
    return (
        f'unit = "{unit}"\nspecies = "{draw(st.sampled_from(("cherry", "oak", "pine")))}"\n'
        f'[stock]\nthickness = "{said("5/8", "7/8")}"\n[gaps]\nlock = "{said("3/8", "15/32")}"\n'
        + (year if draw(st.booleans()) else "")
        + f'[groove]\ndepth = "{said("1/4", "1/2")}"\n[panel]\nthickness = "{said("3/8", "3/4")}"\n'
        f'[raised]\nbevel = "{said("3/4", "2")}"\nstep = "{said("1/32", "1/8")}"\n'
        f'[[door]]\n[door.opening]\nwidth = "{said("11", "20")}"\nheight = "{said("12", "24")}"\n'
    )


@given(asked())
def test_over_the_year_the_wedge_never_binds(text: str) -> None:
    """At its widest, and at its ends, the panel is no thicker at the groove's mouth than fits; in
    the driest season it is still held."""
    try:
        job = load_job(text, "job.toml")
        (leaf,) = make_leaves([job], KERFS[job.unit], Measured(), Choices())
    except (InputError, Refusal):
        event("refused")
        assume(False)
        return
    event("with a year" if leaf.season else "without")
    (panel,) = leaf.fills
    (light,) = leaf.lights
    room = leaf.sizes.groove[1] - leaf.sizes.groove[0]
    ends = (panel.size.length - light.height) / 2
    assert 0 < thick_at(panel, ends) < room
    assert wedges_alike(panel)
    sides = [(panel.size.width - light.width) / 2]
    if leaf.season is not None:
        sides += leaf.season.panels[0].reach
        assert min(sides) >= leaf.spec.panel.engagement
    for reach in sides:
        assert reach < leaf.sizes.groove_depth
        assert thick_at(panel, reach) <= leaf.sizes.panel < room
    # At the bevel's inner end it stands clear of the frame, step and all.
    assert leaf.spec.fill is not None
    assert_clear(leaf, panel)


def thick_at(panel: Part, inward: Fraction) -> Fraction:
    """By the drawn section of the inside edge, straight from corner to corner."""
    prism = panel.features[2].prism
    assert prism is not None
    _, (_, at_edge), (wide, at_field), _ = prism.corners
    return panel.size.thickness - at_edge + (at_edge - at_field) * inward / wide


def wedges_alike(panel: Part) -> bool:
    deep = {max(z for _, z in f.prism.corners) for f in panel.features if f.prism is not None}
    return len(deep) == 1 and panel.size.thickness - deep.pop() > 0


def assert_clear(leaf: Leaf, panel: Part) -> None:
    """Behind, the flat back lies inside the groove over the whole year."""
    (place,) = (place for place in leaf.door.places if place.mark == panel.mark)
    back = place.origin[2] + panel.size.thickness
    assert leaf.sizes.groove[0] < back < leaf.sizes.groove[1]


KERFS: dict[Unit, Fraction] = {"in": F(1, 8), "mm": F(16, 5)}


def test_a_groove_that_is_stated_deeper_keeps_the_bevel_out_of_it() -> None:
    """The same panel, made for a groove 3/8 in deep, is thinner 1/4 in from its edge."""
    (shallow,) = to_leaves(DOOR)[0].fills
    (deep,) = to_leaves(DOOR.replace('width = "1/4"', 'width = "1/4"\ndepth = "3/8"'))[0].fills
    assert thick_at(deep, F(1, 4)) < thick_at(shallow, F(1, 4))
    assert replace(deep, features=()).size.thickness == shallow.size.thickness
