"""An order laid out for the person at the saw: setups, steps, test cuts, guard changes.

A setup is a longest run of cuts between which no needed knob changes. Within it, neighbouring
operations of one kind make one step. Wherever a fit-critical knob is freshly set, a test cut on
scrap comes first; wherever the guard changes, a step of its own says so.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping, Sequence, Set
from fractions import Fraction
from itertools import groupby

from msgspec import Struct

from sequencer.facts import Fact, Length, feels, notes
from sequencer.job.schema import Shop, Side
from sequencer.job.sides import side_in
from sequencer.lengths import Unit
from sequencer.operations import Check, Operation, ScrapTest, Setting, Work
from sequencer.operations.trials import Trial
from sequencer.ordering import Placed
from sequencer.plan import Change, Checkpoint, Cut, GuardState, Setup, Step
from sequencer.records import replace
from sequencer.saw.fittings import KNOBS, SPACER
from sequencer.saw.kinds import KINDS, KindName
from sequencer.saw.values import AWAY, is_tested
from sequencer.setups.changes import changed_to
from sequencer.setups.needs import Framed, deck, guide_knob, reading, tested_knob
from sequencer.setups.reuse import told
from sequencer.setups.scrap import TestPieces
from sequencer.setups.spacers import spaced
from sequencer.setups.tools import read_by
from sequencer.setups.why import explained

FIRST, WIDEN = "first", "widen"
"""The passes of a channel from one face that its place and its width are measured by."""


class LaidOut(Struct, frozen=True):
    setups: tuple[Setup, ...]
    steps: tuple[Step, ...]
    checkpoints: tuple[Checkpoint, ...]
    short: Mapping[str, int]
    """How many test pieces are wanting beside each: their tests stand on wood that is cut."""


def lay_out_steps(
    work: Work, framed: Framed, order: Sequence[Placed], shop: Shop, unit: Unit
) -> LaidOut:
    """Setups and steps numbered from 1, in the order given."""
    begun: set[Trial] = set()
    while True:
        writer = _Writer(work, framed, shop, unit, begun)
        for state, run in groupby(order, key=lambda placed: placed.state):
            operations = [
                spaced(work.operations[placed.operation], state, framed.values) for placed in run
            ]
            for n, operation in enumerate(operations):
                if operation.setting is None:
                    writer.bench(operation)
                else:
                    writer.cut(operation, operation.setting, state, operations[n + 1 :])
        if writer.bare <= begun:
            break
        begun |= writer.bare
    setups = explained(writer.setups, writer.steps, work, shop.jig.rides)
    short = writer.pieces.short
    return LaidOut(setups, tuple(writer.steps), tuple(writer.checkpoints), short)


@dataclasses.dataclass(slots=True)
class _Writer:
    work: Work
    framed: Framed
    shop: Shop
    unit: Unit
    begun: Set[Trial]
    """What is begun on its test piece even where its setting was tried already, on another."""
    bare: set[Trial] = dataclasses.field(default_factory=set)
    """Channels whose width was to be measured where their first pass had not been made."""
    setups: list[Setup] = dataclasses.field(default_factory=list)
    steps: list[Step] = dataclasses.field(default_factory=list)
    checkpoints: list[Checkpoint] = dataclasses.field(default_factory=list)
    noted: dict[Checkpoint, int] = dataclasses.field(default_factory=dict)
    """Where each check stands among the checkpoints, by all of it but its marks."""
    state: dict[str, str] = dataclasses.field(default_factory=dict)
    untried: set[str] = dataclasses.field(default_factory=set)
    """Knobs set to a tested value whose test cut has not been made yet."""
    fence_at: Side = "right"
    """The side of the blade that the fence was last set on."""
    unmeasured: set[str] = dataclasses.field(default_factory=lambda: set(KNOBS))
    """Knobs by which no piece has been cut and measured since they were last set."""

    pieces: TestPieces = dataclasses.field(init=False)

    def __post_init__(self) -> None:
        layout = self.work.layout
        sticks = {p.mark: s.stick.mark for s in layout.sticks for p in s.stick.pieces}
        self.pieces = TestPieces(layout.spares, sticks)
        self.fence_at = self.shop.saw.fence

    def bench(self, operation: Operation) -> None:
        step = self._add(None, operation, ())
        for check in operation.checks:
            self._note(self._point(check, step, step + 1, None, None))

    def cut(
        self,
        operation: Operation,
        setting: Setting,
        state: Mapping[str, str],
        others: Sequence[Operation],
    ) -> None:
        """A cut, with `others` to come while the saw stands as it does for it."""
        entered = state != self.state or not self.setups
        if entered:
            self._enter(setting, state)
        setup = self.setups[-1]
        tests = self._due(setting)
        looks = bool(tests) and self._looked(setting, tests)
        if tests and not looks:
            self._test(operation, tests)
        if entered:  # all that is cut on scrap comes before good wood
            for each in (operation, *others):
                self._begin(each)
        number = self._add(setup.number, operation, operation.cuts, alone=looks)
        for test in tests if looks else ():
            self.untried.discard(self._waits(test, setting))
            self._note(self._look(operation, test, number))
        for check in operation.checks:
            knob = guide_knob(setting, self.shop)
            if check.knob is not None and knob in self.unmeasured:
                self.unmeasured.discard(knob)
                self._note(self._point(check, number, number, setup.number, knob))

    def _point(
        self,
        check: Check | ScrapTest,
        at: int,
        before: int,
        setup: int | None,
        knob: str | None,
        scrap: str | None = None,
    ) -> Checkpoint:
        read = read_by(check, self.shop.tools)
        per_unit = None if knob is None else check.per_unit
        if knob == SPACER and per_unit is not None:
            per_unit = -per_unit  # the thicker it is, the nearer to the blade stands the piece
        return Checkpoint(
            at_step=at,
            before_step=before,
            setup=setup,
            measure=check.measure,
            target=read.target,
            low=read.low,
            high=read.high,
            knob=knob,
            per_unit=per_unit,
            feel=check.feel,
            scrap=scrap,
            marks=() if isinstance(check, ScrapTest) else check.marks,
            planned=check.target,
            tool=read.tool,
            resolution=read.resolution,
        )

    def _note(self, found: Checkpoint) -> None:
        """Equal checks of neighbouring pieces are one check with all their marks."""
        alike = replace(found, marks=())
        if alike not in self.noted:
            self.noted[alike] = len(self.checkpoints)
            self.checkpoints.append(found)
            return
        other = self.checkpoints[self.noted[alike]]
        marks = tuple(dict.fromkeys((*other.marks, *found.marks)))
        self.checkpoints[self.noted[alike]] = replace(other, marks=marks)

    def _enter(self, setting: Setting, state: Mapping[str, str]) -> None:
        changed = [knob for knob in KNOBS if state.get(knob) != self.state.get(knob)]
        problem = self.framed.problem
        costs = {knob.name: knob for knob in problem.knobs}
        minutes = sum((costs[knob].cost(state[knob]) for knob in changed), Fraction(0))
        height = self.framed.values["height", state["height"]].number
        knob = guide_knob(setting, self.shop)
        shown = reading(setting, self.shop)
        known = self.framed.reuse.known
        if shown is not None:
            shown += self._off(knob, state)
        move = None
        held = self.framed.values.get((knob, self.state.get(knob, AWAY)))
        if knob in changed and held is not None and shown is not None:
            move = shown - held.number - self._off(knob, self.state)
        number = len(self.setups) + 1
        guard: GuardState = state["guard"]  # type: ignore[assignment]  # needs.guards gives only these
        self.setups.append(
            Setup(
                number=number,
                cutter=setting.cutter,
                kerf=setting.kerf,
                tilt=setting.tilt,
                carrier=setting.carrier,
                guard=guard,
                height=height,
                depth=height - deck(setting.carrier, self.shop),
                guide=setting.guide,
                spacer=setting.spacer,
                reading=shown,
                move=move,
                saved=self._saved(changed, state),
                minutes=minutes,
                cautions=(),
                changes=tuple(self._change(knob, state, setting.tilt) for knob in changed),
                known=tuple(
                    known[each, state[each]]
                    for each in (knob, "height")
                    if each in state and (each, state[each]) in known
                ),
            )
        )
        self.untried -= set(changed)
        self.untried |= {knob for knob in changed if is_tested(state[knob])}
        self.unmeasured |= set(changed)
        if "guard" in changed:
            kind: KindName = "refit guard" if guard == "fitted" else "remove guard"
            self.steps.append(Step(len(self.steps) + 1, number, kind, ()))
        self.state = dict(state)

    def _off(self, knob: str, state: Mapping[str, str]) -> Fraction:
        """What a knob's scale shows more than where the knob stands."""
        known = self.framed.reuse.known.get((knob, state.get(knob, AWAY)))
        return Fraction(0) if known is None else known.off

    def _saved(self, changed: Sequence[str], state: Mapping[str, str]) -> tuple[Fact, ...]:
        """The saved settings that the changed knobs are set by, each with what it reads."""
        matches = self.framed.reuse.matches
        said: dict[int, list[Fact]] = {}
        by_scale: list[Fact] = []
        for knob in sorted(changed, key=lambda knob: knob == "height"):  # the guide first
            match = matches.get((knob, state[knob]))
            known = self.framed.reuse.known.get((knob, state[knob]))
            if match is None and known is not None and known.spread is not None:
                by_scale.append(
                    notes.BY_SCALE(
                        knob=f"knob.{knob}",
                        n=known.count,
                        spread=Length(2 * known.spread, self.unit),
                    )
                )
            if match is not None:
                sets = told(match, self.unit)
                said.setdefault(match.saved.number, []).append(
                    notes.HEIGHT(sets=sets) if knob == "height" else sets
                )
        parts = [notes.SET_BY(number=number, sets=tuple(said[number])) for number in said]
        parts += by_scale
        fits = {knob for knob in changed if is_tested(state[knob])}
        if fits and all(self._seen(knob, state) for knob in fits):
            parts.append(notes.ONE_LOOK())
        elif fits and all(self._sure(knob, state) for knob in fits):
            parts.append(notes.ONE_CHECK_CUT())
        return tuple(parts)

    def _sure(self, knob: str, state: Mapping[str, str]) -> bool:
        """Whether one check cut will do for a knob."""
        known = self.framed.reuse.known.get((knob, state[knob]))
        return known is not None and known.sure

    def _seen(self, knob: str, state: Mapping[str, str]) -> bool:
        """Whether a look at the first piece will do for a knob."""
        known = self.framed.reuse.known.get((knob, state[knob]))
        return known is not None and known.look

    def _change(self, knob: str, state: Mapping[str, str], tilt: Fraction) -> Change:
        values = self.framed.values
        before, after = self.state.get(knob), state[knob]
        stood = None if before is None else values.get((knob, before))
        wanted = values.get((knob, after))
        # On the other side of the blade the fence is set anew.
        crossed = False
        if knob == "fence":
            side = side_in(self.shop, "rip-fence", tilt)
            crossed, self.fence_at = side != self.fence_at, side
        return changed_to(
            knob,
            before,
            after,
            None if stood is None or crossed else stood.number + self._off(knob, self.state),
            None if wanted is None else wanted.number + self._off(knob, state),
            self.shop,
            tilt,
        )

    def _due(self, setting: Setting) -> tuple[ScrapTest, ...]:
        return tuple(test for test in setting.tests if self._waits(test, setting) in self.untried)

    def _waits(self, test: ScrapTest, setting: Setting) -> str:
        """The knob that a test cut is due for: a block behind the piece, where there is one."""
        spaced = setting.spacer and test.knob == "guide"
        return SPACER if spaced else tested_knob(test, setting, self.shop)

    def _dials(self, test: ScrapTest, setting: Setting) -> str:
        """The knob that it dials in. With a block behind the piece that is the jig as long as no
        other cut goes by its number, else what stands with the block."""
        knob = tested_knob(test, setting, self.shop)
        return knob if knob in self.untried else self._waits(test, setting)

    def _begin(self, operation: Operation) -> None:
        """Make a channel's first pass on its test piece, where its width is to be measured there
        and the setting was tried already on another."""
        setting = operation.setting
        if setting is not None and setting.tests and operation.name.made_by == FIRST:
            trial = self.work.trials[operation.id]
            if trial in self.begun and not self.pieces.has(setting.tests[0].scrap, trial):
                self._test(operation, setting.tests)

    def _looked(self, setting: Setting, tests: Sequence[ScrapTest]) -> bool:
        """Whether all that is due may be measured on the first piece."""
        knobs = (self._waits(test, setting) for test in tests)
        return all(self._seen(knob, self.state) for knob in knobs)

    def _look(self, operation: Operation, test: ScrapTest, step: int) -> Checkpoint:
        """The same check on the first piece, before the next is cut; a test piece is left uncut for
        whoever has to dial in after all."""
        setting = operation.setting
        assert setting is not None
        cuts, trial = _on_scrap(operation, test.scrap), self.work.trials[operation.id]
        spare = self.pieces.take(test.scrap, trial, setting, cuts, guide=test.knob == "guide")
        knob = tested_knob(test, setting, self.shop)
        point = self._point(test, step, step, self.setups[-1].number, knob)
        return replace(point, marks=(operation.mark,), feel=feels.FIRST_PIECE(spare=spare))

    def _test(self, operation: Operation, tests: Sequence[ScrapTest]) -> None:
        setting = operation.setting
        assert setting is not None
        setup = self.setups[-1].number
        step = len(self.steps) + 1
        cuts = _on_scrap(operation, tests[0].scrap)
        trial = self.work.trials[operation.id]
        if operation.name.made_by == WIDEN and not self.pieces.has(tests[0].scrap, trial):
            self.bare.add(trial)
        guide = any(test.knob == "guide" for test in tests)
        scrap = self.pieces.take(tests[0].scrap, trial, setting, cuts, guide=guide)
        cuts = tuple(replace(cut, mark=scrap) for cut in cuts)
        waits = [self._waits(test, setting) for test in tests]
        knobs = [self._dials(test, setting) for test in tests]
        checked = all(self._sure(knob, self.state) for knob in knobs)
        kind: KindName = "check cut" if checked else "test cut"
        self.steps.append(Step(step, setup, kind, (), cuts, marks=(scrap,)))
        self.untried -= set(waits)
        for test, knob in zip(tests, knobs, strict=True):
            self.checkpoints.append(self._point(test, step, step + 1, setup, knob, scrap))

    def _add(
        self, setup: int | None, operation: Operation, cuts: tuple[Cut, ...], *, alone: bool = False
    ) -> int:
        """Add the operation to the last step where that is of its setup and kind, with as many
        passes, else to a new one, as one that is first `alone`; the step's number."""
        marks = operation.marks or (operation.mark,)
        last = self.steps[-1] if self.steps else None
        alike = last is not None and len(last.cuts) == len(last.operations) * len(cuts)
        if alone or last is None or not alike or (last.setup, last.kind) != (setup, operation.kind):
            last = Step(len(self.steps) + 1, setup, operation.kind, ())
            self.steps.append(last)
        self.steps[-1] = replace(
            last,
            operations=(*last.operations, operation.id),
            cuts=(*last.cuts, *cuts),
            removes=(*last.removes, *operation.removes),
            marks=tuple(dict.fromkeys((*last.marks, *marks))),
        )
        return last.number


def _on_scrap(operation: Operation, scrap: str) -> tuple[Cut, ...]:
    """The operation's cuts on its test piece: a groove on the edge that is not needed, shoulders
    at both ends so that they can be measured between, mitres too, one from each fence."""
    cuts = tuple(replace(cut, mark=scrap) for cut in operation.cuts)
    match KINDS[operation.kind].tried:
        case "other-edge":
            return tuple(replace(cut, down="outside-edge") for cut in cuts)
        case "other-edge-once":
            return (replace(cuts[0], down="outside-edge"),)
        case "free-edge":
            return tuple(_on_free_edge(cut) for cut in cuts)
        case "both-ends":
            return tuple(replace(cut, against=end) for end in ("end-A", "end-B") for cut in cuts)
        case "as-it-is":
            return cuts


def _on_free_edge(cut: Cut) -> Cut:
    """The outside edge in place of the inside edge, which the test stick needs as it is."""
    if cut.down == "inside-edge":
        return replace(cut, down="outside-edge")
    return replace(cut, against="outside-edge") if cut.against == "inside-edge" else cut
