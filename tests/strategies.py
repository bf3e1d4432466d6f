"""Hypothesis strategies for jobs and shops: every kind of door and saw that can be asked for.

Whatever is drawn is well-formed (what the job file's reader would let through); whether it can be
made on that saw is for the planner to say.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Literal

from hypothesis import strategies as st

from sequencer.facts import seasons
from sequencer.facts.doors import OWN_NAME
from sequencer.job import season
from sequencer.job.checked import Checked
from sequencer.job.play import with_play
from sequencer.job.schema import (
    Cutter,
    Door,
    Gaps,
    Groove,
    Jig,
    Job,
    Joint,
    Minutes,
    Opening,
    Panel,
    Place,
    Saw,
    Shop,
    Side,
    Sled,
    Tools,
)
from sequencer.lengths import Unit
from sequencer.measured import Measured
from sequencer.movement import Year
from sequencer.records import replace
from sequencer.saw.fittings import MINUTES, SCALES
from sequencer.trade.aids import KEYS

_UNITS: tuple[Unit, ...] = ("in", "mm")
_SIDES: tuple[Side, ...] = ("right", "left")
_RIDES: tuple[Literal["slot", "fence"], ...] = ("slot", "fence")

units = st.sampled_from(_UNITS)


def lengths(unit: Unit, low: str, high: str) -> st.SearchStrategy[Fraction]:
    """Lengths from `low` to `high` inches: on 1/32 in, or on the half millimetre nearest."""
    return steps(unit, low, high, Fraction(1, 32), Fraction(1, 2))


def fine(unit: Unit, low: str, high: str) -> st.SearchStrategy[Fraction]:
    """As measured with a caliper: thousandths of an inch, hundredths of a millimetre."""
    return steps(unit, low, high, Fraction(1, 1000), Fraction(1, 100))


def steps(
    unit: Unit, low: str, high: str, inch: Fraction, mm: Fraction
) -> st.SearchStrategy[Fraction]:
    """Multiples of a step of the unit's own, between two lengths in inches."""
    step, scale = (inch, Fraction(1)) if unit == "in" else (mm, Fraction(127, 5))
    least = -(-Fraction(low) * scale // step)
    return st.integers(int(least), int(Fraction(high) * scale // step)).map(lambda n: n * step)


@st.composite
def shops(draw: st.DrawFn, unit: Unit) -> Shop:
    """A shop with one blade or two, a sled and either kind of tenoning jig, each on either side of
    the blade."""
    rides = draw(st.sampled_from(_RIDES))
    fence = draw(st.sampled_from(_SIDES))
    knife = draw(st.booleans())
    blades = [
        Cutter(
            name=f"blade {number}",
            kind="blade",
            kerf=draw(fine(unit, "5/64", "5/32")),  # 2 to 4 mm
            diameter=Fraction(10) if unit == "in" else Fraction(254),
            grind=draw(st.sampled_from(("flat-top", "alternate"))),
        )
        for number in range(1, draw(st.integers(1, 2)) + 1)
    ]
    dado = draw(st.booleans())
    if dado:
        width = draw(fine(unit, "3/16", "5/16"))
        diameter = Fraction(8) if unit == "in" else Fraction(203)
        blades.append(Cutter("dado set", "dado", width, diameter, "flat-top"))
    return Shop(
        name="shop",
        graduation=draw(st.sampled_from(_GRADUATIONS[unit])),
        saw=Saw(
            max_height=draw(lengths(unit, "3", "4")),
            knife=knife,
            knife_thickness=None,
            cover=draw(st.sampled_from(("tunnel guard",) if not knife else (None, "tunnel guard"))),
            hold_down="featherboard",
            dado=dado and draw(st.booleans()),
            fence_height=draw(st.none() | lengths(unit, "2", "4")),
            fence=fence,
            tilts=draw(st.sampled_from(_SIDES)),
        ),
        cutters=tuple(blades),
        sled=Sled(
            deck=draw(st.just(Fraction(0)) | lengths(unit, "1/4", "1")),
            longest=draw(lengths(unit, "48", "96")),
            widest=draw(lengths(unit, "18", "36")),
            clamp=draw(st.booleans()),
        ),
        jig=Jig(
            rides=rides,
            thickness=draw(lengths(unit, "1/2", "4")) if rides == "fence" else Fraction(0),
            deck=draw(st.just(Fraction(0)) | lengths(unit, "1/8", "1/2")),
            opening=draw(lengths(unit, "2", "5")),
            side=fence if rides == "fence" else draw(st.sampled_from(_SIDES)),
        ),
        minutes=draw(_minutes),
        tools=draw(_tools(unit)),
        scales=dict.fromkeys(SCALES, draw(st.sampled_from(_GRADUATIONS[unit]))),
        aids=draw(st.frozensets(st.sampled_from(sorted(KEYS.values())))),
    )


_GRADUATIONS: dict[Unit, tuple[Fraction, ...]] = {
    "in": (Fraction(1, 64), Fraction(1, 32), Fraction(1, 16)),
    "mm": (Fraction(1, 2), Fraction(1, 10)),
}

_minute = st.integers(1, 12).map(lambda n: Fraction(n, 2))
_minutes = st.builds(
    Minutes,
    knobs=st.fixed_dictionaries(dict.fromkeys(MINUTES, _minute)),
    test_cut=_minute,
    nibble=st.sampled_from((Fraction(1, 8), Fraction(1, 4))),
)


def _tools(unit: Unit) -> st.SearchStrategy[Tools]:
    """With a caliper or without."""
    inch = unit == "in"
    return st.builds(
        Tools,
        caliper=st.sampled_from((Fraction(1, 1000) if inch else Fraction(1, 100), None)),
        caliper_reach=lengths(unit, "4", "8"),
        rule=st.just(Fraction(1, 64) if inch else Fraction(1, 2)),
        rule_reach=lengths(unit, "6", "40"),
        tape=st.sampled_from((Fraction(1, 32), Fraction(1, 16)) if inch else (Fraction(1),)),
    )


@st.composite
def doors(draw: st.DrawFn, unit: Unit, marks: Sequence[str], name: str) -> Door:
    """A single leaf, or a pair where two marks are given."""
    pair = len(marks) == 2
    zero = Fraction(0)
    gap = lengths(unit, "1/32", "1/4")
    thickness = draw(fine(unit, "5/8", "1"))
    stile = lengths(unit, "3/2", "11/4")
    hinge_stile = draw(stile)
    free_stile = draw(st.just(hinge_stile) | stile)
    top_rail = draw(stile)
    # A slot between 3/10 and 2/5 of the thickness leaves a quarter and more on either side.
    slot = draw(st.none() | _share(thickness, unit, 3, 4))
    # A groove wider than a slot that is given would leave a void, which the planner refuses.
    most = 4 if slot is None else int(10 * slot / thickness)
    groove_width = draw(st.none() | _share(thickness, unit, 2, most))
    panel = None
    if groove_width is None:
        panel = draw(st.none() | _share(thickness, unit, 2, 3 if slot is None else most - 1))
    offset = None
    if slot is not None and draw(st.booleans()):
        offset = draw(_share(thickness - slot, unit, 4, 6))
    made = Door(
        name=OWN_NAME(name=name),
        marks=tuple(marks),
        where="job.toml:1",
        opening=Opening(
            draw(lengths(unit, "18", "40") if pair else lengths(unit, "9", "24")),
            draw(lengths(unit, "12", "40")),
        ),
        gaps=Gaps(
            top=draw(gap),
            bottom=draw(gap),
            hinge=draw(gap),
            lock=draw(gap),
            meeting=draw(lengths(unit, "1/8", "5/16")) if pair else None,
        ),
        hinge=draw(st.sampled_from(("left", "right"))),
        thickness=thickness,
        edge_allowance=draw(st.just(zero) | lengths(unit, "1/32", "3/32")),
        species="cherry",
        hinge_stile=hinge_stile,
        free_stile=free_stile,
        top_rail=top_rail,
        bottom_rail=draw(st.just(top_rail) | stile),
        face_side=draw(st.sampled_from(("out", "in"))),
        joint=Joint(
            slot=slot,
            offset=offset,
            clearance=draw(fine(unit, "1/1000", "1/100")),
            proud=draw(st.just(zero) | lengths(unit, "1/32", "1/4")),
            tenons=draw(st.sampled_from(("one length", "each stile"))),
        ),
        groove=Groove(depth=draw(lengths(unit, "3/16", "3/8")), width=groove_width, offset=None),
        panel=Panel(
            thickness=panel,
            play_side=draw(lengths(unit, "1/32", "3/32")),
            play_end=draw(lengths(unit, "1/32", "3/32")),
            species="cherry",
            engagement=draw(lengths(unit, "1/32", "1/8")),
        ),
        places={"door": Place("job.toml", 1, 1)},
        sawn=draw(st.sampled_from(("flat", "quarter"))),
    )
    return _in_its_year(made, draw(st.none() | _years), unit)


def _in_its_year(door: Door, year: Year | None, unit: Unit) -> Door:
    """The door as its year has it, where that lets its panel and its gap be; else without one."""
    made = with_play(replace(door, year=year), unit)
    checked = Checked(made, unit)
    return door if [*season.panel(checked), *season.free_side(checked)] else made


_years = st.builds(
    Year,
    today=st.integers(60, 140).map(lambda n: Fraction(n, 10)),
    driest=st.integers(40, 90).map(lambda n: Fraction(n, 10)),
    wettest=st.integers(91, 150).map(lambda n: Fraction(n, 10)),
    source=st.just(seasons.AS_JOB_SAYS()),
)


def _share(length: Fraction, unit: Unit, low: int, high: int) -> st.SearchStrategy[Fraction]:
    """From `low` to `high` tenths of a length, on a 64th of an inch or a tenth of a millimetre."""
    step = Fraction(1, 64) if unit == "in" else Fraction(1, 10)
    least, most = -(-length * low / 10 // step), length * high / 10 // step
    return st.integers(int(least), max(int(least), int(most))).map(lambda n: n * step)


@st.composite
def jobs(draw: st.DrawFn, unit: Unit, most: int = 2) -> Job:
    """A job of up to `most` doors, singles and pairs; equal ones among them."""
    made: list[Door] = []
    letters = iter("ABCDEFGHIJKLMNOPQRSTUVWXYZ")
    for number in range(1, draw(st.integers(1, most)) + 1):
        marks = [next(letters) for _ in range(draw(st.integers(1, 2)))]
        made.append(draw(doors(unit, marks, f"door {number}")))
    return Job(name="job", file="job.toml", unit=unit, doors=tuple(made))


@st.composite
def jobs_and_shops(draw: st.DrawFn, most: int = 2) -> tuple[Job, Shop]:
    """A job and a shop in one unit."""
    unit = draw(units)
    return draw(jobs(unit, most)), draw(shops(unit))


@st.composite
def measurements(draw: st.DrawFn, job: Job, shop: Shop) -> Measured:
    """What a caliper finds of cutters and stock: off by up to five thousandths either way."""
    hair = Fraction(1, 1000) if job.unit == "in" else Fraction(1, 40)
    off = st.integers(-5, 5).map(lambda n: n * hair)
    return Measured(
        kerf={cutter.name: cutter.kerf + draw(off) for cutter in shop.cutters},
        thickness={door.thickness: door.thickness + draw(off) for door in job.doors},
    )
