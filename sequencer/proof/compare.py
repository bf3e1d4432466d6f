"""What was sawn against what was designed, box for box, and which step a difference comes from."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from sequencer.errors import InternalError
from sequencer.plan import Part, Plan, Step
from sequencer.proof.follow import Event, fault, follow
from sequencer.proof.grain import Grain
from sequencer.proof.solid import IntBox, Solid, bounds, difference, moved, overlap, subtract

AXES = "xyz"


@dataclass(slots=True)
class Past:
    """What has happened to one piece: at which step, where (the kerf
    first), and along which axis guided; what it is now."""

    cleared: list[tuple[Step, tuple[IntBox, ...], int]] = field(default_factory=list)
    solid: Solid = ()
    sawn: Solid = ()


@dataclass(frozen=True, slots=True)
class Pieces:
    """Every piece as it left the saw, and as it is after the bench."""

    sawn: Mapping[str, Solid]
    finished: Mapping[str, Solid]


def saw_and_compare(plan: Plan, grain: Grain) -> Pieces:
    """Saw the whole plan; each part must come out as it was designed.

    Raises InternalError that names the step, the piece and the difference.
    """
    designs = designs_of(plan, grain)
    blocks = {scrap.mark: (grain.block(scrap.size),) for scrap in plan.scrap}
    pasts: dict[str, Past] = {}
    for event in follow(plan, grain):
        past = pasts.setdefault(event.mark, Past())
        if event.stick is not None:
            take_over(past, pasts.get(event.stick), event)
        past.solid = event.solid
        past.cleared.append((event.step, event.cleared, event.guided))
        if not event.at_saw:
            continue
        past.sawn = event.solid
        design = designs.get(event.mark)
        if design is not None:
            _check_nothing_lost(design, past, event, grain)
    for mark in (*designs, *blocks):
        if mark not in pasts:
            raise _never_cut(plan, mark, pasts)
    for part in plan.parts:
        if pasts[part.mark].sawn != designs[part.mark]:
            features = described(part, grain)[1]
            _check_same(part.mark, designs[part.mark], features, pasts[part.mark], grain)
    _check_scrap(blocks, pasts, grain)
    return Pieces(
        {mark: past.sawn for mark, past in pasts.items()},
        {mark: past.solid for mark, past in pasts.items()},
    )


def _never_cut(plan: Plan, mark: str, pasts: Mapping[str, Past]) -> InternalError:
    """The error of a piece that is not there, with the last step that its stick was at."""
    for stick in plan.sticks:
        if stick.mark in pasts and any(piece.mark == mark for piece in stick.pieces):
            near = [
                past.cleared[-1][0]
                for name, past in pasts.items()
                if name == stick.mark or any(piece.mark == name for piece in stick.pieces)
            ]
            last = max(near, key=lambda step: step.number)
            return fault(last, mark, f"no later step cuts it from {stick.mark}")
    return InternalError(f"piece {mark}: no step cuts it from a stick")


def designs_of(plan: Plan, grain: Grain) -> dict[str, Solid]:
    known: dict[tuple[IntBox, tuple[IntBox, ...]], Solid] = {}
    designs: dict[str, Solid] = {}
    for part in plan.parts:
        key = described(part, grain)
        if key not in known:
            solid: Solid = (key[0],)
            for box in key[1]:
                solid = subtract(solid, box)
            if not solid:
                raise InternalError(f"piece {part.mark}: its features leave nothing of it")
            known[key] = _at_origin(solid)
        designs[part.mark] = known[key]
    return designs


def described(part: Part, grain: Grain) -> tuple[IntBox, tuple[IntBox, ...]]:
    return grain.block(part.size), tuple(grain.box(feature.box) for feature in part.features)


def _at_origin(solid: Solid) -> Solid:
    x, _, y, _, z, _ = bounds(solid)
    return moved(solid, (-x, -y, -z)) if x or y or z else solid


def take_over(past: Past, stick: Past | None, event: Event) -> None:
    """A piece inherits what was done to its stick."""
    if stick is not None:
        for step, boxes, guided in stick.cleared:
            past.cleared.append((step, moved(boxes, (-event.start, 0, 0)), guided))


def _check_nothing_lost(design: Solid, past: Past, event: Event, grain: Grain) -> None:
    """The part still has all the wood that it is to keep; what is lost is laid to its step."""
    if event.stick is None:
        if any(overlap(box, wanted) for box in event.cleared for wanted in design):
            lost = difference(design, difference(design, event.cleared))
            raise fault(
                event.step, event.mark, f"it loses wood that it is to keep: {place_of(lost, grain)}"
            )
        return
    lost = difference(design, event.solid)
    if lost:
        step = next(
            (step for step, boxes, _ in past.cleared if difference(lost, boxes) != lost), event.step
        )
        raise fault(step, event.mark, f"it loses wood that it is to keep: {place_of(lost, grain)}")


def _check_same(
    mark: str, design: Solid, features: Sequence[IntBox], past: Past, grain: Grain
) -> None:
    lost = difference(design, _at_origin(past.sawn))
    if lost:
        raise fault(
            past.cleared[-1][0], mark, f"it loses wood that it is to keep: {place_of(lost, grain)}"
        )
    left = difference(past.sawn, design)
    if left:
        step = nearest(left, past, design)
        what = f"it keeps wood that it is to lose: {place_of(left, grain)}"
        beside = _beside(min(left), past, features, step)
        raise fault(step, mark, f"{what}; cuts beside it: {beside}" if beside else what)


def nearest(left: Solid, past: Past, design: Solid) -> Step:
    """The step that the wood left over is laid to: a kerf that ends against it where the design
    has no surface, first on the axis that it is guided along (a wrong guide), then on any (a
    wrong height); else the last kerf that touches it; else the last step of all."""
    planes = [{box[2 * axis + i] for box in design for i in (0, 1)} for axis in range(3)]
    ranked: dict[int, Step] = {}
    for step, boxes, guided in reversed(past.cleared):
        for axis, at in contacts(boxes[0], left):
            sides = {boxes[0][2 * guided], boxes[0][2 * guided + 1]}
            placed = axis == guided and not sides.isdisjoint(planes[axis])
            rank = 2 if at in planes[axis] or placed else int(axis != guided)
            ranked.setdefault(rank, step)
    if ranked:
        return ranked[min(ranked)]
    return [step for step, _, _ in past.cleared if step.setup is not None][-1]


def _beside(left: IntBox, past: Past, features: Sequence[IntBox], named: Step) -> str:
    """The other steps that cut the feature in which wood is left over."""
    inside = [box for box in features if not difference((left,), (box,))]
    steps = {
        step.number: step.kind
        for step, boxes, _ in past.cleared
        if step is not named and step.setup is not None
        for box in inside
        if overlap(boxes[0], box)
    }
    return ", ".join(f"step {number} ({kind})" for number, kind in sorted(steps.items()))


def contacts(kerf: IntBox, left: Solid) -> Iterator[tuple[int, int]]:
    """Where a kerf's sides lie against what is left: the axis, and the place on it."""
    for box in left:
        for axis in range(3):
            wide = list(kerf)
            wide[2 * axis] -= 1
            wide[2 * axis + 1] += 1
            if not overlap((wide[0], wide[1], wide[2], wide[3], wide[4], wide[5]), box):
                continue
            if box[2 * axis] == kerf[2 * axis + 1]:
                yield axis, box[2 * axis]
            elif box[2 * axis + 1] == kerf[2 * axis]:
                yield axis, kerf[2 * axis]


def _check_scrap(blocks: Mapping[str, Solid], pasts: Mapping[str, Past], grain: Grain) -> None:
    """Test pieces have no design; they come off their stick in the length and width stated."""
    for mark, (block,) in blocks.items():
        step = pasts[mark].cleared[-1][0]
        x, x1, y, y1, z, z1 = bounds(pasts[mark].sawn)
        found = (x1 - x, y1 - y, z1 - z)
        if found != block[1::2]:
            shown = " × ".join(grain.text(value) for value in found)
            wanted = " × ".join(grain.text(value) for value in block[1::2])
            raise fault(step, mark, f"the test piece is {shown}, not {wanted}")


def place_of(solid: Solid, grain: Grain) -> str:
    """The first box of a difference, in words."""
    box = min(solid)
    return ", ".join(
        f"{axis} {grain.text(box[2 * i])} to {grain.text(box[2 * i + 1])}"
        for i, axis in enumerate(AXES)
    )
