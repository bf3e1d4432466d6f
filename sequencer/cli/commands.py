"""What each command does: files, stages, results."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Mapping, Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from sequencer.batch import in_text, is_table, read_batch
from sequencer.cli.again import FOLLOWED, cut_again, named_plan, one_set
from sequencer.cli.console import progress, show, tell
from sequencer.cli.marks import now_printed, printed
from sequencer.cli.writing import Texts, folder_for, sheets_of, write
from sequencer.errors import (
    InputError,
    Refusal,
    SequencerError,
    UsageError,
)
from sequencer.facts import Fact, commands, differences, files
from sequencer.facts import offers as told
from sequencer.job.load import read_text
from sequencer.job.schema import Door, Job, Shop
from sequencer.measured import Measured
from sequencer.records import replace
from sequencer.saved import planning
from sequencer.wording import Room, for_plan

if TYPE_CHECKING:
    from sequencer.plan import Plan
    from sequencer.remedies import Remedy


def check(options: argparse.Namespace) -> int:
    jobs, shop = _load(options)
    if any(_wants_sizing(door) for job in jobs for door in job.doors):
        try:
            _sized(jobs, shop)
        except Refusal as refusal:
            raise _with_remedies(refusal, jobs, options, _sized) from None
    for job in jobs:
        show(_room(options).say(commands.READS_WELL(file=job.file, found=_found(job))))
    if not options.quick:
        with progress(commands.PLANNING(), _room(options)):
            from sequencer import pipeline

            try:
                pipeline.plan(jobs, shop)
            except Refusal as refusal:
                raise _with_remedies(refusal, jobs, options, _planned_soon) from None
        show(_room(options).say(commands.GOOD()))
    return 0


def _wants_sizing(door: Door) -> bool:
    """Whether more may be wrong with it than its figures tell by themselves: of a plain door with
    bridled corners nothing is, and a check is quicker without."""
    keys = ("joint.slot", "joint.offset", "groove.offset", "groove.width", "panel.thickness")
    plain = door.joint.kind == "bridle" and door.fill is None and door.shape is None
    return not plain or bool(door.bars) or any(key in door.places for key in keys)


def _sized(jobs: Sequence[Job], shop: Shop) -> None:
    """All that a plan's first stage would refuse. Raises `Refusal`."""
    from sequencer.doors import make_leaves
    from sequencer.methods import Choices, Marks

    make_leaves(jobs, shop.joinery_blade.kerf, Measured(), Choices(marks=Marks.of(shop)))


def _found(job: Job) -> Fact:
    if job.pieces:
        return commands.PIECES(n=len(job.pieces))
    marks = [mark for door in job.doors for mark in door.marks]
    if len(marks) == 1:
        return commands.ONE_DOOR(mark=marks[0])
    return commands.DOORS(n=len(marks), first=marks[0], last=marks[-1])


def plan(options: argparse.Namespace) -> int:
    folder_for(options.folder, _inputs(options))
    jobs, shop = _load(options)
    with progress(commands.PLANNING(), _room(options)):
        from sequencer import pipeline

        given, trouble = planning.given_with_saved(options.settings, jobs, shop)
        try:
            plan = pipeline.planned(given)
        except Refusal as refusal:
            for happened in trouble:  # what was measured earlier may be why
                tell("\n".join(_room(options).say(each) for each in happened))
            raise _with_remedies(refusal, jobs, options, _planned_soon) from None
        advice = planning.advice(plan, given)
    _put(plan, options, trouble, after=advice)
    if options.suggest:
        with progress(commands.TRYING_CHANGES(), _room(options)):
            for line in planning.suggestions(plan, given):
                show(for_plan(plan).say(line))
    return 0


_PATIENCE, _LOOKS = 1.0, 40
"""Seconds that are spent on trying what would do by planning; how often it is tried by reading."""


def _with_remedies(
    refusal: Refusal,
    jobs: Sequence[Job],
    options: argparse.Namespace,
    tries: Callable[[Sequence[Job], Shop], object],
) -> Refusal:
    """The refusal with what would do, as it `tries`; with --mend the first is written into its
    file."""
    import time

    from sequencer.remedies import remedies

    texts = {**options.texts.jobs, **options.texts.shop}
    shop = None if options.shop is None else in_text(options.shop)
    planning_too = tries is _planned_soon
    end, looks = time.monotonic() + _PATIENCE, iter(range(_LOOKS))

    def enough() -> bool:
        return time.monotonic() > end if planning_too else next(looks, None) is None

    found = remedies(refusal, jobs, shop, texts, tries, enough)
    kind = told.TRIED if planning_too else told.WOULD_DO
    says = [kind(each=each.says(texts)) for each in found] or [told.NOTHING_DID()]
    mends = options.command is plan and options.mend
    if mends and found:
        _mend(found[0], texts, options)
    elif mends:
        says.append(told.CANNOT_MEND())
    elif options.command is plan and found:
        says.append(told.MEND_WRITES())
    return Refusal(*refusal.says, *says)


