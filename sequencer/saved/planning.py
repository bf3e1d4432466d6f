"""What `sequencer plan` and `sequencer recut` ask of the saved settings, and say of a plan."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from functools import partial
from typing import TYPE_CHECKING, Any

from msgspec import Struct, field

from sequencer.errors import SurroundingsError, UsageError
from sequencer.facts import Fact, Kind, Length, commands
from sequencer.records import replace
from sequencer.saved.command import length_of, open_store
from sequencer.wording.helps import help_text

if TYPE_CHECKING:
    from sequencer.job.schema import Cutter, Job, Shop
    from sequencer.lengths import Unit
    from sequencer.plan import Plan
    from sequencer.saved.evidence import Noted
    from sequencer.saved.kerfs import Kerf
    from sequencer.saved.shelving import Owner
    from sequencer.scales import Scale
    from sequencer.setups.given import Given
    from sequencer.shelf import Key, Saved, Shelf
    from sequencer.wording import Room

_ADVISED = {commands.KERF_CHANGED: commands.COUNT_SHARPENING}
"""What is to be done where a kerf is another than the shop file's, unless it is to be written."""

Trouble = list[tuple[Fact, ...]]
"""What went wrong with the saved settings: of each, what happened, then what to do."""


def given_with_saved(
    file: str | None, jobs: Sequence[Job], shop: Shop, follows: str = ""
) -> tuple[Given, Trouble]:
    """Jobs and shop to be planned with what was saved of this saw, and a list that fills with what
    goes wrong there, now or while planning: a plan is made without it sooner than not at all. A
    file that was named has to be there. What was found of the boards under `follows`, the name of
    a file of events, is left out: it goes on from what that says itself."""
    given, trouble, _ = given_with_found(file, jobs, shop, follows)
    return given, trouble


def given_with_found(
    file: str | None, jobs: Sequence[Job], shop: Shop, follows: str = ""
) -> tuple[Given, Trouble, tuple[Noted, ...]]:
    """The same, and what else was found of these very jobs where they were followed."""
    from sequencer.lengths import convert
    from sequencer.measured import Measured
    from sequencer.saved.memory import as_known, of_job, thickness_of
    from sequencer.setups.given import Given

    unit = jobs[0].unit
    shelf, trouble, found = _shelf(file, owner_of(shop), unit, shop.cutters)
    shop, says = as_known(shop, found.noted, unit, lambda cutter: found.kerfs.get(cutter.name))
    trouble += [(each, _ADVISED.get(each.kind, commands.WRITE_KERF)()) for each in says]
    if shelf is not None:
        shelf = shelf.trusting([str(each.given["cutter"]) for each in says])
    own = of_job(found.noted, jobs)
    others = (n for n in own if not follows or not n.uid.startswith(f"{follows}/"))
    thick = thickness_of(others, jobs)
    for stated, seen in thick.items():
        measured = convert(seen.value, seen.unit, unit)
        told = commands.THICKNESS_AS_MEASURED(
            thickness=Length(measured, unit),
            stated=Length(stated, unit),
            job=seen.job,
            date=seen.at[:10],
        )
        trouble.append((told, commands.OTHER_BOARDS(name=f"n{seen.number}")))
    known = {stated: convert(seen.value, seen.unit, unit) for stated, seen in thick.items()}
    return Given.of(jobs, shop, Measured(thickness=known), shelf), trouble, own


def owner_of(shop: Shop) -> Owner:
    """Whose settings a plan may use: those of this saw, made with these fittings."""
    from sequencer.saved.shelving import Owner
    from sequencer.saw.fittings import CARRIERS

    return Owner(
        shop.known_as or shop.name,
        {carrier: shop.made_with(carrier) for carrier in CARRIERS},
        {cutter.name: cutter.sharpened for cutter in shop.cutters},
    )


class _Found(Struct, frozen=True):
    """What else was found of a saw, and the kerfs of its cutters by their readings."""

    noted: tuple[Noted, ...] = ()
    kerfs: Mapping[str, Kerf] = field(default_factory=dict)


