"""One harmful change at a time to the plans of all examples, as a slip in the program would make
it: none of them may be printed.

    python -m tests.proof.harm [MOST [SEED]]

tries them, of each kind all or so many, and prints how many there were and which were not caught.
Each is a change that would cost the maker wood, time or a finger; what is told of it names the
piece, the step or the check that was changed.
"""

from __future__ import annotations

import random
import sys
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction as F  # noqa: N817

from sequencer import pipeline
from sequencer.errors import InternalError
from sequencer.facts import Fact, Value
from sequencer.job.schema import Job
from sequencer.job.shop import default_shop
from sequencer.plan import (
    SCRAP_STEPS,
    Caution,
    Checkpoint,
    Cut,
    Door,
    Order,
    Part,
    Plan,
    Requirement,
    Setup,
    Step,
    Stick,
)
from sequencer.records import replace
from tests.proof import change
from tests.proof.mutants import OTHER
from tests.proof.test_intent import EXAMPLES, example, example_job, without_edges

HANDS = {"left": "right", "right": "left"}


@dataclass(frozen=True)
class Harm:
    """A harmful change: `kind` of what, to which `plan`; `about` are the marks, numbers and names
    of which what is told of it says one at least."""

    kind: str
    plan: Plan
    about: frozenset[str]


def harm(kind: str, plan: Plan, *about: object) -> Harm:
    return Harm(kind, plan, frozenset(str(each) for each in about))


def caught(made: Harm, job: Job) -> Fact | None:
    """What is told of it before anything is printed."""
    try:
        pipeline.shown(made.plan, [job], default_shop(job.unit))
    except InternalError as error:
        (found,) = error.says
        assert isinstance(found, Fact)
        return found
    return None


def told(value: Value) -> Iterator[str]:
    """All that a fact tells, as text."""
    if isinstance(value, Fact):
        yield value.id
        for each in value.values:
            yield from told(each)
    elif isinstance(value, tuple):
        for each in value:
            yield from told(each)
    else:
        yield str(value)


# --- checks -------------------------------------------------------------------------------------


def _check(plan: Plan, n: int, **values: object) -> Plan:
    made = replace(plan.checkpoints[n], **values)  # type: ignore[arg-type]
    return replace(plan, checkpoints=(*plan.checkpoints[:n], made, *plan.checkpoints[n + 1 :]))


Checks = Iterator[tuple[int, Checkpoint, tuple[object, ...]]]


def _checks(plan: Plan, *, sawn: bool | None = None) -> Checks:
    for n, check in enumerate(plan.checkpoints):
        if sawn in (None, check.knob is not None):
            behind = plan.steps[check.at_step : check.before_step]
            waiting = (name for step in behind for name in (step.number, *step.marks))
            yield n, check, (check.at_step, check.scrap, check.measure, *check.marks, *waiting)


def target(plan: Plan) -> Iterator[Harm]:
    """Its window is shifted with it, so that the bookkeeping agrees."""
    by = F(1, 32) if plan.unit == "in" else F(1)
    for n, check, about in _checks(plan):
        moved = {"target": check.target + by, "low": check.low + by, "high": check.high + by}
        yield harm("a check's target off", _check(plan, n, **moved), *about)


def sign(plan: Plan) -> Iterator[Harm]:
    for n, check, about in _checks(plan, sawn=True):
        assert check.per_unit is not None
        wrong = _check(plan, n, per_unit=-check.per_unit)
        yield harm("a correction the wrong way", wrong, *about)


def share(plan: Plan) -> Iterator[Harm]:
    for n, check, about in _checks(plan, sawn=True):
        assert check.per_unit is not None
        for times in (F(2), F(1, 2)):
            wrong = _check(plan, n, per_unit=times * check.per_unit)
            yield harm("a correction of another share", wrong, *about)


