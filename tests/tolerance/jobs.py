"""Small jobs, each with one kind of joint, and the plans of them that go one given way."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from unittest.mock import patch

from sequencer import pipeline
from sequencer.job.load import load_job
from sequencer.job.shop import default_shop
from sequencer.plan import Checkpoint, Plan, Requirement
from sequencer.records import replace
from sequencer.setups.given import Given
from tests.joints.jobs import job


@cache
def planned(kind: str, bars: str = "", blocks: tuple[Fraction, ...] = (), **answers: str) -> Plan:
    """A millimetre door with this corner joint, and with a mid rail let in by a joint of `bars`, by
    the first open way with these answers, where such `blocks` are at hand."""
    text = job(kind, f'bars = "{bars}"' if bars else "", unit="mm")
    read = load_job(f'{text}[[door.bar]]\nkind = "mid rail"\n' if bars else text, "job.toml")
    shop = default_shop("mm")
    shop = replace(shop, tools=replace(shop.tools, blocks=blocks))
    given = Given.of([read], shop)
    way = next(
        each
        for each in given.open()
        if all(getattr(each, name) == answer for name, answer in answers.items())
    )
    with patch.object(Given, "open", lambda *_: (way,)):
        return pipeline.plan([read], shop)


def required(plan: Plan, what: str) -> Requirement:
    """The one of that kind."""
    (found,) = (each for each in plan.requirements if each.what == what)
    return found


def checked(plan: Plan, measure: str) -> tuple[int, Checkpoint]:
    """The check of a measure, with its place in the list."""
    (found,) = ((n, c) for n, c in enumerate(plan.checkpoints) if str(c.measure) == measure)
    return found


def with_check(plan: Plan, number: int, **values: object) -> Plan:
    """The plan with a check changed, its requirements yet to be worked out."""
    checks = list(plan.checkpoints)
    checks[number] = replace(checks[number], **values)  # type: ignore[arg-type]
    return replace(plan, checkpoints=tuple(checks), requirements=())
