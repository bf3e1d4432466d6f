"""Every pass of a plan with the piece as it is just then: what the rules look at.

Lengths are in the plan's unit. A piece's size is followed from the blank through rip, square and
crosscut; what joints and grooves took off is remembered as whose end was worked how, which is all
that the rules ask. The exact solid is the virtual saw's business.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from msgspec import Struct, field

from sequencer.job.schema import Cutter, Shop
from sequencer.plan import SCRAP_STEPS, Cut, Part, Plan, Setup, Step
from sequencer.records import replace
from sequencer.saw.fittings import CARRIERS, Body
from sequencer.saw.kinds import KINDS, KindName
from sequencer.saw.operation import OperationId

OPPOSITE = {
    "face": "back",
    "back": "face",
    "inside-edge": "outside-edge",
    "outside-edge": "inside-edge",
}


class Wall(Struct, frozen=True):
    """A pass that left the piece whole: what was down and what bore, from there to the kerf's near
    side and to its far side, and how deep it went."""

    down: str
    bore: str
    near: Fraction
    far: Fraction
    deep: Fraction


class Moment(Struct, frozen=True):
    """One pass. `mark` names the piece that the person reads, `held` what lies on the saw (a
    stick while a piece is cut off it); `length`, `width` and `thickness` are the held piece's
    before the pass. `does` is the kind of cut that it is, however its step is called. `part` is
    the designed part, `None` for sticks and scrap. `done` holds (end, what) for joint cuts already
    made on it, and for rebates what was down and, on edge, what was against the fence, lying flat,
    which edge it is at; `unguarded` that a cut without guard came before and nothing refitted it
    since.
    """

    shop: Shop
    setup: Setup
    step: int
    cut: Cut
    does: KindName
    mark: str
    held: str
    length: Fraction
    width: Fraction
    thickness: Fraction
    cutter: Cutter
    part: Part | None = None
    done: frozenset[tuple[str, str]] = frozenset()
    unguarded: bool = False
    start: Fraction = Fraction(0)
    """Of a stick, where its first piece begins."""
    follows: bool = False
    """Whether another piece is cut off the stick after this one."""
    stick: bool = True
    """Whether the held piece is still a stick, nothing crosscut from it having been named yet."""
    flat_cuts: Mapping[tuple[str, str], Fraction] = field(default_factory=dict)
    """How deep rebates and shoulders were cut, not on end, by what was down and which edge or end
    they are at."""
    walls: frozenset[Wall] = frozenset()
    """Of the grooves, rebates and cheeks that were cut; a rebate is open to the far side."""
    stands: Mapping[str, str] = field(default_factory=dict)
    """What every knob that the plan has set stands at."""

    @property
    def body(self) -> Body:
        return CARRIERS[self.setup.carrier].body

    @property
    def on_end(self) -> bool:
        return self.cut.down.startswith("end")

    @property
    def on_edge(self) -> bool:
        return self.cut.down.endswith("edge")

    @property
    def standing_height(self) -> Fraction:
        """How far the piece rises from what it stands on: what a through cut must exceed."""
        if self.on_end:
            return self.length
        return self.width if self.on_edge else self.thickness

    @property
    def resting(self) -> Fraction:
        """The narrower side of what it stands on."""
        return self.thickness if self.on_edge or self.on_end else self.width

    @property
    def through(self) -> bool:
        return KINDS[self.does].through or self.setup.depth >= self.standing_height

    @property
    def feed_length(self) -> Fraction:
        """What of the piece bears on the fence, or passes the blade."""
        if self.body == "fence" and self.on_end:
            return self.across_the_end
        if self.body == "fence" and not (self.cut.against or "").startswith("end"):
            return self.length
        return self.thickness if self.on_edge else self.width

    @property
    def across_the_end(self) -> Fraction:
        """Of a piece on end, what of its end lies along the guiding surface."""
        return self.width if self.cut.against in ("face", "back") else self.thickness

    @property
    def across(self) -> Fraction:
        """The piece's breadth on the table across the feed, from fence or stop outward."""
        if (self.cut.against or "end").startswith("end"):
            return self.length
        return self.width if self.cut.against in ("inside-edge", "outside-edge") else self.thickness

    @property
    def beyond(self) -> Fraction:
        """What lies on the open side of the kerf."""
        return self.across - (self.setup.guide or Fraction(0)) - self.setup.kerf

    @property
    def near_edge(self) -> str:
        """Which edge a piece that lies flat on the fence is cut at."""
        against = self.cut.against or ""
        near = (self.setup.guide or Fraction(0)) < self.width / 2
        return against if near else OPPOSITE.get(against, "")


