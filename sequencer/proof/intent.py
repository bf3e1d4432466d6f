"""The order of the trade: what must precede what, from leaves, features and bench work alone.

The plan's own precedence is not read. What each printed step does to which piece, strip or door,
at which end, is held against a table of rules; every one must hold wherever both its sides occur.
All rules are common practice at the bench and the saw, but where a row says otherwise.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping
from fractions import Fraction

from msgspec import Struct

from sequencer.errors import InternalError
from sequencer.facts import Kind
from sequencer.facts import intents as told
from sequencer.plan import SCRAP_STEPS, Cut, Plan, Step
from sequencer.proof.carriers import CARRIERS
from sequencer.proof.follow import fault, kind_term

FILLS = ("panel", "board")
ALONG = ("groove", "rebate")
SHOULDERS = ("shoulder", "edge shoulder", "sweep")
CHEEKS = ("cheek", "edge cheek")
JOINTS = ("slot", "housing", "mitre", *SHOULDERS, *CHEEKS)
SHAPED = ("shape", "shaped groove")
SIZED = ("rip", "crosscut", "bevel", "shape panel", *ALONG)
FITTED = ("groove", "rebate", "slot", "housing", "cheek")
"""Kinds of cut that something is fitted to, or that is fitted."""

COMMON = "common practice"
OURS = "ours"


class Done(Struct, frozen=True):
    """What one cut, or one step at the bench, does to one piece, strip or door. `at` is its place
    in the printed order, step and cut; `ends` the ends of the piece that it is set from or made in,
    `trench` the end of a bar that a housing takes."""

    at: tuple[int, int]
    step: Step
    kind: str
    mark: str
    ends: tuple[str, ...] = ()
    trench: str | None = None


Keys = Callable[["Shop", Done], Iterable[str]]


class Rule(Struct, frozen=True):
    """Each of the `first` comes before each of the `later` that shares a key with it."""

    first: tuple[str, ...]
    later: tuple[str, ...]
    keys: tuple[Keys, Keys]
    why: Kind
    source: str = COMMON


class Shop:
    """What stands in the plan: pieces, the strips they come off, the doors they go into."""

    def __init__(self, plan: Plan) -> None:
        self.parts = {part.mark: part for part in plan.parts}
        self.doors = {door.mark for door in plan.doors}
        self.strips = {stick.mark: [p.mark for p in stick.pieces] for stick in plan.sticks}
        self.strip_of = {mark: strip for strip, marks in self.strips.items() for mark in marks}
        self.setups = {setup.number: setup for setup in plan.setups}
        self.done = tuple(self._done(plan.steps))

    def _done(self, steps: Iterable[Step]) -> Iterator[Done]:
        waiting = {strip: list(marks) for strip, marks in self.strips.items()}
        for step in steps:
            if step.kind in SCRAP_STEPS:
                continue
            for n, cut in enumerate(step.cuts):
                mark = cut.mark
                if step.kind == "crosscut" and waiting.get(mark):
                    mark = waiting[mark].pop(0)
                ends = tuple(side[-1] for side in (cut.down, cut.against)
                             if side in ("end-A", "end-B"))  # fmt: skip
                kind = f"bevel {'end' if ends else 'edge'}" if step.kind == "bevel" else step.kind
                yield Done((step.number, n), step, kind, mark, ends, self._trench(step, cut))
            if not step.cuts:
                marks = dict.fromkeys((*step.marks, *(each.mark for each in step.removes)))
                yield from (Done((step.number, 0), step, step.kind, mark) for mark in marks)

    def _trench(self, step: Step, cut: Cut) -> str | None:
        """The end of the bar that the housing nearest to the cut is for."""
        part = self.parts.get(cut.mark)
        setup = self.setups.get(step.setup) if step.setup is not None else None
        if step.kind != "housing" or part is None or setup is None or setup.guide is None:
            return None
        x = setup.guide if cut.against == "end-A" else part.size.length - setup.guide
        there = [f for f in part.features if f.kind == "housing" and f.at == cut.down]
        near = min(there, key=lambda f: _off(f.box[0], x), default=None)
        return None if near is None else near.mate


def _off(span: tuple[Fraction, Fraction], x: Fraction) -> Fraction:
    return max(span[0] - x, x - span[1], Fraction(0))


# How what is done is known to belong to what else is done, by a name they share.


def _strip(shop: Shop, done: Done) -> Iterable[str]:
    return (
        (done.mark,) if done.mark in shop.strips else filter(None, (shop.strip_of.get(done.mark),))
    )


def _piece(_: Shop, done: Done) -> Iterable[str]:
    return (done.mark,)


def _end(_: Shop, done: Done) -> Iterable[str]:
    return (f"{done.mark}/{end}" for end in done.ends)


def _mates(shop: Shop, done: Done) -> Iterable[str]:
    """The tenons that the slots cut here are for."""
    part = shop.parts.get(done.mark)
    for feature in part.features if part is not None else ():
        if feature.kind == "slot" and feature.at in done.ends and feature.mate is not None:
            yield feature.mate


def _trench(_: Shop, done: Done) -> Iterable[str]:
    return () if done.trench is None else (done.trench,)


def _of_doors(shop: Shop, done: Done, fills: bool) -> Iterable[str]:
    for mark in shop.strips.get(done.mark, (done.mark,)):
        part = shop.parts.get(mark)
        if part is not None and (part.role in FILLS) == fills:
            yield part.door


def _frame(shop: Shop, done: Done) -> Iterable[str]:
    return _of_doors(shop, done, fills=False)


def _fill(shop: Shop, done: Done) -> Iterable[str]:
    return _of_doors(shop, done, fills=True)


def _door(shop: Shop, done: Done) -> Iterable[str]:
    return (done.mark,) if done.mark in shop.doors else ()


_ON_STRIP, _ON_PIECE, _AT_END, _BENCH = (
    (_strip, _strip),
    (_piece, _piece),
    (_end, _end),
    (_door, _door),
)

RULES: tuple[Rule, ...] = (
    Rule(("mill",), ("rip", "edge glue-up", "plane", *ALONG, "square", "crosscut"), _ON_STRIP,
         told.FLAT_FIRST),
    Rule(("edge glue-up",), ("rip", "square", "crosscut"), _ON_STRIP, told.GLUED_UP_FIRST),
    Rule(("rip", "plane"), (*ALONG, "square", "crosscut"), _ON_STRIP, told.EDGE_FIRST),
    Rule(ALONG, ("square", "crosscut"), (_piece, _strip), told.LONG_FIRST, OURS),
    Rule(("square",), ("crosscut",), _ON_STRIP, told.SQUARE_FIRST),
    Rule(("crosscut",), (*JOINTS, *SHAPED, "bevel end", "bevel edge", "shape panel"), _ON_PIECE,
         told.LENGTH_FIRST),
    Rule(("slot",), ("cheek",), (_mates, _end), told.SLOT_FIRST),
    Rule(("slot",), ("housing",), (_end, _trench), told.SLOT_FIRST),
    Rule(SHOULDERS, CHEEKS, _AT_END, told.SHOULDER_FIRST),
    Rule(("mitre",), ("slot", "shoulder", "cheek"), _AT_END, told.MITRE_FIRST, OURS),
    Rule(JOINTS, SHAPED, _ON_PIECE, told.STRAIGHT_FIRST),
    Rule(("shape",), ("shaped groove",), _ON_PIECE, told.SHAPE_FIRST),
    Rule(("bevel end",), ("bevel edge",), _ON_PIECE, told.ENDS_FIRST),
    Rule((*ALONG, "crosscut", *JOINTS, *SHAPED), ("dry fit",), (_frame, _door), told.JOINTS_FIRST),
    Rule(("dry fit",), ("rip", "crosscut"), (_door, _fill), told.FIT_BEFORE_SIZE),
    Rule(("dry fit",), ("glue-up",), _BENCH, told.FIT_BEFORE_GLUE),
    Rule(("trim",), ("glue-up",), _BENCH, told.TRIM_BEFORE_GLUE),
    Rule((*SIZED, "bevel end", "bevel edge"), ("finish",), (_fill, _door), told.SIZE_BEFORE_FINISH),
    Rule(("crosscut", "bevel end", "bevel edge"), ("finish",), _ON_PIECE, told.SIZE_BEFORE_FINISH),
    Rule(("dry fit",), ("finish",), _BENCH, told.FIT_BEFORE_FINISH),
    Rule(("finish",), ("glue-up",), _BENCH, told.FINISH_BEFORE_GLUE),
    Rule(("glue-up",), ("diagonals",), _BENCH, told.WHILE_WET),
    Rule(("glue-up", "diagonals"), ("flush", "rebate meeting"), _BENCH, told.GLUED_BEFORE_FLUSH),
    Rule(("trim", "finish", "glue-up", "diagonals", "flush", "rebate meeting"), ("glaze",), _BENCH,
         told.GLASS_LAST),
    Rule(("finish", "glue-up", "flush", "rebate meeting", "glaze"), ("hang",), _BENCH,
         told.HUNG_LAST),
    Rule(("crosscut", "finish"), ("hang",), (_frame, _door), told.HUNG_LAST),
)  # fmt: skip
"""`ours` marks what another maker may do otherwise, and this program's sheets never do."""


