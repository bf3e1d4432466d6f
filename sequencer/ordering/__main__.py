"""`python -m sequencer.ordering PROBLEM.json`: the order on stdout, as JSON. `--seconds N` and
`--megabytes N` limit the search."""

from __future__ import annotations

import argparse
import json
import sys
from pathlib import Path

from sequencer.errors import Fault, InputError, SequencerError, UsageError
from sequencer.facts import problems
from sequencer.ordering import solve
from sequencer.ordering.contract import order_json, read
from sequencer.ordering.solver import MEGABYTES
from sequencer.wording import Room
from sequencer.wording.complaints import complaint
from sequencer.wording.helps import help_text

LARGEST_FILE = 50_000_000  # bytes
MOST = 1e9
"""Seconds or megabytes that may be asked for."""


def main(arguments: list[str] | None = None) -> int:
    """Solves the problem in a file; returns the exit code."""
    room = Room("UK")
    parser = argparse.ArgumentParser(
        prog="python -m sequencer.ordering", description=help_text(room, "ordering")
    )
    parser.add_argument("problem", metavar="PROBLEM.json", help=help_text(room, "ordering.problem"))
    parser.add_argument(
        "--seconds", type=float, metavar="N", help=help_text(room, "ordering.seconds")
    )
    parser.add_argument(
        "--megabytes", type=float, metavar="N", default=MEGABYTES,
        help=help_text(room, "ordering.megabytes", most=MEGABYTES),
    )  # fmt: skip
    given = parser.parse_args(arguments)
    try:
        for name, amount in (("seconds", given.seconds), ("megabytes", given.megabytes)):
            if amount is not None and not 0 <= amount <= MOST:
                raise UsageError(problems.NO_AMOUNT(option=f"--{name}"))
        problem = read(_text(given.problem), given.problem)
        order = solve(problem, seconds=given.seconds, megabytes=given.megabytes)
    except SequencerError as error:
        # The outermost layer prints.
        print(complaint(error, room), file=sys.stderr)  # noqa: T201
        return error.exit_code
    print(json.dumps(order_json(problem, order), ensure_ascii=False, indent=1))  # noqa: T201
    if order.limit is not None:
        limit = f"limit.{order.limit}"
        ended = (
            problems.LIMIT_ENDED(limit=limit)
            if order.proven
            else problems.LIMIT_ENDED_ABOVE(limit=limit, minutes=order.minutes - order.bound)
        )
        print(room.say(ended), file=sys.stderr)  # noqa: T201
    return 0


def _text(name: str) -> str:
    try:
        raw = sys.stdin.buffer.read() if name == "-" else Path(name).read_bytes()
    except OSError as error:
        reason = problems.UNREADABLE(reason=error.strerror or "")
        raise InputError((Fault(name, 0, 0, reason),)) from None
    if len(raw) > LARGEST_FILE:
        raise InputError((Fault(name, 0, 0, problems.TOO_LARGE(most=LARGEST_FILE)),))
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise InputError((Fault(name, 0, 0, problems.NO_UTF_8(byte=error.start)),)) from None


if __name__ == "__main__":
    sys.exit(main())
