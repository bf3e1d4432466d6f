"""The proof: the plan is checked, sawn virtually and put together, from its own figures alone.

Nothing here knows how the plan was made. All arithmetic is exact.
"""

from __future__ import annotations

from sequencer.plan import SCRAP_STEPS, Plan
from sequencer.proof.assembly import assemble
from sequencer.proof.books import check_books, check_numbers
from sequencer.proof.compare import saw_and_compare
from sequencer.proof.fins import check_no_fins
from sequencer.proof.follow import Made
from sequencer.proof.grain import grain_of

__all__ = ["prove"]


def prove(plan: Plan, made: Made = frozenset()) -> str:
    """Prove the plan; the line for the sheet that says what was proven. Of cuts that are `made`
    already, the kerf is known.

    Raises InternalError that names step, piece and difference.
    """
    check_numbers(plan)
    grain = grain_of(plan)
    pieces = saw_and_compare(plan, grain)
    check_no_fins(plan, grain, made)
    assemble(plan, pieces, grain)
    # Last, because the saw names a wrong number by what it does to the wood.
    check_books(plan)
    cuts = sum(len(step.cuts) for step in plan.steps if step.kind not in SCRAP_STEPS)
    parts, doors = len(plan.parts), len(plan.doors)
    sawn = (
        f"Sawn virtually in exact arithmetic: {_count(cuts, 'pass', 'passes')} leave "
        f"{_count(parts, 'part')} as designed, box for box"
    )
    if not plan.doors:
        return f"{sawn}."
    together = _count(doors, "door")
    return (
        f"{sawn}; {together} put together: shoulders closed, faces flush, no void outside, "
        "panels with play, sizes and gaps as stated."
    )


def _count(number: int, one: str, more: str | None = None) -> str:
    return f"{number} {one if number == 1 else more or one + 's'}"
