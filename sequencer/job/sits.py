"""How a door sits, read: inset in its opening with gaps, or lapping over its case; and how far the
leaves of a pair lap over each other.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Any

from sequencer.errors import Fault
from sequencer.facts import doors
from sequencer.job.checked import Checked
from sequencer.job.document import Path
from sequencer.job.reader import Reader

SITS = ("how", "top", "bottom", "hinge", "lock")
MEETING = ("rebate",)
HOW = ("inset", "overlay")

Stated = Mapping[str, tuple[Any, Path]]
"""What stands at dotted keys, `None` where it is wrong, and where."""


def read_sits(reader: Reader, path: Path) -> Any:
    """What stands at a key of `[sits]` or `[meeting]`; `None` where it is wrong."""
    if path[-1] == "how":
        return reader.choice(path, HOW)
    found = reader.length(path)
    if found == 0:
        key = str(path[-1])
        if key == "rebate":
            reader.fault(path, doors.NOTHING(key=key), doors.LEAVE_LINE_OUT())
        else:
            reader.fault(path, doors.NO_LAP(), doors.GIVE_LAP(side=key))
        return None
    return found


def laps(
    reader: Reader, shared: Stated, own: Stated, leaves: int, usual: Mapping[str, Fraction]
) -> dict[str, tuple[Fraction, Path | None]]:
    """The gaps of a door's sides that lap over its case, by dotted key: below 0, and where the lap
    is stated (`None`: the usual one). What a door says of a side goes before what the file says;
    top and bottom need not lap where they have a gap of their own. Contradictions are kept by the
    reader.
    """
    sides = SITS[1:] if leaves == 1 else SITS[1:-1]
    how, _ = own.get("sits.how") or shared.get("sits.how") or (HOW[0], ())
    if how == HOW[0]:
        told = own if "sits.how" in own else {**shared, **own}
        for side in sides:
            if f"sits.{side}" in told:
                path = told[f"sits.{side}"][1]
                reader.fault(path, doors.INSET_LAPS(), doors.OVERLAY_OR_NOT(), key=True)
        return {}
    found: dict[str, tuple[Fraction, Path | None]] = {}
    for side in sides:
        lap, gap = f"sits.{side}", f"gaps.{side}"
        for stated in (own, shared):
            if lap in stated and gap in stated:
                message = doors.LAP_AND_GAP(side=side)
                reader.fault(stated[gap][1], message, doors.LEAVE_ONE_OUT(), key=True)
        if lap in own or (lap in shared and gap not in own):
            value, path = own.get(lap) or shared[lap]
            if value is not None:
                found[gap] = (-value, path)
        elif gap not in own and ("sits.how" in own or gap not in shared):
            found[gap] = (-usual[lap], None)
        elif side in ("hinge", "lock"):
            place = (own.get(gap) or shared[gap])[1]
            message = doors.OVERLAY_GAP(side=f"{side}-side")
            reader.fault(place, message, doors.LEAVE_OUT(), key=True)
    return found


def rules(c: Checked) -> Iterator[Fault]:
    """Laps that are no slip of the pen, and a rebate that the meeting stiles can bear."""
    gaps, most = c.door.gaps, c.limit("most_lap")
    sides = {"top": gaps.top, "bottom": gaps.bottom, "hinge": gaps.hinge}
    if c.door.leaves == 1:
        sides["lock"] = gaps.lock
    for side, gap in sides.items():
        if -gap > most:
            message = doors.LAP_TOO_FAR(lap=c.length(-gap), most=c.length(most))
            yield c.fault(f"sits.{side}", message, doors.LAP_IS())
    yield from _rebate(c)


def _rebate(c: Checked) -> Iterator[Fault]:
    door, rebate = c.door, c.door.meeting_rebate
    key = "meeting.rebate"
    if not rebate:
        return
    if door.slab is not None:
        yield c.fault(key, doors.SLAB_REBATED(), doors.LEAVE_OUT())
        return
    least = (door.gaps.meeting or Fraction(0)) + c.limit("least_overlap")
    most = door.free_stile - door.groove.depth - c.limit("least_wood")
    if rebate < least:
        message = doors.REBATE_TOO_SMALL(by=c.length(rebate))
        yield c.fault(key, message, doors.AT_LEAST(least=c.length(least)))
    elif rebate > most:
        left = max(door.free_stile - door.groove.depth - rebate, Fraction(0))
        message = doors.REBATE_TOO_LARGE(by=c.length(rebate), left=c.length(left))
        width = c.length(rebate + door.groove.depth + c.limit("least_wood"))
        hint = doors.MEETING_STILE(width=width)
        if most >= least:
            hint = doors.REBATE_OR_STILE(most=c.length(most), width=width)
        yield c.fault(key, message, hint)
