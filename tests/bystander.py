"""Somebody who watches the saw while a plan is followed, and knows nothing of how it was made.

Four things only: that every test cut finds wood, keeps its piece's outline and frees nothing
between blade and guide; that no stop or fence stands where something is freed beside it; that what
is held on the sled is what the box names; and that each cut says of hands and waste what is seen
of them. Test pieces are boxes with boxes taken out, a mitre
the box that it surely takes, a leaning kerf an upright one.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise, product
from math import prod

from sequencer.facts import Fact
from sequencer.job.schema import Shop
from sequencer.plan import SCRAP_STEPS, Cut, Plan, Setup, Step
from tests.proof.sampler import SURFACES

Box = tuple[tuple[Fraction, Fraction], ...]
ZERO = Fraction(0)
MITRE = "mitre-sled"
SLEDS = ("crosscut-sled", MITRE)
HAND = {"in": (Fraction(7, 2), Fraction(3)), "mm": (Fraction(90), Fraction(75))}
"""A hand's breadth (from memory), and how near to the blade it may come (Modern Cabinetmaking
(2016), p. 406)."""


def faults(plan: Plan, shop: Shop) -> list[str]:
    """What no plan may have; each with its step or setup."""
    return [
        *tests_at_fault(plan),
        *left_standing(plan),
        *wrongly_held(plan, shop),
        *otherwise_told(plan),
    ]


def tests_at_fault(plan: Plan) -> Iterator[str]:
    setups = {setup.number: setup for setup in plan.setups}
    sticks = {stick.mark: stick for stick in plan.sticks}
    sizes = {s.mark: s.size for s in plan.scrap} | {s.mark: s.size for s in plan.sticks}
    starts = {p.mark: (s.mark, p.start) for s in plan.sticks for p in s.pieces}
    gone: dict[str, list[Box]] = {}
    for step in plan.steps:
        setup = setups[step.setup or 1]
        for cut in step.cuts:
            tried = step.kind in SCRAP_STEPS
            if not tried and (cut.keeps is not None or cut.mark not in sticks):
                continue
            if cut.mark not in gone and cut.mark in starts:
                stick, start = starts[cut.mark]
                gone[cut.mark] = [
                    ((low - start, high - start), *rest)
                    for (low, high), *rest in gone.get(stick, [])
                ]
            size = sizes[cut.mark]
            outline = (size.length, size.width, size.thickness)
            kerf = kerf_of(cut, setup, plan, outline)
            before = gone.setdefault(cut.mark, [])
            if tried:
                for fault in looked_at(cut, setup, kerf, before, outline):
                    yield f"step {step.number}, test piece {cut.mark}: {fault}"
            before.append(kerf)


def kerf_of(cut: Cut, setup: Setup, plan: Plan, outline: Sequence[Fraction]) -> Box:
    assert cut.against is not None
    assert setup.guide is not None
    box = [(ZERO, size) for size in outline]
    deck = plan.shop.decks.get("crosscut-sled" if setup.carrier == MITRE else setup.carrier, ZERO)
    far = setup.guide + setup.kerf
    near = setup.guide if not cut.sweep else ZERO if cut.back is None else far - cut.back
    if setup.carrier == MITRE:
        far = max(setup.guide, setup.kerf)
    for surface, (low, high) in (
        (cut.down, (ZERO, setup.height - deck)),
        (cut.against, (near, far)),
    ):
        axis, at_end = SURFACES[surface]
        size = outline[axis]
        box[axis] = (size - high, size - low) if at_end else (low, high)
    return tuple(box)


def looked_at(
    cut: Cut, setup: Setup, kerf: Box, before: Sequence[Box], outline: Sequence[Fraction]
) -> Iterator[str]:
    lines = [
        sorted({ZERO, size, *(at for box in (*before, kerf) for at in box[axis] if 0 < at < size)})
        for axis, size in enumerate(outline)
    ]
    cells = set(product(*(range(len(line) - 1) for line in lines)))

    def inside(box: Box) -> set[tuple[int, ...]]:
        within = [
            [
                n
                for n, (a, b) in enumerate(pairwise(line))
                if box[axis][0] <= a and b <= box[axis][1]
            ]
            for axis, line in enumerate(lines)
        ]
        return set(product(*within))

    for box in before:
        cells -= inside(box)
    standing = largest(cells)[0]
    if not standing & inside(kerf):
        yield "no wood to measure"
        return
    kept, *freed = largest(standing - inside(kerf))
    for axis in range(3):
        if {
            c[axis] for c in (min(kept, key=lambda c: c[axis]), max(kept, key=lambda c: c[axis]))
        } != {
            0,
            len(lines[axis]) - 2,
        }:
            yield "its outline is lost"
    assert cut.against is not None
    axis, at_end = SURFACES[cut.against]
    for solid in freed:
        reach = max(
            outline[axis] - lines[axis][c[axis]] if at_end else lines[axis][c[axis] + 1]
            for c in solid
        )
        if reach <= (setup.guide or ZERO):
            yield f"frees what lies between blade and {setup.carrier}'s guide"


def largest(cells: set[tuple[int, ...]]) -> list[set[tuple[int, ...]]]:
    """What hangs together, the most first."""
    found: list[set[tuple[int, ...]]] = []
    waiting = set(cells)
    while waiting:
        heap = [waiting.pop()]
        for i, j, k in heap:
            for near in ((i + 1, j, k), (i - 1, j, k), (i, j + 1, k), (i, j - 1, k),
                         (i, j, k + 1), (i, j, k - 1)):  # fmt: skip
                if near in waiting:
                    waiting.remove(near)
                    heap.append(near)
        found.append(set(heap))
    return sorted(found, key=len, reverse=True)


def left_standing(plan: Plan) -> Iterator[str]:
    """As the person reads the changes: a stop or fence stands where it was last put."""
    stands: dict[str, str] = {}
    for setup in plan.setups:
        stands |= {change.knob: change.after for change in setup.changes}
        rides = setup.carrier == "tenoning-jig" and plan.shop.jig_rides == "fence"
        if setup.carrier != "rip-fence" and not rides and stands.get("fence") != "away":
            yield f"setup {setup.number}: the fence stands beside the {setup.carrier}"
        if setup.guide is None and stands.get("stop") != "away":
            yield f"setup {setup.number}: an offcut falls between stop and blade"


def wrongly_held(plan: Plan, shop: Shop) -> Iterator[str]:
    steps: dict[int, list[Step]] = {}
    for step in plan.steps:
        steps.setdefault(step.setup or 0, []).append(step)
    breadth, least = HAND[plan.unit]
    for setup in plan.setups:
        cuts = [cut for step in steps[setup.number] for cut in step.cuts]
        if setup.carrier != "crosscut-sled" or not any(cut.keeps for cut in cuts):
            continue
        said = {fact.id.removeprefix("caution.") for c in setup.cautions for fact in told(c.says)}
        kept = [cut for cut in cuts if cut.keeps == "guide"]
        if kept and "side-stop" not in said:
            yield f"setup {setup.number}: no word of holding the piece between stop and blade"
        if len(kept) < len(cuts) and "side-stick" not in said:
            yield f"setup {setup.number}: no word of holding the stick"
        if kept and setup.guide is not None and setup.guide - breadth < least:
            if not shop.sled.clamp:
                yield f"setup {setup.number}: {setup.guide} held by hand"
            elif "clamp" not in said:
                yield f"setup {setup.number}: {setup.guide} is not clamped"


def told(fact: Fact) -> Iterator[Fact]:
    """The fact, and those within it."""
    yield fact
    for value in fact.values:
        if isinstance(value, Fact):
            yield from told(value)


def otherwise_told(plan: Plan) -> Iterator[str]:
    """Where a cut says something else of hands and waste than what is seen; a leaning blade and the
    mitre sled are not looked at."""
    setups = {setup.number: setup for setup in plan.setups}
    gone: dict[str, list[Box]] = {}
    for step in plan.steps:
        for n, cut in enumerate(step.cuts):
            setup = setups[step.setup or 0]
            if setup.tilt or setup.carrier == MITRE:
                continue
            if cut.keeps is not None:
                seen = parted(plan, setup, cut, step.marks[n] if len(step.marks) > n else "")
            else:
                seen = whole(plan, setup, cut, gone)
            assert cut.hold is not None
            assert cut.waste is not None
            said = (cut.hold.side, cut.hold.captive, cut.waste.what, cut.waste.side)
            if said != seen:
                yield f"step {step.number}, {cut.mark}: told {said}, seen {seen}"


Told = tuple[str | None, str | None, str, str | None]
"""The side that is held, what is captive, what falls and on which side."""


def parted(plan: Plan, setup: Setup, cut: Cut, named: str) -> Told:
    """A through cut, by the strip's layout alone."""
    (stick,) = (s for s in plan.sticks if s.mark == cut.mark)
    if cut.against is None:
        falls = stick.pieces[0].start > setup.kerf
        return ("open", None, *(("offcut", "guide") if falls else ("chips", None)))
    assert setup.guide is not None
    if setup.carrier == "rip-fence":
        falls = stick.blank.width > setup.guide + setup.kerf
        return ("guide", "part", *(("strip", "open") if falls else ("chips", None)))
    starts = {piece.mark: piece.start for piece in stick.pieces}
    end = starts[named] + setup.guide + setup.kerf
    if any(start >= end for start in starts.values()):
        return ("guide", "part", "rest", "open")
    left = stick.size.length > end
    return ("guide", "part", *(("offcut", "open") if left else ("chips", None)))


