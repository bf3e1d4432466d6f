"""When a look at the first piece does in place of a cut on scrap."""

from __future__ import annotations

from fractions import Fraction

from sequencer.job.schema import Minutes
from sequencer.plan import Span
from sequencer.scales import Scale

LOOK = Fraction(1, 2)
"""Of a check cut's minutes: what it takes to measure the first piece, without cutting scrap; ours.
"""

LEAST_KNOWN = 3
"""Readings of a scale below which nothing is left to a look at the first piece; ours."""

MOST_SPOILED, MOST_AGAIN = 1 / 200, 1 / 40
"""Chances of too deep and of not deep enough, beyond which scrap is cut in any case; ours."""

SPOILED = Fraction(30)
"""Minutes that a piece costs which was cut too deep: wood, settings, all cuts anew; ours."""


def looks_do(scale: Scale, span: Span, number: Fraction, minutes: Minutes) -> bool:
    """Whether a depth of `number`, good within `span`, is set by the scale so surely that only the
    piece itself is looked at: Deming's rule (Out of the Crisis, ch. 15), that what is inspected is
    all or nothing, as the chance of a miss times what it costs is more or less than the check.

    Too little costs dialling in, on the piece as on scrap; too much spoils the piece.
    """
    if scale.count < LEAST_KNOWN:
        return False
    little, much = scale.beyond(span[0], number, span[1])
    if much > MOST_SPOILED or little > MOST_AGAIN:
        return False
    cut, again = float(minutes.check_cut), float(minutes.test_cut)
    looked = float(LOOK) * cut + little * again + much * float(SPOILED)
    return looked < cut + (little + much) * again
