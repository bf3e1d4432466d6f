"""What is spoiled is made again: pieces at the cheapest later point, sticks and test pieces before
the next cut that needs them."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from sequencer.facts import Fact, Length, answers, cards, mendings, taps
from sequencer.sawside import view
from sequencer.sawside.fold import current
from sequencer.sawside.mending import mending
from sequencer.wording import Room
from tests.sawside.driver import PANTRY, Saw, block_files, exact, files_of
from tests.told import mm


def step(number: int) -> Fact:
    return cards.STEP(label=str(number))


def whole(saw: Saw) -> bool:
    return set(saw.state.done) >= {placed.operation for placed in saw.state.plan.ordering.order}


def told(saw: Saw, mark: str) -> dict[str, list[Fact]]:
    """What the card for a spoiled piece says, by the ids of the facts; not what paper tells too."""
    key = saw.state.spoiled[mark].card
    place, card = saw.state.card(key)
    found: dict[str, list[Fact]] = {}
    for fact in mending(card, place, saw.state, Room("UK"))[1]:
        if isinstance(fact, Fact):
            found.setdefault(fact.id, []).append(fact)
    return found


@pytest.mark.parametrize(
    ("step", "ticks", "mark", "minutes", "operations"),
    [
        # The rip's own setting still stands when its setup ends: no minute more.
        ("3", 1, "#5", "0", ["#5/rip"]),
        # A groove that is turned, until it is good (3.6 test cuts: 6 minutes), and its depth (1¾).
        ("7", 1, "#2", "55/4", ["#2/rip", "#2/groove/outer"]),
        ("9", 4, "#4", "19", ["#4/rip", "#4/groove/outer", "#4/square"]),
        ("6", 0, "#1", "1", ["#1/rip"]),
        ("13", 0, "#1a", "45/2", ["#1/rip", "#1/groove/outer", "#1/square", "#1a/crosscut"]),
    ],
)
def test_sticks_and_test_pieces(
    saw: Saw, step: str, ticks: int, mark: str, minutes: str, operations: list[str]
) -> None:
    saw.go_to_step(step)
    for _ in range(ticks):
        saw.step()
    saw.do(kind="spoil", mark=mark)
    spoiled = saw.state.spoiled[mark]
    assert list(spoiled.operations) == operations
    assert spoiled.minutes == Fraction(minutes)
    # Made before the next test cut on it and before the next piece of it.
    again = next(n for n, card in enumerate(saw.state.cards) if card.key == spoiled.card)
    stick = next((s for s in saw.state.plan.sticks if s.mark == mark), None)
    pieces = {piece.mark for piece in stick.pieces} if stick else set()
    later = saw.state.cards[saw.state.now : again]
    assert not any(card.kind == "test" and mark in card.step.marks for card in later if card.step)
    assert not any(unit.of in pieces for card in later for unit in card.units)
    saw.finish()
    assert whole(saw)
    assert not saw.state.spoiled


def test_what_the_card_says(saw: Saw) -> None:
    saw.go_to_step("13")
    saw.do(kind="spoil", mark="#1a")
    assert saw.card.kind == "remake"
    said = told(saw, "#1a")
    assert said["mending.spoiled-at"] == [mendings.SPOILED_AT(mark="#1a", at=step(13))]
    assert said["mending.piece"][0].given["length"] == mm("447")
    cut_at = [fact.given["places"] for fact in said["mending.as-in"]]
    for each in (3, 7, 9):  # ripped, grooved, crosscut
        assert (step(each),) in cut_at
    assert said["mending.setting-up"] == [mendings.SETTING_UP(n=22)]
    # In the middle of a setup, the saw has to be brought back.
    setup = next(s for s in saw.state.plan.setups if s.number == 8)
    settings = said["mending.set-back"][0].given["settings"]
    assert isinstance(settings, tuple)
    assert next(stood.given["at"] for stood in settings if isinstance(stood, Fact)) == mm("47")
    assert setup.reading == Fraction("47")


def test_a_stick_need_only_be_long_enough_for_what_is_left(saw: Saw) -> None:
    saw.go_to_step("9")
    while saw.unit.of != "B3":
        saw.step()
    saw.do(kind="spoil", mark="#4")
    (said,) = told(saw, "#4")["mending.strip"]
    assert said.given["marks"] == ("B3",)
    length = next(s.size.length for s in saw.state.plan.sticks if s.mark == "#4")
    assert said.given["length"] != Length(length, "mm")


def test_a_strip_that_is_tried_on_whole(tmp_path: Path) -> None:
    """No piece comes from it; all of it is wanted again."""
    saw = Saw(tmp_path / "events.sqlite", files_of(PANTRY.with_name("dresser")))
    whole = next(stick for stick in saw.state.plan.sticks if stick.test and not stick.pieces)
    saw.go(lambda card, _: card.step is not None and card.step.operations == (f"{whole.mark}/rip",))
    saw.tick()
    saw.do(kind="spoil", mark=whole.mark)
    (said,) = told(saw, whole.mark)["mending.strip"]
    assert said.given["length"] == Length(whole.size.length, saw.state.plan.unit)
    assert said.given["marks"] == (whole.mark,)
    saw.store.close()


def test_a_piece_spoiled_as_it_is_cut_from_its_stick(saw: Saw) -> None:
    """The next piece of the stick does not wait for it."""
    saw.go_to_step("9")
    while saw.unit.of != "A3":
        saw.step()
    saw.do(kind="spoil", mark="A3")
    assert saw.unit.of == "B3"
    saw.finish()
    assert whole(saw)


def test_a_piece_that_is_not_there_yet(saw: Saw) -> None:
    saw.go_to_step("7")
    refused = saw.send(kind="spoil", mark="A3")
    assert refused.says == (taps.NOT_CUT_YET(mark="A3", strip="#4"),)


def test_a_piece_whose_neighbour_comes_first_is_not_there_either(saw: Saw) -> None:
    saw.go_to_step("10")
    assert saw.unit.of == "A1"
    assert not saw.send(kind="spoil", mark="A2").kept
    assert "A2/crosscut" not in saw.state.done


def test_a_test_piece_that_nothing_is_tried_on_any_more(saw: Saw) -> None:
    saw.go_to_step("18")
    refused = saw.send(kind="spoil", mark="#1b")
    assert not refused.kept
    assert refused.says == (taps.NOT_NEEDED(mark="#1b"),)


def test_a_stile_spoiled_at_the_dry_fit_comes_before_it(saw: Saw) -> None:
    saw.go_to_step("19")
    saw.do(kind="spoil", mark="A1")
    assert saw.card.kind == "remake"
    saw.finish()
    assert whole(saw)


def test_a_piece_of_a_leaf_that_is_glued_up(saw: Saw) -> None:
    saw.go_to_step("27")
    refused = saw.send(kind="spoil", mark="A1")
    assert refused.says == (taps.GLUED_UP(door="A", mark="A1"),)


def test_the_saw_stands_elsewhere_afterwards(saw: Saw) -> None:
    """Made again between two setups: the next setting is told from where its last cut left it."""
    saw.go_to_step("12")
    saw.tick()
    saw.do(kind="spoil", mark="A3")
    spoiled = saw.state.spoiled["A3"]
    while saw.card.kind != "remake":
        saw.step()
    saw.tick()
    assert current(saw.state) is not None
    last = saw.state.held["fence"]
    assert last.operation in spoiled.operations
    assert not last.passed or not last.value.endswith("tested")
    following = next(c for c in saw.state.cards[saw.state.now :] if c.kind == "set")
    moves = view.stand(saw.state)["moves"]
    assert moves["moves"]
    while saw.card.key != following.key:
        saw.step()
    saw.tick()
    wanted = next(p.state for p in saw.state.plan.ordering.order if p.operation == following.first)
    assert {knob: held.value for knob, held in saw.state.held.items()} == dict(wanted)


@pytest.mark.parametrize(("mark", "moved"), [("B1", True), ("A3", False)])
def test_what_was_tried_out_and_is_moved_is_told(saw: Saw, mark: str, moved: bool) -> None:
    """At the first slots: a stile is made again before the second, for which the fence is kept as
    it was tried out; a rail before the cheeks, which are tried out anyway."""
    saw.go_to_step("14")
    saw.tick()
    saw.do(kind="spoil", mark=mark)
    fence = [mendings.TRIED_AND_MOVED(setting="moved.fence")] if moved else None
    assert told(saw, mark).get("mending.tried-and-moved") == fence


def test_undo_brings_the_piece_back(saw: Saw) -> None:
    saw.go_to_step("12")
    saw.tick()
    before = ([c.key for c in saw.state.cards], dict(saw.state.units), saw.state.now)
    saw.do(kind="spoil", mark="A3")
    saw.do(kind="undo", of=saw.state.taps[-1][0])
    assert ([c.key for c in saw.state.cards], dict(saw.state.units), saw.state.now) == before
    assert saw.state.spoiled == {}


def test_the_cheapest_place_is_found_again_when_the_plan_changes(saw: Saw) -> None:
    """A stile's second slot is cut before the stile is made again, then the kerf is measured."""
    saw.go_to_step("14")
    saw.tick()
    saw.do(kind="spoil", mark="A3")
    before = saw.state.spoiled["A3"]
    cutter = saw.state.plan.setups[0].cutter
    saw.do(kind="measure", what="kerf", name=cutter, text="3.1")
    assert saw.state.plan is not saw.state.base.plan
    after = saw.state.spoiled["A3"]
    assert (after.card, after.at) == (before.card, before.at)
    place = next(n for n, card in enumerate(saw.state.cards) if card.key == after.card)
    assert saw.state.cards[place - 1].kind == "leave"
    assert saw.state.cards[place + 1].kind == "set"
    saw.finish()
    assert whole(saw)