def whole(plan: Plan, setup: Setup, cut: Cut, gone: dict[str, list[Box]]) -> Told:
    """A cut that leaves the piece whole: what hangs on nothing any more is what falls."""
    sizes = {s.mark: s.size for s in plan.sticks} | {s.mark: s.size for s in plan.scrap}
    sizes |= {part.mark: part.size for part in plan.parts}
    if cut.mark not in gone:
        gone[cut.mark] = []
        for stick in plan.sticks:
            for piece in stick.pieces:
                if piece.mark == cut.mark:
                    gone[cut.mark] = [
                        ((low - piece.start, high - piece.start), *rest)
                        for (low, high), *rest in gone.get(stick.mark, [])
                    ]
    size = sizes[cut.mark]
    outline = (size.length, size.width, size.thickness)
    gone[cut.mark].append(kerf_of(cut, setup, plan, outline))
    _, *falls = lumps(gone[cut.mark], outline)
    gone[cut.mark] += [box for fallen in falls for box in fallen]
    side = None
    if setup.carrier == "crosscut-sled":
        assert setup.guide is not None
        beyond = size.length - setup.guide - setup.kerf
        side = "guide" if setup.guide >= beyond else "open"
    if not falls:
        return (side, None, "chips", None)
    return (side, None, "cheek" if setup.carrier == "tenoning-jig" else "strip", "open")


def lumps(missing: Sequence[Box], outline: Sequence[Fraction]) -> list[list[Box]]:
    """The pieces of the wood that lacks those boxes, the largest first."""
    lines = [
        sorted({ZERO, size, *(x for box in missing for x in box[axis] if ZERO < x < size)})
        for axis, size in enumerate(outline)
    ]
    cells: set[tuple[int, ...]] = set(product(*(range(len(line) - 1) for line in lines)))
    for box in missing:
        cells -= set(
            product(
                *(
                    [n for n, (a, b) in enumerate(pairwise(line)) if low <= a and b <= high]
                    for line, (low, high) in zip(lines, box, strict=True)
                )
            )
        )
    found: list[list[Box]] = [
        [
            tuple((line[n], line[n + 1]) for line, n in zip(lines, cell, strict=True))
            for cell in lump
        ]
        for lump in largest(cells)
    ]
    return sorted(
        found, key=lambda lump: sum(prod(b - a for a, b in box) for box in lump), reverse=True
    )
