"""`sequencer times`: what setting up took at this saw, in all its jobs, and into its shop file."""

from __future__ import annotations

import argparse
from collections.abc import Mapping
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING

from sequencer.batch import in_text
from sequencer.cli.console import show
from sequencer.cli.naming import read_shop
from sequencer.cli.swapping import rewrite
from sequencer.errors import SurroundingsError
from sequencer.facts import files, follows
from sequencer.job.document import read_document
from sequencer.job.edit import Edit, edited
from sequencer.job.load import read_text
from sequencer.lengths import mixed
from sequencer.wording import Room

if TYPE_CHECKING:
    from sequencer.saved.evidence import Noted, Reading


def times(options: argparse.Namespace) -> int:
    """Print the medians of what settings and test cuts took in all jobs of this saw; with --into,
    write them."""
    from sequencer.saved.evidence import Noted
    from sequencer.saved.memory import timed, typical
    from sequencer.sawside.command import followed_state, store_path
    from sequencer.sawside.saving import learned
    from sequencer.sawside.store import Store

    say = Room(options.words).say
    state, path = followed_state(options), store_path(options)
    noted = _noted(options)
    if state is not None:
        follows_ = Store(path).token()[:12]
        noted |= {f"{follows_}/{uid}": each for uid, each in learned(state).items()}
    found = typical(timed(each for each in noted.values() if isinstance(each, Noted)))
    if not found:
        show(say(follows.NOTHING_TIMED() if path.exists() else follows.NOTHING_FOLLOWED()))
        return 0
    for each in found:
        show(say(follows.TIMED(key=each.name, minutes=each.minutes, n=each.count)))
    if options.into is None:
        show(say(follows.PUT_INTO()))
        return 0
    file = in_text(options.into)
    text = read_text(options.into, files.NEW_SHOP())
    made = into_shop(text, file, {each.name: each.minutes for each in found})
    read_shop(made, file)  # a job file is no shop, and is left alone
    rewrite(Path(options.into), made)
    show(say(follows.WRITTEN(file=file)))
    return 0


def into_shop(text: str, file: str, minutes: Mapping[str, Fraction]) -> str:
    """The text of a shop file with `minutes` under [minutes], everything else as it stands.

    Raises `InputError` where it is no TOML, `SurroundingsError` where they cannot be written line
    by line.
    """
    read_document(text, file, files.NEW_SHOP())
    edits = [Edit("minutes", name, mixed(value)) for name, value in minutes.items()]
    made = edited(text, edits[::-1])  # each new one stands right below the header
    if made is None:
        raise SurroundingsError(follows.BY_HAND(file=file, why=(follows.NOT_LINE_BY_LINE(),)))
    return made


def _noted(options: argparse.Namespace) -> dict[str, Reading | Noted]:
    """What was found in earlier jobs of this saw, by its uid."""
    from sequencer.saved.command import open_store
    from sequencer.saved.place import settings_path

    path = settings_path(options.settings)
    if not path.exists():
        return {}
    saw = options.shop_read.known_as or options.shop_read.name
    with open_store(options.settings) as store:
        return {each.uid: each for each in store.noted(saw)}
