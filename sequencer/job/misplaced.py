"""What a door says of itself but could not have."""

from __future__ import annotations

from sequencer.job.document import Path
from sequencer.job.fills import Stated
from sequencer.job.reader import Reader


def misplaced(reader: Reader, base: Path, own: Stated, leaves: int) -> None:
    """What a door says of itself but could not have: it was meant to be a pair, or a single."""
    if leaves == 1:
        for key in ("stiles.meeting", "gaps.meeting", "meeting.rebate"):
            if key in own:
                message = "only a pair has meeting stiles"
                reader.fault(own[key][1], message, "write leaves = 2 under [[door]]", key=True)
        if "panel.match" in own and own["panel.match"][0] == "book":
            message = "only a pair has two panels to match"
            reader.fault(own["panel.match"][1], message, "write leaves = 2 under [[door]]")
        return
    for key, instead in (
        ("stiles.lock", "write meeting instead"),
        ("gaps.lock", "write meeting instead"),
        ("sits.lock", "write rebate under [door.meeting] if they lap over each other"),
    ):
        if key in own:
            message, hint = "the leaves of a pair meet each other", instead
            reader.fault(own[key][1], message, hint, key=True)
    if reader.has((*base, "hinge")):
        message = "a pair hangs on both sides"
        reader.fault((*base, "hinge"), message, "leave hinge out, or leaves = 2", key=True)
