"""One helper a stage, so that a test stops where it asserts."""

from __future__ import annotations

from fractions import Fraction

from sequencer.doors import Leaf, make_leaves
from sequencer.job.load import load_job
from sequencer.job.schema import Job, Shop
from sequencer.job.shop import default_shop, load_shop
from sequencer.measured import Measured
from sequencer.methods import Choices
from sequencer.operations import Context, Operation, Work, make_operations
from sequencer.plan import Part, Plan, Span
from tests import once


def to_job(text: str) -> Job:
    return load_job(text, "job.toml")


def to_shop(text: str, job: Job) -> Shop:
    return load_shop(text, "shop.toml", job.unit) if text else default_shop(job.unit)


def to_leaves(text: str, shop: str = "", choices: Choices | None = None) -> tuple[Leaf, ...]:
    job = to_job(text)
    cutter = to_shop(shop, job).joinery_blade
    return make_leaves([job], cutter.kerf, Measured(), choices or Choices())


def to_parts(text: str, shop: str = "", choices: Choices | None = None) -> dict[str, Part]:
    leaves = to_leaves(text, shop, choices)
    return {part.mark: part for leaf in leaves for part in leaf.parts}


def to_work(text: str, shop: str = "", choices: Choices | None = None) -> Work:
    job = to_job(text)
    made = to_shop(shop, job)
    cutter = made.joinery_blade
    chosen = choices or Choices()
    context = Context(job.unit, made, chosen, cutter, cutter.kerf)
    return make_operations(make_leaves([job], cutter.kerf, Measured(), chosen), context)


def to_operations(
    text: str, shop: str = "", choices: Choices | None = None
) -> dict[str, Operation]:
    return {operation.id: operation for operation in to_work(text, shop, choices).operations}


def to_plan(text: str, shop: str = "") -> Plan:
    job = to_job(text)
    return once.planned([job], to_shop(shop, job))


def span(low: str, high: str) -> Span:
    return (Fraction(low), Fraction(high))
