"""The saw's words: each knob, carrier, state of the guard, pass and kind of step has its own; and
every change of a knob can be told."""

from __future__ import annotations

from fractions import Fraction
from typing import get_args

import pytest

from sequencer.plan import Change, GuardState
from sequencer.records import replace
from sequencer.saw.fittings import CARRIERS, KNOBS, MINUTES
from sequencer.saw.kinds import KINDS, PASSES
from sequencer.wording import Room, saws
from sequencer.wording.changes import cutter_words, said_in
from tests.proof import hand
from tests.wording.wrapped import Wrapped, baked_in

UK = Room("UK")
MADE_UP = Room("UK", translation=Wrapped())
SHOP = hand.make().shop


@pytest.mark.parametrize("room", [UK, MADE_UP])
def test_everything_of_the_saw_has_a_word(room: Room) -> None:
    said = [saws.knob(name, room) for name in KNOBS]
    said += [saws.moved(name, room) for name in KNOBS]
    said += [room.term(f"minutes.{key}") for key in MINUTES]
    said += [saws.title(kind, room) for kind in KINDS]
    said += [saws.verb(kind, room) for kind in KINDS]
    said += [saws.made_by(name, room) for name in PASSES if name != "outer"]
    said += [saws.way(name, room, grows=up) for name, row in KNOBS.items() if row.grows
             for up in (True, False)]  # fmt: skip
    for state in get_args(GuardState):
        said += [saws.guard(state, room), saws.guard_set(state, room)]
    for name in CARRIERS:
        each = saws.carrier(name, room)
        said += [each.name, each.short, each.put, each.surface, each.bears]
    said += [saws.cleared("fence", room), saws.cleared("stop", room)]
    said.append(saws.leaning(Fraction(-1, 8), "left", room))
    assert all(said)
    if room is MADE_UP:
        assert not [text for text in said if baked_in(text, ())]


@pytest.mark.parametrize(
    ("name", "kind", "called"),
    [
        ("blade 1", "blade", "blade 1"),
        ("combination", "blade", "combination blade"),
        ("wide dado", "dado", "wide dado"),
        ("wide", "dado", "wide grooving head"),
        ("set of two", "blade", "set of two blade"),
    ],
)
def test_a_cutter_is_called_alike_where_it_is_fitted_and_named(
    name: str, kind: str, called: str
) -> None:
    shop = replace(SHOP, cutters={name: {"kind": kind}})
    assert cutter_words(name, shop, UK) == called
    assert said_in(Change("cutter", None, name), shop, "in", UK).endswith(f"fit the {called}")


def quarter(knob: str, stood: str | None, number: str, side: str | None = None) -> Change:
    return Change(
        knob, None, number, None if stood is None else Fraction(stood), Fraction(number),
        side,  # type: ignore[arg-type]  # left or right
    )  # fmt: skip


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (Change("cutter", None, "blade"), "saw unplugged, fit the blade"),
        (Change("tilt", "-1 in 8", "0"), "blade square to the table"),
        (
            Change("tilt", "0", "-1 in 8"),
            "tilt the blade left 7.1°, away from the fence (1 in 8)",
        ),
        (Change("carrier", None, "crosscut-sled"), "put the crosscut sled on"),
        (
            Change("guard", "fitted", "cover"),
            "guard and riving knife off; over the blade instead: tunnel",
        ),
        (
            Change("guard", "fitted", "knife"),
            (
                "guard off, riving knife set below the top of the blade; "
                "over the blade instead: tunnel"
            ),
        ),
        (
            Change("stop", "3", "away"),
            "take the stop off the sled, so that no offcut is trapped against it",
        ),
        (quarter("fence", None, "2"), "set the fence to 2″"),
        (quarter("fence", None, "2", "left"), "set the fence, on the left of the blade, to 2″"),
        (quarter("fence", "9/4", "2"), "fence 1/4″ toward the blade"),
        (quarter("height", "1", "5/4"), "blade 1/4″ up"),
        (quarter("height", "1", "1"), "set the blade height to 1″"),
    ],
)
def test_a_change_is_told(change: Change, words: str) -> None:
    assert said_in(change, SHOP, "in", UK) == words
    own = ("blade", "tunnel", "in")
    assert not baked_in(said_in(change, SHOP, "in", MADE_UP), own)