def check_intent(plan: Plan) -> None:
    """Raises InternalError for the first rule that the printed steps do not keep, with piece and
    step; for a fit-critical cut in good wood before it was tried; for a door that is never fitted
    dry or glued, or its glass never put in."""
    shop = Shop(plan)
    by_kind: dict[str, list[Done]] = {}
    for done in shop.done:
        by_kind.setdefault(done.kind, []).append(done)
    for rule in RULES:
        _check(rule, shop, by_kind)
    _tried(plan)
    _complete(plan, by_kind)
    _glued(plan, shop, by_kind)


def _check(rule: Rule, shop: Shop, by_kind: Mapping[str, list[Done]]) -> None:
    of_first, of_later = rule.keys
    last: dict[str, Done] = {}
    for kind in rule.first:
        for done in by_kind.get(kind, ()):
            for key in of_first(shop, done):
                if key not in last or last[key].at < done.at:
                    last[key] = done
    for kind in rule.later:
        for done in by_kind.get(kind, ()):
            for key in of_later(shop, done):
                first = last.get(key)
                if first is not None and first.at >= done.at:
                    term, number = kind_term(first.step), first.step.number
                    raise _too_early(done.step, done.mark, term, first.mark, number, rule.why)


def _tried(plan: Plan) -> None:
    """Whatever is tried in a setup is tried before good wood is cut in it; and of each kind of cut
    that a fit hangs on, something was tried on its carrier before the last setup that makes it:
    passes that only clear waste may come before."""
    setups = {setup.number: setup for setup in plan.setups}
    tries = [step for step in plan.steps if step.kind in SCRAP_STEPS and step.setup in setups]
    last = {step.setup: step.number for step in tries}
    good = [step for step in plan.steps if step.setup in setups and step.kind in FITTED]
    for step in good:
        if last.get(step.setup, 0) > step.number:
            raise _too_early(step, step.cuts[0].mark, "step.test-cut", step.cuts[0].mark,
                             last[step.setup], told.SCRAP_FIRST)  # fmt: skip
    if not plan.doors:
        return

    def carrier(step: Step) -> str:
        return "" if step.setup is None else CARRIERS[setups[step.setup].carrier].kind

    for kind in FITTED:
        of_kind = [step for step in good if step.kind == kind]
        for step in of_kind[-1:]:
            if not any(t.number < step.number and carrier(t) == carrier(step) for t in tries):
                raise fault(step, step.cuts[0].mark, told.NEVER_TRIED(cut=kind_term(step)))


