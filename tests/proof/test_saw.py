"""One pass over the saw: what each carrier takes away, what falls, and what must not happen.

The piece is 40 long, 10 wide, 6 thick; the kerf is 1. Boxes worked out by hand.
"""

from __future__ import annotations

from fractions import Fraction as F  # noqa: N817
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sequencer.facts import Fact
from sequencer.facts import sawings as told
from sequencer.plan import Against, CarrierName, Down, Prism
from sequencer.proof.cells import planes_of
from sequencer.proof.kerf import Pass, kerf_of
from sequencer.proof.prisms import cells_of
from sequencer.proof.saw import saw
from sequencer.proof.solid import IntBox, Solid, bounds, difference, subtract, volume
from sequencer.records import replace

Corners = list[tuple[int | F, int | F]]

PIECE: Solid = ((0, 40, 0, 10, 0, 6),)
BASE = Pass("rip-fence", 1, 2, 3, "face", "inside-edge", None, False, 20)


def removed(piece: Solid, cut: Pass) -> Solid:
    sawn = saw(piece, cut)
    assert sawn.fault is None
    return tuple(sorted(difference(piece, (*sawn.kept, *sawn.rest)), key=tuple))


Row = tuple[CarrierName, Down, Against, IntBox]
TABLE: list[Row] = [
    # on the fence, flat: a slice of the width, from the face that is down
    ("rip-fence", "face", "inside-edge", (0, 40, 2, 3, 0, 3)),
    ("rip-fence", "back", "inside-edge", (0, 40, 2, 3, 3, 6)),
    ("rip-fence", "face", "outside-edge", (0, 40, 7, 8, 0, 3)),
    ("rip-fence", "back", "outside-edge", (0, 40, 7, 8, 3, 6)),
    # on the fence, on edge: a slice of the thickness, from the edge that is down
    ("rip-fence", "inside-edge", "face", (0, 40, 0, 3, 2, 3)),
    ("rip-fence", "inside-edge", "back", (0, 40, 0, 3, 3, 4)),
    ("rip-fence", "outside-edge", "face", (0, 40, 7, 10, 2, 3)),
    ("rip-fence", "outside-edge", "back", (0, 40, 7, 10, 3, 4)),
    # on the sled, flat: a slice of the length
    ("crosscut-sled", "face", "end-A", (2, 3, 0, 10, 0, 3)),
    ("crosscut-sled", "back", "end-A", (2, 3, 0, 10, 3, 6)),
    ("crosscut-sled", "face", "end-B", (37, 38, 0, 10, 0, 3)),
    ("crosscut-sled", "back", "end-B", (37, 38, 0, 10, 3, 6)),
    # on the sled, on edge
    ("crosscut-sled", "inside-edge", "end-A", (2, 3, 0, 3, 0, 6)),
    ("crosscut-sled", "outside-edge", "end-A", (2, 3, 7, 10, 0, 6)),
    ("crosscut-sled", "inside-edge", "end-B", (37, 38, 0, 3, 0, 6)),
    ("crosscut-sled", "outside-edge", "end-B", (37, 38, 7, 10, 0, 6)),
    # in the jig, on end
    ("tenoning-jig", "end-A", "face", (0, 3, 0, 10, 2, 3)),
    ("tenoning-jig", "end-A", "back", (0, 3, 0, 10, 3, 4)),
    ("tenoning-jig", "end-B", "face", (37, 40, 0, 10, 2, 3)),
    ("tenoning-jig", "end-B", "back", (37, 40, 0, 10, 3, 4)),
    ("tenoning-jig", "end-A", "inside-edge", (0, 3, 2, 3, 0, 6)),
    ("tenoning-jig", "end-B", "outside-edge", (37, 40, 7, 8, 0, 6)),
]


@pytest.mark.parametrize(("carrier", "down", "against", "box"), TABLE)
def test_what_a_pass_takes_away(
    carrier: CarrierName, down: Down, against: Against, box: IntBox
) -> None:
    cut = replace(BASE, carrier=carrier, down=down, against=against)
    assert removed(PIECE, cut) == (box,)


