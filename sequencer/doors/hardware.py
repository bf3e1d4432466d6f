"""What is bought to hang a leaf: hinges, pull, catch."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.doors.leaf import Leaf
from sequencer.facts import parts
from sequencer.lengths import Unit
from sequencer.plan import Order
from sequencer.trade import fits


def hinges_of(leaf: Leaf, unit: Unit) -> int:
    """As many as the job says, else two, and one more for each further height that two carry."""
    stated = leaf.spec.hardware.hinges
    if stated is not None:
        return stated
    further = -(-leaf.door.size[1] // fits.HINGE_PAIR.of(unit)) - 1
    return 2 + max(0, int(further))


def hardware(leaf: Leaf, unit: Unit) -> Iterator[Order]:
    """Of a pair, its first leaf takes the catch."""
    asked = leaf.spec.hardware
    yield Order(parts.BOUGHT(what=asked.hinge), hinges_of(leaf, unit))
    yield Order(parts.BOUGHT(what=asked.pull), 1)
    if asked.catch is not None and leaf.door.mark == leaf.spec.marks[0]:
        yield Order(parts.BOUGHT(what=asked.catch), 1)
