"""Hands and waste, pass by pass, test pieces' too: what the plan says of them against what the
virtual saw leaves, each predicate a row of `PLACED` or `TOLD`.

A predicate's docstring names its source. "Seen" means that the text was read; what is common
practice, from memory or ours says so.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from sequencer.errors import InternalError
from sequencer.facts import Fact, books, sawings
from sequencer.facts import handlings as told
from sequencer.plan import Cut, Freed, Hold, KerfSide, Plan, Setup, Step, Waste
from sequencer.proof.carriers import CARRIERS, Carrier
from sequencer.proof.cells import Brick, Length
from sequencer.proof.follow import fault
from sequencer.proof.grain import Grain
from sequencer.proof.kerf import Pass, guide_side
from sequencer.proof.saw import Sawn, beside
from sequencer.proof.solid import Solid, bounds

AWAY = "away"


@dataclass(frozen=True)
class Seen:
    """One pass as it was sawn: the wood `before` it, how it was `made`, what it left, and whether
    another piece `follows` off the same stick. `stands` is what every knob stands at."""

    plan: Plan
    grain: Grain
    step: Step
    setup: Setup
    cut: Cut
    before: Solid
    made: Pass
    sawn: Sawn
    follows: bool
    stands: Mapping[str, str]

    @property
    def carrier(self) -> Carrier:
        return CARRIERS[self.made.carrier]

    @cached_property
    def box(self) -> Brick:
        return bounds(self.before)

    @property
    def by_eye(self) -> bool:
        return self.made.guide is None

    @property
    def through(self) -> bool:
        return self.cut.keeps is not None

    @property
    def hold(self) -> Hold:
        assert self.cut.hold is not None
        return self.cut.hold

    @property
    def waste(self) -> Waste:
        assert self.cut.waste is not None
        return self.cut.waste

    @property
    def near(self) -> Length:
        """What lies between guide and blade."""
        return self.made.guide or 0

    @property
    def beyond(self) -> Length:
        """What lies on the other side of the kerf."""
        if self.by_eye:
            return self.box[1] - max(self.made.by_eye or 0, self.box[0] + self.made.kerf)
        axis = self.made.bears[0]
        return self.box[2 * axis + 1] - self.box[2 * axis] - self.near - self.made.kerf

    @cached_property
    def loose(self) -> KerfSide | None:
        """On which side of the kerf something lies that hangs on nothing any more."""
        if self.by_eye:
            return "guide" if self.box[0] < (self.made.by_eye or 0) - self.made.kerf else None
        parted = [*self.sawn.freed, *((self.sawn.rest,) if self.sawn.rest else ())]
        if not parted:
            return None
        at_guide = beside(parted[0], guide_side(self.box, self.made))
        return "guide" if at_guide else "open"

    @property
    def freed(self) -> Freed:
        if self.loose is None:
            return "chips"
        if self.carrier.kind != "sled":
            return "strip" if self.carrier.kind == "fence" else "cheek"
        return "rest" if self.follows and not self.by_eye else "offcut"


def fence_and_stop_away(seen: Seen) -> Fact | None:
    """No fence stands beside a cut that it does not guide, no stop where an end is squared. Source:
    warnings printed with table saws, and a saw's manual on crosscutting (both seen)."""
    rides = seen.carrier.kind == "jig" and seen.plan.shop.jig_rides == "fence"
    guides = seen.carrier.kind == "fence" or rides
    if not guides and seen.stands.get("fence") != AWAY:
        return books.FENCE_LEFT()
    knob = seen.carrier.knob
    if seen.by_eye and seen.stands.get(knob) != AWAY:
        return books.OFFCUT_TRAPPED(knob=knob)
    return None


def no_knife_on_a_head(seen: Seen) -> Fact | None:
    """Source: a saw's manual on grooving heads (seen)."""
    cutter = seen.plan.shop.cutters.get(seen.setup.cutter, {})
    on_head = cutter.get("kind") == "dado" and seen.setup.guard != "cover"
    return told.KNIFE_ON_HEAD() if on_head else None


