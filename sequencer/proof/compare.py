"""What was sawn against what was designed, box for box, and which step a difference comes from."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from msgspec import Struct, field

from sequencer.errors import InternalError
from sequencer.facts import Fact
from sequencer.facts import proofs as told
from sequencer.plan import Feature, Part, Plan, Step, Stick
from sequencer.proof.cells import Bit, Cell, Length, Plane, opposite
from sequencer.proof.follow import Event, Look, fault, follow, kind_term
from sequencer.proof.grain import Grain
from sequencer.proof.hands import Marks, in_hand
from sequencer.proof.polygons import met
from sequencer.proof.solid import (
    IntBox,
    Solid,
    bounds,
    difference,
    moved,
    overlap,
    shared,
    touch,
)


class Past(Struct):
    """What has happened to one piece: at which step, where (the kerf
    first), and along which axis guided; what it is now."""

    cleared: list[tuple[Step, Solid, int]] = field(default_factory=list)
    solid: Solid = ()
    sawn: Solid = ()


class Pieces(Struct, frozen=True):
    """Every piece as it left the saw, its bench shapes taken off, and as it is after the bench, in
    the wood, with its `marks`."""

    sawn: Mapping[str, Solid]
    finished: Mapping[str, Solid]
    marks: Mapping[str, Marks]


def saw_and_compare(plan: Plan, grain: Grain, look: Look | None = None) -> Pieces:
    """Saw the whole plan; each part must come out as it was designed. `look` sees every pass.

    Raises InternalError that names the step, the piece and the difference.
    """
    marks = in_hand(plan)
    _check_hands(plan, marks, grain)
    designs = designs_of(plan, grain)
    blocks = {scrap.mark: (grain.block(scrap.size),) for scrap in plan.scrap}
    views = {part.mark: View.of(part, marks, grain) for part in plan.parts}
    pasts: dict[str, Past] = {}
    for event in follow(plan, grain, look=look):
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
            _check_nothing_lost(design, past, event, views[event.mark])
    for mark in (*designs, *blocks):
        if mark not in pasts:
            raise _never_cut(plan, mark, pasts)
    for part in plan.parts:
        past = pasts[part.mark]
        if any(feature.unproven_by_saw for feature in part.features):
            _shape(part, past, views[part.mark])
        if past.sawn != designs[part.mark]:
            features = described(part, marks[part.mark], grain)[1]
            _check_same(part.mark, designs[part.mark], features, past, views[part.mark])
    _check_scrap(blocks, pasts, grain)
    return Pieces(
        {mark: past.sawn for mark, past in pasts.items()},
        {mark: past.solid for mark, past in pasts.items()},
        marks,
    )


def _check_hands(plan: Plan, marks: Mapping[str, Marks], grain: Grain) -> None:
    """Off its stick each piece is of the hand that it is wanted in."""
    for part in plan.parts:
        lies = marks[part.mark]
        if part.inside not in (None, lies.inside):
            raise _wrong(part.mark, told.MIRRORED(wanted=part.inside, found=lies.inside))
    for stick in plan.sticks:
        _check_either(plan, stick, grain)


def _check_either(plan: Plan, stick: Stick, grain: Grain) -> None:
    """Where either hand is said to do, the design is the same from both ends."""
    parts = {part.mark: part for part in plan.parts}
    for piece in stick.pieces:
        part = parts.get(piece.mark)
        if not piece.remarked or part is None:
            continue
        one, other = (design_of(part, marks, grain) for marks in (Marks(), Marks().remarked))
        if difference(one, other) or difference(other, one):
            raise _wrong(part.mark, told.UNLIKE_ENDS())


def _wrong(mark: str, what: Fact) -> InternalError:
    return InternalError(told.AT_PIECE(piece=mark, what=what))


class View(Struct, frozen=True):
    """How a piece's wood is told: in the frame of its marks."""

    marks: Marks
    block: IntBox
    grain: Grain

    @classmethod
    def of(cls, part: Part, marks: Mapping[str, Marks], grain: Grain) -> View:
        return cls(marks[part.mark], grain.block(part.size), grain)

    def place_of(self, solid: Solid) -> Fact:
        return place_of(self.marks.told(solid, self.block), self.grain)


