"""Every predicate fires on what it rules out, and is silent on the nearest thing that is safe."""

from __future__ import annotations

from typing import Any

import pytest

from tests.simulator import cases, cases_told
from tests.simulator.cases import BY_HAND, LONG, LONGER
from tests.simulator.handmade import KINDS, held, plan_of, side
from tests.simulator.table import TABLE, unsafe

CASES = {**cases.CASES, **cases_told.CASES}
AGAIN: list[tuple[str, str, dict[str, Any], dict[str, Any]]] = [
    # Figures that a row has beside its first.
    ("rip_without_guard", "rip", {"guard_step": False}, {}),
    ("narrow_in_jig", "cheek", {"size": ("400", "19", "19"), "ticks": ("j04",)}, {}),
    (
        "short_base",
        "bevel",
        {"size": ("99", "100", "16"), "ticks": ("b08-bevel",)},
        {"size": ("100", "100", "16"), "ticks": ("b08-bevel",)},
    ),
    ("strip_at_fence", "rip", {"guide": "37"}, {"guide": "38"}),
    (
        "hand_too_near",
        "shoulder",
        {"size": ("214", "50", "19"), "held": BY_HAND, "ticks": ("b04",)},
        {"size": ("215", "50", "19"), "held": BY_HAND, "ticks": ("b04",)},
    ),
    # A cheek whose shoulder is sawn, its waste between blade and jig.
    (
        "waste_trapped",
        "cheek",
        {"guide": "3", "gone": [(("49", "51"), ("0", "50"), ("0", "4"))]},
        {"guide": "3", "gone": [(("51", "53"), ("0", "50"), ("0", "4"))]},
    ),
    # A groove that comes too near to one across it frees the wall between blade and fence.
    (
        "waste_trapped",
        "groove",
        {"kind": "test cut", "guide": "2", "gone": [(LONG, ("6", "9"), ("0", "3"))]},
        {"kind": "test cut", "guide": "2", "gone": [(LONG, ("7", "9"), ("0", "3"))]},
    ),
    ("saw_not_as_told", "groove", {"stands": {"height": "7"}}, {"stands": {"height": "6"}}),
    ("saw_not_as_told", "groove", {"stands": {"guard": "knife"}}, {}),
    ("larger_than_sled", "crosscut", {"widest": "84"}, {"widest": "85"}),
    ("bare_blade_unsaid", "groove", {"rules": ("C13", "B05")}, {}),
    (
        "creeping_unsaid",
        "rip",
        {"size": ("800", "85", "3.2"), "rules": ("B05", "C13", "J10")},
        {"size": ("800", "85", "3.3"), "rules": ("B05", "C13", "J10")},
    ),
    (
        "creeping_unsaid",
        "rip",
        {"size": ("800", "85", "3"), "rules": ("B05", "C13", "J10")},
        {"size": ("800", "85", "3"), "rules": ("B05", "C13", "J10"), "ticks": ("j10",)},
    ),
    ("wrong_side_held", "crosscut", {"held": held("clamp", side("beyond", "300"))}, {}),
    ("wrong_side_held", "crosscut", {"guide": "300", "held": LONGER}, {"held": LONGER}),
]


def fired(kind: str, changes: dict[str, Any]) -> set[str]:
    return {each.name for each in unsafe(plan_of(kind, changes))}


@pytest.mark.parametrize("name", CASES)
def test_fires_and_is_silent_beside_it(name: str) -> None:
    kind, bad, good = CASES[name]
    assert name in fired(kind, bad)
    assert name not in fired(kind, good)


def test_every_predicate_has_a_case_and_sources() -> None:
    assert list(CASES) == list(TABLE)
    assert all(each.sources and each.unsafe.__doc__ for each in TABLE.values())


@pytest.mark.parametrize(("name", "kind", "bad", "good"), AGAIN)
def test_fires_by_its_other_figure(
    name: str, kind: str, bad: dict[str, Any], good: dict[str, Any]
) -> None:
    assert name in fired(kind, bad)
    assert name not in fired(kind, good)


@pytest.mark.parametrize("kind", KINDS)
def test_usual_plans_are_safe(kind: str) -> None:
    assert not fired(kind, {})