def other_mate(plan: Plan) -> Iterator[Harm]:
    for n, check, about in _checks(plan, sawn=True):
        earlier = [
            k
            for k, other in enumerate(plan.checkpoints)
            if other.knob and other.at_step < check.at_step and k not in check.after
        ]
        for place in range(len(check.after)):
            for k in earlier[-2:]:
                after = (*check.after[:place], k, *check.after[place + 1 :])
                yield harm("it goes by another check", _check(plan, n, after=after), *about)


def other_way(plan: Plan) -> Iterator[Harm]:
    for n, check, about in _checks(plan, sawn=True):
        for times in (-1, F(1, 2)) if check.after else ():
            shares = tuple(share * times for _, share in check.refers)
            yield harm("it goes by another share", _check(plan, n, shares=shares), *about)


def window(plan: Plan) -> Iterator[Harm]:
    half = F(1, 4) if plan.unit == "in" else F(6)
    for n, check, about in _checks(plan):
        wide = {"low": check.target - half, "high": check.target + half}
        yield harm("a window of half an inch", _check(plan, n, **wide), *about)


def lopsided(plan: Plan) -> Iterator[Harm]:
    for n, check, about in _checks(plan, sawn=True):
        more = check.high - check.low
        wrong = _check(plan, n, high=check.high + more)
        yield harm("a window wider on one side", wrong, *about)


def knob(plan: Plan) -> Iterator[Harm]:
    for n, check, about in _checks(plan, sawn=True):
        other = "fence" if check.knob == "height" else "height"
        yield harm("a correction of another setting", _check(plan, n, knob=other), *about)


def scrap(plan: Plan) -> Iterator[Harm]:
    marks = {each.mark for each in plan.scrap}
    for n, check, about in _checks(plan, sawn=True):
        others = sorted(marks - {check.scrap})
        if check.scrap is not None and others:
            wrong = _check(plan, n, scrap=others[0])
            yield harm("measured on another test piece", wrong, *about, others[0])


def unchecked(plan: Plan) -> Iterator[Harm]:
    for n, check, about in _checks(plan):
        # The others refer to one another as before.
        left = tuple(
            replace(
                each,
                after=tuple(k - (k > n) for k in each.after if k != n),
                shares=tuple(share for k, share in each.refers if k != n),
            )
            for number, each in enumerate(plan.checkpoints)
            if number != n
        )
        wrong = replace(plan, checkpoints=left)
        behind = {o for s in plan.steps[check.at_step :][:2] for o in (s.number, *s.operations)}
        yield harm("a check left out", wrong, *about, *behind)


def later(plan: Plan) -> Iterator[Harm]:
    for n, check, about in _checks(plan):
        wrong = _check(plan, n, before_step=check.before_step + 1)
        yield harm("a check that nothing waits for", wrong, *about)


def too_late(plan: Plan) -> Iterator[Harm]:
    """The check is made, but behind the step that relies on it."""
    for n, check, about in _checks(plan):
        if check.before_step < len(plan.steps):
            moved = {"at_step": check.before_step, "before_step": check.before_step + 1}
            if check.before_step > check.at_step:
                wrong = _check(plan, n, **moved)
                yield harm("a check one step later", wrong, *about, check.before_step)


# --- test pieces --------------------------------------------------------------------------------


def no_scrap(plan: Plan) -> Iterator[Harm]:
    """A test cut on a piece that no step cuts off its strip."""
    for step in plan.steps:
        if step.kind in SCRAP_STEPS:
            gone = tuple(replace(cut, mark="#99a") for cut in step.cuts)
            yield harm("a test piece that is not there", change.cuts(plan, step.number, gone),
                       step.number, "#99a", *_measured(plan, step))  # fmt: skip


def scrap_later(plan: Plan) -> Iterator[Harm]:
    """The test comes when good wood is cut already."""
    for n, step in enumerate(plan.steps):
        behind = next((s for s in plan.steps[n + 1 : n + 2] if s.setup == step.setup), None)
        if step.kind in SCRAP_STEPS and behind is not None and behind.cuts:
            steps = list(plan.steps)
            steps[n], steps[n + 1] = steps[n + 1], steps[n]
            wrong = without_edges(plan, steps)
            names = (behind.number, step.number, *behind.marks, *step.marks)
            yield harm("tried after good wood", wrong, *names)


