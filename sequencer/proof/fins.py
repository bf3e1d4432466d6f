"""Fins: what is left standing between two passes when the kerf is a hair thinner than measured.

The plan is sawn again with every kerf that much thinner. The skin that this leaves along a wall is
within the fit; wood with both its sides free is a fin, or waste that did not come away.
"""

from __future__ import annotations

from sequencer.facts import proofs as told
from sequencer.plan import Plan, Step
from sequencer.proof.cells import Cell, Length, plane_of, planes_of, split, tidy
from sequencer.proof.compare import (
    Past,
    View,
    bench_shape,
    contacts,
    described,
    designs_of,
    take_over,
)
from sequencer.proof.follow import Made, fault, follow
from sequencer.proof.grain import HAIR, Grain
from sequencer.proof.hands import in_hand
from sequencer.proof.solid import Solid, difference, subtract


def check_no_fins(plan: Plan, grain: Grain, made: Made = frozenset()) -> None:
    """Raises InternalError that names step, piece and place of the first fin. The plan is one
    that `saw_and_compare` has let through. Cuts that are `made` were seen to leave none."""
    hair = grain.of(HAIR[plan.unit])
    designs = designs_of(plan, grain)
    pasts: dict[str, Past] = {}
    for event in follow(plan, grain, hair, made):
        past = pasts.setdefault(event.mark, Past())
        if event.stick is not None:
            take_over(past, pasts.get(event.stick), event)
        past.cleared.append((event.step, event.cleared, event.guided))
        if event.at_saw:
            past.sawn = event.solid
    marks = in_hand(plan)
    known: dict[tuple[Solid, Solid, tuple[Solid, ...]], Solid] = {}
    for part in plan.parts:
        past, design = pasts[part.mark], designs[part.mark]
        view = View.of(part, marks, grain)
        features = described(part, view.marks, grain)[1]
        key = (past.sawn, design, features)
        if key not in known:
            left = difference(difference(past.sawn, bench_shape(part, view.marks, grain)), design)
            known[key] = _fins(left, features, hair)
        fins = known[key]
        if fins:
            what = told.FIN_STANDS(hair=grain.told(hair), where=view.place_of(fins))
            raise fault(_beside(fins, past), part.mark, what)


def _beside(fins: Solid, past: Past) -> Step:
    """The last step with a kerf that has a fin at its side, else the last of all."""
    for step, boxes, guided in reversed(past.cleared):
        if any(axis == guided for axis, _ in contacts(boxes[0], fins)):
            return step
    return past.cleared[-1][0]


def _fins(left: Solid, features: tuple[Solid, ...], hair: int) -> Solid:
    """Of what is left over, all but skin: what lies within a hair of a side of a feature that it
    is in."""
    for bit in (bit for shape in features for bit in shape):
        if isinstance(bit, Cell):
            left = _skinned(left, bit, hair)
            continue
        for axis in range(3):
            low, high = bit[2 * axis], bit[2 * axis + 1]
            for ends in ((low, low + hair), (high - hair, high)):
                skin: list[Length] = list(bit)
                skin[2 * axis : 2 * axis + 2] = ends
                left = subtract(left, (skin[0], skin[1], skin[2], skin[3], skin[4], skin[5]))
    return left


def _skinned(left: Solid, feature: Cell, hair: int) -> Solid:
    """What of the left over is not within a hair of a side of the feature, measured along the axis
    that is most nearly square to that side: the one that a blade cutting it is guided along."""
    for a, b, c, d in planes_of(feature):
        inner = plane_of((-a, -b, -c), hair * max(abs(a), abs(b), abs(c)) - d)
        skin, _ = split(feature, inner)
        if skin is not None:
            left = subtract(left, tidy(skin))
    return left
