"""`python -m sequencer.proof PLAN.json`: prove a written plan again, from the file alone.

Exit codes: 0 proven; 1 not, with step, piece and difference; 2 wrong usage; 3 the file is wrong.
"""

from __future__ import annotations

import sys
from pathlib import Path

from sequencer.contract import from_json
from sequencer.errors import Fault, InputError, SequencerError, UsageError
from sequencer.facts import commands
from sequencer.proof import prove
from sequencer.wording import Room, for_plan
from sequencer.wording.complaints import complaint, dialect_of


def main(arguments: list[str]) -> int:
    room: Room | None = None
    try:
        plan = from_json(*_read(arguments))
        room = for_plan(plan)
        print(" ".join(map(room.sentence, prove(plan))))  # noqa: T201  # the outermost layer
    except SequencerError as error:
        room = room or Room(dialect_of(error) or "UK")
        print(complaint(error, room), file=sys.stderr)  # noqa: T201
        return error.exit_code
    return 0


def _read(arguments: list[str]) -> tuple[str, str]:
    if len(arguments) != 1 or arguments[0].startswith("-"):
        raise UsageError(commands.PROOF_USAGE())
    (name,) = arguments
    try:
        return Path(name).read_bytes().decode("utf-8"), name
    except OSError as error:
        reason = commands.UNREADABLE(reason=error.strerror or "")
        raise InputError((Fault(name, 0, 0, reason),)) from None
    except UnicodeDecodeError:
        raise InputError((Fault(name, 0, 0, commands.NO_UTF_8()),)) from None


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
