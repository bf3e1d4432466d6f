"""What a setup is for, in a line."""

from __future__ import annotations

from collections.abc import Sequence

from sequencer.plan import Step
from sequencer.saw.kinds import KINDS
from sequencer.saw.operation import OperationId
from sequencer.wording import Room, papers, saws
from sequencer.wording.room import capitalised


def title(steps: Sequence[Step], room: Room) -> str:
    """What a setup is for: `Slots, widened`."""
    cuts = dict.fromkeys(step.kind for step in steps if KINDS[step.kind].where == "saw")
    kinds = list(cuts) or [steps[0].kind]
    name = room.listed([saws.title(kind, room) for kind in kinds])
    made = [OperationId.parse(operation) for step in steps for operation in step.operations]
    passes = dict.fromkeys(operation.made_by for operation in made)
    found = [told for each in passes if (told := saws.made_by(each, room))]
    return capitalised(
        ", ".join((name, *_one_end(made, room), *([room.listed(found)] if found else [])))
    )


def _one_end(made: Sequence[OperationId], room: Room) -> list[str]:
    """The end that all operations of a setup are at, where they are named by one."""
    ends = {operation.end for operation in made}
    return [room.text(papers.END, end=end) for end in ends if end and len(ends) == 1]
