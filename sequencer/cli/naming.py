"""`sequencer shop`: what a saw and what is fitted to it are known by, asked for once."""

from __future__ import annotations

import argparse
import re
import secrets
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from sequencer.cli.console import show, tell
from sequencer.errors import SurroundingsError, UsageError
from sequencer.facts import Fact, Length, namings
from sequencer.saw.fittings import CARRIERS
from sequencer.wording import Room
from sequencer.wording.helps import help_text

if TYPE_CHECKING:
    from sequencer.job.document import Document
    from sequencer.job.edit import Edit
    from sequencer.job.schema import Shop
    from sequencer.saved.store import Store

BODIES = {"fence": "rip-fence", "sled": "crosscut-sled", "jig": "tenoning-jig"}
"""Fittings that may have names, each with the carrier that it is told as."""

_LETTERS = "23456789abcdefghjkmnpqrstuvwxyz"
"""Of an id's end: none that is taken for another."""


def add_to(programs: Any, room: Room) -> None:
    """Add the command `shop` and what it takes."""
    parser = programs.add_parser("shop", help=help_text(room, "shop.command"))
    parser.add_argument("file", nargs="?", default="shop.toml", metavar="SHOP")
    parser.add_argument("--settings", metavar="FILE", help=help_text(room, "store"))
    for name in ("saw", *BODIES):
        said = help_text(room, f"shop.{name}")
        parser.add_argument(f"--{name}", metavar="NAME", help=said)
    parser.add_argument(
        "--changed", action="append", choices=tuple(BODIES), default=[],
        help=help_text(room, "shop.changed"),
    )  # fmt: skip
    parser.add_argument("--sharpened", metavar="CUTTER", help=help_text(room, "shop.sharpened"))
    parser.add_argument("--kerf", metavar="LENGTH", help=help_text(room, "shop.kerf"))
    parser.add_argument("--was", metavar="NAME", help=help_text(room, "shop.was"))
    parser.set_defaults(command=shop)


def shop(options: argparse.Namespace) -> int:
    """Ask, or take from the options, what is written once; say how things stand."""
    from sequencer.batch import in_text
    from sequencer.facts import files
    from sequencer.job.document import read_document
    from sequencer.job.load import read_text
    from sequencer.saved.command import open_store

    text = read_text(options.file, files.NEW_SHOP())
    name = in_text(options.file)
    known = read_shop(text, name)
    options.words = known.words
    asks = sys.stdin is not None and sys.stdin.isatty() and not _answered(options)
    document = read_document(text, name)
    edits = [*_edits(options, known, document)]
    with open_store(options.settings) as store:
        if asks:
            edits += _interview(options, known, document, store)
        made = _written(text, name, edits, options)
        now = read_shop(made, name)
        for carrier in CARRIERS:
            with_ = now.made_with(carrier)
            # Without a name it was the only one; after a change it is another.
            if with_ and not known.made_with(carrier) and not options.changed:
                for saw in {known.known_as, now.known_as, options.was or now.known_as}:
                    store.refit(saw, carrier, "", with_)
        # What was kept of this very file so far is of its saw, too.
        for was in dict.fromkeys((options.was, known.known_as)):
            if was is None or was == now.known_as:
                continue
            moved = store.adopt(was, now.known_as)
            if moved:
                _say(options, namings.TAKEN_OVER(n=moved, name=was))
            elif was == options.was:
                raise UsageError(namings.NOTHING_KEPT(name=was))
        if options.sharpened is not None and options.kerf is None:
            _say(options, namings.MEASURE_KERF(name=options.sharpened))
        _say(options, *_stands(now, read_document(made, name), store))
    return 0


def _answered(options: argparse.Namespace) -> bool:
    given = (options.saw, options.sharpened, options.was, *(vars(options)[body] for body in BODIES))
    return bool(options.changed) or any(each is not None for each in given)


def read_shop(text: str, name: str) -> Shop:
    """The shop of a file's text, in the file's own unit. Raises `InputError`."""
    from sequencer.job.document import read_document
    from sequencer.job.shop import load_shop
    from sequencer.safety.rules import load

    return load_shop(text, name, read_document(text, name).unit, load().bounds)


