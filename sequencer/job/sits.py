"""How a door sits, read: inset in its opening with gaps, or lapping over its case; and how far the
leaves of a pair lap over each other.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Any

from sequencer.errors import Fault
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
        rebate = path[-1] == "rebate"
        message = "a rebate of 0" if rebate else "a lap of 0 covers nothing"
        side = "leave the line out" if rebate else f"give its lap, or {path[-1]} under [gaps]"
        reader.fault(path, message, side)
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
                message = "an inset door laps over nothing"
                hint = 'write how = "overlay" beside it, or leave it out'
                reader.fault(told[f"sits.{side}"][1], message, hint, key=True)
        return {}
    found: dict[str, tuple[Fraction, Path | None]] = {}
    for side in sides:
        lap, gap = f"sits.{side}", f"gaps.{side}"
        for stated in (own, shared):
            if lap in stated and gap in stated:
                message = f"the {side} laps over the case, and has a gap"
                reader.fault(stated[gap][1], message, "leave one of them out", key=True)
        if lap in own or (lap in shared and gap not in own):
            value, path = own.get(lap) or shared[lap]
            if value is not None:
                found[gap] = (-value, path)
        elif gap not in own and ("sits.how" in own or gap not in shared):
            found[gap] = (-usual[lap], None)
        elif side in ("hinge", "lock"):
            message = f"an overlay door covers its case on the {side} side, and has no gap there"
            reader.fault((own.get(gap) or shared[gap])[1], message, "leave it out", key=True)
    return found


def rules(c: Checked) -> Iterator[Fault]:
    """Laps that are no slip of the pen, and a rebate that the meeting stiles can bear."""
    gaps, most = c.door.gaps, c.limit("most_lap")
    sides = {"top": gaps.top, "bottom": gaps.bottom, "hinge": gaps.hinge}
    if c.door.leaves == 1:
        sides["lock"] = gaps.lock
    for side, gap in sides.items():
        if -gap > most:
            hint = "write how far the door covers the case's edge"
            yield c.fault(f"sits.{side}", f"a lap of {c.say(-gap)}, over {c.say(most)}", hint)
    yield from _rebate(c)


def _rebate(c: Checked) -> Iterator[Fault]:
    door, rebate = c.door, c.door.meeting_rebate
    key = "meeting.rebate"
    if not rebate:
        return
    if door.slab is not None:
        yield c.fault(key, "a slab has no meeting stiles", "leave the rebate out")
        return
    least = (door.gaps.meeting or Fraction(0)) + c.limit("least_overlap")
    most = door.free_stile - door.groove.depth - c.limit("least_wood")
    if rebate < least:
        message = f"meeting stiles rebated by {c.say(rebate)} hardly reach over their gap"
        yield c.fault(key, message, f"at least {c.say(least)}")
    elif rebate > most:
        left = max(door.free_stile - door.groove.depth - rebate, Fraction(0))
        message = f"a rebate of {c.say(rebate)} leaves {c.say(left)} of the meeting stile"
        room = f"at most {c.say(most)}, or " if most >= least else ""
        width = rebate + door.groove.depth + c.limit("least_wood")
        yield c.fault(key, message, f"{room}a meeting stile {c.say(width)} wide")
