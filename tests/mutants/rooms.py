"""Which tests ought to notice a change in which package, the quickest first."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

ROOMS: Mapping[str, tuple[str, ...]] = {
    "ordering": (
        "tests/ordering/test_check.py",
        "tests/ordering/test_reductions.py",
        "tests/ordering/test_limits.py",
        "tests/ordering/test_contract.py",
        "tests/ordering/test_greedy.py",
        "tests/ordering/test_agreement.py",
    ),
    "setups": (
        "tests/setups/test_scrap.py",
        "tests/setups/test_reuse.py",
        "tests/setups/test_steps.py",
        "tests/test_hand_worked.py",
        "tests/setups/test_choose.py",
        "tests/setups/test_waits.py",
    ),
    "proof": (
        "tests/proof/test_assembly.py",
        "tests/proof/test_fins.py",
        "tests/proof/test_limits.py",
        "tests/proof/test_joining.py",
        "tests/proof/test_leaves.py",
        "tests/proof/test_solid.py",
        "tests/proof/test_saw.py",
        "tests/proof/test_books.py",
        "tests/proof/test_prove.py",
        "tests/proof/test_cells.py",
        "tests/proof/test_followed.py",
        "tests/proof/test_mutants.py",
        "tests/proof/test_intent.py",
    ),
    "safety": ("tests/safety", "tests/test_cautions.py"),
    "doors": ("tests/doors", "tests/test_hand_worked.py"),
    "joints": ("tests/joints", "tests/test_hand_worked.py"),
    "stock": ("tests/stock",),
    "saved": (
        "tests/saved/test_gauges.py",
        "tests/saved/test_exchange.py",
        "tests/saved/test_store.py",
        "tests/saved/test_store_model.py",
        "tests/saved/test_recut.py",
        "tests/saved/test_command.py",
        "tests/wording/test_stores.py",
        "tests/wording/test_advices.py",
    ),
}


def tests_for(room: str, module: Path) -> tuple[str, ...]:
    """The room's tests, those first that bear the module's name."""
    own = Path("tests", *module.parts[1:-1], f"test_{module.name}")
    first = (str(own),) if own.exists() else ()
    return (*first, *(each for each in ROOMS[room] if each != str(own)))


TOO_SLOW = (
    *(
        f"tests/ordering/test_agreement.py::test_two_thousand_problems_of_this_run_least_first[{n}]"
        for n in range(2, 8)
    ),
    "tests/setups/test_waits.py::test_reasons_are_the_same_under_any_hash_seed",
    "tests/proof/test_limits.py::test_each_number_that_disagrees_is_named[setups]",
    "tests/saved/test_command.py::test_suggestions_are_printed_after_the_plan",
)
"""Tests that are left out, because a run for each of a hundred changes is to end."""
