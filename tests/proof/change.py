"""One change to a plan, as a slip would make it."""

from __future__ import annotations

from fractions import Fraction

from sequencer.plan import Cut, Door, Part, Place, Plan, Setup, Step, Stick
from sequencer.records import replace


def setup(plan: Plan, number: int, **values: object) -> Plan:
    """The plan with other values in one setup."""
    made: list[Setup] = [
        replace(s, **values) if s.number == number else s  # type: ignore[arg-type]
        for s in plan.setups
    ]
    return replace(plan, setups=tuple(made))


def step(plan: Plan, number: int, **values: object) -> Plan:
    """The plan with other values in one step."""
    made: list[Step] = [
        replace(s, **values) if s.number == number else s  # type: ignore[arg-type]
        for s in plan.steps
    ]
    return replace(plan, steps=tuple(made))


def cuts(plan: Plan, number: int, made: tuple[Cut, ...]) -> Plan:
    """The plan with other cuts in one step."""
    return step(plan, number, cuts=made)


def part(plan: Plan, mark: str, **values: object) -> Plan:
    made: list[Part] = [
        replace(p, **values) if p.mark == mark else p  # type: ignore[arg-type]
        for p in plan.parts
    ]
    return replace(plan, parts=tuple(made))


def door(plan: Plan, mark: str, **values: object) -> Plan:
    made: list[Door] = [
        replace(d, **values) if d.mark == mark else d  # type: ignore[arg-type]
        for d in plan.doors
    ]
    return replace(plan, doors=tuple(made))


def place(plan: Plan, mark: str, by: tuple[Fraction, Fraction, Fraction]) -> Plan:
    """The plan with one part put somewhere else in its door."""
    (home,) = (d for d in plan.doors if any(p.mark == mark for p in d.places))
    places: list[Place] = []
    for p in home.places:
        if p.mark == mark:
            x, y, z = p.origin
            places.append(replace(p, origin=(x + by[0], y + by[1], z + by[2])))
        else:
            places.append(p)
    return door(plan, home.mark, places=tuple(places))


def stick(plan: Plan, mark: str, **values: object) -> Plan:
    made: list[Stick] = [
        replace(s, **values) if s.mark == mark else s  # type: ignore[arg-type]
        for s in plan.sticks
    ]
    return replace(plan, sticks=tuple(made))


def of_kind(plan: Plan, kind: str, nth: int = 0) -> Step:
    """The nth step of a kind."""
    return [s for s in plan.steps if s.kind == kind][nth]


def renumbered(plan: Plan, steps: list[Step]) -> Plan:
    return replace(plan, steps=tuple(replace(s, number=n) for n, s in enumerate(steps, 1)))
