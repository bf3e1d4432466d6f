"""One number changed that is not the shop's, or not the leaves': each is found, on all examples."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from fractions import Fraction as F  # noqa: N817

import pytest

from sequencer.errors import InternalError
from sequencer.plan import Plan
from sequencer.proof import prove
from sequencer.proof.limits import check_limits
from sequencer.records import replace
from tests.proof import change, hand
from tests.proof.test_intent import EXAMPLES, example


def setups(plan: Plan) -> Iterator[tuple[str, Plan]]:
    for setup in plan.setups:
        number, most = setup.number, plan.shop.max_height
        for by in (F(1, 4), -F(1, 4)):
            kerf = setup.kerf * (1 + by)
            yield rf"limit.other-kerf\(setup={number},", change.setup(plan, number, kerf=kerf)
        wrong = change.setup(plan, number, cutter="another")
        yield rf"limit.no-cutter\(setup={number},", wrong
        too_high = change.setup(plan, number, height=most + F(1, 64))
        yield rf"limit.too-high\(setup={number},", too_high


def shops(plan: Plan) -> Iterator[tuple[str, Plan]]:
    """The same plan in a smaller shop."""
    long = max(p.size.length for p in plan.parts) - F(1, 64)
    shop = plan.shop
    for what, small in (
        ("too-long-for-sled", replace(shop, sled_longest=long)),
        ("too-wide-for-sled", replace(shop, sled_widest=F(1))),
        ("too-high", replace(shop, max_height=F(1, 4))),
    ):
        yield f"limit.{what}", replace(plan, shop=small)
    if any(setup.carrier == "tenoning-jig" for setup in plan.setups):
        yield "limit.too-wide-for-jig", replace(plan, shop=replace(plan.shop, jig_opening=F(1, 8)))


def leaves(plan: Plan) -> Iterator[tuple[str, Plan]]:
    for door in plan.doors:
        if len(door.pair) == 2:
            other = "left" if door.hinge == "right" else "right"
            wrong = change.door(plan, door.mark, hinge=other)
            yield rf"limit.hangs-wrong\(door={door.mark},", wrong
            others = tuple(each for each in plan.doors if each is not door)
            yield rf"limit.no-leaf\(.*leaf={door.mark}\)", replace(plan, doors=others)


def glass(plan: Plan) -> Iterator[tuple[str, Plan]]:
    for n, order in enumerate(plan.orders):
        if order.what.id != "part.pane":
            continue
        mark, before, after = order.what.given["mark"], plan.orders[:n], plan.orders[n + 1 :]
        less = replace(plan, orders=(*before, *after))
        yield rf"limit.pane-not-ordered\(pane={mark}\)", less
        twice = replace(plan, orders=(*before, replace(order, count=2), *after))
        yield rf"limit.pane-ordered-twice\(pane={mark}\)", twice
        larger = replace(order, size=(order.size[0] + F(1, 16), *order.size[1:]))
        other = replace(plan, orders=(*before, larger, *after))
        yield rf"limit.pane-of-other-size\(pane={mark}\)", other
        doors = tuple(
            replace(door, panes=tuple(pane for pane in door.panes if pane.mark != mark))
            for door in plan.doors
        )
        yield rf"limit.no-such-pane\(pane={mark}\)", replace(plan, doors=doors)


def wood(plan: Plan) -> Iterator[tuple[str, Plan]]:
    def listed(n: int, **values: object) -> Plan:
        line = replace(plan.rough[n], **values)  # type: ignore[arg-type]
        return replace(plan, rough=(*plan.rough[:n], line, *plan.rough[n + 1 :]))

    for n, line in enumerate(plan.rough):
        (first, *rest) = line.sticks
        yield rf"limit.strip-not-bought\(strip={first}\)", listed(n, sticks=tuple(rest))
        yield rf"limit.strip-bought-twice\(strip={first}\)", listed(n, sticks=(*line.sticks, first))
        yield "limit.other-stock", listed(n, thickness=line.thickness + F(1, 8))
        yield "limit.other-stock", listed(n, material="another")
        yield "limit.other-sum", listed(n, longest=line.longest - 1)
        yield "limit.other-sum", listed(n, widest=line.widest - F(1, 8))
        yield "limit.other-sum", listed(n, surface=line.surface / 2)


KINDS: dict[str, Callable[[Plan], Iterator[tuple[str, Plan]]]] = {
    "setups": setups, "shops": shops, "leaves": leaves, "glass": glass, "wood": wood,
}  # fmt: skip


@pytest.mark.parametrize("kind", KINDS)
def test_each_number_that_disagrees_is_named(kind: str) -> None:
    counts: Counter[str] = Counter()
    for path in EXAMPLES:
        plan = example(path)
        check_limits(plan)
        for message, wrong in KINDS[kind](plan):
            with pytest.raises(InternalError, match=message):
                check_limits(wrong)
            counts[message.partition("\\")[0]] += 1
    assert sum(counts.values()) >= 20


def test_the_proof_asks_for_it() -> None:
    plan = hand.make()
    small = replace(plan, shop=replace(plan.shop, sled_widest=F(1)))
    with pytest.raises(InternalError, match=r"step=\d+, .*limit.too-wide-for-sled"):
        prove(small)
