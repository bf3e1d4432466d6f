"""What a check says of the setting that it was made for: its measure, and the setting by it.

A setting is known by the check that it was corrected by last. What was read lies in the
window; what was measured is off that by the reading's error; and from the measure the setting
follows, by what else stands in it: other settings, the passes on the test piece, its thickness.
A check that refers to earlier ones is good by as much more or less as those were read.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from sequencer.plan import Checkpoint
from sequencer.saw.measures import BETWEEN, TO_FAR, TO_NEAR, What
from sequencer.tolerance.floor import FACES, Floor, Made
from sequencer.tolerance.forms import NONE, Form, Source, of, total

_DEEP = frozenset({
    What.CHANNEL_DEPTH, What.SHOULDER_DEPTH, What.EDGE_SHOULDER_DEPTH, What.MITRE_DEPTH,
    What.REBATE_REACH, What.FLAT_DEPTH,
})  # fmt: skip


@dataclass
class Known:
    """What is known of each setting: `worst` tells it by window, reading and passes, `likely` by
    what was accepted, of which the passes of the last try are part."""

    floor: Floor
    worst: dict[Source, Form] = field(default_factory=dict)
    likely: dict[Source, Form] = field(default_factory=dict)
    by: dict[Source, int] = field(default_factory=dict)
    """The check that a setting is known by."""
    fresh: dict[int, Form] = field(default_factory=dict)
    """What stands in a check's measure of the passes of its last try."""
    lasting: dict[int, Form] = field(default_factory=dict)
    """What stands in it beside them and its own setting, the same at every try."""
    per: dict[int, Fraction] = field(default_factory=dict)
    """By how much its setting stands in it."""

    def __post_init__(self) -> None:
        for number, check in enumerate(self.floor.plan.checkpoints):
            if check.knob is not None:
                self._learn(number, check)

    def _learn(self, number: int, check: Checkpoint) -> None:
        made = self._made(check)
        if not made:
            return
        source = self.floor.knob(made[0], check.knob or "")
        measure = self.measure(check, made)
        if source in self.worst or measure is None:
            return
        per = measure.parts.get(source)
        if per is None or per != check.per_unit:
            return
        here = {f"{check.at_step}/{each.number}/" for each in made}
        fresh = Form({
            each: part for each, part in measure.parts.items()
            if each.kind == "pass" and each.of[: each.of.rindex("/") + 1] in here
        })  # fmt: skip
        rest = measure - of(source) * per
        read = of(Source("window", str(number))) - of(Source("reading", str(number)))
        likely = of(Source("accepted", str(number)))
        read += self._came_out(check, "window")
        likely += self._came_out(check, "accepted", "noise")
        self.by[source], self.fresh[number], self.per[number] = number, fresh, per
        self.lasting[number] = self.put(rest - fresh, self.likely)
        self.worst[source] = (read - self.put(rest, self.worst)) * (1 / per)
        self.likely[source] = (likely - self.lasting[number]) * (1 / per)

    def _came_out(self, check: Checkpoint, *kinds: str) -> Form:
        """By how much more or less a check is good, for what those came out that it refers to, told
        by sources of these kinds."""
        found = NONE
        for other, share in check.refers:
            name, mate = str(other), self.floor.plan.checkpoints[other]
            came = total(of(Source(kind, name)) for kind in kinds)
            if mate.knob is None:  # thickness, by a reading of its own
                came = of(Source("thick", mate.marks[0])) + of(Source("reading", name))
            came += self._came_out(mate, *kinds) - of(Source("mark", name))
            found += came * share
        return found

    def put(self, form: Form, known: Mapping[Source, Form]) -> Form:
        """The form with all settings that are known told by what they are known by."""
        for source in [each for each in form.parts if each in known]:
            form = form.put(source, known[source])
        return form

    def _made(self, check: Checkpoint) -> list[Made]:
        if check.scrap is not None:
            return self.floor.on_scrap.get((check.at_step, check.scrap), [])
        cut = [self.floor.cut_off[mark] for mark in check.marks if mark in self.floor.cut_off]
        passes = (made for mark in check.marks for made in self.floor.passes.get(mark, ()))
        # A length is looked at where the piece comes off, what else is, at its first pass.
        return [made for made in (*cut, *passes) if made.step.number == check.at_step][:1]

    def measure(self, check: Checkpoint, made: list[Made]) -> Form | None:
        """How far what is measured is off; `None` where it is not known how it hangs together."""
        floor, what = self.floor, check.measure.what
        first, per = made[0], check.per_unit
        mark = check.scrap or ""
        if what in TO_NEAR:
            return floor.guided(first)
        if what in TO_FAR:
            return floor.beyond(first)
        if what in _DEEP:
            return floor.deep(first)
        if what in BETWEEN and per is not None and abs(per) == 1:
            return self._between(check, first)
        if what is What.UNDER_HOUSING:
            return floor.thick(mark) - floor.deep(first)
        if len(made) < 2:
            return None
        second = made[1]
        if what is What.CHANNEL_WIDTH:
            return floor.thick(mark) - floor.guided(first) - floor.guided(second)
        if what is What.TENON or (what is What.TONGUE and first.cut.down not in FACES):
            return floor.guided(first) + floor.guided(second) - floor.thick(mark)
        if what is What.TONGUE:
            return floor.thick(mark) - floor.deep(first) - floor.deep(second)
        if what is What.SHOULDERS:
            length = floor.length(mark)
            other = next((m for m in made if m.cut.against != first.cut.against), None)
            if length is None or other is None:
                return None
            return length - floor.beyond(first) - floor.beyond(other)
        return None

    def _between(self, check: Checkpoint, made: Made) -> Form | None:
        """From the wall that an earlier setting left on the test piece to the far side of this."""
        near = BETWEEN[check.measure.what]
        found = None
        for other in self.floor.plan.checkpoints:
            same = other.measure.what is near and other.scrap == check.scrap
            if same and other.at_step <= check.at_step:
                found = other
        if found is None:
            return None
        walls = self.floor.on_scrap.get((found.at_step, found.scrap or ""), [])
        return self.floor.beyond(made) - self.floor.guided(walls[0]) if walls else None
