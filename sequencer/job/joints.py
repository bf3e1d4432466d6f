"""Which joints go with what else a door is, as far as the job alone tells."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.errors import Fault
from sequencer.facts import doors, joints
from sequencer.job.checked import Checked


def rules(c: Checked) -> Iterator[Fault]:
    """Glass has no groove for a stub tenon, a half-lap no tongue for a bar, a mitre one width."""
    door = c.door
    corner, bars = door.joint.kind, door.joint.bars
    if door.glazed and corner == "stub tenon":
        hint = doors.WRITE_UNDER(line='kind = "bridle"', table="door.joint")
        yield c.fault("joint.kind", joints.STUB_WITHOUT_GROOVE(), hint)
    if door.bars and door.glazed and bars == "stub tenon":
        hint = doors.WRITE_UNDER(line='bars = "T-bridle"', table="door.joint")
        yield c.fault("joint.bars", joints.BARS_WITHOUT_GROOVE(), hint)
    if door.bars and corner == "half-lap" and bars == "T-bridle":
        hint = doors.WRITE(lines=('bars = "stub tenon"', 'kind = "bridle"'))
        yield c.fault("joint.bars", joints.BRIDLE_ON_HALF_LAP(), hint)
    if corner == "mitred bridle":
        yield from _one_width(c)


def _one_width(c: Checked) -> Iterator[Fault]:
    door = c.door
    for free in door.free:
        if free.key.partition(".")[0] in ("stiles", "rails"):
            yield c.fault(free.key, joints.FREE_IN_MITRE(), joints.STATE_WIDTH_OR_BRIDLE())
            return
    for key, piece, width in (
        (f"stiles.{c.free}", f"{c.free}-stile", door.free_stile),
        ("rails.top", "top-rail", door.top_rail),
        ("rails.bottom", "bottom-rail", door.bottom_rail),
    ):
        inherited = key == "rails.bottom" and key not in door.places
        if width != door.hinge_stile and not inherited:
            stile = c.length(door.hinge_stile)
            message = joints.UNEQUAL_IN_MITRE(piece=piece, width=c.length(width), stile=stile)
            yield c.fault(key, message, joints.AS_WIDE_OR_BRIDLE(stile=stile))
