"""What a finished leaf is held to, in inches and in millimetres, each with its source."""

from __future__ import annotations

from fractions import Fraction

from sequencer.trade.fits import Datum


def _fact(inch: str, mm: str, source: str) -> Datum:
    return Datum(Fraction(inch), Fraction(mm), source)


NOUGHT = _fact("0", "0", "ours: nothing may bind, stand open or come out")

JOINT_AIR = _fact(
    "0.010",
    "0.25",
    "a US university's wood laboratory, second-hand from a magazine: with 0.010 in of air a joint "
    "lost 21 % of its strength",
)
PANEL_AIR = _fact(
    "0.020", "0.5", "common practice: a panel's edge, or a tongue, slides and does not rattle"
)
FLUSH = _fact("0.006", "0.15", "common practice: faces so nearly in line are sanded flush")
PLANED = _fact(
    "1/32", "0.8", "common practice: pieces are left 1/32 in thick to be planed level at the joints"
)
PARED = _fact(
    "3/32", "2.4", "ours: what is pared off a stub tenon’s end at the dry fit, where it must be"
)
DIAGONALS = _fact(
    "1/16", "1.6", "trade answers, published: a cabinet's diagonals agree within 1/16 in"
)
YEAR = "the job: what is to stay in the groove, or the room's year"
