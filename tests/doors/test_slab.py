"""Solid doors: as wide as the year lets them be, glued up and cut, alone and among framed ones."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import event, given
from hypothesis import strategies as st

from sequencer import contract, sheets
from sequencer.errors import InputError
from sequencer.facts import Fact, Length, fills, seasons
from sequencer.job.defaults import lengths
from sequencer.job.load import load_job
from sequencer.lengths import Unit, mixed, show
from sequencer.movement import width_at
from sequencer.trade.species import find
from tests.stages import to_leaves, to_plan
from tests.told import refused, tells, told

F = Fraction

SLAB = """
unit = "in"
species = "cherry"
[stock]
thickness = "3/4"
[wood]
moisture = "8"
[room]
region = "most of the US"
[slab]
boards = 4
[[door]]
[door.opening]
width = "15"
height = "20"
"""


def test_a_slab_worked_by_hand() -> None:
    """Black cherry, flat sawn, 0.00248 for 1 % (Wood Handbook, Table 13-5, p. 13-16): 1.00496
    times as wide at 10 % as at 8 %. Between hinge gap 3/32 and the free side there is 14.90625 in.
    With 1/32 in of air left: (0.03125 + 14.90625 · 0.00496) / 1.00496 = 0.104666 in of gap today,
    on 1/64 in 7/64. Width 14.90625 − 0.109375 = 14.796875 in; it swells by 0.0733925 and leaves
    0.0359825 in."""
    (leaf,) = to_leaves(SLAB)
    (slab,) = leaf.parts
    assert (slab.role, slab.features) == ("slab", ())
    assert slab.size.width == F("14.796875")
    assert slab.size.length == 20 - F(3, 16)
    assert leaf.door.gaps["lock"] == F(7, 64)
    assert leaf.season is not None
    assert leaf.season.slab is not None
    assert leaf.season.gap is not None
    assert leaf.season.slab.widths[2] == F("14.796875") * F("1.00496")
    assert leaf.season.gap.gaps[2] == F("0.0359825")


def test_a_usual_gap_stays_where_it_is_wide_enough() -> None:
    """9 in: (0.03125 + 8.90625 · 0.00496) / 1.00496 = 0.0751, under 3/32."""
    (leaf,) = to_leaves(SLAB.replace('"15"', '"9"'))
    assert leaf.door.gaps["lock"] == F(3, 32)


def test_a_pair_shares_its_meeting_gap() -> None:
    """Two slabs in 30 in: 29.8125 in between the hinge gaps; (1/16 + 29.8125 · 0.00496) / 1.00496
    = 0.20933, on 1/64 in 7/32; each (29.8125 − 0.21875) / 2 in wide."""
    text = SLAB.replace("[[door]]", "[[door]]\nleaves = 2").replace('"15"', '"30"')
    left, right = to_leaves(text)
    assert left.parts[0].size.width == right.parts[0].size.width == F("14.796875")
    assert left.door.gaps["meeting"] == F(7, 32)
    assert (left.door.hinge, right.door.hinge) == ("left", "right")
    assert right.door.at[0] == F(3, 32) + F("14.796875") + F(7, 32)
    assert to_plan(text).proven


def test_the_plan_of_slabs_alone() -> None:
    """Milled, glued up, ripped, squared and crosscut, finished, hung; four boards a blank."""
    plan = to_plan(SLAB + '[[board]]\nthickness = "1"\nlength = "96"\nwidth = "6"\n')
    assert plan.proven
    assert [step.kind for step in plan.steps if step.setup is None] == [
        "mill", "edge glue-up", "finish", "hang",
    ]  # fmt: skip
    cutting = [step.kind for step in plan.steps if step.cuts]
    assert cutting == ["rip", "square", "crosscut"]
    glue = next(step for step in plan.steps if step.kind == "edge glue-up")
    rip = next(step for step in plan.steps if step.kind == "rip")
    assert glue.number < rip.number
    assert glue.marks == ("#1",)
    (stick,) = plan.sticks
    assert stick.boards == 4
    strips = [blank for board in plan.boards for blank in board.blanks]
    assert len(strips) == 4
    assert not plan.missing
    assert contract.from_json(contract.to_json(plan)) == plan


def test_as_many_boards_as_the_stock_asks_for() -> None:
    """A blank 15 1/2 in wide from boards that leave 5 3/4: three of them would be enough by width,
    but each loses 1/8 in to jointing."""
    text = SLAB.replace("boards = 4\n", "")
    plan = to_plan(text + '[[board]]\nthickness = "1"\nlength = "96"\nwidth = "6"\n')
    strips = [blank for board in plan.boards for blank in board.blanks]
    assert len(strips) == 3
    assert plan.sticks[0].boards == 3


def test_beside_framed_doors() -> None:
    text = SLAB.replace("[slab]\nboards = 4\n", "") + (
        '[[door]]\nfill = "slab"\n[door.opening]\nwidth = "12"\nheight = "18"\n'
    )
    framed, solid = to_leaves(text)
    assert len(framed.parts) == 5
    assert [part.mark for part in solid.parts] == ["B1"]
    plan = to_plan(text)
    assert plan.proven
    assert [door.mark for door in plan.doors] == ["A", "B"]


def test_an_overlay_slab_has_room_to_grow() -> None:
    (leaf,) = to_leaves(SLAB + '[door.sits]\nhow = "overlay"\n')
    assert leaf.door.gaps["lock"] < 0
    assert leaf.season is not None
    assert leaf.season.gap is None
    assert leaf.season.slab is not None


def test_the_sheets_show_its_year() -> None:
    plan = to_plan(SLAB)
    page = sheets.html(plan)
    assert "width 14.797" in page
    points = {str(point.measure): point for point in plan.checkpoints}
    width = points["slab-width"]
    assert (width.target, width.high) == (F("14.796875"), F("14.8125"))


@given(
    st.sampled_from(("in", "mm")),
    st.sampled_from(("cherry", "ash", "hickory", "teak", "pine")),
    st.tuples(*[st.integers(45, 150)] * 3),
    st.integers(6, 30),
    st.integers(1, 2),
    st.none() | st.integers(1, 24),
)
def test_in_the_wettest_season_the_gap_holds(
    unit: Unit,
    wood: str,
    moist: tuple[int, int, int],
    width: int,
    leaves: int,
    stated: int | None,
) -> None:
    """Or the job is refused, and the least gap that it names is let through."""
    scale = F(1) if unit == "in" else F(25)
    driest, wettest = sorted(moist[:2])
    side = ("lock", "meeting")[leaves - 1]

    def text(gap: Fraction | None) -> str:
        said = "" if gap is None else mixed(gap) if unit == "in" else show(gap, unit, F(1)).decimal
        return (
            f'unit = "{unit}"\nspecies = "{wood}"\n[stock]\nthickness = "{scale * 3 / 4}"\n'
            f'[wood]\nmoisture = "{moist[2] / 10}"\n'
            f'[room]\ndriest = "{driest / 10} %"\nwettest = "{wettest / 10}"\n[slab]\n'
            f'[[door]]\nleaves = {leaves}\n[door.opening]\nwidth = "{leaves * width * scale}"\n'
            f'height = "{20 * scale}"\n' + (f'[door.gaps]\n{side} = "{said}"\n' if said else "")
        ).replace('"75/4"', '"18.75"')

    gap = None if stated is None else stated * (F(1, 64) if unit == "in" else F(1, 2))
    try:
        (door,) = load_job(text(gap), "job.toml").doors
    except InputError as error:
        event("refused")
        (fault,) = error.faults
        if isinstance(fault.hint, Fact) and fault.hint.kind is seasons.LEAST_GAP_TODAY:
            least = fault.hint.given["least"]
            assert isinstance(least, Length)
            load_job(text(least.value), "job.toml")
        else:
            assert tells(told([fault]), seasons.SWELLS_TOO_MUCH)
        return
    event("made" if gap is None else "as stated")
    (leaf, *_) = to_leaves(text(gap))
    today = leaf.door.gaps[side]
    assert gap is None or today == gap
    across = leaves * leaf.parts[0].size.width
    for each in find(wood):
        grown = width_at(across, each, "flat", F(moist[2], 10), F(wettest, 10))
        assert today - (grown - across) >= lengths(unit)[f"limits.{side}_air"]
    assert door.slab is not None


@pytest.mark.parametrize("key", ["stiles.hinge", "rails.top", "groove.depth", "joint.slot"])
def test_a_frames_keys_mean_nothing_to_it(key: str) -> None:
    table, name = key.split(".")
    text = SLAB + f'[door.slab]\n[door.{table}]\n{name} = "1/4"\n'
    assert fills.KEY_IDLE(key=key, fill="a-slab") in refused(lambda: load_job(text, "job.toml"))


def test_by_rule_of_thumb_where_nothing_is_said_of_the_year() -> None:
    """As for stiles, half a hundredth of the width either way: 14.90625 in,
    (0.03125 + 14.90625 · 0.005) / 1.005 = 0.10526, on 1/64 in 7/64."""
    text = SLAB.replace('[wood]\nmoisture = "8"\n[room]\nregion = "most of the US"\n', "")
    (leaf,) = to_leaves(text)
    assert leaf.season is None
    assert leaf.door.gaps["lock"] == F(7, 64)
