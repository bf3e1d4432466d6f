"""Saved settings for the tests: invented ones, and Hypothesis strategies of any."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from hypothesis import strategies as st

from sequencer.saved.entry import GAUGES, Dialled, Entry
from sequencer.saw.fittings import CARRIERS, NUMBERED
from sequencer.shelf import Gauge

NAMES = st.text(st.characters(codec="utf-8", exclude_categories=("C", "Z")), min_size=1, max_size=8)
LENGTHS = st.fractions(min_value=0, max_value=60, max_denominator=1024)
SHARES = st.sampled_from((None, Fraction(0), Fraction(1, 2), Fraction(1)))


@st.composite
def dialled(draw: st.DrawFn, knob: str) -> Dialled:
    tried = draw(st.booleans())
    return Dialled(
        knob=knob,
        value=draw(LENGTHS),
        read=draw(st.none() | LENGTHS),
        share=draw(SHARES),
        measure=draw(st.sampled_from(("", "channel-width/slot", "tenon"))),
        target=draw(LENGTHS) if tried else None,
        measured=draw(LENGTHS) if tried else None,
        per_unit=Fraction(draw(st.sampled_from((-2, 1, 2)))) if tried else None,
        gauge=draw(st.none() | st.builds(Gauge, st.sampled_from(GAUGES), NAMES)),
    )


@st.composite
def entries(draw: st.DrawFn) -> Entry:
    knobs = draw(st.lists(st.sampled_from(sorted(NUMBERED)), min_size=1, max_size=4, unique=True))
    return Entry(
        saw=draw(NAMES),
        cutter=draw(NAMES),
        kerf=draw(LENGTHS.filter(bool)),
        unit=draw(st.sampled_from(("in", "mm"))),
        carrier=draw(st.sampled_from(tuple(CARRIERS))),
        knobs=tuple(draw(dialled(knob)) for knob in sorted(knobs)),
        makes=draw(st.text(max_size=20)),
        date=draw(st.dates()).isoformat(),
        jobs=tuple(draw(st.lists(NAMES, max_size=3, unique=True))),
        note=draw(st.text(max_size=20)),
        doubted=draw(st.booleans()),
    )


def entry(number: int = 1, **changes: Any) -> Entry:
    """A slot dialled in, its jig a little further from the blade the higher its number."""
    jig = Fraction(1, 4) + Fraction(number, 64)
    fields: dict[str, Any] = {
        "saw": "shed",
        "cutter": "combination",
        "kerf": Fraction(1, 8),
        "unit": "in",
        "carrier": "tenoning-jig",
        "knobs": (
            Dialled("height", Fraction(2)),
            Dialled("jig", jig, jig + Fraction(1, 64), measure="channel-width/slot"),
        ),
        "makes": f"slot {number}",
        "date": "2025-11-25",
        **changes,
    }
    return Entry(**fields)
