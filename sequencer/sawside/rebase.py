"""A job that goes on after its files were changed: what holds of what was done, what does not."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from msgspec import Struct

from sequencer.facts import Fact, answers, taps
from sequencer.plan import Plan
from sequencer.records import replace
from sequencer.sawside.cards import cards_of, mark_of
from sequencer.sawside.flow import flow_on
from sequencer.sawside.measurements import Measurement, word_of
from sequencer.sawside.spoiled import put_again
from sequencer.sawside.state import Base, Place, Planner, Reading, State, Status, TapError
from sequencer.setups.halfway import Done


def rebase(state: State | None, digest: str, planner: Planner) -> State:
    """The printed plan, or a new one after the files were changed: ticks are carried over where
    the step is the same and everything it rests on is carried over too."""
    base = planner.base(digest)
    if state is None:
        return State(base, base.plan, list(cards_of(base.plan)))
    if state.base.digest == digest:
        return state
    earlier = state.earlier.get(digest)
    kept = {**state.earlier, state.base.digest: replace(state, earlier={})}
    worked = state.worked_since | (frozenset(state.earlier) if _worked(state) else frozenset())
    if earlier is not None and digest not in worked:
        return _as_it_was(earlier, state, kept, worked)
    fresh = _begun(base, state, earlier)
    fresh.earlier, fresh.worked_since = kept, worked - {digest}
    ledger = _Ledger.of(state, earlier)
    shorter = _too_short(state.plan, fresh.plan)
    if earlier is not None:
        shorter &= ledger.touched  # the others are as they were made by these files
    carried, lost, gone = _carried(ledger, fresh, shorter)
    fresh.tried_by = {card: state.tried_by.get(card, fresh.plan) for card, _ in fresh.readings}
    fresh.held = dict(state.held)
    fresh.times, fresh.since = state.times, state.since
    fresh.shown, fresh.told = dict(state.shown), dict(state.told)
    fresh.found = list(state.found)
    fresh.declined = state.declined
    fresh.move_on()
    fresh.says += _said(carried, lost, shorter, gone)
    _carry_over(state, ledger, fresh, planner)
    return fresh


def _worked(state: State) -> bool:
    """Whether anything was done since the files were last changed."""
    return any(tap.kind is not taps.FILES_LEFT for _, tap in state.taps)


def _as_it_was(
    earlier: State, state: State, kept: Mapping[str, State], worked: frozenset[str]
) -> State:
    """Everything as it was left: nothing was done by other files in between. Only how long things
    took is of now."""
    fresh = replace(
        earlier, units=dict(earlier.units), done=dict(earlier.done), held=dict(earlier.held),
        readings={place: list(found) for place, found in earlier.readings.items()},
        cards=list(earlier.cards), tried_by=dict(earlier.tried_by), shown=dict(earlier.shown),
        told=dict(earlier.told), found=list(state.found), gone=list(earlier.gone),
        measurements=list(earlier.measurements), spoiled=dict(earlier.spoiled), taps=[],
        times=state.times, since=state.since, earlier=kept, declined=state.declined,
        worked_since=worked - {earlier.base.digest},
    )  # fmt: skip
    lost = sum(status == "done" and place not in fresh.units
               for place, status in state.units.items())  # fmt: skip
    gone = dict.fromkeys(mark_of(name) for name in state.done if name not in fresh.done)
    made = {mark_of(name) for name in fresh.done}
    fresh.says = _said(len(fresh.units), lost, _too_short(state.plan, fresh.plan) - made, gone)
    return fresh


def _said(holds: int, lost: int, shorter: frozenset[str], gone: Iterable[str]) -> list[Fact]:
    """How many ticks hold and how many do not, which strips are made again, and what to look at."""
    ticks = {"holds": answers.TICKS_HOLD(n=holds), "gone": answers.TICKS_GONE(n=lost)}
    said = [answers.FILES_CHANGED(**ticks)]
    if shorter:
        said.append(answers.STRIPS_AGAIN(n=len(shorter), marks=tuple(sorted(shorter))))
    if marks := tuple(gone):
        said.append(answers.CUTS_GONE(marks=marks))
    return said


def _begun(base: Base, state: State, earlier: State | None) -> State:
    """Nothing done yet: by the files alone, or with what was measured when they were left."""
    if earlier is None or (state.measurements and state.measurements != earlier.measurements):
        return State(base, base.plan, list(cards_of(base.plan)))
    return State(
        base, earlier.plan, list(earlier.cards), letters=earlier.letters,
        gone=list(earlier.gone), measurements=list(earlier.measurements),
    )  # fmt: skip


class _Ledger(Struct, frozen=True):
    """What was done to wood, whichever files it was done by."""

    units: Mapping[Place, Status]
    readings: Mapping[Place, list[Reading]]
    done: Mapping[str, Done]
    measurements: Sequence[Measurement]
    fresh: frozenset[Place]
    """What was done by the files that are left now."""
    touched: frozenset[str]
    """Where the new files were followed before: what was cut by others since."""

    @classmethod
    def of(cls, state: State, earlier: State | None) -> _Ledger:
        """What is done now, and, of what was done by the new files once before, all that nothing
        was done to in between."""
        fresh = frozenset(state.units)
        if earlier is None:
            return cls(
                state.units, state.readings, state.done, state.measurements, fresh, frozenset()
            )
        knew = {card.key for card in earlier.cards}
        touched = {
            unit.of
            for card in state.cards
            if card.key not in knew
            for unit in card.units
            if unit.operations and state.units.get((card.key, unit.name)) == "done"
        }
        of = {(card.key, unit.name): unit.of for card in earlier.cards for unit in card.units}
        back = {place: status for place, status in earlier.units.items()
                if of.get(place) not in touched}  # fmt: skip
        return cls(
            {**back, **state.units},
            {**{place: earlier.readings[place] for place in back if place in earlier.readings},
             **state.readings},
            {**{name: done for name, done in earlier.done.items() if mark_of(name) not in touched},
             **state.done},
            state.measurements or earlier.measurements,
            fresh,
            frozenset(touched),
        )  # fmt: skip


def _carried(
    ledger: _Ledger, fresh: State, shorter: frozenset[str]
) -> tuple[int, int, tuple[str, ...]]:
    """Put into the fresh state what of the ledger holds there: how many ticks do, how many of the
    last files' do not, and the marks of what was cut by these."""
    left = dict(ledger.units)
    carried, lost = 0, 0
    for card in fresh.cards:
        for unit in card.units:
            place = (card.key, unit.name)
            status = left.pop(place, None)
            if status is None:
                continue
            needed = {first for first, _, _ in fresh.before(unit.operations)}
            if unit.of in shorter or needed - fresh.done.keys() - set(unit.operations):
                lost += place in ledger.fresh
                continue
            carried += 1
            fresh.units[place] = "done" if status == "done" else "skipped"
            if place in ledger.readings:
                fresh.readings[place] = list(ledger.readings[place])
            for operation in unit.operations:
                if status == "done" and operation in ledger.done:
                    fresh.done[operation] = ledger.done[operation]
    lost += sum(status == "done" and place in ledger.fresh for place, status in left.items())
    gone = dict.fromkeys(mark_of(name) for name in ledger.done if name not in fresh.done)
    return carried, lost, tuple(gone)


def _carry_over(state: State, ledger: _Ledger, fresh: State, planner: Planner) -> None:
    """What was measured, where the doors are the same, and what is still to be made again."""
    if ledger.measurements and not fresh.measurements:
        earlier = state.earlier.get(fresh.base.digest)
        same = state.base.given.jobs == fresh.base.given.jobs
        if same or (earlier is not None and ledger.measurements is earlier.measurements):
            flow_on(fresh, list(ledger.measurements), planner)
        if not fresh.measurements:
            fresh.trouble = ()
            what = tuple(dict.fromkeys(word_of(seen.what) for seen in ledger.measurements))
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
