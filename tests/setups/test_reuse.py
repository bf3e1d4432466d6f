"""Saved settings found again: within the fit's tolerance, on the same saw, blade and carrier."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sequencer.facts import Length, notes
from sequencer.job.schema import Minutes
from sequencer.job.shop import default_shop
from sequencer.records import replace
from sequencer.setups import reuse
from sequencer.setups.reuse import Want, told
from sequencer.shelf import Gauge, Saved, Shelf

MINUTES: Minutes = default_shop("in").minutes
EIGHTH = Fraction(1, 8)
BAND = Fraction(1, 1024)

JIG = Saved(12, "combination", EIGHTH, "tenoning-jig", "jig", Fraction(1, 4), Fraction(17, 64))


def found(
    saved: Iterable[Saved],
    at: Fraction = Fraction(1, 4),
    kerf: Fraction = EIGHTH,
    measured: Iterable[str] = (),
    knob: str = "jig",
    tested: bool = True,
    band: Fraction = BAND,
    carrier: str = "tenoning-jig",
) -> reuse.Reuse:
    """What the shelf holds for a fit at `at`, good within `band`."""
    want = Want((at - band, at + band), tested, at)
    want.narrow(want.span, carrier, "combination", kerf)
    shelf = Shelf.of(saved, "in").trusting(measured)
    return reuse.find({(knob, "wanted"): want}, shelf, MINUTES)


READS = notes.READS(reads=Length(Fraction(17, 64), "in"))
TWELVE = notes.SETTINGS(n=1, numbers=(12,))


def match(*args: object, **kwargs: object) -> reuse.Match | None:
    result = found(*args, **kwargs)  # type: ignore[arg-type]  # as found's
    return result.matches.get((str(kwargs.get("knob", "jig")), "wanted"))


def test_the_same_setting_is_cheaper_and_is_checked_with_one_cut() -> None:
    hit = match([JIG])
    assert hit is not None
    assert hit.saved.number == 12
    assert hit.minutes == MINUTES.saved + MINUTES.check_cut
    assert hit.minutes < MINUTES.of("jig") + MINUTES.test_cut
    assert told(hit, "in") == READS


def test_a_gauge_is_cheaper_still_and_is_named() -> None:
    hit = match([JIG, replace(JIG, number=3, gauge=Gauge("block", "B"))])
    assert hit is not None
    assert hit.saved.number == 3
    assert hit.minutes == MINUTES.gauge + MINUTES.check_cut
    assert told(hit, "in") == notes.BY_GAUGE(
        gauge=notes.BLOCK(name="B"), reads=Length(Fraction(17, 64), "in")
    )


@pytest.mark.parametrize(
    ("change", "fits"),
    [
        ({}, True),
        ({"value": Fraction(1, 4) + BAND}, True),
        ({"value": Fraction(1, 4) - BAND}, True),
        ({"value": Fraction(1, 4) + BAND + Fraction(1, 10**6)}, False),
        # A slot that came out 1/256 too wide stood 1/512 nearer than it was computed.
        ({"off": Fraction(-1, 512)}, False),
        ({"value": Fraction(1, 4) + Fraction(1, 512), "off": Fraction(-1, 512)}, True),
        ({"carrier": "rip-fence"}, False),
        ({"knob": "fence"}, False),
        ({"cutter": "thin blade"}, False),
    ],
)
def test_only_what_stands_within_the_tolerance_on_the_same_carrier(
    change: dict[str, object], fits: bool
) -> None:
    assert (match([replace(JIG, **change)]) is not None) == fits  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("change", "fits"),
    [
        ({"read": Fraction(1, 2)}, True),
        ({"read": Fraction(1, 2) + Fraction(1, 10**6)}, False),
        ({"read": Fraction(0)}, True),
        ({"read": Fraction(-1, 10**6)}, False),
        # The teeth of a wider kerf stand out half of it more; the scale was 1/64 off already.
        ({"kerf": EIGHTH + Fraction(17, 32)}, True),
        ({"kerf": EIGHTH + Fraction(18, 32)}, False),
        ({"kerf": Fraction(16, 5)}, False),
        # A gauge holds, but its number is not of this blade.
        ({"read": Fraction(7), "gauge": Gauge("block", "B")}, False),
    ],
)
def test_what_no_scale_shows_is_left_out_and_named(change: dict[str, object], fits: bool) -> None:
    """What was typed wrong once would be told of every plan since as the proof's own fault."""
    saved = replace(JIG, share=Fraction(0), **change)  # type: ignore[arg-type]
    made = found([saved])
    assert (match([saved]) is not None) == fits
    named = notes.USELESS(settings=TWELVE, most=Length(Fraction(1, 4), "in"))
    assert made.notes == (() if fits else (named,))
    both = found([saved, replace(JIG, number=15)])
    assert {each.saved.number for each in both.matches.values()} <= ({12, 15} if fits else {15})
    assert made.known or not fits