def _shape(part: Part, past: Past, view: View) -> None:
    """What is shaped at the bench is taken off, and nothing of it is left when all is done."""
    shape = bench_shape(part, view.marks, view.grain)
    left = shared(past.solid, shape)
    if left:
        what = told.NOT_SHAPED(where=view.place_of(left))
        raise fault(past.cleared[-1][0], part.mark, what)
    past.sawn = difference(past.sawn, shape)


def bench_shape(part: Part, marks: Marks, grain: Grain) -> Solid:
    """What of a part's wood no saw takes away: the bench is trusted with it."""
    told = tuple(
        bit
        for feature in part.features
        if feature.unproven_by_saw
        for bit in taken(part, feature, grain)
    )
    return marks.told(told, grain.block(part.size))


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
            return fault(last, mark, told.NEVER_CUT(strip=stick.mark))
    return _wrong(mark, told.ON_NO_STRIP())


def designs_of(plan: Plan, grain: Grain) -> dict[str, Solid]:
    """What is to be left of each piece's wood."""
    marks = in_hand(plan)
    known: dict[tuple[object, ...], Solid] = {}
    designs: dict[str, Solid] = {}
    for part in plan.parts:
        lies = marks[part.mark]
        key = (part.size, tuple(f.shape for f in part.features), lies)
        if key not in known:
            known[key] = design_of(part, lies, grain)
        designs[part.mark] = known[key]
    return designs


def design_of(part: Part, marks: Marks, grain: Grain) -> Solid:
    block, shapes = described(part, marks, grain)
    solid: Solid = (block,)
    for shape in shapes:
        solid = difference(solid, shape)
    if not solid:
        raise _wrong(part.mark, told.NOTHING_DESIGNED())
    return _at_origin(solid)


def described(part: Part, marks: Marks, grain: Grain) -> tuple[IntBox, tuple[Solid, ...]]:
    """The block of a piece's wood, and what its features take away of it."""
    block = grain.block(part.size)
    shapes = (taken(part, feature, grain) for feature in part.features)
    return block, tuple(marks.told(shape, block) for shape in shapes)


def taken(part: Part, feature: Feature, grain: Grain) -> Solid:
    """What a feature takes away of its part."""
    try:
        return grain.shape(feature)
    except ValueError:
        raise _wrong(part.mark, told.NO_SHAPE(feature=feature.kind)) from None


def _at_origin(solid: Solid) -> Solid:
    x, _, y, _, z, _ = bounds(solid)
    return moved(solid, (-x, -y, -z)) if x or y or z else solid


def take_over(past: Past, stick: Past | None, event: Event) -> None:
    """A piece inherits what was done to its stick."""
    if stick is not None:
        for step, boxes, guided in stick.cleared:
            past.cleared.append((step, moved(boxes, (-event.start, 0, 0)), guided))


def _check_nothing_lost(design: Solid, past: Past, event: Event, view: View) -> None:
    """The part still has all the wood that it is to keep; what is lost is laid to its step."""
    if event.stick is None:
        if any(overlap(box, wanted) for box in event.cleared for wanted in design):
            lost = difference(design, difference(design, event.cleared))
            raise fault(event.step, event.mark, told.LOSES_WOOD(where=view.place_of(lost)))
        return
    lost = difference(design, event.solid)
    if lost:
        step = next(
            (step for step, boxes, _ in past.cleared if difference(lost, boxes) != lost), event.step
        )
        raise fault(step, event.mark, told.LOSES_WOOD(where=view.place_of(lost)))


def _check_same(
    mark: str, design: Solid, features: Sequence[Solid], past: Past, view: View
) -> None:
    lost = difference(design, _at_origin(past.sawn))
    if lost:
        raise fault(past.cleared[-1][0], mark, told.LOSES_WOOD(where=view.place_of(lost)))
    left = difference(past.sawn, design)
    if left:
        step = nearest(left, past, design)
        where = view.place_of(left)
        beside = _beside(first_of(left), past, features, step)
        if beside:
            raise fault(step, mark, told.KEEPS_WOOD_BESIDE(where=where, steps=beside))
        raise fault(step, mark, told.KEEPS_WOOD(where=where))


