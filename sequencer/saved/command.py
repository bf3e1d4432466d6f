"""`sequencer setups …`: list, show, add, note, forget, export, import."""

from __future__ import annotations

import argparse
import sys
import time
from collections.abc import Callable, Sequence
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING, Any

from sequencer.errors import SurroundingsError, UsageError

if TYPE_CHECKING:
    from sequencer.lengths import Unit
    from sequencer.saved.entry import Dialled, Entry
    from sequencer.saved.store import Store
    from sequencer.shelf import Gauge

_Commands = Any  # argparse keeps the type of its sub-commands to itself


def add_to(commands: _Commands, parser_class: type[argparse.ArgumentParser]) -> None:
    """Add `setups` and its own commands to the program's."""
    setups = commands.add_parser("setups", help="settings that worked, kept and found again")
    add_store(setups)
    own = setups.add_subparsers(
        metavar="DO", required=True, parser_class=parser_class, prog="sequencer setups"
    )

    def command(name: str, does: Callable[[argparse.Namespace], int], says: str) -> Any:
        parser = own.add_parser(name, help=says)
        parser.set_defaults(command=does)
        parser.add_argument("--json", action="store_true", help="for other programs")
        return parser

    command("list", _list, "all of them, one a line")
    show = command("show", _show, "one with all that is known of it")
    show.add_argument("number", type=int, metavar="NUMBER")
    _add_options(command("add", _add, "keep one that was dialled in without a plan"))
    _note_options(command("note", _note, "write to one; name its gauge; say a blade was sharpened"))
    forget = command("forget", _forget, "take some out")
    forget.add_argument("numbers", type=int, nargs="+", metavar="NUMBER")
    export = command("export", _export, "write all to a file, or to the screen")
    export.add_argument("file", nargs="?", metavar="FILE")
    merge = command("import", _import, "take in what export wrote; nothing here is lost")
    merge.add_argument("file", metavar="FILE")
    which = merge.add_mutually_exclusive_group()
    which.add_argument("--theirs", action="store_true", help="where both differ, take the file's")
    which.add_argument("--ours", action="store_true", help="where both differ, keep what is here")


def add_store(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--store", metavar="FILE", help="the saved settings; without it, the user's own"
    )


def open_store(file: str | None, *, check: bool = True) -> Store:
    """The store that was named, or the user's own."""
    from sequencer.saved.place import default_path
    from sequencer.saved.store import Store

    path = default_path() if file is None else Path(file)
    return Store(path, lambda: time.strftime("%Y-%m-%dT%H-%M-%S"), check=check)


def _add_options(parser: argparse.ArgumentParser) -> None:
    from sequencer.saw.fittings import CARRIERS, NUMBERED
    from sequencer.saw.kinds import KINDS

    kinds = [kind for kind, row in KINDS.items() if row.kerf is not None]
    parser.add_argument("--saw", required=True, help="the shop's name, as the sheets give it")
    parser.add_argument("--cutter", required=True)
    parser.add_argument("--kerf", required=True, metavar="LENGTH", help="as measured in scrap")
    parser.add_argument("--carrier", required=True, choices=CARRIERS)
    parser.add_argument(
        "--knob", action="append", required=True, dest="knobs", metavar="KNOB=LENGTH[@READ]",
        help=f"{', '.join(NUMBERED)}: from guide to kerf, or height; what its scale read after @",
    )  # fmt: skip
    parser.add_argument("--makes", required=True, metavar="TEXT", help="such as: slot 1/4 in 3/4")
    parser.add_argument("--kind", choices=kinds, help="the cut, to correct for another kerf")
    parser.add_argument("--unit", choices=("in", "mm"), default="in", help="of plain numbers (in)")
    parser.add_argument("--date", metavar="DATE", help="as 2025-11-25 (today)")
    parser.add_argument("--note", default="", metavar="TEXT")
    _gauge_options(parser)


def _gauge_options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--gauge", nargs=2, metavar=("KIND", "NAME"),
        help="what sets it again: block, spacer or 'story stick', and what is written on it",
    )  # fmt: skip