def short_scrap(plan: Plan) -> Iterator[Harm]:
    for step in plan.steps:
        for n, cut in enumerate(step.cuts):
            if step.kind == "crosscut" and step.setup is not None:
                setup = plan.setups[step.setup - 1]
                if setup.guide is not None and n == 0:
                    short = change.setup(plan, setup.number, guide=setup.guide / 4)
                    names = (cut.mark, *step.marks, step.number)
                    yield harm("a piece cut too short", short, *names)


def short_blank(plan: Plan) -> Iterator[Harm]:
    for stick in plan.sticks:
        size = replace(stick.blank, length=stick.blank.length / 2)
        wrong = change.stick(plan, stick.mark, blank=size)
        yield harm("a strip's blank too short", wrong, stick.mark, stick.material, *_on(stick))


# --- settings -----------------------------------------------------------------------------------


def kerf(plan: Plan) -> Iterator[Harm]:
    for setup in plan.setups:
        wrong = change.setup(plan, setup.number, kerf=setup.kerf * F(3, 2))
        yield harm("a kerf that is not the cutter's", wrong, *_of_setup(plan, setup))


def too_high(plan: Plan) -> Iterator[Harm]:
    for setup in plan.setups:
        more = plan.shop.max_height
        values = {"height": setup.height + more, "depth": setup.depth + more}
        wrong = change.setup(plan, setup.number, **values)
        yield harm("a blade higher than the saw goes", wrong, *_of_setup(plan, setup))


def guide(plan: Plan) -> Iterator[Harm]:
    by = F(1, 64) if plan.unit == "in" else F(1, 2)
    for setup in plan.setups:
        if setup.guide is not None and setup.reading is not None:
            values = {"guide": setup.guide + by, "reading": setup.reading + by}
            wrong = change.setup(plan, setup.number, **values)
            yield harm("a guide off", wrong, *_of_setup(plan, setup))


def height(plan: Plan) -> Iterator[Harm]:
    by = F(1, 32) if plan.unit == "in" else F(1)
    for setup in plan.setups:
        values = {"height": setup.height - by, "depth": setup.depth - by}
        if any(c.setup == setup.number and c.knob == "height" for c in plan.checkpoints):
            wrong = change.setup(plan, setup.number, **values)
            yield harm("a depth off", wrong, *_of_setup(plan, setup))


def reading(plan: Plan) -> Iterator[Harm]:
    for setup in plan.setups:
        if setup.reading is not None:
            wrong = change.setup(plan, setup.number, reading=setup.reading + F(1, 16))
            yield harm("a reading that is not the guide's", wrong, *_of_setup(plan, setup))


def guard(plan: Plan) -> Iterator[Harm]:
    for setup in plan.setups:
        other = "knife" if setup.guard == "fitted" else "fitted"
        wrong = change.setup(plan, setup.number, guard=other)
        yield harm("the guard off, or in the way", wrong, *_of_setup(plan, setup))


def fence_left(plan: Plan) -> Iterator[Harm]:
    """The fence is left where it was beside the sled."""
    setups = {s.number: s for s in plan.setups}
    step_of = {o: s for s in plan.steps for o in s.operations}
    order = plan.ordering.order
    for n, placed in enumerate(order):
        step = step_of[placed.operation]
        if step.setup is None or setups[step.setup].carrier != "crosscut-sled":
            continue
        if n and step_of[order[n - 1].operation].setup == step.setup:
            continue
        there = [
            replace(p, state={**p.state, "fence": "1"})
            if step_of[p.operation].setup == step.setup
            else p
            for p in order
        ]
        wrong = replace(plan, ordering=replace(plan.ordering, order=tuple(there)))
        yield harm("the fence left standing", wrong, *_of_setup(plan, setups[step.setup]))


