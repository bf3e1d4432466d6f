"""`sequencer setups …`: list, readings, scales, show, add, note, forget, export, import."""

from __future__ import annotations

import argparse
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from fractions import Fraction
from typing import TYPE_CHECKING, Any, Literal

from sequencer.errors import UsageError
from sequencer.facts import Fact, commands, dialect_for, stores
from sequencer.saved import carrying
from sequencer.wording import Room
from sequencer.wording.helps import help_text

if TYPE_CHECKING:
    from sequencer.lengths import Unit
    from sequencer.saved.entry import Dialled, Entry
    from sequencer.saved.evidence import Noted, Reading
    from sequencer.saved.store import Store
    from sequencer.shelf import Gauge

_DAY = "%Y-%m-%d"

_Commands = Any  # argparse keeps the type of its sub-commands to itself


def add_to(programs: _Commands, parser_class: type[argparse.ArgumentParser], room: Room) -> None:
    """Add `setups` and its own commands to the program's."""
    setups = programs.add_parser("setups", help=help_text(room, "setups"))
    add_store(setups, room)
    own = setups.add_subparsers(
        metavar="DO", required=True, parser_class=parser_class, prog="sequencer setups"
    )

    def command(name: str, does: Callable[[argparse.Namespace], int]) -> Any:
        parser = own.add_parser(name, help=help_text(room, f"setups.{name}"))
        parser.set_defaults(command=does)
        parser.add_argument("--json", action="store_true", help=help_text(room, "setups.json"))
        return parser

    command("list", _list)
    command("readings", _readings)
    command("scales", _scales)
    worth = command("standards", _standards)
    worth.add_argument("plans", nargs="*", metavar="PLAN", help=help_text(room, "standards.plan"))
    show = command("show", _show)
    show.add_argument("number", type=int, metavar="NUMBER")
    _add_options(command("add", _add), room)
    _note_options(command("note", _note), room)
    forget = command("forget", _forget)
    forget.add_argument("numbers", nargs="+", metavar="NUMBER")
    export = command("export", carrying.export)
    export.add_argument("file", nargs="?", metavar="FILE")
    wall = command("chart", carrying.chart)
    wall.add_argument("file", nargs="?", metavar="FILE")
    wall.add_argument("--saw", metavar="NAME", help=help_text(room, "chart.saw"))
    merge = command("import", carrying.import_)
    merge.add_argument("file", metavar="FILE")
    merge.add_argument("--take", choices=("file", "here"), help=help_text(room, "import.take"))


def add_store(parser: argparse.ArgumentParser, room: Room) -> None:
    parser.add_argument("--settings", metavar="FILE", help=help_text(room, "store"))


def open_store(file: str | None, *, check: bool = True) -> Store:
    """The store that was named, or the user's own."""
    from sequencer.saved.place import settings_path
    from sequencer.saved.store import Store

    path = settings_path(file)
    return Store(path, lambda: time.strftime("%Y-%m-%dT%H-%M-%S"), check=check)


def _add_options(parser: argparse.ArgumentParser, room: Room) -> None:
    from sequencer.saw.fittings import CARRIERS, NUMBERED
    from sequencer.saw.kinds import KINDS

    kinds = [kind for kind, row in KINDS.items() if row.kerf is not None]
    parser.add_argument("--saw", required=True, help=help_text(room, "add.saw"))
    parser.add_argument("--cutter", required=True)
    parser.add_argument("--kerf", required=True, metavar="LENGTH", help=help_text(room, "add.kerf"))
    parser.add_argument("--carrier", required=True, choices=CARRIERS)
    parser.add_argument(
        "--knob", action="append", required=True, dest="knobs", metavar="KNOB=LENGTH[@READ]",
        help=help_text(room, "add.knob", knobs=tuple(NUMBERED)),
    )  # fmt: skip
    parser.add_argument("--makes", required=True, metavar="TEXT", help=help_text(room, "add.makes"))
    parser.add_argument("--kind", choices=kinds, help=help_text(room, "add.kind"))
    parser.add_argument(
        "--unit", choices=("in", "mm"), default="in", help=help_text(room, "add.unit")
    )
    parser.add_argument("--date", metavar="DATE", help=help_text(room, "add.date"))
    parser.add_argument("--note", default="", metavar="TEXT")
    _gauge_options(parser, room)


def _gauge_options(parser: argparse.ArgumentParser, room: Room) -> None:
    parser.add_argument("--gauge", nargs=2, metavar=("KIND", "NAME"), help=help_text(room, "gauge"))


