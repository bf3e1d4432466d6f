"""Doors to parts: exact sizes, designed features, places in the door and in the opening."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import product

from sequencer.doors.frame import make_leaf
from sequencer.doors.leaf import BARS, FILLS, Leaf, Light
from sequencer.doors.pieces import loose_choices, make_loose
from sequencer.errors import Refusal
from sequencer.job.schema import Cutter, Job, Measured
from sequencer.joints import JOINTS
from sequencer.methods import Choices, Grooving, SlotDepth, Slotting, TenonWidth
from sequencer.trade.fits import TENON_LEAST

__all__ = ["BARS", "FILLS", "Leaf", "Light", "make_leaves", "open_choices"]


def make_leaves(
    jobs: Sequence[Job],
    kerf: Fraction,
    measured: Measured,
    choices: Choices,
    deepest: Fraction | None = None,
) -> tuple[Leaf, ...]:
    """All leaves of all jobs, in file order. All jobs are in one unit.

    `deepest` is the deepest slot that can be cut on end: a tenon is no wider than it goes into.
    A job of pieces that were drawn elsewhere stands alone.
    """
    loose = [made for job in jobs for made in make_loose(job, measured, choices, deepest)]
    if loose:
        return tuple(loose)
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
                make_leaf(door, index, joint, sizes, widths, job.name, job.unit, kerf)
                for index in range(door.leaves)
            )
    return tuple(leaves)


def open_choices(
    jobs: Sequence[Job],
    kerf: Fraction,
    measured: Measured,
    deepest: Fraction | None = None,
    dado: Cutter | None = None,
) -> tuple[Choices, ...]:
    """Every combination of methods that is open for these doors, the usual one first. `dado` is a
    set that the saw may take."""
    if jobs[0].pieces:
        return loose_choices(jobs[0])
    plain = _Sized.of(jobs, kerf, measured, deepest, Choices())
    slots: list[tuple[Slotting, Cutter | None]] = [("from the face side", None)]
    if plain.slots_centred:
        slots.insert(0, ("turned", None))
    if dado is not None and _takes(jobs, kerf, measured, deepest, dado):
        slots.append(("dado set", dado))
    grooves: tuple[Slotting, ...] = ("from the face side",)
    if plain.grooves_centred:
        grooves = ("turned", *grooves)
    depths: tuple[SlotDepth, ...] = ("one a rail",)
    if plain.may_share_a_depth:
        depths = (*depths, "one for all")
    places: tuple[Grooving, ...] = ("stick", "piece")
    return tuple(
        Choices(slot, groove, depth, width, place, set_of)
        for place, (slot, set_of), groove, depth in product(places, slots, grooves, depths)
        for width in _tenon_widths(plain.trimmed and depth == "one a rail")
    )


@dataclass(frozen=True, slots=True)
class _Sized:
    """The joints of all doors as one set of methods makes them."""

    slots_centred: bool
    grooves_centred: bool
    may_share_a_depth: bool
    trimmed: bool
    slot_widths: frozenset[Fraction]

    @staticmethod
    def of(
        jobs: Sequence[Job],
        kerf: Fraction,
        measured: Measured,
        deepest: Fraction | None,
        choices: Choices,
    ) -> _Sized:
        """Raises `Refusal` where a joint cannot be made that way."""
        doors = [(JOINTS[d.joint.kind], d, job.unit) for job in jobs for d in job.doors]
        sizes = [joint.size(d, kerf, unit, measured, choices) for joint, d, unit in doors]
        tenons = [joint.tenon_widths(door, deepest) for joint, door, _ in doors]
        natural = [joint.tenon_widths(door) for joint, door, _ in doors]
        widths = [width for pair in tenons for width in pair]
        common = min(widths)
        return _Sized(
            slots_centred=all(size.slot_centred for size in sizes),
            grooves_centred=all(size.groove_centred for size in sizes),
            may_share_a_depth=max(widths) > common >= TENON_LEAST * max(widths),
            trimmed=all(size.trimmed for size in sizes) and tenons == natural,
            slot_widths=frozenset(size.slot_width for size in sizes),
        )


def _takes(
    jobs: Sequence[Job],
    kerf: Fraction,
    measured: Measured,
    deepest: Fraction | None,
    dado: Cutter,
) -> bool:
    """Whether every slot can be as wide as the dado set."""
    try:
        sized = _Sized.of(jobs, kerf, measured, deepest, Choices(slot="dado set", dado=dado))
    except Refusal:
        return False
    return sized.slots_centred and sized.slot_widths == {dado.kerf}


def _tenon_widths(trimmed: bool) -> tuple[TenonWidth, ...]:
    """Nothing is open where the groove's pass trims every tenon."""
    return ("jig",) if trimmed else ("jig", "sled")
