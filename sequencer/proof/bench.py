"""Checks at the bench: what is measured there, worked out again from sizes and places; and what is
to be measured before the work goes on, by the proof's own table."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from sequencer.facts import Fact, Length, measures
from sequencer.facts import checks as told
from sequencer.plan import Checkpoint, Door, Plan, Season, Step
from sequencer.proof.dimensions import FOUND, On, diagonal_of, is_arch, meeting_side
from sequencer.proof.follow import fault
from sequencer.proof.held_lights import holds
from sequencer.proof.standing import Shaped, Standing, shaped_edge

AT: Mapping[str, tuple[str, ...]] = {
    "stock": ("mill",),
    "opening-width": ("dry fit",),
    "opening-height": ("dry fit",),
    "each-width": ("dry fit",),
    "each-height": ("dry fit",),
    "light-width": ("dry fit",),
    "light-height": ("dry fit",),
    "diagonals": ("dry fit", "diagonals", "finish"),
    "diagonal": ("diagonals", "finish"),
    "panel-width": ("finish",),
    "slab-width": ("finish",),
    "board-gap": ("glue-up",),
    "meeting-width": ("rebate meeting",),
    "meeting-depth": ("rebate meeting",),
    "pane-width": ("glaze",),
    "pane-height": ("glaze",),
    "gap": ("hang",),
    "lap": ("hang",),
    "span": ("shape",),
    "arch": ("shape",),
    "edge-height": ("shape",),
    "shaped-groove-place": ("shaped groove",),
    "shaped-groove-width": ("shaped groove",),
    "shaped-groove-depth": ("shaped groove",),
    "panel-arch": ("shape panel",),
    "panel-top": ("shape panel",),
}
"""At which steps each kind is measured. Common practice."""


def check_bench(plan: Plan) -> None:
    """Raises InternalError, with step and piece, for the first check at the bench whose target or
    window is not what sizes, places and season give; and for what is to be measured, and is not."""
    bench = _Bench(plan)
    for check in plan.checkpoints:
        if check.knob is None:
            bench.check(check)
    bench.all_there()


class _Bench:
    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.steps = {step.number: step for step in plan.steps}
        self.sticks = {stick.mark: stick for stick in plan.sticks}
        self.leaves = {door.mark: Standing.of(plan, door) for door in plan.doors}
        self.home = {
            mark: leaf
            for leaf in self.leaves.values()
            for mark in (
                leaf.door.mark,
                *(place.mark for place in leaf.door.places),
                *(pane.mark for pane in leaf.door.panes),
            )
        }
        self.panels = {each.part: each for season in plan.seasons for each in season.panels}
        self.season: dict[str, Season] = {season.door: season for season in plan.seasons}

    def check(self, check: Checkpoint) -> None:
        what = measures.MEASURED(form=str(check.measure))
        step = self.steps[check.at_step]
        first = next(iter(check.marks or step.marks), "")
        if step.kind not in AT.get(check.measure.what.value, ()):
            raise fault(step, first, told.NOT_ON_WORK(measure=what))
        if not check.marks:
            raise fault(step, first, told.NOT_ON_WORK(measure=what))
        for mark in check.marks:
            if mark in self.plan.again and mark not in self.home:
                continue  # its leaf is in another plan
            if check.measure.what.value == "stock":
                found = {self.sticks[mark].size.thickness} if mark in self.sticks else set()
            else:
                on = On(check, mark, self.home.get(mark), step)
                found = set(FOUND[check.measure.what.value](on))
            if not found and mark in self.plan.again:
                continue  # its leaf, by whose places it would be found, is not in this plan
            if not found:
                raise fault(step, mark, told.NOTHING_LIKE_IT(measure=what))
            for value in found - {check.exact}:
                lengths = Length(value, self.plan.unit), Length(check.exact, self.plan.unit)
                wrong = told.OTHER_TARGET(measure=what, found=lengths[0], target=lengths[1])
                raise fault(step, mark, wrong)
            self.season_allows(check, mark, step, what)

    def season_allows(self, check: Checkpoint, mark: str, step: Step, what: Fact) -> None:
        """A panel no wider than the wettest season's groove takes, no narrower than leaves in the
        driest what windows do not take of its hold; a free gap that never closes."""
        least: Fraction | None = None
        most: Fraction | None = None
        if check.measure.what.value == "panel-width":
            season = self.panels.get(mark)
            if season is None:
                raise fault(step, mark, told.NOTHING_LIKE_IT(measure=what))
            today = season.widths[1]
            kept = holds(season.engagement, self.plan.unit)
            least = (season.sight + 2 * kept) * today / min(season.widths)
            most = (season.sight + 2 * season.depth) * today / max(season.widths)
        elif check.measure.what.value == "gap":
            gap = self.season[mark].gap if mark in self.season else None
            if gap is not None:
                least = gap.air / 2 + gap.gaps[1] - min(gap.gaps)
        below = least is not None and check.low < min(least, check.target)
        above = most is not None and check.high > max(most, check.target)
        if below or above:
            low, high, first, last = (
                Length(value, self.plan.unit)
                for value in (
                    check.low,
                    check.high,
                    check.low if least is None else least,
                    check.high if most is None else most,
                )
            )
            wide = told.WIDE_WINDOW(measure=what, low=low, high=high, least=first, most=last)
            raise fault(step, mark, wide)

    def all_there(self) -> None:
        """What must be measured is, at each of the steps that it is to be measured at."""
        made = {
            (check.at_step, measure, mark)
            for check in self.plan.checkpoints
            for measure in (str(check.measure), str(check.measure).partition(":")[0])
            for mark in check.marks
        }
        for step in self.plan.steps:
            if step.setup is not None:
                continue
            for measure, mark in self.wanted(step):
                if (step.number, measure, mark) not in made:
                    what = measures.MEASURED(form=measure)
                    raise fault(step, mark, told.NOT_MEASURED(measure=what))

    def wanted(self, step: Step) -> Iterator[tuple[str, str]]:
        """What is to be measured after a step, on what."""
        for mark in step.marks:
            if step.kind == "mill" and mark in self.sticks:
                yield "stock", mark
            leaf = self.leaves.get(mark)
            if leaf is not None:
                yield from ((what, on or mark) for what, on in _of_leaf(step.kind, leaf))
            elif mark in self.home:
                yield from ((what, mark) for what in _of_piece(step.kind, self.home[mark], mark))
            if step.kind == "finish" and mark in self.panels:
                yield "panel-width", mark


def _of_leaf(kind: str, leaf: Standing) -> Iterator[tuple[str, str]]:
    door = leaf.door
    match kind:
        case "dry fit" if leaf.framed:
            yield "diagonals", ""
            if not leaf.role("mullion"):
                yield "opening-width", ""
            if not leaf.role("mid rail"):
                yield from ((what, "") for what in _heights(leaf))
            yield from ((what, "") for what in _lights(leaf))
        case "glue-up" if leaf.role("board"):
            yield from (("board-gap", piece.part.mark) for piece in leaf.role("board"))
        case "diagonals":
            yield "diagonals", ""
            yield f"diagonal/{diagonal_of(leaf)}", ""
        case "glaze":
            for pane in door.panes:
                yield "pane-width", pane.mark
                yield "pane-height", pane.mark
        case "rebate meeting":
            side = meeting_side(door)
            yield f"meeting-width/{side}", ""
            yield f"meeting-depth/{side}", ""
        case "hang":
            yield from ((f"lap/{side}", "") for side, gap in door.gaps.items() if gap < 0)
            free = _free_side(door)
            if door.gaps[free] >= 0:
                yield f"gap/{free}", ""


def _of_piece(kind: str, leaf: Standing, mark: str) -> Iterator[str]:
    (piece,) = (piece for piece in leaf.pieces if piece.part.mark == mark)
    edge = shaped_edge(leaf, piece)
    if kind == "finish" and piece.role == "slab":
        yield from ("slab-width", "diagonal/slab", "diagonals")
    if kind == "shaped groove":
        yield from ("shaped-groove-place", "shaped-groove-width", "shaped-groove-depth")
    if edge is not None and kind == "shape":
        yield "span"
        yield from _of_shape(edge, "arch", "edge-height")
    elif edge is not None and kind == "shape panel":
        yield from _of_shape(edge, "panel-arch", "panel-top")


def _of_shape(edge: Shaped, curve: str, height: str) -> Iterator[str]:
    """Alike at both ends it is an arch, with its radius and a mark on the way; else a straight
    line, with its ends; of both what lies off the straight edge."""
    either = {edge.depth(at) for at in edge.at("either")}
    if len(either) == 1:
        yield curve
        yield f"{height}/from-either"
    for place in ("either", "middle") if len(either) == 1 else ("left", "right"):
        if any(edge.depth(at) for at in edge.at(place)):
            yield f"{height}/{place}"


def _lights(leaf: Standing) -> Iterator[str]:
    """Each light that bars leave, alike ones together."""
    lights = leaf.lights()
    shaped = shaped_edge(leaf, leaf.rails[1]) is not None
    if len(lights) > 1 and len(set(lights)) == 1 and not shaped:
        yield from ("each-width", "each-height")
    elif len(lights) > 1:
        for number in range(1, len(lights) + 1):
            yield f"light-width:{number}"
            for place in ("/lowest", "/highest") if shaped and number == 1 else ("",):
                yield f"light-height{place}:{number}"


def _heights(leaf: Standing) -> tuple[str, ...]:
    edge = shaped_edge(leaf, leaf.rails[1])
    if edge is None:
        return ("opening-height",)
    if is_arch(leaf):
        return ("opening-height/stiles", "opening-height/middle")
    return ("opening-height/left", "opening-height/right")


def _free_side(door: Door) -> str:
    return "meeting" if "meeting" in door.gaps else "lock"
