"""What hands hold in a pass and what it frees, worked out once, for rules and plan alike."""

from __future__ import annotations

from fractions import Fraction
from itertools import groupby

from sequencer.job.schema import Shop
from sequencer.plan import Freed, Hold, KerfSide, Plan, Waste
from sequencer.plan.handling import By, Ended, Lands, Parted, Pressed
from sequencer.records import replace
from sequencer.safety.moments import OPPOSITE, Moment, moments
from sequencer.safety.rules import Limits, limits
from sequencer.saw.fittings import CARRIERS


def handled(plan: Plan, shop: Shop) -> Plan:
    """The plan with hold and waste of every cut, test pieces' too. Raises as `moments`."""
    figures = limits(plan.unit, shop.limits)
    cuts = {
        step: tuple(replace(m.cut, hold=hold(m, figures), waste=waste(m, figures)) for m in made)
        for step, made in groupby(moments(plan, shop), key=lambda m: m.step)
    }
    steps = (replace(step, cuts=cuts.get(step.number, step.cuts)) for step in plan.steps)
    return replace(plan, steps=tuple(steps))


def hold(m: Moment, figures: Limits) -> Hold:
    """Which side of the kerf is held, by what, and how far it reaches from the blade."""
    side, reach = _held(m)
    captive: Parted | None = None
    if m.through and m.setup.guide is not None:
        captive = "rest" if m.cut.keeps == "far" else "part"
    pressed: Pressed | None = None
    if m.body == "fence" and not m.through:
        pressed = "to-fence" if m.does == "bevel" else "down"
    return Hold(_by(m, reach, figures), side, reach, captive, pressed)


def _held(m: Moment) -> tuple[KerfSide | None, Fraction]:
    """On the sled, of what is crosscut the piece that is kept, captive between stop and blade; of a
    stick whose end is squared all but the offcut; of what stays whole the longer side. On the fence
    what lies between it and the blade is pushed. What stays whole there, or stands in the jig, is
    held above the blade."""
    guide = m.setup.guide
    if m.body == "sled":
        if guide is None:
            return "open", m.length - max(m.start, m.setup.kerf)
        at_stop = m.cut.keeps != "far" if m.through else guide >= m.beyond
        return ("guide", guide) if at_stop else ("open", m.beyond)
    if m.body == "fence" and m.through:
        return "guide", guide or Fraction(0)
    return None, max(Fraction(0), m.standing_height - m.setup.depth)


def _by(m: Moment, reach: Fraction, figures: Limits) -> By:
    if m.body == "jig":
        return "jig-clamp"
    if m.body == "fence":
        if not m.through or reach < figures["push_block_gap"]:
            return "push-block"
        return "push-stick" if reach < figures["push_stick_gap"] else "hand"
    near = reach < figures["hand_breadth"] + figures["hand_to_blade_warned"]
    return "clamp" if near or CARRIERS[m.setup.carrier].slanted else "hand"


def waste(m: Moment, figures: Limits) -> Waste:
    """What the pass frees, and on which side of the blade it lies then."""
    what = _freed(m)
    ended: Ended = "past"
    if m.body != "fence":
        loose = what != "chips" or hold(m, figures).by != "hand"
        ended = "still" if loose else "lifted"
    if what == "chips":
        return Waste(what, None, None, ended)
    at_guide = m.setup.guide is None or (m.through and m.cut.keeps == "far")
    lands: Lands = "deck" if m.setup.height > m.setup.depth else "table"
    return Waste(what, "guide" if at_guide else "open", lands, ended)


def _freed(m: Moment) -> Freed:
    if m.does == "square":
        return "offcut" if m.start > m.setup.kerf else "chips"
    if m.cut.sweep or m.beyond <= 0:
        return "chips"
    if m.does == "crosscut":
        return "rest" if m.follows else "offcut"
    if m.body == "fence":
        return "strip" if m.does == "rip" or _strip_freed(m) else "chips"
    return "cheek" if m.body == "jig" and _cheek_freed(m) else "chips"


def _cheek_freed(m: Moment) -> bool:
    """Whether a shoulder as deep was cut before on the open side of the jig. On edge a groove may
    have left wood toward the faces alone, or none: then theirs parts it just as well."""
    side = OPPOSITE.get(m.cut.against or "", "")

    def shoulder(on: str) -> Fraction:
        return m.flat_cuts.get((on, m.cut.down), Fraction(0))

    shouldered = shoulder(side) >= m.beyond
    grooved = [wall for wall in m.walls if wall.down == side and wall.deep >= m.beyond]
    if not grooved:
        return shouldered
    whole = m.thickness
    spans = [
        (wall.near, wall.far) if wall.bore == "face" else (whole - wall.far, whole - wall.near)
        for wall in grooved
    ]
    first, last = min(near for near, _ in spans), max(far for _, far in spans)
    cheeks = [wall for wall in m.walls if wall.down == m.cut.down]
    high = min((wall.near for wall in cheeks if wall.bore == "face"), default=whole)
    low = whole - min((wall.near for wall in cheeks if wall.bore == "back"), default=whole)
    toward_face = first > low and (shouldered or shoulder("face") >= first)
    toward_back = last < high and (shouldered or shoulder("back") >= whole - last)
    return toward_face or toward_back


def _strip_freed(m: Moment) -> bool:
    """Whether a bevel comes out of the face, or a rebate meets its first cut on the open side."""
    against = m.cut.against or ""
    if m.setup.tilt:
        out = (m.setup.guide or 0) + m.setup.kerf - m.setup.tilt * m.setup.depth
        return out >= m.across
    if m.does != "rebate":
        return False
    if m.on_edge:
        deep = m.flat_cuts.get((OPPOSITE[against], m.cut.down), Fraction(0))
        return deep >= m.beyond
    first = (m.near_edge, f"rebate {OPPOSITE[m.cut.down]}")
    return m.near_edge != against and first in m.done
