"""What is measured, in words: good from where to where, and what to turn when it is not."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise

from msgspec import Struct

from sequencer.facts import Length, measures
from sequencer.instructions.figures import Figure, Scale
from sequencer.instructions.spent import spends
from sequencer.plan import Checkpoint, Plan
from sequencer.records import replace
from sequencer.saw.fittings import SPACER
from sequencer.saw.measures import FELT, What
from sequencer.wording import benches, saws
from sequencer.wording.measures import measure_words
from sequencer.wording.tools import READ_BY

SERIES = 3
"""So many of a kind stand in a table."""


class MeasureLine(Struct, frozen=True):
    """One thing to measure. `marks` are what it is measured on, where the step measures more than
    one leaf or piece; `corrections` what to do, empty at the bench; `target` `None` where only a
    limit is wanted. `tool` says with what it is read; `by_fit`, that no number is, and so none
    written; `as_measured`, what it is good as, by what it refers to; empty where that is
    nothing."""

    name: str
    target: Figure | None
    low: str
    high: str
    unit: str
    tool: str
    by_fit: bool
    feel: str
    marks: tuple[str, ...]
    corrections: str
    as_measured: str
    blank: str
    """What stands before the one blank, where marks do not."""


class CheckBox(Struct, frozen=True):
    """The measures taken at one step, before the next may be begun. `scrap` is the test piece,
    `how` it is cut; both are empty where good wood is measured. `series` are many of one kind, as
    the heights of a curve, which stand in a table."""

    step: int
    scrap: str
    how: str
    before: int
    measures: tuple[MeasureLine, ...]
    series: tuple[MeasureLine, ...] = ()
    once: bool = False
    """Whether one check cut is meant, where settings are known."""

    @property
    def few(self) -> bool:
        """Whether so little is written in each row of the series that its name may be wider."""
        return all(len(measure.marks) < 3 for measure in self.series)


def check(
    points: Sequence[Checkpoint],
    how: str,
    scale: Scale,
    checks: Sequence[Checkpoint] = (),
    along: bool = False,
    done_to: Sequence[str] = (),
) -> CheckBox:
    """The points of one step; there is at least one. They may refer to others of `checks`. `along`:
    they are cut along a strip, and at no end. What a step at the bench is `done_to` may be more
    than is measured: then it is told of what."""
    many, rest = in_series(points)
    several = len({*done_to, *(mark for point in points for mark in point.marks)}) > 1
    series = tuple(_measure(point, scale, checks, along, several) for point in many)
    measures = [_measure(point, scale, checks, along, several) for point in rest]
    feels = [measure.feel for measure in measures]
    for at, feel in enumerate(feels[:-1]):
        if feel == feels[at + 1]:
            measures[at] = replace(measures[at], feel="")
    return CheckBox(
        step=points[0].at_step,
        scrap=points[0].scrap or "",
        how=how,
        before=points[0].before_step,
        measures=tuple(measures),
        series=series,
    )


def by_gap(point: Checkpoint, plan: Plan) -> Checkpoint:
    """Of the gap between boards, the check with neighbours that it is between in place of all its
    boards: a blank for each gap. Any other as it is."""
    if point.measure.what is not What.BOARD_GAP:
        return point
    body = {
        part.mark: feature.box[1][0]
        for part in plan.parts
        for feature in part.features
        if feature.at == "outside-edge"
    }  # without its tongue; the last of a light has none
    between = tuple(
        f"{place.mark}–{after.mark}"
        for door in plan.doors
        for place, after in pairwise(p for p in door.places if p.mark in point.marks)
        if place.mark in body
        and after.origin[0] - place.origin[0] - body[place.mark] == point.exact
    )
    return replace(point, marks=between or point.marks)


def _kind(point: Checkpoint) -> tuple[What, str]:
    """What is measured, and where, whichever of several it is."""
    return point.measure.what, point.measure.place


def in_series(points: Sequence[Checkpoint]) -> tuple[list[Checkpoint], list[Checkpoint]]:
    """Those measures of a step at the bench of which there are many of a kind, and the rest."""
    counts = Counter(_kind(point) for point in points if point.knob is None)
    many = {kind for kind, count in counts.items() if count >= SERIES}
    return (
        [point for point in points if _kind(point) in many],
        [point for point in points if _kind(point) not in many],
    )


def _measure(
    point: Checkpoint, scale: Scale, checks: Sequence[Checkpoint], along: bool, several: bool
) -> MeasureLine:
    room = scale.room
    limit_only = not point.target and not point.low
    return MeasureLine(
        name=measure_words(point.measure, room),
        target=None if limit_only else scale.aimed(point.target, point.resolution),
        low="" if limit_only else scale.read(point.low, point.resolution),
        high=scale.read(point.high, point.resolution),
        unit=scale.unit,
        tool=_read_by(point, scale),
        by_fit=point.tool == "fit",
        feel=room.sentence(point.feel),
        marks=point.marks if several else (),
        corrections=corrections(point, scale, along),
        as_measured=_as_measured(point, checks, scale) if point.after else "",
        blank=room.text(benches.IS),
    )


def _read_by(point: Checkpoint, scale: Scale) -> str:
    if point.by_eye:
        return scale.room.say(measures.BY_EYE(target=Length(point.target, scale.unit)))
    return scale.room.text(READ_BY[point.tool]) if point.tool else ""


def _as_measured(point: Checkpoint, checks: Sequence[Checkpoint], scale: Scale) -> str:
    """The one sum by which it is good, whatever the others were measured as."""
    room = scale.room
    added, taken, rest = list[str](), list[str](), point.target
    for n, share in point.refers:
        other = checks[n]
        rest -= share * other.target
        what = measure_words(other.measure, room)
        said = room.text(benches.SUMMED[abs(share)], what=what)
        if other.knob is None:
            said = room.text(benches.MIDDLE_OF, strip=other.marks[0])
        (added if share > 0 else taken).append(said)
    if rest:
        (added if rest > 0 else taken).append(scale.read(abs(rest), point.resolution))
    steps = dict.fromkeys(str(checks[n].at_step) for n in point.after)
    return room.text(
        benches.AS_MEASURED,
        steps=tuple(steps),
        sum=" − ".join((" + ".join(added), *taken)),
    )


def corrections(point: Checkpoint, scale: Scale, along: bool = False) -> str:
    """Which way and how far the knob goes when the measure is too great or too small, or the fit
    that is tried by hand too tight or too loose: then by a paper's thickness, the least that is
    felt.

    The number of fence, stop and jig grows away from the blade, that of the height upward. Where
    the one or the other means that too much is gone, a test piece is cut at a fresh end, or if it
    was cut `along`, a fresh strip.
    """
    if point.knob is None or not point.per_unit:
        return ""
    room = scale.room
    felt = FELT.get(point.measure.what) if point.tool == "fit" else None
    by = _share(abs(1 / point.per_unit), _BY_PAPER if felt else _BY_DIFFERENCE, scale)
    shrinks = point.per_unit * (-felt if felt else 1) > 0
    grows, less = (_FELT if felt else _READ)[point.knob if point.knob in _READ else ""]
    text = less if shrinks else grows
    ends = benches.NEW_ENDS if point.measure.what is What.SHOULDERS else benches.NEW_END
    fresh = room.text(benches.NEW_STRIP if along else ends) if point.scrap else ""
    spent = spends(point, point.high + 1)
    return room.text(
        text,
        knob=saws.knob(point.knob, room),
        by=by,
        more=fresh if spent and not felt else "",
        less=fresh if not spent or felt else "",
    )


_READ = {
    "height": (benches.RAISE, benches.LOWER),
    SPACER: (benches.THICKER, benches.THINNER),
    "": (benches.AWAY, benches.TOWARD),
}
"""What is turned where too much is measured, so that the knob's number grows, or shrinks; under no
name, whatever else sets a guide."""

_FELT = {
    "height": (benches.TIGHT_RAISE, benches.TIGHT_LOWER),
    SPACER: (benches.TIGHT_THICKER, benches.TIGHT_THINNER),
    "": (benches.TIGHT_AWAY, benches.TIGHT_TOWARD),
}
"""The same of a fit that is tried by hand, where it is too tight."""

_BY_DIFFERENCE = (benches.BY_DIFFERENCE, benches.BY_HALF, benches.BY_SHARE)
_BY_PAPER = (benches.BY_PAPER, benches.BY_HALF_PAPER, benches.BY_SHARE_OF_PAPER)


def _share(factor: Fraction, texts: tuple[str, str, str], scale: Scale) -> str:
    whole, half, share = texts
    if factor == 1:
        return scale.room.text(whole)
    if factor == Fraction(1, 2):
        return scale.room.text(half)
    return scale.room.text(share, share=scale.decimal(factor))
