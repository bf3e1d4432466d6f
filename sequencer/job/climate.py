"""The wood on the bench and the room it will hang in, read: `[wood]` and `[room]`.

Percentages are no lengths: they have no unit and are never converted.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from msgspec import Struct

from sequencer.facts import Fact, doors, files, seasons
from sequencer.job.document import Path
from sequencer.job.reader import Reader, meant
from sequencer.job.schema import SEPARATOR
from sequencer.movement import Year
from sequencer.trade.moisture import (
    AIR_SOURCE,
    MOST_HUMIDITY,
    REGIONS,
    USUAL_TEMPERATURE,
    celsius,
    in_air,
)

WOOD = ("sawn", "moisture")
ROOM = ("region", "driest", "wettest", "humidity", "temperature")

_WETTEST = Fraction(30)
"""Percent: Eq. 13-3 of the Wood Handbook (p. 13-17) holds for neither moisture over it."""

_LEAST_HUMIDITY = Fraction(5)
_COLDEST, _HOTTEST = Fraction(-10), Fraction(50)

_HUMIDITY = 'humidity = "30 to 55"'
"""An example, as a file has it."""

_PERCENT = re.compile(r"([0-9]{1,3}(?:\.[0-9]{1,3})?) ?%?")
_DEGREES = re.compile(r"([-−]?[0-9]{1,3}(?:\.[0-9]{1,2})?) ?°? ?([CF])")


class Humidity(Struct, frozen=True):
    """Of the room's air over the year, in percent."""

    low: Fraction
    high: Fraction


def read_climate(reader: Reader, path: Path) -> Any:
    """What stands at a key of `[wood]` or `[room]`; `None` where it is wrong."""
    key = path[-1]
    if not reader.has(path):
        return None
    if key == "sawn":
        return reader.choice(path, ("flat", "quarter"))
    if key == "region":
        return _region(reader, path)
    if key == "humidity":
        return _humidity(reader, path)
    if key == "temperature":
        return _temperature(reader, path)
    return _moisture(reader, path)


def year_of(reader: Reader, stated: Mapping[str, tuple[Any, Path]]) -> Year | None:
    """The year that the keys of both tables tell of, by dotted key with their content and place;
    `None` where they say nothing of it, or something wrong."""
    moisture = stated.get("wood.moisture")
    room = {key.partition(".")[2]: stated[key] for key in stated if key.startswith("room.")}
    if moisture is None and not room:
        return None
    if moisture is None:
        hint = seasons.WRITE_MOISTURE()
        reader.fault(_first(room), seasons.NO_MOISTURE(), hint, key=True)
        return None
    if not room:
        reader.fault(moisture[1], seasons.NO_ROOM(), seasons.WRITE_ROOM(), key=True)
        return None
    if any(content is None for content, _ in (moisture, *room.values())):
        return None
    found = _room(reader, room)
    return found and Year(moisture[0], *found)


def _room(
    reader: Reader, room: Mapping[str, tuple[Any, Path]]
) -> tuple[Fraction, Fraction, Fact] | None:
    """The driest and the wettest that its wood becomes, and where the figures come from."""
    ways = [key for key in ("region", "humidity", "driest", "wettest") if key in room]
    kinds = dict.fromkeys("moisture" if key in ("driest", "wettest") else key for key in ways)
    if len(kinds) > 1:
        reader.fault(room[ways[-1]][1], seasons.TWO_ROOMS(), seasons.ONE_WAY(), key=True)
        return None
    if "temperature" in room and "humidity" not in room:
        hint = doors.WRITE_BESIDE(lines=(_HUMIDITY,))
        reader.fault(room["temperature"][1], seasons.TEMPERATURE_ALONE(), hint, key=True)
        return None
    if "region" in room:
        name = room["region"][0]
        region = REGIONS[name]
        return (
            region.driest, region.wettest, seasons.OF_REGION(region=name, source=region.source),
        )  # fmt: skip
    if "humidity" in room:
        humidity = room["humidity"][0]
        warmth = room["temperature"][0] if "temperature" in room else USUAL_TEMPERATURE
        source = seasons.IN_AIR(
            low=humidity.low, high=humidity.high, warmth=warmth, source=AIR_SOURCE
        )
        return *in_air(humidity.low, humidity.high, warmth), source
    if len(ways) < 2:
        other = "wettest" if ways == ["driest"] else "driest"
        message, hint = seasons.ONE_SEASON(key=other), seasons.OTHER_SEASON_TOO(key=other)
        reader.fault(room[ways[0]][1], message, hint, key=True)
        return None
    driest, wettest = room["driest"][0], room["wettest"][0]
    if driest > wettest:
        message = seasons.DRIEST_IS_WETTER(driest=driest, wettest=wettest)
        reader.fault(room["driest"][1], message, seasons.CHANGE_ROUND())
        return None
    return driest, wettest, seasons.AS_JOB_SAYS()


def _first(room: Mapping[str, tuple[Any, Path]]) -> Path:
    return next(iter(room.values()))[1]


def _moisture(reader: Reader, path: Path) -> Fraction | None:
    found = _percent(_text(reader, path))
    if found is not None and 0 < found < _WETTEST:
        return found
    message = seasons.MOISTURE_UNREAD(key=str(path[-1]), most=_WETTEST)
    reader.fault(path, message, doors.WRITE(lines=(f'{path[-1]} = "8"',)))
    return None


def _region(reader: Reader, path: Path) -> str | None:
    value = _text(reader, path)
    if value in REGIONS:
        return value
    close = meant(value, REGIONS)
    hint = (
        seasons.REGIONS_KNOWN(regions=tuple(f'"{name}"' for name in REGIONS))
        if close is None
        else files.DID_YOU_MEAN(name=f'region = "{close}"')
    )
    reader.fault(path, seasons.REGION_UNKNOWN(), hint)
    return None


def _humidity(reader: Reader, path: Path) -> Humidity | None:
    ends = [_percent(part) for part in _text(reader, path).split(SEPARATOR)]
    if len(ends) == 2 and None not in ends:
        low, high = (end or Fraction(0) for end in ends)
        if _LEAST_HUMIDITY <= low <= high <= MOST_HUMIDITY:
            return Humidity(low, high)
    message = seasons.HUMIDITY_UNREAD(least=_LEAST_HUMIDITY, most=MOST_HUMIDITY)
    reader.fault(path, message, doors.WRITE(lines=(_HUMIDITY,)))
    return None


def _temperature(reader: Reader, path: Path) -> Fraction | None:
    found = _DEGREES.fullmatch(_text(reader, path))
    if found:
        degrees = Fraction(found[1].replace("−", "-"))
        degrees = degrees if found[2] == "C" else celsius(degrees)
        if _COLDEST <= degrees <= _HOTTEST:
            return degrees
    hint = doors.WRITE(lines=('temperature = "20 C"', 'temperature = "68 F"'))
    reader.fault(path, seasons.TEMPERATURE_UNREAD(), hint)
    return None


def _text(reader: Reader, path: Path) -> str:
    """As written; a bare number as if it stood in quotes, empty where it is neither."""
    value = reader.document.get(path)
    if isinstance(value, str):
        return value.strip()
    plain = isinstance(value, int | Fraction) and not isinstance(value, bool)
    return reader.document.raw(path) if plain else ""


def _percent(text: str) -> Fraction | None:
    found = _PERCENT.fullmatch(text.strip())
    return Fraction(found[1]) if found else None
