"""The plan's numbers against its own shop, leaves and strips, worked out again from those alone.

What a shop cannot do, a leaf that is missing or hangs wrong, glass and wood that are ordered
otherwise than they stand in the plan.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from fractions import Fraction
from itertools import combinations

from sequencer.errors import InternalError
from sequencer.facts import Length, parts, promises
from sequencer.facts import limits as told
from sequencer.lengths import Unit
from sequencer.plan import Blank, Cut, Plan, RoughLine, Setup, Size, Step, Stick
from sequencer.proof.carriers import CARRIERS
from sequencer.proof.follow import fault
from sequencer.proof.standing import Standing

MEASURED_WITHIN = Fraction(1, 8)
"""How far, in parts of it, a kerf as measured may lie from what the shop states: beyond that it is
another blade's (ours)."""


def check_limits(plan: Plan) -> None:
    """Raises InternalError for the first number that is not the shop's, or not the leaves'. What a
    shop does not state limits nothing."""
    limits = _Limits(plan)
    for setup in plan.setups:
        limits.setup(setup)
    for step in plan.steps:
        for cut in step.cuts:
            limits.cut(step, cut)
    _leaves(plan)
    _panes(plan)
    if plan.orders:
        _stops(plan)
    _rough(plan)
    _boards(plan)


class _Limits:
    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.setups = {setup.number: setup for setup in plan.setups}
        self.sizes: Mapping[str, Size] = (
            {stick.mark: stick.size for stick in plan.sticks}
            | {part.mark: part.size for part in plan.parts}
            | {scrap.mark: scrap.size for scrap in plan.scrap}
        )

    def length(self, value: Fraction) -> Length:
        return Length(value, self.plan.unit)

    def setup(self, setup: Setup) -> None:
        """Its cutter is the shop's, with that cutter's kerf, no higher than the saw goes."""
        shop, number = self.plan.shop, setup.number
        if shop.cutters:
            cutter = shop.cutters.get(setup.cutter)
            if cutter is None:
                raise InternalError(told.NO_CUTTER(setup=number, cutter=setup.cutter))
            stated = Fraction(cutter.get("kerf", setup.kerf))
            if abs(setup.kerf - stated) > MEASURED_WITHIN * stated:
                kerf, wanted = self.length(setup.kerf), self.length(stated)
                raise InternalError(
                    told.OTHER_KERF(setup=number, cutter=setup.cutter, kerf=kerf, stated=wanted)
                )
        if 0 < shop.max_height < setup.height:
            height, most = self.length(setup.height), self.length(shop.max_height)
            raise InternalError(told.TOO_HIGH(setup=number, height=height, most=most))

    def cut(self, step: Step, cut: Cut) -> None:
        """What is cut goes into the jig, or onto the sled."""
        setup = self.setups.get(step.setup) if step.setup is not None else None
        size = self.sizes.get(cut.mark)
        if setup is None or size is None:
            return
        shop, kind = self.plan.shop, CARRIERS[setup.carrier].kind
        edge = "edge" in cut.down or "edge" in (cut.against or "")
        if kind == "jig":
            across = (size.width if edge else size.thickness) + setup.spacer
            checks = [(across, shop.jig_opening, told.TOO_WIDE_FOR_JIG)]
        elif kind == "sled":
            deep = size.thickness if "edge" in cut.down else size.width
            checks = [
                (size.length, shop.sled_longest, told.TOO_LONG_FOR_SLED),
                (deep, shop.sled_widest, told.TOO_WIDE_FOR_SLED),
            ]
        else:
            return
        for found, most, what in checks:
            if 0 < most < found:
                told_of = what(found=self.length(found), most=self.length(most))
                raise fault(step, cut.mark, told_of)


def _leaves(plan: Plan) -> None:
    """Of a pair both leaves are there, the left one hung on the left, the right one on the right:
    they would not open otherwise."""
    doors = {door.mark for door in plan.doors}
    for door in plan.doors:
        for leaf in door.pair:
            if leaf not in doors:
                raise InternalError(told.NO_LEAF(door=door.mark, leaf=leaf))
        if len(door.pair) == 2:
            side = "left" if door.pair[0] == door.mark else "right"
            if door.hinge != side:
                raise InternalError(told.HANGS_WRONG(door=door.mark, side=door.hinge))


def _panes(plan: Plan) -> None:
    """Each pane is ordered once, in the size that it has in its door."""
    panes = {pane.mark: pane for door in plan.doors for pane in door.panes}
    ordered: set[str] = set()
    for order in plan.orders:
        if order.what.id != "part.pane":
            continue
        mark = str(order.what.given["mark"])
        if mark not in panes:
            if plan.doors:
                raise InternalError(told.NO_SUCH_PANE(pane=mark))
            continue
        if order.count != 1 or mark in ordered:
            raise InternalError(told.PANE_ORDERED_TWICE(pane=mark))
        ordered.add(mark)
        if order.size != tuple(high - low for low, high in panes[mark].box):
            raise InternalError(told.PANE_OF_OTHER_SIZE(pane=mark))
    for mark in panes:
        if mark not in ordered:
            raise InternalError(told.PANE_NOT_ORDERED(pane=mark))


