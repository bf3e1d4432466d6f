"""Block and spacer strips at full size: as wide as a guide stands from the blade, and as far as it
moves from setup to setup. What is longer than a page is set by the story stick, not by a block."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from sequencer.instructions.figures import Scale
from sequencer.plan import Plan
from sequencer.sheets.fullsize.paper import TILE, Drawing
from sequencer.wording import fullsize, saws

_HIGH = 12.0


def block_strips(plan: Plan, scale: Scale) -> Iterator[Drawing]:
    """A strip for each distance from guide to blade, with the setups that it sets."""
    found: dict[tuple[str, Fraction], list[str]] = {}
    for setup in plan.setups:
        if setup.stands:
            knob = plan.shop.guide_knob(setup.carrier)
            found.setdefault((knob, setup.stands), []).append(str(setup.number))
    for (knob, wide), setups in sorted(found.items(), key=lambda item: (item[0][0], item[0][1])):
        name = scale.room.text(
            fullsize.BLOCK, setups=tuple(setups), knob=saws.knob(knob, scale.room),
            length=scale.told(wide),
        )  # fmt: skip
        yield from _strip(name, wide, scale)


def spacer_strips(plan: Plan, scale: Scale) -> Iterator[Drawing]:
    """A strip for each move of a guide from where it was set last."""
    stood: dict[str, int] = {}
    for setup in plan.setups:
        if setup.guide is None:
            continue
        knob = plan.shop.guide_knob(setup.carrier)
        if setup.move and knob in stood:
            name = scale.room.text(
                fullsize.SPACER, before=str(stood[knob]), after=str(setup.number),
                knob=saws.knob(knob, scale.room), length=scale.told(setup.move),
            )  # fmt: skip
            yield from _strip(name, abs(setup.move), scale)
        stood[knob] = setup.number


def _strip(name: str, wide: Fraction, scale: Scale) -> Iterator[Drawing]:
    mm = float(wide) * (25.4 if scale.unit == "in" else 1.0)
    if mm <= TILE[0]:
        shape = (
            f'<path d="M0,0H{mm:.3f}V{_HIGH:g}H0Z" fill="none" stroke="#000" stroke-width="0.2"/>'
        )
        yield Drawing(name, mm, _HIGH, (shape,))
