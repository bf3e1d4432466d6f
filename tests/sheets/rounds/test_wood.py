"""Parts, leaves and strips in the round, held against the plan point by point."""

from __future__ import annotations

import random
import re
from itertools import combinations

import pytest

from sequencer.proof.compare import design_of
from sequencer.proof.grain import grain_of
from sequencer.proof.hands import in_hand
from sequencer.proof.solid import bounds, volume
from sequencer.sheets.rounds.ink import Sheet, layers, seen_at
from sequencer.sheets.rounds.leaves import leaf_members, leaf_picture
from sequencer.sheets.rounds.order import ordered
from sequencer.sheets.rounds.parts import part_posed
from sequencer.sheets.rounds.strips import strip_picture
from sequencer.wording import for_plan
from tests.reader.jobs import EXAMPLES, planned
from tests.sheets.rounds.points import Back, Eye, entered
from tests.stages import to_plan

OTHER = {"left": "right", "right": "left"}
NAMES = ("wall-cabinet", "dresser", "china-cabinet")


@pytest.mark.parametrize("name", NAMES)
def test_a_part_is_drawn_as_it_is_designed(name: str, seed: int) -> None:
    """Face up, inside edge toward the person, each as its hand has it."""
    chance = random.Random(seed)
    plan, _ = planned(name)
    grain, marks = grain_of(plan), in_hand(plan)
    for part in plan.parts[:8]:
        solid = design_of(part, marks[part.mark], grain)
        posed = part_posed(plan, part, 1e9)
        found = layers(
            ordered(posed.wood), Sheet(posed.camera, 1.0, (3000.0, 3000.0), 6000.0, 6000.0)
        )
        eye, back = Eye(posed.camera), Back(posed.into)
        up, near = back.way((0.0, 0.0, 1.0)), back.way((0.0, -1.0, 0.0))
        axis, way = posed.marks.at(posed.marked)
        assert way * up[axis] > 0
        assert near[1] < 0
        # Seen on the show face with the inside edge toward the person, end A is on the side that
        # the part's hand says; on the back on the other.
        right = back.way((1.0, 0.0, 0.0))
        end_a = "right" if posed.marks.end_a * right[0] > 0 else "left"
        assert part.inside in (None, end_a if posed.marked == "face" else OTHER[end_a])
        for _ in range(25):
            spot = [chance.uniform(low - 3, high + 3) for low, high in posed.extent]
            x, y = posed.camera.page((spot[0], spot[1], spot[2]))
            start, toward = back.place(eye.start(x, y)), back.way(eye.toward)
            hit = any(entered(bit, start, toward) is not None for bit in solid)
            assert (seen_at(found, (x + 3000, y + 3000)) is not None) == hit


@pytest.mark.parametrize("name", NAMES)
def test_a_leaf_is_put_together_of_all_its_parts(name: str) -> None:
    plan, _ = planned(name)
    grain = grain_of(plan)
    room = for_plan(plan)
    for door in plan.doors[:1]:
        members = leaf_members(plan, door, grain)
        placed = [each.mark for each in door.places] + [each.mark for each in door.panes]
        assert [each.mark for each in members] == placed
        whole = bounds(tuple(bit for each in members for bit in each.wood))
        # Stub ends that are trimmed later stand out; nothing is farther out than they.
        assert whole[1] - whole[0] >= grain.of(door.size[0])
        wood = sum(volume(each.wood) for each in members)
        assert wood < (whole[1] - whole[0]) * (whole[3] - whole[2]) * (whole[5] - whole[4])
        for apart in (False, True):
            said = re.findall(r">([A-Z]\d+)</text>", leaf_picture(plan, door, room, apart=apart))
            assert set(said) == {each.mark for each in members}


BOARDED = """
unit = "mm"
[stock]
thickness = "21.3"
[stiles]
hinge = "60"
[boarded]
width = "{width}"
[[door]]
[door.opening]
width = "396"
height = "712"
[[door.bar]]
kind = "mid rail"
"""


@pytest.mark.parametrize("name", [*EXAMPLES, "70", "42"])
@pytest.mark.parametrize("size", [(46.0, 58.0), (70.0, 84.0)])
def test_marks_of_a_leaf_lie_apart_inside_the_picture(name: str, size: tuple[float, float]) -> None:
    """In the widest face that may be there (DejaVu Sans Bold) a digit is 0.70 of the size wide, the
    letter of a door at most 0.84, and both are 0.73 high. None is smaller than seven points."""
    boarded = name.isdigit()
    plan = to_plan(BOARDED.format(width=name)) if boarded else planned(name)[0]
    room = for_plan(plan)
    for door in plan.doors[:3]:
        for apart in (False, True):
            picture = leaf_picture(plan, door, room, apart=apart, width=size[0], height=size[1])
            found = re.findall(
                r'<text x="([\d.-]+)" y="([\d.-]+)"[^>]* font-size="([\d.]+)"[^>]*>(\w+)<', picture
            )
            boxes = []
            for x, y, high, mark in found:
                half = (0.84 + 0.70 * (len(mark) - 1)) * float(high) / 2
                assert float(high) > 7 * 25.4 / 72
                boxes.append(
                    (float(x) - half, float(y) - 0.73 * float(high), float(x) + half, float(y))
                )
                assert boxes[-1][0] > 0
                assert boxes[-1][2] < size[0]
            for one, two in combinations(boxes, 2):
                over = one[0] < two[2] and two[0] < one[2] and one[1] < two[3] and two[1] < one[3]
                assert not over, (door.mark, apart)
            if boarded:
                assert len(found) == len(door.places)


def test_strips_tell_the_hand_of_each_piece() -> None:
    """Left to right on a strip: the letters of each piece's ends, as the plan lays them."""
    plan, _ = planned("wall-cabinet")
    room = for_plan(plan)
    for stick in plan.sticks:
        picture = strip_picture(plan, stick, room)
        marks = re.findall(r'<text x="([\d.]+)"[^>]*>([#\w]+)</text>', picture)
        in_turn = [mark for _, mark in sorted(marks, key=lambda each: float(each[0]))]
        assert list(dict.fromkeys(in_turn)) == [piece.mark for piece in stick.pieces]
