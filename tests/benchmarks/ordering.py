"""Times and bounds of the ordering search, beside the baselines and CP-SAT, on generated jobs.

`python -m tests.benchmarks.ordering [--quick]` prints everything in one run; `--quick` leaves out
the large jobs and most of CP-SAT. Seconds are CPU seconds of one core; memory is the whole
process's peak so far. With plan.json files as arguments it times their ordering problems instead.
"""

from __future__ import annotations

import argparse
import json
import resource
import statistics
import time
from collections.abc import Callable, Sequence
from fractions import Fraction
from pathlib import Path

from sequencer.ordering import Order, Placed, Problem, baselines, check, from_json, solve
from tests.benchmarks import cpsat
from tests.benchmarks.doors import Door, Job, anywhere, job, repeating

CPSAT_SECONDS = 60


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.ordering")
    parser.add_argument("plans", nargs="*", type=Path, help="plan.json files or ordering problems")
    parser.add_argument("--quick", action="store_true", help="only what takes a minute")
    given = parser.parse_args()
    if given.plans:
        _header()
        for file in given.plans:
            data = json.loads(file.read_text(encoding="utf-8"))
            _row(str(file), from_json(data.get("ordering", data), str(file)))
        return
    _sizes(given.quick)
    _saved(6 if given.quick else 30)
    _against_cpsat(given.quick)


def _sizes(quick: bool) -> None:
    print("4 heights x 5 widths, 3 stile and 3 rail widths; heights and widths anywhere on 1/8 in")
    print("with 4 stile and 4 rail widths; 40 doors in 4 kinds; two jobs in one batch.\n")
    _header()
    cases: list[tuple[str, Sequence[Door]]] = [
        (f"sizes repeat, {count} doors", repeating(count, 1)) for count in (4, 12, 20, 40)
    ]
    cases += [(f"anywhere, {count} doors", anywhere(count, 1)) for count in (4, 8, 12, 20)]
    cases += [
        ("4 kinds, 40 doors", repeating(40, 1, kinds=4)),
        ("2 jobs of 6 doors", [*repeating(6, 2, mark="A"), *anywhere(6, 3, mark="B")]),
    ]
    if not quick:
        cases.append(("anywhere, 40 doors", anywhere(40, 1)))
    for name, doors in cases:
        _row(name, job(doors).problem, seconds=60)


def _header() -> None:
    print(
        f"{'':28}{'cuts':>6}{'CPU s':>8}{'minutes':>9}{'bound':>8}{'proven':>8}{'setups':>8}"
        f"{'MB':>6}  limit"
    )


def _row(name: str, problem: Problem, seconds: float | None = None) -> None:
    spent, order = _timed(lambda: solve(problem, seconds=seconds))
    setups = check.recompute(problem, order.steps).setups
    print(
        f"{name[-28:]:28}{len(problem.operations):6}{spent:8.2f}{_minutes(order.minutes):>9}"
        f"{_minutes(order.bound):>8}{'yes' if order.proven else 'no':>8}{setups:8}{_memory():6}"
        f"  {order.limit or ''}",
        flush=True,
    )


def _saved(jobs: int) -> None:
    print(
        f"\nSetups and minutes on {jobs} generated jobs of 4 to 9 doors, half of each kind: "
        "median (range)\n"
    )
    found: dict[str, list[tuple[int, Fraction]]] = {}
    for seed in range(jobs):
        kind: Callable[..., list[Door]] = anywhere if seed % 2 else repeating
        made = job(kind(4 + seed % 6, 100 + seed))
        for name, steps in _orders(made):
            cost = check.recompute(made.problem, steps)
            found.setdefault(name, []).append((cost.setups, cost.minutes))
    ours = found["the search"]
    for name, costs in found.items():
        setups = [setups for setups, _ in costs]
        less = [1 - mine[0] / other[0] for mine, other in zip(ours, costs, strict=True)]
        quicker = [1 - float(mine[1] / other[1]) for mine, other in zip(ours, costs, strict=True)]
        print(
            f"{name:18}{statistics.median(setups):6.1f} setups ({min(setups)} to {max(setups)}), "
            f"{statistics.median(float(minutes) for _, minutes in costs):6.1f} minutes; "
            f"the search: {statistics.median(less):4.0%} ({min(less):.0%} to {max(less):.0%}) "
            f"fewer setups, {statistics.median(quicker):4.0%} fewer minutes"
        )


def _orders(made: Job) -> list[tuple[str, Sequence[Placed]]]:
    problem = made.problem
    return [
        ("the search", solve(problem).steps),
        ("greedy", baselines.greedy(problem)),
        ("by kind of cut", baselines.by_rank(problem, made.ranks)),
        ("door by door", baselines.group_by_group(problem, made.groups)),
    ]


def _against_cpsat(quick: bool) -> None:
    print(
        f"\nCP-SAT, 2 workers, {CPSAT_SECONDS} s of wall time, with our order as a hint and "
        "without; unlike doors\n"
    )
    for count in (1, 2) if quick else (1, 2, 3, 4):
        problem = job(anywhere(count, 10 + count)).problem
        spent, order = _timed(lambda problem=problem: solve(problem))  # type: ignore[misc]
        print(
            f"{count} doors, {len(problem.operations)} cuts: {_minutes(order.minutes)} minutes, "
            f"{'proven' if order.proven else 'bound ' + _minutes(order.bound)} in {spent:.2f} s",
            flush=True,
        )
        hints: tuple[Sequence[Placed], ...] = ((), order.steps)
        for hint in hints:
            began = time.monotonic()
            answer = cpsat.solve(problem, CPSAT_SECONDS, hint=hint)
            print(
                f"   CP-SAT {'with hint' if hint else 'alone':10}{_cpsat(answer, order, spent)} "
                f"({time.monotonic() - began:.0f} s)",
                flush=True,
            )


def _cpsat(answer: cpsat.Answer, order: Order, spent: float) -> str:
    if answer.minutes is None:
        return f"nothing found, bound {_minutes(answer.bound)}"
    equal = [at for at, minutes in answer.improvements if minutes <= order.minutes]
    reached = (
        f"as good as ours after {equal[0]:.1f} s, {equal[0] / max(spent, 0.001):.0f} times as long"
        if equal
        else "never as good as ours"
    )
    return (
        f"{_minutes(answer.minutes)} minutes, bound {_minutes(answer.bound)}, "
        f"{'proven' if answer.proven else 'not proven'}; {reached}"
    )


def _timed(run: Callable[[], Order]) -> tuple[float, Order]:
    began = time.process_time()
    order = run()
    return time.process_time() - began, order


def _minutes(minutes: Fraction) -> str:
    return str(minutes) if minutes.denominator == 1 else f"{float(minutes):.2f}"


def _memory() -> int:
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024


if __name__ == "__main__":
    main()
