"""How a guide's number answers to the kerf, by what the cut must come out as."""

from __future__ import annotations

from fractions import Fraction

NEAR, MIDDLE, FAR = Fraction(0), Fraction(1, 2), Fraction(1)

_BY_KIND = {
    "rip": NEAR,
    "crosscut": NEAR,
    "cheek": NEAR,
    "edge cheek": NEAR,
    "shoulder": FAR,
    "edge shoulder": FAR,
    "sweep": FAR,
}
_BY_PASS = {"outer": NEAR, "first": NEAR, "widen": FAR, "middle": MIDDLE}
KINDS = (*_BY_KIND, "slot", "groove")


def share_of(kind: str, operation: str) -> Fraction | None:
    """The part of the kerf's growth by which the guide shrinks so that the cut stays the same.

    A shoulder is made by the far side of the kerf, a cheek by the near one; the passes of a slot
    or groove by their name, the last part of `operation`. `None` where that is not known: such a
    setting is used with its own kerf only.

    >>> share_of("shoulder", "A3/shoulder-A"), share_of("slot", "A1/slot-A/middle")
    (Fraction(1, 1), Fraction(1, 2))
    """
    if kind in ("slot", "groove"):
        return _BY_PASS.get(operation.rpartition("/")[2])
    return _BY_KIND.get(kind)