# --- order --------------------------------------------------------------------------------------


def order(plan: Plan) -> Iterator[Harm]:
    """Two kinds of step the wrong way round, the plan's own edges gone with it."""
    from tests.proof.test_intent import wrong_ways

    for what, wrong, number in wrong_ways(plan):
        first = what.partition(" before ")[0]
        group = {
            "cheek": "tenons before slots or shoulders",
            "glue-up": "glue before the dry fit",
            "glaze": "glass before the rest is done",
        }.get(first, "one kind of work before another")
        marks = wrong.steps[number - 1].marks
        yield harm(group, wrong, number, *(m for mark in marks for m in _pieces(plan, mark)))


def left_out(plan: Plan) -> Iterator[Harm]:
    for step in plan.steps:
        if step.kind in ("dry fit", "glue-up", "glaze", "finish", "hang"):
            rest = [each for each in plan.steps if each is not step]
            wrong = without_edges(plan, rest)
            yield harm("a bench step left out", wrong, step.number, *step.marks, *step.operations)


# --- pieces -------------------------------------------------------------------------------------


def held(plan: Plan) -> Iterator[Harm]:
    """The wrong face against the guide, the wrong end or edge down, in one cut of each step."""
    for step in plan.steps:
        tests = {stick.mark for stick in plan.sticks if stick.test}
        good = [(n, cut) for n, cut in enumerate(step.cuts) if cut.mark not in tests]
        for n, cut in good[:1]:
            down = replace(cut, down=OTHER[cut.down])
            against = cut.against and replace(cut, against=OTHER[cut.against])
            for other in (down, against):
                if other is not None and not _harmless(plan, step, cut, other):
                    made = (*step.cuts[:n], other, *step.cuts[n + 1 :])
                    wrong = change.cuts(plan, step.number, made)
                    names = (step.number, *_pieces(plan, cut.mark), *step.marks)
                    yield harm("the wrong face, edge or end", wrong, *names)


def missing(plan: Plan) -> Iterator[Harm]:
    """A piece that a step passes over."""
    for step in plan.steps:
        if len(step.cuts) > 1 and step.kind not in SCRAP_STEPS:
            wrong = change.cuts(plan, step.number, step.cuts[:-1])
            names = (step.number, *step.marks, *_measured(plan, step))
            yield harm("a cut left out", wrong, *names, *_pieces(plan, step.cuts[-1].mark))


def sizes(plan: Plan) -> Iterator[Harm]:
    by = F(1, 16) if plan.unit == "in" else F(2)
    for part in plan.parts:
        size = replace(part.size, length=part.size.length + by)
        wrong = change.part(plan, part.mark, size=size)
        yield harm("a part of another length", wrong, part.mark, part.door, *_stick_of(plan, part))


def panels(plan: Plan) -> Iterator[Harm]:
    """A panel as wide as its grooves are deep apart, and ripped so."""
    for part in plan.parts:
        if part.role in ("panel", "board"):
            by = F(1, 2) if plan.unit == "in" else F(12)
            size = replace(part.size, width=part.size.width + by)
            wrong = change.part(plan, part.mark, size=size)
            yield harm("a panel too wide for its play", wrong, part.mark, part.door,
                       *_stick_of(plan, part))  # fmt: skip


def hands(plan: Plan) -> Iterator[Harm]:
    for part in plan.parts:
        if part.inside is not None:
            wrong = change.part(plan, part.mark, inside=HANDS[part.inside])
            yield harm("a piece of the other hand", wrong, part.mark, part.door)


def places(plan: Plan) -> Iterator[Harm]:
    by = F(1, 16) if plan.unit == "in" else F(2)
    for door in plan.doors:
        for place in door.places:
            part = next(p for p in plan.parts if p.mark == place.mark)
            if part.role not in ("panel", "board"):
                wrong = change.place(plan, place.mark, (by, F(0), F(0)))
                yield harm("a piece in another place", wrong, place.mark, door.mark, *_marks(door))


