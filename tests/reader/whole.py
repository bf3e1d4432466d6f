"""A plan's paper and page read back whole, sawn from, and judged."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from sequencer.job.schema import Job, Shop
from sequencer.lengths import Unit
from sequencer.plan import Plan
from sequencer.sawside import view
from sequencer.sawside.cards import cards_of
from sequencer.sawside.state import Base, State
from sequencer.setups.given import Given
from sequencer.sheets import html
from tests.reader import agreed, checks, judged, lacking, leaves, page, paper
from tests.reader.sawing import Saw
from tests.reader.seen import lines
from tests.reader.told import Document
from tests.reader.words import Unreadable

NEAR: dict[Unit, Fraction] = {"in": Fraction(1, 800), "mm": Fraction(3, 100)}
"""No nearer do printed figures tell a place: a thousandth of an inch, a hundredth of a millimetre,
each rounded, one added to the other."""


def cards(plan: Plan, jobs: Sequence[Job], shop: Shop) -> page.Json:
    """What the browser is sent of a plan that nothing was done of."""
    given, choices = Given.of(jobs, shop).as_in(plan)
    return view.cards(State(Base("", given, plan, choices), plan, list(cards_of(plan))))


def read_back(plan: Plan, jobs: Sequence[Job], shop: Shop) -> list[str]:
    """All that paper and page tell wrongly of a plan: empty where they are right."""
    seen = lines(html(plan, "a4"))
    try:
        known = paper.read(seen)
        told = page.read(cards(plan, jobs, shop), known)
    except Unreadable as error:
        return [str(error)]
    wrong = faults(plan, seen, told)
    near = NEAR[plan.unit]
    found = Saw(told, near, known.decks).follow()
    wrong += [f"page, {each}" for each in found.wrong]
    for part in plan.parts:
        face = known.face_of(part.mark)
        wrong += [f"page, {each}" for each in judged.faults(part, found, face, near)]
    return wrong


def faults(plan: Plan, seen: Sequence[str], told: Document | None) -> list[str]:
    """What a paper's lines tell wrongly, and where given, otherwise than the page."""
    try:
        document = paper.read(seen)
    except Unreadable as error:
        return [str(error)]
    near = NEAR[plan.unit]
    found = Saw(document, near, document.decks).follow()
    wrong = list(found.wrong)
    for part in plan.parts:
        wrong += judged.faults(part, found, document.face_of(part.mark), near)
        wrong += lacking.faults(part, document, near)
    for each in (checks.faults, judged.strips, leaves.faults):
        wrong += each(document, found, near)
    wrong += agreed.front(document, near)
    wrong += judged.document(document, plan, near)
    if told is not None:
        wrong += agreed.differences(document, told)
    return wrong
