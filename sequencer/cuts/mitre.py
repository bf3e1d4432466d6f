"""Mitred shoulders: all beyond a line at 45° is nibbled away to a depth, flat on the mitre sled."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from sequencer.cuts.context import Context, exactly
from sequencer.cuts.model import Operation, ScrapTest
from sequencer.facts import feels
from sequencer.plan import Cut, Feature, Part
from sequencer.saw.measures import Measure, What
from sequencer.saw.operation import OperationId
from sequencer.trade import fits

SLANT = Fraction(29, 41)
"""A little over 1/√2: how far the waste's corner is from the line, in parts of its legs."""


def cut_mitres(part: Part, scrap: str, context: Context) -> Iterator[Operation]:
    """The mitred shoulders of a part, which lies face down with its outside edge on the fence."""
    for feature in part.features:
        if feature.kind == "mitre":
            start = _start(part, feature)
            depth = feature.box[2][1]
            waste = SLANT * (start + part.size.width)
            yield Operation(
                name=OperationId(part.mark, "mitre", feature.at),
                kind="mitre",
                mark=part.mark,
                setting=context.partial(
                    "mitre-sled", start, exactly(depth), *_tests(start, depth, scrap, context)
                ),
                cuts=(
                    Cut(
                        part.mark,
                        "face",
                        "end-A" if feature.at == "A" else "end-B",
                        None,
                        sweep=True,
                    ),
                ),
                minutes=context.nibbles(waste) * context.shop.minutes.nibble,
            )


def _start(part: Part, feature: Feature) -> Fraction:
    """Where the line crosses the outside edge, from its end."""
    low, high = feature.box[0]
    return high - low - part.size.width


def _tests(
    start: Fraction, depth: Fraction, scrap: str, context: Context
) -> tuple[ScrapTest, ScrapTest]:
    band = context.fact(fits.SHOULDER_BAND)
    line = ScrapTest(
        "guide", Measure(What.TO_MITRE), start, start - band,
        start + band, Fraction(1),
        feels.MITRE_LINES(), scrap,
    )  # fmt: skip
    # Slot and tenon meet the same plane: it is a fit, either way.
    half = context.fact(fits.FIT_BAND) / 2
    plane = ScrapTest(
        "height", Measure(What.MITRE_DEPTH), depth, depth - half, depth + half, Fraction(1),
        feels.MITRE_LAID_BARE(), scrap,
    )  # fmt: skip
    return line, plane
