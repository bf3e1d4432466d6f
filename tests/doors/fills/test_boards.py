"""Tongue-and-groove boards: worked by hand, over the year, on the saw, and what is refused."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import event, given
from hypothesis import strategies as st

from sequencer import contract, pipeline, sheets
from sequencer.batch import read_batch
from sequencer.doors import Leaf, make_leaves
from sequencer.errors import Fault, InputError, Refusal
from sequencer.facts import Fact, Kind, Length, doors, feels, fills, seasons
from sequencer.job.load import load_job
from sequencer.job.schema import Job
from sequencer.lengths import Unit, mixed, show
from sequencer.measured import Measured
from sequencer.methods import Choices
from sequencer.movement import width_at
from sequencer.plan import BoardSeason, Part
from sequencer.proof import prove
from sequencer.proof.standing import Standing
from sequencer.records import replace
from sequencer.trade.fits import LEAST_AIR
from sequencer.trade.species import Sawn, find
from tests.stages import to_job, to_leaves, to_plan
from tests.told import tells, told

F = Fraction

DOOR = """
unit = "in"
species = "cherry"
[stock]
thickness = "7/8"
[wood]
moisture = "8"
[room]
region = "most of the US"
[panel]
thickness = "3/8"
engagement = "1/8"
[boarded]
width = "3"
[[door]]
[door.opening]
width = "15"
height = "20"
"""


def test_a_door_worked_by_hand() -> None:
    """Black cherry, flat sawn, moves 0.00248 of its width for 1 % (Wood Handbook, Table 13-5,
    p. 13-16): 0.00496 from 8 to 10 % and from 8 to 6 %. Sight 15 − 3/16 − 4 = 10.8125 in, four
    boards of at most 3 in, one joint each 2.703125 in.

    reach   1/4 − 1/64 − (2.703125 + 1/4) / 2 · 0.00496 = 0.22705, on 1/64: 7/32
    gap     1/64 + (2.703125 + 7/32) · 0.00496 = 0.03012, up: 1/32
    inner   2.703125 − 1/32 = 2.671875 = 2 43/64
    outer   (10.8125 + 7/16 − 2 · 2.671875 − 3/32) / 2 = 2.90625, of which 2.6875 show
    tongue  gap when driest 1/32 + (2.671875 + 2.90625) / 2 · 0.00496 = 0.045084, and 1/8 of hold:
            0.170084 / 0.99504 = 0.17093, up: 11/64
    """
    (leaf,) = to_leaves(DOOR)
    first, second, third, last = leaf.fills
    assert [part.role for part in leaf.fills] == ["board"] * 4
    assert first.size.width == F("2.90625") + F(11, 64)
    assert second.size.width == third.size.width == F("2.671875") + F(11, 64)
    assert last.size.width == F("2.90625")
    assert first.size.length == F("15.8125") + 2 * (F(1, 4) - F(5, 64))
    assert kinds(first) == [("rebate", "outside-edge")] * 2
    assert kinds(second) == [("groove", "inside-edge"), *[("rebate", "outside-edge")] * 2]
    assert kinds(last) == [("groove", "inside-edge")]
    # 3/8 in thick, a third of it 1/8: one pass of the kerf, and a tongue 0.010 in thinner.
    assert last.features[0].box[1:] == ((F(0), F(11, 64)), (F(1, 8), F(1, 4)))
    tongue = first.features[1].box[2][0] - first.features[0].box[2][1]
    assert tongue == F(1, 8) - F(1, 100)
    assert leaf.season is not None
    (year,) = leaf.season.boards
    assert year.leave == (F("0.03125") + D, F("0.03125"), F("0.03125") - D)
    assert year.reach[1] == F(7, 32)
    assert year.hold[0] == F(11, 64) * F("0.99504") - (F("0.03125") + D)


D = F("2.7890625") * F("0.00496")
"""What half of an inner and half of an outer board move together, 8 to 10 %."""


def kinds(part: Part) -> list[tuple[str, str]]:
    return [(feature.kind, feature.at) for feature in part.features]


def test_boards_lie_side_by_side_with_their_gaps() -> None:
    (leaf,) = to_leaves(DOOR)
    assert leaf.season is not None
    (year,) = leaf.season.boards
    edges = []
    for part in leaf.fills:
        (place,) = (place for place in leaf.door.places if place.mark == part.mark)
        tongue = [f.box[1][0] for f in part.features if f.at == "outside-edge"]
        edges.append((place.origin[0], place.origin[0] + (tongue or [part.size.width])[0]))
    (light,) = leaf.lights
    assert edges[0][0] == light.left - year.reach[1]
    assert edges[-1][1] == light.left + light.width + year.reach[1]
    assert {after[0] - before[1] for before, after in pairwise(edges)} == {year.leave[1]}


@dataclass(frozen=True)
class Asked:
    """A job of one door of boards, as it will be written."""

    unit: Unit
    wood: str
    sawn: Sawn
    today: Fraction
    driest: Fraction
    wettest: Fraction
    width: Fraction
    depth: Fraction
    most: Fraction
    tongue: Fraction | None

    def text(self) -> str:
        inch = self.unit == "in"

        def said(length: Fraction) -> str:
            return mixed(length) if inch else show(length, self.unit, F(1)).decimal

        moist = [f"{int(m * 10) // 10}.{int(m * 10) % 10}" for m in
                 (self.today, self.driest, self.wettest)]  # fmt: skip
        return (
            f'unit = "{self.unit}"\nspecies = "{self.wood}"\n'
            f'[stock]\nthickness = "{"3/4" if inch else "19"}"\n[gaps]\n'
            f'lock = "{"3/8" if inch else "10"}"\n'
            f'[wood]\nsawn = "{self.sawn}"\nmoisture = "{moist[0]}"\n'
            f'[room]\ndriest = "{moist[1]} %"\nwettest = "{moist[2]}"\n'
            f'[groove]\ndepth = "{said(self.depth)}"\n[boarded]\nwidth = "{said(self.most)}"\n'
            + ("" if self.tongue is None else f'tongue = "{said(self.tongue)}"\n')
            + f'[[door]]\n[door.opening]\nwidth = "{said(self.width)}"\n'
            f'height = "{"20" if inch else "500"}"\n'
        )

    def load(self) -> Job:
        return load_job(self.text(), "job.toml")

    def faults(self) -> tuple[Fault, ...]:
        try:
            self.load()
        except InputError as error:
            return error.faults
        return ()


@st.composite
def asked(draw: st.DrawFn) -> Asked:
    unit: Unit = draw(st.sampled_from(("in", "mm")))
    step = F(1, 32) if unit == "in" else F(1, 2)

    def length(low: str, high: str) -> Fraction:
        scale = 1 if unit == "in" else F(127, 5)
        return step * draw(st.integers(int(F(low) * scale / step), int(F(high) * scale / step)))

    moist = st.integers(40, 160).map(lambda n: F(n, 10))
    seasons = sorted((draw(moist), draw(moist)))
    return Asked(
        unit=unit,
        wood=draw(st.sampled_from(("cherry", "ash", "oak", "hickory", "teak", "pine"))),
        sawn=draw(st.sampled_from(("flat", "quarter"))),
        today=draw(moist),
        driest=seasons[0],
        wettest=seasons[1],
        width=length("8", "24"),
        depth=length("3/16", "1/2"),
        most=length("3/2", "6"),
        tongue=draw(st.none()) if draw(st.booleans()) else length("1/16", "1/2"),
    )


@given(asked())
def test_over_the_year_nothing_binds_and_every_tongue_holds(job: Asked) -> None:
    """Or the job is refused with a figure that then passes."""
    if faults := job.faults():
        event("refused")
        for fault in faults:
            a_figure_that_passes(job, told([fault]))
        return
    event("made")
    (leaf,) = make_leaves([job.load()], KERFS[job.unit], Measured(), Choices())
    for each in find(job.wood):
        for then in (job.driest, job.wettest, job.today):
            grown = (
                width_at(F(1), each, job.sawn, job.today, then) if each.moves(job.sawn) else F(1)
            )
            holds_at(leaf, grown, job)


KERFS: dict[Unit, Fraction] = {"in": F(1, 8), "mm": F(16, 5)}


def holds_at(leaf: Leaf, grown: Fraction, job: Asked) -> None:
    """Each board about its own middle, in the door's frame, as wide as it then is."""
    air, hold = LEAST_AIR.of(job.unit), leaf.spec.panel.engagement
    (light,) = leaf.lights
    spans = []
    for part in leaf.fills:
        (place,) = (place for place in leaf.door.places if place.mark == part.mark)
        tongue = [f.box[1][1] - f.box[1][0] for f in part.features if f.at == "outside-edge"]
        groove = [f.box[1][1] for f in part.features if f.kind == "groove"]
        long, deep = (tongue or [F(0)])[0], (groove or [F(0)])[0]
        middle = place.origin[0] + (part.size.width - long) / 2
        half = (part.size.width - long) / 2 * grown
        spans.append((middle - half, middle + half, long * grown, deep * grown))
    for (_, right, long, _), (left, _, _, deep) in pairwise(spans):
        assert left - right >= air  # shoulders
        assert left + deep - (right + long) >= air  # the tongue does not come to the bottom
        assert right + long - left >= hold
    depth = leaf.sizes.groove_depth
    for reach in (light.left - spans[0][0], spans[-1][1] - light.left - light.width):
        assert hold <= reach <= depth - air


