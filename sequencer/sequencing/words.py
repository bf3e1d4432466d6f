"""How a knob's change is said: what to move, which way and how far."""

from __future__ import annotations

from fractions import Fraction
from math import atan2, degrees

from sequencer.job.schema import Shop, Side
from sequencer.job.sides import fence_crosses, side_in
from sequencer.lengths import Unit, length_words

CARRIERS = {
    "rip-fence": "work along the rip fence",
    "crosscut-sled": "put the crosscut sled on",
    "tenoning-jig": "put the tenoning jig on",
    "mitre-sled": "put the mitre sled on",
}
GUARDS = {
    "fitted": "guard and riving knife on",
    "knife": "guard off, riving knife set below the top of the blade",
    "cover": "guard and riving knife off",
}
CLEARED = {
    "fence": "push the fence right away from the blade, clear of carrier and offcuts",
    "stop": "take the stop off the sled: the offcut falls where it stood",
}
"""What must not stand beside a cut that frees something there."""


def leaning(tilt: str, tilts: Side) -> str:
    """A tilt's value in words: the side that the blade `tilts` to, its angle, and the rise where
    that is a ratio for a rule.

    >>> leaning("-1 in 8", "left"), leaning("541 in 1625", "right")
    ('left 7.1°, away from the fence (1 in 8)', 'right 18.4°, toward the fence')
    """
    lean, _, height = tilt.partition(" in ")
    angle = degrees(atan2(abs(int(lean)), int(height)))
    way = "away from" if lean.startswith("-") else "toward"
    said = f"{tilts} {angle:.1f}°, {way} the fence"
    return f"{said} ({lean.removeprefix('-')} in {height})" if int(height) <= 64 else said


def change_words(
    knob: str,
    after: str,
    before: Fraction | None,
    number: Fraction | None,
    shop: Shop,
    unit: Unit,
    tilt: Fraction,
) -> str:
    """One knob's change; `before` and `number` are its old and new numbers, where it has any, and
    `tilt` is how the blade leans then.

    The fence and the jig move away from the blade when their number grows, the stop away from the
    cut, the blade up.
    """
    if knob == "cutter":
        kinds = {cutter.name: cutter.kind for cutter in shop.cutters}
        kind = {"blade": "blade", "dado": "dado set"}[kinds[after]]
        return f"saw unplugged, fit the {after if kind in after else f'{after} {kind}'}"
    if knob == "tilt":
        if after == "0":
            return "blade square to the table"
        return f"tilt the blade {leaning(after, shop.saw.tilts)}"
    if knob == "carrier":
        return CARRIERS[after]
    if knob == "guard":
        if after == "cover":
            return f"{GUARDS[after]}; over the blade instead: {shop.saw.cover}"
        return GUARDS[after]
    if after == "away":
        return CLEARED[knob]
    assert number is not None
    name = {"height": "blade"}.get(knob, knob)
    if before is None or before == number:
        to = length_words(number, unit, shop.graduation)
        where = ""
        if knob == "fence" and fence_crosses(shop):
            where = f", on the {side_in(shop, 'rip-fence', tilt)} of the blade,"
        return f"set the {'blade height' if knob == 'height' else knob}{where} to {to}"
    way = {
        "height": ("up", "down"),
        "stop": ("away from the blade", "toward the blade"),
        "mitre stop": ("away from the blade", "toward the blade"),
    }.get(knob, ("away from the blade", "toward the blade"))[number < before]
    return f"{name} {length_words(abs(number - before), unit, shop.graduation)} {way}"
