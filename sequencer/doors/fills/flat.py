"""Flat floating panels: one a light, with play on all sides."""

from __future__ import annotations

from collections.abc import Sequence

from sequencer.doors.fills.model import Filled, Fitting
from sequencer.doors.leaf import Light
from sequencer.facts import parts as called
from sequencer.job.schema import Door
from sequencer.plan import Part, Place, Size


def flat_panels(
    spec: Door, mark: str, first: int, lights: Sequence[Light], fitting: Fitting
) -> Filled:
    """Each panel stands in the middle of its light and of the groove's width."""
    sizes = fitting.sizes
    side = sizes.groove_depth - spec.panel.play_side
    end = sizes.groove_depth - spec.panel.play_end
    behind = sizes.groove[0] + (sizes.groove[1] - sizes.groove[0] - sizes.panel) / 2
    parts: list[Part] = []
    places: list[Place] = []
    for number, light in enumerate(lights, first):
        size = Size(light.height + 2 * end, light.width + 2 * side, sizes.panel)
        name = (
            called.NAMED(name="panel")
            if len(lights) == 1
            else called.NUMBERED(name="panel", n=number - first + 1)
        )
        part = Part(f"{mark}{number}", mark, "panel", name, spec.panel.species, size, ())
        origin = (light.left - side, light.bottom + light.height + end, behind)
        parts.append(part)
        places.append(Place(part.mark, origin, ("-y", "+x", "+z")))
    return Filled(tuple(parts), tuple(places))
