"""What a shop can cut of a job: kerf, blade height, sled and jig."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from sequencer.errors import Fault
from sequencer.job.checked import Checked
from sequencer.job.kinds import Boarded, Glazed
from sequencer.job.schema import Job, Shop
from sequencer.trade.fits import OVER_LEAST, TENON_LEAST


def against_shop(job: Job, shop: Shop) -> tuple[Fault, ...]:
    """All that the shop cannot cut; job and shop are in the job's unit. Doors that repeat are
    told once."""
    faults = [fault for door in job.doors for fault in _shop_faults(Checked(door, job.unit), shop)]
    return tuple(sorted(dict.fromkeys(faults), key=lambda f: (f.line, f.column, f.message)))


def _shop_faults(c: Checked, shop: Shop) -> Iterator[Fault]:
    door = c.door
    if door.slab is not None:
        yield from _slab(c, shop)
        return
    kerf = shop.joinery_blade.kerf
    for key, name, width in (
        ("joint.slot", "slot", door.joint.slot),
        ("groove.width", "groove", c.groove_width),
    ):
        if width is not None and width < kerf:
            place = key if key in door.places else "panel.thickness"
            message = f"the kerf, {c.say(kerf)}, is wider than the {name}, {c.say(width)}"
            yield c.fault(place, message, "a thinner blade, or leave the width out")
    if kerf > door.thickness - 2 * c.limit("least_cheek"):
        message = f"stock {c.say(door.thickness)} thick is too thin for a kerf of {c.say(kerf)}"
        yield c.fault("stock.thickness", message, "a thinner blade, or thicker stock")
    yield from _too_high(c, shop)
    yield from _too_large(c, shop)


def _slab(c: Checked, shop: Shop) -> Iterator[Fault]:
    for key, size, most, where in (
        ("opening.height", c.height, shop.sled.longest, "long; the sled takes"),
        ("opening.width", c.width, shop.sled.widest, "wide; the sled takes"),
    ):
        if size > most:
            message = f"a slab {c.say(size)} {where} {c.say(most)}"
            yield c.fault(key, message, "correct the shop file if it takes more")


def _too_high(c: Checked, shop: Shop) -> Iterator[Fault]:
    """Cuts that the blade cannot reach."""
    door, most = c.door, shop.saw.max_height
    over = OVER_LEAST.of(c.unit) + shop.sled.deck
    on_end = door.joint.proud + shop.jig.deck
    top = door.top_rail - door.groove.depth
    if door.shape is not None:
        # The slot at the rail's wider end may be as much shallower as still makes a joint.
        top = max(top, TENON_LEAST * (top + door.shape.rise))
    free = f"stiles.{c.free}"
    for key, name, needed in (
        ("stock.thickness", "crosscuts on the sled", door.thickness + over),
        ("stiles.hinge", "tenons for the hinge stile", door.hinge_stile + on_end),
        (free, f"tenons for the {c.free} stile", door.free_stile + on_end),
        ("rails.top", "slots for the top rail", top + on_end),
        (
            "rails.bottom",
            "slots for the bottom rail",
            door.bottom_rail - door.groove.depth + on_end,
        ),
    ):
        inherited = key in ("rails.bottom", free) and key not in door.places
        # A stub tenon is no longer than the groove is deep.
        stub = door.joint.kind == "stub tenon" and key != "stock.thickness"
        if needed > most and not inherited and not stub:
            message = f"{name} need the blade {c.say(needed)} high; it rises {c.say(most)}"
            yield c.fault(key, message, f"less by {c.say(needed - most)}, or a saw that cuts it")


def _too_large(c: Checked, shop: Shop) -> Iterator[Fault]:
    """Pieces that the carriers cannot take."""
    door = c.door
    stile = c.height + 2 * door.joint.proud
    panel = c.sight_width + 2 * (door.groove.depth - door.panel.play_side)
    if isinstance(door.fill, Boarded | Glazed):
        panel = Fraction(0)
    for key, name, size, most, where in (
        ("opening.height", "stiles", stile, shop.sled.longest, "long; the sled takes"),
        ("opening.width", "a panel", panel, shop.sled.widest, "wide; the sled takes"),
        ("stock.thickness", "stock", door.thickness, shop.jig.opening, "thick; the jig opens"),
    ):
        if size > most:
            message = f"{name} {c.say(size)} {where} {c.say(most)}"
            yield c.fault(key, message, "correct the shop file if it takes more")