def _planned_soon(jobs: Sequence[Job], shop: Shop) -> Plan:
    from sequencer import pipeline

    return pipeline.plan(jobs, shop, seconds=_PATIENCE / 5)


def _with_hints(error: InputError, options: argparse.Namespace) -> InputError:
    """The faults with what was advised of them tried: by planning, or where the files are only
    checked by reading them. With --mend what leaves no fault is written into its file."""
    import time

    from sequencer.hints import tried

    planning_too = options.command is plan
    end, looks = time.monotonic() + _PATIENCE, iter(range(_LOOKS))

    def enough() -> bool:
        # What a check says is not to depend on how quick the machine is.
        return time.monotonic() > end if planning_too else next(looks, None) is None

    texts = {**options.texts.jobs, **options.texts.shop}
    names = [in_text(name) for name in options.jobs]
    shop = None if options.shop is None else in_text(options.shop)
    if not {*names, *([shop] if shop else [])} <= texts.keys():
        return error  # one was not read
    plans = _planned_soon if planning_too else None
    made, remedy = tried(error, names, shop, texts, plans, enough)
    if planning_too and options.mend:
        if remedy is None:
            tell(_room(options).say(told.CANNOT_MEND()))
        else:
            _mend(remedy, texts, options)
    return made


def _mend(remedy: Remedy, texts: Mapping[str, str], options: argparse.Namespace) -> None:
    from sequencer.cli.swapping import rewrite

    named = {in_text(name): name for name in _inputs(options)}
    rewrite(Path(named[remedy.file]), remedy.text(texts))
    tell(_room(options).say(told.MENDED(file=remedy.file, does=remedy.says(texts))))


def recut(options: argparse.Namespace) -> int:
    options.jobs = [options.job, *options.also]
    folder_for(options.folder, _inputs(options))
    jobs, shop = _load(options)
    followed = Path(options.plan or FOLLOWED)
    one_set(followed.parent, str(followed))
    _still_made_from(followed.parent, options)
    with progress(commands.PLANNING(), _room(options)):
        given, trouble, found = planning.given_with_found(options.settings, jobs, shop)
        plan, lines = cut_again(options, given, found)
    _put(plan, options, trouble, before=lines)
    for line in lines:
        show(for_plan(plan).say(line))
    return 0


def _put(
    plan: Plan,
    options: argparse.Namespace,
    trouble: planning.Trouble,
    *,
    before: Sequence[Fact] = (),
    after: Sequence[Fact] = (),
) -> None:
    """Write the sheets and say where, and what went wrong on the way to the plan; `before` and
    `after` stand round the plan's own notes."""
    folder = Path(options.folder)
    screen = for_plan(plan)
    for happened in trouble:
        tell("\n".join(screen.say(each) for each in happened))
    first = (*(each[0] for each in reversed(trouble)), *before)
    plan = replace(plan, notes=(*first, *plan.notes, *after))
    with progress(commands.DRAWING(), _room(options)):
        files, missing = sheets_of(
            plan, options.paper, no_pdf=options.no_pdf, short=options.short, risk=options.risk,
            evenings=options.evenings, asked=options.asked,
        )  # fmt: skip
    since = () if plan.again else _since(folder, plan)
    write(folder, files, options.texts, _inputs(options))
    for name in files:
        show(str(folder / name))
    show(screen.say(_summary(plan)))
    for number, line in enumerate(since):
        show(f"{'  ' if number else ''}{screen.say(line)}")
    if options.open:
        import webbrowser

        webbrowser.open((folder / next(iter(files))).resolve().as_uri())
    if missing is not None:
        raise missing


def _since(folder: Path, plan: Plan) -> tuple[Fact, ...]:
    """What is cut otherwise than on the sheets that are there, which may have been printed."""
    from sequencer.saved.differences import differ

    try:
        before = _plan_in(folder)
    except SequencerError:  # of an earlier version, or none: nothing can be said
        return ()
    found = () if before is None else differ(plan, before)
    return (differences.SINCE(), *found) if found else ()