def test_a_sweep_takes_all_from_the_guide_on() -> None:
    cut = replace(BASE, carrier="crosscut-sled", down="inside-edge", against="end-A", sweep=True)
    assert removed(PIECE, cut) == ((0, 3, 0, 3, 0, 6),)
    assert removed(PIECE, replace(cut, against="end-B")) == ((37, 40, 0, 3, 0, 6),)
    assert removed(PIECE, replace(cut, guide=0)) == ((0, 1, 0, 3, 0, 6),)


def test_a_through_cut_keeps_one_side() -> None:
    rip = replace(BASE, guide=4, depth=7, keeps="guide")
    near, far = ((0, 40, 0, 4, 0, 6),), ((0, 40, 5, 10, 0, 6),)
    assert (saw(PIECE, rip).kept, saw(PIECE, rip).rest) == (near, far)
    assert (
        saw(PIECE, replace(rip, keeps="far")).kept,
        saw(PIECE, replace(rip, keeps="far")).rest,
    ) == (
        far,
        near,
    )


def test_the_guide_at_the_far_end_keeps_the_far_end() -> None:
    cut = replace(
        BASE, carrier="crosscut-sled", guide=8, depth=6, down="back", against="end-B", keeps="guide"
    )
    sawn = saw(PIECE, cut)
    assert (sawn.kept, sawn.rest) == (((32, 40, 0, 10, 0, 6),), ((0, 31, 0, 10, 0, 6),))


def test_squared_by_eye() -> None:
    cut = replace(
        BASE, carrier="crosscut-sled", guide=None, against=None, depth=6, keeps="larger", by_eye=3
    )
    assert saw(PIECE, cut).kept == ((3, 40, 0, 10, 0, 6),)


def test_a_cheek_falls_away_on_the_open_side() -> None:
    """A shoulder 2 deep at 9..10 from end A; then the cheek, with the back against the jig, frees
    0..9 of what lies in front of the kerf (guide 4: kerf at 1..2 from the face)."""
    shoulder = replace(
        BASE, carrier="crosscut-sled", guide=9, depth=2, down="face", against="end-A"
    )
    shouldered = saw(PIECE, shoulder).kept
    cheek = replace(
        BASE, carrier="tenoning-jig", guide=4, depth=9, down="end-A", against="back", bearing=10
    )
    sawn = saw(shouldered, cheek)
    tenoned = ((10, 40, 0, 10, 0, 6), (0, 10, 0, 10, 2, 6))
    assert sawn.fault is None
    assert difference(sawn.kept, tenoned) == difference(tenoned, sawn.kept) == ()


def test_trapped_between_blade_and_jig() -> None:
    """The same cheek with the face against the jig would drop its waste between blade and jig."""
    shouldered = subtract(PIECE, (9, 10, 0, 10, 0, 2))
    cheek = replace(
        BASE, carrier="tenoning-jig", guide=1, depth=9, down="end-A", against="face", bearing=10
    )
    assert saw(shouldered, cheek).fault == told.TRAPPED(guide="guide.jig-face")


def test_trapped_between_blade_and_stop() -> None:
    """Cheek first: then the shoulder cut frees the waste between blade and stop."""
    cheeked = subtract(PIECE, (0, 10, 0, 10, 1, 2))
    shoulder = replace(
        BASE, carrier="crosscut-sled", guide=9, depth=2, down="face", against="end-A"
    )
    assert saw(cheeked, shoulder).fault == told.TRAPPED(guide="guide.stop")


def test_trapped_at_the_stop_by_a_through_cut() -> None:
    cut = replace(
        BASE, carrier="crosscut-sled", guide=9, depth=6, down="back", against="end-A", keeps="far"
    )
    assert saw(PIECE, cut).fault == told.TRAPPED(guide="guide.stop")


GROOVED = subtract(PIECE, (0, 40, 0, 3, 2, 4))
TENONED = subtract(PIECE, (0, 30, 0, 10, 0, 2))  # only 10 of the face are left


