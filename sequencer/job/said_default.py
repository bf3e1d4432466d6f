"""Defaults as people say them, and as the reference has them: `"as hinge"`, `"centred"`. A file
may write one out: it is then as if the key were left out, and under a door the file's key too.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import cache
from typing import Any, Literal

from sequencer.job.defaults import packaged
from sequencer.job.document import Path
from sequencer.job.ranges import dotted


@cache
def said_defaults(kind: Literal["job", "shop"]) -> Mapping[str, str]:
    """By dotted key.

    >>> said_defaults("shop")
    {'saw.fence_height': 'ordinary'}
    """
    words: Mapping[str, str] = tomllib.loads(packaged("said_default.toml"))[kind]
    return words


_SPELT = {"centered": "centred"}


def without_defaults(data: Any) -> tuple[Any, frozenset[Path]]:
    """A file's data without what only says a default, and where that stood."""
    found: set[Path] = set()
    return _kept(data, (), found), frozenset(found)


def _kept(value: Any, path: Path, found: set[Path]) -> Any:
    if isinstance(value, list):
        return [_kept(each, (*path, index), found) for index, each in enumerate(value)]
    if not isinstance(value, dict):
        return value
    kept = {}
    for key, each in value.items():
        if _says_default(each, (*path, key)):
            found.add((*path, key))
        else:
            kept[key] = _kept(each, (*path, key), found)
    return kept


def _says_default(value: Any, path: Path) -> bool:
    if not isinstance(value, str):
        return False
    key = dotted(path)
    said = " ".join(value.split()).lower()
    usual = said_defaults("job").get(key, said_defaults("shop").get(key))
    return usual is not None and _SPELT.get(said, said) == usual
