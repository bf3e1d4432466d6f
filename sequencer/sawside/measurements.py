"""What was measured, worked into the jobs: the doors as they really are.

A planned number becomes the measured one in every door that had it. Free widths are pinned as soon
as something was cut to them, so that a later change of the kerf cannot move what is already there.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from fractions import Fraction
from typing import Literal

from msgspec import Struct

from sequencer.errors import Refusal
from sequencer.facts import Length
from sequencer.facts import measurements as facts
from sequencer.job.kinds import Raised
from sequencer.job.schema import Door
from sequencer.joints import JOINTS, JointSizes
from sequencer.lengths import convert
from sequencer.methods import Choices
from sequencer.records import replace
from sequencer.saw.operation import OperationId
from sequencer.setups.given import Given

What = Literal["kerf", "thickness", "panel", "groove", "slot", "opening-width", "opening-height"]

LEAST_PLAY = Fraction(1, 20)
"""mm: a panel needs at least this much room in its groove to slide in; ours."""


class Measurement(Struct, frozen=True):
    """`planned` became `measured`. `name` is the cutter's for a kerf, the leaf's mark for an
    opening, else empty. `cut` are the kinds of cut that had been made, or tried and accepted, by
    then."""

    what: What
    name: str
    planned: Fraction
    measured: Fraction
    cut: frozenset[str] = frozenset()


def word_of(what: What) -> str:
    """The term for what is measured."""
    return f"measured.{what}"


def work_in(measurements: Sequence[Measurement], given: Given, choices: Choices) -> Given:
    """What is given with every measurement in its order. Raises `Refusal` where one makes the rest
    impossible, with what would do."""
    for n, seen in enumerate(measurements):
        if seen.what in OPENINGS:
            if all(other.what != seen.what for other in measurements[:n]):
                given = _fitted(seen.what, measurements, given, choices)
        else:
            given = _WORK_IN[seen.what](seen, given, choices)
    return given


def _kerf(seen: Measurement, given: Given, choices: Choices) -> Given:
    dado = choices.dado is not None and choices.dado.name == seen.name
    if dado and "cheek" in seen.cut:
        return given  # the tenons are fitted to the slots already

    def pinned(door: Door, sizes: JointSizes) -> Door:
        if "groove" in seen.cut:
            width = sizes.groove[1] - sizes.groove[0]
            door = replace(door, groove=replace(door.groove, width=width))
        if seen.cut & {"groove", "mill"}:
            door = _with_panel(door, sizes.panel)
        if dado:
            return _slotted(door, sizes, seen.measured)  # one pass: its kerf is the slot
        if "slot" in seen.cut:
            door = replace(door, joint=replace(door.joint, slot=sizes.slot_width))
        return door

    kept = _each(given, choices, pinned)
    kerf = {**kept.measured.kerf, seen.name: seen.measured}
    return replace(kept, measured=replace(kept.measured, kerf=kerf))


def _thickness(seen: Measurement, given: Given, _choices: Choices) -> Given:
    known = dict(given.measured.thickness)
    doors = [door for job in given.jobs for door in job.doors]
    for nominal in dict.fromkeys(door.thickness for door in doors):
        if known.get(nominal, nominal) == seen.planned:
            known[nominal] = seen.measured
    return replace(given, measured=replace(given.measured, thickness=known))


def _panel(seen: Measurement, given: Given, choices: Choices) -> Given:
    unit = given.jobs[0].unit

    def planed(door: Door, sizes: JointSizes) -> Door:
        if isinstance(door.fill, Raised) and door.panel.thickness == seen.planned:
            return replace(door, panel=replace(door.panel, thickness=seen.measured))
        if door.fill is not None or sizes.panel != seen.planned:
            return door
        groove = sizes.groove[1] - sizes.groove[0]
        # Where the slot cannot follow, the groove does not widen.
        stays = _slot_is_fixed(door, choices) and seen.measured > sizes.panel
        if "groove" in seen.cut or door.groove.width is not None or stays:
            most = groove - convert(LEAST_PLAY, "mm", unit)
            if seen.measured > most:
                raise Refusal(
                    facts.PANEL_TOO_THICK(
                        panel=Length(seen.measured, unit),
                        groove=Length(groove, unit),
                        most=Length(most, unit),
                    )
                )
            door = replace(door, groove=replace(door.groove, width=groove))
        return replace(door, panel=replace(door.panel, thickness=seen.measured))

    return _each(given, choices, planed)


def _groove(seen: Measurement, given: Given, choices: Choices) -> Given:
    def cut(door: Door, sizes: JointSizes) -> Door:
        if sizes.groove[1] - sizes.groove[0] != seen.planned:
            return door
        if "mill" in seen.cut:
            door = _with_panel(door, sizes.panel)  # planed already, with the stock
        width = seen.measured
        over = width - sizes.slot_width
        if _slot_is_fixed(door, choices) and 0 < over <= door.joint.clearance:
            width = sizes.slot_width  # taken as one line, as in `_slotted`
        return replace(door, groove=replace(door.groove, width=width))

    return _each(given, choices, cut)


def _slot_is_fixed(door: Door, choices: Choices) -> bool:
    """Whether the slot keeps its width whatever the groove's is: a groove that is wider than it
    shows at the door's end."""
    return door.joint.slot is not None or choices.dado is not None


