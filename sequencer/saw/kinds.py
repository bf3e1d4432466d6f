"""Kinds of step, a row each, and the passes that a cut is made in."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Literal

from msgspec import Struct

KindName = Literal[
    "mill", "edge glue-up", "rip", "plane", "groove", "rebate", "square", "crosscut", "bevel",
    "mitre", "slot", "housing", "shoulder", "edge shoulder", "sweep", "cheek", "edge cheek",
    "shape", "shaped groove", "dry fit", "trim", "shape panel", "finish", "glue-up", "diagonals",
    "flush", "rebate meeting", "glaze", "hang", "test cut", "check cut", "refit guard",
    "remove guard",
]  # fmt: skip
Tried = Literal["as-it-is", "other-edge", "other-edge-once", "free-edge", "both-ends"]

NEAR, MIDDLE, FAR = Fraction(0), Fraction(1, 2), Fraction(1)
"""Which side of the kerf makes a cut: the part of the kerf's growth that the guide loses, so that
the cut stays the same."""


class StepKind(Struct, frozen=True):
    """`where` it is done. Of cuts: `kerf`, which side makes it (`None`: not known, or its passes
    say); `through`, whether it parts the piece; `tried`, how it is made on its test piece;
    `danger`, which text warns of it where the others of its carrier do not fit."""

    where: Literal["saw", "scrap", "guard", "bench"] = "saw"
    kerf: Fraction | None = None
    through: bool = False
    tried: Tried = "as-it-is"
    danger: str = ""


_BENCH = StepKind("bench")

KINDS: Mapping[KindName, StepKind] = {
    "mill": _BENCH,
    "edge glue-up": _BENCH,
    "rip": StepKind(kerf=NEAR, through=True),
    "plane": _BENCH,
    "groove": StepKind(tried="other-edge"),
    "rebate": StepKind(tried="free-edge", danger="rebate"),
    "square": StepKind(through=True),
    "crosscut": StepKind(kerf=NEAR, through=True),
    "bevel": StepKind(tried="other-edge-once", danger="bevel"),
    "mitre": StepKind(tried="both-ends", danger="mitre"),
    "slot": StepKind(),
    "housing": StepKind(danger="housing"),
    "shoulder": StepKind(kerf=FAR, tried="both-ends"),
    "edge shoulder": StepKind(kerf=FAR, tried="both-ends"),
    "sweep": StepKind(kerf=FAR, tried="both-ends"),
    "cheek": StepKind(kerf=NEAR),
    "edge cheek": StepKind(kerf=NEAR),
    "shape": _BENCH,
    "shaped groove": _BENCH,
    "dry fit": _BENCH,
    "trim": _BENCH,
    "shape panel": _BENCH,
    "finish": _BENCH,
    "glue-up": _BENCH,
    "diagonals": _BENCH,
    "flush": _BENCH,
    "rebate meeting": _BENCH,
    "glaze": _BENCH,
    "hang": _BENCH,
    "test cut": StepKind("scrap"),
    "check cut": StepKind("scrap"),
    "refit guard": StepKind("guard"),
    "remove guard": StepKind("guard"),
}
"""In an order that everything that comes before another keeps, but for what is told of panels and
of grooves cut on the piece (`operations`)."""

SCRAP_STEPS = frozenset(kind for kind, row in KINDS.items() if row.where == "scrap")
"""Kinds of steps that cut scrap alone: dialling a setting in, or checking one that was saved."""

GUARD_STEPS = frozenset(kind for kind, row in KINDS.items() if row.where == "guard")

PASSES: Mapping[str, Fraction | None] = {
    "outer": NEAR,
    "first": NEAR,
    "widen": FAR,
    "middle": MIDDLE,
    "flat": None,
    "edge": None,
    "near": None,
    "far": None,
}
"""Which side of the kerf makes a pass of a slot or groove; of others that is not asked."""


def share_of(kind: str, made_by: str = "") -> Fraction | None:
    """Which side of the kerf makes a cut of that kind, in the pass that it is `made_by`. `None`
    where that is not known: such a setting is used with its own kerf only.

    >>> share_of("shoulder"), share_of("slot", "middle")
    (Fraction(1, 1), Fraction(1, 2))
    """
    if kind in ("slot", "groove"):
        return PASSES.get(made_by)
    return next((row.kerf for name, row in KINDS.items() if name == kind), None)
