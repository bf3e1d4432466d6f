"""What a shop's numbers must fulfil among themselves."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from sequencer.facts import Length, shops
from sequencer.job.defaults import shop_facts
from sequencer.job.document import Path
from sequencer.job.reader import Reader
from sequencer.job.schema import Cutter, Saw
from sequencer.lengths import Unit, parse


def check(reader: Reader, saw: Saw, cutters: Sequence[Cutter]) -> None:
    """Add to the reader's faults what is wrong with values that were each read well; nothing is
    concluded from the others."""
    for index, cutter in enumerate(cutters):
        _cutter(reader, ("cutter", index), cutter)
    _names(reader, cutters)
    blades = [(index, cutter) for index, cutter in enumerate(cutters) if cutter.kind == "blade"]
    if blades:
        sound = [c for i, c in blades if ("cutter", i, "kerf") not in reader.broken]
        _saw(reader, saw, sound)
    else:
        reader.fault(("cutter",), shops.NO_BLADE(), shops.WRITE_BLADE(), key=True)
    _decks(reader)


def limit(key: str, unit: Unit) -> Fraction:
    """The least or most that a shop file may say, by its key in the table of defaults."""
    return parse(shop_facts()[f"limits.{key}"][unit], unit)


def _cutter(reader: Reader, path: Path, cutter: Cutter) -> None:
    unit = reader.unit
    blade = cutter.kind == "blade"
    most_kerf = "most_kerf" if blade else "most_dado"
    usual = shops.BLADES_HAVE if blade else shops.DADO_SETS_HAVE
    kerf, diameter = Length(cutter.kerf, unit), Length(cutter.diameter, unit)
    for key, value, message, least, most in (
        ("kerf", kerf.value, shops.ODD_KERF(kerf=kerf), "least_kerf", most_kerf),
        (
            "diameter", diameter.value, shops.ODD_DIAMETER(diameter=diameter),
            "least_diameter", "most_diameter",
        ),
    ):  # fmt: skip
        low, high = limit(least, unit), limit(most, unit)
        if not low <= value <= high:
            hint = usual(low=Length(low, unit), high=Length(high, unit))
            reader.fault((*path, key), message, hint)
    if (*path, "kerf") in reader.broken:
        return
    if cutter.plate is not None and not 0 < cutter.plate < cutter.kerf:
        message = shops.PLATE_BINDS(plate=Length(cutter.plate, unit), kerf=kerf)
        reader.fault((*path, "plate"), message, shops.PLATE_IS_THINNER())


def _names(reader: Reader, cutters: Sequence[Cutter]) -> None:
    names: set[str] = set()
    for index, cutter in enumerate(cutters):
        if cutter.name in names:
            path = ("cutter", index, "name")
            reader.fault(path, shops.NAMED_TWICE(name=cutter.name), shops.OWN_NAME())
        names.add(cutter.name)


def _saw(reader: Reader, saw: Saw, blades: Sequence[Cutter]) -> None:
    unit = reader.unit
    knife = saw.knife_thickness
    for blade in blades:
        if knife is not None and not (blade.plate or 0) < knife < blade.kerf:
            message = shops.KNIFE_UNSUITED(knife=Length(knife, unit), blade=blade.name)
            hint = shops.KNIFE_SUITS(kerf=Length(blade.kerf, unit))
            reader.fault(("saw", "knife_thickness"), message, hint)
    path, height = ("saw", "max_height"), Length(saw.max_height, unit)
    radius = min((blade.diameter for blade in blades), default=Fraction(0)) / 2
    if saw.max_height < limit("least_height", unit):
        reader.fault(path, shops.LOW_BLADE(height=height), shops.MEASURE_HEIGHT())
    elif 0 < radius <= saw.max_height:
        hint = shops.HALF_DIAMETER(half=Length(radius, unit))
        reader.fault(path, shops.HIGH_BLADE(height=height), hint)


def _decks(reader: Reader) -> None:
    unit = reader.unit
    most = limit("most_deck", unit)
    for table in ("sled", "jig"):
        deck = reader.length((table, "deck"))
        if deck is not None and deck > most:
            message = shops.THICK_DECK(deck=Length(deck, unit))
            hint = shops.DECK_AT_MOST(most=Length(most, unit))
            reader.fault((table, "deck"), message, hint)
