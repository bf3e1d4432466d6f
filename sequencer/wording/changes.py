"""A change of a knob in words: what to move, which way and how far."""

from __future__ import annotations

from fractions import Fraction

from sequencer.facts import Length, Unit
from sequencer.plan import Change, Plan, Setup, ShopFacts
from sequencer.saw.fittings import SPACER
from sequencer.saw.values import AWAY, parse_lean
from sequencer.wording import saws
from sequencer.wording.catalogue import _
from sequencer.wording.numbers import inline, moved_by
from sequencer.wording.room import Room

_FIT = _("saw unplugged, fit the {name}")
_CUTTERS = {
    "blade": (_("blade"), _("{cutter} blade")),
    "dado": (_("grooving head"), _("{cutter} grooving head")),
}
"""What a cutter of a kind is, and how one is called whose name does not say so."""
_UPRIGHT = _("blade square to the table")
_TILT = _("tilt the blade {leaning}")
_COVERED = _("{guard}; over the blade instead: {cover}")
_SET = _("set the {knob} to {length}")
_SET_ON = {
    "left": _("set the {knob}, on the left of the blade, to {length}"),
    "right": _("set the {knob}, on the right of the blade, to {length}"),
}
_MOVE = _("{knob} {length} {way}")
_BETWEEN = _("put the {block} block between jig and piece")
_BLOCK = _("{block} block")
_STAYS_BETWEEN = _("{block} block between jig and piece")
_NO_BLOCK = _("no block between jig and piece any more")


def change_words(change: Change, plan: Plan, room: Room) -> str:
    """One change of a plan, beginning small: `fence 1/4″ toward the blade`."""
    return said_in(change, plan.shop, plan.unit, room)


def guarded(state: str, shop: ShopFacts, room: Room) -> str:
    """How guard and riving knife stand, and what covers the blade where the guard does not."""
    return _with_cover(state, saws.guard(state, room), shop, room)


def _with_cover(state: str, guard: str, shop: ShopFacts, room: Room) -> str:
    if state != "fitted" and shop.cover:
        return room.text(_COVERED, guard=guard, cover=shop.cover)
    return guard


def cutter_words(name: str, shop: ShopFacts, room: Room) -> str:
    """What a cutter is called wherever it is named: its own name, which must say what it is."""
    kind = shop.cutters[name]["kind"]
    what, named = _CUTTERS[kind]
    return room.own(name) if kind in name or what in name else room.text(named, cutter=name)


def block_words(thickness: Fraction, unit: Unit, room: Room) -> str:
    """What a block is called where it is laid out."""
    return room.text(_BLOCK, block=inline(Length(thickness, unit)))


def between(setup: Setup, unit: Unit, room: Room) -> str:
    """The block that stands between jig and piece; empty where none does."""
    if not setup.spacer:
        return ""
    return room.text(_STAYS_BETWEEN, block=inline(Length(setup.spacer, unit)))


def behind_now(setup: Setup, unit: Unit, room: Room) -> str:
    """The same, and that none does any more where one was just taken away."""
    gone = any(change.knob == SPACER and change.after == AWAY for change in setup.changes)
    return room.text(_NO_BLOCK) if gone else between(setup, unit, room)


def said_in(change: Change, shop: ShopFacts, unit: Unit, room: Room) -> str:
    """The same, where there is no plan whole."""
    knob, after = change.knob, change.after
    if knob == "cutter":
        return room.text(_FIT, name=cutter_words(after, shop, room))
    if knob == "tilt":
        lean = parse_lean(after)
        if not lean:
            return room.text(_UPRIGHT)
        return room.text(_TILT, leaning=saws.leaning(lean, shop.tilts, room))
    if knob == "carrier":
        return saws.carrier(after, room).put
    if knob == "guard":
        return _with_cover(after, saws.guard_set(after, room), shop, room)
    if after == AWAY:
        return saws.cleared(knob, room)
    assert change.number is not None
    if knob == SPACER:
        return room.text(_BETWEEN, block=inline(Length(change.number, unit)))
    if change.stood is None or change.stood == change.number:
        to = inline(Length(change.number, unit), shop.scale(knob))
        text = _SET if change.side is None else _SET_ON[change.side]
        return room.text(text, knob=saws.knob(knob, room), length=to)
    by = change.number - change.stood
    return room.text(
        _MOVE,
        knob=saws.moved(knob, room),
        length=moved_by(change.stood, change.number, unit, shop.scale(knob)),
        way=saws.way(knob, room, grows=by > 0),
    )