def a_figure_that_passes(job: Asked, facts: tuple[Fact, ...]) -> None:
    """Each figure that the refusal names, put into the job, does away with it."""
    tried = 0
    if depth := figure(facts, seasons.DEEPER_GROOVE, "depth"):
        tried += 1
        assert not tells(told(replace(job, depth=depth).faults()), seasons.BOARDS_HARDLY_IN)
    if width := figure(facts, seasons.NARROWER_BOARDS, "width"):
        tried += 1
        assert not replace(job, most=width).faults()
    if tongue := figure(facts, seasons.LONGER_TONGUE, "tongue"):
        tried += 1
        left = told(replace(job, tongue=tongue).faults())
        assert not any(
            tells(left, kind) for kind in (seasons.TONGUE_HARDLY_IN, fills.TONGUE_LENGTH)
        )
    known = (
        seasons.NARROWER_DOORS, seasons.WIDER_BOARDS, seasons.SWELLS_TOO_MUCH, doors.GAP_CLOSES,
        doors.AT_MOST, doors.AT_LEAST, doors.FROM_TO,
    )  # fmt: skip
    assert tried or any(tells(facts, kind) for kind in known), facts


def figure(facts: tuple[Fact, ...], kind: Kind, name: str) -> Fraction | None:
    """The length that a fact of that kind names; `None` where there is no such fact."""
    for fact in facts:
        if fact.kind is kind:
            length = fact.given[name]
            assert isinstance(length, Length)
            return length.value
    return None


