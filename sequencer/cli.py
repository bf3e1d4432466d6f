"""The command `sequencer`: reads files, calls the stages, writes files, says what went wrong.

Results go to stdout, all else to stderr. Exit codes: 0 good; 1 no plan as asked; 2 wrong usage;
3 a file is wrong; 4 the surroundings failed; 130 interrupted. Slow stages are imported by the
commands that need them, so that `check` starts at once.
"""

from __future__ import annotations

import argparse
import gc
import os
import sys
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

from sequencer.batch import read_batch
from sequencer.errors import InputError, SequencerError, SurroundingsError, UsageError
from sequencer.facts import Dialect, Fact, commands
from sequencer.job.defaults import packaged
from sequencer.job.load import read_text
from sequencer.job.schema import Job, Shop
from sequencer.measured import Measured
from sequencer.saved import command as saved
from sequencer.saved import planning
from sequencer.wording import Room, for_plan
from sequencer.wording.helps import help_text

if TYPE_CHECKING:
    from sequencer.plan import Plan

INTERRUPTED = 130


def entry() -> NoReturn:
    """Run the command with the process's arguments and leave with its exit code."""
    # Nearly all that these commands make they keep to their end: looking for garbage on the way
    # costs a tenth of their time, looking through all of it once more at the end a sixth. A page
    # that is followed may stand for days, and the end closes its store.
    once = sys.argv[1:2] not in (["follow"], ["times"])
    gc.set_threshold(1_000_000 if once else 100_000)
    try:
        sys.exit(main(sys.argv[1:]))
    finally:
        if once:
            gc.freeze()


