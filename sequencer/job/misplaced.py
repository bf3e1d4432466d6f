"""What a door says of itself but could not have."""

from __future__ import annotations

from sequencer.facts import files
from sequencer.job.document import Path
from sequencer.job.fills import Stated
from sequencer.job.reader import Reader


def misplaced(reader: Reader, base: Path, own: Stated, leaves: int) -> None:
    """What a door says of itself but could not have: it was meant to be a pair, or a single."""
    if leaves == 1:
        hint = files.WRITE_UNDER(text="leaves = 2", table="[[door]]")
        for key in ("stiles.meeting", "gaps.meeting", "meeting.rebate"):
            if key in own:
                reader.fault(own[key][1], files.NO_MEETING_STILES(), hint, key=True)
        if "panel.match" in own and own["panel.match"][0] == "book":
            reader.fault(own["panel.match"][1], files.NO_PANELS_TO_MATCH(), hint)
        return
    for key, instead in (
        ("stiles.lock", files.INSTEAD(key="meeting")),
        ("gaps.lock", files.INSTEAD(key="meeting")),
        ("sits.lock", files.KEY_FOR_LAP(key="rebate")),
    ):
        if key in own:
            reader.fault(own[key][1], files.PAIR_MEETS(), instead, key=True)
    if reader.has((*base, "hinge")):
        reader.fault((*base, "hinge"), files.PAIR_HANGS(), files.NO_HINGE_KEY(), key=True)
