"""Fins: what is left standing between two passes when the kerf is a hair thinner than measured.

The plan is sawn again with every kerf that much thinner. The skin that this leaves along a wall is
within the fit; wood with both its sides free is a fin, or waste that did not come away.
"""

from __future__ import annotations

from sequencer.plan import Plan, Step
from sequencer.proof.compare import Past, contacts, described, designs_of, place_of, take_over
from sequencer.proof.follow import Made, fault, follow
from sequencer.proof.grain import HAIR, Grain
from sequencer.proof.solid import IntBox, Solid, difference, subtract


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
    known: dict[tuple[Solid, Solid, tuple[IntBox, ...]], Solid] = {}
    for part in plan.parts:
        past, design = pasts[part.mark], designs[part.mark]
        features = described(part, grain)[1]
        key = (past.sawn, design, features)
        if key not in known:
            known[key] = _fins(difference(past.sawn, design), features, hair)
        fins = known[key]
        if fins:
            where = place_of(fins, grain)
            what = f"with a kerf {HAIR[plan.unit]} thinner wood is left standing: {where}"
            raise fault(_beside(fins, past), part.mark, what)


def _beside(fins: Solid, past: Past) -> Step:
    """The last step with a kerf that has a fin at its side, else the last of all."""
    for step, boxes, guided in reversed(past.cleared):
        if any(axis == guided for axis, _ in contacts(boxes[0], fins)):
            return step
    return past.cleared[-1][0]


def _fins(left: Solid, features: tuple[IntBox, ...], hair: int) -> Solid:
    """Of what is left over, all but skin: what lies within a hair of a side of a feature that it
    is in."""
    for low_x, high_x, low_y, high_y, low_z, high_z in features:
        lows, highs = (low_x, low_y, low_z), (high_x, high_y, high_z)
        for axis in range(3):
            for low, high in (
                (lows[axis], lows[axis] + hair),
                (highs[axis] - hair, highs[axis]),
            ):
                skin = [low_x, high_x, low_y, high_y, low_z, high_z]
                skin[2 * axis : 2 * axis + 2] = low, high
                left = subtract(left, (skin[0], skin[1], skin[2], skin[3], skin[4], skin[5]))
    return left
