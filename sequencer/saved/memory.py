"""What earlier jobs found out of the shop itself, for the next plan: kerfs and minutes.

A kerf that was measured stands for the shop file's as long as the file says what it said then:
whoever writes another knows better. Minutes stand in only where the file states none.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from fractions import Fraction
from statistics import median

from msgspec import Struct

from sequencer.facts import Fact, Length, commands, shops
from sequencer.facts.model import Value
from sequencer.job.identity import same, whole
from sequencer.job.schema import Cutter, Job, Minutes, Shop
from sequencer.lengths import Unit, convert
from sequencer.records import replace
from sequencer.saved.evidence import TIME, Noted
from sequencer.saved.kerfs import Kerf
from sequencer.saw.fittings import MINUTES

LEAST_TIMED = 3
"""Times that a thing must have been timed to stand for what is usual; ours."""

STEP = Fraction(1, 4)
"""Minutes: what is offered is rounded to it, and never to less; ours."""


class Typical(Struct, frozen=True):
    """The median of `count` times, in minutes, to the nearest quarter."""

    name: str
    minutes: Fraction
    count: int


def typical(times: Iterable[tuple[str, Fraction]]) -> tuple[Typical, ...]:
    """A line for each thing that was timed, in the order of the first."""
    found: dict[str, list[Fraction]] = {}
    for name, minutes in times:
        found.setdefault(name, []).append(minutes)
    return tuple(
        Typical(name, max(STEP, round(Fraction(median(each)) / STEP) * STEP), len(each))
        for name, each in found.items()
    )


def timed(noted: Iterable[Noted]) -> Iterator[tuple[str, Fraction]]:
    """Keys of minutes, and the minutes that each took."""
    for each in noted:
        if each.what == TIME:
            yield each.name, each.value


def kerf_of(cutter: Cutter, noted: Sequence[Noted], unit: Unit) -> Noted | None:
    """The last measuring of a kerf that began with what the file says; `None` where none did."""
    found: Noted | None = None
    kerf = cutter.kerf
    measured = (each for each in noted if (each.what, each.name) == ("kerf", cutter.name))
    for each in measured:
        if convert(each.planned, each.unit, unit) == kerf:
            kerf, found = convert(each.value, each.unit, unit), each
    return found


def as_known(
    shop: Shop,
    noted: Sequence[Noted],
    unit: Unit,
    told: Callable[[Cutter], Kerf | None] = lambda _: None,
) -> tuple[Shop, tuple[Fact, ...]]:
    """The shop as its jobs have shown it to be, and a line for each kerf that was taken, with its
    cutter. `noted` are all findings of this saw in the order of their times, `told` what readings
    of walls say of a kerf; lengths of the shop in `unit`.

    A kerf that was measured by itself holds until later cuts say enough of another."""
    says: list[Fact] = []
    cutters: list[Cutter] = []
    for cutter in shop.cutters:
        found = kerf_of(cutter, noted, unit)
        kerf = cutter.kerf if found is None else convert(found.value, found.unit, unit)
        by_cuts = told(cutter)
        if (
            by_cuts is not None
            and by_cuts.differs(kerf)
            and (found is None or by_cuts.at > found.at)
        ):
            says.append(_by_cuts(cutter, by_cuts, unit))
            cutters.append(replace(cutter, kerf=by_cuts.kerf))
            continue
        if found is not None and kerf != cutter.kerf:
            says.append(
                commands.KERF_AS_MEASURED(
                    cutter=cutter.name,
                    kerf=Length(kerf, unit),
                    file=Length(cutter.kerf, unit),
                    job=found.job,
                    date=found.at[:10],
                )
            )
        cutters.append(replace(cutter, kerf=kerf))
    shop = replace(shop, cutters=tuple(cutters))
    return _with_minutes(shop, typical(timed(noted))), tuple(says)


def of_job(noted: Iterable[Noted], jobs: Sequence[Job]) -> tuple[Noted, ...]:
    """What was found of these very jobs, in its order."""
    own = whole(jobs)
    return tuple(each for each in noted if same(each.belongs, own))


def thickness_of(own: Iterable[Noted], jobs: Sequence[Job]) -> Mapping[Fraction, Noted]:
    """By the thickness that the jobs state, the last measuring of their `own` boards that began
    there. Those of another job are other boards."""
    unit = jobs[0].unit
    found: dict[Fraction, Noted] = {}
    now = {door.thickness: door.thickness for job in jobs for door in job.doors}
    for each in own:
        for stated, thick in now.items():
            if each.what == "thickness" and convert(each.planned, each.unit, unit) == thick:
                now[stated], found[stated] = convert(each.value, each.unit, unit), each
    return found


def _by_cuts(cutter: Cutter, kerf: Kerf, unit: Unit) -> Fact:
    given: dict[str, Value] = {
        "cutter": cutter.name,
        "kerf": Length(kerf.kerf, unit),
        "spread": Length(2 * kerf.sigma, unit),
        "n": kerf.count,
        "file": Length(cutter.kerf, unit),
    }
    if kerf.since:
        was = Length(kerf.was, unit)
        return commands.KERF_CHANGED(**given, was=was, date=kerf.since[:10])
    return commands.KERF_BY_CUTS(**given)


def _with_minutes(shop: Shop, found: Sequence[Typical]) -> Shop:
    """Where the file leaves minutes open, those that were timed often enough."""
    assumed = [each for each in shop.assumed if each.kind is shops.MINUTES]
    if not assumed:
        return shop
    (told,) = assumed
    lines = told.given["each"]
    assert isinstance(lines, tuple)
    open_keys = {str(each.given["what"]).removeprefix("minutes.") for each in lines
                 if isinstance(each, Fact)}  # fmt: skip
    taken = {
        each.name: each for each in found if each.count >= LEAST_TIMED and each.name in open_keys
    }
    if not taken:
        return shop

    def line(each: Fact) -> Fact:
        known = taken.get(str(each.given["what"]).removeprefix("minutes."))
        if known is None:
            return each
        return shops.MINUTES_TIMED(what=each.given["what"], value=known.minutes, n=known.count)

    renewed = shops.MINUTES(each=tuple(line(each) for each in lines if isinstance(each, Fact)))
    values = {name: each.minutes for name, each in taken.items()}
    return replace(
        shop,
        minutes=with_values(shop.minutes, values),
        timed=values,
        assumed=tuple(renewed if each is told else each for each in shop.assumed),
    )


def with_values(minutes: Minutes, values: dict[str, Fraction]) -> Minutes:
    """The minutes with others by their keys in a shop's file."""
    knobs = {**minutes.knobs, **{key: value for key, value in values.items() if key in MINUTES}}
    others = {key: value for key, value in values.items() if key not in MINUTES}
    return replace(minutes, knobs=knobs, **others)
