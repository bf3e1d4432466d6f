"""How a knob's change is said: what to move, which way and how far."""

from __future__ import annotations

from fractions import Fraction

from sequencer.job.schema import Shop
from sequencer.job.sides import fence_crosses, side_in
from sequencer.lengths import Unit, length_words
from sequencer.saw.fittings import KNOBS
from sequencer.saw.names import CARRIERS, CLEARED, GUARDS_SET, MOVED, leaning
from sequencer.saw.names import KNOBS as NAMES
from sequencer.saw.values import AWAY, parse_lean


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
    `tilt` is how the blade leans then."""
    if knob == "cutter":
        kinds = {cutter.name: cutter.kind for cutter in shop.cutters}
        kind = {"blade": "blade", "dado": "dado set"}[kinds[after]]
        return f"saw unplugged, fit the {after if kind in after else f'{after} {kind}'}"
    if knob == "tilt":
        if not (lean := parse_lean(after)):
            return "blade square to the table"
        return f"tilt the blade {leaning(lean, shop.saw.tilts)}"
    if knob == "carrier":
        return CARRIERS[after].put
    if knob == "guard":
        if after == "cover" and shop.saw.cover:
            return f"{GUARDS_SET[after]}; over the blade instead: {shop.saw.cover}"
        return GUARDS_SET[after]
    if after == AWAY:
        return CLEARED[knob]
    assert number is not None
    if before is None or before == number:
        to = length_words(number, unit, shop.graduation)
        where = ""
        if knob == "fence" and fence_crosses(shop):
            where = f", on the {side_in(shop, 'rip-fence', tilt)} of the blade,"
        return f"set the {NAMES[knob]}{where} to {to}"
    way = MOVED[KNOBS[knob].grows][number < before]
    name = "blade" if knob == "height" else NAMES[knob]
    return f"{name} {length_words(abs(number - before), unit, shop.graduation)} {way}"