def _rough(plan: Plan) -> None:
    """Each strip is in one line, of its wood and thickness, and a line's sizes are its strips'."""
    if not plan.rough:
        return
    sticks = {stick.mark: stick for stick in plan.sticks}
    listed = [mark for line in plan.rough for mark in (*line.sticks, *line.test_sticks)]
    for mark, count in Counter(listed).items():
        if count > 1:
            raise InternalError(told.STRIP_BOUGHT_TWICE(strip=mark))
    if set(listed) <= sticks.keys():  # else two are resawn from one piece, listed as that
        for mark in sticks:
            if mark not in listed:
                raise InternalError(told.STRIP_NOT_BOUGHT(strip=mark))
    for line in plan.rough:
        _line(plan, line, tuple(_known(line, sticks)))


def _known(line: RoughLine, sticks: Mapping[str, Stick]) -> Iterator[Stick]:
    for mark in (*line.sticks, *line.test_sticks):
        if mark in sticks:
            yield sticks[mark]


def _line(plan: Plan, line: RoughLine, sticks: tuple[Stick, ...]) -> None:
    for stick in sticks:
        if (stick.material, stick.size.thickness) != (line.material, line.thickness):
            raise InternalError(told.OTHER_STOCK(strip=stick.mark))
        if stick.test != (stick.mark in line.test_sticks):
            raise InternalError(told.OTHER_STOCK(strip=stick.mark))
    if len(sticks) < len(line.sticks) + len(line.test_sticks):
        return
    blanks = [stick.blank for stick in sticks]
    longest, widest = max(b.length for b in blanks), max(b.width for b in blanks)
    surface = sum((b.length * b.width for b in blanks), Fraction(0))
    if (line.longest, line.widest, line.surface) != (longest, widest, surface):
        thickness = Length(line.thickness, plan.unit)
        raise InternalError(told.OTHER_SUM(material=line.material, thickness=thickness))
    _amounts(plan, line)


FOOT = Fraction(144)
"""A board foot in cubic inches. Stock under an inch is sold as an inch (US Navy, Builder training,
on lumber)."""
INCH: Mapping[Unit, Fraction] = {"in": Fraction(1), "mm": Fraction(127, 5)}


def _amounts(plan: Plan, line: RoughLine) -> None:
    """What is to be bought for the surface, without and with what is lost of it."""
    inch = INCH[plan.unit]
    square, thick = line.surface / inch**2, line.bought_thickness / inch
    feet = square * max(thick, Fraction(1)) / FOOT
    metres = square * thick * INCH["mm"] ** 3 / 1000**3
    more = 1 + Fraction(line.allowance, 100)
    found = (line.board_feet, line.board_feet_with, line.cubic_metres, line.cubic_metres_with)
    if found != (feet, feet * more, metres, metres * more):
        strips = len(line.sticks) + len(line.test_sticks)
        raise InternalError(promises.OTHER_AMOUNT(material=line.material, strips=strips))


def _boards(plan: Plan) -> None:
    """No two blanks lie on the same wood of a board."""
    for board in plan.boards:
        for one, other in combinations(board.blanks, 2):
            if all(
                one.at[n] < other.at[n] + _sides(other)[n]
                and other.at[n] < one.at[n] + _sides(one)[n]
                for n in (0, 1)
            ):
                raise InternalError(
                    promises.SAME_WOOD(board=board.mark, one=one.mark, other=other.mark)
                )


def _sides(blank: Blank) -> tuple[Fraction, Fraction]:
    return blank.size.length, blank.size.width


def _stops(plan: Plan) -> None:
    """The strips that hold glass: two along and two across each light, as long as its rebates are
    wide apart, and as thick as the glass leaves room behind it."""
    wanted: Counter[tuple[Fraction, ...]] = Counter()
    for door in plan.doors:
        leaf = Standing.of(plan, door)
        if not door.panes or not leaf.framed:
            continue
        rebate = next(iter(leaf.stiles[0].features("rebate")), None)
        if rebate is None:
            continue
        reach = rebate.box[1][1] - rebate.box[1][0]
        glass = door.panes[0].box[2]
        section = (reach, rebate.box[2][1] - rebate.box[2][0] - (glass[1] - glass[0]))
        for light in leaf.lights():
            for side in light:
                wanted[side + 2 * reach, *section] += 2
    found: Counter[tuple[Fraction, ...]] = Counter()
    for order in plan.orders:
        if order.what.kind is parts.STOP:
            found[order.size] += order.count
    for size in wanted.keys() | found.keys():
        if wanted[size] != found[size]:
            stop = parts.STOP()
            told_of = promises.OTHER_COUNT(what=stop, found=found[size], wanted=wanted[size])
            raise InternalError(told_of)
