"""What a kind of fill answers."""

from __future__ import annotations

from dataclasses import dataclass

from sequencer.plan import Order, Pane, Part, Place


@dataclass(frozen=True, slots=True)
class Filled:
    """The parts that fill a leaf's lights, their places in the door, and what others make."""

    parts: tuple[Part, ...]
    places: tuple[Place, ...]
    panes: tuple[Pane, ...] = ()
    orders: tuple[Order, ...] = ()