def main(arguments: Sequence[str]) -> int:
    """Run one command; returns the exit code."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="backslashreplace")
    options = argparse.Namespace(words=None, here=_words_here())
    try:
        _parser(Room(options.here), *arguments[:1]).parse_args(arguments, options)
        code: int = options.command(options)
        sys.stdout.flush()
    except SequencerError as error:
        told = error.words if isinstance(error, InputError) else None
        _complain(error, told or options.words, options.here)
        return error.exit_code
    except BrokenPipeError:
        # Whoever read our output has gone; nothing may be written at exit either.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return SurroundingsError.exit_code
    except KeyboardInterrupt:
        _say(_room(options).say(commands.INTERRUPTED()))
        return INTERRUPTED
    return code


def _words_here() -> Dialect:
    """What is spoken where nothing was read yet: the US words where the locale is American."""
    asked = (os.environ.get(name) for name in ("LC_ALL", "LC_MESSAGES", "LANG"))
    return "US" if next(filter(None, asked), "").startswith("en_US") else "UK"


class _Parser(argparse.ArgumentParser):
    def error(self, message: str) -> NoReturn:
        raise UsageError(commands.WRONG_USAGE(message=message, usage=self.format_usage().strip()))


def _parser(room: Room, chosen: str = "") -> argparse.ArgumentParser:
    """The parser of every command, its help in the words of `room`; the saw side's own arguments
    only where one of its is `chosen`, so that the others start sooner."""
    parser = _Parser(
        prog="sequencer",
        description=help_text(room, "program"),
        epilog=help_text(room, "program.end"),
    )
    programs = parser.add_subparsers(
        metavar="COMMAND", required=True, parser_class=_Parser, prog="sequencer"
    )
    check, plan, recut, follow, times = (
        programs.add_parser(name, help=help_text(room, name))
        for name in ("check", "plan", "recut", "follow", "times")
    )
    recut.add_argument("job", metavar="JOB", help=help_text(room, "job.or_table"))
    for command in (check, plan, follow, times, recut):
        if command is not recut:
            command.add_argument("jobs", nargs="+", metavar="JOB", help=help_text(room, "job"))
        command.add_argument("--shop", metavar="FILE", help=help_text(room, "shop"))
    check.set_defaults(command=_check)
    for command, folder in ((plan, "sheets"), (recut, "recut")):
        said = help_text(room, "folder", folder=folder)
        command.add_argument("-o", dest="folder", metavar="DIR", default=folder, help=said)
        command.add_argument("--paper", choices=("letter", "a4"), default="letter", help="(letter)")
        command.add_argument("--no-pdf", action="store_true", help=help_text(room, "no_pdf"))
        saved.add_store(command, room)
    plan.add_argument("--suggest", action="store_true", help=help_text(room, "plan.suggest"))
    plan.set_defaults(command=_plan)
    planning.add_recut(recut, room)
    recut.set_defaults(command=_recut)

    if chosen in ("follow", "times"):
        from sequencer.sawside.command import arguments

        arguments(follow, times, room)
    follow.set_defaults(command=_follow)
    times.set_defaults(command=_times)

    saved.add_to(programs, _Parser, room)

    new = programs.add_parser("new", help=help_text(room, "new"))
    new.add_argument("file", nargs="?", default="job.toml", metavar="FILE", help="(job.toml)")
    new.set_defaults(command=_new)
    return parser


def _check(options: argparse.Namespace) -> int:
    jobs, shop = _load(options)
    doors = [door for job in jobs for door in job.doors]
    if any(door.joint.offset is not None or door.groove.offset is not None for door in doors):
        # Only sizing tells whether a groove off centre stays within a slot that suits the kerf.
        from sequencer.doors import make_leaves
        from sequencer.methods import Choices, Marks

        make_leaves(jobs, shop.joinery_blade.kerf, Measured(), Choices(marks=Marks.of(shop)))
    for job in jobs:
        _print(_room(options).say(commands.GOOD(file=job.file, found=_found(job))))
    return 0


def _found(job: Job) -> Fact:
    if job.pieces:
        return commands.PIECES(n=len(job.pieces))
    marks = [mark for door in job.doors for mark in door.marks]
    if len(marks) == 1:
        return commands.ONE_DOOR(mark=marks[0])
    return commands.DOORS(n=len(marks), first=marks[0], last=marks[-1])


def _plan(options: argparse.Namespace) -> int:
    folder = Path(options.folder)
    if folder.exists() and not folder.is_dir():
        raise SurroundingsError(commands.IS_A_FILE(path=str(folder)))
    jobs, shop = _load(options)
    with _progress(commands.PLANNING(), options):
        from sequencer import pipeline

        given, trouble = planning.given_with_saved(options.store, jobs, shop)
        plan = pipeline.planned(given)
        advice = planning.advice(plan, given)
    _put(plan, options, trouble, after=advice)
    if options.suggest:
        with _progress(commands.TRYING_CHANGES(), options):
            for line in planning.suggestions(plan, given):
                _print(for_plan(plan, "terminal").say(line))
    return 0


def _recut(options: argparse.Namespace) -> int:
    options.jobs = [options.job, *options.also]
    jobs, shop = _load(options)
    with _progress(commands.PLANNING(), options):
        given, trouble = planning.given_with_saved(options.store, jobs, shop)
        plan, lines = planning.cut_again(options, given)
    _put(plan, options, trouble, before=lines)
    for line in lines:
        _print(for_plan(plan, "terminal").say(line))
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
    if folder.exists() and not folder.is_dir():
        raise SurroundingsError(commands.IS_A_FILE(path=str(folder)))
    screen = for_plan(plan, "terminal")
    for happened in trouble:
        _say("\n".join(screen.say(each) for each in happened))
    first = (*(each[0] for each in reversed(trouble)), *before)
    plan = replace(plan, notes=(*first, *plan.notes, *after))
    with _progress(commands.DRAWING(), options):
        files, missing = _sheets(plan, options)
    _write(folder, files)
    for name in files:
        _print(str(folder / name))
    _print(screen.say(_summary(plan)))
    if missing is not None:
        raise missing


def _follow(options: argparse.Namespace) -> int:
    from sequencer.sawside.command import follow

    _load(options)  # says all that is wrong with the files
    return follow(options)


def _times(options: argparse.Namespace) -> int:
    from sequencer.sawside.command import times

    _load(options)
    return times(options)


def _new(options: argparse.Namespace) -> int:
    path = Path(options.file)
    try:
        with path.open("x", encoding="utf-8") as file:
            file.write(packaged("starter.toml"))
    except FileExistsError:
        raise SurroundingsError(commands.KEPT_FILE(path=str(path))) from None
    except OSError as error:
        reason = error.strerror or ""
        raise SurroundingsError(commands.UNWRITABLE(path=str(path), reason=reason)) from None
    _print(str(path))
    return 0


def _load(options: argparse.Namespace) -> tuple[tuple[Job, ...], Shop]:
    """The batch of the files that were named; from then on `options.words` says whose words the
    user reads. Raises `InputError` with the faults of all."""
    tables = [file for file in options.jobs if file.lower().endswith(".csv")]
    if tables and (len(options.jobs) > 1 or options.command in (_follow, _times)):
        raise UsageError(commands.TABLE_ALONE(file=tables[0]))
    for file in options.jobs:
        if options.jobs.count(file) > 1:
            raise UsageError(commands.GIVEN_TWICE(file=file))
    jobs, shop = read_batch(options.jobs, options.shop, read_text)
    options.words = shop.words
    return jobs, shop


def _sheets(
    plan: Plan, options: argparse.Namespace
) -> tuple[dict[str, bytes], SurroundingsError | None]:
    """The files by name, and why there is no PDF where it could not be made."""
    from sequencer import sheets
    from sequencer.sheets.files import FILES, PDF

    cache = _cache()
    try:
        page = sheets.html(plan, options.paper, cache)
    except OSError:  # the folder for what is only quicker the second time cannot be used
        if cache is None:
            raise
        page = sheets.html(plan, options.paper)
    files: dict[str, bytes] = {}
    missing = None
    for name, make in FILES.items():
        if name == PDF and options.no_pdf:
            continue
        try:
            made = make(plan, page)
        except SurroundingsError as error:
            missing = error
            continue
        files[name] = made.encode() if isinstance(made, str) else made
    return files, missing


def _cache() -> str | None:
    """A folder of the user's own for compiled templates, where one can be had."""
    import platformdirs

    folder = platformdirs.user_cache_path("sequencer", appauthor=False)
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    except OSError:
        return None
    return str(folder)


