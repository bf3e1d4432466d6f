"""The state of the mates for a piece that is made again: what was followed, or what was printed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import cast, get_args

from msgspec import Struct

from sequencer.errors import UsageError
from sequencer.facts import Fact, Length, advices, commands
from sequencer.job.schema import Cutter, Shop
from sequencer.lengths import Unit, convert
from sequencer.methods import Choices
from sequencer.plan import Plan
from sequencer.records import replace
from sequencer.saved.evidence import Noted
from sequencer.saved.memory import with_values
from sequencer.sawside.measurements import Measurement, What, word_of, work_in
from sequencer.sawside.readings import as_cut
from sequencer.sawside.state import State
from sequencer.setups.given import Given

MADE = frozenset({"groove", "slot", "mill", "cheek", "shoulder"})
"""What is cut already of the mates: no change of the kerf moves it."""

SLOT_OFF = Fraction(3, 2)
"""mm: a slot farther from the one that was planned is a slip of the hand; ours."""

OPENINGS: tuple[What, ...] = ("opening-width", "opening-height")


class Mates(Struct, frozen=True):
    """What the pieces are made from, by which methods; the plan that they are to match; and what
    is said of it. `otherwise`: what was measured of their mates is not in that plan, so that they
    come out otherwise."""

    given: Given
    choices: Choices
    plan: Plan
    says: tuple[Fact, ...] = ()
    otherwise: bool = False


def as_printed(plan: Plan, given: Given, found: Sequence[Noted] = ()) -> Mates:
    """By the plan's own numbers, whatever the shop file's kerf has become since; where what was
    `found` of this very job is kept, by that."""
    known = replace(given.measured, thickness=thickness_in(plan))
    then = replace(given, shop=as_planned(given.shop, plan), measured=known)
    pinned, choices = then.as_in(plan)
    seen, kerfs = [*_found(found, plan.unit)], [*_kerfs(pinned.shop, given.shop)]
    worked = work_in([*seen, *kerfs], pinned, choices)
    says = tuple(_told([*seen, *kerfs], plan.unit))
    if seen:
        last = found[-1]
        says = (commands.AS_FOUND(job=last.job, date=last.at[:10]), *says)
    return Mates(replace(worked, shop=given.shop), choices, plan, says, bool(seen))


def thickness_in(plan: Plan) -> dict[Fraction, Fraction]:
    """How thick a plan took the boards, by what its jobs state, where they were measured before."""
    return {Fraction(stated): thick for stated, thick in plan.thickness.items()}


def _found(found: Sequence[Noted], unit: Unit) -> Iterator[Measurement]:
    """What was measured of the mates, as far as they were followed."""
    for each in found:
        if each.what in get_args(What) and each.what != "kerf":
            planned, value = (convert(n, each.unit, unit) for n in (each.planned, each.value))
            yield Measurement(cast(What, each.what), each.name, planned, value, MADE)


def as_followed(state: State, today: Given, file: str) -> Mates:
    """By what was measured at the saw. The pieces are made `today`: by today's shop, and with the
    settings that are kept by now, those of the saw's page among them."""
    base = state.base
    cut = [seen for _, _, seen in as_cut(state)]
    measured = [*state.measurements, *cut]
    seen = [each for each in measured if each.what != "kerf"]
    kerfs = [each for each in state.measurements if each.what == "kerf"]
    since = [*_kerfs(base.given.shop, today.shop)]
    given = work_in([*measured, *since], base.given, base.choices)
    says = (commands.AS_FOLLOWED(file=file), *_told([*seen, *kerfs, *since], state.plan.unit))
    # Nobody waits at the saw: the order is searched for as long as for any other plan.
    made = replace(given, shop=today.shop, saved=today.saved, seconds=today.seconds)
    return Mates(made, base.choices, state.plan, says, bool(cut))


def with_slot(mates: Mates, planned: Fraction, cut: Fraction) -> Mates:
    """The same with a slot as it was measured. Raises `UsageError` where no piece has such a slot,
    or where it lies too far off to be one."""
    unit = mates.plan.unit
    widths = {
        feature.box[2][1] - feature.box[2][0]
        for part in mates.plan.parts
        for feature in part.features
        if feature.kind == "slot"
    }
    if planned not in widths:
        known = tuple(Length(width, unit) for width in sorted(widths))
        raise UsageError(advices.NO_SLOT(slot=Length(planned, unit), known=known))
    if abs(cut - planned) > convert(SLOT_OFF, "mm", unit):
        both = {"cut": Length(cut, unit), "slot": Length(planned, unit)}
        raise UsageError(advices.SLOT_TOO_FAR(**both))
    measured = mates.given.measured
    slots = {**measured.slot, planned: cut}
    return replace(mates, given=replace(mates.given, measured=replace(measured, slot=slots)))


def as_planned(shop: Shop, plan: Plan) -> Shop:
    """The shop with the kerfs and minutes that the plan was made with, which earlier jobs may have
    told."""

    def then(cutter: Cutter) -> Cutter:
        kerf = plan.shop.cutters.get(cutter.name, {}).get("kerf")
        return cutter if kerf is None else replace(cutter, kerf=Fraction(kerf))

    minutes = with_values(shop.minutes, dict(plan.shop.timed))
    cutters = tuple(then(cutter) for cutter in shop.cutters)
    return replace(shop, cutters=cutters, minutes=minutes, timed=plan.shop.timed)


def _kerfs(then: Shop, now: Shop) -> Iterator[Measurement]:
    """Kerfs that the shop file tells otherwise by now."""
    kerfs = {cutter.name: cutter.kerf for cutter in now.cutters}
    for cutter in then.cutters:
        kerf = kerfs.get(cutter.name, cutter.kerf)
        if kerf != cutter.kerf:
            yield Measurement("kerf", cutter.name, cutter.kerf, kerf, MADE)


def _told(measurements: Sequence[Measurement], unit: Unit) -> Iterator[Fact]:
    """Of each thing the last that is known. Openings are their panels' own business."""
    last = {(each.what, each.name, each.planned): each for each in measurements}
    for each in last.values():
        if each.what not in OPENINGS:
            yield commands.MATES_HAVE(
                what=word_of(each.what),
                planned=Length(each.planned, unit),
                measured=Length(each.measured, unit),
            )
