"""Doors to parts: exact sizes, designed features, places in the door and in the opening."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import product

from sequencer.doors.frame import Leaf, make_leaf
from sequencer.job.schema import Job, Measured
from sequencer.joints import JOINTS
from sequencer.methods import Choices, SlotDepth, Slotting, TenonWidth
from sequencer.trade.fits import TENON_LEAST

__all__ = ["Leaf", "make_leaves", "open_choices"]


def make_leaves(
    jobs: Sequence[Job],
    kerf: Fraction,
    measured: Measured,
    choices: Choices,
    deepest: Fraction | None = None,
) -> tuple[Leaf, ...]:
    """All leaves of all jobs, in file order. All jobs are in one unit.

    `deepest` is the deepest slot that can be cut on end: a tenon is no wider than it goes into.
    """
    tenons = [JOINTS[d.joint.kind].tenon_widths(d, deepest) for job in jobs for d in job.doors]
    common = min(width for pair in tenons for width in pair)
    leaves: list[Leaf] = []
    for job in jobs:
        for door in job.doors:
            joint = JOINTS[door.joint.kind]
            sizes = joint.size(door, kerf, job.unit, measured, choices)
            one = choices.slot_depth == "one for all"
            widths = (common, common) if one else joint.tenon_widths(door, deepest)
            leaves += (
                make_leaf(door, index, joint, sizes, widths, job.name)
                for index in range(door.leaves)
            )
    return tuple(leaves)


def open_choices(
    jobs: Sequence[Job], kerf: Fraction, measured: Measured, deepest: Fraction | None = None
) -> tuple[Choices, ...]:
    """Every combination of methods that is open for these doors, the usual one first."""
    doors = [(door, job.unit) for job in jobs for door in job.doors]
    joints = [JOINTS[door.joint.kind] for door, _ in doors]
    sizes = [
        joint.size(door, kerf, unit, measured, Choices())
        for joint, (door, unit) in zip(joints, doors, strict=True)
    ]
    tenons = [
        joint.tenon_widths(door, deepest) for joint, (door, _) in zip(joints, doors, strict=True)
    ]
    natural = [joint.tenon_widths(door) for joint, (door, _) in zip(joints, doors, strict=True)]
    common = min(width for pair in tenons for width in pair)
    slots: list[Slotting] = ["from the face side"]
    grooves: list[Slotting] = ["from the face side"]
    depths: list[SlotDepth] = ["one a rail"]
    if all(size.slot_centred for size in sizes):
        slots.insert(0, "turned")
    if all(size.groove_centred for size in sizes):
        grooves.insert(0, "turned")
    unlike = any(width != common for pair in tenons for width in pair)
    if unlike and all(common >= TENON_LEAST * width for pair in tenons for width in pair):
        depths.append("one for all")
    trimmed = all(size.trimmed for size in sizes) and tenons == natural
    return tuple(
        Choices(slot, groove, depth, width)
        for slot, groove, depth in product(slots, grooves, depths)
        for width in _tenon_widths(trimmed and depth == "one a rail")
    )


def _tenon_widths(trimmed: bool) -> tuple[TenonWidth, ...]:
    """Nothing is open where the groove's pass trims every tenon."""
    return ("jig",) if trimmed else ("jig", "sled")
