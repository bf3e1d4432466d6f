"""What the sizes of a raised panel, of boards and of a pane must fulfil by themselves.

What depends on the blade, and so on the shop, is left to the planner.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from sequencer.errors import Fault
from sequencer.facts import doors, fills
from sequencer.job.bars import lights
from sequencer.job.checked import Checked
from sequencer.job.kinds import Boarded, Glazed, Raised
from sequencer.job.play import BY_THUMB, frame_moves, least_gap, moving_wood
from sequencer.trade.glass import CUT_BAND


def rules(c: Checked) -> Iterator[Fault]:
    if c.door.slab is not None:
        yield from _slab(c)
    match c.door.fill:
        case Raised() as raised:
            yield from _raised(c, raised)
        case Boarded() as boarded:
            yield from _boarded(c, boarded)
        case Glazed() as glass:
            yield from _glazed(c, glass)


def _slab(c: Checked) -> Iterator[Fault]:
    """A single one's gap by rule of thumb, where its movement is not computed; a pair's meeting gap
    is told as that of stiles."""
    gap = c.door.gaps.lock
    if c.door.leaves == 2 or gap < 0 or frame_moves(c.door) is not None:
        return
    least = least_gap(c.door, c.limit("lock_air"), BY_THUMB, c.unit)
    if least > c.limit("most_gap"):
        message = fills.SLAB_SWELLS_TOO_MUCH(width=c.length(c.width))
        yield c.fault("opening.width", message, fills.FRAME_AND_PANEL())
    elif gap < least:
        message = doors.GAP_CLOSES(gap=c.length(gap), wood=moving_wood(c.door))
        yield c.fault("gaps.lock", message, doors.LEAST_GAP(least=c.length(least)))


def _raised(c: Checked, raised: Raised) -> Iterator[Fault]:
    for key, value in (("raised.bevel", raised.bevel), ("raised.step", raised.step)):
        if value == 0:
            yield c.fault(key, doors.NOTHING(key=key), doors.GIVE_SIZE())
    if raised.bevel and raised.bevel <= c.door.groove.depth:
        message = fills.BEVEL_IN_GROOVE(bevel=c.length(raised.bevel))
        hint = doors.MORE_THAN(bound=c.length(c.door.groove.depth))
        yield c.fault("raised.bevel", message, hint)
    field_least = 2 * raised.bevel + c.limit("least_sight")
    narrowest = min(c.sight_width, c.sight_height)
    if narrowest >= c.limit("least_sight"):
        narrowest = min(
            min(light.width, light.height) for light in lights(c.door, c.width, c.height)
        )
    across = narrowest + 2 * c.door.groove.depth
    if across < field_least and narrowest >= c.limit("least_sight"):
        message = fills.NO_FIELD(bevel=c.length(raised.bevel), across=c.length(across))
        most = (across - c.limit("least_sight")) / 2
        hint = fills.LESS_BEVEL(most=c.length(max(most, Fraction(0))))
        yield c.fault(_at(c, "raised.bevel"), message, hint)


def _boarded(c: Checked, boarded: Boarded) -> Iterator[Fault]:
    least = c.limit("least_board")
    if boarded.width < least:
        message = fills.NARROW_BOARDS(width=c.length(boarded.width))
        yield c.fault("boarded.width", message, doors.AT_LEAST(least=c.length(least)))
    least, most = c.limit("least_tongue"), c.limit("most_tongue")
    if boarded.tongue is not None and not least <= boarded.tongue <= most:
        message = fills.TONGUE_LENGTH(tongue=c.length(boarded.tongue))
        hint = doors.FROM_TO(least=c.length(least), most=c.length(most))
        yield c.fault("boarded.tongue", message, hint)


def _glazed(c: Checked, glass: Glazed) -> Iterator[Fault]:
    """Room for the largest pane that may come, and hold for the smallest, pushed to one side."""
    band, hold = CUT_BAND.of(c.unit), c.limit("least_over_glass")
    depth = c.door.groove.depth
    key = _at(c, "glass.under")
    if glass.thickness == 0:
        message = doors.NOTHING(key="glass.thickness")
        yield c.fault("glass.thickness", message, fills.MEASURE_PANE())
    if glass.under < band:
        message = fills.PANE_TOO_LARGE(under=c.length(glass.under))
        yield c.fault(key, message, fills.PANES_VARY(least=c.length(band)))
    elif depth < glass.under + band + hold:
        message = fills.PANE_SLIPS(under=c.length(glass.under), depth=c.length(depth))
        deeper = c.length(glass.under + band + hold)
        hint = fills.DEEPER_REBATE(depth=deeper)
        if depth >= 2 * band + hold:
            under = c.length(depth - band - hold)
            hint = fills.DEEPER_REBATE_OR_LESS_UNDER(depth=deeper, under=under)
        yield c.fault(key, message, hint)


def _at(c: Checked, key: str) -> str:
    """The value where it is stated, else its table, else the groove that it disagrees with."""
    return next((k for k in (key, key.partition(".")[0], "fill") if k in c.door.places), "door")