@pytest.mark.parametrize(
    ("piece", "cut", "fault"),
    [
        (PIECE, replace(BASE, guide=0), told.BLADE_IN_GUIDE(guide="guide.fence")),
        (PIECE, replace(BASE, guide=-1), told.BLADE_IN_GUIDE(guide="guide.fence")),
        (
            PIECE,
            replace(BASE, carrier="tenoning-jig", guide=0, down="end-A", against="face"),
            told.BLADE_IN_GUIDE(guide="guide.jig-face"),
        ),
        (PIECE, replace(BASE, depth=0), told.BELOW_TABLE()),
        (PIECE, replace(BASE, guide=10), told.PASSES_BESIDE()),
        (PIECE, replace(BASE, depth=5, keeps="guide"), told.NOT_THROUGH()),
        (
            PIECE,
            replace(BASE, down="end-A"),
            told.NOT_HELD_SO(
                carrier="carrier.rip-fence", down="side.end-A", against="side.inside-edge"
            ),
        ),
        (
            PIECE,
            replace(BASE, carrier="crosscut-sled", down="face", against="back"),
            told.NOT_HELD_SO(
                carrier="carrier.crosscut-sled", down="side.face", against="side.back"
            ),
        ),
        (
            PIECE,
            replace(BASE, against=None),
            told.NO_GUIDE(guide="guide.fence"),
        ),
        (PIECE, replace(BASE, guide=None), told.NO_GUIDE(guide="guide.fence")),
        (
            PIECE,
            replace(BASE, guide=None, against=None, keeps="larger", by_eye=3),
            told.SQUARED_ON_SLED_ONLY(),
        ),
        (
            TENONED,
            replace(BASE, down="inside-edge", against="face"),
            told.SHORT_BEARING(side="side.face", guide="guide.fence"),
        ),
        (
            TENONED,
            replace(BASE, carrier="tenoning-jig", down="end-B", against="face"),
            told.SHORT_BEARING(side="side.face", guide="guide.jig-face"),
        ),
        (
            TENONED,
            replace(BASE, down="face", against="inside-edge"),
            None,  # still 10 of the width, all of it, to stand on
        ),
        (
            PIECE,
            replace(BASE, carrier="crosscut-sled", guide=0, sweep=True, depth=10, against="end-A",
                    down="inside-edge"),
            told.TAKES_SIDE(side="side.end-A"),
        ),
        (
            PIECE,
            replace(BASE, carrier="tenoning-jig", guide=9, depth=40, down="end-A",
                    against="inside-edge"),
            told.TAKES_SIDE(side="side.outside-edge"),
        ),
        (
            ((0, 40, 0, 10, 0, 1),),
            replace(BASE, carrier="crosscut-sled", guide=39, sweep=True, against="end-A"),
            told.NOTHING_LEFT(),
        ),
        (
            PIECE,
            replace(BASE, sweep=True, down="inside-edge", against="face"),
            told.NIBBLED_ON_SLED_ONLY(),
        ),
        (
            PIECE,
            replace(BASE, guide=9, depth=6, keeps="far"),
            told.NONE_KEPT(),
        ),
    ],
)  # fmt: skip
def test_what_must_not_happen(piece: Solid, cut: Pass, fault: Fact | None) -> None:
    found = saw(piece, cut).fault
    assert found == fault


def test_bearing_just_enough() -> None:
    """A fence wants 20 here: 20 of the face left bears, 19 does not."""
    for lost, good in ((20, True), (21, False)):
        piece = subtract(PIECE, (0, lost, 0, 10, 0, 2))
        fault = saw(piece, replace(BASE, down="inside-edge", against="face")).fault
        assert (fault is None) == good


def test_a_short_piece_bears_over_its_whole_length() -> None:
    short: Solid = ((0, 12, 0, 10, 0, 6),)
    cut = replace(BASE, down="inside-edge", against="face")
    assert saw(short, cut).fault is None
    assert saw(subtract(short, (0, 1, 0, 10, 0, 2)), cut).fault is not None


def test_a_groove_does_not_hinder_standing_on_the_edge() -> None:
    assert bounds(GROOVED) == (0, 40, 0, 10, 0, 6)
    assert saw(GROOVED, replace(BASE, down="inside-edge", against="back", guide=2)).fault is None


# --- the blade leaning, the mitre sled, waste between two shoulders ---------------------------


def area(corners: Corners) -> F:
    twice = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(corners, corners[1:] + corners[:1],
                                                          strict=True))  # fmt: skip
    return abs(F(twice)) / 2


def prism(axes: str, corners: Corners, along: tuple[int, int]) -> Solid:
    made = Prism(axes, tuple((F(u), F(v)) for u, v in corners), (F(along[0]), F(along[1])))
    return cells_of(made, 1)


