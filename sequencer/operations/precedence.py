"""What must come before what, and why: a graph whose every edge carries its reason."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from typing import TYPE_CHECKING

from sequencer.cuts.model import Edge, Operation
from sequencer.doors import Leaf
from sequencer.errors import InternalError
from sequencer.facts import reasons, sequences
from sequencer.joints.before import joint_edges
from sequencer.operations.filling import ALONG, StickPlan
from sequencer.operations.sticks import Layout
from sequencer.records import replace
from sequencer.saw.measures import What
from sequencer.saw.operation import OperationId

if TYPE_CHECKING:
    import networkx as nx


def edges(
    operations: Sequence[Operation], layout: Layout, leaves: Sequence[Leaf]
) -> tuple[Edge, ...]:
    """Every edge, in the order of `operations`."""
    sticks = layout.sticks
    by_mark: dict[str, list[Operation]] = {}
    for operation in operations:
        by_mark.setdefault(operation.mark, []).append(operation)
    found: list[Edge] = []
    for operation in operations:
        if operation.kind == "mill":
            found += (
                Edge(operation.id, _id(mark, what), reasons.MILLED())
                for mark in operation.marks
                for what in ("edge-glue-up", "rip")
            )
    for plan in sticks:
        found += _stick_edges(plan, by_mark)
    for leaf in leaves:
        found += _leaf_edges(leaf, by_mark)
    found += _panel_edges(sticks, leaves)
    known = {operation.id for operation in operations}
    for operation in operations:
        found += _test_edges(operation, known, by_mark, layout.spares)
    # Of parts that are not made there is nothing to wait for.
    return tuple(dict.fromkeys(e for e in found if e.before in known and e.after in known))


def graph(operations: Sequence[Operation], found: Sequence[Edge]) -> nx.DiGraph[str]:
    """The edges as a graph, `reason` on each. Raises `InternalError` that names the path of a
    cycle, each of its edges with its reason."""
    import networkx as nx

    made: nx.DiGraph[str] = nx.DiGraph()
    made.add_nodes_from(operation.id for operation in operations)
    made.add_edges_from((e.before, e.after, {"reason": e.reason}) for e in found)
    if not nx.is_directed_acyclic_graph(made):
        chain = tuple(
            sequences.COMES_FIRST(
                first=first, later=later, because=made.edges[first, later]["reason"]
            )
            for first, later in nx.find_cycle(made)
        )
        raise InternalError(sequences.WAIT_FOR_EACH_OTHER(chain=chain))
    return made


def _id(mark: str, what: str, at: str = "") -> str:
    return str(OperationId(mark, what, at))


def _stick_edges(plan: StickPlan, by_mark: dict[str, list[Operation]]) -> Iterator[Edge]:
    own = by_mark[plan.stick.mark]
    rip, square = _id(plan.stick.mark, "rip"), _id(plan.stick.mark, "square")
    after_rip = rip
    yield Edge(_id(plan.stick.mark, "edge-glue-up"), rip, reasons.GLUED_UP())
    for operation in own:
        if operation.kind == "plane":
            yield Edge(rip, operation.id, reasons.PLANED())
            after_rip = operation.id
    yield from _rebate_edges(own)
    for operation in own:
        if operation.kind in ALONG:
            yield Edge(
                after_rip, operation.id, reasons.PLANED() if after_rip != rip else reasons.LONG()
            )
            yield Edge(operation.id, square, reasons.LONG())
    yield Edge(after_rip, square, reasons.LONG())
    chain = [square, *(_id(piece.mark, "crosscut") for piece in plan.stick.pieces)]
    for before, after in pairwise(chain):
        yield Edge(before, after, reasons.CHAIN())


def _rebate_edges(operations: Sequence[Operation]) -> Iterator[Edge]:
    for before, after in pairwise(o for o in operations if o.kind == "rebate"):
        same = before.name.whole == after.name.whole
        if same and before.name.made_by != "flat":
            yield Edge(before.id, after.id, reasons.OUTER_FIRST())
    for flat in operations:
        if flat.kind == "rebate" and flat.name.made_by == "flat":
            for other in operations:
                if other is not flat and other.name.whole == flat.name.whole:
                    yield Edge(flat.id, other.id, reasons.FREED_LAST())


def _leaf_edges(leaf: Leaf, by_mark: dict[str, list[Operation]]) -> Iterator[Edge]:
    mark = leaf.door.mark
    slots = {
        feature.mate: [o.id for o in by_mark.get(part.mark, []) if _is_at(o, "slot", feature.at)]
        for part in leaf.frame
        for feature in part.features
        if feature.kind == "slot" and feature.mate
    }
    # Slots whose tenons nobody named are fitted by any.
    loose = [
        o.id
        for part in leaf.frame
        for feature in part.features
        if feature.kind == "slot" and feature.mate is None
        for o in by_mark.get(part.mark, [])
        if _is_at(o, "slot", feature.at)
    ]
    dry_fit = _id(mark, "dry-fit")
    for part in leaf.frame:
        cut = _id(part.mark, "crosscut")
        joint = [o for o in by_mark.get(part.mark, []) if o.kind != "crosscut"]
        grooves = [o for o in joint if o.kind in ALONG]
        yield from _rebate_edges(grooves)
        for operation in joint:
            yield Edge(cut, operation.id, reasons.LENGTH())
            yield Edge(operation.id, dry_fit, reasons.WHOLE_JOINT())
            if operation not in grooves:
                for groove in grooves:
                    yield Edge(groove.id, operation.id, reasons.GROOVED())
        for at in ("A", "B"):
            yield from _tenon_edges(joint, at, [*slots.get(f"{part.mark}/{at}", []), *loose])
        yield from _shape_edges(joint)
    yield from joint_edges(leaf.frame, by_mark)
    bench = by_mark.get(mark, [])
    for part in leaf.fills:
        cut = _id(part.mark, "crosscut")
        yield Edge(dry_fit, cut, reasons.MEASURED())
        yield Edge(cut, _id(mark, "finish"), reasons.SIZED())
        for operation in by_mark.get(part.mark, []):
            if operation.id != cut:
                yield Edge(cut, operation.id, reasons.LENGTH())
                yield Edge(operation.id, _id(mark, "finish"), reasons.SIZED())
            if operation.id == _id(part.mark, "bevel", "ends"):
                yield Edge(operation.id, _id(part.mark, "bevel", "edges"), reasons.ENDS_FIRST())
    for before, after in pairwise(bench):
        reason = reasons.FINISHED() if before.kind == "finish" else reasons.BENCH()
        yield Edge(before.id, after.id, reasons.TRIMMED() if before.kind == "trim" else reason)


def _shape_edges(joint: Sequence[Operation]) -> Iterator[Edge]:
    for edge in (o for o in joint if o.kind == "shape"):
        for operation in joint:
            if operation.kind == "shaped groove":
                yield Edge(edge.id, operation.id, reasons.FOLLOWS())
            elif operation is not edge:
                yield Edge(operation.id, edge.id, reasons.SHAPED())


def _tenon_edges(joint: Sequence[Operation], at: str, slots: Sequence[str]) -> Iterator[Edge]:
    def of(*kinds: str) -> list[Operation]:
        return [o for kind in kinds for o in joint if _is_at(o, kind, at)]

    for cheek in of("cheek", "edge cheek"):
        for shoulder in of("shoulder", "edge shoulder", "sweep"):
            yield Edge(shoulder.id, cheek.id, reasons.SHOULDER_FIRST())
    for edge in of("edge cheek"):
        for face in of("cheek"):
            yield Edge(face.id, edge.id, reasons.FACE_FIRST())
    for cheek in of("cheek"):
        for slot in slots:
            yield Edge(slot, cheek.id, reasons.SLOT_FIRST())


def _is_at(operation: Operation, kind: str, at: str) -> bool:
    return operation.kind == kind and any(
        f"end-{at}" in (cut.down, cut.against) for cut in operation.cuts
    )


def _test_edges(
    operation: Operation,
    known: set[str],
    by_mark: dict[str, list[Operation]],
    spares: Mapping[str, Sequence[str]],
) -> Iterator[Edge]:
    if operation.setting is None:
        return
    if operation.kind in ("slot", "groove") and operation.name.made_by == "widen":
        first = replace(operation.name, made_by="first")
        yield Edge(str(first), operation.id, reasons.WALL_FIRST())
    for test in operation.setting.tests:
        for scrap in (test.scrap, *spares.get(test.scrap, ())):
            ready = _id(scrap, "crosscut")
            if ready not in known:  # a groove is tried on the whole test stick
                ready = _id(scrap, "rip")
            if scrap != operation.mark:
                yield Edge(ready, operation.id, reasons.TEST_READY())
        if operation.kind == "rebate" and test.measure.what is What.TONGUE:
            for before in by_mark.get(test.scrap, ()):
                if before.kind == "groove":
                    yield Edge(before.id, operation.id, reasons.TONGUE_LAST())


def _panel_edges(sticks: Sequence[StickPlan], leaves: Sequence[Leaf]) -> Iterator[Edge]:
    """A panel blank is ripped after the dry fit of every leaf whose panel is in it."""
    owner = {part.mark: leaf.door.mark for leaf in leaves for part in leaf.fills}
    for plan in sticks:
        for piece in plan.stick.pieces:
            if piece.mark in owner:
                rip = _id(plan.stick.mark, "rip")
                yield Edge(_id(owner[piece.mark], "dry-fit"), rip, reasons.MEASURED())
