"""The wood of a plan in the round, each thing once: leaves, parts and strips that are alike share a
picture, and are named under it."""

from __future__ import annotations

from msgspec import Struct

from sequencer.facts import parts as called
from sequencer.instructions.words import marked_faces
from sequencer.plan import Door, Part, Plan
from sequencer.records import replace
from sequencer.sheets.rounds.leaves import leaf_picture
from sequencer.sheets.rounds.parts import part_picture
from sequencer.sheets.rounds.strips import strip_picture
from sequencer.wording import Room

_LEAF, _PART, _STRIP = (46.0, 58.0), (61.0, 25.0), (92.0, 17.0)
"""How large each is drawn, in mm."""


class Shown(Struct, frozen=True):
    """Pictures of one thing, with the marks of all that are like it and what they are called."""

    pictures: tuple[str, ...]
    marks: str
    name: str = ""


class Gathered(Struct, frozen=True):
    """`leaves` whole and pulled apart, `parts` with their joints, `strips` as they are crosscut."""

    leaves: tuple[Shown, ...]
    parts: tuple[Shown, ...]
    strips: tuple[Shown, ...]


def gathered(plan: Plan, room: Room) -> Gathered:
    """All of them."""
    return Gathered(_leaves(plan, room), _parts(plan, room), _strips(plan, room))


def _leaves(plan: Plan, room: Room) -> tuple[Shown, ...]:
    known = {part.mark: _alike(part) for part in plan.parts}
    found: dict[object, list[Door]] = {}
    for door in plan.doors:
        places = tuple((known.get(p.mark), p.origin, p.axes) for p in door.places)
        panes = tuple(pane.box for pane in door.panes)
        found.setdefault((places, panes), []).append(door)
    return tuple(
        Shown(
            tuple(
                leaf_picture(plan, doors[0], room, apart=apart, width=_LEAF[0], height=_LEAF[1])
                for apart in (False, True)
            ),
            ", ".join(door.mark for door in doors),
        )
        for doors in found.values()
    )


def _parts(plan: Plan, room: Room) -> tuple[Shown, ...]:
    return tuple(
        Shown(
            (part_picture(plan, parts[0], room, *_PART),),
            ", ".join(part.mark for part in parts),
            room.listed(list(dict.fromkeys(room.say(part.name) for part in parts))),
        )
        for parts in alike(plan)
    )


def alike(plan: Plan) -> tuple[tuple[Part, ...], ...]:
    """The parts that one picture shows, of each kind."""
    faces = marked_faces(plan)
    found: dict[object, list[Part]] = {}
    for part in plan.parts:
        key = (_alike(part), faces.get(part.mark, "face"))
        found.setdefault(key, []).append(part)
    return tuple(map(tuple, found.values()))


def _strips(plan: Plan, room: Room) -> tuple[Shown, ...]:
    return tuple(
        Shown((strip_picture(plan, stick, room, *_STRIP),), stick.mark)
        for stick in plan.sticks
        if stick.pieces
    )


def _alike(part: Part) -> Part:
    """The part without what tells it from others that are cut alike."""
    features = tuple(replace(feature, mate=None) for feature in part.features)
    nameless = called.NAMED(name="piece")
    return replace(part, mark="", door="", role="", name=nameless, features=features)
