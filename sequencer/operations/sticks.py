"""Which pieces come from which stick, and the test stick of each kind of stock.

A stick holds pieces of one width, material, thickness and groove. Longest pieces come first, equal
ones next to each other in part order, so that one stop serves a run of crosscuts and pieces that
should match lie side by side.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from msgspec import Struct

from sequencer.cuts.model import ScrapPieces
from sequencer.doors import FILLS, Leaf
from sequencer.errors import InternalError
from sequencer.facts import Fact, sequences
from sequencer.facts import parts as called
from sequencer.job.rack import Rack
from sequencer.job.schema import Shop
from sequencer.lengths import Unit
from sequencer.operations.filling import (
    ZERO,
    Extra,
    Profile,
    StickPlan,
    Stock,
    TestRole,
    Wanted,
    fill,
    profile_of,
)
from sequencer.operations.glued import as_glued, with_boards
from sequencer.operations.trial_sticks import further, trial_sticks, tried_along
from sequencer.plan import Part
from sequencer.records import replace

RAIL_ORDER = {called.NAMED(name="top-rail"): 0, called.NAMED(name="bottom-rail"): 1}


class Layout(Struct, frozen=True):
    """`spares` are the further test pieces and sticks that each one stands for."""

    sticks: tuple[StickPlan, ...]
    tests: dict[Stock, ScrapPieces]
    spares: Mapping[str, tuple[str, ...]]

    def role(self, scrap: str) -> tuple[Stock, TestRole]:
        """Which test piece of which stock a mark names."""
        for stock, names in self.tests.items():
            roles: tuple[tuple[str, TestRole], ...] = (
                (names.stick, "stick"), (names.rail, "rail"), (names.stile, "stile"),
            )  # fmt: skip
            for mark, role in roles:
                if mark == scrap:
                    return stock, role
        raise InternalError(sequences.NO_TEST_PIECE(mark=scrap))


def stock_of(leaf: Leaf, part: Part) -> Stock:
    """The kind of stock a part is made from."""
    spec = leaf.spec
    if part.role == "slab":
        return Stock(part.material, spec.thickness, part.size.thickness, ZERO, spec.face_side, None)
    if part.role in FILLS:
        nominal = part.size.thickness if spec.panel.thickness is None else spec.panel.thickness
        return Stock(part.material, nominal, part.size.thickness, ZERO, spec.face_side, None)
    return Stock(
        part.material,
        spec.thickness,
        part.size.thickness,
        spec.edge_allowance,
        spec.face_side,
        leaf.sizes,
    )


def lay_out(
    leaves: Sequence[Leaf],
    kerf: Fraction,
    shop: Shop,
    unit: Unit,
    only: frozenset[str] | None = None,
    rack: Rack | None = None,
    extra: Extra | None = None,
    more: Extra | None = None,
    glued: Mapping[str, int] | None = None,
) -> Layout:
    """Sticks in the order of first use, each test stick before the sticks it is milled with; of all
    parts, or `only` of those of some marks; with `extra` test pieces, and `more` of them behind all
    other sticks, where they change no mark. No stick is longer than the longest board of its stock
    in the `rack`, where there is one that takes its pieces; wide ones are glued up from as many
    boards as these ask for, or as they were already (`glued`, by their marks).

    Raises `Refusal` where a piece is longer than the sled takes.
    """
    groups: dict[Stock, dict[tuple[Fraction, Profile, int | None, str], list[Part]]] = {}
    matched: dict[tuple[str, Fact], list[Part]] = {}
    depths: dict[Stock, Fraction] = {}
    stated: dict[str, int] = {}
    for leaf in leaves:
        for part in leaf.parts:
            if only is not None and part.mark not in only:
                continue
            stock = stock_of(leaf, part)
            boards = None if leaf.spec.slab is None else leaf.spec.slab.boards
            if boards is not None:
                stated[part.mark] = boards
            match = leaf.spec.panel.match and part.role == "panel"
            if match:
                matched.setdefault((leaf.spec.marks[0], part.name), []).append(part)
            alike = (part.size.width, profile_of(part), boards, part.mark if match else "")
            groups.setdefault(stock, {}).setdefault(alike, []).append(part)
            deepest = max((_reach(f.box) for f in part.features if f.kind == "slot"), default=ZERO)
            depths[stock] = max(depths.get(stock, ZERO), deepest)
    sticks: list[StickPlan] = []
    tests: dict[Stock, ScrapPieces] = {}
    spares: dict[str, tuple[str, ...]] = {}
    for stock, by_section in groups.items():
        reach = _reach_of(stock, rack, shop)
        everything = [part for parts in by_section.values() for part in parts]
        sawn = any(not f.unproven_by_saw for part in everything for f in part.features)
        if stock.joint is not None or sawn:
            inline = {role: n for (of, role), n in (extra or {}).items() if of == stock}
            made, bare, names, others = trial_sticks(
                everything, depths[stock], stock, kerf, shop, unit, len(sticks), reach, inline
            )
            sticks += (replace(plan, profile=tried_along(everything)) for plan in made)
            sticks += bare
            tests[stock] = names
            spares |= others
        for (width, profile, _, _), parts in by_section.items():
            wanted = [Wanted(p.mark, p.size.length, p) for p in sorted(parts, key=_longest_first)]
            filled = fill(wanted, width, stock, kerf, shop, unit, len(sticks), reach)
            sticks += (replace(plan, profile=profile) for plan in filled)
    for (stock, role), count in (more or {}).items():
        scrap = {"stick": tests[stock].stick, "stile": tests[stock].stile}.get(
            role, tests[stock].rail
        )
        like = next(plan for plan in sticks if scrap in _marks(plan))
        reach = _reach_of(stock, rack, shop)
        added = further(like, scrap, count, kerf, shop, unit, len(sticks), reach)
        sticks += added
        marks = [mark for plan in added for mark in _marks(plan)[bool(plan.stick.pieces) :]]
        spares[scrap] = (*spares.get(scrap, ()), *marks)
    twinned = _with_twins(sticks, matched)
    if glued is not None:
        return Layout(as_glued(twinned, glued), tests, spares)
    by_mark = {part.mark: part for leaf in leaves for part in leaf.parts}
    return Layout(with_boards(twinned, by_mark, stated, rack or Rack(), unit), tests, spares)


def _marks(plan: StickPlan) -> list[str]:
    return [plan.stick.mark, *(piece.mark for piece in plan.stick.pieces)]


def _with_twins(
    sticks: Sequence[StickPlan], matched: Mapping[tuple[str, Fact], Sequence[Part]]
) -> tuple[StickPlan, ...]:
    """Of two matching panels' sticks, the first told of the other, where their blanks are alike."""
    stick_of = {piece.mark: plan.stick for plan in sticks for piece in plan.stick.pieces}
    twins: dict[str, str] = {}
    for parts in matched.values():
        found = [stick_of[part.mark] for part in parts if part.mark in stick_of]
        if len(found) == 2 and found[0].blank == found[1].blank:
            twins[found[0].mark] = found[1].mark
    return tuple(
        replace(plan, stick=replace(plan.stick, twin=twins.get(plan.stick.mark))) for plan in sticks
    )


def _reach(box: tuple[tuple[Fraction, Fraction], ...]) -> Fraction:
    return box[0][1] - box[0][0]


def _reach_of(stock: Stock, rack: Rack | None, shop: Shop) -> Fraction:
    """How long a stick of that stock may be."""
    board = None if rack is None else rack.longest(stock.material, stock.thickness)
    return shop.sled.longest if board is None else min(shop.sled.longest, board)


def _longest_first(part: Part) -> tuple[Fraction, int]:
    # The sort is stable: within one length and role, part order stays.
    return (-part.size.length, RAIL_ORDER.get(part.name, 2))
