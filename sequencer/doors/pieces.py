"""Pieces that were drawn elsewhere as parts: their features from a table instead of a door.

They are cut like the parts of doors. Nothing is known of how they go together: no bench work, no
assembly.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import product

from sequencer.doors.leaf import Leaf
from sequencer.errors import Refusal
from sequencer.facts import Length, parts
from sequencer.facts import doors as called
from sequencer.job import piece as drawn
from sequencer.job.schema import Door, Gaps, Groove, Job, Joint, Opening, Panel
from sequencer.joints import JOINTS, JointSizes
from sequencer.joints.base import end_span
from sequencer.lengths import Unit
from sequencer.measured import Measured
from sequencer.methods import Choices, Grooving, Marks, Slotting, TenonWidth
from sequencer.plan import Door as PlacedDoor
from sequencer.plan import Feature, Part, Size, Span

ZERO = Fraction(0)


class Loose(Leaf, frozen=True):
    """Pieces of one kind of joint, in the place of a leaf; no door is put together from them."""

    @property
    def complete(self) -> bool:
        return False


def make_loose(
    job: Job, measured: Measured, choices: Choices, deepest: Fraction | None
) -> tuple[Loose, ...]:
    """The pieces in groups of one door and one kind of joint, in file order.

    Raises `Refusal` for a joint that reaches further than a cut `deepest` deep on end.
    """
    groups: dict[tuple[str, drawn.Joinery | None, Fraction], list[drawn.Piece]] = {}
    for each in job.pieces:
        _within_reach(each, deepest, job.unit)
        groups.setdefault((each.door, each.joinery, each.thickness), []).append(each)
    return tuple(
        _group(found, job, measured, choices, door, joinery)
        for (door, joinery, _), found in groups.items()
    )


def loose_choices(job: Job, marks: Marks | None = None) -> tuple[Choices, ...]:
    """Every combination of methods that is open for these pieces, the usual one first."""
    slotted = any(kind == "slot" for each in job.pieces for _, kind, _ in each.ends)
    tenoned = any(kind == "tenon" for each in job.pieces for _, kind, _ in each.ends)
    grooved = any(each.joinery and each.joinery.groove_width for each in job.pieces)
    both: tuple[Slotting, ...] = ("turned", "one-face")
    slots = both if slotted or tenoned else both[:1]
    grooves = both if grooved else both[:1]
    places: tuple[Grooving, ...] = ("stick", "piece") if grooved else ("stick",)
    widths: tuple[TenonWidth, ...] = ("jig", "sled") if tenoned else ("jig",)
    return tuple(
        Choices(slot, groove, "each", width, place, marks=marks)
        for place, slot, groove, width in product(places, slots, grooves, widths)
    )


def _within_reach(each: drawn.Piece, deepest: Fraction | None, unit: Unit) -> None:
    for at, kind, depth in each.ends:
        if deepest is not None and depth > deepest:
            raise Refusal(
                parts.TOO_DEEP_ON_END(
                    where=each.where,
                    joint=kind,
                    end=at,
                    mark=each.mark,
                    depth=Length(depth, unit),
                    deepest=Length(deepest, unit),
                )
            )


def _group(
    found: Sequence[drawn.Piece],
    job: Job,
    measured: Measured,
    choices: Choices,
    door: str,
    joinery: drawn.Joinery | None,
) -> Loose:
    nominal = found[0].thickness
    thickness = measured.thickness.get(nominal, nominal)
    sizes = _sizes(joinery, thickness, measured, choices)
    spec = _spec(found[0], nominal, door)
    return Loose(
        spec=spec,
        door=PlacedDoor(door, job.name, called.OWN_NAME(name=door), (ZERO, ZERO), (ZERO, ZERO),
                        (ZERO, ZERO), "left", {}, "out", (), ()),
        joint=JOINTS["bridle"],
        sizes=sizes,
        parts=tuple(_part(each, sizes, door) for each in found),
        sight=(ZERO, ZERO),
        trims=(),
        flush=(),
    )  # fmt: skip


def _sizes(
    joinery: drawn.Joinery | None, thickness: Fraction, measured: Measured, choices: Choices
) -> JointSizes:
    slot = ZERO if joinery is None or joinery.slot is None else joinery.slot
    slot = measured.slot.get(slot, slot)
    clearance = ZERO if joinery is None or not slot else joinery.clearance
    across = _centred(thickness, slot)
    start = across[0]
    if choices.slot != "one-face":
        start = (thickness - slot + clearance) / 2
    width = ZERO if joinery is None else joinery.groove_width or ZERO
    return JointSizes(
        thickness=thickness,
        slot=across,
        tenon=(start, start + slot - clearance),
        groove=_centred(thickness, width),
        groove_depth=ZERO if joinery is None else joinery.groove_depth,
        panel=ZERO,
        slot_centred=True,
        groove_centred=True,
    )


def _centred(thickness: Fraction, width: Fraction) -> Span:
    return ((thickness - width) / 2, (thickness + width) / 2)


def _part(each: drawn.Piece, sizes: JointSizes, door: str) -> Part:
    kinds = {kind for _, kind, _ in each.ends}
    role = "rail" if "tenon" in kinds else "stile" if "slot" in kinds else "piece"
    size = Size(each.length, each.width, sizes.thickness)
    return Part(
        mark=each.mark,
        door=door,
        role=role if each.joinery else "panel",
        name=parts.OWN_NAME(name=each.name) if each.name else parts.NAMED(name="piece"),
        material=each.material,
        size=size,
        features=tuple(_features(each, size, sizes)),
        inside=each.inside or "left",
    )


def _features(each: drawn.Piece, size: Size, sizes: JointSizes) -> Iterator[Feature]:
    whole = (ZERO, size.thickness)
    across = (ZERO, size.width)
    for at, kind, depth in each.ends:
        along = end_span(at, size.length, ZERO, depth)
        if kind == "slot":
            yield Feature("slot", at, (along, across, sizes.slot))
            continue
        yield Feature("cheek", at, (along, across, (ZERO, sizes.tenon[0])))
        yield Feature("cheek", at, (along, across, (sizes.tenon[1], size.thickness)))
        edge = size.width - each.tenon_width
        if edge and not (sizes.trimmed and edge == sizes.groove_depth):
            yield Feature("edge-cheek", at, (along, (ZERO, edge), whole))
    if sizes.groove_depth:
        box = ((ZERO, size.length), (ZERO, sizes.groove_depth), sizes.groove)
        yield Feature("groove", "inside-edge", box)


def _spec(first: drawn.Piece, nominal: Fraction, door: str) -> Door:
    """What the cutting of sticks asks of a door: thickness, edges as sawn, the marked face."""
    return Door(
        name=called.OWN_NAME(name=door),
        marks=(door,),
        where=first.where,
        opening=Opening(ZERO, ZERO),
        gaps=Gaps(ZERO, ZERO, ZERO, ZERO),
        hinge="left",
        thickness=nominal,
        edge_allowance=ZERO,
        species=first.material,
        hinge_stile=ZERO,
        free_stile=ZERO,
        top_rail=ZERO,
        bottom_rail=ZERO,
        face_side="out",
        joint=Joint(None, None, ZERO, ZERO, "one length"),
        groove=Groove(ZERO, None, None),
        panel=Panel(None, ZERO, ZERO, first.material),
    )
