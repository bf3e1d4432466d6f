"""`python -m sequencer.proof PLAN.json`: prove a written plan again, from the file alone.

Exit codes: 0 proven; 1 not, with step, piece and difference; 2 wrong usage; 3 the file is wrong.
"""

from __future__ import annotations

import sys
from pathlib import Path

from sequencer.contract import from_json
from sequencer.errors import Fault, InputError, SequencerError, UsageError
from sequencer.proof import prove
from sequencer.wording import Room
from sequencer.wording.complaints import complaint

USAGE = "usage: python -m sequencer.proof PLAN.json"


def main(arguments: list[str]) -> int:
    room = Room("UK")
    try:
        plan = from_json(*_read(arguments))
        room = Room(plan.shop.words)
        shown = prove(plan)
    except SequencerError as error:
        print(complaint(error, room), file=sys.stderr)  # noqa: T201  # the outermost layer
        return error.exit_code
    print(" ".join(map(room.sentence, shown)))  # noqa: T201
    return 0


def _read(arguments: list[str]) -> tuple[str, str]:
    if len(arguments) != 1 or arguments[0].startswith("-"):
        raise UsageError(USAGE)
    (name,) = arguments
    try:
        return Path(name).read_bytes().decode("utf-8"), name
    except OSError as error:
        raise InputError((Fault(name, 0, 0, error.strerror or "unreadable"),)) from None
    except UnicodeDecodeError:
        raise InputError((Fault(name, 0, 0, "not UTF-8 text"),)) from None


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
