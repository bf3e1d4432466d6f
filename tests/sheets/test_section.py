"""What a piece looks like at the blade, worked out by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.plan import Box, Cut, Setup, Size
from sequencer.sheets.section import section, seen_as

KERF = Fraction(1, 8)
RAIL = Size(Fraction(12), Fraction(2), Fraction(3, 4))


def setup(carrier: str, guide: Fraction | None, depth: Fraction) -> Setup:
    return Setup(
        number=1,
        cutter="blade",
        kerf=KERF,
        tilt=Fraction(0),
        carrier=carrier,  # type: ignore[arg-type]
        guard="knife",
        height=depth,
        depth=depth,
        guide=guide,
        reading=guide,
        move=None,
        saved=(),
        minutes=Fraction(0),
        cautions=(),
    )


def test_a_rip_frees_the_strip_beyond_the_kerf() -> None:
    # A 2-1/4 in blank ripped to 2: kerf 2 … 2-1/8, the last 1/8 in falls off.
    blank = Size(Fraction(30), Fraction(9, 4), Fraction(3, 4))
    cut = Cut("#1", "back", "inside-edge", "guide")
    seen, taken = section(
        blank, (), setup("rip-fence", Fraction(2), Fraction(7, 8)), cut, Fraction(2)
    )
    assert (seen.across, seen.upright) == (Fraction(9, 4), Fraction(3, 4))
    assert seen.cut == ((Fraction(2), Fraction(17, 8)), (Fraction(0), Fraction(3, 4)))
    assert seen.freed == (((Fraction(17, 8), Fraction(9, 4)), (Fraction(0), Fraction(3, 4))),)
    assert seen.sides == ("inside-edge", "outside-edge", "back", "face")
    assert taken[0] == (
        (Fraction(0), Fraction(30)),
        (Fraction(2), Fraction(17, 8)),
        (Fraction(0), Fraction(3, 4)),
    )


def test_the_far_side_is_kept_where_the_part_is_the_thin_strip() -> None:
    cut = Cut("#1", "back", "inside-edge", "far")
    seen, _ = section(
        RAIL, (), setup("rip-fence", Fraction(3, 2), Fraction(7, 8)), cut, Fraction(3, 2)
    )
    assert seen.freed == (((Fraction(0), Fraction(3, 2)), (Fraction(0), Fraction(3, 4))),)


def test_a_piece_turned_round_shows_its_second_pass_mirrored() -> None:
    # 3/4 in stock, guide 1/4: first pass 1/4 … 3/8 from the face; the second, from the back,
    # is 3/4 - 3/8 … 3/4 - 1/4 in the first one's view.
    jig = setup("tenoning-jig", Fraction(1, 4), Fraction(3, 2))
    first, second = Cut("A1", "end-A", "face", None), Cut("A1", "end-A", "back", None)
    seen, gone = section(RAIL, (), jig, first, Fraction(1, 4))
    _, taken = section(RAIL, gone, jig, second, Fraction(1, 4))
    assert seen.cut == ((Fraction(1, 4), Fraction(3, 8)), (Fraction(0), Fraction(3, 2)))
    assert seen_as(taken[0], first, RAIL) == (
        (Fraction(3, 8), Fraction(1, 2)),
        (Fraction(0), Fraction(3, 2)),
    )
    assert seen.freed == ()


def test_after_the_shoulders_a_cheek_frees_its_waste_on_the_open_side() -> None:
    # Tenon 2 in long, 1/4 in thick, its cheeks 1/4 in deep; the shoulder's kerf is 1-7/8 … 2 from
    # the end. Cheek guide (3/4 + 1/4)/2 = 1/2: kerf 1/2 … 5/8, the last 1/8 in is freed.
    sled = setup("crosscut-sled", Fraction(15, 8), Fraction(1, 4))
    boxes: list[Box] = []
    for down in ("face", "back"):
        cut = Cut("A3", down, "end-A", None)
        _, taken = section(RAIL, boxes, sled, cut, Fraction(15, 8))
        boxes += taken
    jig = setup("tenoning-jig", Fraction(1, 2), Fraction(15, 8))
    cheek = Cut("A3", "end-A", "face", None)
    seen, _ = section(RAIL, boxes, jig, cheek, Fraction(1, 2))
    assert seen.freed == (((Fraction(5, 8), Fraction(3, 4)), (Fraction(0), Fraction(15, 8))),)
    assert ((Fraction(1, 2), Fraction(3, 4)), (Fraction(15, 8), Fraction(2))) in seen.gone


def test_what_does_not_run_through_along_the_feed_is_not_seen() -> None:
    groove = (
        (Fraction(0), Fraction(12)),
        (Fraction(0), Fraction(1, 4)),
        (Fraction(1, 4), Fraction(1, 2)),
    )
    fence = setup("rip-fence", Fraction(1, 4), Fraction(1, 4))
    jig = setup("tenoning-jig", Fraction(1, 4), Fraction(3, 2))
    along, _ = section(
        RAIL, [groove], fence, Cut("#1", "inside-edge", "face", None), Fraction(1, 4)
    )
    across, _ = section(RAIL, [groove], jig, Cut("A1", "end-A", "face", None), Fraction(1, 4))
    assert along.gone == (((Fraction(1, 4), Fraction(1, 2)), (Fraction(0), Fraction(1, 4))),)
    assert across.gone == ()


def test_a_swept_cut_takes_all_from_the_stop_to_the_far_side_of_the_kerf() -> None:
    sled = setup("crosscut-sled", Fraction(15, 8), Fraction(1, 4))
    cut = Cut("A3", "inside-edge", "end-B", None, sweep=True)
    seen, taken = section(RAIL, (), sled, cut, Fraction(15, 8))
    assert seen.cut == ((Fraction(0), Fraction(2)), (Fraction(0), Fraction(1, 4)))
    assert taken[0] == (
        (Fraction(10), Fraction(12)),
        (Fraction(0), Fraction(1, 4)),
        (Fraction(0), Fraction(3, 4)),
    )


@pytest.mark.parametrize(
    ("down", "against", "expected"),
    [
        # Against end B the kerf lies at length - guide - kerf; on the outside edge, high in y.
        (
            "face",
            "end-B",
            (
                (Fraction(79, 8), Fraction(10)),
                (Fraction(0), Fraction(2)),
                (Fraction(0), Fraction(1, 4)),
            ),
        ),
        (
            "back",
            "end-A",
            (
                (Fraction(2), Fraction(17, 8)),
                (Fraction(0), Fraction(2)),
                (Fraction(1, 2), Fraction(3, 4)),
            ),
        ),
        (
            "outside-edge",
            "end-A",
            (
                (Fraction(2), Fraction(17, 8)),
                (Fraction(7, 4), Fraction(2)),
                (Fraction(0), Fraction(3, 4)),
            ),
        ),
    ],
)
def test_a_pass_in_the_pieces_own_frame(down: str, against: str, expected: object) -> None:
    sled = setup("crosscut-sled", Fraction(2), Fraction(1, 4))
    cut = Cut("A3", down, against, None)  # type: ignore[arg-type]
    _, taken = section(RAIL, (), sled, cut, Fraction(2))
    assert taken == (expected,)
