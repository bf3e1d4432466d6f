"""The proof: the plan is checked, sawn virtually and put together, from its own figures alone.

Nothing here knows how the plan was made. All arithmetic is exact.
"""

from __future__ import annotations

from collections.abc import Iterator

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
    shaped = any(f.prism is not None for part in plan.parts for f in part.features)
    parts, how = len(plan.parts), "surface for surface" if shaped else "box for box"
    sawn = (
        f"Sawn virtually in exact arithmetic: {_count(cuts, 'pass', 'passes')} leave "
        f"{_count(parts, 'part')} as designed, {how}"
    )
    trusted = _trusted(plan)
    if not plan.doors:
        return f"{sawn}.{trusted}"
    together = _count(len(plan.doors), "door")
    return f"{sawn}; {together} put together: {', '.join(_shown(plan))}.{trusted}"


def _shown(plan: Plan) -> Iterator[str]:
    """What putting the doors together has shown."""
    roles = {part.role for part in plan.parts}
    if "stile" in roles:
        yield "shoulders closed, faces flush"
    yield "no void outside"
    if "panel" in roles:
        yield "panels with play"
    if "board" in roles:
        yield "boards with play, their tongues in their grooves"
    if any(door.panes for door in plan.doors):
        yield "panes with room, held all round"
    yield "sizes and gaps as stated"


def _trusted(plan: Plan) -> str:
    """The sentence that names what is taken on trust."""
    shaped = [p.mark for p in plan.parts if any(f.unproven_by_saw for f in p.features)]
    if not shaped:
        return ""
    return f" Shaped at the bench, and trusted to be as drawn, not proven: {', '.join(shaped)}."


def _count(number: int, one: str, more: str | None = None) -> str:
    return f"{number} {one if number == 1 else more or one + 's'}"
