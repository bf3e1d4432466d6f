"""Glass: a pane a light in the frame's rebate, and the loose stops behind it, all to order."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from sequencer.doors.fills.model import Filled, Fitting
from sequencer.doors.leaf import Light
from sequencer.errors import Refusal
from sequencer.job.checked import say
from sequencer.job.facts import lengths
from sequencer.job.kinds import Glazed
from sequencer.job.schema import Door
from sequencer.plan import Order, Pane
from sequencer.trade.glass import sold_as


def panes(spec: Door, mark: str, first: int, lights: Sequence[Light], fitting: Fitting) -> Filled:
    """Each pane lies in the middle of its rebate, against the rebate's front. Raises `Refusal`
    where pane and stop are thicker than the rebate is deep."""
    glass = spec.fill
    assert isinstance(glass, Glazed)
    sizes = fitting.sizes
    room = _room(spec, glass, fitting)
    front = sizes.groove[0]
    reach = sizes.groove_depth - glass.under / 2
    made: list[Pane] = []
    orders: list[Order] = []
    sold = sold_as(glass.thickness, fitting.unit)
    note = "measure the dry frame before ordering" + (f"; sold as {sold} glass" if sold else "")
    for number, light in enumerate(lights, first):
        width, height = light.width + 2 * reach, light.height + 2 * reach
        left, bottom = light.left - reach, light.bottom - reach
        across, up = (left, left + width), (bottom, bottom + height)
        made.append(Pane(f"{mark}{number}", (across, up, (front, front + glass.thickness))))
        orders.append(Order(f"pane {mark}{number}", 1, (width, height, glass.thickness), note))
        orders += _stops(light, sizes.groove_depth, room)
    return Filled((), (), tuple(made), tuple(orders))


def _room(spec: Door, glass: Glazed, fitting: Fitting) -> Fraction:
    """How thick a stop may be behind the pane."""
    unit, least = fitting.unit, lengths(fitting.unit)["limits.least_stop"]
    deep = fitting.sizes.thickness - fitting.sizes.groove[0]
    room = deep - glass.thickness
    if room < least:
        raise Refusal(
            f"{spec.where}: behind a pane {say(glass.thickness, unit)} thick the rebate, "
            f"{say(deep, unit)} deep, leaves {say(max(room, Fraction(0)), unit)} for a stop; it "
            f"takes {say(least, unit)}: thicker stock by {say(least - room, unit)}, a slot that "
            "begins nearer the show face ([joint] offset or slot), or thinner glass"
        )
    return room


def _stops(light: Light, width: Fraction, room: Fraction) -> list[Order]:
    """Four to a light, as long as the rebate, to be mitred into each other."""
    note = "moulding, no thicker and no wider; screwed, not glued, so that the glass comes out"
    return [
        Order("glass stop", 2, (along + 2 * width, width, room), note)
        for along in (light.width, light.height)
    ]