# --- leaves -------------------------------------------------------------------------------------


def leaf_gone(plan: Plan) -> Iterator[Harm]:
    for door in plan.doors:
        doors = tuple(each for each in plan.doors if each is not door)
        yield harm("a leaf that is missing", replace(plan, doors=doors), door.mark, *_marks(door))


def hinge(plan: Plan) -> Iterator[Harm]:
    for door in plan.doors:
        wrong = change.door(plan, door.mark, hinge=HANDS[door.hinge])
        yield harm("hinges on the wrong side", wrong, door.mark)


def face(plan: Plan) -> Iterator[Harm]:
    for door in plan.doors:
        other = "in" if door.face_side == "out" else "out"
        wrong = change.door(plan, door.mark, face_side=other)
        yield harm("the other face to the room", wrong, door.mark, *_marks(door))


def openings(plan: Plan) -> Iterator[Harm]:
    by = F(1, 8) if plan.unit == "in" else F(3)
    for door in plan.doors:
        width, high = door.opening
        for opening in ((width + by, high), (width, high - by)):
            wrong = change.door(plan, door.mark, opening=opening)
            yield harm("an opening of another size", wrong, door.mark)


def gaps(plan: Plan) -> Iterator[Harm]:
    by = F(1, 16) if plan.unit == "in" else F(1)
    for door in plan.doors:
        for side, gap in door.gaps.items():
            wrong = change.door(plan, door.mark, gaps={**door.gaps, side: gap + by})
            yield harm("a gap that is not as asked", wrong, door.mark)


def seasons(plan: Plan) -> Iterator[Harm]:
    def put(n: int, **values: object) -> Plan:
        made = replace(plan.seasons[n], **values)  # type: ignore[arg-type]
        return replace(plan, seasons=(*plan.seasons[:n], made, *plan.seasons[n + 1 :]))

    kind = "a figure of the season off"
    for n, season in enumerate(plan.seasons):
        if season.gap is not None:
            dry, today, wet = season.gap.gaps
            for figures in ((dry, today, wet + today), (dry + today, today, wet)):
                wrong = put(n, gap=replace(season.gap, gaps=figures))
                yield harm(kind, wrong, season.door)
        for m, panel in enumerate(season.panels):
            dry, today, wet = panel.widths
            for values in (
                {"widths": (dry, today, wet + panel.depth)},
                {"widths": (dry - panel.depth, today, wet)},
                {"reach": (panel.reach[0], panel.reach[1], panel.reach[2] / 2)},
                {"leave": (panel.leave[0] * 2, *panel.leave[1:])},
                {"sight": panel.sight + panel.depth},
                {"depth": panel.depth * 2},
            ):
                made = replace(panel, **values)
                wrong = put(n, panels=(*season.panels[:m], made, *season.panels[m + 1 :]))
                yield harm(kind, wrong, season.door, panel.part)


# --- what is ordered ----------------------------------------------------------------------------


def ordered(plan: Plan) -> Iterator[Harm]:
    def put(n: int, *made: Order) -> Plan:
        return replace(plan, orders=(*plan.orders[:n], *made, *plan.orders[n + 1 :]))

    for n, one in enumerate(plan.orders):
        names = (*told(one.what), one.what.id)
        yield harm("too many ordered", put(n, replace(one, count=one.count + 1)), *names)
        yield harm("an order left out", put(n), *names)
        if one.size:
            larger = (one.size[0] + F(1), *one.size[1:])
            yield harm("ordered in another size", put(n, replace(one, size=larger)), *names)