def test_of_equals_the_nearest_then_the_latest() -> None:
    far = replace(JIG, number=40, value=Fraction(1, 4) + BAND / 2)
    hit = match([far, JIG, replace(JIG, number=15)])
    assert hit is not None
    assert hit.saved.number == 15


# What is made stays where the side of the kerf that makes it stays. A shoulder 2 in from the end:
# guide + kerf = 2. The scale reads off the guide's number by half the growth, for the blade's near
# side comes closer by that much.
@pytest.mark.parametrize(
    ("share", "guide", "now", "reads"),
    [
        (Fraction(0), Fraction(2), Fraction(2), Fraction(2) + Fraction(1, 64)),
        (
            Fraction(1),
            Fraction(2) - EIGHTH,
            Fraction(2) - EIGHTH - Fraction(1, 32),
            Fraction(2) - EIGHTH - Fraction(1, 64),
        ),
        (Fraction(1, 2), Fraction(2), Fraction(2) - Fraction(1, 64), Fraction(2)),
    ],
    ids=["near side", "far side", "middle"],
)
def test_another_kerf_is_corrected_by_the_difference(
    share: Fraction, guide: Fraction, now: Fraction, reads: Fraction
) -> None:
    saved = Saved(5, "combination", EIGHTH, "crosscut-sled", "stop", guide, share=share)
    kerf = EIGHTH + Fraction(1, 32)
    hit = match([saved], at=now, kerf=kerf, knob="stop", carrier="crosscut-sled")
    assert hit is not None
    assert hit.reads == reads
    assert hit.minutes == MINUTES.of("stop") + MINUTES.check_cut
    kerfs = {"was": Length(EIGHTH, "in"), "now": Length(kerf, "in")}
    assert kerfs.items() <= told(hit, "in").given.items()
    if share:
        same = match([saved], at=guide, kerf=kerf, knob="stop", carrier="crosscut-sled")
        assert same is None


def test_a_gauge_against_the_blade_holds_with_another_kerf_where_the_near_side_cuts() -> None:
    gauged = replace(JIG, gauge=Gauge("block", "B"))
    near = match([gauged], kerf=EIGHTH + Fraction(1, 64))
    assert near is not None
    assert near.by_gauge
    assert near.minutes == MINUTES.gauge + MINUTES.check_cut
    far = match(
        [replace(gauged, share=Fraction(1))],
        at=Fraction(1, 4) - Fraction(1, 64),
        kerf=EIGHTH + Fraction(1, 64),
    )
    assert far is not None
    assert not far.by_gauge


def test_a_setting_whose_part_of_the_kerf_is_unknown_is_used_with_its_own_kerf_only() -> None:
    unknown = replace(JIG, share=None)
    assert match([unknown]) is not None
    assert match([unknown], kerf=EIGHTH + Fraction(1, 1000)) is None


def test_a_doubted_kerf_waits_until_it_is_measured_and_says_so() -> None:
    doubted = replace(JIG, doubted=True)
    result = found([doubted])
    assert result.matches == {}
    (note,) = result.notes
    assert note == notes.DOUBTED(settings=TWELVE, cutter="combination")
    assert match([doubted], measured=["combination"]) is not None


def test_a_setting_of_another_blade_is_refused_and_says_so() -> None:
    result = found([replace(JIG, cutter="thin blade")])
    assert result.matches == {}
    (note,) = result.notes
    assert note == notes.OTHER_CUTTER(settings=TWELVE, cutter="thin blade")


