"""What the sizes of a raised panel, of boards and of a pane must fulfil by themselves.

What depends on the blade, and so on the shop, is left to the planner.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from sequencer.errors import Fault
from sequencer.job.checked import Checked
from sequencer.job.kinds import Boarded, Glazed, Raised
from sequencer.job.play import BY_THUMB, frame_moves, least_gap
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
        message = f"a slab {c.say(c.width)} wide swells more than a gap takes"
        yield c.fault("opening.width", message, "a frame and a panel")
    elif gap < least:
        message = f"a lock gap of {c.say(gap)} closes when the slab's boards swell"
        yield c.fault("gaps.lock", message, f"{c.say(least)} is the least for this wood")


def _raised(c: Checked, raised: Raised) -> Iterator[Fault]:
    thickness = c.door.panel.thickness
    if thickness is None:
        step = Fraction(1, 16) if c.unit == "in" else Fraction(1)
        # Flush with the frame, where its groove is a third.
        field = c.say(c.door.thickness * 2 / 3 // step * step)
        hint = f'write thickness = "{field}" under [panel], as thick as the field'
        yield c.fault(_at(c, "raised"), "a raised panel without its thickness", hint)
        return
    for key, value in (("raised.bevel", raised.bevel), ("raised.step", raised.step)):
        if value == 0:
            name = key.partition(".")[2]
            yield c.fault(key, f"a {name} of 0", "give its size, or leave the line out")
    if raised.bevel and raised.bevel <= c.door.groove.depth:
        message = f"a bevel {c.say(raised.bevel)} wide does not come out of its groove"
        yield c.fault("raised.bevel", message, f"more than {c.say(c.door.groove.depth)}")
    field_least = 2 * raised.bevel + c.limit("least_sight")
    across = min(c.sight_width, c.sight_height) + 2 * c.door.groove.depth
    if across < field_least and min(c.sight_width, c.sight_height) >= c.limit("least_sight"):
        message = f"bevels {c.say(raised.bevel)} wide leave no field on a panel {c.say(across)}"
        most = (across - c.limit("least_sight")) / 2
        hint = f"at most {c.say(max(most, Fraction(0)))}, or a flat panel"
        yield c.fault(_at(c, "raised.bevel"), message, hint)


def _boarded(c: Checked, boarded: Boarded) -> Iterator[Fault]:
    least = c.limit("least_board")
    if boarded.width < least:
        message = f"boards {c.say(boarded.width)} wide"
        yield c.fault("boarded.width", message, f"at least {c.say(least)}")
    most = c.limit("most_tongue")
    if boarded.tongue is not None and not c.limit("least_tongue") <= boarded.tongue <= most:
        message = f"a tongue {c.say(boarded.tongue)} long"
        hint = f"{c.say(c.limit('least_tongue'))} to {c.say(most)}"
        yield c.fault("boarded.tongue", message, hint)


def _glazed(c: Checked, glass: Glazed) -> Iterator[Fault]:
    """Room for the largest pane that may come, and hold for the smallest, pushed to one side."""
    band, hold = CUT_BAND.of(c.unit), c.limit("least_over_glass")
    depth = c.door.groove.depth
    key = _at(c, "glass.under")
    if glass.thickness == 0:
        yield c.fault("glass.thickness", "a pane 0 thick", "measure it")
    if glass.under < band:
        message = f"a pane ordered {c.say(glass.under)} under its rebate may come too large"
        hint = f"at least {c.say(band)}: panes come that much over or under"
        yield c.fault(key, message, hint)
    elif depth < glass.under + band + hold:
        message = (
            f"a pane ordered {c.say(glass.under)} under a rebate {c.say(depth)} deep may slip out "
            "at one side"
        )
        hint = f"a groove depth of {c.say(glass.under + band + hold)}"
        if depth >= 2 * band + hold:
            hint += f", or {c.say(depth - band - hold)} under"
        yield c.fault(key, message, hint)


def _at(c: Checked, key: str) -> str:
    """The value where it is stated, else its table, else the groove that it disagrees with."""
    return next((k for k in (key, key.partition(".")[0], "fill") if k in c.door.places), "door")