def falls_as_told(seen: Seen) -> Fact | None:
    """Source: what the virtual saw leaves (worked out); that a cheek's waste is to fall on the open
    side of the jig: a textbook and a magazine on shoulder cuts (seen)."""
    lands = "deck" if seen.setup.height > seen.setup.depth else "table"
    found = told.CHIPS()
    if seen.loose is not None:
        found = _freed(seen.freed, seen.loose, lands)
    said = seen.waste
    wanted = told.CHIPS()
    if said.what != "chips":
        wanted = _freed(said.what, said.side or "none", said.lands or "none")
    return told.FALLS(found=found, told=wanted) if found != wanted else None


def _freed(what: str, side: str, lands: str) -> Fact:
    return told.FREED(what=f"freed.{what}", side=f"kerf.{side}", lands=f"lands.{lands}")


def captive_is_told(seen: Seen) -> Fact | None:
    """Which of two parted pieces lies between blade and guide. Source: what the virtual saw leaves
    (worked out)."""
    found = "none"
    if seen.through and not seen.by_eye:
        at_guide = beside(seen.sawn.kept, guide_side(seen.box, seen.made))
        found = "part" if at_guide else "rest"
    said = seen.hold.captive or "none"
    if found == said:
        return None
    return told.CAPTIVE(found=f"captive.{found}", told=f"captive.{said}")


def the_captive_is_held(seen: Seen) -> Fact | None:
    """Of two parted pieces the captive one is held, or pushed right past the blade; of an end that
    is squared the stick; on the sled of a whole piece the longer side. Source: warnings printed
    with table saws, for the fence (seen); for the sled common practice."""
    wanted: KerfSide | None = None
    if seen.by_eye:
        wanted = "open"
    elif seen.through or (seen.carrier.kind == "sled" and seen.near >= seen.beyond):
        wanted = "guide"
    elif seen.carrier.kind == "sled":
        wanted = "open"
    if seen.hold.side == wanted:
        return None
    return told.HELD(found=f"kerf.{wanted or 'none'}", told=f"kerf.{seen.hold.side or 'none'}")


def reaches_as_told(seen: Seen) -> Fact | None:
    """How far the held side goes on from the blade. Source: worked out from the wood."""
    if seen.hold.side is None:
        axis = seen.made.lies[0]
        found = max(0, seen.box[2 * axis + 1] - seen.box[2 * axis] - seen.made.depth)
    else:
        found = seen.near if seen.hold.side == "guide" else seen.beyond
    length = seen.grain.told(found)
    said = seen.grain.told(seen.hold.reach * seen.grain.parts)
    return told.REACHES(found=length, told=said) if length != said else None


Least = tuple[Fraction, Fraction]
"""In inches and in millimetres."""

_ANY: Least = (Fraction(0), Fraction(0))
_HAND: Least = (Fraction(13, 2), Fraction(165))
GRIPS: Mapping[tuple[str, bool], Mapping[str, Least]] = {
    ("sled", False): {"hand": _HAND, "clamp": _ANY},
    ("sled", True): {"hand": _HAND, "clamp": _ANY},
    ("fence", True): {
        "hand": (Fraction(6), Fraction(150)),
        "push-stick": (Fraction(2), Fraction(50)),
        "push-block": _ANY,
    },
    ("fence", False): {"push-block": _ANY},
    ("jig", False): {"jig-clamp": (Fraction(4), Fraction(100))},
}
"""By what carries and whether the cut goes through: what may hold, and how far what it holds must
go on from the blade then."""


def held_far_from_the_blade(seen: Seen) -> Fact | None:
    """A hand on the sled keeps 75 mm (3 in) away (Modern Cabinetmaking (2016), p. 406, seen) and
    is 90 mm (3 1/2 in) broad (from memory); on the fence a push stick under 150 mm, a push block
    under 50 mm (warnings printed with table saws, seen), and a block where the guard is off (common
    practice). At 45° the blade drags the piece along: a clamp (common practice). What is left above
    the cut for the jig's clamp is ours."""
    by = seen.hold.by
    grips = GRIPS[seen.carrier.kind, seen.through]
    if by not in grips or (seen.carrier.slanted and by != "clamp"):
        return told.NO_GRIP(by=f"by.{by}")
    least = grips[by][0 if seen.plan.unit == "in" else 1] * seen.grain.parts
    reach = seen.hold.reach * seen.grain.parts
    if reach >= least:
        return None
    return told.TOO_NEAR(by=f"by.{by}", found=seen.grain.told(reach), least=seen.grain.told(least))


