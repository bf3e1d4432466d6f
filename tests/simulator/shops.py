"""Simulated shops: the printed order followed on wood that is never quite where it is meant to be.

    python -m tests.simulator.shops LEAVES SEED

follows the plans of the framed examples, and of random jobs, until each kind of shop has made so
many leaves, and prints what share of the joints went together at the first try beside what the
plan says, which musts were broken, and how many tries a check took.

A shop sets a knob to its mark, a little off; makes the test cut, a little off; reads it with a
tool, a little wrong; moves the knob by the printed rule until the reading lies inside the window;
saws the good wood; measures at the bench, and puts right there what can be. It knows nothing of
how the plan was worked out: it reads `plan.json` and has sizes of its own, as plain decimals.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from random import Random

from sequencer.contract import to_json
from sequencer.plan import Plan
from tests.simulator.pairs import pair
from tests.simulator.planned import outcome
from tests.simulator.scale import Json
from tests.simulator.shopleaves import edges, joints, leaves
from tests.simulator.shopwork import HAIR, SHOPS, Reading, Shop, Shopfloor, number

NEAR = 0.01
"""What the share of all joints of the ordinary shop may be off what the plans say."""


@dataclass
class Count:
    """Of one requirement: how many came out, how many inside, and what the plan says."""

    what: str
    told: float | None
    holds: bool
    seen: int = 0
    inside: int = 0


@dataclass
class Tally:
    """What became of many runs of one plan in one shop."""

    counts: dict[int, Count] = field(default_factory=dict)
    tries: int = 0
    checks: int = 0
    leaves: int = 0


def simulated(plan: Json, shop: Shop, leaves_wanted: int, chance: Random) -> Tally:
    """The plan followed until so many leaves are made."""
    reading, tally = Reading(plan), Tally()
    asked = plan["requirements"]
    for n, each in enumerate(asked):
        told = each["first_try"]
        tally.counts[n] = Count(
            each["what"], None if told is None else float(Fraction(told)), _holds(each)
        )
    of = [(each["what"], frozenset(each["of"]), _ends_of(each)) for each in asked]
    known: dict[tuple[str, tuple[str, ...]], list[int]] = {}
    while tally.leaves < leaves_wanted:
        floor = Shopfloor(reading, shop, chance)
        floor.run()
        tally.leaves += len(plan["doors"])
        tally.tries += sum(floor.tries)
        tally.checks += len(floor.tries)
        for what, marks, value in (*joints(floor), *edges(floor), *leaves(floor)):
            key = (what, marks)
            if key not in known:
                known[key] = [
                    n for n, (name, there, _) in enumerate(of)
                    if name == what and set(marks) <= there
                ]  # fmt: skip
            for n in known[key]:
                low, high = of[n][2]
                tally.counts[n].seen += 1
                tally.counts[n].inside += low - HAIR <= value <= high + HAIR
    return tally


def _ends_of(each: Json) -> tuple[float, float]:
    least, most = number(each["least"]), number(each["most"])
    return (-1e9 if least is None else least, 1e9 if most is None else most)


def _holds(each: Json) -> bool:
    least, most = _ends_of(each)
    worst = float(Fraction(each["worst_least"])), float(Fraction(each["worst_most"]))
    return worst[0] >= least and worst[1] <= most


def read(plan: Plan) -> Json:
    found: Json = json.loads(to_json(plan))
    return found


def random_plans(seed: int) -> Iterator[tuple[str, Json]]:
    """Plans of random jobs that a small shop makes, without end."""
    number = seed
    while True:
        made = outcome(pair("ordinary", number))
        if made.plan is not None and made.plan["requirements"]:
            yield f"random {number}", made.plan
        number += 1


@dataclass
class Total:
    """Of one kind of fit in one shop: how many joints, how many of them right, and how many the
    plans say would be."""

    seen: int = 0
    inside: int = 0
    told: float = 0.0


def main(leaves_wanted: int, seed: int) -> int:
    from tests.proof.test_intent import EXAMPLES, example

    plans = [(path.parent.name, read(example(path))) for path in EXAMPLES]
    plans = [(name, plan) for name, plan in plans if plan["requirements"]]
    drawn = random_plans(seed)
    plans += [next(drawn) for _ in range(10)]
    each = -(-leaves_wanted // len(plans))
    broken = 0
    off = 0
    for shop in SHOPS:
        totals: dict[str, Total] = {}
        tried = checks = 0
        print(f"{shop.name}: {each} leaves of each of {len(plans)} jobs")  # noqa: T201
        for name, plan in plans:
            tally = simulated(plan, shop, each, Random(f"{seed} {shop.name} {name}"))
            tried, checks = tried + tally.tries, checks + tally.checks
            for count in tally.counts.values():
                if count.told is not None:
                    total = totals.setdefault(count.what, Total())
                    total.seen += count.seen
                    total.inside += count.inside
                    total.told += count.told * count.seen
            rate = tally.tries / max(1, tally.checks)
            fits = "; ".join(
                f"{c.what} {c.inside / c.seen:.3f} (plan {c.told:.3f})"
                for c in tally.counts.values() if c.told is not None and c.seen
            )  # fmt: skip
            musts = [c for c in tally.counts.values() if c.told is None and c.seen]
            held = sum(c.seen - c.inside for c in musts if c.holds)
            loose = sum(c.seen - c.inside for c in musts if not c.holds)
            broken += held if shop.name == "ordinary" else 0
            print(  # noqa: T201
                f"  {name:16} {rate:.2f} tries a check; {fits}; musts that hold broken {held}, "
                f"others {loose} of {sum(c.seen for c in musts if not c.holds)}"
            )
        print(f"  all: {tried / max(1, checks):.2f} tries a check")  # noqa: T201
        for what, total in totals.items():
            found, told = total.inside / total.seen, total.told / total.seen
            off += shop.name == "ordinary" and abs(found - told) > NEAR
            print(f"    {what}: {found:.3f} of {total.seen} (plans {told:.3f})")  # noqa: T201
    print(f"musts that hold, broken by the ordinary shop: {broken}")  # noqa: T201
    return 1 if broken or off else 0


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]), int(sys.argv[2])))
