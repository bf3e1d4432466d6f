"""As far as each source of error goes in the worst case, and which kind of thing it is."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from sequencer.plan import Checkpoint
from sequencer.plan.requirements import Takes
from sequencer.saw.fittings import SPACER
from sequencer.saw.measures import What
from sequencer.tolerance.floor import HEIGHT
from sequencer.tolerance.forms import Form, Source, of
from sequencer.tolerance.readings import Known
from sequencer.trade import spreads
from sequencer.trade.fits import Datum

BY_RULE = frozenset({
    What.LENGTH, What.SHOULDERS, What.TO_SHOULDER, What.TO_HOUSING, What.TO_MITRE,
    What.PANEL_WIDTH, What.SLAB_WIDTH, What.PANE_WIDTH, What.PANE_HEIGHT, What.SPAN, What.ARCH,
    What.EDGE_HEIGHT, What.PANEL_ARCH, What.PANEL_TOP, What.OPENING_WIDTH, What.OPENING_HEIGHT,
    What.EACH_WIDTH, What.EACH_HEIGHT, What.LIGHT_WIDTH, What.LIGHT_HEIGHT, What.DIAGONALS,
    What.DIAGONAL, What.GAP, What.LAP,
})  # fmt: skip
"""What a rule is laid to where a plan does not say; the rest is read with a caliper."""

TAKES: dict[str, Takes] = {
    "window": "window", "reading": "reading", "pass": "pass", "thick": "thickness",
    "knob": "setting", "kerf": "setting", "mark": "window",
}  # fmt: skip
Bound = tuple[Fraction, Fraction]


@dataclass
class Errors:
    """What is known of the settings of a plan, and how far all else goes."""

    known: Known

    @property
    def checks(self) -> tuple[Checkpoint, ...]:
        return self.known.floor.plan.checkpoints

    def length(self, datum: Datum) -> Fraction:
        return datum.of(self.known.floor.plan.unit)

    def reading(self, number: int) -> Fraction:
        """How far the reading of a check may be wrong, either way."""
        check = self.checks[number]
        if check.tool is not None:
            unit = self.known.floor.plan.unit
            return spreads.misread(check.tool, check.resolution or Fraction(0), unit)
        by_rule = check.measure.what in BY_RULE
        return self.length(spreads.RULE if by_rule else spreads.CALIPER)

    def read(self, number: int) -> Form:
        """How far what was measured is off, once its reading lies in the window."""
        return of(Source("window", str(number))) - of(Source("reading", str(number)))

    @cached_property
    def milled(self) -> dict[str, int]:
        """By stick, the check of its thickness."""
        return {
            mark: number
            for number, check in enumerate(self.checks)
            if check.measure.what is What.STOCK
            for mark in check.marks
        }

    @cached_property
    def by_itself(self) -> dict[str, int]:
        """By stick, the check of its thickness, where that is of no other and all that comes off it
        fills a frame."""
        plan = self.known.floor.plan
        fills = {part.mark for part in plan.parts if part.role in ("panel", "board")}
        filling = {s.mark for s in plan.sticks if s.pieces and {p.mark for p in s.pieces} <= fills}
        return {
            mark: number
            for mark, number in self.milled.items()
            if mark in filling and self.checks[number].marks == (mark,)
        }

    def on_mark(self, number: int) -> bool:
        """Whether the fence, stop or jig that a check corrects stands on a mark of its scale."""
        plan, check = self.known.floor.plan, self.checks[number]
        shown = next((s.reading for s in plan.setups if s.number == check.setup), None)
        guide = check.knob is not None and check.knob != HEIGHT
        return guide and shown is not None and plan.shop.marked(check.knob or "", shown)

    def bound(self, source: Source) -> Bound:
        """The least and the most that it can be."""
        sigmas = spreads.SIGMAS
        match source.kind:
            case "window":
                check = self.checks[int(source.of)]
                return check.low - check.exact, check.high - check.exact
            case "mark":
                check = self.checks[int(source.of)]
                return check.target - check.exact, check.target - check.exact
            case "reading":
                wide = self.reading(int(source.of))
            case "pass":
                wide = sigmas * self.length(spreads.PASS)
            case "thick":
                number = self.milled.get(source.of)
                if number is not None:
                    check, off = self.checks[number], self.reading(number)
                    return check.low - check.exact - off, check.high - check.exact + off
                wide = sigmas * self.length(spreads.THICKNESS)
            case "kerf":
                wide = self.length(spreads.CALIPER)
            case "knob" if source.of.startswith(SPACER):
                wide = self.length(spreads.CALIPER)  # a block is as thick as it was measured
            case _:
                wide = sigmas * self.length(spreads.SCALE)
        return -wide, wide

    def range(self, form: Form) -> Bound:
        """The least and the most of a form, every setting told by what it is known by."""
        low = high = Fraction(0)
        for source, part in self.known.put(form, self.known.worst).parts.items():
            ends = [part * end for end in self.bound(source)]
            low, high = low + min(ends), high + max(ends)
        return low, high

    def narrowest(self, forms: Iterable[Form]) -> Form | None:
        """The form that tells closest; the first of several that tell alike."""

        def wide(form: Form) -> Fraction:
            low, high = self.range(form)
            return high - low

        return min(forms, key=wide, default=None)
