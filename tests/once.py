"""Plans that many tests ask for: worked out once in a run, whichever worker asks first.

The same input gives the same plan, and a plan comes back from its own text as it was: both are held
by tests of their own. So a plan that another worker has made is read from the run's folder.
"""

from __future__ import annotations

import os
from collections.abc import Sequence
from hashlib import sha256
from pathlib import Path

from sequencer import pipeline
from sequencer.contract import from_json, to_json
from sequencer.job.schema import Job, Shop
from sequencer.plan import Plan

_MADE: dict[str, Plan] = {}


def planned(jobs: Sequence[Job], shop: Shop, seconds: float | None = None) -> Plan:
    """What `pipeline.plan` makes of them. Raises as it does, each time anew."""
    key = sha256(repr((tuple(jobs), shop, seconds)).encode()).hexdigest()
    if key not in _MADE:
        _MADE[key] = _shared(key) or _share(key, pipeline.plan(jobs, shop, seconds=seconds))
    return _MADE[key]


FOLDER = "PLANS_OF_THIS_RUN"
"""The variable that tells all workers of a run where their plans are."""


def _folder() -> Path | None:
    told = os.environ.get(FOLDER)
    return Path(told) if told else None


def _shared(key: str) -> Plan | None:
    folder = _folder()
    if folder is None or not (folder / key).exists():
        return None
    return from_json((folder / key).read_text("utf-8"), key)


def _share(key: str, plan: Plan) -> Plan:
    folder = _folder()
    if folder is not None:
        part = folder / f"{key}.{os.getpid()}"
        part.write_text(to_json(plan), "utf-8")
        part.replace(folder / key)
    return plan
