"""The stage itself: every pass of a plan held against every rule, and what is printed of it.

Input: an assembled plan (its setups' cautions still empty) and the shop. Output: a `Review`.
Nothing is printed of a plan with refusals; warnings are printed with a box to tick; a setup shows
all of its messages, the worst word first.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction

from msgspec import Struct

from sequencer.errors import Refusal
from sequencer.facts import Fact
from sequencer.facts import cautions as told
from sequencer.job.schema import Shop
from sequencer.lengths import Unit
from sequencer.plan import Aid, Caution, Plan
from sequencer.safety import aids, blades, envelope, leaning, pieces
from sequencer.safety.bench import MET_BY, harmful_woods
from sequencer.safety.findings import Finding, Predicate
from sequencer.safety.moments import Moment, moments
from sequencer.safety.rules import LEVELS, WORDS, limits, load
from sequencer.safety.telling import always, caution, check, hazard, tick

PREDICATES: Mapping[str, Predicate] = {
    **pieces.CHECKS,
    **blades.CHECKS,
    **envelope.CHECKS,
    **leaning.CHECKS,
}


class Flag(Struct, frozen=True):
    """A warning: what is to be ticked before its `setups` are begun, their `marks`, each once, and
    why. `measured` and `limit` are the worst pass's."""

    tick: Fact
    setups: tuple[int, ...]
    marks: tuple[str, ...]
    caution: Caution
    measured: Fraction | None
    limit: Fraction | None

    @property
    def rule(self) -> str:
        return self.caution.rule


class Refused(Struct, frozen=True):
    """A pass that is not printed, and `why`. `piece` names the mark as a reader knows it who has
    no plan yet."""

    rule: str
    step: int
    setup: int
    does: str
    mark: str
    piece: Fact
    measured: Fraction | None
    limit: Fraction | None
    why: Fact
    source: str


class Review(Struct, frozen=True):
    """What the rules say of a plan.

    `cautions`: for every setup its messages, the one to show first; `at_bench` for every kind of
    step that is done there. The checks are the same for every plan of a shop. `aids`
    answer some of the warnings. `warnings` and `refusals` are in the rules' and the steps' order.
    """

    cautions: Mapping[int, tuple[Caution, ...]]
    at_bench: Mapping[str, tuple[Caution, ...]]
    standing: tuple[Caution, ...]
    before_power: tuple[Fact, ...]
    before_leaving: tuple[Fact, ...]
    warnings: tuple[Flag, ...]
    aids: tuple[Aid, ...]
    refusals: tuple[Refused, ...]


class Unsafe(Refusal):
    """Cuts that published guidance, the shop's limits or this project rule out: all at once."""

    def __init__(self, refusals: tuple[Refused, ...]) -> None:
        self.refusals = refusals
        super().__init__(*_gathered(refusals))


def review(plan: Plan, shop: Shop) -> Review:
    """Hold every pass of the plan against every rule.

    Raises `KeyError` where the plan names a setup, mark or cutter that it or the shop lacks.
    """
    figures = limits(plan.unit, shop.limits)
    by_setup: dict[int, dict[tuple[str, str, str], tuple[Finding, list[Moment]]]] = {}
    refusals: list[Refused] = []
    names = _names(plan)
    passes: dict[int, list[Moment]] = {}
    for moment in moments(plan, shop):
        found = by_setup.setdefault(moment.setup.number, {})
        passes.setdefault(moment.setup.number, []).append(moment)
        for predicate in PREDICATES.values():
            finding = predicate(moment, figures)
            if finding is None:
                continue
            if finding.level == "refuse":
                refusals.append(_refused(finding, moment, names, plan.unit))
                continue
            key = (finding.rule, finding.case, finding.level)
            former, seen = found.setdefault(key, (finding, []))
            seen.append(moment)
            if _exceeds(finding) > _exceeds(former):
                found[key] = (finding, [moment, *(m for m in seen if m is not moment)])
    return Review(
        cautions={n: _messages(found, passes[n], plan.unit) for n, found in by_setup.items()},
        at_bench=_at_bench(),
        standing=standing(plan),
        before_power=tuple(check(c.check, figures, plan.unit) for c in load().before_power),
        before_leaving=tuple(check(c.check, figures, plan.unit) for c in load().before_leaving),
        warnings=_flags(by_setup, plan.unit),
        aids=aids.needed(by_setup, shop, plan.unit),
        refusals=tuple(dict.fromkeys(refusals)),
    )


def standing(plan: Plan) -> tuple[Caution, ...]:
    """What the first page says once: the same for every plan, but for woods whose dust is known to
    harm."""
    rules = load().by_id
    woods = harmful_woods(plan)
    return tuple(
        always(rules[name], "woods" if woods and "woods" in rules[name].cases else "", woods)
        for name in load().standing
    )