def boards(plan: Plan) -> Iterator[Harm]:
    def put(n: int, **values: object) -> Plan:
        made = replace(plan.rough[n], **values)  # type: ignore[arg-type]
        return replace(plan, rough=(*plan.rough[:n], made, *plan.rough[n + 1 :]))

    for n, line in enumerate(plan.rough):
        names = (line.material, *line.sticks, *line.test_sticks)
        for values in (
            {"longest": line.longest / 2},
            {"widest": line.widest / 2},
            {"surface": line.surface / 2},
            {"sticks": line.sticks[1:]},
            {"thickness": line.thickness * 2},
            {"board_feet": line.board_feet / 2},
            {"board_feet_with": line.board_feet_with / 2},
            {"cubic_metres": line.cubic_metres / 2},
            {"cubic_metres_with": line.cubic_metres_with / 2},
        ):
            yield harm("wood wrongly listed", put(n, **values), *names)
    for n, board in enumerate(plan.boards):
        for m, blank in enumerate(board.blanks):
            if m:
                on = replace(blank, at=board.blanks[0].at)
                made = replace(board, blanks=(*board.blanks[:m], on, *board.blanks[m + 1 :]))
                wrong = replace(plan, boards=(*plan.boards[:n], made, *plan.boards[n + 1 :]))
                yield harm(
                    "two strips on the same wood", wrong, board.mark, blank.mark, blank.stick
                )


# --- cautions -----------------------------------------------------------------------------------


def cautions(plan: Plan) -> Iterator[Harm]:
    for setup in plan.setups:
        names = _of_setup(plan, setup)
        for n, one in enumerate(setup.cautions):
            rest = (*setup.cautions[:n], *setup.cautions[n + 1 :])
            wrong = change.setup(plan, setup.number, cautions=rest)
            yield harm("a caution left out", wrong, *names, one.rule)
            for made in _emptied(one):
                there = (*setup.cautions[:n], made, *setup.cautions[n + 1 :])
                wrong = change.setup(plan, setup.number, cautions=there)
                yield harm("a caution emptied", wrong, *names, one.rule)
            milder = (*setup.cautions[:n], replace(one, word="NOTICE"), *setup.cautions[n + 1 :])
            wrong = change.setup(plan, setup.number, cautions=milder)
            yield harm("a caution played down", wrong, *names, one.rule)
    for step in plan.steps:
        for n, one in enumerate(step.cautions):
            rest = (*step.cautions[:n], *step.cautions[n + 1 :])
            wrong = change.step(plan, step.number, cautions=rest)
            yield harm("a caution at the bench left out", wrong, step.number, one.rule)


def _emptied(one: Caution) -> Iterator[Caution]:
    from sequencer.facts import Length, cautions

    if one.says.kind is not cautions.G01:
        yield replace(one, says=cautions.G01())
    given = one.says.given
    for name, value in given.items():
        if isinstance(value, Length):
            nothing = one.says.kind(**{**given, name: Length(F(0), value.unit)})
            yield replace(one, says=nothing)
        elif name == "hold_down":
            yield replace(one, says=one.says.kind(**{**given, name: ""}))


def standing(plan: Plan) -> Iterator[Harm]:
    for n, one in enumerate(plan.standing):
        rest = (*plan.standing[:n], *plan.standing[n + 1 :])
        yield harm("a standing caution left out", replace(plan, standing=rest), one.rule)
    for n, check in enumerate(plan.before_power):
        rest_of = (*plan.before_power[:n], *plan.before_power[n + 1 :])
        wrong = replace(plan, before_power=rest_of)
        yield harm("a look before power left out", wrong, check.id)
    for n, check in enumerate(plan.before_leaving):
        rest_of = (*plan.before_leaving[:n], *plan.before_leaving[n + 1 :])
        wrong = replace(plan, before_leaving=rest_of)
        yield harm("a look before leaving left out", wrong, check.id)


def ticks(plan: Plan) -> Iterator[Harm]:
    for n, one in enumerate(plan.warnings):
        rest = (*plan.warnings[:n], *plan.warnings[n + 1 :])
        wrong = replace(plan, warnings=rest)
        yield harm("a tick left out", wrong, one.caution.rule, *one.setups, one.tick.id)
        if len(one.setups) > 1:
            fewer = replace(one, setups=one.setups[1:])
            wrong = replace(plan, warnings=(*plan.warnings[:n], fewer, *plan.warnings[n + 1 :]))
            yield harm("a setup left out of a tick", wrong, one.caution.rule, one.setups[0])


