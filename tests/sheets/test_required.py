"""What the sheets say of requirements: the first page's line, and the table."""

from __future__ import annotations

from fractions import Fraction

from sequencer.instructions.figures import Scale
from sequencer.plan import Plan, Requirement, Share
from sequencer.records import replace
from sequencer.sheets.required import held, required
from sequencer.wording import for_plan
from tests.proof.test_intent import EXAMPLES, example

PANTRY = next(path for path in EXAMPLES if path.parent.name == "pantry")


def plan_with(*requirements: Requirement) -> Plan:
    return replace(example(PANTRY), requirements=requirements)


SHARES = (
    Share("window", Fraction(2), 11),
    Share("pass", Fraction(1)),
    Share("reading", Fraction(1, 2), 11),
)


def must(worst: str) -> Requirement:
    return Requirement(
        what="gap-open",
        of=("A",),
        least=Fraction(0),
        most=None,
        kind="must",
        worst_least=Fraction(worst),
        worst_most=Fraction(3),
        first_try=None,
        share=SHARES,
        source="ours",
    )


def fit(share: str) -> Requirement:
    return replace(
        must("0"), what="tenon-in-slot", of=("A1", "A3", "B1"), most=Fraction(1, 4), kind="fit",
        first_try=Fraction(share), worst_least=Fraction(-1234, 1000),
    )  # fmt: skip


def said(plan: Plan) -> str:
    return held(plan, for_plan(plan))


def test_all_that_must_hold_does() -> None:
    assert said(plan_with(must("0.2"), must("0"))) == (
        "With every reading inside its window, all 2 things that must hold do even at the worst."
    )


def test_some_may_fail_and_the_least_share_is_told() -> None:
    """A share is rounded down: none is told better than it is."""
    assert said(plan_with(must("0.2"), must("-0.1"), fit("0.9"), fit("0.779"))) == (
        "With every reading inside its window, 1 of 2 things that must hold does even at the "
        "worst; the others may fail, see “What the doors are held to”. Of joints that are cut to "
        "fit, about 77 in 100 go together at the first try (air between tenon and slot)."
    )


def test_nothing_is_said_of_pieces_without_doors() -> None:
    assert said(plan_with()) == ""


def test_the_table_rounds_to_the_worse_side() -> None:
    plan = plan_with(must("-0.101"), fit("1/2"))
    scale = Scale.of(plan, for_plan(plan))
    gap, air = required(plan, scale)
    step = plan.checkpoints[11].at_step
    assert any(season.door == "A" and season.gap for season in plan.seasons)
    assert (gap.what, gap.doors) == ("The free side’s gap at its narrowest in the year", "A")
    assert (gap.wanted, gap.worst) == ("at least 0.00", "down to −0.11")
    assert gap.holds == "may fail"
    assert gap.takes == f"window in step {step} 2.00, passes 1.00"
    assert (air.doors, air.wanted, air.worst) == ("A, B", "0.00 to 0.25", "−1.24 to 3.00")
    assert air.holds == "50 in 100"


def test_every_example_tells_of_every_requirement() -> None:
    for path in EXAMPLES:
        plan = example(path)
        scale = Scale.of(plan, for_plan(plan))
        lines = required(plan, scale)
        assert len(lines) == len(plan.requirements) > 0
        assert all(line.what and line.doors and line.takes for line in lines)