def _note_options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("number", type=int, nargs="?", metavar="NUMBER")
    parser.add_argument("text", nargs="?", metavar="TEXT", help="in place of its note")
    _gauge_options(parser)
    parser.add_argument("--no-gauge", action="store_true", help="its gauge is gone")
    parser.add_argument("--of", metavar="KNOB", help="the gauge's knob (the guide's)")
    parser.add_argument(
        "--sharpened", metavar="CUTTER", help="sharpened or changed: kerf to be checked"
    )
    parser.add_argument(
        "--checked", metavar="CUTTER", help="measured again; its kerf stands in the shop file"
    )


def _list(options: argparse.Namespace) -> int:
    from sequencer.saved.place import default_path

    path = default_path() if options.store is None else Path(options.store)
    entries: tuple[Entry, ...] = ()
    if path.exists():  # looking makes no file
        with open_store(options.store) as store:
            entries = store.entries()
    _print_entries(entries, options.json)
    return 0


def _show(options: argparse.Namespace) -> int:
    from sequencer.saved.listing import sheet

    with open_store(options.store) as store:
        entry = store.entry(options.number)
    if options.json:
        _print_entries((entry,), True)
    else:
        _print(sheet(entry))
    return 0


def _print_entries(entries: Sequence[Entry], as_json: bool) -> None:
    import json

    from sequencer.saved.entry import to_data
    from sequencer.saved.listing import table

    if as_json:
        data = [{"number": entry.number, **to_data(entry)} for entry in entries]
        _print(json.dumps(data, indent=1, ensure_ascii=False))
    else:
        _print(table(entries))


def _add(options: argparse.Namespace) -> int:
    from sequencer.saved.entry import Entry

    unit: Unit = options.unit
    kind = options.kind
    entry = Entry(
        saw=options.saw,
        cutter=options.cutter,
        kerf=length_of(options.kerf, unit),
        unit=unit,
        carrier=options.carrier,
        knobs=tuple(_dialled(text, kind, options) for text in options.knobs),
        makes=options.makes,
        date=options.date or time.strftime("%Y-%m-%d"),
        note=options.note,
    )
    with open_store(options.store) as store:
        number = store.add(entry)
    _tell(options, {"number": number}, f"saved setting {number}")
    return 0


def _dialled(text: str, kind: str | None, options: argparse.Namespace) -> Dialled:
    from sequencer.saved.entry import Dialled
    from sequencer.saw.kinds import share_of

    knob, equals, rest = text.partition("=")
    value, at, read = rest.partition("@")
    if not equals:
        raise UsageError(f"{text}: write the knob, =, and its length, as fence=2 17/32")
    height = knob == "height"
    return Dialled(
        knob=knob,
        value=length_of(value, options.unit),
        read=length_of(read, options.unit) if at else None,
        share=Fraction(0) if height else share_of(kind) if kind else None,
        gauge=_gauge(options.gauge) if options.gauge and not height else None,
    )


def _gauge(words: Sequence[str]) -> Gauge:
    from sequencer.saved.entry import GAUGES
    from sequencer.shelf import Gauge

    kind, name = words
    for known in GAUGES:
        if kind == known and name.strip():
            return Gauge(known, name)
    raise UsageError(f"{kind}: a gauge is a {', '.join(GAUGES)}, with the name that stands on it")


def length_of(text: str, unit: Unit) -> Fraction:
    """A length of the command line. Raises `UsageError` where it is none."""
    from sequencer.facts import spellings
    from sequencer.lengths import LengthError, parse

    try:
        return parse(text, unit)
    except LengthError as error:
        typed = spellings.TYPED(text=text, message=error.message, hint=error.hint)
        raise UsageError(typed) from None