LEANING: list[tuple[CarrierName, Down, Against, F, str, Corners]] = [
    # guide 4, kerf 1, height 3; the foot of the kerf at 4..5 from the guide, its top 3 × tilt on
    ("rip-fence", "face", "inside-edge", F(1, 3), "yz", [(4, 0), (5, 0), (4, 3), (3, 3)]),
    ("rip-fence", "face", "inside-edge", F(-1, 3), "yz", [(4, 0), (5, 0), (6, 3), (5, 3)]),
    ("rip-fence", "back", "inside-edge", F(1, 3), "yz", [(4, 6), (5, 6), (4, 3), (3, 3)]),
    ("rip-fence", "face", "outside-edge", F(1, 3), "yz", [(5, 0), (6, 0), (7, 3), (6, 3)]),
    ("rip-fence", "inside-edge", "face", F(1, 3), "yz", [(0, 4), (0, 5), (3, 4), (3, 3)]),
    ("rip-fence", "outside-edge", "back", F(1, 3), "yz", [(10, 1), (10, 2), (7, 3), (7, 2)]),
    ("rip-fence", "end-A", "face", F(1, 3), "xz", [(0, 4), (0, 5), (3, 4), (3, 3)]),
    ("rip-fence", "end-B", "back", F(-1, 6), "xz",
     [(40, 1), (40, 2), (37, F(3, 2)), (37, F(1, 2))]),
    ("crosscut-sled", "face", "end-A", F(-1, 3), "xz", [(4, 0), (5, 0), (6, 3), (5, 3)]),
    ("crosscut-sled", "outside-edge", "end-B", F(1, 3), "xy",
     [(36, 10), (35, 10), (36, 7), (37, 7)]),
    ("tenoning-jig", "end-A", "back", F(1, 3), "xz", [(0, 1), (0, 2), (3, 3), (3, 2)]),
]  # fmt: skip


@pytest.mark.parametrize(("carrier", "down", "against", "tilt", "axes", "corners"), LEANING)
def test_a_leaning_blade_takes_a_sheared_slice(
    carrier: CarrierName, down: Down, against: Against, tilt: F, axes: str, corners: Corners
) -> None:
    cut = Pass(carrier, 1, 4, 3, down, against, None, sweep=False, bearing=20, tilt=tilt)
    taken = removed(PIECE, cut)
    along = {"yz": (0, 40), "xz": (0, 10), "xy": (0, 6)}[axes]
    wanted = prism(axes, corners, along)
    assert difference(taken, wanted) == difference(wanted, taken) == ()
    # Depth stays vertical: the slice is as large as that of an upright blade.
    assert area(corners) == 3
    assert volume(taken) == 3 * (along[1] - along[0])


def test_a_leaning_blade_must_clear_the_guide_at_its_full_height() -> None:
    """From 2 at the table, leaning 1 in 3: the guide is reached 6 up."""
    for depth, good in ((5, True), (6, False), (9, False)):
        cut = replace(BASE, depth=depth, tilt=F(1, 3), keeps=None, down="inside-edge",
                      against="face")  # fmt: skip
        assert (saw(PIECE, cut).fault != told.LEANS_INTO_GUIDE(guide="guide.fence")) == good
    away = replace(BASE, depth=6, tilt=F(-1, 3), down="inside-edge", against="face")
    assert saw(PIECE, away).fault is None
    jig = replace(BASE, carrier="tenoning-jig", guide=1, tilt=F(1, 3), down="end-A",
                  against="face")  # fmt: skip
    assert saw(PIECE, jig).fault == told.LEANS_INTO_GUIDE(guide="guide.jig-face")


def test_a_leaning_rip_keeps_the_side_at_the_guide() -> None:
    """45° from 8 at the face: the edge that is kept runs to 8 − 6 at the back."""
    rip = replace(BASE, guide=8, depth=7, keeps="guide", tilt=F(1))
    sawn = saw(PIECE, rip)
    assert sawn.fault is None
    kept = prism("yz", [(0, 0), (8, 0), (2, 6), (0, 6)], (0, 40))
    rest = prism("yz", [(9, 0), (10, 0), (10, 6), (3, 6)], (0, 40))
    for found, wanted in ((sawn.kept, kept), (sawn.rest, rest)):
        assert difference(found, wanted) == difference(wanted, found) == ()
    assert saw(PIECE, replace(rip, depth=5)).fault == told.NOT_THROUGH()


