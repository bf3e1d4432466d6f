"""Checks by the saw: each knob is set a little up and down, the wood sawn as it stands at that
moment, and the measure taken from what is left.

It must be the target where the knob stands as the plan sets it, answer to the knob as the plan
says, and be good no farther from there than the fit allows. What a fit hangs on meets no good wood
before it was tried since its knob was last set.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from functools import cached_property

from msgspec import Struct

from sequencer.errors import InternalError
from sequencer.facts import Fact, Length, measures
from sequencer.facts import checks as told
from sequencer.lengths import Unit
from sequencer.plan import SCRAP_STEPS, Checkpoint, Cut, Measure, Plan, Setup, Step
from sequencer.proof.cells import Length as Grains
from sequencer.proof.compare import designs_of
from sequencer.proof.dials import SPACER, guide_reading
from sequencer.proof.follow import Look, fault, kind_term
from sequencer.proof.grain import Grain
from sequencer.proof.hands import Side, X, Y, Z
from sequencer.proof.kerf import Pass, kerf_of
from sequencer.proof.looks import looks
from sequencer.proof.measuring import reading, seen
from sequencer.proof.saw import Sawn, saw
from sequencer.proof.solid import Solid, bounds, shared
from sequencer.proof.tools import set_amiss, unread
from sequencer.proof.windows import FOLLOWED, too_wide, window_of
from sequencer.records import replace

HEIGHT = "height"
LEAST: Mapping[Unit, Fraction] = {"in": Fraction(10), "mm": Fraction(250)}
"""No test piece is shorter, for the hands' sake; ours."""
FITTED = frozenset({
    "groove", "rebate", "slot", "housing", "mitre", "shoulder", "edge shoulder", "sweep", "cheek",
    "edge cheek",
})  # fmt: skip
"""Kinds of cut whose walls and bottoms meet another piece."""


class Sawing(Struct, frozen=True):
    """A pass: at which step, through what wood, of which stick or piece, and whether that comes
    `off` its stick by it."""

    step: Step
    mark: str
    before: Solid
    made: Pass
    off: bool

    @property
    def tried(self) -> bool:
        return self.step.kind in SCRAP_STEPS


def seen_by(passes: list[Sawing], look: Look) -> Look:
    """The look that writes every pass down before it looks on."""

    def both(
        step: Step, cut: Cut, name: str, before: Solid, made: Pass, sawn: Sawn, follows: bool
    ) -> None:
        passes.append(Sawing(step, name, before, made, name != cut.mark))
        look(step, cut, name, before, made, sawn, follows)

    return both


def check_checks(plan: Plan, passes: Sequence[Sawing], grain: Grain) -> None:
    """Raises InternalError, with step and piece, for the first check that the sawn wood does not
    bear out, and for good wood that is cut before what its fit hangs on was tried."""
    checks = _Checks(plan, passes, grain)
    for check in plan.checkpoints:
        checks.printed(check)
        if check.knob is not None:
            checks.sawn(check)
    checks.tried_first()
    for setup in plan.setups:
        wrong = set_amiss(plan, setup)
        if wrong is not None:
            step = next(each for each in plan.steps if each.setup == setup.number)
            raise fault(step, "", wrong)


def named(check: Checkpoint) -> Fact:
    """What is measured, to be told of."""
    return measures.MEASURED(form=str(check.measure))