def _too_early(step: Step, mark: str, first: str, of: str, number: int, why: Kind) -> InternalError:
    what = told.TOO_EARLY(first=first, mark=of, step=number, why=why())
    return fault(step, mark, what)


def _complete(plan: Plan, by_kind: Mapping[str, list[Done]]) -> None:
    roles: dict[str, set[str]] = {}
    for part in plan.parts:
        roles.setdefault(part.door, set()).add(part.role)
    for door in plan.doors:
        wanted = ["dry fit", "glue-up"] if "stile" in roles.get(door.mark, ()) else []
        wanted += ["glaze"] if door.panes else []
        for kind in wanted:
            if not any(done.mark == door.mark for done in by_kind.get(kind, ())):
                term = f"step.{kind.replace(' ', '-')}"
                raise InternalError(told.NO_STEP(kind=term, door=door.mark))


def _glued(plan: Plan, shop: Shop, by_kind: Mapping[str, list[Done]]) -> None:
    """What is laid out or told as several boards is glued up, of as many as are told."""
    laid = Counter(
        blank.stick
        for blank in (*(b for board in plan.boards for b in board.blanks), *plan.missing)
        if blank.mark != blank.stick and "+" not in blank.mark
    )
    made = {key for done in by_kind.get("edge glue-up", ()) for key in _strip(shop, done)}
    for stick in plan.sticks:
        several = stick.boards is not None or laid[stick.mark] > 0
        if several and stick.mark not in made:
            raise InternalError(told.NEVER_GLUED(strip=stick.mark))
        if stick.boards and laid[stick.mark] not in (0, stick.boards):
            raise InternalError(
                told.OTHER_BOARDS(strip=stick.mark, told=stick.boards, laid=laid[stick.mark])
            )
