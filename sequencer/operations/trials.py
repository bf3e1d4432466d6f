"""What is tried together: each kind of joint part has a test piece of its own.

A tenon's shoulders and cheeks belong on one test piece, the passes of a slot, a groove or a tongue
too; two of these on one piece would leave nothing to measure, or take the other's wood away.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from sequencer.cuts.model import Operation, Setting

_TENON = ("shoulder", "edge shoulder", "sweep", "cheek", "edge cheek")

Trial = frozenset[tuple[str, Setting]]
"""The kinds and settings of one joint part that are tried: equal for parts that are alike."""


def trials(operations: Iterable[Operation]) -> Mapping[str, Trial]:
    """What each operation that is tried on scrap is tried with, by its name."""
    groups: dict[tuple[str, str], list[Operation]] = {}
    for operation in operations:
        if operation.setting is not None and operation.setting.tests:
            groups.setdefault(_part_of(operation), []).append(operation)
    found: dict[str, Trial] = {}
    for group in groups.values():
        trial = frozenset((o.kind, o.setting) for o in group if o.setting is not None)
        found |= {operation.id: trial for operation in group}
    return found


def wanted(operations: Iterable[Operation]) -> Mapping[str, int]:
    """How many test pieces each one stands for, at least: as many as are tried on it."""
    tried = [operation for operation in operations if operation.setting is not None]
    of = trials(tried)
    on: dict[str, set[Trial]] = {}
    for operation in tried:
        assert operation.setting is not None
        for test in operation.setting.tests:
            on.setdefault(test.scrap, set()).add(of[operation.id])
    return {scrap: len(found) for scrap, found in on.items()}


def _part_of(operation: Operation) -> tuple[str, str]:
    """The piece and the joint part on it: of tenons the end, of housings the face too where the
    other has one unlike it, of all else its name."""
    name = operation.name
    if operation.kind == "bevel":
        return operation.mark, "bevel"
    if operation.kind in _TENON:
        return operation.mark, name.at
    # Opposite another, a housing cannot be measured from the other face.
    side = name.side if operation.kind == "housing" else ""
    return operation.mark, f"{name.what} {name.at} {side}"
