"""Housings: trenches across the grain, between two shoulders, flat on the sled.

The shoulder nearer to an end is cut at its own stop setting, measured from that end; then the far
one, and from there the waste between is nibbled away up to the first. Housings in face and back
that lie opposite and are equally deep are cut at the same settings.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from msgspec import Struct

from sequencer.cuts.context import Context, exactly
from sequencer.cuts.model import Operation, ScrapTest
from sequencer.errors import Refusal
from sequencer.facts import feels, sequences
from sequencer.plan import Against, Cut, Down, Feature, Part
from sequencer.records import replace
from sequencer.saw.measures import Measure, What
from sequencer.saw.operation import OperationId
from sequencer.trade import fits


class _Housing(Struct, frozen=True):
    """`name` is all of its operations' but the pass; `faces` are those it is cut from; `near` and
    `far` its shoulders, from the end that lies `against` the stop."""

    name: OperationId
    faces: tuple[Down, ...]
    against: Against
    near: Fraction
    far: Fraction
    depth: Fraction

    @property
    def width(self) -> Fraction:
        return self.far - self.near


def named(part: Part, feature: Feature) -> OperationId:
    """What the operations of a housing are called, whichever face it is in."""
    return OperationId(part.mark, "housing", (feature.mate or "").replace("/", ""))


def furthest(part: Part) -> Fraction:
    """How far from an end of the part the furthest shoulder of a housing is."""
    found = (_from_end(part, f)[2] for f in part.features if f.kind == "housing")
    return max(found, default=Fraction(0))


def cut_housings(part: Part, scrap: str, context: Context) -> Iterator[Operation]:
    """Every housing of a part, each in two operations. Raises `Refusal` where two lie in one
    place."""
    for housing in _housings(part):
        yield from _cut(part, housing, scrap, context)


def _housings(part: Part) -> Iterator[_Housing]:
    found: dict[OperationId, list[Feature]] = {}
    for feature in part.features:
        if feature.kind == "housing":
            found.setdefault(named(part, feature), []).append(feature)
    _apart(part, found)
    for named_alike, both in found.items():
        against, near, far = _from_end(part, both[0])
        alike = len({(feature.box[0], _depth(feature)) for feature in both}) == 1
        if alike:
            faces = tuple(_face(feature) for feature in both)
            yield _Housing(named_alike, faces, against, near, far, _depth(both[0]))
            continue
        for feature in both:
            name = replace(named_alike, side=feature.at)
            against, near, far = _from_end(part, feature)
            yield _Housing(name, (_face(feature),), against, near, far, _depth(feature))


def _face(feature: Feature) -> Down:
    return "face" if feature.at == "face" else "back"


def _depth(feature: Feature) -> Fraction:
    return feature.box[2][1] - feature.box[2][0]


def _from_end(part: Part, feature: Feature) -> tuple[Against, Fraction, Fraction]:
    """The nearer end, and both shoulders from there."""
    low, high = feature.box[0]
    length = part.size.length
    if low + high <= length:
        return ("end-A", low, high)
    return ("end-B", length - high, length - low)


def _apart(part: Part, found: dict[OperationId, list[Feature]]) -> None:
    features = [feature for both in found.values() for feature in both]
    for one in features:
        for other in features:
            (low, high), (start, end) = one.box[0], other.box[0]
            if one.mate != other.mate and low < end and start < high:
                bars = sorted((one.mate_mark, other.mate_mark))
                raise Refusal(sequences.HOUSINGS_MEET(mark=part.mark, bars=tuple(bars)))


def _cut(part: Part, housing: _Housing, scrap: str, context: Context) -> Iterator[Operation]:
    passes = context.nibbles(housing.width) * len(housing.faces)
    depth = _depth_test(part, housing, scrap, context)
    band = context.fact(fits.SHOULDER_BAND)
    to_near = Measure(What.TO_HOUSING)
    place = context.within(band, to_near, housing.near, 1, feels.HOOK_A_RULE(), scrap)
    width = context.fit(
        Measure(What.HOUSING_WIDTH),
        housing.width,
        1,
        feels.HOUSING_FITS(),
        scrap,
    )

    def made(made_by: str, guide: Fraction, test: ScrapTest, back: Fraction | None) -> Operation:
        return Operation(
            name=replace(housing.name, made_by=made_by),
            kind="housing",
            mark=part.mark,
            setting=context.partial("crosscut-sled", guide, exactly(housing.depth), test, depth),
            cuts=tuple(
                Cut(part.mark, face, housing.against, None, sweep=back is not None, back=back)
                for face in housing.faces
            ),
            minutes=passes * context.shop.minutes.nibble if back is not None else Fraction(0),
        )

    yield made("near", housing.near, place, None)
    yield made("far", housing.far - context.kerf, width, housing.width)


def _depth_test(part: Part, housing: _Housing, scrap: str, context: Context) -> ScrapTest:
    """Of both faces together, what stands between them; of one, what is left under it."""
    thickness = part.size.thickness
    if len(housing.faces) == 2:
        measure, target, per_unit = Measure(What.TONGUE), thickness - 2 * housing.depth, -2
        feel = feels.TONGUE_FITS(into=feels.OTHER_PIECE())
    else:
        measure, target, per_unit = Measure(What.UNDER_HOUSING, housing.faces[0]), thickness, -1
        target -= housing.depth
        feel = feels.UNDER_HOUSING()
    half = context.fact(fits.FIT_BAND) / 2
    return ScrapTest(
        "height", measure, target, target - half, target + half, Fraction(per_unit), feel, scrap
    )
