"""The moisture that wood settles at, from the air round it, and what rooms usually have.

Source: *Wood Handbook*, FPL-GTR-190 (2010), Eq. 4-5 (p. 4-3), °C constants; Table 13-2 (p. 13-4,
averages at second hand, ranges from memory); NHBC Standards 6.7.7, Table 4; EN 942, at second hand.
"""

from __future__ import annotations

from fractions import Fraction
from math import ceil, floor

from msgspec import Struct

from sequencer.units import converted

MOST_HUMIDITY = Fraction(95)
USUAL_TEMPERATURE = Fraction(20)
"""°C, of a room whose job states its humidity alone. Common practice; ten degrees more make wood
about half a percent drier."""


class Region(Struct, frozen=True):
    """Moisture of indoor wood over the year, in percent, and where the figures come from."""

    driest: Fraction
    wettest: Fraction
    source: str


def _region(driest: str, wettest: str, source: str) -> Region:
    return Region(Fraction(driest), Fraction(wettest), source)


_TABLE = "Wood Handbook, Table 13-2 (p. 13-4); the range from memory"
REGIONS = {
    "most of the US": _region("6", "10", _TABLE),
    "dry southwest US": _region("4", "9", _TABLE),
    "damp warm coast US": _region("8", "13", _TABLE),
    "UK, heated throughout": _region("9", "12", "NHBC Standards 6.7.7, Table 4"),
    "UK, heated at times": _region("12", "15", "NHBC Standards 6.7.7, Table 4"),
    "Europe, heated": _region("9", "13", "EN 942, at second hand"),
}


def equilibrium(temperature: Fraction, humidity: Fraction) -> Fraction:
    """The moisture, in percent, that wood settles at in air of `temperature` °C and `humidity`
    percent. Eq. 4-5 is exact rational arithmetic. Raises `ValueError` outside 0 to 95 %.

    >>> float(round(equilibrium(Fraction(20), Fraction(50)), 2))
    9.27
    """
    if not 0 <= humidity <= MOST_HUMIDITY:
        raise ValueError(f"a humidity of {humidity} % is outside 0 to {MOST_HUMIDITY} %")
    t, h = temperature, humidity / 100
    w = 349 + _d("1.29") * t + _d("0.0135") * t**2
    k = _d("0.805") + _d("0.000736") * t - _d("0.00000273") * t**2
    k1 = _d("6.27") - _d("0.00938") * t - _d("0.000303") * t**2
    k2 = _d("1.91") + _d("0.0407") * t - _d("0.000293") * t**2
    kh = k * h
    layers = k1 * kh + 2 * k1 * k2 * kh**2
    return 1800 / w * (kh / (1 - kh) + layers / (1 + k1 * kh + k1 * k2 * kh**2))


AIR_SOURCE = "Wood Handbook, Eq. 4-5 (p. 4-3)"


def in_air(low: Fraction, high: Fraction, warmth: Fraction) -> tuple[Fraction, Fraction]:
    """The driest and the wettest that wood becomes in air of `low` to `high` percent and `warmth`
    °C. Outward to a tenth: more than that no meter shows, and the season is no narrower."""
    driest, wettest = (equilibrium(warmth, each) for each in (low, high))
    return Fraction(floor(driest * 10), 10), Fraction(ceil(wettest * 10), 10)


def celsius(fahrenheit: Fraction) -> Fraction:
    """
    >>> celsius(Fraction(68))
    Fraction(20, 1)
    """
    return converted(fahrenheit, "degree_Fahrenheit", "degree_Celsius")


def percent(value: Fraction) -> str:
    """To a tenth, as a meter shows it; degrees too.

    >>> percent(Fraction(8)), percent(Fraction(92, 10)), percent(Fraction(-1, 2))
    ('8', '9.2', '-0.5')
    """
    whole, tenth = divmod(abs(round(value * 10)), 10)
    return f"{'-' if value < 0 else ''}{whole}" + (f".{tenth}" if tenth else "")


def _d(text: str) -> Fraction:
    return Fraction(text)