def _slot(seen: Measurement, given: Given, choices: Choices) -> Given:
    def cut(door: Door, sizes: JointSizes) -> Door:
        if sizes.slot_width != seen.planned:
            return door
        return _slotted(door, sizes, seen.measured)

    return _each(given, choices, cut)


def _slotted(door: Door, sizes: JointSizes, width: Fraction) -> Door:
    """The door with a slot `width` wide. What the groove is wider shows less at the door's end
    than the clearance beside it does; taken as one line, so that the joint can be drawn and proven
    as one. A tenon that begins where its slot does would stick out of a groove that is narrower by
    as little, and need a cut of its own to take off less than a shaving."""
    door = replace(door, joint=replace(door.joint, slot=width))
    over = sizes.groove[1] - sizes.groove[0] - width
    centred = sizes.tenon[0] + sizes.tenon[1] == sizes.thickness
    least = Fraction(0) if centred else -door.joint.clearance
    if over and least <= over <= door.joint.clearance:
        door = replace(
            door,
            groove=replace(door.groove, width=width),
        )
        door = _with_panel(door, sizes.panel)
    return door


def _with_panel(door: Door, edge: Fraction) -> Door:
    """The door with a flat panel of this thickness; a raised one has its field's own."""
    return (
        door if door.fill is not None else replace(door, panel=replace(door.panel, thickness=edge))
    )


def _fitted(
    what: What, measurements: Sequence[Measurement], given: Given, choices: Choices
) -> Given:
    """Every panel made to the openings that are: its play in the frame as drawn takes up half of
    what the opening is off by, on either side. Panels of a pair are of one size: the smaller of
    their openings counts, and one that was not measured counts as drawn."""
    off = dict[str, Fraction]()
    last = dict[str, Fraction]()
    for seen in measurements:
        if seen.what == what:
            off[seen.name] = off.get(seen.name, Fraction(0)) + seen.measured - seen.planned
            last[seen.name] = seen.measured
    key = "play_side" if what == "opening-width" else "play_end"

    def fitted(door: Door, sizes: JointSizes) -> Door:
        measured = [mark for mark in door.marks if mark in off]
        if not measured:
            return door
        drawn: Fraction = getattr(door.panel, key)
        play = drawn - min(off.get(mark, Fraction(0)) for mark in door.marks) / 2
        for mark in measured:
            # What stands in the larger opening of a pair must not fall out of its groove either.
            if not (play > 0 and play + off[mark] / 2 < sizes.groove_depth):
                raise Refusal(
                    facts.PANEL_TOO_SMALL(
                        door=mark,
                        what=word_of(what),
                        opening=Length(last[mark], given.jobs[0].unit),
                    )
                )
        if what == "opening-width":
            return replace(door, panel=replace(door.panel, play_side=play))
        return replace(door, panel=replace(door.panel, play_end=play))

    return _each(given, choices, fitted)


OPENINGS = ("opening-width", "opening-height")

_WORK_IN: dict[str, Callable[[Measurement, Given, Choices], Given]] = {
    "kerf": _kerf,
    "thickness": _thickness,
    "panel": _panel,
    "groove": _groove,
    "slot": _slot,
}


def _each(given: Given, choices: Choices, change: Callable[[Door, JointSizes], Door]) -> Given:
    """The jobs with `change` made to every door, given its sizes as they stand."""
    kerf = given.cutter.kerf
    jobs = []
    for job in given.jobs:
        doors = []
        for door in job.doors:
            joint = JOINTS[door.joint.kind]
            doors.append(change(door, joint.size(door, kerf, job.unit, given.measured, choices)))
        jobs.append(replace(job, doors=tuple(doors)))
    return replace(given, jobs=tuple(jobs))


def kinds_cut(operations: Collection[str]) -> frozenset[str]:
    """Which kinds of feature have been begun, from the names of the operations done."""
    kinds = ("groove", "slot", "mill", "cheek", "shoulder")
    return frozenset(kinds) & {OperationId.parse(name).what for name in operations}
