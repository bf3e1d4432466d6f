"""Which checks refer to what earlier ones measured: what fits goes by what it fits into.

A fit hangs on several settings. Once the others are read, the last can make good what they came out
otherwise: the tenon by its slot, a raised panel's edge by the groove, one half by the other. Which
these are, and which way, stands in what the fit is made of; nobody writes it down. A setting that
serves several fits refers to nothing that only one of them hangs on; but where its pieces go into
cuts of their own that are to be alike, the later of those is made as the earlier came out.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from fractions import Fraction

from msgspec import Struct

from sequencer.plan import Checkpoint
from sequencer.records import replace
from sequencer.saw.measures import What
from sequencer.tolerance.cases import Case
from sequencer.tolerance.errors import Errors

Refers = Mapping[int, Fraction]
"""By the place of a check in the plan, by how much another is good for what that came out more."""

SHARES = frozenset(Fraction(each) for each in ("1/2", "1", "2"))
"""What a person works out at the saw of a reading, either way; ours."""

_WIDTHS = frozenset({What.TENON, What.TONGUE, What.BEVEL, What.CHANNEL_WIDTH})
"""What is as wide or thick as what it fits, but for the air between."""


class _Fit(Struct, frozen=True):
    """By how much what each check reads stands in a fit, and what air, or step, it is to have."""

    shares: Refers
    meant: Fraction


def referred(
    cases: Iterable[Case], errors: Errors
) -> tuple[tuple[Checkpoint, ...], frozenset[int]]:
    """The plan's checks, each with those that it refers to, and which of them everything that fits
    goes by: those may be `looser`. The errors are those of a plan in which none refers yet."""
    fits = [
        _Fit(shares, abs(case.nominal))
        for case in cases
        if case.limits.fit and (shares := _shares(case, errors))
    ]
    checks = list(errors.checks)
    for number, others in _found(fits, checks).items():
        after = tuple(sorted(others))
        told = tuple(others[n] for n in after)
        checks[number] = replace(checks[number], after=after, shares=told)
    return tuple(checks), frozenset(_made_good(fits, checks))


def _made_good(fits: Sequence[_Fit], checks: Sequence[Checkpoint]) -> Iterator[int]:
    """Widths that everything which fits them goes by: however they come out, it comes out too."""
    hang: dict[int, bool] = {}
    for fit in fits:
        for n in fit.shares:
            followed = any(n in checks[other].after for other in fit.shares)
            hang[n] = hang.get(n, True) and followed
    for n, followed in hang.items():
        if followed and checks[n].measure.what is What.CHANNEL_WIDTH:
            yield n


def looser(check: Checkpoint, band: Fraction) -> Checkpoint:
    """Good as far as the band, in whole steps of its tool, to either side of its target."""
    wide = band // check.resolution * check.resolution if check.resolution else band
    low, high = min(check.low, check.target - wide), max(check.high, check.target + wide)
    return replace(check, low=low, high=high)


def _shares(case: Case, errors: Errors) -> Refers:
    """How much of what each check of a setting reads stands in a fit, and of what fills a frame,
    how thick it was measured."""
    form = errors.known.put(case.off, errors.known.worst)
    found: dict[int, Fraction] = {}
    for source, part in form.parts.items():
        if source.kind == "window" and errors.checks[int(source.of)].knob is not None:
            found[int(source.of)] = part
        elif source.kind == "thick" and (number := errors.by_itself.get(source.of)) is not None:
            found[number] = part
    # What was planed to suit a groove that stands on marks has its thickness from there.
    if any(errors.on_mark(n) for n in found if errors.checks[n].measure.what is What.CHANNEL_WIDTH):
        found = {n: part for n, part in found.items() if errors.checks[n].knob is not None}
    return found


def _found(fits: Sequence[_Fit], checks: Sequence[Checkpoint]) -> Mapping[int, Refers]:
    """By the last check of each fit, or where that cannot the last before it that can, what it
    refers to."""
    torn: dict[int, list[Refers]] = {}
    while True:
        ways: dict[int, list[Refers]] = {}
        for fit in fits:
            last, others = _last(fit, checks, torn)
            if others not in ways.setdefault(last, []):
                ways[last].append(others)
        more = {n: of for n, of in ways.items() if len(of) > 1 and n not in torn}
        if not more:
            break
        torn |= more
    found = {n: of[0] for n, of in ways.items() if n not in torn and of[0]}
    for number, of in torn.items():
        found |= _alike(number, of, checks, found)
    return found


def _last(fit: _Fit, checks: Sequence[Checkpoint], torn: Collection[int]) -> tuple[int, Refers]:
    """The last check that a fit hangs on and that is not torn between others, with what it would
    refer to; nothing where a person cannot work it out, or would not believe it: a tenon that was
    tried in thicker stock than its slot is thicker than the slot that was measured."""
    shares = fit.shares
    in_time = sorted(shares, key=lambda n: (checks[n].at_step, n))
    last = next((n for n in reversed(in_time) if n not in torn), in_time[0])
    before = in_time[: in_time.index(last)]
    others = {n: shares[n] / -shares[last] for n in before}
    plain = all(_may_refer(last, n, share, checks) for n, share in others.items())
    if checks[last].measure.what in _WIDTHS:
        plain &= all(
            share != 1 or abs(checks[n].exact - checks[last].exact) == fit.meant
            for n, share in others.items()
        )
    return last, others if plain else {}


def _may_refer(last: int, n: int, share: Fraction, checks: Sequence[Checkpoint]) -> bool:
    by_number = "fit" not in (checks[n].tool, checks[last].tool)
    plain = abs(share) in SHARES if checks[n].knob else share == 1
    return by_number and plain and checks[n].at_step < checks[last].at_step


def _alike(
    number: int, ways: Sequence[Refers], checks: Sequence[Checkpoint], found: Mapping[int, Refers]
) -> Mapping[int, Refers]:
    """A check that is torn between cuts that its pieces go into, each by itself: the first of them
    is what it refers to, and the others too. Nothing where they refer to something already, or are
    not meant to be alike."""
    into = sorted((n for way in ways for n in way), key=lambda n: (checks[n].at_step, n))
    meant = {(checks[n].measure.what, checks[n].exact) for n in into}
    shares = {share for way in ways for share in way.values()}
    if any(len(way) != 1 for way in ways) or len(meant) > 1 or len(shares) > 1:
        return {}
    first, *later = into
    if any(n in found for n in later) or not all(
        _may_refer(n, first, Fraction(1), checks) for n in later
    ):
        return {}
    return {number: {first: shares.pop()}} | {n: {first: Fraction(1)} for n in later}
