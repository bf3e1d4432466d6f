"""Doors to parts: exact sizes, designed features, places in the door and in the opening."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import product

from msgspec import Struct

from sequencer.doors.frame import make_leaf
from sequencer.doors.leaf import BARS, FILLS, Leaf, Light
from sequencer.doors.measure import rail_tenons
from sequencer.doors.pieces import loose_choices, make_loose
from sequencer.doors.slab import make_slab
from sequencer.errors import Refusal
from sequencer.job.schema import Cutter, Door, Job
from sequencer.joints import BAR_JOINTS, JOINTS, Joint
from sequencer.lengths import Unit
from sequencer.measured import Measured
from sequencer.methods import Choices, Grooving, Marks, SlotDepth, Slotting, TenonWidth
from sequencer.trade.fits import SLOT_LEAST, SLOT_MOST, TENON_LEAST

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
    one = choices.slot_depth == "common"
    common = min(_deep(jobs, deepest), default=Fraction(0))
    leaves: list[Leaf] = []
    for job in jobs:
        for door in job.doors:
            indices = range(door.leaves)
            if door.slab is not None:
                leaves += (make_slab(door, n, job.name, job.unit, measured) for n in indices)
                continue
            joint = JOINTS[door.joint.kind]
            sizes = joint.size(door, kerf, job.unit, measured, choices)
            own = rail_tenons(door, joint, deepest, job.unit)
            used = own.at_most(common) if one and joint.slotted else own
            leaves += (
                make_leaf(door, n, joint, sizes, used, job.name, job.unit, kerf, choices.marks)
                for n in indices
            )
    return tuple(leaves)


def _framed(jobs: Sequence[Job]) -> list[tuple[Joint, Door, Unit]]:
    """Every door that has a frame, with its corner joint and its unit."""
    return [
        (JOINTS[door.joint.kind], door, job.unit)
        for job in jobs
        for door in job.doors
        if door.slab is None
    ]


def _deep(jobs: Sequence[Job], deepest: Fraction | None) -> list[Fraction]:
    """The width of every tenon that goes into a slot."""
    return [
        width
        for joint, door, unit in _framed(jobs)
        if joint.slotted
        for width in rail_tenons(door, joint, deepest, unit).each
    ]


def open_choices(
    jobs: Sequence[Job],
    kerf: Fraction,
    measured: Measured,
    deepest: Fraction | None = None,
    dados: Sequence[Cutter] = (),
    marks: Marks | None = None,
) -> tuple[Choices, ...]:
    """Every combination of methods that is open for these doors, the usual one first. `dados` are
    the sets that the saw may take, `marks` those of its scales."""
    if jobs[0].pieces:
        return loose_choices(jobs[0], marks)
    if not _framed(jobs):
        return (Choices(marks=marks),)
    plain = _Sized.of(jobs, kerf, measured, deepest, Choices(marks=marks))
    slots: list[tuple[Slotting, Cutter | None]] = [("one-face", None)]
    if plain.slots_centred:
        slots.insert(0, ("turned", None))
    slots += [("dado", d) for d in dados if _takes(jobs, kerf, measured, deepest, d, marks)]
    grooves: tuple[Slotting, ...] = ("one-face",)
    if plain.grooves_centred:
        grooves = ("turned", *grooves)
    depths: tuple[SlotDepth, ...] = ("each",)
    if plain.may_share_a_depth:
        depths = (*depths, "common")
    places: tuple[Grooving, ...] = ("stick", "piece")
    return tuple(
        Choices(slot, groove, depth, width, place, set_of, marks)
        for place, (slot, set_of), groove, depth in product(places, slots, grooves, depths)
        for width in _tenon_widths(plain.trimmed and depth == "each")
    )


class _Sized(Struct, frozen=True):
    """The joints of all doors as one set of methods makes them; what is said of slots, of those
    that have any."""

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
        doors = _framed(jobs)
        sizes = [joint.size(d, kerf, unit, measured, choices) for joint, d, unit in doors]
        tenons = [rail_tenons(door, joint, deepest, unit) for joint, door, unit in doors]
        natural = [rail_tenons(door, joint, None, unit) for joint, door, unit in doors]
        deep = _deep(jobs, deepest) or [Fraction(0)]
        slotted = [size for (joint, d, _), size in zip(doors, sizes, strict=True)
                   if joint.slotted or (d.bars and BAR_JOINTS[d.joint.bars].slotted)]  # fmt: skip
        # A mitred tenon keeps its width.
        narrow = all(
            max(rail_tenons(door, joint, min(deep) + door.joint.proud, unit).each) <= min(deep)
            for joint, door, unit in doors
            if joint.slotted
        )
        shaped = any(door.shape is not None for _, door, _ in doors)
        return _Sized(
            slots_centred=bool(slotted) and all(size.slot_centred for size in slotted),
            grooves_centred=all(size.groove_centred for size in sizes),
            may_share_a_depth=max(deep) > min(deep) >= TENON_LEAST * max(deep) and narrow,
            trimmed=all(size.trimmed for size in sizes) and tenons == natural and not shaped,
            slot_widths=frozenset(size.slot_width for size in slotted),
        )


def _takes(
    jobs: Sequence[Job],
    kerf: Fraction,
    measured: Measured,
    deepest: Fraction | None,
    dado: Cutter,
    marks: Marks | None,
) -> bool:
    """Whether every slot can be as wide as the dado set, and about a third of its stock if no
    width is stated."""
    for _, door, _ in _framed(jobs):
        if door.joint.slot is None and not SLOT_LEAST <= dado.kerf / door.thickness <= SLOT_MOST:
            return False
    try:
        by_dado = Choices(slot="dado", dado=dado, marks=marks)
        sized = _Sized.of(jobs, kerf, measured, deepest, by_dado)
    except Refusal:
        return False
    return sized.slots_centred and sized.slot_widths == {dado.kerf}


def _tenon_widths(trimmed: bool) -> tuple[TenonWidth, ...]:
    """Nothing is open where the groove's pass trims every tenon."""
    return ("jig",) if trimmed else ("jig", "sled")
