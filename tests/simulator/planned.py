"""Pairs brought to a plan as the command line brings them, or refused with their reasons.

This, and what draws pairs, is all of the simulator that knows the program under test.
"""

from __future__ import annotations

import json
from dataclasses import dataclass

from sequencer.batch import read_batch
from sequencer.contract import to_json
from sequencer.errors import InputError, Refusal
from sequencer.facts import Fact
from sequencer.pipeline import plan
from tests.simulator.pairs import Pair
from tests.simulator.scale import Json

SECONDS = 0.2
"""For the search of an order: a plan need not be the best to be sawn."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """The plan's JSON, or why there is none: ids of what the file's reader or a stage said, rules
    of safety by their id."""

    plan: Json | None
    reasons: tuple[str, ...] = ()


def outcome(pair: Pair) -> Outcome:
    texts = {"job.toml": pair.job, "shop.toml": pair.shop}
    try:
        jobs, shop = read_batch(["job.toml"], "shop.toml", texts.__getitem__)
        made = plan(jobs, shop, seconds=SECONDS)
    except InputError as error:
        return Outcome(None, tuple(sorted({fault.message.id for fault in error.faults})))
    except Refusal as error:
        return Outcome(None, tuple(sorted({_reason(fact) for fact in error.says})))
    return Outcome(json.loads(to_json(made)))


def _reason(fact: Fact) -> str:
    """The rule of a refusal by safety, else the fact's id."""
    given = dict(zip(fact.kind.takes, fact.values, strict=True))
    return str(given["rule"]) if "rule" in given else fact.id
