"""Parts to operations: the cuts of each feature, what they ask of the saw, what comes first."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from msgspec import Struct

from sequencer.cuts.context import Context
from sequencer.cuts.model import Check, Edge, Operation, ScrapTest, Setting
from sequencer.doors import BARS, Leaf
from sequencer.joints import BAR_JOINTS, Cutting
from sequencer.operations.bench import assemble, mill
from sequencer.operations.fill_cuts import cut_fill
from sequencer.operations.filling import Extra, StickPlan, Stock, profile_of
from sequencer.operations.precedence import edges
from sequencer.operations.shaping import shape
from sequencer.operations.slab_work import make_slab_work
from sequencer.operations.stick_cuts import cut_profile, cut_stick
from sequencer.operations.sticks import Layout, lay_out, stock_of
from sequencer.operations.trials import Trial, trials, wanted
from sequencer.saw.kinds import KINDS

__all__ = [
    "Check",
    "Context",
    "Edge",
    "Extra",
    "Operation",
    "ScrapTest",
    "Setting",
    "StickPlan",
    "Stock",
    "Work",
    "make_operations",
]  # fmt: skip

_ALONG = ("groove", "rebate")
_LATE = ("rip", *_ALONG, "square", "crosscut", "bevel")
_KINDS = tuple(KINDS)
_CROSSCUT, _TRIMMED = _KINDS.index("crosscut") + 1, _KINDS.index("trim") + 1
_ORDER = (
    *((kind, "") for kind in _KINDS[:_CROSSCUT]),
    *((kind, "on-piece") for kind in _ALONG),
    *((kind, "") for kind in _KINDS[_CROSSCUT:_TRIMMED]),
    *((kind, "late") for kind in _LATE),
    *((kind, "") for kind in _KINDS[_TRIMMED:]),
)
"""Kinds in an order that every edge agrees with; a panel's cuts come after the dry fit, a groove on
the piece after its crosscut."""


class Work(Struct, frozen=True):
    """Everything to be done. `ranks` gives each operation's kind in precedence order, panels'
    after the dry fit; `doors` the operations that each leaf cannot do without its own."""

    operations: tuple[Operation, ...]
    edges: tuple[Edge, ...]
    ranks: tuple[int, ...]
    doors: tuple[tuple[int, ...], ...]
    layout: Layout
    trials: Mapping[str, Trial]
    """What each operation that is tried on scrap is tried with."""


def make_operations(
    leaves: Sequence[Leaf],
    context: Context,
    only: frozenset[str] | None = None,
    more: Extra | None = None,
    extra: Extra | None = None,
) -> Work:
    """All operations, sticks first, then joints in part order, then the bench. With `only` some
    marks: what those parts take by themselves, and the bench work of leaves that are whole. Each
    joint part that is tried has a test piece of its own (`extra`, found here), and there are `more`
    where the order tries one again."""
    unit = context.unit
    layout = lay_out(
        leaves, context.kerf, context.shop, unit, only, context.rack, extra, more, context.glued
    )
    making = {p.mark for leaf in leaves for p in leaf.parts if only is None or p.mark in only}
    whole = [
        leaf for leaf in leaves if leaf.complete and all(part.mark in making for part in leaf.parts)
    ]
    operations = (
        *_stick_work(layout, context),
        *_joint_work(leaves, layout, context, making),
        *(operation for leaf in leaves for operation in shape(leaf, context, making)),
    )
    if extra is None and (found := _extra(operations, layout)):
        return make_operations(leaves, context, only, more, found)
    operations += tuple(operation for leaf in whole for operation in _bench_work(leaf, context))
    sticks = {p.stick.mark for p in layout.sticks}
    filling = {part.mark for leaf in leaves for part in leaf.fills}
    panels = filling | {
        p.stick.mark for p in layout.sticks if any(b.mark in filling for b in p.stick.pieces)
    }
    return Work(
        operations=operations,
        edges=edges(operations, layout, leaves),
        ranks=tuple(_rank(operation, panels, sticks) for operation in operations),
        doors=_by_door(operations, leaves),
        layout=layout,
        trials=trials(operations),
    )


def _extra(operations: Sequence[Operation], layout: Layout) -> Extra:
    counts = wanted(operations)
    return {layout.role(scrap): n - 1 for scrap, n in counts.items() if n > 1}


def _stick_work(layout: Layout, context: Context) -> Iterator[Operation]:
    stocks = list(dict.fromkeys(plan.stock for plan in layout.sticks))
    for number, stock in enumerate(stocks, 1):
        yield mill(number, stock, [p for p in layout.sticks if p.stock == stock], context)
    for plan in layout.sticks:
        tests = layout.tests.get(plan.stock)
        yield from cut_stick(plan, context, tests.stick if tests else None)


def _joint_work(
    leaves: Sequence[Leaf], layout: Layout, context: Context, wanted: set[str]
) -> Iterator[Operation]:
    for leaf in leaves:
        for part in leaf.frame:
            if part.mark not in wanted:
                continue
            stock = stock_of(leaf, part)
            scrap = layout.tests[stock]
            if context.choices.groove_on == "piece":
                yield from cut_profile(part.mark, profile_of(part), stock, scrap.rail, context)
            cutting = Cutting(part, leaf.sizes, leaf.spec.face_side, scrap, context)
            if part.role not in BARS:
                yield from leaf.joint.operations(cutting)
            if leaf.spec.bars:
                yield from BAR_JOINTS[leaf.spec.joint.bars].operations(cutting)
        for part in leaf.fills:
            if part.mark in wanted:
                tests = layout.tests.get(stock_of(leaf, part))
                yield from cut_fill(leaf, part, tests, context)


def _bench_work(leaf: Leaf, context: Context) -> Iterator[Operation]:
    work = assemble if leaf.spec.slab is None else make_slab_work
    return work(leaf, context)


def _rank(operation: Operation, panels: set[str], sticks: set[str]) -> int:
    if operation.mark in panels and operation.kind in _LATE:
        return _ORDER.index((operation.kind, "late"))
    on_piece = operation.kind in _ALONG and operation.mark not in sticks
    return _ORDER.index((operation.kind, "on-piece" if on_piece else ""))


def _by_door(
    operations: Sequence[Operation], leaves: Sequence[Leaf]
) -> tuple[tuple[int, ...], ...]:
    owner = {part.mark: leaf.door.mark for leaf in leaves for part in leaf.parts}
    owner |= {leaf.door.mark: leaf.door.mark for leaf in leaves}
    found: dict[str, list[int]] = {leaf.door.mark: [] for leaf in leaves}
    for number, operation in enumerate(operations):
        if operation.mark in owner:
            found[owner[operation.mark]].append(number)
    return tuple(tuple(found[leaf.door.mark]) for leaf in leaves)