def test_by_rule_of_thumb_where_nothing_is_said_of_the_year() -> None:
    """As for stiles: half a hundredth of the width either way."""
    text = re.sub(r"\[wood\].*?(?=\[panel)", "", DOOR, flags=re.DOTALL)
    (leaf,) = to_leaves(text)
    assert leaf.season is None
    assert [part.size.width for part in leaf.fills] == [
        part.size.width for part in to_leaves(DOOR)[0].fills
    ]  # 0.005 and 0.00496 come to the same on the rule


def test_thin_boards_are_refused_with_what_would_do() -> None:
    with pytest.raises(Refusal, match=r"wall=1/32 in, groove=1/8 in") as refused:
        to_leaves(DOOR.replace('thickness = "3/8"', 'thickness = "3/16"'))
    assert "enough=7/32 in" in str(refused.value)
    to_leaves(DOOR.replace('thickness = "3/8"', 'thickness = "7/32"'))


@pytest.mark.parametrize("thickness", ["1/4", "3/8"])
def test_the_virtual_saw_proves_it(thickness: str) -> None:
    plan = to_plan(DOOR.replace('thickness = "3/8"', f'thickness = "{thickness}"'))
    assert "proof.boards-free" in str(plan.proven[1])
    assert contract.from_json(contract.to_json(plan)) == plan
    # What is tried along a whole stick has a stick of its own: the groove one, the tongue another.
    bare = {stick.mark for stick in plan.sticks if stick.test and not stick.pieces}
    tried = [point for point in plan.checkpoints if point.scrap in bare]
    assert {str(point.measure) for point in tried} >= {"tongue", "channel-depth/groove"}
    tongues = [point for point in tried if str(point.measure) == "tongue"]
    grooves = [point for point in tried if str(point.measure) == "channel-depth/groove"]
    assert tongues
    assert all(point.per_unit == 2 for point in tongues)
    assert not {point.scrap for point in tongues} & {point.scrap for point in grooves}


def test_thick_boards_are_rebated_flat_and_then_on_edge() -> None:
    """1-3/4 in frame, boards 3/4 in thick: a tongue of a quarter inch and a little more than
    that off either side of it, over twice the kerf."""
    text = DOOR.replace('thickness = "7/8"', 'thickness = "1-3/4"')
    text = text.replace('width = "3"', 'width = "3"\ntongue = "1/4"')
    plan = to_plan(text.replace('thickness = "3/8"', 'thickness = "3/4"'))
    assert plan.proven
    flat = [s for s in plan.steps for o in s.operations if o.endswith("tongue/flat")]
    edge = [s for s in plan.steps for o in s.operations if o.endswith("tongue/edge")]
    assert flat
    assert max(s.number for s in flat) < max(s.number for s in edge)