def pressed_where_the_guard_is_off(seen: Seen) -> Fact | None:
    """On the fence something presses where guard and knife are off: to the fence a piece whose
    blade leans, else down. Source: 8 CCR 4296 and WAC 296-806-48008 (seen)."""
    wanted = "none"
    if seen.carrier.kind == "fence" and not seen.through:
        wanted = "to-fence" if seen.setup.tilt else "down"
    said = seen.hold.pressed or "none"
    if wanted == said:
        return None
    return told.PRESSED(found=f"pressed.{wanted}", told=f"pressed.{said}")


def nothing_left_behind(seen: Seen) -> Fact | None:
    """What is parted between blade and fence is the wider piece, which is pushed; else nobody moves
    it. Source: warnings printed with table saws, and a saw's manual (both seen)."""
    if seen.by_eye or seen.loose != "guide" or seen.near >= seen.beyond:
        return None
    return sawings.TRAPPED(guide=seen.carrier.guide)


def ends_safely(seen: Seen) -> Fact | None:
    """Nothing is drawn back past a running blade: from the jig (its manual, seen), or on the sled
    what is clamped or has come loose; what is whole may be lifted off (common practice). On the
    fence the piece is pushed right past (HSE's guidance on rip saws, seen)."""
    wanted = "past"
    if seen.carrier.kind != "fence":
        loose = seen.carrier.kind == "jig" or seen.loose is not None or seen.hold.by != "hand"
        wanted = "still" if loose else "lifted"
    said = seen.waste.ended
    if wanted == said:
        return None
    return told.ENDED(found=f"ended.{wanted}", told=f"ended.{said}")


Predicate = Callable[[Seen], Fact | None]

PLACED: tuple[Predicate, ...] = (fence_and_stop_away, no_knife_on_a_head)
"""Asked of every plan."""

TOLD: tuple[Predicate, ...] = (
    falls_as_told,
    captive_is_told,
    the_captive_is_held,
    reaches_as_told,
    held_far_from_the_blade,
    pressed_where_the_guard_is_off,
    nothing_left_behind,
    ends_safely,
)
"""Asked where a plan tells of hands and waste; one that is older does not."""


class Watch:
    """Looks at every pass, and keeps the first fault for the end: a wrong number is named better by
    what it does to the wood."""

    def __init__(self, plan: Plan, grain: Grain) -> None:
        self.plan = plan
        self.grain = grain
        self.setups = {setup.number: setup for setup in plan.setups}
        self.telling = any(c.hold or c.waste for step in plan.steps for c in step.cuts)
        self.fault: InternalError | None = None
        state_of = {placed.operation: placed.state for placed in plan.ordering.order}
        self.stands = {
            step.setup: state_of[operation]
            for step in plan.steps
            for operation in step.operations
            if step.setup is not None and operation in state_of
        }

    def look(
        self, step: Step, cut: Cut, name: str, before: Solid, made: Pass, sawn: Sawn, follows: bool
    ) -> None:
        """One pass; `name` is what a fault calls the piece."""
        if self.fault is not None or step.setup is None:
            return
        setup = self.setups[step.setup]
        seen = Seen(
            self.plan, self.grain, step, setup, cut, before, made, sawn, follows,
            self.stands.get(step.setup, {}),
        )  # fmt: skip
        for row in self.rows(cut):
            what = row(seen)
            if what is not None:
                self.fault = fault(step, name, what)
                return

    def rows(self, cut: Cut) -> tuple[Predicate, ...]:
        if not self.telling:
            return PLACED
        if cut.hold is None or cut.waste is None:
            return (lambda _: told.UNTOLD(),)
        return (*PLACED, *TOLD)

    def settle(self) -> None:
        """Raises the fault, where there is one."""
        if self.fault is not None:
            raise self.fault