def _write(folder: Path, files: Mapping[str, bytes]) -> None:
    """Put all files into the folder, or leave there what was. A sheet of an earlier plan that is
    not made anew goes: nobody is to cut from it."""
    from sequencer.sheets.files import FILES

    parts = {name: folder / f".{name}.{os.getpid()}.part" for name in files}
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for name, part in parts.items():
            part.write_bytes(files[name])
        for name, part in parts.items():
            part.replace(folder / name)
        for name in FILES:
            if name not in files:
                (folder / name).unlink(missing_ok=True)
    except OSError as error:
        reason = error.strerror or ""
        told = commands.UNWRITABLE_FOLDER(path=str(folder), reason=reason)
        raise SurroundingsError(told) from None
    finally:
        if folder.is_dir():
            for part in parts.values():
                part.unlink(missing_ok=True)


def _summary(plan: Plan) -> Fact:
    ordering = plan.ordering
    least = commands.AT_LEAST(minutes=ordering.bound)
    quickest = commands.QUICKEST_COMPARED() if ordering.left_out else commands.QUICKEST()
    best = quickest if ordering.proven else least
    return commands.SUMMARY(n=ordering.setups, minutes=ordering.minutes, best=best)


@contextmanager
def _progress(what: Fact, options: argparse.Namespace) -> Iterator[None]:
    """Say what is going on, on a terminal, once it has taken a second."""
    from threading import Timer

    timer = Timer(1, _say, (_room(options).say(what),))
    timer.daemon = True
    if sys.stderr.isatty():
        timer.start()
    try:
        yield
    finally:
        timer.cancel()


def _complain(error: SequencerError, words: Dialect | None, here: Dialect) -> None:
    from sequencer.wording.complaints import complaint, dialect_of, fault_text

    room = Room(words or dialect_of(error) or here)
    if isinstance(error, InputError):
        for fault in error.faults:
            _say(fault_text(fault, room), red=True)
    else:
        _say(f"sequencer: {complaint(error, room)}", red=True)


def _say(text: str, *, red: bool = False) -> None:
    """A message; `red` colours its first line on a terminal that takes colour."""
    first, line_end, rest = _printable(text).partition("\n")
    plain = "NO_COLOR" in os.environ or os.environ.get("TERM") == "dumb"
    if red and not plain and sys.stderr.isatty():
        first = f"\x1b[31m{first}\x1b[39m"
    print(f"{first}{line_end}{rest}", file=sys.stderr)  # noqa: T201  the console is ours


def _room(options: argparse.Namespace) -> Room:
    """Of the shop whose files were read; of the place until then."""
    return Room(options.words or options.here)


def _print(text: str) -> None:
    print(_printable(text))  # noqa: T201  the result


def _printable(text: str) -> str:
    """Without what would drive the terminal: names come from files."""
    return "".join(c if c.isprintable() or c in "\n\t" else "\ufffd" for c in text)
