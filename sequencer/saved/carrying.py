"""`sequencer setups export` and `import`: settings and readings carried from store to store."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from sequencer.errors import SurroundingsError, UsageError
from sequencer.facts import Fact, commands

if TYPE_CHECKING:
    from sequencer.saved.entry import Entry
    from sequencer.saved.evidence import Noted, Reading


def export(options: argparse.Namespace) -> int:
    """Write all to a file, or to the screen; of a torn store what could be read."""
    from sequencer.saved.command import open_store
    from sequencer.saved.exchange import to_json
    from sequencer.saved.opening import DamagedError

    try:
        with open_store(options.settings) as store:
            entries, torn = store.entries(), None
            found: tuple[Reading | Noted, ...] = (*store.readings(), *store.noted())
    except DamagedError as error:
        entries, torn, found = error.read, error, ()
    if torn is None or entries:
        _write(options, to_json(entries, found))
    if torn is not None:
        raise torn
    return 0


def chart(options: argparse.Namespace) -> int:
    """Write a chart of the settings of one saw."""
    from sequencer.saved.chart import page
    from sequencer.saved.command import open_store, room_for

    with open_store(options.settings) as store:
        entries = store.entries()
    saws = dict.fromkeys(entry.saw for entry in entries)
    saw = options.saw or next(iter(saws), "")
    if (options.saw is None and len(saws) != 1) or saw not in saws:
        raise UsageError(commands.WHICH_SAW(known=tuple(saws)))
    own = [entry for entry in entries if entry.saw == saw]
    _write(options, page(saw, own, room_for(options, own)))
    return 0


def _write(options: argparse.Namespace, text: str) -> None:
    from sequencer.saved.command import tell

    file = options.file
    if file is None:
        sys.stdout.write(text)
        return
    try:
        with Path(file).open("x", encoding="utf-8") as out:
            out.write(text)
    except FileExistsError:
        raise SurroundingsError(commands.KEPT_FILE(path=file)) from None
    except OSError as error:
        reason = error.strerror or ""
        raise SurroundingsError(commands.UNWRITABLE(path=file, reason=reason)) from None
    tell(options, {"file": file}, commands.WRITTEN(path=file))


def import_(options: argparse.Namespace) -> int:
    """Take in what an export wrote; where both differ, ask."""
    from sequencer.job.load import read_text
    from sequencer.saved.command import open_store, room_for, tell
    from sequencer.saved.exchange import found_in, from_json, newer

    text = read_text(options.file)
    entries = from_json(text, options.file)
    found = found_in(text, options.file)

    def ask(known: Entry, entry: Entry) -> bool:
        if options.take or not sys.stdin.isatty():
            return options.take == "file" if options.take else newer(known, entry)
        asked = commands.TAKE_IT(number=known.number, each=_both(known, entry))
        # The console is ours here.
        print(room_for(options, (entry,)).say(asked), end=" ", file=sys.stderr, flush=True)  # noqa: T201
        return sys.stdin.readline().strip().lower() in ("y", "yes")

    with open_store(options.settings) as store:
        merged = store.merge(entries, ask, found)
    added, replaced, joined = len(merged.added), len(merged.taken), len(merged.joined)
    lines = [commands.MERGED(added=added, replaced=replaced, joined=joined)]
    for known, entry in merged.differed:
        side = "taken" if known.number in merged.taken else "kept"
        lines.append(
            commands.DIFFERED(number=known.number, side=f"side.{side}", each=_both(known, entry))
        )
    data = {"added": merged.added, "replaced": merged.taken, "joined": merged.joined,
            "kept": merged.kept}  # fmt: skip
    tell(options, data, *lines)
    return 0


def _both(known: Entry, entry: Entry) -> tuple[Fact, ...]:
    """What two copies of a setting say otherwise, each beside the other."""
    from sequencer.saved.exchange import difference

    def said(one: Entry, field: str) -> str:
        if field == "knobs":
            return ", ".join(
                f"{knob.knob} {knob.value if knob.read is None else knob.read}"
                + (f" ({knob.gauge.kind} {knob.gauge.name})" if knob.gauge else "")
                for knob in one.knobs
            )
        return str(getattr(one, field)) or "–"

    return tuple(
        commands.BOTH_SAY(field=field, here=said(known, field), there=said(entry, field))
        for field in difference(known, entry)
    )
