"""How far a saw and a person are off, in inches and in millimetres, until a shop's own figures are
known. What is normal is told by one sigma, what is rectangular by its half width.
"""

from __future__ import annotations

from fractions import Fraction

from sequencer.lengths import Unit
from sequencer.trade.fits import Datum
from sequencer.trade.tools import ToolName


def _fact(inch: str, mm: str, source: str) -> Datum:
    return Datum(Fraction(inch), Fraction(mm), source)


PASS = _fact(
    "0.0012",
    "0.03",
    "ours: one sigma of where a pass goes against a fence, stop or jig; no figure is published, by "
    "eye to a pencil mark it is 0.2 mm (ten cuts, published by a maker)",
)
SIGMAS = 3
"""As far as a normal error is taken to go in the worst case, in sigmas: one in 370 lies beyond, and
of several together next to none. Ours; the usual span of a process in worst-case stacking."""

CALIPER = _fact(
    "0.0008",
    "0.02",
    "DIN 862: error limit of a caliper with a digital step of 0.01 mm, up to 300 mm; rectangular, "
    "as JCGM 100:2008, 4.3.7, takes a limit of which no more is known",
)
RULE = _fact(
    "1/128",
    "0.25",
    "common practice: a rule or tape is read to its nearest mark, and so is wrong by half a step; "
    "here one of 1/64 in or 0.5 mm, where a plan does not say",
)
FEEL = _fact("0.002", "0.05", "ours: what a hand tells of a fit")
THICKNESS = _fact(
    "0.0012", "0.03", "ours: one sigma of thickness within one milling, before it is measured"
)
SCALE = _fact(
    "0.006", "0.15", "ours: one sigma of a fence, stop, jig or height first set by its scale"
)
MOVE = _fact("0.002", "0.05", "ours: one sigma of a setting that is moved by a printed distance")


def misread(tool: ToolName, resolution: Fraction, unit: Unit) -> Fraction:
    """How far what a tool reads in steps of `resolution` may be wrong, either way; of a fit, how
    far it may be and not be felt."""
    match tool:
        case "rule" | "tape":
            return resolution / 2
        case "caliper":
            return max(CALIPER.of(unit), resolution / 2)
        case "fit":
            return FEEL.of(unit)
