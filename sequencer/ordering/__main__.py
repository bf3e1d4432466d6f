"""`python -m sequencer.ordering PROBLEM.json`: the order on stdout, as JSON. `--seconds N` and
`--megabytes N` limit the search."""

from __future__ import annotations

import argparse
import json
import sys
from pathlib import Path

from sequencer.errors import Fault, InputError, SequencerError
from sequencer.ordering import solve
from sequencer.ordering.contract import order_json, read
from sequencer.ordering.solver import MEGABYTES

LARGEST_FILE = 50_000_000  # bytes


def main(arguments: list[str] | None = None) -> int:
    """Solves the problem in a file; returns the exit code."""
    parser = argparse.ArgumentParser(
        prog="python -m sequencer.ordering",
        description="Finds the order of operations that costs the fewest minutes of setting up.",
    )
    parser.add_argument(
        "problem", metavar="PROBLEM.json", help="knobs, operations, before; - is stdin"
    )
    parser.add_argument(
        "--seconds", type=_amount, metavar="N", help="search for N seconds, or until proven"
    )
    parser.add_argument(
        "--megabytes", type=_amount, metavar="N", default=MEGABYTES,
        help=f"stop where the process has taken N megabytes ({MEGABYTES})",
    )  # fmt: skip
    given = parser.parse_args(arguments)
    try:
        problem = read(_text(given.problem), given.problem)
        order = solve(problem, seconds=given.seconds, megabytes=given.megabytes)
    except SequencerError as error:
        print(error, file=sys.stderr)  # noqa: T201 - this is the outermost layer
        return error.exit_code
    print(json.dumps(order_json(problem, order), ensure_ascii=False, indent=1))  # noqa: T201
    if order.limit is not None:
        above = order.minutes - order.bound
        rest = "" if order.proven else f"; at most {above} minutes above the best"
        print(f"the limit of {order.limit} ended the search{rest}", file=sys.stderr)  # noqa: T201
    return 0


def _text(name: str) -> str:
    try:
        raw = sys.stdin.buffer.read() if name == "-" else Path(name).read_bytes()
    except OSError as error:
        raise InputError((Fault(name, 0, 0, f"cannot be read: {error.strerror}"),)) from None
    if len(raw) > LARGEST_FILE:
        raise InputError((Fault(name, 0, 0, f"is larger than {LARGEST_FILE} bytes"),))
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise InputError((Fault(name, 0, 0, f"is not UTF-8 at byte {error.start}"),)) from None


def _amount(text: str) -> float:
    value = float(text)
    if not 0 <= value <= 1e9:
        raise argparse.ArgumentTypeError("a number from 0 up is wanted")
    return value


if __name__ == "__main__":
    sys.exit(main())
