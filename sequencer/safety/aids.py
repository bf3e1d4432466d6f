"""Which aids a plan's setups need, by the warnings that they answer, and how large each is made."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from fractions import Fraction

from sequencer.job.schema import Shop
from sequencer.lengths import Unit
from sequencer.plan import Aid, AidBoard, Size
from sequencer.safety.findings import Finding
from sequencer.safety.moments import Moment
from sequencer.trade.aids import AIDS, AidRow, Follows

Found = Mapping[int, Mapping[tuple[str, str, str], tuple[Finding, Sequence[Moment]]]]
"""By setup, and by rule, case and level: the worst pass's finding, and its passes, that one
first."""


def needed(found: Found, shop: Shop, unit: Unit) -> tuple[Aid, ...]:
    """Each aid with the setups that need it, in the registry's order; one that is made to a size
    is told once a size, a tall fence as the tallest that is asked for."""
    told: list[Aid] = []
    for name, row in AIDS.items():
        setups: dict[tuple[AidBoard, ...], set[int]] = {}
        asked = list(_asked(row, found))
        need = max(
            (finding.measured or Fraction(0) for _, finding, _ in asked), default=Fraction(0)
        )
        for number, _, seen in asked:
            for moment in seen:
                boards = _boards(row, need, moment, unit)
                setups.setdefault(boards, set()).add(number)
        at_hand = name in shop.aids
        for boards, numbers in setups.items():
            made = Fraction(0) if at_hand else row.made
            told.append(Aid(name, tuple(sorted(numbers)), at_hand, boards, made, row.fitted))
    return tuple(told)


def _asked(row: AidRow, found: Found) -> Iterator[tuple[int, Finding, Sequence[Moment]]]:
    for number in sorted(found):
        for finding, seen in found[number].values():
            asks = "-".join(filter(None, (finding.rule, finding.case)))
            if finding.level == "warn" and asks in row.answers:
                yield number, finding, seen


def _boards(row: AidRow, need: Fraction, moment: Moment, unit: Unit) -> tuple[AidBoard, ...]:
    sizes = [Size(*board.size(unit)) for board in row.boards]
    sizes[0] = _SIZED[row.follows](sizes[0], need, moment)
    return tuple(AidBoard(board.wood, size) for board, size in zip(row.boards, sizes, strict=True))


def _as_it_is(size: Size, _: Fraction, __: Moment) -> Size:
    return size


def _as_wide(size: Size, need: Fraction, _: Moment) -> Size:
    return Size(size.length, need, size.thickness)


def _as_thick(size: Size, _: Fraction, moment: Moment) -> Size:
    return Size(size.length, size.width, moment.thickness)


def _filling(size: Size, _: Fraction, moment: Moment) -> Size:
    """As high as the rebate is deep from the edge, and as thick as its first pass left it wide."""
    setup = moment.setup
    wide = moment.thickness - (setup.guide or Fraction(0))
    return Size(size.length, setup.depth, min(wide, setup.kerf))


_SIZED: Mapping[Follows, Callable[[Size, Fraction, Moment], Size]] = {
    "": _as_it_is,
    "need": _as_wide,
    "piece": _as_thick,
    "rebate": _filling,
}
