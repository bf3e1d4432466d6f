"""Which joints go with what else a door is, as far as the job alone tells."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.errors import Fault
from sequencer.job.checked import Checked


def rules(c: Checked) -> Iterator[Fault]:
    """Glass has no groove for a stub tenon, a half-lap no tongue for a bar, a mitre one width."""
    door = c.door
    corner, bars = door.joint.kind, door.joint.bars
    if door.glazed and corner == "stub tenon":
        message = "a stub tenon needs a groove, and glass stands in a rebate"
        yield c.fault("joint.kind", message, 'write kind = "bridle" under [door.joint]')
    if door.bars and door.glazed and bars == "stub tenon":
        message = "bars stub-tenoned into a groove, in a door whose glass stands in a rebate"
        yield c.fault("joint.bars", message, 'write bars = "T-bridle" under [door.joint]')
    if door.bars and corner == "half-lap" and bars == "T-bridle":
        message = "a T-bridle needs wood on both sides of its slot, and half-laps leave none behind"
        hint = 'write bars = "stub tenon", or kind = "bridle"'
        yield c.fault("joint.bars", message, hint)
    if corner == "mitred bridle":
        yield from _one_width(c)


def _one_width(c: Checked) -> Iterator[Fault]:
    door = c.door
    for free in door.free:
        if free.key.partition(".")[0] in ("stiles", "rails"):
            message = "a width left free, of a piece that is mitred with others as wide"
            yield c.fault(free.key, message, 'state it, or write kind = "bridle"')
            return
    for key, name, width in (
        (f"stiles.{c.free}", f"{c.free} stile", door.free_stile),
        ("rails.top", "top rail", door.top_rail),
        ("rails.bottom", "bottom rail", door.bottom_rail),
    ):
        inherited = key == "rails.bottom" and key not in door.places
        if width != door.hinge_stile and not inherited:
            message = (
                f"the {name}, {c.say(width)} wide, is mitred with a stile of "
                f"{c.say(door.hinge_stile)}"
            )
            hint = f'make it {c.say(door.hinge_stile)}, or write kind = "bridle"'
            yield c.fault(key, message, hint)
