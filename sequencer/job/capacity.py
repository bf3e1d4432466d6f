"""What a shop can cut of a job: kerf, blade height, sled and jig."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from sequencer.errors import Fault
from sequencer.facts import doors
from sequencer.job.checked import Checked
from sequencer.job.kinds import Boarded, Glazed
from sequencer.job.schema import Job, Shop
from sequencer.trade.fits import OVER_LEAST, TENON_LEAST


def against_shop(job: Job, shop: Shop) -> tuple[Fault, ...]:
    """All that the shop cannot cut; job and shop are in the job's unit. Doors that repeat are
    told once."""
    faults = [fault for door in job.doors for fault in _shop_faults(Checked(door, job.unit), shop)]
    return tuple(sorted(dict.fromkeys(faults), key=lambda f: (f.line, f.column, str(f.message))))


def _shop_faults(c: Checked, shop: Shop) -> Iterator[Fault]:
    door = c.door
    if door.slab is not None:
        yield from _slab(c, shop)
        return
    kerf = shop.joinery_blade.kerf
    for key, what, width in (
        ("joint.slot", "slot", door.joint.slot),
        ("groove.width", "groove", c.groove_width),
    ):
        if width is not None and width < kerf:
            place = key if key in door.places else "panel.thickness"
            message = doors.KERF_TOO_WIDE(kerf=c.length(kerf), what=what, width=c.length(width))
            yield c.fault(place, message, doors.THINNER_BLADE())
    if kerf > door.thickness - 2 * c.limit("least_cheek"):
        message = doors.STOCK_TOO_THIN(thickness=c.length(door.thickness), kerf=c.length(kerf))
        yield c.fault("stock.thickness", message, doors.THINNER_BLADE_OR_STOCK())
    yield from _too_high(c, shop)
    yield from _too_large(c, shop)


def _slab(c: Checked, shop: Shop) -> Iterator[Fault]:
    for key, size, most, too_large in (
        ("opening.height", c.height, shop.sled.longest, doors.TOO_LONG_FOR_SLED),
        ("opening.width", c.width, shop.sled.widest, doors.TOO_WIDE_FOR_SLED),
    ):
        if size > most:
            message = too_large(what="slab", size=c.length(size), most=c.length(most))
            yield c.fault(key, message, doors.CORRECT_SHOP())


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
    if (needed := door.thickness + over) > most:
        message = doors.CROSSCUTS_TOO_HIGH(needed=c.length(needed), most=c.length(most))
        hint = doors.THINNER_BY(by=c.length(needed - most))
        yield c.fault("stock.thickness", message, hint)
    if door.joint.kind == "stub tenon":  # no longer than the groove is deep
        return
    bottom = door.bottom_rail - door.groove.depth
    for key, cuts, piece, needed in (
        ("stiles.hinge", doors.TENONS_TOO_HIGH, "hinge-stile", door.hinge_stile + on_end),
        (free, doors.TENONS_TOO_HIGH, f"{c.free}-stile", door.free_stile + on_end),
        ("rails.top", doors.SLOTS_TOO_HIGH, "top-rail", top + on_end),
        ("rails.bottom", doors.SLOTS_TOO_HIGH, "bottom-rail", bottom + on_end),
    ):
        inherited = key in ("rails.bottom", free) and key not in door.places
        if needed > most and not inherited:
            message = cuts(piece=piece, needed=c.length(needed), most=c.length(most))
            yield c.fault(key, message, doors.NARROWER_BY(by=c.length(needed - most)))


def _too_large(c: Checked, shop: Shop) -> Iterator[Fault]:
    """Pieces that the carriers cannot take."""
    door = c.door
    stile = c.height + 2 * door.joint.proud
    panel = c.sight_width + 2 * (door.groove.depth - door.panel.play_side)
    if isinstance(door.fill, Boarded | Glazed):
        panel = Fraction(0)
    for key, what, size, most, too_large in (
        ("opening.height", "stiles", stile, shop.sled.longest, doors.TOO_LONG_FOR_SLED),
        ("opening.width", "panel", panel, shop.sled.widest, doors.TOO_WIDE_FOR_SLED),
    ):
        if size > most:
            message = too_large(what=what, size=c.length(size), most=c.length(most))
            yield c.fault(key, message, doors.CORRECT_SHOP())
    if door.thickness > shop.jig.opening:
        message = doors.TOO_THICK_FOR_JIG(
            size=c.length(door.thickness), most=c.length(shop.jig.opening)
        )
        yield c.fault("stock.thickness", message, doors.CORRECT_SHOP())