def test_lights_of_unlike_width_have_boards_with_one_tongue() -> None:
    text = DOOR + '[[door.bar]]\nkind = "mullion"\nat = "6"\nwidth = "1-3/4"\n'
    (leaf,) = to_leaves(text)
    assert leaf.season is not None
    years: tuple[BoardSeason, ...] = leaf.season.boards
    assert len(years) == 2
    assert len({year.tongue for year in years}) == 1
    assert to_plan(text).proven


def test_no_gap_between_boards_is_measured_across_a_mullion() -> None:
    by_rule = re.sub(r"\[wood\].*?(?=\[panel)", "", DOOR, flags=re.DOTALL)
    plan = to_plan(by_rule + '[[door.bar]]\nkind = "mullion"\nwidth = "1-3/4"\n')
    assert plan.proven
    (gap,) = (p for p in plan.checkpoints if str(p.measure) == "board-gap")
    assert len(gap.marks) > 2  # the boards of both lights, told together


def test_the_sheets_say_what_to_leave_between_them() -> None:
    plan = to_plan(DOOR)
    page = sheets.html(plan)
    assert "leave 1/32″ between boards" in page
    assert "gap 0.045, tongue 0.126" in page
    (point,) = (p for p in plan.checkpoints if str(p.measure) == "board-gap")
    # Boards of 2.671875 and a tongue of 11/64 grow by 0.00496 of that: 1/32 − 0.01411 = 0.01714 is
    # left at the widest. Of that a rule that is read half a mark wrong would take 1/128, and so a
    # gap may be 0.00933 less, and as much more, for which the rule is too coarse.
    assert (point.low, point.target, point.high) == (F("0.022"), F("0.031"), F("0.040"))
    assert (point.tool, point.resolution) == ("caliper", F("0.001"))
    assert point.feel == feels.SPACERS()
    assert to_job(DOOR).doors[0].fill is not None


@pytest.mark.parametrize("moisture", ["6", "8", "9", "10", "12"])
@pytest.mark.parametrize("rule", ["1/64", "1/32", "1/16"])
@pytest.mark.parametrize("caliper", ["", "caliper = false\n"])
def test_boards_are_free_at_their_widest_whatever_is_read(
    moisture: str, rule: str, caliper: str
) -> None:
    """In the worst case: the gap at its least, and read wrong."""
    text = DOOR.replace('moisture = "8"', f'moisture = "{moisture}"')
    shop = f'unit = "in"\n[tools]\nrule = "{rule}"\n{caliper}'
    jobs, read = read_batch(["job"], "shop", {"job": text, "shop": shop}.__getitem__)
    plan = pipeline.plan(jobs, read)
    (free,) = (each for each in plan.requirements if each.what == "boards-free")
    assert free.holds


def test_a_gap_by_rule_of_thumb_says_so() -> None:
    plan = to_plan(re.sub(r"\[wood\].*?(?=\[panel)", "", DOOR, flags=re.DOTALL))
    (point,) = (p for p in plan.checkpoints if str(p.measure) == "board-gap")
    assert point.feel == feels.SPACERS_BY_RULE()
    (known,) = (p for p in to_plan(DOOR).checkpoints if str(p.measure) == str(point.measure))
    assert known.feel == feels.SPACERS()


@pytest.mark.parametrize("bars", ["stub tenon", "T-bridle"])
def test_gaps_are_measured_in_each_light_by_itself(bars: str) -> None:
    """Beyond a mullion other boards begin; the row of lights above it has none."""
    made = to_plan(
        f"""
unit = "mm"
[stock]
thickness = "18"
[groove]
depth = "8"
[joint]
bars = "{bars}"
[boarded]
width = "78"
[[door]]
opening = {{ width = "329", height = "813.5" }}
[[door.bar]]
kind = "mid rail"
width = "42"
[[door.bar]]
kind = "mullion"
row = 2
"""
    )
    (leaf,) = (Standing.of(made, door) for door in made.doors)
    boards = leaf.role("board")
    rows = {board.y for board in boards}
    gaps = leaf.board_gaps([board.part.mark for board in boards])
    assert len(gaps) == len(boards) - 3  # in three lights
    assert max(gaps) < 2  # the mullion is wider
    assert len(rows) == 2
    assert prove(made) == made.proven