def _edits(options: argparse.Namespace, known: Shop, document: Document) -> Iterator[Edit]:
    """What the options ask for. Raises `UsageError` where it cannot be."""
    from sequencer.job.edit import Edit

    if options.kerf is not None and options.sharpened is None:
        raise UsageError(namings.KERF_OF_WHICH())
    if options.saw is not None:
        yield Edit("saw", "id", _new_id(options.saw))
    for body in BODIES:
        if (called := vars(options)[body]) is not None:
            yield Edit(body, "name", called)
    for body in options.changed:
        version = document.get((body, "version")) or 1
        yield Edit(body, "version", str(version + 1), bare=True)
    if options.sharpened is not None:
        names = [cutter.name for cutter in known.cutters]
        if options.sharpened not in names or not document.get(("cutter",)):  # or only assumed
            raise UsageError(namings.NO_SUCH_CUTTER(name=options.sharpened, file=document.file))
        at = names.index(options.sharpened)
        times = known.cutters[at].sharpened
        yield Edit("", "sharpened", str(times + 1), cutter=at, bare=True)
        if options.kerf is not None:
            yield Edit("", "kerf", options.kerf, cutter=at)


def _interview(
    options: argparse.Namespace, known: Shop, document: Document, store: Store
) -> Iterator[Edit]:
    """Questions on the terminal, each with what Enter means."""
    from sequencer.job.edit import Edit

    if document.get(("saw", "id")) is None:
        called = _ask(options, namings.WHICH_SAW(usual=known.name)) or known.name
        yield Edit("saw", "id", _new_id(called))
    for body, carrier in BODIES.items():
        if document.get((body, "name")) is None:
            called = _ask(options, namings.WHICH_FITTING(body=f"carrier.{carrier}"))
            if called:
                yield Edit(body, "name", called)
    others = store.likely(known.known_as, [cutter.name for cutter in known.cutters])
    for other, n in others.items():
        if options.was is None and _ask(options, namings.SAME_SAW(n=n, name=other)).lower() in (
            "y",
            "yes",
        ):
            options.was = other


def _ask(options: argparse.Namespace, question: Fact) -> str:
    # The console is ours here.
    print(_room(options).say(question), end=" ", file=sys.stderr, flush=True)  # noqa: T201
    return sys.stdin.readline().strip()


def _new_id(called: str) -> str:
    """The name with an end of its own, so that two saws of one name are two."""
    plain = re.sub(r"\s+", " ", called).strip() or "saw"
    return f"{plain} {ending()}"


def ending() -> str:
    """Four characters by chance: what tells a saw from another of its name."""
    return "".join(secrets.choice(_LETTERS) for _ in range(4))


def _written(text: str, name: str, edits: Sequence[Edit], options: argparse.Namespace) -> str:
    from sequencer.cli.swapping import rewrite
    from sequencer.job.edit import edited

    if not edits:
        return text
    made = edited(text, edits)
    if made is None:
        raise SurroundingsError(namings.BY_HAND(file=name))
    read_shop(made, name)  # it has to be a shop still
    rewrite(Path(options.file), made)
    tell(_room(options).say(namings.WRITTEN(file=name)))
    return made


def _stands(now: Shop, document: Document, store: Store) -> Iterator[Fact]:
    if document.get(("saw", "id")) is not None:
        yield namings.SAW_IS(id=now.known_as, n=store.saws().get(now.known_as, 0))
    else:
        yield namings.NO_NAME(file=document.file)
    for body, carrier in BODIES.items():
        if body in now.fittings:
            yield namings.FITTING_IS(body=f"carrier.{carrier}", name=now.fittings[body])
    for cutter in now.cutters:
        times = namings.SHARPENED(n=cutter.sharpened) if cutter.sharpened else None
        kerf = Length(cutter.kerf, document.unit)
        yield namings.CUTTER_IS(name=cutter.name, kerf=kerf, times=times)


def _say(options: argparse.Namespace, *lines: Fact) -> None:
    for line in lines:
        show(_room(options).say(line))


def _room(options: argparse.Namespace) -> Room:
    return Room(options.words or options.here)
