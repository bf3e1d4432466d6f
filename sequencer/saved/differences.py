"""What differs between two plans: what somebody who printed the one must know of the other."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from sequencer.facts import Fact, Length, advices, differences
from sequencer.plan import Part, Plan, Setup

MOST = 12
"""Differences that are told one by one."""


def differ(now: Plan, then: Plan) -> tuple[Fact, ...]:
    """Line by line; empty where the same is cut in the same way."""
    if now.unit != then.unit:
        return (differences.OTHER_UNIT(),)
    found = [*_doors(now, then), *_pieces(now, then), *_strips(now, then), *_setups(now, then)]
    if len(found) > MOST:
        found[MOST:] = [differences.AND_MORE(n=len(found) - MOST)]
    return tuple(found)


def _doors(now: Plan, then: Plan) -> Iterator[Fact]:
    """Doors that stand under another mark: on paper and wood they have the old one."""
    are, were = (
        [(door.mark, (door.job, door.opening, door.hinge)) for door in plan.doors]
        for plan in (now, then)
    )
    for mark, door in were:
        alike = [other for other, each in are if each == door]
        if len(alike) == 1 and [each for _, each in were].count(door) == 1 and alike[0] != mark:
            yield differences.DOOR(was=mark, now=alike[0], write=f'mark = "{mark}"')


def _pieces(now: Plan, then: Plan) -> Iterator[Fact]:
    parts, were = ({part.mark: part for part in plan.parts} for plan in (now, then))
    if new := tuple(mark for mark in parts if mark not in were):
        yield differences.PIECES_NEW(marks=new)
    if gone := tuple(mark for mark in were if mark not in parts):
        yield differences.PIECES_GONE(marks=gone)
    for mark, part in parts.items():
        if mark in were and part != were[mark]:
            how = tuple(_piece(part, were[mark], now))
            if how:
                yield differences.PIECE(mark=mark, how=how)


def _piece(part: Part, was: Part, plan: Plan) -> Iterator[Fact]:
    for name in ("length", "width", "thickness"):
        size, then = getattr(part.size, name), getattr(was.size, name)
        if size != then:
            yield advices.SIZE_DIFFERS(
                what=f"size.{name}", now=Length(size, plan.unit), planned=Length(then, plan.unit)
            )
    if part.size == was.size and part.features != was.features:
        yield advices.JOINTS_DIFFER()


def _strips(now: Plan, then: Plan) -> Iterator[Fact]:
    were = {stick.mark: stick.size for stick in then.sticks}
    other = tuple(stick.mark for stick in now.sticks if were.get(stick.mark) != stick.size)
    if other:
        yield differences.STRIPS(marks=other)


def _setups(now: Plan, then: Plan) -> Iterator[Fact]:
    done, was_done = _operations(now), _operations(then)
    setups, were = ({setup.number: setup for setup in plan.setups} for plan in (now, then))
    pairs = _pairs(done, was_done)
    if new := tuple(number for number in setups if number not in pairs):
        yield differences.SETUPS_NEW(n=len(new), numbers=new)
    if gone := tuple(number for number in were if number not in pairs.values()):
        yield differences.SETUPS_GONE(n=len(gone), numbers=gone)
    for number, before in pairs.items():
        how = tuple(_settings(setups[number], were[before], now))
        if how:
            yield differences.SETUP(number=number, was=before, how=how)
    if list(pairs.values()) != sorted(pairs.values()):
        yield differences.ORDER()
    totals = [(len(plan.setups), plan.ordering.minutes) for plan in (now, then)]
    if totals[0] != totals[1]:
        (number, minutes), (was, took) = totals
        yield differences.TOTALS(setups=number, minutes=minutes, were=was, took=took)


def _operations(plan: Plan) -> Mapping[int, frozenset[str]]:
    """What each setup is for."""
    found: dict[int, set[str]] = {setup.number: set() for setup in plan.setups}
    for step in plan.steps:
        if step.setup is not None:
            found[step.setup].update(step.operations)
    return {number: frozenset(each) for number, each in found.items()}


def _pairs(
    done: Mapping[int, frozenset[str]], was: Mapping[int, frozenset[str]]
) -> Mapping[int, int]:
    """Which earlier setup each one was: that which made most of the same cuts, each once."""
    common = sorted(
        ((len(each & other) / len(each | other), -number, -before)
         for number, each in done.items()
         for before, other in was.items()
         if each & other),
        reverse=True,
    )  # fmt: skip
    found: dict[int, int] = {}
    taken: set[int] = set()
    for _, number, before in common:
        if -number not in found and -before not in taken:
            found[-number] = -before
            taken.add(-before)
    return dict(sorted(found.items()))


def _settings(setup: Setup, was: Setup, plan: Plan) -> Sequence[Fact]:
    tools = (setup.cutter, setup.kerf, setup.tilt, setup.carrier)
    found: list[Fact] = []
    if tools != (was.cutter, was.kerf, was.tilt, was.carrier):
        found.append(differences.OTHER_TOOLS())
    for knob, now, then in (
        ("guide", setup.reading, was.reading),
        ("height", setup.height_shown, was.height_shown),
    ):
        if now is not None and then is not None and now != then:
            term = "knob.height" if knob == "height" else f"carrier.{setup.carrier}"
            found.append(
                differences.KNOB(
                    knob=term, now=Length(now, plan.unit), planned=Length(then, plan.unit)
                )
            )
    return found
