"""How settings that a fit hangs on are set, counted: `python -m tests.simulator.marks JOBS SEED`.

Looks at the examples and at so many random jobs, in `plan.json` alone. A fit hangs on a setting
whose test cut is good within a caliper's window (0.1 mm, 0.004 in, to either side). It is on a mark
of its scale, by a block, a spacer or its mate; or between marks, by its test cut alone. Prints the
share of each, those between marks by what is measured, and targets that lie on or outside a limit.
"""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Iterable
from fractions import Fraction

from tests.simulator.pairs import pair
from tests.simulator.planned import outcome
from tests.simulator.scale import Json
from tests.simulator.shops import read

CLOSE = {"in": Fraction(1, 125), "mm": Fraction(1, 5)}
"""How wide a window is that a fit hangs on, from end to end."""

BY_ITS_OWN = "between marks"


def settings(plan: Json) -> Iterable[tuple[str, str]]:
    """Of each setting that a fit hangs on: how it is set, and what its test cut measures."""
    tests = {(c["setup"], c["knob"]): c for c in plan["checkpoints"] if c["knob"] and c["scrap"]}
    for setup in plan["setups"]:
        for each in setup["set_by"]:
            check = tests.get((setup["number"], each["knob"]))
            if check is None or each["how"] == "any":
                continue
            if Fraction(check["high"]) - Fraction(check["low"]) <= CLOSE[plan["unit"]]:
                yield each["how"], check["measure"].partition("/")[0]


def outside(plan: Json) -> int:
    """How many targets lie on or outside a limit; none is less than nothing."""
    ends = [[Fraction(c[key]) for key in ("low", "target", "high")] for c in plan["checkpoints"]]
    return sum(not low < target < high for low, target, high in ends if low or target)


def main(jobs: int, seed: int) -> None:
    from tests.proof.test_intent import EXAMPLES, example

    examples = [read(example(path)) for path in EXAMPLES]
    drawn: list[Json] = []
    while len(drawn) < jobs:
        made = outcome(pair("ordinary", seed)).plan
        drawn += [] if made is None else [made]
        seed += 1
    for name, plans in (("examples", examples), ("random jobs", drawn)):
        found = Counter(each for plan in plans for each in settings(plan))
        ways: Counter[str] = Counter()
        for (how, _), count in found.items():
            ways[how] += count
        whole = max(1, ways.total())
        good = 1 - ways[BY_ITS_OWN] / whole
        print(f"{len(plans)} {name}: {whole} settings, {good:.1%} set; {dict(ways)}")  # noqa: T201
        rest = {what: count for (how, what), count in found.most_common() if how == BY_ITS_OWN}
        print(f"  {BY_ITS_OWN}: {rest}")  # noqa: T201
        print(f"  targets not inside: {sum(map(outside, plans))}")  # noqa: T201


if __name__ == "__main__":
    main(int(sys.argv[1]), int(sys.argv[2]))