def _at_bench() -> dict[str, tuple[Caution, ...]]:
    rules = load().by_id
    found: dict[str, tuple[Caution, ...]] = {}
    for name, kinds in MET_BY.items():
        for kind in kinds:
            found[kind] = (*found.get(kind, ()), always(rules[name]))
    return found


def _exceeds(found: Finding | Refused) -> Fraction:
    """How far the measure is past its limit: the worst pass of a setup gives the figures."""
    if found.measured is None or found.limit is None:
        return Fraction(0)
    return abs(found.measured - found.limit)


def _messages(
    found: Mapping[tuple[str, str, str], tuple[Finding, list[Moment]]],
    passes: Sequence[Moment],
    unit: Unit,
) -> tuple[Caution, ...]:
    """A setup's messages, worst first; those that say all of a setup before the single points."""
    rules = load().by_id
    order = {name: place for place, name in enumerate(rules)}

    def rank(one: tuple[Finding, Caution]) -> tuple[int, int, int, int]:
        finding, message = one
        main = rules[finding.rule].case(finding.case).main
        level = LEVELS.index(finding.level)
        return WORDS.index(message.word), 0 if main else 1, level, order[finding.rule]

    made = [(finding, caution(finding, seen, unit, passes)) for finding, seen in found.values()]
    return tuple(message for _, message in sorted(made, key=rank))


def _flags(
    by_setup: Mapping[int, Mapping[tuple[str, str, str], tuple[Finding, list[Moment]]]], unit: Unit
) -> tuple[Flag, ...]:
    """One box to tick for each thing to confirm, however many rules and setups ask for it; the
    worst pass of a rule gives the figures."""
    rules = load().by_id
    order = {name: place for place, name in enumerate(rules)}
    met: dict[tuple[str, str], list[tuple[int, Finding, list[Moment]]]] = {}
    for number in sorted(by_setup):
        for (rule, case, level), (finding, seen) in by_setup[number].items():
            if level == "warn":
                met.setdefault((rule, case), []).append((number, finding, seen))
    flags: dict[Fact, Flag] = {}
    for (name, case), each in sorted(met.items(), key=lambda pair: (order[pair[0][0]], pair[0][1])):
        _, worst, seen = max(each, key=lambda one: _exceeds(one[1]))
        asked = tick(rules[name].case(case).tick, worst, seen, unit)
        setups = [number for number, _, _ in each]
        marks = [moment.mark for _, _, seen in each for moment in seen]
        if (former := flags.get(asked)) is not None:
            setups += former.setups
            marks = [*former.marks, *marks]
        said = caution(worst, seen, unit) if former is None else former.caution
        flags[asked] = Flag(
            asked, tuple(sorted(set(setups))), tuple(dict.fromkeys(marks)), said,
            worst.measured, worst.limit,
        )  # fmt: skip
    return tuple(flags.values())


def _names(plan: Plan) -> dict[str, Fact]:
    """What each mark is called before there is a sheet: a part by name, a stick by its pieces."""
    names = {part.mark: told.PART(mark=part.mark, name=part.name) for part in plan.parts}
    for stick in plan.sticks:
        for piece in stick.pieces:
            names.setdefault(piece.mark, told.TEST_PIECE(mark=piece.mark))
        kind = told.TEST_STICK if stick.test else told.STICK
        names[stick.mark] = kind(marks=tuple(piece.mark for piece in stick.pieces))
    return names


def _refused(finding: Finding, moment: Moment, names: Mapping[str, Fact], unit: Unit) -> Refused:
    return Refused(
        rule=finding.rule,
        step=moment.step,
        setup=moment.setup.number,
        does=moment.does,
        mark=moment.mark,
        piece=names.get(moment.mark) or told.TEST_PIECE(mark=moment.mark),
        measured=finding.measured,
        limit=finding.limit,
        why=hazard(finding, (moment,), unit),
        source=load().by_id[finding.rule].source,
    )


def _gathered(refusals: Iterable[Refused]) -> list[Fact]:
    """Refusals of one rule for one kind of cut, told once for all their pieces, with the figures
    of the worst."""
    alike: dict[tuple[str, str], list[Refused]] = {}
    for each in refusals:
        alike.setdefault((each.why.id, each.does), []).append(each)
    made = []
    for group in alike.values():
        worst = max(group, key=_exceeds)
        made.append(
            told.REFUSED(
                pieces=tuple(dict.fromkeys(each.piece for each in group)),
                does=f"cut.{worst.does}",
                why=worst.why,
                rule=worst.rule,
                source=worst.source,
            )
        )
    return made
