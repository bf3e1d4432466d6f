"""Whether readings inside their windows make a door that goes together: every requirement of a
finished plan, with how it comes out at the worst, and how often a fit comes out at the first try.

All is affine in readings, passes and thickness, so that the worst cases are exact. They go as far
as windows and reading errors reach, and as passes and unchecked settings go in `SIGMAS` sigmas
(`trade/spreads.py`): one pass in 370 goes farther, and of several at once next to none.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from sequencer.plan import Plan
from sequencer.plan.requirements import Requirement, Share
from sequencer.tolerance.cases import Case, Limits
from sequencer.tolerance.errors import TAKES, Bound, Errors
from sequencer.tolerance.fills import Fills
from sequencer.tolerance.floor import Floor
from sequencer.tolerance.forms import Form
from sequencer.tolerance.joints import joint_cases
from sequencer.tolerance.leaf import leaf_cases
from sequencer.tolerance.readings import Known
from sequencer.tolerance.tries import Tries

__all__ = ["requirements"]

_Key = tuple[str, Fraction, Fraction | None, Fraction | None, str]


def requirements(plan: Plan) -> tuple[Requirement, ...]:
    """All that the plan's leaves are held to, those alike together, in the order of the leaves."""
    floor = Floor(plan)
    errors = Errors(Known(floor))
    found: dict[_Key, list[Case]] = {}
    for case in _cases(plan, floor, errors):
        limits = case.limits
        key = (case.what, case.nominal, limits.least, limits.most, limits.source)
        found.setdefault(key, []).append(case)
    tries = Tries(errors)
    return tuple(_together(cases, errors, tries) for cases in found.values())


def _cases(plan: Plan, floor: Floor, errors: Errors) -> Iterator[Case]:
    for door in plan.doors:
        yield from joint_cases(plan, door, floor)
        fills = Fills(plan, door, floor, errors)
        yield from fills.cases()
        yield from leaf_cases(plan, door, fills)


def _together(cases: list[Case], errors: Errors, tries: Tries) -> Requirement:
    """Those that are alike but for how they are cut: the worst of all of them."""
    alike: dict[object, Case] = {}
    for case in cases:
        alike.setdefault(_shape(errors.known.put(case.off, errors.known.worst), errors), case)
    first = cases[0]
    limits: Limits = first.limits
    ranges = [(errors.range(case.off), case) for case in alike.values()]
    least = min(low for (low, _), _ in ranges)
    most = max(high for (_, high), _ in ranges)
    (_, widest) = max(ranges, key=lambda found: found[0][1] - found[0][0])
    marks = dict.fromkeys(mark for case in cases for mark in case.of)
    share = None
    if limits.fit:
        share = min(tries.share(case) for case in alike.values())
    return Requirement(
        what=first.what,
        of=tuple(marks),
        least=limits.least,
        most=limits.most,
        kind="fit" if limits.fit else "must",
        worst_least=first.nominal + least,
        worst_most=first.nominal + most,
        first_try=share,
        share=_shares(widest.off, errors),
        source=limits.source,
    )


def _shape(form: Form, errors: Errors) -> object:
    """What a form is but for which pieces and passes it is of."""
    return tuple(
        sorted(
            (source.kind, source.of if source.kind in _NAMED else str(_bound(source, errors)), part)
            for source, part in form.parts.items()
        )
    )


_NAMED = ("window", "reading", "knob", "kerf")


def _bound(source: object, errors: Errors) -> Bound:
    return errors.bound(source)  # type: ignore[arg-type]  # of a form


def _shares(form: Form, errors: Errors) -> tuple[Share, ...]:
    """What takes how much of the range, the most first."""
    found: dict[tuple[str, int | None], Fraction] = {}
    for source, part in errors.known.put(form, errors.known.worst).parts.items():
        low, high = errors.bound(source)
        number = int(source.of) if source.kind in ("window", "reading") else None
        key = (source.kind, number)
        found[key] = found.get(key, Fraction(0)) + abs(part) * (high - low)
    taken: dict[tuple[str, int | None], Fraction] = {}
    for (kind, number), amount in found.items():
        taken[TAKES[kind], number] = taken.get((TAKES[kind], number), Fraction(0)) + amount
    ordered = sorted(taken.items(), key=lambda each: (-each[1], each[0][0], each[0][1] or 0))
    return tuple(Share(takes, amount, number) for (takes, number), amount in ordered)  # type: ignore[arg-type]  # as TAKES has them