def _note(options: argparse.Namespace) -> int:
    blades = [name for name in (options.sharpened, options.checked) if name is not None]
    changes = options.text is not None or options.gauge or options.no_gauge
    if bool(blades) == (options.number is not None) or not (blades or changes):
        raise UsageError("name a setting and what to note, or --sharpened or --checked a cutter")
    said: list[str] = []
    marked: dict[str, int] = {}
    with open_store(options.store) as store:
        known = list(dict.fromkeys(entry.cutter for entry in store.entries()))
        for cutter in blades:
            if cutter not in known:
                raise UsageError(
                    f"no saved setting was dialled in with {cutter}: there are some of "
                    f"{', '.join(known) or 'no cutter at all'}"
                )
        for cutter in blades:
            doubted = cutter == options.sharpened
            marked[cutter] = count = store.doubt(cutter, doubted)
            state = "kerf to be checked" if doubted else "kerf checked"
            settings = "1 saved setting" if count == 1 else f"{count} saved settings"
            said.append(f"{cutter}: {settings} marked: {state}")
        if options.text is not None:
            store.annotate(options.number, options.text)
        if options.gauge or options.no_gauge:
            gauge = None if options.no_gauge else _gauge(options.gauge)
            store.name_gauge(options.number, gauge, options.of)
        if options.number is not None:
            said.append(f"noted: saved setting {options.number}")
    _tell(options, {"number": options.number, "marked": marked}, *said)
    return 0


def _forget(options: argparse.Namespace) -> int:
    with open_store(options.store) as store:
        for number in options.numbers:
            store.entry(number)  # all are there, or none is taken out
        gone = [store.forget(number) for number in dict.fromkeys(options.numbers)]
    lines = [f"forgotten: saved setting {entry.number}, {entry.makes}" for entry in gone]
    _tell(options, {"forgotten": [entry.number for entry in gone]}, *lines)
    return 0


def _export(options: argparse.Namespace) -> int:
    from sequencer.saved.exchange import to_json
    from sequencer.saved.opening import DamagedError

    try:
        with open_store(options.store) as store:
            entries, torn = store.entries(), None
    except DamagedError as error:
        entries, torn = error.read, error
    if torn is None or entries:
        _write(options, to_json(entries))
    if torn is not None:
        raise torn
    return 0


def _write(options: argparse.Namespace, text: str) -> None:
    file = options.file
    if file is None:
        sys.stdout.write(text)
        return
    try:
        with Path(file).open("x", encoding="utf-8") as out:
            out.write(text)
    except FileExistsError:
        raise SurroundingsError(f"{file}: already there, and kept; name another file") from None
    except OSError as error:
        raise SurroundingsError(f"{file}: cannot be written: {error.strerror}") from None
    _tell(options, {"file": file}, file)


def _import(options: argparse.Namespace) -> int:
    from sequencer.job.load import read_text
    from sequencer.saved.exchange import difference, from_json

    entries = from_json(read_text(options.file), options.file)

    def ask(known: Entry, entry: Entry) -> bool:
        if options.theirs or options.ours or not sys.stdin.isatty():
            return bool(options.theirs)
        fields = ", ".join(difference(known, entry))
        print(  # noqa: T201  the console is ours
            f"saved setting {known.number} differs in {fields}: take the file's? [y/N] ",
            end="", file=sys.stderr, flush=True,
        )  # fmt: skip
        return sys.stdin.readline().strip().lower() in ("y", "yes")

    with open_store(options.store) as store:
        merged = store.merge(entries, ask)
    counts = (len(merged.added), len(merged.taken), len(merged.joined))
    lines = ["{} added, {} replaced, {} with jobs more".format(*counts)]
    if merged.kept:
        numbers = ", ".join(str(number) for number in merged.kept)
        lines.append(
            f"differ and were kept as they are here: {numbers} (--theirs takes the file's)"
        )
    data = {"added": merged.added, "replaced": merged.taken, "joined": merged.joined,
            "kept": merged.kept}  # fmt: skip
    _tell(options, data, *lines)
    return 0


def _tell(options: argparse.Namespace, data: object, *lines: str) -> None:
    """What was done, in words, or as data for other programs."""
    import json

    for line in (json.dumps(data, ensure_ascii=False),) if options.json else lines:
        _print(line)


def _print(text: str) -> None:
    """Without what would drive the terminal: names come from files."""
    shown = "".join(c if c.isprintable() or c in "\n\t" else "\ufffd" for c in text)
    print(shown)  # noqa: T201  the result
