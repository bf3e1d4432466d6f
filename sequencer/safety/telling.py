"""From what a rule found to the facts that are told: hazards, ticks, checks."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction

from sequencer.facts import Fact, Kind, Length, Value, cautions
from sequencer.lengths import Unit
from sequencer.plan import Caution
from sequencer.safety.findings import Finding, by_hand
from sequencer.safety.handling import hold
from sequencer.safety.moments import Moment
from sequencer.safety.rules import Limits, Rule, limits, load


def hazard_kind(rule: str, case: str) -> Kind:
    """The kind that tells of a rule's case. Raises `KeyError` where there is none."""
    return cautions.kind_of.kinds["caution." + "-".join(filter(None, (rule.lower(), case)))]


def hazard(
    finding: Finding, seen: Sequence[Moment], unit: Unit, beside: Sequence[Moment] = ()
) -> Fact:
    """What the finding tells of the passes of a setup, the worst first. `beside` are all of the
    setup's: they are held by its box too."""
    rule = load().by_id[finding.rule]
    case = finding.case if finding.case in rule.cases else ""
    return _filled(hazard_kind(rule.id, case), finding, seen, unit, beside)


def tick(name: str, finding: Finding, seen: Sequence[Moment], unit: Unit) -> Fact:
    """What is confirmed where the finding warns."""
    return _filled(cautions.kind_of.kinds[f"caution.tick-{name}"], finding, seen, unit)


def caution(
    finding: Finding, seen: Sequence[Moment], unit: Unit, beside: Sequence[Moment] = ()
) -> Caution:
    """The message as a setup carries it; its word by what covers the blade there."""
    says = hazard(finding, seen, unit, beside)
    rule = load().by_id[finding.rule]
    return Caution(rule.id, word(finding, seen[0]), says, rule.source)


def word(finding: Finding, moment: Moment) -> str:
    """The signal word of a finding in a pass."""
    case = load().by_id[finding.rule].case(finding.case)
    bare = moment.setup.guard != "fitted" and not moment.shop.saw.cover
    return case.bare if bare and case.bare else case.word


def always(rule: Rule, case: str = "", woods: tuple[str, ...] = ()) -> Caution:
    """What holds for all setups or steps alike."""
    says = _told(hazard_kind(rule.id, case), {"woods": lambda: woods})
    return Caution(rule.id, rule.case(case).word, says, rule.source)


def check(name: str, figures: Limits, unit: Unit) -> Fact:
    """What is looked at before power is on or a setup is left."""
    return _told(
        cautions.kind_of.kinds[f"caution.check-{name}"],
        {
            "knife": lambda: Length(figures["knife_gap_most"], unit),
            "guard": lambda: Length(figures["guard_above_work"], unit),
            "overlap": lambda: Length(figures["fence_past_teeth"], unit),
        },
    )


def _filled(
    kind: Kind,
    finding: Finding,
    seen: Sequence[Moment],
    unit: Unit,
    beside: Sequence[Moment] = (),
) -> Fact:
    moment = seen[0]
    saw, setup = moment.shop.saw, moment.setup
    return _told(
        kind,
        {
            "measured": lambda: Length(finding.measured or Fraction(0), unit),
            "limit": lambda: Length(finding.limit or Fraction(0), unit),
            "gap": lambda: Length(setup.guide or Fraction(0), unit),
            "depth": lambda: Length(setup.depth, unit),
            "hold_down": lambda: saw.hold_down,
            "held": lambda: _holding(seen, unit)(side=_side(seen, unit, beside)),
            "side": lambda: _side(seen, unit, beside),
        },
    )


def _told(kind: Kind, given: dict[str, Callable[[], Value]]) -> Fact:
    """Of all that could be told, what the kind takes."""
    return kind(**{name: given[name]() for name in kind.takes})


def _side(seen: Sequence[Moment], unit: Unit, beside: Sequence[Moment] = ()) -> Fact:
    """Which side of the kerf is held, of all pieces of the setup; how long it is on the shortest of
    those `seen`, where a hand on it would come near."""
    figures = limits(unit, seen[0].shop.limits)
    sides = {
        cautions.SIDE_STOP
        if hold(moment, figures).side == "guide"
        else cautions.SIDE_STICK
        if moment.setup.guide is None
        else cautions.SIDE_BEYOND
        for moment in (*seen, *beside)
    }
    side = sides.pop() if len(sides) == 1 else cautions.SIDE_LONGER
    least = min(hold(moment, figures).reach for moment in seen)
    near = least < figures["hand_breadth"] + figures["hand_to_blade_warned"]
    return side(least=Length(least, unit) if near else None)


def _holding(seen: Sequence[Moment], unit: Unit) -> Kind:
    """How the pieces are held on the sled: by hand only where the hand stays well away, by the
    sled's clamp, or by one that is made for it, where it would not."""
    figures = limits(unit, seen[0].shop.limits)
    by = {hold(moment, figures).by for moment in seen}
    if by != {"hand"}:
        return cautions.CLAMP
    return cautions.HOLD_ONLY if by_hand(seen[0]) else cautions.CLAMP_OR_HOLD