def _note_options(parser: argparse.ArgumentParser, room: Room) -> None:
    parser.add_argument("number", type=int, nargs="?", metavar="NUMBER")
    parser.add_argument("text", nargs="?", metavar="TEXT", help=help_text(room, "note.text"))
    _gauge_options(parser, room)
    parser.add_argument("--no-gauge", action="store_true", help=help_text(room, "note.no_gauge"))
    parser.add_argument("--of", metavar="KNOB", help=help_text(room, "note.of"))
    for blade in ("sharpened", "checked"):
        said = help_text(room, f"note.{blade}")
        parser.add_argument(f"--{blade}", metavar="CUTTER", help=said)


def _list(options: argparse.Namespace) -> int:
    from sequencer.saved.place import settings_path

    path = settings_path(options.settings)
    entries: tuple[Entry, ...] = ()
    if path.exists():  # looking makes no file
        with open_store(options.settings) as store:
            entries = store.entries()
    _print_entries(options, entries)
    return 0


def _readings(options: argparse.Namespace) -> int:
    import json

    from sequencer.saved.evidence import to_data
    from sequencer.saved.listing import readings

    with _if_there(options) as store:
        found: tuple[Reading | Noted, ...] = ()
        if store is not None:
            found = (*store.readings(), *store.noted())
    if found:
        options.words = dialect_for(found[0].unit)
    if options.json:
        data = [{"number": each.number, **to_data(each)} for each in found]
        show(json.dumps(data, indent=1, ensure_ascii=False))
    else:
        show(readings(found, room_for(options)))
    return 0


def _scales(options: argparse.Namespace) -> int:
    import json

    from msgspec.structs import asdict

    from sequencer.saved.listing import kerfs as told
    from sequencer.saved.listing import scales

    with _if_there(options) as store:
        unit, found = ("in", []) if store is None else store.scales()
        kerfs = [] if store is None else store.kerfs(unit)
    options.words = dialect_for(unit)
    if options.json:
        data = [{"saw": saw, **asdict(scale)} for saw, scale, _ in found]
        data += [
            {"saw": saw, "cutter": cutter, "sharpened": sharpened, **asdict(kerf)}
            for saw, cutter, sharpened, kerf in kerfs
        ]
        show(json.dumps(data, indent=1, ensure_ascii=False, default=str))
    else:
        room = room_for(options)
        show("\n".join((scales(found, unit, room), *told(kerfs, unit, room))))
    return 0


def _standards(options: argparse.Namespace) -> int:
    """Blocks and marks worth making, over what is kept and the plans that were named."""
    from sequencer import contract
    from sequencer.facts import files
    from sequencer.job.load import read_text
    from sequencer.saved import standards

    plans = [
        contract.from_json(read_text(name, files.PLAN_WRITES_ONE()), name) for name in options.plans
    ]
    with _if_there(options) as store:
        entries = () if store is None else store.entries()
    units = [plan.unit for plan in plans] + [entry.unit for entry in entries]
    unit = units[0] if units else "in"
    options.words = dialect_for(unit)
    made = standards.worth_making(standards.dialled_in(entries, plans, unit), unit)
    data = {
        "blocks": [{"mark": each.mark, "thickness": str(each.thickness), "sets": each.sets}
                   for each in made.blocks],
        "marks": [str(at) for at, _ in made.marks], "sets": made.sets, "of": made.of, "unit": unit,
    }  # fmt: skip
    tell(options, data, *standards.told(made, unit))
    return 0


@contextmanager
def _if_there(options: argparse.Namespace) -> Iterator[Store | None]:
    """The store; looking makes no file."""
    from sequencer.saved.place import settings_path

    path = settings_path(options.settings)
    if not path.exists():
        yield None
        return
    with open_store(options.settings) as store:
        yield store


def _show(options: argparse.Namespace) -> int:
    from sequencer.saved.listing import sheet

    with open_store(options.settings) as store:
        entry = store.entry(options.number)
    if options.json:
        _print_entries(options, (entry,))
    else:
        show(sheet(entry, room_for(options, (entry,))))
    return 0


def _print_entries(options: argparse.Namespace, entries: Sequence[Entry]) -> None:
    import json

    from sequencer.saved.entry import to_data
    from sequencer.saved.listing import table

    if options.json:
        data = [{"number": entry.number, **to_data(entry)} for entry in entries]
        show(json.dumps(data, indent=1, ensure_ascii=False))
    else:
        show(table(entries, room_for(options, entries)))


def room_for(options: argparse.Namespace, entries: Sequence[Entry] = ()) -> Room:
    """Whoever saves settings in inches reads US words, from the first that is met on."""
    if entries:
        options.words = dialect_for(entries[0].unit)
    return Room(options.words or options.here)


