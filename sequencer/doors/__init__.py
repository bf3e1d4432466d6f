"""Doors to parts: exact sizes, designed features, places in the door and in the opening."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from sequencer.doors.frame import Leaf, make_leaf, natural_tenons
from sequencer.doors.joint import JointSizes, size_joint
from sequencer.job.schema import Job, Measured
from sequencer.methods import Choices
from sequencer.trade.fits import TENON_LEAST

__all__ = ["JointSizes", "Leaf", "make_leaves", "open_questions"]


def make_leaves(
    jobs: Sequence[Job], kerf: Fraction, measured: Measured, choices: Choices
) -> tuple[Leaf, ...]:
    """All leaves of all jobs, in file order. All jobs are in one unit."""
    tenons = [natural_tenons(door) for job in jobs for door in job.doors]
    common = min(width for pair in tenons for width in pair)
    leaves: list[Leaf] = []
    for job in jobs:
        for door in job.doors:
            joint = size_joint(door, kerf, job.unit, measured, choices)
            one = choices.slot_depth == "one for all"
            widths = (common, common) if one else natural_tenons(door)
            leaves += (
                make_leaf(door, index, joint, widths, job.name) for index in range(door.leaves)
            )
    return tuple(leaves)


def open_questions(jobs: Sequence[Job], kerf: Fraction, measured: Measured) -> dict[str, list[str]]:
    """Which methods are open for these doors: the answers to each question, the usual first."""
    doors = [(door, job.unit) for job in jobs for door in job.doors]
    joints = [size_joint(door, kerf, unit, measured, Choices()) for door, unit in doors]
    tenons = [natural_tenons(door) for door, _ in doors]
    common = min(width for pair in tenons for width in pair)
    turned = ["turned", "from the face side"]
    slot = turned if all(j.slot_centred for j in joints) else turned[1:]
    groove = turned if all(j.groove_centred for j in joints) else turned[1:]
    answers = {"slot": slot, "groove": groove, "slot_depth": ["one a rail"], "tenon_width": ["jig"]}
    unlike = any(width != common for pair in tenons for width in pair)
    if unlike and all(common >= TENON_LEAST * width for pair in tenons for width in pair):
        answers["slot_depth"] = ["one a rail", "one for all"]
    if len(answers["slot_depth"]) > 1 or not all(j.trimmed for j in joints):
        answers["tenon_width"] = ["jig", "sled"]
    return answers
