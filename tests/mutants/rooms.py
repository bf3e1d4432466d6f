"""Which tests ought to notice a change in which package, the quickest first."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

ROOMS: Mapping[str, tuple[str, ...]] = {
    "ordering": (
        "tests/ordering/test_check.py",
        "tests/ordering/test_reductions.py",
        "tests/ordering/test_contract.py",
        "tests/ordering/test_greedy.py",
        "tests/ordering/test_agreement.py",
    ),
    "setups": (
        "tests/setups/test_scrap.py",
        "tests/setups/test_reuse.py",
        "tests/setups/test_steps.py",
        "tests/test_hand_worked.py",
    ),
    "proof": (
        "tests/proof/test_assembly.py",
        "tests/proof/test_fins.py",
        "tests/proof/test_joining.py",
        "tests/proof/test_leaves.py",
        "tests/proof/test_solid.py",
        "tests/proof/test_saw.py",
        "tests/proof/test_books.py",
        "tests/proof/test_prove.py",
        "tests/proof/test_followed.py",
    ),
    "safety": ("tests/safety",),
    "doors": (
        "tests/doors/test_frame.py",
        "tests/doors/test_season.py",
        "tests/doors/test_shape.py",
        "tests/doors/test_slab.py",
        "tests/doors/test_hardware.py",
        "tests/doors/test_sits.py",
        "tests/doors/test_bars.py",
        "tests/doors/fills/test_glass.py",
        "tests/test_hand_worked.py",
    ),
    "joints": (
        "tests/joints/test_sizes.py",
        "tests/joints/test_tables.py",
        "tests/test_hand_worked.py",
    ),
    "stock": ("tests/stock",),
    "saved": (
        "tests/saved/test_gauges.py",
        "tests/saved/test_exchange.py",
        "tests/saved/test_store.py",
    ),
}

WIDER: Mapping[str, tuple[str, ...]] = {
    "ordering": ("tests/ordering", "tests/setups/test_choose.py", "tests/setups/test_claims.py"),
    "setups": ("tests/test_free_values.py", "tests/setups", "tests/sawside/test_fold.py"),
    "proof": ("tests/proof",),
    "safety": ("tests/test_cautions.py", "tests/test_examples.py"),
    "doors": ("tests/doors", "tests/test_examples.py"),
    "joints": ("tests/joints", "tests/test_examples.py"),
    "stock": ("tests/sheets/test_boards.py", "tests/proof/test_every_door.py"),
    "saved": ("tests/saved", "tests/wording/test_stores.py", "tests/wording/test_terminal.py"),
}
"""Slower tests, for what none of those above notices."""


def tests_for(room: str, module: Path, tree: Path) -> tuple[str, ...]:
    """The room's tests in a tree, the module's own examples first, then those whose names begin
    with the module's."""
    folder = tree.joinpath("tests", *module.parts[1:-1])
    own = sorted(folder.glob(f"test_{module.stem}*.py"))
    first = (str(module), *(str(path.relative_to(tree)) for path in own))
    return (*first, *(each for each in ROOMS[room] if each not in first))


TOO_SLOW = (
    *(
        f"tests/ordering/test_agreement.py::test_two_thousand_problems_of_this_run_least_first[{n}]"
        for n in range(1, 8)
    ),
    *(
        f"tests/ordering/test_agreement.py::test_two_thousand_small_problems_by_force[{n}]"
        for n in range(2, 40)
    ),
    "tests/setups/test_waits.py::test_reasons_are_the_same_under_any_hash_seed",
    "tests/proof/test_limits.py::test_each_number_that_disagrees_is_named[setups]",
    "tests/proof/test_prove.py::test_from_the_file_alone",
    "tests/saved/test_command.py::test_suggestions_are_printed_after_the_plan",
)
"""Tests that are left out, because a run for each of a hundred changes is to end."""