def _add(options: argparse.Namespace) -> int:
    from sequencer.saved.entry import Entry, faults, slips

    unit: Unit = options.unit
    options.words = dialect_for(unit)
    kind = options.kind
    entry = Entry(
        saw=options.saw,
        cutter=options.cutter,
        kerf=length_of(options.kerf, unit),
        unit=unit,
        carrier=options.carrier,
        knobs=tuple(_dialled(text, kind, options) for text in options.knobs),
        makes=options.makes,
        date=_date(options.date),
        note=options.note,
    )
    wrong = faults(entry) or slips(entry)
    if wrong:
        raise UsageError(*wrong)
    with open_store(options.settings) as store:
        number = store.add(entry)
    tell(options, {"number": number}, commands.SAVED(number=number))
    return 0


def _date(text: str | None) -> str:
    """The day that was named, else today. Raises `UsageError` where there is no such day."""
    if text is None:
        return time.strftime(_DAY)
    try:
        day = time.strftime(_DAY, time.strptime(text, _DAY))
    except ValueError:
        day = None
    if day != text:  # 2025-1-5 would not stand in its place among others
        raise UsageError(stores.NO_DATE(text=text))
    return text


def _dialled(text: str, kind: str | None, options: argparse.Namespace) -> Dialled:
    from sequencer.saved.entry import Dialled
    from sequencer.saw.kinds import share_of

    knob, equals, rest = text.partition("=")
    value, at, read = rest.partition("@")
    if not equals:
        raise UsageError(commands.WRITE_KNOB(text=text))
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
    raise UsageError(commands.NO_GAUGE(kind=kind, kinds=GAUGES))


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
        raise UsageError(commands.NOTE_WHAT())
    said: list[Fact] = []
    marked: dict[str, int] = {}
    with open_store(options.settings) as store:
        known = tuple(dict.fromkeys(entry.cutter for entry in store.entries()))
        for cutter in blades:
            if cutter not in known:
                raise UsageError(
                    commands.NO_CUTTER(cutter=cutter, known=known)
                    if known
                    else commands.NO_CUTTER_YET(cutter=cutter)
                )
        for cutter in blades:
            doubted = cutter == options.sharpened
            marked[cutter] = count = store.doubt(cutter, doubted)
            state = commands.TO_BE_CHECKED if doubted else commands.CHECKED
            said.append(state(cutter=cutter, n=count))
        if options.text is not None:
            store.annotate(options.number, options.text)
        if options.gauge or options.no_gauge:
            gauge = None if options.no_gauge else _gauge(options.gauge)
            store.name_gauge(options.number, gauge, options.of)
        if options.number is not None:
            said.append(commands.NOTED(number=options.number))
    tell(options, {"number": options.number, "marked": marked}, *said)
    return 0


def _forget(options: argparse.Namespace) -> int:
    """Settings by their numbers; readings as r7, what else was found as n7."""
    asked = dict.fromkeys(options.numbers)
    kinds: dict[str, Literal["readings", "noted"]] = {"r": "readings", "n": "noted"}
    settings = [number for number in asked if number[:1] not in kinds]
    wrong = [number for number in asked if not number.lstrip("rn").isdigit()]
    if wrong:
        raise UsageError(commands.FORGET_WHAT(text=wrong[0]))
    with open_store(options.settings) as store:
        for number in settings:
            store.entry(int(number))  # all are there, or none is taken out
        for number in asked:
            if number[:1] in kinds:
                store.forget_evidence(kinds[number[0]], int(number[1:]))
        gone = [store.forget(int(number)) for number in settings]
    lines = [commands.FORGOTTEN(number=entry.number, makes=entry.makes) for entry in gone]
    lines += [commands.FORGOT(name=name) for name in asked if name[:1] in kinds]
    if gone:
        options.words = dialect_for(gone[0].unit)
    names = [name for name in asked if name[:1] in kinds]
    tell(options, {"forgotten": [*(entry.number for entry in gone), *names]}, *lines)
    return 0


def tell(options: argparse.Namespace, data: object, *lines: Fact) -> None:
    """What was done, in words, or as data for other programs."""
    import json

    if options.json:
        show(json.dumps(data, ensure_ascii=False))
        return
    for line in lines:
        show(room_for(options).say(line))


def show(text: str) -> None:
    """Without what would drive the terminal: names come from files."""
    shown = "".join(c if c.isprintable() or c in "\n\t" else "\ufffd" for c in text)
    print(shown)  # noqa: T201  the result
