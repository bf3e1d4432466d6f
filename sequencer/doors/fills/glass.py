"""Glass: a pane a light in the frame's rebate, and the loose stops behind it, all to order."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from sequencer.doors.fills.model import Filled, Fitting
from sequencer.doors.leaf import Light
from sequencer.errors import Refusal
from sequencer.facts import Length, parts
from sequencer.job.defaults import lengths
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
    note = parts.ORDER_PANE(sold=sold or None)
    for number, light in enumerate(lights, first):
        width, height = light.width + 2 * reach, light.height + 2 * reach
        left, bottom = light.left - reach, light.bottom - reach
        across, up = (left, left + width), (bottom, bottom + height)
        made.append(Pane(f"{mark}{number}", (across, up, (front, front + glass.thickness))))
        pane = parts.PANE(mark=f"{mark}{number}")
        orders.append(Order(pane, 1, (width, height, glass.thickness), note))
        orders += _stops(light, sizes.groove_depth, room)
    return Filled((), (), tuple(made), tuple(orders))


def _room(spec: Door, glass: Glazed, fitting: Fitting) -> Fraction:
    """How thick a stop may be behind the pane."""
    unit, least = fitting.unit, lengths(fitting.unit)["limits.least_stop"]
    deep = fitting.sizes.thickness - fitting.sizes.groove[0]
    room = deep - glass.thickness
    if room < least:
        raise Refusal(
            parts.NO_ROOM_FOR_STOP(
                where=spec.where,
                pane=Length(glass.thickness, unit),
                deep=Length(deep, unit),
                room=Length(max(room, Fraction(0)), unit),
                least=Length(least, unit),
                more=Length(least - room, unit),
            )
        )
    return room


def _stops(light: Light, width: Fraction, room: Fraction) -> list[Order]:
    """Four to a light, as long as the rebate, to be mitred into each other."""
    return [
        Order(parts.STOP(), 2, (along + 2 * width, width, room), parts.ORDER_STOP())
        for along in (light.width, light.height)
    ]
