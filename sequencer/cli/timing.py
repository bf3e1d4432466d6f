"""`sequencer times`: what setting up took at this saw, in all its jobs, and into its shop file."""

from __future__ import annotations

import argparse
import os
from pathlib import Path
from typing import TYPE_CHECKING

from sequencer.cli.console import show
from sequencer.errors import Refusal, SurroundingsError
from sequencer.facts import Fact, follows
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
    from sequencer.sawside.times import into_shop

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
    target = Path(options.into)
    try:
        text = into_shop(target.read_text("utf-8"), {each.name: each.minutes for each in found})
        part = target.with_name(f".{target.name}.{os.getpid()}.part")
        part.write_text(text, "utf-8")
        part.replace(target)
    except OSError as error:
        reason = error.strerror or str(error)
        raise SurroundingsError(follows.NOT_WRITTEN(file=str(target), reason=reason)) from None
    except UnicodeDecodeError as error:
        why: tuple[Fact, ...] = (follows.NOT_TOML(reason=str(error)),)
        raise SurroundingsError(follows.BY_HAND(file=str(target), why=why)) from None
    except Refusal as error:
        why = error.says
        raise SurroundingsError(follows.BY_HAND(file=str(target), why=why)) from None
    show(say(follows.WRITTEN(file=str(target))))
    return 0


def _noted(options: argparse.Namespace) -> dict[str, Reading | Noted]:
    """What was found in earlier jobs of this saw, by its uid."""
    from sequencer.saved.command import open_store
    from sequencer.saved.place import default_path

    path = default_path() if options.settings is None else Path(options.settings)
    if not path.exists():
        return {}
    saw = options.shop_read.known_as or options.shop_read.name
    with open_store(options.settings) as store:
        return {each.uid: each for each in store.noted(saw)}
