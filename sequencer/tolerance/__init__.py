"""Whether readings inside their windows make a door that goes together: every requirement of a
finished plan, with how it comes out at the worst, and how often a fit comes out at the first try;
and which checks go by what earlier ones measured.

All is affine in readings, passes and thickness, so that the worst cases are exact. They go as far
as windows and reading errors reach, and as passes and unchecked settings go in `SIGMAS` sigmas
(`trade/spreads.py`): one pass in 370 goes farther, and of several at once next to none.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction

from sequencer.plan import Plan
from sequencer.plan.requirements import Requirement, Share, Takes
from sequencer.records import replace
from sequencer.tolerance.cases import Case
from sequencer.tolerance.errors import TAKES, Errors
from sequencer.tolerance.fills import Fills
from sequencer.tolerance.floor import Floor
from sequencer.tolerance.forms import Form
from sequencer.tolerance.joints import joint_cases
from sequencer.tolerance.leaf import leaf_cases
from sequencer.tolerance.mates import looser, referred
from sequencer.tolerance.readings import Known
from sequencer.tolerance.tries import Tries
from sequencer.trade.fits import FOLLOWED_BAND

__all__ = ["held"]

_Key = tuple[str, Fraction, Fraction | None, Fraction | None]


def held(plan: Plan) -> Plan:
    """The plan with checks that refer to earlier ones, and with all that its leaves are held to,
    what is alike together, in the order of the leaves. A slot that all which fits it goes by may be
    off as far as that band, but not where a must would not hold then.
    """
    alone = (replace(check, after=(), shares=()) for check in plan.checkpoints)
    plan = replace(plan, checkpoints=tuple(alone))
    floor = Floor(plan)
    errors = Errors(Known(floor))
    cases = tuple(_cases(plan, floor, errors))
    checks, followed = referred(cases, errors)
    band = errors.length(FOLLOWED_BAND)
    while True:
        loose = [looser(c, band) if n in followed else c for n, c in enumerate(checks)]
        plan = replace(plan, checkpoints=tuple(loose))
        required = _required(cases, Errors(Known(Floor(plan))))
        broken = (each for each in required if each.kind == "must" and not each.holds)
        narrow = {share.checkpoint for each in broken for share in each.share} & followed
        if not narrow:
            return replace(plan, requirements=required)
        followed -= narrow


def _required(cases: Iterable[Case], errors: Errors) -> tuple[Requirement, ...]:
    found: dict[_Key, list[Case]] = {}
    for case in cases:
        limits = case.limits
        key = (case.what, case.nominal, limits.least, limits.most)
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
    """Those that are alike but for how they are cut: the worst of all of them, and of a fit the
    share of all."""
    alike: dict[object, list[Case]] = {}
    for case in cases:
        alike.setdefault(_shape(case.off, errors), []).append(case)
    first = cases[0]
    limits = first.limits
    ranges = [errors.range(some[0].off) for some in alike.values()]
    widest = max(zip(ranges, alike.values(), strict=True), key=lambda each: each[0][1] - each[0][0])
    share = None
    if limits.fit:
        shares = (tries.share(some[0]) * len(some) for some in alike.values())
        share = round(sum(shares) / len(cases), PLACES)
    return Requirement(
        what=first.what,
        of=tuple(dict.fromkeys(mark for case in cases for mark in case.of)),
        least=limits.least,
        most=limits.most,
        kind="fit" if limits.fit else "must",
        worst_least=first.nominal + min(low for low, _ in ranges),
        worst_most=first.nominal + max(high for _, high in ranges),
        first_try=None if share is None else Fraction(str(share)),
        share=_shares(widest[1][0].off, errors),
        source="; ".join(dict.fromkeys(case.limits.source for case in cases)),
        count=len(cases),
    )


PLACES = 3
"""Of a share that is told."""


def _shape(form: Form, errors: Errors) -> object:
    """What a form is but for which pieces and passes it is of: forms of one shape have the same
    worst cases and the same share."""
    found = []
    for source, part in errors.known.put(form, errors.known.worst).parts.items():
        name = source.of
        if source.kind == "pass":
            name = ""
        elif source.kind == "thick":
            name = str(errors.milled.get(source.of))
        found.append((source.kind, name, part))
    return tuple(sorted(found))


def _shares(form: Form, errors: Errors) -> tuple[Share, ...]:
    """What takes how much of the range, the most first."""
    found: dict[tuple[Takes, int | None], Fraction] = {}
    for source, part in errors.known.put(form, errors.known.worst).parts.items():
        low, high = errors.bound(source)
        if low == high:
            continue
        number = int(source.of) if source.kind in ("window", "reading") else None
        key = (TAKES[source.kind], number)
        found[key] = found.get(key, Fraction(0)) + abs(part) * (high - low)
    ordered = sorted(found.items(), key=lambda each: (-each[1], each[0][0], each[0][1] or 0))
    return tuple(Share(takes, amount, number) for (takes, number), amount in ordered)
