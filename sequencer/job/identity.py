"""What settings are kept with: a saw by its own id, its fittings by name and version; and what
tells one job from another, wherever its file lies."""

from __future__ import annotations

import json
from collections.abc import Sequence
from hashlib import sha256

from sequencer.job.document import Path
from sequencer.job.reader import Reader
from sequencer.job.schema import Jig, Job, Saw, Sled

KEYS = ("name", "id", "version")
"""Keys of the saw's and the fittings' tables that name them."""

MOST = 999
"""Versions, and times that a cutter was sharpened."""


def saw_id(reader: Reader) -> str | None:
    """What the saw is known by, wherever its file lies; `None` where the file states none."""
    return reader.text(("saw", "id"))


def fittings(reader: Reader) -> dict[str, str]:
    """Fence, sled and jig by what a setting is kept with: `tall fence`, or `tall fence, 2` after it
    was changed. One that has neither name nor version is left out."""
    if reader.table(("fence",)):
        reader.known(("fence",), ("name", "version"))
    found: dict[str, str] = {}
    for body in ("fence", "sled", "jig"):
        name = reader.text((body, "name")) or ""
        version = times(reader, (body, "version")) or 1
        if name or version > 1:
            found[body] = f"{name or body}, {version}" if version > 1 else name
    return found


def times(reader: Reader, path: Path) -> int:
    """A count, or 0 where there is none."""
    return reader.count(path, MOST) or 0 if reader.has(path) else 0


def by_itself(*what: Saw | Sled | Jig) -> str:
    """A name for a saw that nobody has named: of its own sizes, so that another saw whose file is
    called alike goes by another."""
    return f"unnamed-{sha256(repr(what).encode()).hexdigest()[:8]}"


def whole(jobs: Sequence[Job]) -> str:
    """What a batch is known by: its names, its woods, and the openings of its doors. Boards and
    frames that were measured belong to it alone."""
    doors = [door for job in jobs for door in job.doors]
    openings = {
        f"{d.opening.width} x {d.opening.height} {job.unit}" for job in jobs for d in job.doors
    }
    data = {
        "names": [job.name for job in jobs],
        "species": sorted({door.species for door in doors}),
        "openings": sorted(openings),
    }
    return json.dumps(data, ensure_ascii=False) if doors else ""


def same(one: str, other: str) -> bool:
    """Whether two batches, as `whole` has them, are one: of one name and wood, and with an opening
    in common, for a job is changed between plans, and many are called alike."""
    if not one or not other:
        return False
    first, second = json.loads(one), json.loads(other)
    alike = all(first[key] == second[key] for key in ("names", "species"))
    return alike and bool(set(first["openings"]) & set(second["openings"]))