# --- the books ----------------------------------------------------------------------------------


def minutes(plan: Plan) -> Iterator[Harm]:
    for setup in plan.setups:
        wrong = change.setup(plan, setup.number, minutes=setup.minutes / 2)
        yield harm("minutes that do not add up", wrong, setup.number, *_of_setup(plan, setup))


# --- requirements -------------------------------------------------------------------------------


def _required(plan: Plan, n: int, *instead: Requirement) -> Plan:
    there = plan.requirements
    return replace(plan, requirements=(*there[:n], *instead, *there[n + 1 :]))


def _asked(plan: Plan) -> Iterator[tuple[int, Requirement, tuple[object, ...]]]:
    for n, each in enumerate(plan.requirements):
        yield n, each, (f"required.{each.what}", *each.of)


def worst(plan: Plan) -> Iterator[Harm]:
    """A worst case told better than it is, by a hair."""
    by = F(1, 1000) if plan.unit == "in" else F(1, 50)
    for n, each, about in _asked(plan):
        low, high = each.worst_least + by, each.worst_most - by
        for made in (replace(each, worst_least=low), replace(each, worst_most=high)):
            yield harm("a worst case told better than it is", _required(plan, n, made), *about)


def unasked(plan: Plan) -> Iterator[Harm]:
    for n, _, about in _asked(plan):
        yield harm("a requirement left out", _required(plan, n), *about)


def eased(plan: Plan) -> Iterator[Harm]:
    by = F(1, 50) if plan.unit == "in" else F(1, 2)
    for n, each, about in _asked(plan):
        for side, end in (("least", each.least), ("most", each.most)):
            if end is not None:
                easier = end - by if side == "least" else end + by
                made = replace(each, **{side: easier})  # type: ignore[arg-type]
                yield harm("a requirement eased", _required(plan, n, made), *about)


def taken(plan: Plan) -> Iterator[Harm]:
    """What takes most of a range is told less, what takes next as much more."""
    for n, each, about in _asked(plan):
        if len(each.share) < 2:
            continue
        first, second, *rest = each.share
        by = first.amount / 4
        shares = (
            replace(first, amount=first.amount - by),
            replace(second, amount=second.amount + by),
            *rest,
        )
        wrong = _required(plan, n, replace(each, share=shares))
        yield harm("a share of a worst case off", wrong, *about)


def first_try(plan: Plan) -> Iterator[Harm]:
    for n, each, about in _asked(plan):
        if each.first_try is not None:
            better = each.first_try + F(1, 10)
            told_ = better if better <= 1 else each.first_try - F(1, 10)
            wrong = _required(plan, n, replace(each, first_try=told_))
            yield harm("a share at the first try off", wrong, *about)


def counted(plan: Plan) -> Iterator[Harm]:
    for n, each, about in _asked(plan):
        made = replace(each, count=each.count + 1)
        yield harm("more joints than there are", _required(plan, n, made), *about)


KINDS: tuple[Callable[[Plan], Iterator[Harm]], ...] = (
    target, sign, share, other_mate, other_way, window, lopsided, knob, scrap, unchecked, later,
    too_late,
    no_scrap, scrap_later, short_scrap, short_blank,
    kerf, too_high, guide, height, reading, guard, fence_left,
    order, left_out,
    held, missing, sizes, panels, hands, places,
    leaf_gone, hinge, face, openings, gaps, seasons,
    ordered, boards,
    cautions, standing, ticks,
    minutes,
    worst, unasked, eased, taken, first_try, counted,
)  # fmt: skip


def _measured(plan: Plan, step: Step) -> list[str]:
    return [str(c.measure) for c in plan.checkpoints if c.at_step == step.number]


