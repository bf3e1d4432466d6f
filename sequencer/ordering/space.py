"""Settings that fulfil terms: which is worth making next, and what each costs.

A `Space` is over some of the knobs. The space of all knobs is the problem itself; a space of few
knobs is a relaxation, in which the other knobs cost nothing.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from sequencer.errors import InternalError
from sequencer.facts import orders as told
from sequencer.ordering.model import USELESS, Model, bits
from sequencer.ordering.terms import Move, Terms


class _Plan(Struct, frozen=True):
    """How a setting is changed to meet a need, without regard to what else is left.

    `only` says that there is one way, `safe` that nothing of use is lost by it; the new setting is
    the old one masked by `kept` with `put` in it. `wanted` are the needs that any accepted value of
    a changed knob could serve, `marks` the changed knobs set to something useless.
    """

    only: bool
    safe: bool
    kept: int
    put: int
    cost: int
    wanted: int
    marks: int


class Space(Terms):
    """Terms over the knobs in `knobs`, and how settings fulfil them."""

    def __init__(self, model: Model, knobs: Sequence[int], *, keep_dear: bool) -> None:
        super().__init__(model, knobs, keep_dear=keep_dear)
        self.plans: dict[int, _Plan] = {}
        self.losses: dict[tuple[int, int, int], int] = {}

    def moves(self, term: int, setting: int) -> list[Move]:
        """Every setting worth making next; one that is best in any case stands alone.

        Cheapest first, then in the order of the needs.
        """
        left, inner = self.all[term], self.inner[term]
        plans: list[tuple[int, _Plan]] = []
        batch = total = marked = 0
        for need in bits(self.leaf[term]):
            key = need << self.model.width | (setting & self.use[need])
            plan = self.plans.get(key)
            if plan is None:
                plan = self.plans[key] = self._plan(need, setting)
            plans.append((need, plan))
            if plan.safe:
                wanted = plan.wanted & left
                if wanted == 1 << need and not inner & wanted:
                    batch |= wanted
                    total += plan.cost
                    marked |= plan.marks
        if batch:
            return [(setting | marked, total, 0, batch)]
        found: dict[tuple[int, int], int] = {}
        for need, plan in plans:
            after = setting & plan.kept | plan.put
            if plan.safe:
                wanted = plan.wanted & left
                if (
                    not wanted & ~self.met(after)
                    and not self.all[self.rewrite(term, after)] & wanted
                ):
                    return [(after, plan.cost, 0, 0)]
            options = [(after, plan.cost, 0)] if plan.only else self._options(need, setting, left)
            for then, cost, dear in options:
                mine = (then, dear)
                if mine not in found or cost < found[mine]:
                    found[mine] = cost
        if not found:  # never: something that waits for nothing is always left
            raise InternalError(told.STUCK())
        return sorted(
            ((after, cost, dear, 0) for (after, dear), cost in found.items()),
            key=lambda move: move[1],
        )

    def _plan(self, need: int, setting: int) -> _Plan:
        choice, model = self.choices[need], self.model
        if len(choice) > 1:
            return _Plan(False, False, 0, 0, 0, 0, 0)
        kept, put, cost, wanted, marks = -1, 0, 0, 0, 0
        safe = only = True
        for knob, values in choice[0][0]:
            held = model.field(setting, knob)
            if held in values:
                continue
            if held > USELESS or (held < USELESS and model.free_first):
                safe = False
            only = only and len(values) == 1
            best = min(values, key=self.costs[knob].__getitem__)
            cost += (self.costs if held else self.first_costs)[knob][best]
            kept &= ~model.masks[knob]
            put |= best << model.offsets[knob]
            marks |= USELESS << model.offsets[knob]
            for value in values:
                wanted |= self.uses[knob][value]
        return _Plan(only, safe, kept, put, cost, wanted, marks)

    def unbatched(self, move: Move) -> list[int]:
        """The settings that a move stands for, one after the other."""
        after, _, _, batch = move
        if not batch:
            return [after]
        found = []
        for need in bits(batch):
            setting = after
            for knob, values in self.choices[need][0][0]:
                if self.model.field(setting, knob) not in values:
                    best = min(values, key=self.costs[knob].__getitem__)
                    setting &= ~self.model.masks[knob]
                    setting |= best << self.model.offsets[knob]
            found.append(setting)
        return found

    def _options(self, need: int, setting: int, left: int) -> list[tuple[int, int, int]]:
        found: list[tuple[int, int, int]] = []
        for needs, extra in self.choices[need]:
            partial = [(setting, extra)]
            for knob, values in needs:
                held = self.model.field(setting, knob)
                if held in values:
                    continue
                costs = self.costs[knob] if held else self.first_costs[knob]
                clear = ~self.model.masks[knob]
                offset = self.model.offsets[knob]
                partial = [
                    (after & clear | value << offset, cost + costs[value])
                    for value in self._worthwhile(knob, values, costs, left)
                    for after, cost in partial
                ]
            found += [
                (after, cost, need + 1 if extra and not self.met(after) >> need & 1 else 0)
                for after, cost in partial
                if not extra or not self.met(after) >> need & 1
            ]
        return found

    def _worthwhile(
        self, knob: int, values: tuple[int, ...], costs: Sequence[int], left: int
    ) -> list[int]:
        """The values that no other beats both in cost and in what is left for it to serve."""
        if len(values) == 1:
            return [values[0]]
        kept: list[int] = []
        for value in values:
            for other in values:
                if (
                    other != value
                    and costs[other] <= costs[value]
                    and not self._loses(knob, value, other) & left
                    and (
                        costs[other] < costs[value]
                        or other < value
                        or self._loses(knob, other, value) & left
                    )
                ):
                    break
            else:
                kept.append(value)
        return kept

    def _loses(self, knob: int, value: int, other: int) -> int:
        """The mask of needs with an alternative that accepts `value` and not `other`."""
        key = (knob, value, other)
        found = self.losses.get(key)
        if found is None:
            found = sum(
                1 << number
                for number, choice in enumerate(self.choices)
                if any(
                    one == knob and value in values and other not in values
                    for needs, _ in choice
                    for one, values in needs
                )
            )
            self.losses[key] = found
        return found
