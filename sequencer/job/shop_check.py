"""What a shop's numbers must fulfil among themselves."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from sequencer.job.checked import say
from sequencer.job.document import Path
from sequencer.job.facts import shop_facts
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
        hint = 'write a [[cutter]] with kind = "blade"'
        reader.fault(("cutter",), "no blade among the cutters", hint, key=True)
    _decks(reader)


def _limit(key: str, unit: Unit) -> Fraction:
    return parse(shop_facts()[f"limits.{key}"][unit], unit)


def _cutter(reader: Reader, path: Path, cutter: Cutter) -> None:
    unit = reader.unit
    most_kerf = "most_kerf" if cutter.kind == "blade" else "most_dado"
    for key, value, least, most in (
        ("kerf", cutter.kerf, "least_kerf", most_kerf),
        ("diameter", cutter.diameter, "least_diameter", "most_diameter"),
    ):
        low, high = _limit(least, unit), _limit(most, unit)
        if not low <= value <= high:
            hint = f"a {cutter.kind} has from {say(low, unit)} to {say(high, unit)}: check the unit"
            reader.fault((*path, key), f"a {key} of {say(value, unit)}", hint)
    if (*path, "kerf") in reader.broken:
        return
    if cutter.plate is not None and not 0 < cutter.plate < cutter.kerf:
        message = (
            f"a plate of {say(cutter.plate, unit)} binds in a kerf of {say(cutter.kerf, unit)}"
        )
        reader.fault((*path, "plate"), message, "a blade's plate is thinner than its kerf")


def _names(reader: Reader, cutters: Sequence[Cutter]) -> None:
    names: set[str] = set()
    for index, cutter in enumerate(cutters):
        if cutter.name in names:
            path = ("cutter", index, "name")
            reader.fault(path, f"two cutters named {cutter.name}", "give each its own name")
        names.add(cutter.name)


def _saw(reader: Reader, saw: Saw, blades: Sequence[Cutter]) -> None:
    unit = reader.unit
    knife = saw.knife_thickness
    for blade in blades:
        if knife is not None and not (blade.plate or 0) < knife < blade.kerf:
            message = f"a riving knife of {say(knife, unit)} does not suit the {blade.name}"
            hint = f"thicker than the plate, thinner than the kerf of {say(blade.kerf, unit)}"
            reader.fault(("saw", "knife_thickness"), message, hint)
    height = ("saw", "max_height")
    radius = min((blade.diameter for blade in blades), default=Fraction(0)) / 2
    if saw.max_height < _limit("least_height", unit):
        hint = "measure from the table to the top of a tooth, the blade right up"
        reader.fault(height, f"a blade only {say(saw.max_height, unit)} high", hint)
    elif 0 < radius <= saw.max_height:
        message = f"a blade {say(saw.max_height, unit)} high"
        hint = f"it stands out by less than half its diameter, {say(radius, unit)}"
        reader.fault(height, message, hint)


def _decks(reader: Reader) -> None:
    most = _limit("most_deck", reader.unit)
    for table in ("sled", "jig"):
        deck = reader.length((table, "deck"))
        if deck is not None and deck > most:
            hint = f"at most {say(most, reader.unit)}: check the unit"
            reader.fault((table, "deck"), f"a deck {say(deck, reader.unit)} thick", hint)
