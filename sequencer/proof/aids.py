"""Aids: a setup that asks for one by this table names it, and what is named is at hand or made.

The table is the proof's own, in mm with the inch figure of its source; it sees sizes of pieces and
settings alone. Each row says where its figure is from.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction

from msgspec import Struct

from sequencer.errors import InternalError
from sequencer.facts import Length
from sequencer.facts import books as told
from sequencer.lengths import Unit
from sequencer.plan import Cut, Plan, Setup, ShopFacts, Size, Step
from sequencer.proof.carriers import CARRIERS
from sequencer.proof.follow import fault

_ZERO = Fraction(0)
_FACES = ("face", "back")


class _Pass(Struct, frozen=True):
    """A pass on a piece of its finished `size`."""

    cut: Cut
    setup: Setup
    shop: ShopFacts
    size: Size
    unit: Unit

    def figure(self, mm: str, inch: str) -> Fraction:
        return Fraction(mm if self.unit == "mm" else inch)

    @property
    def kind(self) -> str:
        return CARRIERS[self.setup.carrier].kind

    @property
    def flat(self) -> bool:
        return self.cut.down in _FACES

    @property
    def tall(self) -> Fraction:
        """How high it stands, of what stands."""
        return self.size.length if self.cut.down.startswith("end") else self.size.width

    @property
    def along(self) -> Fraction:
        """What of it lies along the guide."""
        if self.cut.down.startswith("end"):
            return self.size.width if self.cut.against in _FACES else self.size.thickness
        return self.size.length


def _narrow_rip(p: _Pass) -> bool:
    """Under 2 in, 50 mm: manuals of table saws; stock of 1/8 in or less: the same."""
    if p.kind != "fence" or p.cut.keeps is None or p.setup.guide is None:
        return False
    thin = p.flat and p.size.thickness <= p.figure("3.2", "1/8")
    return p.setup.guide < p.figure("50", "2") or thin


def _stands_tall(p: _Pass) -> bool:
    """Half its height above the fence (a magazine on tall fences for panels); an ordinary fence is
    65 mm, 2 1/2 in high (ours)."""
    stated = p.shop.fence_height
    fence = p.figure("65", "5/2") if stated is None else stated
    return p.kind == "fence" and not p.flat and _need(p) > fence


def _need(p: _Pass) -> Fraction:
    return min(p.tall / 2, p.figure("200", "8"))


def _narrow_on_end(p: _Pass) -> bool:
    """Under 38 mm, 1 1/2 in along the jig (ours)."""
    return p.kind == "jig" and p.along < p.figure("38", "3/2")


def _short_on_fence(p: _Pass) -> bool:
    """Under 300 mm, 12 in along the fence (a magazine on small parts)."""
    return p.kind == "fence" and p.cut.keeps is None and p.along < p.figure("300", "12")


def _short_panel(p: _Pass) -> bool:
    return _short_on_fence(p) and p.setup.tilt != 0


def _short_piece(p: _Pass) -> bool:
    return _short_on_fence(p) and p.setup.tilt == 0


def _near_hand(p: _Pass) -> bool:
    """Crosscut with less than 150 mm, 6 in (manuals of table saws) and a hand's breadth of 90 mm,
    3 1/2 in (from memory) between stop and blade, or held at 45°, and no clamp."""
    if p.kind != "sled" or p.shop.sled_clamp:
        return False
    kept = p.cut.keeps == "guide" and p.setup.guide is not None
    near = kept and (p.setup.guide or _ZERO) < p.figure("240", "19/2")
    return near or CARRIERS[p.setup.carrier].slanted


TABLE: Mapping[str, Callable[[_Pass], bool]] = {
    "narrow-rip-fence": _narrow_rip,
    "tall-fence": _stands_tall,
    "backing-block": _narrow_on_end,
    "riding-board": _short_panel,
    "piece-carrier": _short_piece,
    "sled-clamp": _near_hand,
}


def check_aids(plan: Plan) -> None:
    """Raises InternalError for the first setup that lacks an aid, and the first aid that is not
    what the plan's shop has or lacks. A plan that tells of no aids at all is passed over."""
    if plan.shop.aids is None:
        return
    _entries(plan)
    setups = {setup.number: setup for setup in plan.setups}
    sizes = (
        {stick.mark: stick.size for stick in plan.sticks}
        | {part.mark: part.size for part in plan.parts}
        | {scrap.mark: scrap.size for scrap in plan.scrap}
    )
    tongues: dict[tuple[str, str], str | None] = {}
    for step in plan.steps:
        setup = setups.get(step.setup or 0)
        for cut in step.cuts if setup is not None else ():
            size = sizes.get(cut.mark)
            if size is None or setup is None:
                continue
            asked = _Pass(cut, setup, plan.shop, size, plan.unit)
            needs = [name for name, asks in TABLE.items() if asks(asked)]
            if _on_tongue(step, asked, tongues):
                needs.append("bearing-strip")
            for name in needs:
                _named(plan, step, asked, name)


def _on_tongue(step: Step, p: _Pass, first: dict[tuple[str, str], str | None]) -> bool:
    """Of a tongue's two rebates the second, on edge: less than 12 mm, 1/2 in is left under the
    board (ours)."""
    if step.kind != "rebate" or p.kind != "fence" or p.flat or p.setup.guide is None:
        return False
    before = first.setdefault((p.cut.mark, p.cut.down), p.cut.against)
    left = 2 * p.setup.guide - p.size.thickness
    return before != p.cut.against and left < p.figure("12", "1/2")


def _named(plan: Plan, step: Step, p: _Pass, name: str) -> None:
    here = [aid for aid in plan.aids if aid.name == name and p.setup.number in aid.setups]
    if not here:
        raise fault(step, p.cut.mark, told.NO_AID(aid=f"aid.{name}"))
    if name == "tall-fence" and not here[0].at_hand:
        high, need = here[0].boards[0].size.width, _need(p)
        if high < need:
            high_, need_ = Length(high, plan.unit), Length(need, plan.unit)
            raise fault(step, p.cut.mark, told.LOW_FENCE(high=high_, need=need_))


def _entries(plan: Plan) -> None:
    """Each aid is for setups that are there, made where it is not at hand, and its minutes are
    told with the order's."""
    numbers = {setup.number for setup in plan.setups}
    for aid in plan.aids:
        term = f"aid.{aid.name}"
        if not aid.setups or not numbers.issuperset(aid.setups):
            raise InternalError(told.AID_FOR_NOTHING(aid=term))
        at_hand = aid.name in (plan.shop.aids or ())
        made = aid.made > 0 and bool(aid.boards)
        if aid.at_hand != at_hand or made == at_hand:
            raise InternalError(told.AID_NEITHER(aid=term))
    total = sum((aid.made for aid in plan.aids), _ZERO)
    for setup in plan.setups:
        on = (aid for aid in plan.aids if setup.number in aid.setups)
        total += sum((aid.fitted for aid in on if setup.number - 1 not in aid.setups), _ZERO)
    said = [fact.given["could_save"] for fact in plan.ordering.left_out if fact.id == "claim.aids"]
    if said != ([total] if total else []):
        raise InternalError(told.AID_MINUTES(minutes=total))