def nearest(left: Solid, past: Past, design: Solid) -> Step:
    """The step that the wood left over is laid to: a kerf that ends against it where the design
    has no surface, first on the axis that it is guided along (a wrong guide), then on any (a
    wrong height); else the last kerf that touches it; else the last step of all."""
    planes = [{box[2 * axis + i] for box in design for i in (0, 1)} for axis in range(3)]
    skew = {plane for bit in design if isinstance(bit, Cell) for plane, _ in bit.faces}
    ranked: dict[int, Step] = {}
    for step, bits, guided in reversed(past.cleared):
        kerf = bits[0]
        for axis, at in contacts(kerf, left):
            if isinstance(at, tuple):
                rank = 2 if at in skew or opposite(at) in skew else int(axis != guided)
            else:
                sides = {kerf[2 * guided], kerf[2 * guided + 1]}
                placed = axis == guided and not sides.isdisjoint(planes[axis])
                rank = 2 if at in planes[axis] or placed else int(axis != guided)
            ranked.setdefault(rank, step)
    if ranked:
        return ranked[min(ranked)]
    return [step for step, _, _ in past.cleared if step.setup is not None][-1]


def _beside(left: Bit, past: Past, features: Sequence[Solid], named: Step) -> tuple[Fact, ...]:
    """The other steps that cut the feature in which wood is left over."""
    inside = [shape for shape in features if not difference((left,), shape)]
    steps = {
        step.number: kind_term(step)
        for step, bits, _ in past.cleared
        if step is not named and step.setup is not None
        for shape in inside
        if any(overlap(bits[0], bit) for bit in shape)
    }
    return tuple(told.STEP(step=number, kind=kind) for number, kind in sorted(steps.items()))


def contacts(kerf: Bit, left: Solid) -> Iterator[tuple[int, Length | Plane]]:
    """Where a kerf's sides lie against what is left: the axis most nearly square to the side, and
    the place on it, or the side's plane where it is not quite square."""
    for bit in left:
        if isinstance(kerf, Cell) or isinstance(bit, Cell):
            if touch(kerf, bit):
                yield from (_contact(kerf, plane) for plane in met(kerf, bit))
            continue
        for axis in range(3):
            wide = list(kerf)
            wide[2 * axis] -= 1
            wide[2 * axis + 1] += 1
            if not overlap((wide[0], wide[1], wide[2], wide[3], wide[4], wide[5]), bit):
                continue
            if bit[2 * axis] == kerf[2 * axis + 1]:
                yield axis, bit[2 * axis]
            elif bit[2 * axis + 1] == kerf[2 * axis]:
                yield axis, kerf[2 * axis]


def _contact(kerf: Bit, plane: Plane) -> tuple[int, Length | Plane]:
    steep = [abs(n) for n in plane[:3]]
    axis = steep.index(max(steep))
    if sum(n != 0 for n in steep) > 1:
        return axis, plane
    return axis, kerf[2 * axis + 1] if plane[axis] > 0 else kerf[2 * axis]


def _check_scrap(
    blocks: Mapping[str, tuple[IntBox]], pasts: Mapping[str, Past], grain: Grain
) -> None:
    """Test pieces have no design; they come off their stick in the length and width stated."""
    for mark, (block,) in blocks.items():
        step = pasts[mark].cleared[-1][0]
        x, x1, y, y1, z, z1 = bounds(pasts[mark].sawn)
        found = (x1 - x, y1 - y, z1 - z)
        if found != block[1::2]:
            what = told.TEST_PIECE_IS(found=_size(found, grain), wanted=_size(block[1::2], grain))
            raise fault(step, mark, what)


def _size(size: Sequence[Length], grain: Grain) -> Fact:
    length, width, thickness = (grain.told(value) for value in size)
    return told.SIZE(length=length, width=width, thickness=thickness)


def first_of(solid: Solid) -> Bit:
    """The bit that comes first by place."""
    return min(solid, key=tuple)


def place_of(solid: Solid, grain: Grain) -> Fact:
    """Where the first bit of a difference is: the least box round it."""
    x, x1, y, y1, z, z1 = (grain.told(value) for value in tuple(first_of(solid))[:6])
    return told.PLACE(x=x, x1=x1, y=y, y1=y1, z=z, z1=z1)
