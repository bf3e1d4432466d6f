"""Changes the program here and there and asks its tests whether they notice.

    python -m tests.mutants --count 150 --seed 1 > FILE
    python -m tests.mutants --count 150 --seed 1 --again FILE    with the slower tests

In a copy of the tree one small change at a time is made (`changes.py`), evenly over the rooms and
kinds of change, and the room's tests are run up to the first that fails. A change that makes them
compute for longer than `--seconds` counts as noticed. What nobody notices is listed by file and
line: either it changes nothing that could be noticed, or a test is missing.
"""

from __future__ import annotations

import argparse
import importlib.util
import os
import random
import resource
import shutil
import signal
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import chain, zip_longest
from pathlib import Path

import hypothesis  # noqa: F401  # loaded once for all runs, as are these
import jinja2  # noqa: F401
import networkx  # noqa: F401
import pytest

from tests.mutants.changes import Change, changed, changes_of
from tests.mutants.rooms import ROOMS, TOO_SLOW, WIDER, tests_for

ROOT = Path(__file__).resolve().parents[2]
COPIED = ("sequencer", "tests", "examples", "templates", "README.md",
          "DEVELOPERS.md", "pyproject.toml")  # fmt: skip

WAITS = 5
"""So many times as long as it may compute, a run may take on a machine that others use too."""

NOTICED = {
    int(pytest.ExitCode.OK): "survived",
    int(pytest.ExitCode.TESTS_FAILED): "killed",
    int(pytest.ExitCode.INTERRUPTED): "killed",  # a module of tests could not be imported
}

Mutant = tuple[Path, Change]


def main(arguments: Sequence[str]) -> int:
    parser = argparse.ArgumentParser(prog="python -m tests.mutants")
    parser.add_argument("--count", type=int, default=150, help="changes, evenly over the rooms")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--rooms", nargs="+", choices=tuple(ROOMS), default=tuple(ROOMS))
    parser.add_argument(
        "--seconds", type=float, default=60, help="of one core, the most for a change"
    )
    parser.add_argument("--again", metavar="FILE", help="of the same draw, those unnoticed in it")
    parser.add_argument("--first", action="store_true", help="try the tests unchanged first")
    options = parser.parse_args(arguments)
    os.nice(10)
    tally: Counter[tuple[str, str]] = Counter()
    survivors: list[str] = []
    with tempfile.TemporaryDirectory() as folder:
        tree = Path(folder)
        for name in COPIED:
            copy = shutil.copytree if (ROOT / name).is_dir() else shutil.copy
            copy(ROOT / name, tree / name)
        each = -(-options.count // len(options.rooms))
        drawn = {room: draw(tree, room, each, options.seed) for room in options.rooms}
        if options.again:
            lines = Path(options.again).read_text("utf-8").splitlines()
            left = [line.rpartition(" s  ")[2] for line in lines if line.startswith("survived")]
            drawn = {room: [m for m in many if told(m) in left] for room, many in drawn.items()}
        for room in options.rooms if options.first else ():
            if run(tree, ROOMS[room], 10 * options.seconds) != "survived":
                say(f"{room}: its tests fail without any change")
                return 1
        in_turn = chain.from_iterable(zip_longest(*drawn.values()))
        for room, mutant in zip(cycle_of(options.rooms), in_turn, strict=False):
            if mutant is None:
                continue
            began = time.monotonic()
            tests = WIDER[room] if options.again else tests_for(room, mutant[0], tree)
            end = tried(tree, mutant, tests, options.seconds)
            say(f"{end:9} {time.monotonic() - began:4.0f} s  {told(mutant)}")
            tally[room, end] += 1
            if end == "survived":
                survivors.append(told(mutant))
    for room in options.rooms:
        ends = {end: tally[room, end] for end in ("killed", "timeout", "survived")}
        say(f"{room:9} {sum(ends.values()):3}  {ends}")
    say("\n".join(["unnoticed:", *survivors]))
    return 0


def cycle_of(rooms: Sequence[str]) -> Iterator[str]:
    while True:
        yield from rooms


def draw(tree: Path, room: str, count: int, seed: int) -> list[Mutant]:
    """So many changes to a room's modules, evenly over the kinds."""
    chance = random.Random(f"{seed} {room}")
    kinds: dict[str, list[Mutant]] = {}
    for path in sorted((tree / "sequencer" / room).rglob("*.py")):
        for change in changes_of(path.read_text("utf-8")):
            kinds.setdefault(change.kind, []).append((path.relative_to(tree), change))
    for many in kinds.values():
        chance.shuffle(many)
    even = chain.from_iterable(zip_longest(*(kinds[kind] for kind in sorted(kinds))))
    return [mutant for mutant in even if mutant is not None][:count]


def told(mutant: Mutant) -> str:
    path, change = mutant
    return f"{path}:{change.line}: {change.what}"


def tried(tree: Path, mutant: Mutant, tests: Sequence[str], seconds: float) -> str:
    path, change = mutant
    file = tree / path
    source = file.read_text("utf-8")
    try:
        put(file, changed(source, change))
        return run(tree, tests, seconds)
    finally:
        put(file, source)


def put(file: Path, text: str) -> None:
    """Write a module, and forget how it was compiled."""
    file.write_text(text, "utf-8")
    Path(importlib.util.cache_from_source(str(file))).unlink(missing_ok=True)


def run(tree: Path, tests: Sequence[str], seconds: float) -> str:
    """Whether the tests, run up to the first failure, let the tree pass. They run in a process
    that is a copy of this one, with pytest and what it needs loaded already."""
    child = os.fork()
    if child == 0:
        os._exit(_within(tree, tests, int(seconds)))
    _, status = os.waitpid(child, 0)
    end = os.waitstatus_to_exitcode(status)
    if end in (-signal.SIGKILL, -signal.SIGXCPU, -signal.SIGALRM):
        return "timeout"
    if end not in NOTICED:
        raise RuntimeError(f"the tests could not be run: pytest ended with {end}")
    return NOTICED[end]


def _within(tree: Path, tests: Sequence[str], seconds: int) -> int:
    """The tests' exit code, in a process of their own."""
    resource.setrlimit(resource.RLIMIT_CPU, (seconds, seconds))
    signal.alarm(WAITS * seconds)
    os.chdir(tree)
    os.environ["XDG_DATA_HOME"] = str(tree / "data")
    os.environ["PYTHONPATH"] = str(tree)
    sys.path[:] = [str(tree), *(each for each in sys.path if Path(each or ".").resolve() != ROOT)]
    for name in [name for name in sys.modules if name.partition(".")[0] in ("sequencer", "tests")]:
        del sys.modules[name]
    silent = os.open(os.devnull, os.O_WRONLY)
    os.dup2(silent, 1)
    os.dup2(silent, 2)
    options = ("-x", "-q", "-p", "no:cacheprovider", "-p", "tests.mutants.quickly",
               "-W", "ignore::pytest.PytestAssertRewriteWarning")  # fmt: skip
    left_out = [f"--deselect={each}" for each in TOO_SLOW]
    return int(pytest.main([*options, "--hypothesis-seed=1", *left_out, *tests]))


def say(text: str) -> None:
    print(text, flush=True)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
