"""A spoiled piece made again: the least plan from blank to the state of its mates.

The piece is cut by the methods that its mates were cut by, from the same dimensions, and compared
with the part that was planned at first, so that it fits where the other would have.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from sequencer import pipeline
from sequencer.cuts.tenon import OTHER_PIECE
from sequencer.errors import Refusal, UsageError
from sequencer.ordering.least import least_minutes
from sequencer.plan import Checkpoint, Part, Plan
from sequencer.sequencing.given import Given
from sequencer.sheets.figures import minutes

TELL_FROM = Fraction(10)
"""Minutes of setting up from which a spare is worth a line on the sheet; ours."""


@dataclass(frozen=True, slots=True)
class Spare:
    """What a piece costs in minutes of setting up: made `again` by itself, and `along` with the
    job as a spare."""

    mark: str
    again: Fraction
    along: Fraction


def recut(original: Plan, given: Given, marks: Sequence[str]) -> Plan:
    """The plan of the marked pieces alone, in one batch with their own test pieces; proven.

    Raises `UsageError` for a mark that the plan or the jobs have not, `Refusal` where a piece would
    not come out as it was planned: job file or shop file have changed since.
    """
    known = {part.mark: part for part in original.parts}
    for mark in marks:
        if mark not in known:
            raise UsageError(f"no piece {mark} in this plan: it has {_listed(list(known))}")
    given, choices = given.as_in(original)
    # How many test pieces these few want is for their own order to say.
    given = replace(given, only=frozenset(marks), more={})
    made = pipeline.cut_as(given, choices)
    missing = set(marks) - {part.mark for part in made.parts}
    if missing:
        raise UsageError(
            f"{_listed(sorted(missing))}: of another job of this plan; name all its job files, the "
            "others with --also"
        )
    for part in made.parts:
        if not (given.measured.slot or given.measured.thickness) and part != known[part.mark]:
            raise Refusal(
                f"{part.mark} would not come out as it was planned: {_differs(part, known)}; "
                "take the job file and the shop file that the plan was made from"
            )
    return replace(made, checkpoints=tuple(_in_its_mate(c, made) for c in made.checkpoints))


def _in_its_mate(check: Checkpoint, made: Plan) -> Checkpoint:
    """A tenon is tried in its mate's slot, where no slot is cut with it."""
    features = [feature for part in made.parts for feature in part.features]
    if any(feature.kind == "slot" for feature in features):
        return check
    mates = [f.mate.partition("/")[0] for f in features if f.kind == "cheek" and f.mate]
    own = f"its own slot in {_listed(list(dict.fromkeys(mates)))}" if mates else "its own slot"
    return replace(check, feel=check.feel.replace(OTHER_PIECE, own))


def spare(original: Plan, given: Given, again: Plan) -> Spare:
    """What spares of all pieces of `again` would have cost when the job was cut, by ordering the
    job once more with them."""
    given, choices = given.as_in(original)
    marks = [part.mark for part in again.parts]
    alone = given.solve(given.carried(choices).problem)
    both = given.solve(given.with_spares(choices, marks).problem)
    return Spare(_listed(marks), again.ordering.minutes, both.minutes - alone.minutes)


def spare_words(spare: Spare) -> str:
    """Whether a spare would have been cheaper."""
    again, along = spare.again, spare.along
    said = "no further setting" if not along else f"{minutes(along)} of setting up more"
    if along >= again:
        return f"A spare of {spare.mark} would have saved nothing: cut along it takes {said}."
    return (
        f"A spare of {spare.mark} cut along with the job would have taken {said}; making it again "
        f"takes {minutes(again)}."
    )


def worth_a_spare(plan: Plan, given: Given) -> tuple[str, ...]:
    """For the sheet of the night before: of which pieces a spare is worth cutting along.

    One piece of each role is looked at, the longest, of which most is lost. A spare lies beside
    its twin in every setup, so that it takes no further setting; what making it again would take
    is a bound, quick to compute.
    """
    whole, choices = replace(given, saved=None).as_in(plan)
    said: list[str] = []
    for role in ("stile", "rail"):
        parts = [part for part in plan.parts if part.role == role]
        if not parts:
            continue
        longest = max(parts, key=lambda part: part.size.length)
        one = replace(whole, only=frozenset({longest.mark}))
        try:
            least = least_minutes(one.carried(choices).problem)
        except Refusal:
            continue
        if least >= TELL_FROM:
            said.append(
                f"a spare of {longest.mark} ({longest.name}) cut along takes no further setting; "
                f"made again by itself it takes at least {minutes(least)} of setting up"
            )
    return tuple(said)


def _differs(part: Part, known: Mapping[str, Part]) -> str:
    was = known[part.mark]
    if part.size != was.size:
        names = ("length", "width", "thickness")
        pairs = [(name, getattr(part.size, name), getattr(was.size, name)) for name in names]
        return ", ".join(
            f"its {name} {now}, not {then}" for name, now, then in pairs if now != then
        )
    return "its joints lie otherwise"


def _listed(marks: Sequence[str]) -> str:
    return marks[0] if len(marks) == 1 else f"{', '.join(marks[:-1])} and {marks[-1]}"
