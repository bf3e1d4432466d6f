"""Test sticks: the pieces that settings are tried on, as long as parts cut at the same stop."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from sequencer.cuts.housing import furthest
from sequencer.cuts.model import ScrapPieces
from sequencer.job.schema import Shop
from sequencer.lengths import Unit
from sequencer.operations.filling import (
    ZERO,
    Along,
    Profile,
    StickPlan,
    Stock,
    TestRole,
    Wanted,
    fill,
    make_stick,
    profile_of,
)
from sequencer.plan import Part, Span
from sequencer.trade import fits


def tried_along(parts: Sequence[Part]) -> Profile:
    """What runs along a test stick: each kind of feature that runs along a part, once. A tongue is
    tried on its outside edge as often as it takes, and is not made there beforehand."""
    found: dict[tuple[str, Fraction, Span], Along] = {}
    for part in parts:
        for along in profile_of(part):
            if (along.kind, along.at) == ("rebate", "outside-edge"):
                continue
            found.setdefault((along.kind, along.depth, along.span), along)
    tried = sorted(found.values(), key=lambda along: -along.depth)
    # Of grooves that differ in depth alone, the deepest takes every tongue.
    deepest = {(along.kind, along.span): along for along in reversed(tried)}
    return tuple(along for along in found.values() if along in deepest.values())


def trial_sticks(
    parts: Sequence[Part],
    slot_depth: Fraction,
    stock: Stock,
    kerf: Fraction,
    shop: Shop,
    unit: Unit,
    used: int,
    reach: Fraction,
    extra: Mapping[TestRole, int],
) -> tuple[list[StickPlan], list[StickPlan], ScrapPieces, dict[str, tuple[str, ...]]]:
    """A stile-like and a rail-like test piece, of lengths cut at a stop that parts use too, long
    enough for the jig and the tries; one length more only where no part is long enough. Without
    slots the rail-like one alone; of what fills a frame, the stick as it is. Of `extra` ones, more
    of the same: bare sticks on which nothing but tests is cut, and the marks that each stands
    for."""
    least = fits.TEST_LEAST.of(unit)
    tries = fits.JIG_HOLD.of(unit) + fits.TEST_TRIES * (slot_depth + kerf)
    stile = _length(parts, max(least, tries))
    # Shoulders are tried at both ends, and both once more.
    once_more = _tenon(parts, slot_depth) + 2 * kerf + fits.BLANK_STEP.of(unit)
    least = max(least, fits.JIG_HOLD.of(unit) + 3 * once_more)
    housed = max(furthest(part) for part in parts)
    housed += fits.TEST_BEYOND.of(unit) if housed else ZERO
    least = max(least, housed)
    long = [p for p in parts if (p.role == "rail" or housed) and p.size.length >= least]
    rail = _length(long or parts, least)
    # The groove is tried on one edge, and then runs along the other.
    deepest = max((along.depth for along in tried_along(parts)), default=ZERO)
    width = max(part.size.width for part in parts)
    if deepest:
        width = max(width, 2 * deepest + fits.TEST_WEB.of(unit))
    more_sticks, more = extra.get("stick", 0), extra.get("rail", 0)

    def bare_stick(number: int) -> StickPlan:
        return make_stick(f"#{number}", (), width, stock, kerf, unit, ZERO, reach, True)

    if stock.joint is None:
        # What fills a frame is tried along the whole stick, and no piece is cut off it.
        width = min(width, fits.TEST_STRIP.of(unit))
        first, *bare = (bare_stick(used + n + 1) for n in range(1 + more_sticks))
        mark = first.stick.mark
        spares = {mark: tuple(plan.stick.mark for plan in bare)}
        return [first], bare, ScrapPieces(mark, mark, mark, ZERO), spares
    # Of rails alone, the stiles are there already.
    stiles = [Wanted("", stile)] * (1 + extra.get("stile", 0) if slot_depth else 0)
    rails = [Wanted("", rail)] * (1 + more)
    wanted = [*rails, *stiles] if rail > stile else [*stiles, *rails]
    made = fill(wanted, width, stock, kerf, shop, unit, used, reach, test=True)
    marks = [piece.mark for plan in made for piece in plan.stick.pieces]
    split = len(rails if rail > stile else stiles)
    of_rail, of_stile = marks[split:], marks[:split] or marks
    if rail > stile:
        of_rail, of_stile = marks[:split], marks[split:] or marks
    bare = [bare_stick(used + len(made) + n + 1) for n in range(more_sticks)]
    names = ScrapPieces(made[0].stick.mark, of_stile[0], of_rail[0], rail)
    spares = {of_stile[0]: tuple(of_stile[1:]), of_rail[0]: tuple(of_rail[1:])}
    return made, bare, names, spares | {names.stick: tuple(plan.stick.mark for plan in bare)}


def _tenon(parts: Sequence[Part], slot_depth: Fraction) -> Fraction:
    """The longest: through its stile where there are slots, else as long as a groove is deep."""
    if slot_depth:
        return max((part.size.width for part in parts if part.role == "stile"), default=ZERO)
    return max((along.depth for part in parts for along in profile_of(part)), default=ZERO)


def further(
    like: StickPlan,
    scrap: str,
    count: int,
    kerf: Fraction,
    shop: Shop,
    unit: Unit,
    used: int,
    reach: Fraction,
) -> list[StickPlan]:
    """Sticks that give as many more test pieces like `scrap`, or are such themselves; nothing runs
    along them."""
    width, stock = like.stick.size.width, like.stock
    named = zip(like.stick.pieces, like.lengths, strict=True)
    wanted = [Wanted("", length) for piece, length in named if piece.mark == scrap] * count
    if wanted:
        return fill(wanted, width, stock, kerf, shop, unit, used, reach, test=True)
    numbers = range(used + 1, used + count + 1)
    return [make_stick(f"#{n}", (), width, stock, kerf, unit, ZERO, reach, True) for n in numbers]


def _length(parts: Sequence[Part], least: Fraction) -> Fraction:
    return min((p.size.length for p in parts if p.size.length >= least), default=least)