def _plan_in(folder: Path) -> Plan | None:
    """The plan whose sheets are there, if there are any."""
    from sequencer import contract
    from sequencer.cli.swapping import finish

    finish(folder)
    path = folder / "plan.json"
    return contract.from_json(read_text(str(path)), str(path)) if path.is_file() else None


def compare(options: argparse.Namespace) -> int:
    """Say what differs between two plans."""
    from sequencer.saved.differences import differ

    then, now = (named_plan(name) for name in (options.old, options.new))
    screen = for_plan(now)
    for line in differ(now, then) or (differences.NONE(),):
        show(screen.say(line))
    return 0


def _still_made_from(folder: Path, options: argparse.Namespace) -> None:
    """Say which files have changed since the sheets in the folder were made."""
    from sequencer.cli.manifest import changed_since, not_of_the_set

    changed = changed_since(folder, {**options.texts.jobs, **options.texts.shop})
    if changed:
        tell(_room(options).say(commands.CHANGED_SINCE(files=changed, folder=str(folder))))
    mixed = not_of_the_set(folder)
    if mixed:
        tell(_room(options).say(commands.MIXED(files=mixed, folder=str(folder))))


def follow(options: argparse.Namespace) -> int:
    from sequencer.sawside.command import follow as serve

    _load(options)  # says all that is wrong with the files
    _still_made_from(Path(options.sheets), options)
    return serve(options)


def times(options: argparse.Namespace) -> int:
    from sequencer.cli.timing import times as medians

    _, options.shop_read = _load(options)
    return medians(options)


def explain(options: argparse.Namespace) -> int:
    """Say what a key, a rule or an exit code means."""
    from sequencer.cli.explaining import explained

    for line in explained(options.what, _room(options)):
        show(_room(options).say(line))
    return 0


def _load(options: argparse.Namespace) -> tuple[tuple[Job, ...], Shop]:
    """The batch of the files that were named; from then on `options.words` says whose words the
    user reads. Raises `InputError` with the faults of all."""
    tables = [file for file in options.jobs if is_table(file)]
    if tables and (len(options.jobs) > 1 or options.command in (follow, times)):
        raise UsageError(commands.TABLE_ALONE(file=tables[0]))
    places = [Path(file).resolve() for file in options.jobs]
    for file, place in zip(options.jobs, places, strict=True):
        if places.count(place) > 1:
            raise UsageError(commands.GIVEN_TWICE(file=file))
    options.texts = Texts()
    read = partial(_text, shop=options.shop, texts=options.texts)
    before = options.texts.before = printed(_folder_of(options), options.jobs, read)
    try:
        jobs, shop = read_batch(options.jobs, options.shop, read, before)
    except InputError as error:
        raise _with_hints(error, options) from None
    options.words = shop.words
    if options.command in (plan, recut):  # they print
        options.texts.printed = now_printed(jobs, options.texts.jobs, before)
    for job in jobs:
        if job.passed_over:
            tell(_room(options).say(commands.PASSED_OVER(file=job.file, names=job.passed_over)))
    return jobs, shop


def _folder_of(options: argparse.Namespace) -> Path:
    """Where the sheets are that the command writes or goes by."""
    if options.command is plan:
        return Path(options.folder)
    if options.command is recut:
        return Path(options.plan or FOLLOWED).parent
    return Path(options.sheets if options.command is follow else "sheets")


def _inputs(options: argparse.Namespace) -> list[str]:
    """The files that the plan is made from, as they were called."""
    return [*options.jobs, *filter(None, [options.shop])]


def _text(file: str, shop: str | None, texts: Texts) -> str:
    absent = files.NEW_SHOP() if file == shop else files.NEW_WRITES_ONE()
    text = read_text(file, None if is_table(file) else absent)
    (texts.shop if file == shop else texts.jobs)[in_text(file)] = text
    return text


def _summary(plan: Plan) -> Fact:
    ordering = plan.ordering
    least = commands.AT_LEAST(minutes=ordering.bound)
    quickest = commands.QUICKEST_COMPARED() if ordering.left_out else commands.QUICKEST()
    best = quickest if ordering.proven else least
    return commands.SUMMARY(n=ordering.setups, minutes=ordering.minutes, best=best)


def _room(options: argparse.Namespace) -> Room:
    """Of the shop whose files were read; of the place until then."""
    return Room(options.words or options.here)