def test_settings_of_several_other_blades_are_told_of_blade_by_blade() -> None:
    lot = [replace(JIG, number=n, cutter=f"{name} blade")
           for n, name in ((3, "thin"), (5, "thick"), (8, "thin"))]  # fmt: skip
    assert found(lot).notes == (
        notes.OTHER_CUTTER(settings=notes.SETTINGS(n=2, numbers=(3, 8)), cutter="thin blade"),
        notes.OTHER_CUTTER(settings=notes.SETTINGS(n=1, numbers=(5,)), cutter="thick blade"),
    )


@given(
    knob=st.sampled_from(("height", "fence", "stop", "jig")),
    tested=st.booleans(),
    gauge=st.none() | st.just(Gauge("spacer", "2")),
    grown=st.sampled_from((Fraction(0), Fraction(1, 64), Fraction(-1, 64))),
    share=st.sampled_from((Fraction(0), Fraction(1, 2), Fraction(1))),
)
def test_a_saved_setting_never_costs_more_than_a_new_one(
    knob: str, tested: bool, gauge: Gauge | None, grown: Fraction, share: Fraction
) -> None:
    saved = Saved(
        1, "combination", EIGHTH, "rip-fence", knob, Fraction(2), gauge=gauge, share=share
    )
    at = Fraction(2) - share * grown
    hit = match([saved], at=at, kerf=EIGHTH + grown, knob=knob, carrier="rip-fence", tested=tested)
    assert hit is not None
    anew = MINUTES.of(knob) + (MINUTES.test_cut if tested else 0)
    assert hit.minutes <= anew


@given(
    st.lists(st.tuples(st.integers(0, 400), st.integers(-2, 2)), max_size=30),
    st.integers(0, 400),
    st.integers(0, 40),
    st.sampled_from((EIGHTH, Fraction(3, 32), Fraction(127, 1000))),
)
def test_the_shelf_finds_what_looking_at_every_setting_finds(
    places: list[tuple[int, int]], low: int, width: int, kerf: Fraction
) -> None:
    shares = (None, Fraction(0), Fraction(1, 2), Fraction(1))
    lot = [
        Saved(
            n,
            "c",
            EIGHTH if n % 3 else Fraction(3, 32),
            "rip-fence",
            "fence",
            Fraction(at, 7),
            off=Fraction(off, 900),
            share=shares[n % 4],
        )
        for n, (at, off) in enumerate(places, 1)
    ]
    span = (Fraction(low, 7), Fraction(low + width, 7))

    def stands(one: Saved) -> Fraction | None:
        if one.share is None:
            return one.value + one.off if one.kerf == kerf else None
        return one.value + one.off - one.share * (kerf - one.kerf)

    wanted = {
        one.number for one in lot if (at := stands(one)) is not None and span[0] <= at <= span[1]
    }
    near = Shelf.of(lot, "in").near("c", kerf, "rip-fence", "fence", *span)
    assert {one.number for one, _ in near} == wanted


def test_any_height_in_a_range_will_do_and_the_cheapest_is_kept() -> None:
    want = Want((Fraction(7, 8), Fraction(1)), False)
    want.narrow(want.span, "rip-fence", "combination", EIGHTH)
    block = Gauge("block", "H")
    lot = [
        Saved(1, "combination", EIGHTH, "rip-fence", "height", Fraction(15, 16)),
        Saved(2, "combination", EIGHTH, "rip-fence", "height", Fraction(31, 32), gauge=block),
        Saved(3, "combination", EIGHTH, "rip-fence", "height", Fraction(5, 4), gauge=block),
    ]
    assert reuse.heights_within([want], Shelf.of(lot, "in"), MINUTES) == (Fraction(31, 32),)


def test_the_latest_settings_come_by_their_numbers() -> None:
    lot = [replace(JIG, number=n, value=Fraction(1, n)) for n in (4, 9, 2, 7)]
    assert [one.number for one in Shelf.of(lot, "in").latest(3)] == [4, 7, 9]
    assert Shelf().latest(3) == ()


def test_of_many_settings_five_are_named() -> None:
    """All of another cutter, so that none is used."""
    many = [replace(JIG, number=n, cutter="thin") for n in range(1, 9)]
    (note,) = found(many).notes
    eight = notes.AND_MORE(numbers=(1, 2, 3, 4, 5), more=3)
    assert note == notes.OTHER_CUTTER(settings=eight, cutter="thin")
    (note,) = found(many[:5]).notes
    assert note.given["settings"] == notes.SETTINGS(n=5, numbers=(1, 2, 3, 4, 5))