class _Checks:
    def __init__(self, plan: Plan, passes: Sequence[Sawing], grain: Grain) -> None:
        self.plan = plan
        self.grain = grain
        self.passes = passes
        self.at: dict[int, list[Sawing]] = {}
        for event in passes:
            self.at.setdefault(event.step.number, []).append(event)
        self.steps = {step.number: step for step in plan.steps}
        self.setups = {setup.number: setup for setup in plan.setups}
        self.marked = {stick.mark: stick.marked for stick in plan.sticks}
        self.marked |= {piece.mark: stick.marked for stick in plan.sticks for piece in stick.pieces}
        self.known: dict[tuple[object, ...], Grains | None] = {}

    def length(self, value: Fraction) -> Length:
        return Length(value, self.plan.unit)

    def printed(self, check: Checkpoint) -> None:
        """What can be told from the check alone: where it stands, and its window."""
        step = self.steps.get(check.at_step)
        what = named(check)
        if step is None:
            raise InternalError(told.NO_SUCH_STEP(step=check.at_step, measure=what))
        mark = check.scrap or next(iter(check.marks or step.marks), "")
        if check.setup != (step.setup if check.knob is not None else None):
            raise fault(step, mark, told.OTHER_SETUP(measure=what))
        # The first of several good pieces is measured before the others are cut.
        first = check.knob is not None and check.scrap is None
        if check.before_step != step.number + (not first):
            raise fault(step, mark, told.RELIED_ON_LATER(measure=what, step=check.before_step))
        if not check.low < check.high:
            raise fault(step, mark, told.SHUT_WINDOW(measure=what))
        told_all = len(check.shares) in (0, len(check.after))
        if not told_all or not all(self.earlier(check, n) for n in check.after):
            raise fault(step, mark, told.REFERS_AMISS(measure=what))
        wrong = unread(check, self.plan.shop.tools, self.plan.unit)
        if wrong is not None:
            raise fault(step, mark, wrong)
        widest = window_of(check.measure, swept=any(cut.sweep for cut in step.cuts))
        widest = FOLLOWED.get(check.measure.what.value, widest)  # `referring` asks whether it may
        wrong = None if widest is None else too_wide(check, widest, self.plan.unit)
        if wrong is not None:
            raise fault(step, mark, wrong)

    def earlier(self, check: Checkpoint, n: int) -> bool:
        """Whether what a check refers to is read before it, and its setting corrected by that; or
        is the thickness of one strip. `referring` asks whether a fit comes out by it."""
        if not 0 <= n < len(self.plan.checkpoints):
            return False
        other = self.plan.checkpoints[n]
        strip = other.measure.what.value == "stock" and len(other.marks) == 1
        corrected = other.knob is not None or strip
        return check.knob is not None and corrected and other.at_step < check.at_step

    def sawn(self, check: Checkpoint) -> None:
        """Target and share of a check that a knob is corrected by."""
        step, what = self.steps[check.at_step], named(check)
        made = self.cut_for(check, step)
        mark = check.scrap or made[0].mark
        assert check.setup is not None
        setup = self.setups[check.setup]
        knobs = (HEIGHT, guide_reading(setup, self.plan.shop)[0], *[SPACER] * bool(setup.spacer))
        if check.knob not in knobs or (check.knob != HEIGHT and setup.guide is None):
            raise fault(step, mark, told.OTHER_KNOB(measure=what, knob=str(check.knob)))
        if setup.spacer and check.knob == knobs[1] and self.gone_by(check, setup):
            raise fault(step, mark, told.OTHER_KNOB(measure=what, knob=knobs[1]))
        found, less, more = (self.read(check, made, by) for by in (0, -1, 1))
        if found is None or less is None or more is None:
            raise fault(step, mark, told.UNREADABLE(measure=what))
        if Fraction(found) != check.exact * self.grain.parts:
            length, target = self.grain.told(found), self.length(check.exact)
            raise fault(step, mark, told.OTHER_TARGET(measure=what, found=length, target=target))
        # Where an earlier pass has been as far already, it answers on one side only.
        shares = {Fraction(more - found), Fraction(found - less)} - {Fraction(0)}
        if shares != {check.per_unit}:
            share = max(shares, key=abs, default=Fraction(0))
            raise fault(
                step,
                mark,
                told.OTHER_SHARE(
                    measure=what, knob=check.knob, found=share, told=check.per_unit or Fraction(0)
                ),
            )

    def gone_by(self, check: Checkpoint, setup: Setup) -> bool:
        """Whether the number of the jig was tried already for what is cut without a block: then no
        cut with one may move it."""
        since = self.set_at[setup.number].get(check.knob or "", 1)
        return any(
            other.knob == check.knob
            and since <= (other.setup or 0) < setup.number
            and not self.setups[other.setup or 0].spacer
            for other in self.plan.checkpoints
        )

    def cut_for(self, check: Checkpoint, step: Step) -> list[Sawing]:
        """What is cut for it: on the test piece, which is long enough; or the first good piece
        behind the stop."""
        there = self.at.get(step.number, [])
        what = named(check)
        if check.scrap is None:
            found = [event for event in there if event.mark in check.marks][:1]
            if not found or step.kind in SCRAP_STEPS:
                mark = next(iter(check.marks), next(iter(step.marks), ""))
                raise fault(step, mark, told.NOT_ON_WORK(measure=what))
            return found
        found = [event for event in there if event.mark == check.scrap and event.tried]
        if not found:
            raise fault(step, check.scrap, told.NOT_CUT(measure=what))
        box, least = bounds(found[0].before), LEAST[self.plan.unit]
        if Fraction(box[1] - box[0]) < least * self.grain.parts:
            length = self.grain.told(box[1] - box[0])
            raise fault(
                step,
                check.scrap,
                told.SHORT_TEST_PIECE(found=length, least=self.length(least)),
            )
        return found

    def read(self, check: Checkpoint, events: Sequence[Sawing], by: int) -> Grains | None:
        """What is read where the knob is set `by` grains from where the plan sets it; `None` where
        that cannot be cut, or not measured."""
        wood = events[0].before
        passes = tuple(_turned(event, check.knob, by) for event in events)
        marked = passes[0].marks.at(self.marked.get(events[0].mark, "face"))
        key = (check.measure, marked, wood, passes)
        if key not in self.known:
            self.known[key] = _read(check.measure, marked, wood, passes, self.grain)
        return self.known[key]

    def tried_first(self) -> None:
        """Where a pass in good wood leaves a wall, or a bottom, of the design, the knob that sets
        it was tried on scrap after it was last set."""
        last = self.set_at
        designs = self._designs()
        tries = [check for check in self.plan.checkpoints if check.scrap is not None]
        firsts = [check for check in self.plan.checkpoints if looks(self.plan, check)]
        seen: set[tuple[int, str]] = set()
        known: dict[int, set[tuple[Pass, Solid]]] = {}
        for event in self.passes:
            step, made = event.step, event.made
            if event.tried or step.setup is None or not self.plan.doors:
                continue
            if event.off and (step.setup, "") not in seen:
                seen.add((step.setup, ""))
                self.measured_first(event, last[step.setup])
            if step.kind not in FITTED:
                continue
            if event.mark not in designs:
                continue
            if made.back is not None and _ends_in_wood(event, made):
                raise fault(step, event.mark, told.NO_FIRST_SHOULDER())
            alike = (made, designs[event.mark])
            if alike in known.setdefault(step.setup, set()):
                continue
            known[step.setup].add(alike)
            guide = guide_reading(self.setups[step.setup], self.plan.shop)[0]
            if not _leaves(event, made, made.bears[0], designs):
                continue  # it clears what others leave between them
            for axis, knob in ((made.bears[0], guide), (made.lies[0], HEIGHT)):
                if (step.setup, knob) in seen or not _leaves(event, made, axis, designs):
                    continue
                seen.add((step.setup, knob))
                if not any(
                    self.tried_for(check, knob, self.setups[step.setup], last[step.setup])
                    and check.at_step < step.number
                    for check in (*tries, *firsts)
                ) and not any(
                    check.knob == knob
                    and check.at_step == step.number
                    and event.mark == check.marks[0]
                    for check in firsts
                ):
                    cut = kind_term(step)
                    raise fault(step, event.mark, told.NEVER_CHECKED(cut=cut, knob=knob))

    def tried_for(
        self, check: Checkpoint, knob: str, setup: Setup, last: Mapping[str, int]
    ) -> bool:
        """Whether a check was for the knob as it stands in a setup, since it was set; of a guide,
        with the same block behind the piece, or with none, then as now."""
        since = last.get(knob, 1)
        if check.setup is None or not since <= check.setup <= setup.number:
            return False
        if knob == HEIGHT:
            return check.knob == knob
        if bool(setup.spacer) != bool(self.setups[check.setup].spacer):
            return False
        if not setup.spacer:
            return check.knob == knob
        return check.knob in (knob, SPACER) and last.get(SPACER, 1) <= check.setup

    def measured_first(self, event: Sawing, last: Mapping[str, int]) -> None:
        """Of pieces cut to length, the first behind a stop that was set is measured."""
        step = event.step
        assert step.setup is not None
        knob, _ = guide_reading(self.setups[step.setup], self.plan.shop)
        since = last.get(knob, 1)
        if not any(
            check.measure.what.value == "length" and since <= (check.setup or 0) <= step.setup
            and check.at_step <= step.number
            for check in self.plan.checkpoints
        ):  # fmt: skip
            what = measures.MEASURED(form="length")
            raise fault(step, event.mark, told.NOT_MEASURED(measure=what))

    @cached_property
    def set_at(self) -> dict[int, dict[str, int]]:
        """For each setup the one in which each knob was last set."""
        step_of = {name: step for step in self.plan.steps for name in step.operations}
        state: Mapping[str, str] = {}
        last: dict[str, int] = {}
        found: dict[int, dict[str, int]] = {}
        for placed in self.plan.ordering.order:
            setup = step_of[placed.operation].setup
            if setup is None or setup in found:
                continue
            last |= {k: setup for k, value in placed.state.items() if state.get(k) != value}
            found[setup] = dict(last)
            state = placed.state
        return found

    def _designs(self) -> dict[str, Solid]:
        """What is to be left of each piece, and of a stick that of its first."""
        designs = designs_of(self.plan, self.grain)
        for stick in self.plan.sticks:
            for piece in stick.pieces:
                if piece.mark in designs:
                    designs.setdefault(stick.mark, designs[piece.mark])
        return designs


