"""The stage itself: every pass of a plan held against every rule, and what is printed of it.

Input: an assembled plan (its setups' cautions still empty) and the shop. Output: a `Review`.
Nothing is printed of a plan with refusals; warnings are printed with a box to tick; a setup shows
all of its messages, the worst word first.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from sequencer.errors import Refusal
from sequencer.job.schema import Shop
from sequencer.lengths import Unit
from sequencer.plan import Caution, Plan
from sequencer.safety import blades, envelope, leaning, pieces
from sequencer.safety.findings import Finding, Predicate
from sequencer.safety.moments import Moment, moments
from sequencer.safety.rules import LEVELS, WORDS, Check, limits, load
from sequencer.safety.wording import caution, filled, places

PREDICATES: Mapping[str, Predicate] = {
    **pieces.CHECKS,
    **blades.CHECKS,
    **envelope.CHECKS,
    **leaning.CHECKS,
}


@dataclass(frozen=True, slots=True)
class Flag:
    """A warning: what is to be ticked before its `setups` are begun, their `marks`, each once, and
    why. `measured` and `limit` are the worst pass's."""

    tick: str
    setups: tuple[int, ...]
    marks: tuple[str, ...]
    caution: Caution
    measured: Fraction | None
    limit: Fraction | None

    @property
    def rule(self) -> str:
        return self.caution.rule


@dataclass(frozen=True, slots=True)
class Refused:
    """A pass that is not printed: `why` is hazard and consequence, `remedy` what would do. `piece`
    names the mark as a reader knows it who has no plan yet."""

    rule: str
    step: int
    setup: int
    does: str
    mark: str
    piece: str
    measured: Fraction | None
    limit: Fraction | None
    why: str
    remedy: str
    source: str

    def __str__(self) -> str:
        return (
            f"{self.piece}, {self.does}: {self.why}\n"
            f"    What would do: {self.remedy}\n"
            f"    Rule {self.rule}: {self.source}"
        )


@dataclass(frozen=True, slots=True)
class Review:
    """What the rules say of a plan.

    `cautions`: for every setup its messages, the one to show first. `standing` and the checks are
    the same for every plan. `warnings` and `refusals` are in the rules' and the steps' order.
    """

    cautions: Mapping[int, tuple[Caution, ...]]
    standing: tuple[Caution, ...]
    before_power: tuple[Check, ...]
    before_leaving: tuple[Check, ...]
    warnings: tuple[Flag, ...]
    refusals: tuple[Refused, ...]


class Unsafe(Refusal):
    """Cuts that published guidance, the shop's limits or this project rule out: all at once."""

    def __init__(self, refusals: tuple[Refused, ...]) -> None:
        self.refusals = refusals
        super().__init__("\n".join(str(each) for each in _gathered(refusals)))


def review(plan: Plan, shop: Shop) -> Review:
    """Hold every pass of the plan against every rule.

    Raises `KeyError` where the plan names a setup, mark or cutter that it or the shop lacks.
    """
    figures = limits(plan.unit, shop.limits)
    by_setup: dict[int, dict[tuple[str, str, str], tuple[Finding, list[Moment]]]] = {}
    refusals: list[Refused] = []
    names = _names(plan)
    for moment in moments(plan, shop):
        found = by_setup.setdefault(moment.setup.number, {})
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
        cautions={n: _messages(found, plan.unit) for n, found in by_setup.items()},
        standing=standing(),
        before_power=load().before_power,
        before_leaving=load().before_leaving,
        warnings=_flags(by_setup, plan.unit),
        refusals=tuple(dict.fromkeys(refusals)),
    )


def standing() -> tuple[Caution, ...]:
    """What the first page says once, whatever the plan."""
    rules = load().by_id
    return tuple(caution(rules[name], rules[name].texts[""], {}) for name in load().standing)


def _exceeds(found: Finding | Refused) -> Fraction:
    """How far the measure is past its limit: the worst pass of a setup gives the figures."""
    if found.measured is None or found.limit is None:
        return Fraction(0)
    return abs(found.measured - found.limit)


def _messages(
    found: Mapping[tuple[str, str, str], tuple[Finding, list[Moment]]], unit: Unit
) -> tuple[Caution, ...]:
    """A setup's messages, worst first; those that say all of a setup before the single points."""
    rules = load().by_id
    order = {name: place for place, name in enumerate(rules)}

    def rank(finding: Finding) -> tuple[int, int, int, int]:
        text = rules[finding.rule].text(finding.case)
        level = LEVELS.index(finding.level)
        return WORDS.index(text.word), 0 if text.main else 1, level, order[finding.rule]

    return tuple(
        caution(rules[f.rule], rules[f.rule].text(f.case), places(f, seen, unit))
        for f, seen in sorted(found.values(), key=lambda pair: rank(pair[0]))
    )


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
    flags: dict[str, Flag] = {}
    for (name, case), each in sorted(met.items(), key=lambda pair: (order[pair[0][0]], pair[0][1])):
        _, worst, seen = max(each, key=lambda one: _exceeds(one[1]))
        put = places(worst, seen, unit)
        text = rules[name].text(case)
        tick = filled(text.tick, put)
        setups = [number for number, _, _ in each]
        marks = [moment.mark for _, _, seen in each for moment in seen]
        if (former := flags.get(tick)) is not None:
            setups += former.setups
            marks = [*former.marks, *marks]
        said = caution(rules[name], text, put) if former is None else former.caution
        flags[tick] = Flag(
            tick, tuple(sorted(set(setups))), tuple(dict.fromkeys(marks)), said,
            worst.measured, worst.limit,
        )  # fmt: skip
    return tuple(flags.values())


def _names(plan: Plan) -> dict[str, str]:
    """What each mark is called before there is a sheet: a part by name, a stick by its pieces."""
    names = {part.mark: f"{part.mark} ({part.name})" for part in plan.parts}
    for stick in plan.sticks:
        for piece in stick.pieces:
            names.setdefault(piece.mark, f"test piece {piece.mark}")
        kind = "test stick" if stick.test else "stick"
        names[stick.mark] = f"{kind} for {', '.join(piece.mark for piece in stick.pieces)}"
    return names


def _refused(finding: Finding, moment: Moment, names: Mapping[str, str], unit: Unit) -> Refused:
    rule = load().by_id[finding.rule]
    text, put = rule.text(finding.case), places(finding, (moment,), unit)
    return Refused(
        rule=rule.id,
        step=moment.step,
        setup=moment.setup.number,
        does=moment.does,
        mark=moment.mark,
        piece=names.get(moment.mark, moment.mark),
        measured=finding.measured,
        limit=finding.limit,
        why=f"{filled(text.hazard, put)} {filled(text.consequence, put)}",
        remedy=filled(text.avoidance, put),
        source=f"{rule.source}. {rule.note}".rstrip(),
    )


def _gathered(refusals: Iterable[Refused]) -> list[Refused]:
    """Refusals of one rule for one kind of cut, told once for all their pieces, with the figures
    of the worst."""
    alike: dict[tuple[str, str, str], list[Refused]] = {}
    for each in refusals:
        alike.setdefault((each.rule, each.does, each.remedy), []).append(each)
    return [
        replace(
            max(group, key=_exceeds),
            piece="; ".join(dict.fromkeys(each.piece for each in group)),
        )
        for group in alike.values()
    ]