def test_a_bevel_lets_its_wedge_fall_in_front() -> None:
    """A panel 6 thick on its edge, its back to the fence, the blade leaning away from it: foot of
    the kerf at 2 from the back, 4 up at 4 from it. A step cut 2 deep at 4..5 from the edge frees
    the wedge in front, on the open side."""
    stepped = subtract(PIECE, (0, 40, 4, 5, 0, 2))
    bevel = replace(BASE, depth=4, down="inside-edge", against="back", tilt=F(-1, 4))
    sawn = saw(stepped, bevel)
    assert sawn.fault is None
    lacks = prism("yz", [(0, 0), (0, 4), (4, 3), (4, 2), (5, 2), (5, 0)], (0, 40))
    wanted = difference(PIECE, lacks)
    assert difference(wanted, sawn.kept) == ()
    left = difference(sawn.kept, wanted)
    assert left == ()


def test_a_wedge_between_a_leaning_blade_and_the_fence_is_trapped() -> None:
    """The same with the face to the fence: what the step has freed lies at the fence."""
    stepped = subtract(PIECE, (0, 40, 4, 5, 0, 2))
    bevel = replace(BASE, guide=3, depth=5, down="inside-edge", against="face", tilt=F(1, 4))
    fault = saw(stepped, bevel).fault
    assert fault == told.TRAPPED(guide="guide.fence")


@pytest.mark.parametrize(
    ("down", "against", "corners", "along"),
    [
        ("face", "end-A", [(0, 0), (12, 0), (2, 10), (0, 10)], (0, 3)),
        ("back", "end-A", [(0, 0), (12, 0), (2, 10), (0, 10)], (3, 6)),
        ("face", "end-B", [(40, 0), (28, 0), (38, 10), (40, 10)], (0, 3)),
    ],
)
def test_the_mitre_sled_takes_all_beyond_its_line(
    down: Down, against: Against, corners: Corners, along: tuple[int, int]
) -> None:
    cut = Pass("mitre-sled", 1, 2, 3, down, against, None, sweep=True, bearing=10)
    taken, wanted = removed(PIECE, cut), prism("xy", corners, along)
    assert difference(taken, wanted) == difference(wanted, taken) == ()
    assert volume(taken) == (2 * 10 + 50) * 3
    assert saw(PIECE, replace(cut, guide=0)).fault is None


MITRE = Pass("mitre-sled", 1, 2, 3, "face", "end-A", None, sweep=True, bearing=10)
SHORT_EDGE = subtract(PIECE, (0, 33, 8, 10, 0, 6))


@pytest.mark.parametrize(
    ("piece", "cut", "fault"),
    [
        (PIECE, replace(MITRE, sweep=False), told.MITRE_IS_NIBBLED()),
        (PIECE, replace(MITRE, keeps="guide"), told.NIBBLED_ON_SLED_ONLY()),
        (PIECE, replace(MITRE, tilt=F(1, 8)), told.NIBBLED_UPRIGHT_ONLY()),
        (PIECE, replace(MITRE, guide=-1), told.BLADE_IN_GUIDE(guide="guide.stop")),
        (PIECE, replace(MITRE, back=2), told.NO_SECOND_SHOULDER()),
        (
            PIECE,
            replace(MITRE, down="inside-edge"),
            told.NOT_HELD_SO(
                carrier="carrier.mitre-sled", down="side.inside-edge", against="side.end-A"
            ),
        ),
        (
            PIECE,
            replace(MITRE, against="inside-edge"),
            told.NOT_HELD_SO(
                carrier="carrier.mitre-sled", down="side.face", against="side.inside-edge"
            ),
        ),
        (PIECE, replace(MITRE, depth=6), told.TAKES_SIDE(side="side.end-A")),
        (SHORT_EDGE, MITRE, told.SHORT_BEARING(side="side.outside-edge", guide="guide.fence")),
        (
            PIECE,
            replace(MITRE, carrier="crosscut-sled", tilt=F(1, 8)),
            told.NIBBLED_UPRIGHT_ONLY(),
        ),
        (
            PIECE,
            replace(MITRE, carrier="crosscut-sled", sweep=False, back=2),
            told.NO_SECOND_SHOULDER(),
        ),
        (
            PIECE,
            replace(MITRE, carrier="crosscut-sled", kerf=3, back=2),
            told.SHOULDERS_TOO_NEAR(),
        ),
        (
            PIECE,
            replace(BASE, down="end-A", against="back", bearing=31),
            None,
        ),
        (
            PIECE,
            replace(BASE, down="end-A", against="back", bearing=33),
            told.SHORT_BEARING(side="side.back", guide="guide.fence"),
        ),
    ],
)
def test_what_must_not_happen_on_the_other_carriers(
    piece: Solid, cut: Pass, fault: Fact | None
) -> None:
    found = saw(piece, cut).fault
    assert found == fault