def _read(
    measure: Measure, marked: Side, wood: Solid, passes: Sequence[Pass], grain: Grain
) -> Grains | None:
    before: list[Solid] = []
    for each in passes:
        before.append(wood)
        result = saw(wood, each)
        if result.fault is not None:
            return None
        wood = result.kept
    found = (seen(b, wood, p, marked, grain) for b, p in zip(before, passes, strict=True))
    return reading(measure, [each for each in found if each is not None])


def _turned(event: Sawing, knob: str | None, by: int) -> Pass:
    """The pass with one of its knobs set elsewhere. A nibbled waste ends where it did; a stop at
    the kerf goes no nearer."""
    made = event.made
    if knob == HEIGHT:
        return replace(made, depth=made.depth + by)
    guide = made.guide or 0
    by = max(-by if knob == SPACER else by, -guide)  # a thicker one brings the piece nearer
    back = None if made.back is None else made.back + by
    return replace(made, guide=guide + by, back=back)


def _leaves(event: Sawing, made: Pass, axis: int, designs: Mapping[str, Solid]) -> bool:
    """Whether a side of what the pass clears, across an axis and within the wood, is one of the
    design's beside it: a groove in the other edge may have a wall in the same plane."""
    block = bounds(event.before)
    kerf = kerf_of(block, made)
    sides = {kerf[2 * axis], kerf[2 * axis + 1]} - {block[2 * axis], block[2 * axis + 1]}
    others = [n for n in (X, Y, Z) if n != axis]
    return any(
        not sides.isdisjoint((bit[2 * axis], bit[2 * axis + 1]))
        and all(bit[2 * n] < kerf[2 * n + 1] and kerf[2 * n] < bit[2 * n + 1] for n in others)
        for bit in designs[event.mark]
    )


def _ends_in_wood(event: Sawing, made: Pass) -> bool:
    """Whether waste is nibbled away up to a shoulder that no earlier pass has cut."""
    axis, side = made.bears
    last = list(kerf_of(bounds(event.before), made))
    if side < 0:
        last[2 * axis + 1] = last[2 * axis] + 1
    else:
        last[2 * axis] = last[2 * axis + 1] - 1
    return bool(shared(event.before, ((last[0], last[1], last[2], last[3], last[4], last[5]),)))
