"""A spoiled piece made again: the least plan from blank to the state of its mates.

The piece is cut by the methods that its mates were cut by, from the same dimensions, and compared
with the part that was planned at first, so that it fits where the other would have.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from msgspec import Struct

from sequencer import pipeline
from sequencer.errors import Refusal, UsageError
from sequencer.facts import Fact, Length, advices, feels
from sequencer.methods import Choices
from sequencer.ordering.least import least_minutes
from sequencer.plan import Checkpoint, Part, Plan
from sequencer.records import replace
from sequencer.setups.given import Given

TELL_FROM = Fraction(10)
"""Minutes of setting up from which a spare is worth a line on the sheet; ours."""


class Spare(Struct, frozen=True):
    """What pieces cost in minutes of setting up: made `again` by itself, and `along` with the
    job as a spare."""

    marks: tuple[str, ...]
    again: Fraction
    along: Fraction


def recut(
    original: Plan,
    given: Given,
    marks: Sequence[str],
    choices: Choices | None = None,
    *,
    otherwise: bool = False,
) -> Plan:
    """The plan of the marked pieces alone, in one batch with their own test pieces; proven. Without
    `choices` the values and methods are those of the `original`.

    Raises `UsageError` for a mark that the plan or the jobs have not, `Refusal` where a piece would
    not come out as it was planned: job file or shop file have changed since. Nobody asks that where
    it is to come out `otherwise`, as its mates were measured.
    """
    known = {part.mark: part for part in original.parts}
    for mark in marks:
        if mark not in known:
            raise UsageError(advices.NO_PIECE(mark=mark, known=tuple(known)))
    if choices is None:
        given, choices = given.as_in(original)
    given = given.for_pieces(marks)
    made = pipeline.cut_as(given, choices)
    missing = set(marks) - {part.mark for part in made.parts}
    if missing:
        raise UsageError(advices.OTHER_JOB(marks=tuple(sorted(missing))))
    otherwise = otherwise or bool(given.measured.slot or given.measured.thickness)
    for part in made.parts:
        if not otherwise and part != known[part.mark]:
            how = _differs(part, known[part.mark], original)
            raise Refusal(advices.COMES_OUT_OTHERWISE(mark=part.mark, how=how))
    return replace(made, checkpoints=tuple(_in_its_mate(c, made) for c in made.checkpoints))


def _in_its_mate(check: Checkpoint, made: Plan) -> Checkpoint:
    """A tenon is tried in its mate's slot, where no slot is cut with it."""
    features = [feature for part in made.parts for feature in part.features]
    if any(feature.kind == "slot" for feature in features):
        return check
    mates = [f.mate_mark for f in features if f.kind == "cheek" and f.mate]
    own = tuple(dict.fromkeys(mates))
    given = check.feel.given
    if given.get("into") != feels.OTHER_PIECE():
        return check
    given["into"] = feels.OWN_SLOT(mates=own) if own else feels.SOME_OWN_SLOT()
    return replace(check, feel=check.feel.kind(**given))


def spare(original: Plan, given: Given, again: Plan) -> Spare:
    """What spares of all pieces of `again` would have cost when the job was cut, by ordering the
    job once more with them."""
    given, choices = given.as_in(original)
    marks = tuple(part.mark for part in again.parts)
    alone = given.solve(given.carried(choices).problem)
    both = given.solve(given.with_spares(choices, marks).problem)
    return Spare(marks, again.ordering.minutes, both.minutes - alone.minutes)


def told(spare: Spare) -> Fact:
    """Whether a spare would have been cheaper."""
    again, more = spare.again, spare.along
    along = advices.MORE_SETTING_UP(minutes=more) if more else advices.NO_SETTING_MORE()
    if more >= again:
        return advices.SPARE_SAVES_NOTHING(marks=spare.marks, along=along)
    return advices.SPARE_SAVES(marks=spare.marks, along=along, again=again)


def worth_a_spare(plan: Plan, given: Given) -> tuple[Fact, ...]:
    """For the sheet of the night before: of which pieces a spare is worth cutting along.

    One piece of each role is looked at, the longest, of which most is lost. A spare lies beside
    its twin in every setup, so that it takes no further setting; what making it again would take
    is a bound, quick to compute.
    """
    whole, choices = replace(given, saved=None).as_in(plan)
    said: list[Fact] = []
    for role in ("stile", "rail"):
        parts = [part for part in plan.parts if part.role == role]
        if not parts:
            continue
        longest = max(parts, key=lambda part: part.size.length)
        one = whole.for_pieces([longest.mark])
        try:
            least = least_minutes(one.carried(choices).problem)
        except Refusal:
            continue
        if least >= TELL_FROM:
            said.append(advices.SPARE_WORTH(mark=longest.mark, least=least))
    return tuple(said)


def _differs(part: Part, was: Part, plan: Plan) -> tuple[Fact, ...]:
    pairs = [
        (name, getattr(part.size, name), getattr(was.size, name))
        for name in ("length", "width", "thickness")
    ]
    return tuple(
        advices.SIZE_DIFFERS(
            what=f"size.{name}", now=Length(now, plan.unit), planned=Length(then, plan.unit)
        )
        for name, now, then in pairs
        if now != then
    ) or (advices.JOINTS_DIFFER(),)