def test_waste_between_two_shoulders() -> None:
    """A housing 7 wide: its far side at guide + kerf = 16 from the end."""
    cut = replace(MITRE, carrier="crosscut-sled", guide=15, back=7)
    assert removed(PIECE, cut) == ((9, 16, 0, 10, 0, 3),)
    other = replace(cut, down="back", against="end-B")
    assert removed(PIECE, other) == ((24, 31, 0, 10, 3, 6),)
    # No second shoulder this side of the end: all of it goes, as without one.
    assert removed(PIECE, replace(cut, back=20)) == removed(PIECE, replace(cut, back=None))


# --- any kerf, point by point -----------------------------------------------------------------


@st.composite
def passes(draw: st.DrawFn) -> Pass:
    """Any pass that some carrier takes."""
    carrier, down, against = draw(st.sampled_from(HELD))
    sweep = carrier == "crosscut-sled" and draw(st.booleans())
    tilt = F(0) if sweep else draw(st.fractions(F(-1, 2), F(1, 2), max_denominator=8))
    kerf, guide, depth = draw(st.integers(1, 2)), draw(st.integers(0, 8)), draw(st.integers(1, 7))
    back = draw(st.none() | st.integers(kerf, 9)) if sweep else None
    if draw(st.integers(0, 4)) == 0:
        carrier, down, against = "mitre-sled", draw(flat), draw(ends)
        sweep, back, tilt = True, None, F(0)
    return Pass(carrier, kerf, guide, depth, down, against, None, sweep, 0, None, tilt, back)


HELD: list[tuple[CarrierName, Down, Against]] = [
    *((row[0], row[1], row[2]) for row in TABLE),
    *((row[0], row[1], row[2]) for row in LEANING),
]
flat: st.SearchStrategy[Down] = st.sampled_from(("face", "back"))
ends: st.SearchStrategy[Against] = st.sampled_from(("end-A", "end-B"))
SIZE = (40, 10, 6)
FROM = {
    "end-A": (0, 0), "end-B": (0, 1), "inside-edge": (1, 0), "outside-edge": (1, 1),
    "face": (2, 0), "back": (2, 1),
}  # fmt: skip


def cleared(cut: Pass, point: tuple[F, F, F]) -> bool:
    """Whether the blade comes by a point of the piece, from distances alone."""

    def distance(surface: str) -> F:
        axis, far = FROM[surface]
        return SIZE[axis] - point[axis] if far else point[axis]

    assert cut.against is not None
    assert cut.guide is not None
    height, away = distance(cut.down), distance(cut.against)
    if height > cut.depth:
        return False
    if cut.carrier == "mitre-sled":
        return away < cut.guide + distance("outside-edge")
    foot = away + cut.tilt * height
    least = cut.guide if not cut.sweep else 0
    if cut.back is not None:
        least = max(0, cut.guide + cut.kerf - cut.back)
    return least < foot < cut.guide + cut.kerf


@settings(max_examples=60)
@given(passes())
def test_a_kerf_point_by_point(cut: Pass) -> None:
    """Points just off a grid, so that none lies on a side."""
    planes = planes_of(kerf_of(bounds(PIECE), cut))
    for x, y, z in product((*range(18), *range(24, 40)), range(0, 10, 2), range(0, 6, 2)):
        point = (F(x) + F(5, 97), F(y) + F(11, 101), F(z) + F(17, 103))
        inside = all(
            plane[0] * point[0] + plane[1] * point[1] + plane[2] * point[2] < plane[3]
            for plane in planes
        )
        assert inside == cleared(cut, point), point
