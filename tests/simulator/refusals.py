"""What of random pairs is planned, and what is refused and why: `python -m tests.simulator.refusals
N SEED` for N pairs of each profile. The same N and SEED draw the same pairs, before and after."""

from __future__ import annotations

import sys
from collections import Counter

from tests.simulator.pairs import PROFILES, Profile, pair
from tests.simulator.planned import outcome
from tests.simulator.table import unsafe


def counted(profile: Profile, count: int, seed: int) -> tuple[Counter[str], Counter[str]]:
    """How many pairs were planned, or refused by which reasons; and passes found unsafe, by name.
    Where a pair is refused for several reasons each counts."""
    found: Counter[str] = Counter()
    faults: Counter[str] = Counter()
    for number in range(count):
        made = outcome(pair(profile, seed * 100_000 + number))
        found.update(made.reasons)
        found["planned" if made.plan is not None else "refused"] += 1
        if made.plan is not None:
            faults.update({each.name for each in unsafe(made.plan)})
    return found, faults


def main(count: int, seed: int) -> None:
    for profile in PROFILES:
        found, faults = counted(profile, count, seed)
        print(f"{profile}: {found.pop('planned', 0)} planned, {found.pop('refused', 0)} refused")
        for reason, times in found.most_common():
            print(f"  {times:5} {reason}")
        for name, times in faults.most_common():
            print(f"  {times:5} plans unsafe by {name}")


if __name__ == "__main__":
    main(int(sys.argv[1]), int(sys.argv[2]))
