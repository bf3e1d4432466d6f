"""One thing that is required of one joint, piece or leaf, as it stands: what it is by the plan, and
how far off it may be."""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from sequencer.plan.requirements import What
from sequencer.tolerance.forms import Form

ZERO = Fraction(0)


class Limits(Struct, frozen=True):
    """What is required, `None` where a side is open, and where that is from. Of a fit the share at
    the first try is told."""

    least: Fraction | None
    most: Fraction | None
    source: str
    fit: bool = False


class Case(Struct, frozen=True):
    """`nominal` is what it is by the plan, `off` how far from there."""

    what: What
    of: tuple[str, ...]
    nominal: Fraction
    off: Form
    limits: Limits


def known(*forms: Form | None) -> tuple[Form, ...] | None:
    """All of them, or `None` where one is not known."""
    return None if any(form is None for form in forms) else tuple(f for f in forms if f is not None)