class _State(Struct):
    length: Fraction
    width: Fraction
    thickness: Fraction
    stick: bool
    start: Fraction = Fraction(0)
    """Where a stick's first piece begins, once its end is squared."""
    waiting: int = 0
    """How many pieces are still to be cut off it."""
    done: frozenset[tuple[str, str]] = field(default_factory=frozenset)
    flat_cuts: Mapping[tuple[str, str], Fraction] = field(default_factory=dict)
    walls: frozenset[Wall] = frozenset()


def moments(plan: Plan, shop: Shop) -> Iterator[Moment]:
    """Every pass in step order, test pieces' too.

    Raises `KeyError` where a step names a setup or a mark that the plan does not have.
    """
    setups = {setup.number: setup for setup in plan.setups}
    cutters = {cutter.name: cutter for cutter in shop.cutters}
    parts = {part.mark: part for part in plan.parts}
    parent = {piece.mark: stick.mark for stick in plan.sticks for piece in stick.pieces}
    pieces = _at_the_start(plan)
    unguarded = False
    knobs: dict[str, str] = {}
    kinds = _kinds(plan.steps)
    for step in plan.steps:
        if step.kind == "refit guard":
            unguarded = False
        if step.setup is None:
            _plane(step, pieces)
        if step.setup is None or not step.cuts:
            continue
        setup = setups[step.setup]
        knobs = knobs | {change.knob: change.after for change in setup.changes}
        for index, cut in enumerate(step.cuts):
            mark = _reads(step, index, cut, parent)
            held = cut.mark if cut.mark in pieces else parent[cut.mark]
            state = pieces[held]
            does = _does(kinds[step.number], setup, cut, parts.get(mark), state.thickness)
            moment = Moment(
                shop,
                setup,
                step.number,
                cut,
                does,
                mark,
                held,
                state.length,
                state.width,
                state.thickness,
                cutters[setup.cutter],
                None if state.stick else parts.get(mark),
                state.done,
                unguarded,
                state.start,
                state.waiting > 1,
                state.stick,
                state.flat_cuts,
                state.walls,
                knobs,
            )
            yield moment
            _saw(moment, pieces)
        unguarded = unguarded or setup.guard != "fitted"


def _at_the_start(plan: Plan) -> dict[str, _State]:
    """Every stick as its blank. A plan that is made again half-way leaves out what is done: a
    stick that it does not rip is ripped, a piece that it does not cut off is there by itself."""
    to_do = {operation for step in plan.steps for operation in step.operations}
    sizes = {part.mark: part.size for part in plan.parts}
    sizes |= {scrap.mark: scrap.size for scrap in plan.scrap}
    states: dict[str, _State] = {}
    for stick in plan.sticks:
        start = stick.pieces[0].start if stick.pieces else Fraction(0)
        blank = stick.blank if str(OperationId(stick.mark, "rip")) in to_do else stick.size
        state = _State(blank.length, blank.width, blank.thickness, True, start=start)
        states[stick.mark] = state
        if str(OperationId(stick.mark, "square")) not in to_do:
            state.length -= start
        for piece in stick.pieces:
            if str(OperationId(piece.mark, "crosscut")) not in to_do and piece.mark in sizes:
                size = sizes[piece.mark]
                states[piece.mark] = _State(size.length, size.width, size.thickness, False)
                state.length = max(Fraction(0), state.length - size.length)
            else:
                state.waiting += 1
    for part in plan.parts:
        if str(OperationId(part.mark, "crosscut")) not in to_do:
            size = part.size
            states[part.mark] = _State(size.length, size.width, size.thickness, False)
    return states


def _reads(step: Step, index: int, cut: Cut, parent: Mapping[str, str]) -> str:
    """The mark that the person reads: of a stick's crosscut, the piece's."""
    if len(step.operations) == len(step.cuts):
        mark = OperationId.parse(step.operations[index]).mark
        if parent.get(mark) == cut.mark:
            return mark
    return cut.mark


