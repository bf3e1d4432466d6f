"""Tolerances and allowances of the saw and the joint, in inches and in millimetres.

Each has an inch and a millimetre figure, so that a shop sees numbers of its own rule; each says
where it comes from.
"""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from sequencer.lengths import Unit


class Datum(Struct, frozen=True):
    """A length in both units, with its source."""

    inch: Fraction
    mm: Fraction
    source: str

    def of(self, unit: Unit) -> Fraction:
        """The figure in `unit`.

        >>> OVERLAP.of("in"), OVERLAP.of("mm")
        (Fraction(1, 100), Fraction(1, 4))
        """
        return self.inch if unit == "in" else self.mm


def _fact(inch: str, mm: str, source: str) -> Datum:
    return Datum(Fraction(inch), Fraction(mm), source)


OVERLAP = _fact("0.010", "0.25", "ours: passes that just meet leave a fin where a kerf is thin")
FITTING = Fraction(2)
"""Minutes at the dry fit for a joint that does not go together at once: a shaving off, or a slip
glued in, and tried again; ours."""

PANEL_FIT = _fact("0.010", "0.25", "common practice: a flat panel slides in its groove by hand")
WIDTH_STEP = _fact("1/64", "0.1", "ours: a free slot, groove or panel width is kept on this step")
PANEL_STEP = _fact("1/64", "0.5", "ours: a panel is ripped to a mark of a rule")
PANEL_AIR = _fact(
    "3/64",
    "1.2",
    "ours: left at each side of a panel at its widest, for what the dry frame's width, both "
    "grooves' depth and the panel itself may be off within their windows",
)
PANEL_LOSS = _fact(
    "3/64", "1.2", "ours: what those may take of a panel's or a tongue's hold in its groove"
)
LEAST_AIR = _fact(
    "1/64",
    "0.4",
    "ours: beside boards at their widest; as near to a groove's bottom as a panel goes",
)
PANEL_BAND = _fact("1/64", "0.5", "common practice: a panel's width by a rule, either way")

FIT_BAND = _fact("0.004", "0.1", "ours: a fit is good within a quarter of 1/64 in in all")
FOLLOWED_BAND = _fact(
    "1/128",
    "0.2",
    "ours: how far a slot's or groove's width may be off, either way, where all that fits it goes "
    "by what it was measured as; as far as a shoulder's depth may be off the cheek beside it",
)
DEPTH_BAND = _fact("1/64", "0.4", "common practice: how far a depth may be off to its easy side")
DEPTH_EDGE = _fact(
    "1/128", "0.2", "ours: how far to its other side, so that a fair cut is not called bad"
)
CORNER_BAND = _fact(
    "1/128",
    "0.2",
    "ours: how far two passes may miss each other in a rebate's corner, where nothing is fitted: a "
    "line or a fin of that is pared off",
)
SHOULDER_BAND = _fact("1/64", "0.5", "common practice: shoulder to shoulder, either way")
SHOULDER_EDGE = _fact("0.002", "0.05", "ours: a shoulder that closes a corner is hardly ever under")
LENGTH_BAND = _fact("1/32", "1", "common practice: length of the first piece, either way")
STOCK_SPREAD = _fact("0.004", "0.1", "common practice: spread of thickness within one milling")
SLAB_OVER = _fact("1/64", "0.5", "ours: what a slab may be wider than planned; its gaps take it")
OPENING_BAND = _fact("1/32", "1", "common practice: a gap or a lap, either way")
LIGHT_BAND = _fact(
    "1/64", "0.5", "ours: a dry frame's opening, either way; what fills it follows beyond"
)
DIAGONAL_BAND = _fact("1/32", "1", "common practice: difference of a small door's diagonals")
CORNERS_BAND = _fact(
    "1/16", "2", "ours: either diagonal, read by a tape; what counts is that both agree"
)

CHEEK_SHORT = _fact("1/64", "0.4", "common practice: a cheek cut stays just short of the shoulder")

LAP_WALL = _fact("1/8", "3", "ours: a half-lap leaves this on both sides of plane and groove")

OVER_LEAST = _fact("1/8", "3", "CCOHS OSH Answers, table saws: blade about 3 mm over the work")
OVER_MOST = _fact("1/4", "6", "a US school's table saw rules: at most 1/4 in over the work")

SQUARING = _fact("1/2", "12", "common practice: taken off a stick's end to square it")
STICK_TAIL = _fact("1", "25", "common practice: left at a stick's end, to hold the last piece by")
RIP_ALLOWANCE = _fact("1/2", "12", "ours: a blank is wider than its stick by no thin strip")
PANEL_TAIL = _fact("1", "25", "common practice: left at a panel blank's end")

HINGE_PAIR = _fact(
    "40",
    "1000",
    "common practice: two hinges carry a leaf of this height, each more one hinge more",
)

BLANK_STEP = _fact("1/8", "5", "ours: blanks are laid out to a coarse step, upward")
STICK_LEAST = _fact(
    "15", "380", "ours: no stick is ripped shorter, to keep the hands off the blade"
)

TEST_LEAST = _fact("10", "250", "ours: no test piece is shorter, for the hands' sake")
TEST_BEYOND = _fact(
    "1/2", "12", "ours: what stands on a test piece beyond a housing, to measure its far wall from"
)
TEST_STRIP = _fact("4", "100", "ours: wide enough to stand steady, for stock as wide as panels")
TEST_WEB = _fact(
    "1/2", "12", "common practice: left between a test strip's grooves, as beside a stile's"
)
JIG_HOLD = _fact("6", "150", "ours: a tenoning jig holds at least this much of a piece")
TEST_TRIES = 3
"""Times a test piece's end may be cut off and tried again; ours."""

SLOT_LEAST, SLOT_MOST = Fraction(1, 4), Fraction(2, 5)
"""A dado set cuts slots of its own width where that is about a third of the thickness, as the joint
is gauged (Fairham, Woodwork Joints, 1921, The Bridle Joint); how far from it is ours."""

TENON_LEAST = Fraction(2, 3)
"""A tenon narrowed to suit another rail keeps at least this share of its width; ours."""

RESAWING = Datum(
    Fraction(1, 16), Fraction(3, 2), "common practice: what a band saw takes in resawing"
)
RESAWN_PLANED = Datum(
    Fraction(1, 16), Fraction(3, 2), "common practice: planed off a resawn face, which cups"
)
