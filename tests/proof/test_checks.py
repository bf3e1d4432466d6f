"""Measures on sawn wood, worked out on paper, and checks that the wood does not bear out.

A test piece 12 in long, 2 wide, 3/4 thick, in grains of 1/64 in; a kerf of 1/8 is 8 of them.
"""

from __future__ import annotations

from fractions import Fraction as F  # noqa: N817

import pytest

from sequencer.errors import InternalError
from sequencer.plan import Against, CarrierName, Down, Measure, Plan
from sequencer.proof import prove
from sequencer.proof.cells import Brick, Length
from sequencer.proof.grain import Grain
from sequencer.proof.kerf import Pass
from sequencer.proof.measuring import reading, seen
from sequencer.proof.saw import saw
from sequencer.proof.solid import Solid
from sequencer.proof.windows import WINDOWS
from sequencer.records import replace
from sequencer.saw.measures import What
from tests.proof import change, hand

BLOCK: Brick = (0, 768, 0, 128, 0, 48)
GRAIN = Grain(64)


def made(
    carrier: CarrierName, down: Down, against: Against, guide: int, depth: int, **more: object
) -> Pass:
    cut = Pass(carrier, 8, guide, depth, down, against, None, False, 0)
    return replace(cut, **more)  # type: ignore[arg-type]


def jig(down: Down, against: Against, guide: int, depth: int) -> Pass:
    return made("tenoning-jig", down, against, guide, depth)


def sled(down: Down, against: Against, guide: int, depth: int, **more: object) -> Pass:
    return made("crosscut-sled", down, against, guide, depth, **more)


def fence(down: Down, against: Against, guide: int, depth: int) -> Pass:
    return made("rip-fence", down, against, guide, depth)


def measured(measure: str, before: tuple[Pass, ...], passes: tuple[Pass, ...]) -> Length | None:
    wood: Solid = (BLOCK,)
    for each in before:
        wood = saw(wood, each).kept
    taken = []
    for each in passes:
        result = saw(wood, each)
        assert result.fault is None, result.fault
        taken.append((wood, each))
        wood = result.kept
    there = [seen(b, wood, p, p.marks.at("face"), GRAIN) for b, p in taken]
    return reading(Measure.parse(measure), [each for each in there if each is not None])


BOTH: tuple[Against, ...] = ("face", "back")
ENDS: tuple[Against, ...] = ("end-A", "end-B")
SHOULDERED = tuple(sled(side, end, 56, 12) for end in ENDS for side in ("face", "back"))

SAWN: dict[str, tuple[str, tuple[Pass, ...], tuple[Pass, ...], int, int, int]] = {
    # Turned between both faces: walls 16 from each, so 48 − 2 · 16; each grain counts twice.
    "slot turned": (
        "channel-width/slot",
        (),
        tuple(jig("end-A", f, 16, 90) for f in BOTH),
        16,
        -2,
        0,
    ),
    "slot widened": (
        "channel-width/slot",
        (jig("end-A", "face", 16, 90),),
        (jig("end-A", "face", 24, 90),),
        16,
        1,
        0,
    ),
    "slot's place": ("to-channel/slot", (), (jig("end-A", "face", 16, 90),), 16, 1, 0),
    "slot's depth": ("channel-depth/slot", (), (jig("end-A", "face", 16, 90),), 90, 0, 1),
    "wall": ("channel-wall/groove", (), (fence("outside-edge", "face", 20, 16),), 20, 1, 0),
    # The tenon is what stands on the jig's side of both cuts: 32 − (48 − 32).
    "tenon": ("tenon", SHOULDERED, tuple(jig("end-A", f, 32, 60) for f in BOTH), 16, 2, 0),
    "far cheek": ("to-far-cheek/face", SHOULDERED, (jig("end-A", "face", 30, 60),), 30, 1, 0),
    "tenon's width": ("tenon-width", (), (jig("end-A", "outside-edge", 100, 60),), 100, 1, 0),
    # 768 − 2 (56 + 8)
    "shoulders": ("shoulders", (), SHOULDERED, 640, -2, 0),
    # The same from the inside edge, deeper than the groove of 16 that runs along it.
    "edge shoulders over a groove": (
        "shoulders",
        tuple(fence("inside-edge", face, 16, 16) for face in BOTH),
        tuple(sled("inside-edge", end, 56, 36) for end in ENDS),
        640,
        -2,
        0,
    ),
    # A groove of 60 opens under the wider end of the mitre, as deep in the thickness as it is.
    "mitre's depth over a groove": (
        "mitre-depth",
        tuple(fence("inside-edge", face, 16, 60) for face in BOTH),
        (made("mitre-sled", "face", "end-A", 4, 16, sweep=True),),
        16,
        0,
        1,
    ),
    "from the end": ("to-shoulder", (), SHOULDERED, 64, 1, 0),
    "shoulder's depth": ("shoulder-depth", (), SHOULDERED, 12, 0, 1),
    "housing's place": ("to-housing", (), (sled("face", "end-A", 200, 12),), 200, 1, 0),
    "housing's width": (
        "housing-width",
        (sled("face", "end-A", 200, 12),),
        (sled("face", "end-A", 222, 12, sweep=True, back=30),),
        30,
        1,
        0,
    ),
    "under a housing": ("under-housing/face", (), (sled("face", "end-A", 200, 12),), 36, 0, -1),
    "tongue between housings": (
        "tongue",
        (),
        tuple(sled(f, "end-A", 200, 12) for f in ("face", "back")),
        24,
        0,
        -2,
    ),
    "tongue on edge": (
        "tongue",
        (),
        tuple(fence("outside-edge", f, 30, 16) for f in BOTH),
        12,
        2,
        0,
    ),
    "lip": ("lip", (), (fence("outside-edge", "face", 20, 24),), 20, 1, 0),
    "reach": ("rebate-reach", (), (fence("outside-edge", "face", 20, 24),), 24, 0, 1),
    "flat pass": ("rebate-width", (), (fence("back", "outside-edge", 16, 28),), 24, 1, 0),
    "flat pass's depth": ("flat-depth", (), (fence("back", "outside-edge", 16, 28),), 28, 0, 1),
}