def _kinds(steps: Sequence[Step]) -> dict[int, KindName]:
    """What each step does: cuts of scrap, what the work after them in their setup does."""
    found: dict[int, KindName] = {}
    after: dict[int, KindName] = {}
    for step in reversed(steps):
        if step.setup is not None and step.operations:
            after[step.setup] = step.kind
        tried = step.kind in SCRAP_STEPS and step.setup is not None
        found[step.number] = after.get(step.setup or 0, step.kind) if tried else step.kind
    return found


def _does(
    kind: KindName, setup: Setup, cut: Cut, part: Part | None, thickness: Fraction
) -> KindName:
    """What the pass does, from how the piece lies; a step's name only where that cannot tell."""
    flat = cut.down in ("face", "back")
    carrier = CARRIERS[setup.carrier]
    if carrier.slanted:
        return "mitre"
    if carrier.body == "fence":
        return _does_on_fence(kind, setup, cut, thickness)
    if carrier.body == "sled":
        if kind == "housing":
            return kind
        if cut.sweep:
            return "sweep"
        if cut.against is None:
            return "square"
        if not flat:
            return "edge shoulder"
        named = kind in ("crosscut", "square")
        return "crosscut" if named or setup.depth >= thickness else "shoulder"
    if cut.against in ("inside-edge", "outside-edge"):
        return "edge cheek"
    if part is None:
        return "cheek" if kind in ("cheek", "edge cheek") else "slot"
    # A slot that is open to a face, as a half-lap's, is sawn like a cheek and frees its waste.
    slotted = any(
        f.kind == "slot" and f.at == cut.down[-1] and f.box[2][0] > 0 and f.box[2][1] < thickness
        for f in part.features
    )
    return "slot" if slotted else "cheek"


def _does_on_fence(kind: KindName, setup: Setup, cut: Cut, thickness: Fraction) -> KindName:
    if cut.down in ("face", "back"):
        if (cut.against or "").startswith("end"):
            return "crosscut"
        if kind != "rip" and setup.depth < thickness:
            return "bevel" if setup.tilt else "rebate"
        return "rip"
    if setup.tilt:
        return "bevel"
    return "rebate" if kind == "rebate" else "groove"


def _plane(step: Step, pieces: Mapping[str, _State]) -> None:
    """Take a sawn edge off at the bench: what goes there along a whole stick."""
    for mark, ((low, high), (inner, outer), _) in ((r.mark, r.box) for r in step.removes):
        state = pieces.get(mark)
        if state is not None and state.stick and high - low >= state.length:
            state.width -= outer - inner


def _saw(moment: Moment, pieces: dict[str, _State]) -> None:
    """Carry the piece's size on past the pass."""
    state, setup, cut = pieces[moment.held], moment.setup, moment.cut
    if cut.against is not None and setup.guide is not None:
        near = setup.guide
        if moment.does in ("groove", "cheek"):
            state.walls |= {Wall(cut.down, cut.against, near, near + setup.kerf, setup.depth)}
        elif moment.does == "rebate" and moment.on_edge:
            state.walls |= {Wall(cut.down, cut.against, near, state.thickness, setup.depth)}
    if moment.does == "rip":
        state.width = _kept(moment, state.width)
    elif moment.does == "square":
        state.length -= max(state.start, setup.kerf)
    elif moment.does == "crosscut":
        kept = _kept(moment, state.length)
        if moment.mark != moment.held:
            pieces[moment.mark] = replace(state, length=kept, stick=False)
            state.length = max(Fraction(0), moment.beyond)
            state.waiting -= 1
        else:
            state.length = kept
    elif moment.does == "rebate":
        state.done |= {(cut.down, f"rebate {cut.against if moment.on_edge else moment.near_edge}")}
        if not moment.on_edge:
            state.flat_cuts = {**state.flat_cuts, (cut.down, moment.near_edge): setup.depth}
    elif moment.on_end or moment.does in ("shoulder", "edge shoulder", "sweep"):
        end = cut.down[-1] if moment.on_end else (cut.against or "")[-1]
        side = (cut.against or "") if moment.on_end else cut.down
        state.done |= {(end, f"{moment.does} {side}")}
        if moment.does in ("shoulder", "edge shoulder"):
            state.flat_cuts = {**state.flat_cuts, (side, f"end-{end}"): setup.depth}


def _kept(moment: Moment, whole: Fraction) -> Fraction:
    if moment.cut.keeps == "far" or moment.setup.guide is None:
        return max(Fraction(0), whole - (moment.setup.guide or Fraction(0)) - moment.setup.kerf)
    return moment.setup.guide
