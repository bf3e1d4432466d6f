"""Everything that was decided, written into one `Plan`."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from fractions import Fraction

from sequencer import ordering
from sequencer.doors import Leaf
from sequencer.doors.hardware import hardware
from sequencer.facts import Fact, notes
from sequencer.job.schema import Job, Shop
from sequencer.lengths import Unit, exact
from sequencer.operations import Work
from sequencer.plan import (
    Alternative,
    Door,
    Knob,
    Order,
    Ordering,
    Part,
    Placed,
    Plan,
    ProblemOperation,
    Scrap,
    ShopFacts,
    Size,
)
from sequencer.records import replace
from sequencer.saw.fittings import CARRIERS
from sequencer.setups.given import Candidate, Given
from sequencer.setups.needs import Framed, deck
from sequencer.setups.steps import LaidOut
from sequencer.shelf import Saved


def record_plan(
    given: Given,
    candidate: Candidate,
    order: ordering.Order,
    laid_out: LaidOut,
) -> Plan:
    """The plan before its cautions, its proof, and what may be said of other orders."""
    jobs, shop = given.jobs, given.shop
    leaves, work, framed = candidate.leaves, candidate.work, candidate.framed
    laid = {piece.mark for plan in work.layout.sticks for piece in plan.stick.pieces}
    whole = {
        leaf.door.mark
        for leaf in leaves
        if leaf.complete and all(part.mark in laid for part in leaf.parts)
    }
    parts = tuple(part for leaf in leaves for part in leaf.parts if part.mark in laid)
    seasons = tuple(
        leaf.season for leaf in leaves if leaf.season is not None and leaf.door.mark in whole
    )
    return Plan(
        unit=jobs[0].unit,
        jobs=tuple(job.name for job in jobs),
        shop=_shop_facts(shop),
        doors=tuple(_hung(leaf.door, whole) for leaf in leaves if leaf.door.mark in whole),
        parts=parts,
        sticks=tuple(plan.stick for plan in work.layout.sticks),
        setups=laid_out.setups,
        steps=laid_out.steps,
        checkpoints=laid_out.checkpoints,
        scrap=_scrap(work, laid_out),
        spares=work.layout.spares,
        ordering=_ordering(work, framed, order, len(laid_out.setups)),
        methods=(),
        assumptions=shop.assumed,
        notes=(
            *_notes(shop, laid_out),
            *_hands_taken(jobs, parts),
            *dict.fromkeys(note for season in seasons for note in season.notes),
            *framed.reuse.notes,
            *_known_saves(framed, order, shop),
        ),
        seasons=seasons,
        orders=_orders([leaf for leaf in leaves if leaf.door.mark in whole], jobs[0].unit),
        again=tuple(part.mark for part in parts if part.door not in whole),
        reused=_reused(framed),
        thickness={str(stated): is_ for stated, is_ in given.measured.thickness.items()},
        scales=framed.reuse.scales,
    )


def _hung(door: Door, whole: Collection[str]) -> Door:
    """A leaf with its mate, or alone where it is made again without it."""
    return replace(door, pair=tuple(mark for mark in door.pair if mark in whole))


def _orders(leaves: Sequence[Leaf], unit: Unit) -> tuple[Order, ...]:
    """What is made elsewhere or bought, equal things together."""
    found: dict[Order, int] = {}
    for leaf in leaves:
        for order in (*leaf.orders, *hardware(leaf, unit)):
            alike = replace(order, count=0)
            found[alike] = found.get(alike, 0) + order.count
    return tuple(replace(order, count=count) for order, count in found.items())


def _known_saves(framed: Framed, order: ordering.Order, shop: Shop) -> tuple[Fact, ...]:
    """What it would take more to set the same numbers, were nothing known of them."""
    state: Mapping[str, str] = {}
    count, saves = 0, Fraction(0)
    for placed in order.steps:
        for knob, value in placed.state.items():
            named = (knob, value)
            if state.get(knob) != value and named in framed.reuse.minutes:
                anew = shop.minutes.of(knob) + framed.tried.get(named, Fraction(0))
                less = max(anew - framed.reuse.minutes[named], Fraction(0))
                count, saves = count + (less > 0), saves + less
        state = placed.state
    return (notes.KNOWING_SAVES(n=count, minutes=saves),) if saves > 0 else ()


def _reused(framed: Framed) -> tuple[Saved, ...]:
    """Whoever makes the plan again half-way needs the same settings, doubted since or not."""
    found = {
        (match.saved.number, match.saved.knob): replace(match.saved, doubted=False)
        for match in framed.reuse.matches.values()
    }
    return tuple(found[key] for key in sorted(found))


def _shop_facts(shop: Shop) -> ShopFacts:
    return ShopFacts(
        name=shop.name,
        graduation=shop.graduation,
        decks={carrier: deck(carrier, shop) for carrier in CARRIERS},
        jig_rides=shop.jig.rides,
        jig_thickness=shop.jig.thickness,
        jig_opening=shop.jig.opening,
        sled_longest=shop.sled.longest,
        sled_widest=shop.sled.widest,
        max_height=shop.saw.max_height,
        hold_down=shop.saw.hold_down,
        cover=shop.saw.cover,
        words=shop.words,
        cutters={
            cutter.name: {
                "kind": cutter.kind,
                "grind": cutter.grind,
                "kerf": exact(cutter.kerf),
                "diameter": exact(cutter.diameter),
                **({"sharpened": str(cutter.sharpened)} if cutter.sharpened else {}),
            }
            for cutter in shop.cutters
        },
        fence_side=shop.saw.fence,
        jig_side=shop.jig.side,
        tilts=shop.saw.tilts,
        fence_height=shop.saw.fence_height,
        sled_clamp=shop.sled.clamp,
        aids=tuple(sorted(shop.aids)),
        tools=shop.tools,
        scales=shop.scales,
        known_as=shop.known_as,
        timed=shop.timed,
        made_with={each: with_ for each in CARRIERS if (with_ := shop.made_with(each))},
    )


def _scrap(work: Work, laid_out: LaidOut) -> tuple[Scrap, ...]:
    serves: dict[str, list[int]] = {}
    for point in laid_out.checkpoints:
        if point.stands_by and point.setup is not None:
            serves.setdefault(point.stands_by, []).append(point.setup)
    found: list[Scrap] = []
    for plan in work.layout.sticks:
        if plan.stick.test:
            size = plan.stick.size
            for piece, length in zip(plan.stick.pieces, plan.lengths, strict=True):
                setups = (*serves.get(plan.stick.mark, ()), *serves.get(piece.mark, ()))
                made = Size(length, size.width, size.thickness)
                served = tuple(sorted(dict.fromkeys(setups)))
                found.append(Scrap(piece.mark, plan.stick.mark, made, served))
    return tuple(found)


def _ordering(
    work: Work,
    framed: Framed,
    order: ordering.Order,
    setups: int,
) -> Ordering:
    problem = framed.problem
    names = [operation.id for operation in work.operations]
    return Ordering(
        knobs=tuple(Knob(knob.name, knob.minutes, knob.by_value) for knob in problem.knobs),
        operations=tuple(
            ProblemOperation(
                operation.id,
                tuple(Alternative(way.minutes, way.needs) for way in operation.alternatives),
            )
            for operation in problem.operations
        ),
        before=tuple((edge.before, edge.after, edge.reason) for edge in work.edges),
        order=tuple(Placed(names[s.operation], s.alternative, s.state) for s in order.steps),
        minutes=order.minutes,
        bound=order.bound,
        proven=order.proven,
        setups=setups,
        baselines=(),
        limit=order.limit,
    )


def _hands_taken(jobs: Sequence[Job], parts: Sequence[Part]) -> tuple[Fact, ...]:
    """Of pieces that were drawn elsewhere, which hand they are taken to be of where that matters
    and is not told."""
    told = {piece.mark for job in jobs for piece in job.pieces if piece.inside is not None}
    drawn = {piece.mark for job in jobs for piece in job.pieces} - told
    marks = [part.mark for part in parts if part.mark in drawn and not part.either_hand]
    return (notes.HAND_TAKEN(marks=tuple(marks)),) if marks else ()


def _notes(shop: Shop, laid_out: LaidOut) -> tuple[Fact, ...]:
    used = dict.fromkeys(setup.cutter for setup in laid_out.setups)
    return tuple(
        notes.UNEVEN_TEETH(cutter=cutter.name)
        for cutter in shop.cutters
        if cutter.name in used and cutter.grind != "flat-top"
    )
