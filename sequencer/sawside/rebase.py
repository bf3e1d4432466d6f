"""A job that goes on after its files were changed: what holds of what was done, what does not."""

from __future__ import annotations

from sequencer.facts import answers
from sequencer.plan import Plan
from sequencer.sawside.cards import cards_of
from sequencer.sawside.flow import flow_on
from sequencer.sawside.measurements import word_of
from sequencer.sawside.spoiled import put_again
from sequencer.sawside.state import Place, Planner, State, TapError


def rebase(state: State | None, digest: str, planner: Planner) -> State:
    """The printed plan, or a new one after the files were changed: ticks are carried over where
    the step is the same and everything it rests on is carried over too."""
    base = planner.base(digest)
    fresh = State(base, base.plan, list(cards_of(base.plan)))
    if state is None:
        return fresh
    if state.base.digest == digest:
        return state
    carried, lost = 0, 0
    had: dict[Place, str] = dict(state.units)
    shorter = _too_short(state.plan, fresh.plan)
    for card in fresh.cards:
        for unit in card.units:
            status = had.pop((card.key, unit.name), None)
            if status is None:
                continue
            if unit.of in shorter:
                lost += 1
                continue
            needed = {first for first, _, _ in fresh.before(unit.operations)}
            if needed - fresh.done.keys() - set(unit.operations):
                lost += 1
                continue
            carried += 1
            fresh.units[card.key, unit.name] = "done" if status == "done" else "skipped"
            if (card.key, unit.name) in state.readings:
                fresh.readings[card.key, unit.name] = state.readings[card.key, unit.name]
                fresh.tried_by[card.key] = state.tried_by.get(card.key, fresh.plan)
            for operation in unit.operations:
                if status == "done" and operation in state.done:
                    fresh.done[operation] = state.done[operation]
    lost += sum(1 for status in had.values() if status == "done")
    fresh.held = dict(state.held)
    fresh.times, fresh.since = state.times, state.since
    fresh.shown, fresh.told = dict(state.shown), dict(state.told)
    fresh.found = list(state.found)
    fresh.move_on()
    holds, gone = answers.TICKS_HOLD(n=carried), answers.TICKS_GONE(n=lost)
    fresh.says.append(answers.FILES_CHANGED(holds=holds, gone=gone))
    if shorter:
        fresh.says.append(answers.STRIPS_AGAIN(n=len(shorter), marks=tuple(sorted(shorter))))
    _carry_over(state, fresh, planner)
    return fresh


def _carry_over(state: State, fresh: State, planner: Planner) -> None:
    """What was measured, where the doors are the same, and what is still to be made again."""
    if state.measurements:
        if state.base.given.jobs == fresh.base.given.jobs:
            flow_on(fresh, list(state.measurements), planner)
        if not fresh.measurements:
            fresh.trouble = ()
            what = tuple(dict.fromkeys(word_of(seen.what) for seen in state.measurements))
            fresh.says.append(answers.MEASURE_AGAIN(what=what))
    for mark, spoiled in state.spoiled.items():
        _, card = state.card(spoiled.card)
        try:
            put_again(fresh, mark, spoiled.at, card)
        except TapError as error:
            fresh.says.append(answers.NOT_AGAIN(mark=mark, why=error.says))
    fresh.move_on()


def _too_short(before: Plan, after: Plan) -> frozenset[str]:
    """Sticks that the new plan wants longer, or of another section, than they were made."""
    were = {stick.mark: stick.size for stick in before.sticks}
    return frozenset(
        stick.mark
        for stick in after.sticks
        if (size := were.get(stick.mark)) is None
        or stick.size.length > size.length
        or (stick.size.width, stick.size.thickness) != (size.width, size.thickness)
    )