@pytest.mark.parametrize("what", SAWN)
def test_what_a_caliper_finds(what: str) -> None:
    measure, before, passes, wanted, by_guide, by_height = SAWN[what]
    assert measured(measure, before, passes) == wanted
    for by in (-1, 1):
        moved = tuple(
            replace(p, guide=(p.guide or 0) + by, back=None if p.back is None else p.back + by)
            for p in passes
        )
        assert measured(measure, before, moved) == wanted + by * by_guide
        higher = tuple(replace(p, depth=p.depth + by) for p in passes)
        assert measured(measure, before, higher) == wanted + by * by_height


def test_a_housing_opposite_another_is_not_measured_from_the_other_face() -> None:
    wide = sled("face", "end-A", 200, 12, sweep=True, back=80)
    assert measured("under-housing/back", (wide,), (sled("back", "end-A", 180, 12),)) is None


def test_a_tenon_is_as_wide_as_what_is_left_of_it() -> None:
    """A groove 16 deep in its outside edge, as thick as the tenon."""
    groove = tuple(fence("outside-edge", face, 16, 16) for face in BOTH)
    cheeks = tuple(jig("end-A", face, 32, 60) for face in BOTH)
    narrow = (jig("end-A", "outside-edge", 100, 60),)
    assert measured("tenon-width", groove, narrow) == 100
    assert measured("tenon-width", (*groove, *SHOULDERED, *cheeks), narrow) == 84


def test_every_kind_has_its_window() -> None:
    alone = {"panel-width", "edge-shoulder-depth"}
    assert set(WINDOWS) | alone == {what.value for what in What}


PLAN = hand.make()


def check(n: int, **values: object) -> Plan:
    made = replace(PLAN.checkpoints[n], **values)  # type: ignore[arg-type]
    return replace(PLAN, checkpoints=(*PLAN.checkpoints[:n], made, *PLAN.checkpoints[n + 1 :]))


@pytest.mark.parametrize(
    ("plan", "message"),
    [
        (check(0, per_unit=F(2)), r"piece=#2, what=check.other-share\(.*groove.*found=-2, told=2"),
        (check(0, low=F(0), high=F(1, 2)), r"check.wide-window\(.*least=31/128 in, most=33/128"),
        (check(0, high=F(251, 1000)), r"check.lopsided"),
        (check(1, knob="fence"), r"check.other-share\(.*channel-depth.*found=0, told=1"),
        (check(1, before_step=9), r"check.relied-on-later\(.*step=9"),
        (check(0, scrap="S2"), r"piece=S2, what=check.not-cut"),
        (check(0, setup=1), r"(check.other-setup|book.never-tried)"),
        (check(0, low=F(1, 4), high=F(1, 4)), r"check.shut-window"),
        (
            check(0, target=F(281, 1000), low=F(279, 1000), high=F(283, 1000)),
            r"check.other-target\(.*found=1/4 in, target=281/1000 in",
        ),
    ],
)  # fmt: skip
def test_a_check_that_the_wood_does_not_bear_out(plan: Plan, message: str) -> None:
    with pytest.raises(InternalError, match=message):
        prove(plan)


def test_a_cut_that_is_not_tried_is_named() -> None:
    """The shoulders: the plan's own bookkeeping asks for no test of them."""
    step = change.of_kind(PLAN, "shoulder")
    wrong = replace(
        PLAN, checkpoints=tuple(c for c in PLAN.checkpoints if c.measure.what is not What.SHOULDERS)
    )
    message = rf"step={step.number}, .*piece=A3, what=check.never-checked\(.*knob=stop"
    with pytest.raises(InternalError, match=message):
        prove(wrong)


def test_what_is_to_be_measured_at_the_bench_is() -> None:
    for n, each in enumerate(PLAN.checkpoints):
        if each.knob is None:
            fewer = (*PLAN.checkpoints[:n], *PLAN.checkpoints[n + 1 :])
            with pytest.raises(InternalError, match=rf"piece=A, .*not-measured.*{each.measure}"):
                prove(replace(PLAN, checkpoints=fewer))
