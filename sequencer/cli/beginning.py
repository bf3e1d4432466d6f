"""`sequencer new`: a job or a shop file to begin with."""

from __future__ import annotations

import argparse
from pathlib import Path

from sequencer.batch import in_text
from sequencer.cli import naming
from sequencer.cli.console import show
from sequencer.errors import SurroundingsError, UsageError
from sequencer.facts import commands

EXAMPLE_OPENING = {"in": "14 1/2 x 22 left", "mm": "370 x 560 left"}


def new(options: argparse.Namespace) -> int:
    """Write a job or a shop to begin with; nothing that is there is overwritten."""
    from sequencer.job import new as texts

    unit = options.unit
    openings = [texts.opening(each, unit) for each in options.what if texts.is_opening(each)]
    names = [each for each in options.what if not texts.is_opening(each)]
    if len(names) > 1 or (openings and options.shop):
        raise UsageError(commands.ONE_FILE())
    path = Path(names[0] if names else "shop.toml" if options.shop else "job.toml")
    name = options.name or in_text(path.stem)
    if options.shop:
        text = texts.new_shop(name, unit, naming.ending())
    elif openings or options.wood or options.thickness or unit == "mm":
        sizes = openings or [texts.opening(EXAMPLE_OPENING[unit], unit)]
        text = texts.new_job(in_text(str(path)), name, unit, options.wood, options.thickness, sizes)
    else:
        text = texts.starter(options.name)
    try:
        with path.open("x", encoding="utf-8") as file:
            file.write(text)
    except FileExistsError:
        raise SurroundingsError(commands.KEPT_FILE(path=str(path))) from None
    except OSError as error:
        reason = error.strerror or ""
        raise SurroundingsError(commands.UNWRITABLE(path=str(path), reason=reason)) from None
    show(str(path))
    return 0