def _of_setup(plan: Plan, setup: Setup) -> list[object]:
    """The setup, its steps, what is cut in them, and what comes of that."""
    steps = [step for step in plan.steps if step.setup == setup.number]
    marks = {m for step in steps for cut in step.cuts for m in _pieces(plan, cut.mark)}
    measured = [m for step in steps for m in _measured(plan, step)]
    return [setup.number, *(s.number for s in steps), *marks, *measured]


def _pieces(plan: Plan, mark: str) -> list[str]:
    return [mark, *(p.mark for s in plan.sticks if s.mark == mark for p in s.pieces)]


def _on(stick: Stick) -> list[str]:
    return [piece.mark for piece in stick.pieces]


def _stick_of(plan: Plan, part: Part) -> list[str]:
    return [s.mark for s in plan.sticks if any(p.mark == part.mark for p in s.pieces)]


def _marks(door: Door) -> list[str]:
    return [place.mark for place in door.places]


def _harmless(plan: Plan, step: Step, cut: Cut, other: Cut) -> bool:
    """Whether the other way saws the same: a through cut with either face down, a pass in the very
    middle from either face; or what is tried on scrap, which the checks tell of."""
    assert step.setup is not None
    setup = plan.setups[step.setup - 1]
    faces = ("face", "back")
    through = cut.keeps is not None and cut.down in faces and cut.against == other.against
    sizes = {p.mark: p.size for p in plan.parts} | {s.mark: s.size for s in plan.sticks}
    thick = sizes[cut.mark].thickness if cut.mark in sizes else None
    middle = cut.against in faces and setup.guide is not None and cut.down == other.down
    centred = middle and thick == 2 * (setup.guide or 0) + setup.kerf
    return through or centred or step.kind in SCRAP_STEPS


def every(plan: Plan) -> Iterator[Harm]:
    for kind in KINDS:
        yield from kind(plan)


def some(seed: int, most: int | None) -> Iterator[tuple[str, Job, Harm]]:
    """Of every kind no more than so many over all examples, picked by the seed; without `most`,
    all."""
    by_kind: dict[str, list[tuple[str, Job, Harm]]] = {}
    for path in EXAMPLES:
        for made in every(example(path)):
            found = (path.parent.name, example_job(path), made)
            by_kind.setdefault(made.kind, []).append(found)
    pick = random.Random(seed)
    for every_one in by_kind.values():
        few = most is None or len(every_one) <= most
        yield from every_one if few else pick.sample(every_one, most or 0)


@dataclass
class Tally:
    """How many there were of each kind, and what was not caught, or not named."""

    counts: Counter[str]
    missed: list[str]
    unnamed: list[str]

    @classmethod
    def of(cls, seed: int, most: int | None) -> Tally:
        tally = cls(Counter(), [], [])
        for name, job, made in some(seed, most):
            found = caught(made, job)
            tally.counts[made.kind] += 1
            about = ", ".join(sorted(made.about)[:6])
            if found is None:
                tally.missed.append(f"{name}: {made.kind}: {about}")
            elif made.about.isdisjoint(told(found)):
                tally.unnamed.append(f"{name}: {made.kind}: {about}: {found}")
        return tally


def main(arguments: list[str]) -> int:
    """`python -m tests.proof.harm [MOST [SEED]]`: of each kind at most so many."""
    most = int(arguments[0]) if arguments else None
    seed = int(arguments[1]) if len(arguments) > 1 else 0
    tally = Tally.of(seed, most)
    lines = [*tally.missed, *tally.unnamed]
    lines += (f"{count:5}  {kind}" for kind, count in sorted(tally.counts.items()))
    total, kinds = sum(tally.counts.values()), len(tally.counts)
    last = f"{len(tally.missed)} not caught, {len(tally.unnamed)} not named"
    print("\n".join((*lines, f"{total:5}  in {kinds} kinds: {last}")))  # noqa: T201  # a command
    return 1 if tally.missed or tally.unnamed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
