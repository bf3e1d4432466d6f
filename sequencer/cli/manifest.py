"""What a set of sheets was made from, and what belongs to it: `manifest.json` beside them."""

from __future__ import annotations

import json
import os
from collections.abc import Iterable, Mapping
from hashlib import sha256
from pathlib import Path
from typing import Any, TypeGuard

from msgspec import Struct

from sequencer.cli.version import VERSION
from sequencer.job.kept import Printed, as_data, from_data

MANIFEST = "manifest.json"
SCHEMA = "sequencer-set/1"
_MOST_BYTES = 1_000_000


class Manifest(Struct, frozen=True):
    """Digests are SHA-256: of the jobs' and the shop's texts by the names they were called by, of
    the set's files by theirs. `shop` is empty where the plan was made for the built-in one.
    `printed` tells which marks the doors of each job have, so that they keep them."""

    program: str
    jobs: Mapping[str, str]
    shop: Mapping[str, str]
    files: Mapping[str, str]
    printed: Mapping[str, Printed]

    def text(self) -> str:
        data = {"schema": SCHEMA, "program": self.program, "jobs": dict(self.jobs),
                "shop": dict(self.shop), "files": dict(self.files),
                "marks": as_data(self.printed)}  # fmt: skip
        return json.dumps(data, ensure_ascii=False, indent=1) + "\n"


def digest(data: bytes | str) -> str:
    return sha256(data.encode() if isinstance(data, str) else data).hexdigest()


def manifest(
    jobs: Mapping[str, str],
    shop: Mapping[str, str],
    files: Mapping[str, bytes],
    printed: Mapping[str, Printed],
) -> str:
    """The manifest's text, from the texts of what the set was made from, its files and marks."""
    made = Manifest(
        VERSION,
        {name: digest(text) for name, text in jobs.items()},
        {name: digest(text) for name, text in shop.items()},
        {name: digest(data) for name, data in files.items()},
        printed,
    )
    return made.text()


def read(folder: Path) -> Manifest | None:
    """The folder's manifest; `None` where it has none that can be read."""
    try:
        with (folder / MANIFEST).open("rb") as file:
            data = json.loads(file.read(_MOST_BYTES))
    except (OSError, ValueError, RecursionError):
        return None
    if not isinstance(data, dict) or data.get("schema") != SCHEMA:
        return None
    jobs, shop, files = (data.get(key) for key in ("jobs", "shop", "files"))
    if not (_digests(jobs) and _digests(shop) and _digests(files)):
        return None
    return Manifest(str(data.get("program")), jobs, shop, files, from_data(data.get("marks")))


def _digests(value: Any) -> TypeGuard[dict[str, str]]:
    return isinstance(value, dict) and all(isinstance(each, str) for each in value.values())


def not_of_the_set(folder: Path) -> tuple[str, ...]:
    """The files that are not as the folder's manifest has them: changed, missing or another
    plan's. Without a manifest nothing can be said."""
    known = read(folder)
    if known is None:
        return ()
    return tuple(name for name, was in known.files.items() if _digest_of(folder / name) != was)


def not_written(folder: Path, names: Iterable[str]) -> tuple[str, ...]:
    """Which of these files are there, but not as the folder's manifest says that this program wrote
    them: somebody else's, or changed since. The manifest itself is its own where it can be read."""
    known = read(folder)
    was = {} if known is None else known.files
    return tuple(
        name
        for name in names
        if os.path.lexists(folder / name)
        and not (name == MANIFEST and known is not None)
        and (name not in was or _digest_of(folder / name) != was[name])
    )


def _digest_of(path: Path) -> str:
    try:
        return digest(path.read_bytes())
    except OSError:
        return ""


def changed_since(folder: Path, texts: Mapping[str, str]) -> tuple[str, ...]:
    """Which of the files that the set was made from have another text by now, by the names that
    both know: of a name that only one knows nothing is said."""
    known = read(folder)
    if known is None:
        return ()
    was = {**known.jobs, **known.shop}
    return tuple(
        name for name, text in texts.items() if was.get(name, digest(text)) != digest(text)
    )