def _shelf(
    file: str | None, owner: Owner, unit: Unit, cutters: Sequence[Cutter]
) -> tuple[Shelf | None, Trouble, _Found]:
    """The settings of the saw, what went wrong with them, and all else that was found of it."""
    from sequencer.saved.place import settings_path

    trouble: Trouble = []
    path = settings_path(file)
    if not path.exists():
        if file is not None:
            raise UsageError(commands.NO_STORE(file=file))
        return None, trouble, _Found()
    try:
        # Without the check of the whole file: damage tells where it is read.
        with open_store(file, check=False) as store:
            shelf = store.shelf(owner, unit)
            told = {
                c.name: store.kerf(owner.saw, c.name, c.sharpened, unit, c.kerf) for c in cutters
            }
            kerfs = {name: kerf for name, kerf in told.items() if kerf is not None}
            found = _Found(store.noted(owner.saw), kerfs)
            if not shelf.shares and owner.saw not in store.saws():
                likely = store.likely(owner.saw, owner.sharpened)
                if likely:
                    others = commands.LIKELY(n=sum(likely.values()), names=tuple(likely))
                    trouble.append((others, commands.SHOP_ASKS()))
    except SurroundingsError as error:
        trouble.append(_told(commands.WITHOUT_SAVED, error))
        return None, trouble, _Found()

    def read(look: Callable[..., Sequence[Saved]], *asked: Any) -> Sequence[Saved]:
        try:
            return () if trouble else look(*asked)
        except SurroundingsError as error:
            trouble.append(_told(commands.WITHOUT_SOME_SAVED, error))
            return ()

    def scale(key: Key) -> Scale | None:
        try:
            return None if trouble else shelf.scale(key)
        except SurroundingsError as error:
            trouble.append(_told(commands.WITHOUT_SOME_SAVED, error))
            return None

    seek, latest = partial(read, shelf.seek), partial(read, shelf.latest)
    return replace(shelf, seek=seek, latest=latest, scale=scale), trouble, found


def _told(without: Kind, error: SurroundingsError) -> tuple[Fact, ...]:
    what, *rest = (each for each in error.says if isinstance(each, Fact))
    return without(why=what), *rest


def add_recut(parser: argparse.ArgumentParser, room: Room) -> None:
    parser.add_argument("marks", nargs="+", metavar="MARK", help=help_text(room, "recut.mark"))
    parser.add_argument(
        "--also", action="append", default=[], metavar="JOB", help=help_text(room, "recut.also")
    )
    parser.add_argument("--plan", metavar="FILE", help=help_text(room, "recut.plan"))
    parser.add_argument("--followed", metavar="FILE", help=help_text(room, "recut.followed"))
    parser.add_argument(
        "--slot", action="append", default=[], metavar="PLANNED=CUT",
        help=help_text(room, "recut.slot"),
    )  # fmt: skip


def advice(plan: Plan, given: Given) -> tuple[Fact, ...]:
    """Lines for the sheet of the night before."""
    from sequencer.saved.advice import advise

    return advise(plan, given)


def suggestions(plan: Plan, given: Given) -> tuple[Fact, ...]:
    """Near misses, each planned again."""
    from sequencer.facts import Length, advices
    from sequencer.saved.suggest import FINE_WINDOW, WINDOW, suggest, told

    given, _ = given.as_in(plan)
    made = suggest(given)
    unit = given.jobs[0].unit
    within, fine = (Length(window.of(unit), unit) for window in (WINDOW, FINE_WINDOW))
    nothing = advices.NO_CHANGE(n=made.looked_at, within=within, fine=fine)
    lines = [told(each, given) for each in made.found] or [nothing]
    if made.passed_over:
        lines.append(advices.PASSED_OVER(looked_at=made.looked_at, others=made.passed_over))
    return tuple(lines)


def slot_of(text: str, unit: Unit) -> tuple[Fraction, Fraction]:
    planned, equals, cut = text.partition("=")
    if not equals:
        raise UsageError(commands.WRITE_SLOT(text=text))
    return length_of(planned, unit), length_of(cut, unit)
