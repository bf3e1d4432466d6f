"""What the rules of safety say, and that nothing of it is baked in."""

from __future__ import annotations

from fractions import Fraction as F  # noqa: N817  # many figures are easier read so

import pytest

from sequencer.facts import FACT, LENGTH, Fact, Kind, Length, Sort, Value
from sequencer.facts import cautions as c
from sequencer.facts.parts import OWN_NAME
from sequencer.safety.rules import load
from sequencer.safety.telling import hazard_kind
from sequencer.wording import Room
from sequencer.wording.cautions import TEXTS, parts_of
from sequencer.wording.hazards import HAZARDS
from tests.wording.wrapped import Wrapped, baked_in

STOP = c.SIDE_STOP(least=Length(F(5), "in"))
LONG = c.SIDE_STOP(least=None)


def filled(kind: Kind) -> Fact:
    """A fact of the kind with a value for every parameter."""
    given: dict[str, Value] = {name: value(name, sort) for name, sort in kind.takes.items()}
    return kind(**given)


def value(name: str, sort: Sort) -> Value:
    if sort is LENGTH:
        return Length(F(5) if name == "limit" else F(3), "in")
    if name == "least":
        return Length(F(2), "in")
    if name == "pieces":
        return (c.PART(mark="A1", name=OWN_NAME(name="A2")),)
    if name == "marks":
        return ("A1", "A2")
    if sort is FACT and name == "name":
        return OWN_NAME(name="A1")
    by_name: dict[str, Value] = {
        "cover": "A1",
        "woods": ("A1", "A2"),
        "held": c.CLAMP(side=STOP),
        "side": STOP,
        "why": c.E03(),
        "does": "cut.cheek",
    }
    return by_name.get(name, "A1")


def test_hazards_are_said_with_their_figures_and_how_it_is_held() -> None:
    said = parts_of(Room("UK"), c.C04_SLED(held=c.CLAMP(side=STOP)))
    assert said.hazard == "Blade out at the back."
    assert said.consequence == "A hand there is cut."
    assert said.avoidance == "Clamp the stop side (5″ or longer)."
    assert said.brief == said.avoidance
    long = parts_of(Room("UK"), c.C04_SLED(held=c.CLAMP_OR_HOLD(side=LONG)))
    assert long.avoidance == "Hold the stop side."


def test_a_refusal_says_pieces_cut_hazard_remedy_and_source() -> None:
    fact = c.REFUSED(
        pieces=(c.PART(mark="A1", name=OWN_NAME(name="hinge stile")), c.STICK(marks=("A2", "A3"))),
        does="cut.cheek",
        why=c.E03(),
        rule="E03",
        source="common practice",
    )
    assert Room("UK").say(fact) == (
        "A1 (hinge stile); strip for A2, A3, cheek: This cut frees the cheek's waste between blade "
        "and jig. It jams and is thrown back.\n"
        "    What would do: Turn the piece round, so that the waste falls on the open side.\n"
        "    Rule E03: common practice"
    )


@pytest.mark.parametrize("kind", HAZARDS, ids=str)
def test_every_part_is_a_sentence(kind: Kind) -> None:
    said = parts_of(Room("UK"), filled(kind))
    for part in (said.hazard, said.consequence, said.avoidance, *filter(None, [said.brief])):
        assert part[0].isupper() or part[0].isdigit(), part
        assert part.endswith("."), part
        assert "  " not in part, part


def test_what_is_printed_in_one_line_is_short() -> None:
    """About a line of the box, the figures in it."""
    for rule in load().by_id.values():
        for name, case in rule.cases.items():
            if case.word and rule.id not in load().standing:
                assert len(parts_of(Room("UK"), filled(hazard_kind(rule.id, name))).brief) <= 72


@pytest.mark.parametrize("kind", TEXTS, ids=str)
def test_no_word_is_baked_in(kind: Kind) -> None:
    room = Room("UK", translation=Wrapped())
    assert baked_in(room.say(filled(kind)), ["A1", "A2"]) == []