@pytest.mark.parametrize("off", [Fraction(1, 2), Fraction(20)], ids=["a little", "far"])
def test_a_first_piece_that_is_too_short_is_spoiled_and_the_next_is_measured(
    saw: Saw, off: Fraction
) -> None:
    """No stop makes it longer again: that is said, however far it is off; what is spoiled is not
    measured any more."""
    saw.go(lambda card, unit: card.kind == "work" and unit.point is not None)
    card, point = saw.card, saw.card.points[0]
    first, second, *_ = (unit.of for unit in card.units if unit.point is None)
    outcome = saw.send(kind="read", card=card.key, unit=saw.unit.name,
                       text=exact(point.low - off, saw.state))  # fmt: skip
    told = {fact.kind: fact.given for fact in outcome.says}
    assert told[answers.TOO_SHORT]["mark"] == first
    saw.do(kind="spoil", mark=first)
    assert saw.card.key == card.key
    assert saw.unit.of == second
    saw.tick()
    assert saw.unit.point == 0
    saw.read(saw.wanted())
    saw.finish()
    assert whole(saw)


def test_the_saw_is_brought_back_with_the_block_that_stood_there(tmp_path: Path) -> None:
    """A test piece is spoiled once the jig is set with a block before it."""
    saw = Saw(tmp_path / "blocks.sqlite", block_files())
    while not (saw.card.kind == "test" and saw.card.setup and saw.card.setup.spacer):
        saw.step()
    saw.do(kind="spoil", mark=saw.unit.of)
    place, card = saw.state.card(next(iter(saw.state.spoiled.values())).card)
    lines = mending(card, place, saw.state, Room("UK"))[1]
    assert mendings.SET_BACK in [each.kind for each in lines if isinstance(each, Fact)]
    assert "7/64″ block between jig and piece" in map(str, lines)


def test_a_panel_of_several_boards_is_glued_up_again(tmp_path: Path) -> None:
    """Its strip is what is ticked where boards are glued up; spoiled once it is cut, a panel is
    glued up again before it is ripped, as in the step that says how."""
    made = Saw(tmp_path / "followed.sqlite", files_of(PANTRY.parent / "wall-cabinet"))
    (strip,) = (stick.mark for stick in made.state.plan.sticks if stick.boards is not None)
    card = next(c for c in made.state.cards if c.step and c.step.kind == "edge glue-up")
    assert [unit.of for unit in card.units] == [strip]
    made.go(lambda _card, _unit: "A5/crosscut" in made.state.done)
    made.do(kind="spoil", mark="A5")
    again = made.state.spoiled["A5"].operations
    assert again.index(f"{strip}/edge-glue-up") < again.index(f"{strip}/rip")
    assert card.where in [place for fact in told(made, "A5")["mending.as-in"] for place in
                          fact.given["places"]]  # type: ignore[union-attr]  # fmt: skip
    made.finish()
    assert whole(made)
    made.store.close()
