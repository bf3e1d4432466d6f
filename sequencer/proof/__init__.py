"""The proof: the plan is checked, sawn virtually and put together, from its own figures alone.

Nothing here knows how the plan was made. Wood, cuts and worst cases are worked out exactly; only
what is a matter of chance is in floats: how often a fit is good at the first try (`tolerances.py`),
and whether a depth that is known may be looked at on the first piece (`looks.py`).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from sequencer.facts import Fact
from sequencer.facts import proofs as told
from sequencer.job.schema import Job
from sequencer.plan import SCRAP_STEPS, Plan
from sequencer.proof.aids import check_aids
from sequencer.proof.asked import check_asked
from sequencer.proof.assembly import assemble
from sequencer.proof.bench import check_bench
from sequencer.proof.books import check_books, check_numbers
from sequencer.proof.checks import Sawing, check_checks, seen_by
from sequencer.proof.compare import saw_and_compare
from sequencer.proof.fins import check_no_fins
from sequencer.proof.follow import Made
from sequencer.proof.grain import grain_of
from sequencer.proof.handling import Watch
from sequencer.proof.intent import check_intent
from sequencer.proof.limits import check_limits
from sequencer.proof.seasons import check_seasons
from sequencer.proof.tolerances import check_tolerances

__all__ = ["prove"]


def prove(plan: Plan, made: Made = frozenset(), jobs: Sequence[Job] = ()) -> tuple[Fact, ...]:
    """Prove the plan; what was shown of it. Of cuts that are `made` already, the kerf is known, and
    of leaves fitted dry their openings; `jobs` are what it was made for.

    Raises InternalError that names step, piece and difference.
    """
    check_numbers(plan)
    grain = grain_of(plan)
    watch = Watch(plan, grain)
    sawings: list[Sawing] = []
    pieces = saw_and_compare(plan, grain, seen_by(sawings, watch.look))
    check_no_fins(plan, grain, made)
    assemble(plan, pieces, grain)
    check_intent(plan)
    watch.settle()
    # Last, because the saw names a wrong number by what it does to the wood.
    check_books(plan)
    check_limits(plan)
    check_aids(plan)
    check_checks(plan, sawings, grain)
    check_bench(plan)
    check_seasons(plan, made)
    check_asked(plan, jobs)
    if jobs or plan.requirements:  # a plan made before there were any has none
        check_tolerances(plan)
    cuts = sum(len(step.cuts) for step in plan.steps if step.kind not in SCRAP_STEPS)
    passes, parts = told.PASSES(n=cuts), told.PARTS(n=len(plan.parts))
    return (told.SAWN(passes=passes, parts=parts), *_together(plan), *_trusted(plan))


def _together(plan: Plan) -> Iterator[Fact]:
    """What putting the doors together has shown."""
    if not plan.doors:
        return
    roles = {part.role for part in plan.parts}
    shows = [told.NO_GAP_AT_JOINTS() if "stile" in roles else told.NO_GAP_OUTSIDE()]
    if "panel" in roles:
        shows.append(told.PANELS_FREE())
    if "board" in roles:
        shows.append(told.BOARDS_FREE())
    if any(door.panes for door in plan.doors):
        shows.append(told.PANES_HELD())
    shows.append(told.SIZES_AS_STATED())
    yield told.TOGETHER(doors=told.DOORS(n=len(plan.doors)), shows=tuple(shows))


def _trusted(plan: Plan) -> Iterator[Fact]:
    """What is taken on trust."""
    shaped = tuple(p.mark for p in plan.parts if any(f.unproven_by_saw for f in p.features))
    if shaped:
        yield told.TRUSTED(pieces=shaped)
