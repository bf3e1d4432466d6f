"""Meeting stiles rebated over each other: what the bench takes off both leaves, once they are
planed flush.

The right leaf lies in front and opens first: it loses the back half of its thickness along its
meeting edge, the left one the front half.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from sequencer.doors.measure import ZERO, Frame
from sequencer.job.schema import Door
from sequencer.plan import Box, Feature, Part, Place, Removal, Span


def rebated(
    spec: Door, frame: Frame, parts: Sequence[Part], places: Sequence[Place], thickness: Fraction
) -> tuple[Removal, ...]:
    """Of every frame part that reaches into the rebate, in the order of their marks."""
    if not spec.meeting_rebate:
        return ()
    half = thickness / 2
    if frame.hinge == "left":
        across, through = (frame.width - spec.meeting_rebate, frame.width), (ZERO, half)
    else:
        across, through = (ZERO, spec.meeting_rebate), (half, thickness)
    whole = (across, (ZERO, frame.height), through)
    by_mark = {place.mark: place for place in places}
    found: list[Removal] = []
    for part in parts:
        box = _in_part(part, by_mark[part.mark], whole)
        if box is not None and not any(_within(box, feature) for feature in part.features):
            found.append(Removal(part.mark, box))
    return tuple(found)


def _within(box: Box, feature: Feature) -> bool:
    """Whether a joint has taken all of it before."""
    spans = zip(box, feature.box, strict=True)
    return feature.prism is None and all(f[0] <= b[0] and b[1] <= f[1] for b, f in spans)


def _in_part(part: Part, place: Place, box: Box) -> Box | None:
    """What of a box in the door's frame lies in the part, in the part's; `None`: nothing."""
    size = part.size
    found: list[Span] = []
    for axis, most in zip(place.axes, (size.length, size.width, size.thickness), strict=True):
        number = "xyz".index(axis[1])
        ends = [(end - place.origin[number]) * (1 if axis[0] == "+" else -1) for end in box[number]]
        low, high = max(min(ends), ZERO), min(max(ends), most)
        if low >= high:
            return None
        found.append((low, high))
    return (found[0], found[1], found[2])
