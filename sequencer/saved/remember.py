"""A setup of a plan, as it was dialled in, to the entry that is kept of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from sequencer.errors import UsageError
from sequencer.facts import Length, stores
from sequencer.plan import Checkpoint, Plan, Setup, Step
from sequencer.saved.entry import Dialled, Entry
from sequencer.saw.kinds import share_of
from sequencer.saw.operation import OperationId
from sequencer.wording import for_plan
from sequencer.wording.measures import measure_words


def entry_of(
    plan: Plan,
    number: int,
    when: str,
    measured: Mapping[str, Fraction],
    read: Mapping[str, Fraction],
) -> Entry | None:
    """See `Store.remember`. With a leaning blade the numbers hold for that tilt alone, which no
    scale gives back: such a setup is not kept. Raises `UsageError` where the plan has no such setup
    or the setup no such knob."""
    setup = next((setup for setup in plan.setups if setup.number == number), None)
    if setup is None:
        raise UsageError(stores.NO_SETUP(number=number, n=len(plan.setups)))
    tests = [c for c in plan.checkpoints if c.setup == number and c.stands_by]
    guide = plan.shop.guide_knob(setup.carrier)
    values = {guide: setup.along, "height": setup.height}
    for knob in (*measured, *read):
        if values.get(knob) is None:
            raise UsageError(stores.NOT_SET(setup=number, knob=knob))
    if setup.tilt or (setup.guide is None and not tests):
        return None
    steps = [step for step in plan.steps if step.setup == number]
    knobs = tuple(
        _dialled(knob, value, tests, measured.get(knob), read.get(knob), _share(steps, tests))
        for knob, value in values.items()
        if value is not None
    )
    return Entry(
        saw=plan.shop.known_as or plan.shop.name,
        made_with=plan.shop.made_with.get(setup.carrier, ""),
        sharpened=plan.shop.sharpened(setup.cutter),
        cutter=setup.cutter,
        kerf=setup.kerf,
        unit=plan.unit,
        carrier=setup.carrier,
        knobs=knobs,
        makes=_makes(plan, setup, steps, tests),
        date=when,
        jobs=plan.jobs,
    )


def _dialled(
    knob: str,
    value: Fraction,
    tests: Sequence[Checkpoint],
    measured: Fraction | None,
    read: Fraction | None,
    share: Fraction | None,
) -> Dialled:
    test = next((test for test in tests if test.knob == knob), None)
    return Dialled(
        knob=knob,
        value=value,
        read=read,
        share=Fraction(0) if knob == "height" else share,
        measure="" if test is None else str(test.measure),
        target=None if test is None else test.target,
        measured=measured,
        per_unit=None if test is None else test.per_unit,
    )


def _share(steps: Sequence[Step], tests: Sequence[Checkpoint]) -> Fraction | None:
    """As the cut that was tested answers to the kerf; without a test, as all the setup's cuts do,
    where they do alike."""
    cuts = [step for step in steps if step.operations]
    # The first cut after a test is the one that it was made for; others may share its setting.
    tried = (next((s for s in cuts if s.number >= test.before_step), None) for test in tests)
    tested = [(step.kind, step.operations[0]) for step in tried if step is not None]
    shares = {
        share_of(kind, OperationId.parse(name).made_by)
        for kind, name in tested or [(step.kind, name) for step in cuts for name in step.operations]
        if kind != "square"  # squared by eye, whatever the guide
    }
    return shares.pop() if len(shares) == 1 else None


def _makes(plan: Plan, setup: Setup, steps: Sequence[Step], tests: Sequence[Checkpoint]) -> str:
    """As `slot width 1/4″, slot depth 1 3/4″; at 1/4″, in stock 3/4″ thick`: words, since a person
    who adds a setting by hand writes their own."""

    def length(value: Fraction) -> Length:
        return Length(value, plan.unit)

    room = for_plan(plan)
    kinds = dict.fromkeys(step.kind for step in steps if step.operations)
    thickness = {part.mark: part.size.thickness for part in plan.parts}
    thickness |= {stick.mark: stick.size.thickness for stick in plan.sticks}
    stock = dict.fromkeys(thickness[cut.mark] for step in steps for cut in step.cuts
                          if cut.mark in thickness)  # fmt: skip
    made = stores.MAKES(
        what=tuple(
            stores.MEASURES(what=measure_words(test.measure, room), target=length(test.target))
            for test in tests
        )
        or tuple(stores.CUT(kind=f"kind.{kind}") for kind in kinds),
        at=None if setup.stands is None else stores.GUIDE_AT(guide=length(setup.stands)),
        stock=tuple(length(each) for each in stock),
    )
    return room.say(made)
