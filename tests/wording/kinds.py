"""Every kind of fact that there is."""

from __future__ import annotations

from functools import cache
from importlib import import_module
from pathlib import Path

import sequencer.facts
from sequencer.facts import Kind

PLUMBING = {"__init__", "model", "written"}


@cache
def every_kind() -> tuple[Kind, ...]:
    folder = Path(sequencer.facts.__file__).parent
    names = sorted(path.stem for path in folder.glob("*.py") if path.stem not in PLUMBING)
    modules = [import_module(f"sequencer.facts.{name}") for name in names]
    return tuple(kind for module in modules for kind in module.kind_of.kinds.values())
