"""What is left to do, as terms: a need, and the terms that must be fulfilled before it.

A term stands for "there is a moment at which the need is met, after such moments for every term in
it". Only the moments count, not which operation has them, so equal terms are one term, however many
operations are behind it, and everything below is an equality of moments:

* a term whose need is met wherever its last forerunner's is, is that forerunner;
* a forerunner whose need is met wherever the term's is, gives way to its own forerunners;
* two forerunners with equal needs are one that has the forerunners of both, for the later of the
  two moments serves both;
* a forerunner that another implies is left out;
* a term with no need is its forerunners.

Operations whose alternatives cost unlike minutes keep an identity: which alternative is taken
matters each time, so they are never equal to one another, and none of this merges them.

A `Space` holds the terms over some of the knobs. The space of all knobs is the problem itself; a
space of few knobs is a relaxation, in which the other knobs cost nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from sequencer.errors import InternalError
from sequencer.ordering.model import USELESS, Choice, Model, Needs, bits, undominated, weaker

DONE = 0
BENCH = 0
# Comparing every forerunner with every other is left out above this many.
MANY = 24

# The new setting, its cost, 0 or 1 + the need that it takes a dear alternative of, and the mask of
# needs that are fulfilled one after the other, each by a setting that serves nothing else.
Move = tuple[int, int, int, int]


@dataclass(frozen=True, slots=True)
class _Plan:
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


class Space:
    """Terms over the knobs in `knobs`, and how settings fulfil them.

    `keep_dear` keeps the own minutes of alternatives in this space; without it they cost nothing
    here. Terms and needs are small ints; masks of needs are ints with a bit for each need.
    """

    def __init__(self, model: Model, knobs: Sequence[int], *, keep_dear: bool) -> None:
        self.model = model
        self.knobs = tuple(knobs)
        self.keep_dear = keep_dear
        self.knob_mask = sum(model.masks[knob] for knob in knobs)
        self.costs = {knob: model.costs[knob] for knob in knobs}
        self.first_costs = {knob: model.first_costs[knob] for knob in knobs}
        # Needs.
        self.choices: list[Choice] = [(((), 0),)]
        self.need_ids: dict[object, int] = {((),): BENCH}
        self.tagged = 0
        self.use = [0]  # fields that a need looks at
        self.implied_by = [0]  # needs that, met, meet this one
        self.uses: dict[int, list[int]] = {
            knob: [0] * len(model.costs[knob]) for knob in knobs}
        self.blocks: dict[int, list[int]] = {
            knob: [0] * len(model.costs[knob]) for knob in knobs}
        self.cheap: list[tuple[Needs, ...]] = [((),)]
        # Terms.
        self.need = [BENCH]
        self.before: list[tuple[int, ...]] = [()]
        self.leaf = [0]
        self.inner = [0]  # needs that have something before them
        self.all = [0]
        self.fields = [0]
        self.ids: dict[tuple[int, tuple[int, ...]], int] = {(BENCH, ()): DONE}
        # Memories of pure functions.
        self.covers: dict[int, bool] = {}
        self.rewrites: dict[int, int] = {}
        self.batches: dict[int, dict[int, int]] = {}
        self.lives: dict[int, bool] = {}
        self.satisfied: dict[int, int] = {}
        self.plans: dict[int, _Plan] = {}
        self.losses: dict[tuple[int, int, int], int] = {}
        self.operation_needs: dict[int, int] = {}
        known: dict[Choice, int] = {}
        for index, choice in model.choices.items():
            if choice not in known:
                need = self._need_of(choice, index)
                if self.tagged >> need & 1:
                    self.operation_needs[index] = need
                    continue
                known[choice] = need
            self.operation_needs[index] = known[choice]

    # Needs

    def _need_of(self, choice: Choice, identity: int) -> int:
        mine: list[tuple[Needs, int]] = []
        for needs, extra in choice:
            here = tuple(pair for pair in needs if pair[0] in self.costs)
            mine.append((here, extra if self.keep_dear else 0))
        kept = undominated(mine)
        dear = any(extra for _, extra in kept)
        cheap = tuple(sorted(needs for needs, extra in kept if not extra))
        key: object = (identity, kept) if dear else cheap
        known = self.need_ids.get(key)
        return self._new_need(key, kept, cheap, dear) if known is None else known

    def _new_need(self, key: object, kept: Choice, cheap: tuple[Needs, ...], dear: bool) -> int:
        number = self.need_ids[key] = len(self.choices)
        bit = 1 << number
        self.choices.append(kept)
        self.cheap.append(cheap)
        use = 0
        for needs, _ in kept:
            for knob, values in needs:
                use |= self.model.masks[knob]
                for value in values:
                    self.uses[knob][value] |= bit
        self.use.append(use)
        for knob in self.costs:
            for value in range(len(self.uses[knob])):
                if all(any(other == knob and value not in values for other, values in needs)
                       for needs, _ in kept):
                    self.blocks[knob][value] |= bit
        if dear:
            self.tagged |= bit
        self.implied_by.append(bit)
        for other in range(1, number):
            if not dear and self._implies(other, number):
                self.implied_by[number] |= 1 << other
            if not self.tagged >> other & 1 and self._implies(number, other):
                self.implied_by[other] |= bit
        return number

    def _implies(self, first: int, second: int) -> bool:
        return all(any(weaker(wide, needs) for wide in self.cheap[second])
                   for needs, _ in self.choices[first])

    def met(self, setting: int) -> int:
        """The mask of needs that a setting meets in an alternative that costs nothing extra."""
        setting &= self.knob_mask
        found = self.satisfied.get(setting)
        if found is None:
            found = 0
            for number, cheap in enumerate(self.cheap):
                if any(all(self.model.field(setting, knob) in values for knob, values in needs)
                       for needs in cheap):
                    found |= 1 << number
            self.satisfied[setting] = found
        return found

    # Terms

    def goal(self, terms: Iterable[int]) -> int:
        """The term that is fulfilled when all of `terms` are."""
        return self.term(BENCH, list(terms))

    def term(self, need: int, before: list[int]) -> int:
        """The term of a need after other terms, in its simplest form."""
        if not before:
            return self._intern(need, ()) if need else DONE
        mine = self._simplify(need, before)
        if len(mine) == 1 and not self.tagged >> need & 1:
            only = mine[0]
            if not need or self.implied_by[need] >> self.need[only] & 1:
                return only
        return self._intern(need, tuple(mine))

    def _simplify(self, need: int, before: list[int]) -> list[int]:
        needs, tagged, implied_by = self.need, self.tagged, self.implied_by
        by_need: dict[int, int] = {needs[one]: one for one in before}
        if not need and len(by_need) == len(before) and BENCH not in by_need:
            found = sorted(before)
            return self._uncovered(found) if len(found) <= MANY else found
        work = list(before)
        by_need = {}
        while work:
            one = work.pop()
            kind = needs[one]
            if not kind or (implied_by[kind] >> need & 1 and not tagged >> kind & 1):
                work.extend(self.before[one])
                continue
            other = by_need.get(kind)
            if other is None or other == one:
                by_need[kind] = one
            else:  # never for tagged needs: those have one term at a time
                del by_need[kind]
                work.append(self.term(kind, [*self.before[one], *self.before[other]]))
        found = sorted(by_need.values())
        if 1 < len(found) <= MANY:
            found = self._uncovered(found)
        return found

    def _uncovered(self, terms: list[int]) -> list[int]:
        seen = twice = 0
        for one in terms:
            twice |= seen & self.all[one]
            seen |= self.all[one]
        kept = list(terms)
        for one in terms:
            others = (seen & ~self.all[one]) | twice
            if self.implied_by[self.need[one]] & others and any(
                    other != one and self.covered(one, other) for other in kept):
                kept.remove(one)
        return kept

    def covered(self, first: int, second: int) -> bool:
        """Whether `first` is fulfilled whenever `second` is."""
        if first == second:
            return True
        if not self.implied_by[self.need[first]] & self.all[second]:
            return False
        key = first << 32 | second
        known = self.covers.get(key)
        if known is None:
            inner = self.before[second]
            known = any(self.covered(first, one) for one in inner) or (
                bool(self.implied_by[self.need[first]] >> self.need[second] & 1)
                and not self.tagged >> self.need[first] & 1
                and all(any(self.covered(one, other) for other in inner)
                        for one in self.before[first]))
            self.covers[key] = known
        return known

    def _intern(self, need: int, before: tuple[int, ...]) -> int:
        key = (need, before)
        found = self.ids.get(key)
        if found is None:
            found = self.ids[key] = len(self.need)
            bit = 1 << need if need else 0
            every, fields = bit, self.use[need]
            leaf, inner = (0, bit) if before else (bit, 0)
            for one in before:
                every |= self.all[one]
                inner |= self.inner[one]
                leaf |= self.leaf[one]
                fields |= self.fields[one]
            self.need.append(need)
            self.before.append(before)
            self.all.append(every)
            self.leaf.append(leaf)
            self.inner.append(inner)
            self.fields.append(fields)
        return found

    def rewrite(self, term: int, setting: int) -> int:
        """What is left of a term once everything that the setting allows is done."""
        return self._rewrite(term, setting, self.met(setting), self.rewrites)

    def follow(self, term: int, move: Move) -> tuple[int, int]:
        """What is left after a move, and the setting in its canonical form."""
        setting, _, dear, batch = move
        if dear:  # the one available operation with that need is done as well
            batch = 1 << dear - 1
        if batch:
            left = self._rewrite(term, setting, self.met(setting) | batch,
                                 self.batches.setdefault(batch, {}))
        else:
            left = self.rewrite(term, setting)
        return left, self.canonical(left, setting) if left else 0

    def _rewrite(self, term: int, setting: int, met: int, memory: dict[int, int]) -> int:
        if not self.leaf[term] & met:
            return term
        key = term << self.model.width | (setting & self.fields[term])
        found = memory.get(key)
        if found is None:
            left = []
            leaf, need, fresh = self.leaf, self.need[term], False
            for one in self.before[term]:
                if leaf[one] & met:
                    rest = self._rewrite(one, setting, met, memory)
                    if rest:
                        left.append(rest)
                        fresh = fresh or rest != one
                else:
                    left.append(one)
            if not left and (not need or met >> need & 1):
                found = DONE
            elif fresh or len(left) <= 1:
                found = self.term(need, left)
            else:  # fewer of the same: nothing to simplify
                found = self._intern(need, tuple(left))
            memory[key] = found
        return found

    # Settings

    def canonical(self, term: int, setting: int) -> int:
        """The setting with every value that can serve nothing any more marked as useless."""
        useless = USELESS if self.model.free_first else 0
        for knob in self.knobs:
            value = self.model.field(setting, knob)
            if value == USELESS or (value and not self._lives(term, knob, value)):
                setting = setting & ~self.model.masks[knob] | useless << self.model.offsets[knob]
        return setting

    def _lives(self, term: int, knob: int, value: int) -> bool:
        """Whether something in the term can be done before the knob must leave the value."""
        uses = self.uses[knob][value]
        if not self.all[term] & uses:
            return False
        if self.leaf[term] & uses:
            return True
        key = (term << 8 | knob) << 24 | value
        found = self.lives.get(key)
        if found is None:
            before = self.before[term]
            blocks = self.blocks[knob][value]
            found = bool(uses >> self.need[term] & 1) and not any(
                self.all[one] & blocks for one in before)
            found = found or any(self._lives(one, knob, value) for one in before)
            self.lives[key] = found
        return found

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
                if not wanted & ~self.met(after) and not self.all[
                        self.rewrite(term, after)] & wanted:
                    return [(after, plan.cost, 0, 0)]
            options = [(after, plan.cost, 0)] if plan.only else self._options(need, setting, left)
            for then, cost, dear in options:
                mine = (then, dear)
                if mine not in found or cost < found[mine]:
                    found[mine] = cost
        if not found:  # never: something that waits for nothing is always left
            raise InternalError("the search knows of no next setting, though work is left")
        return sorted(((after, cost, dear, 0) for (after, dear), cost in found.items()),
                      key=lambda move: move[1])

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
                partial = [(after & clear | value << offset, cost + costs[value])
                           for value in self._worthwhile(knob, values, costs, left)
                           for after, cost in partial]
            found += [(after, cost, need + 1 if extra and not self.met(after) >> need & 1 else 0)
                      for after, cost in partial
                      if not extra or not self.met(after) >> need & 1]
        return found

    def _worthwhile(self, knob: int, values: tuple[int, ...], costs: Sequence[int],
                    left: int) -> list[int]:
        """The values that no other beats both in cost and in what is left for it to serve."""
        if len(values) == 1:
            return [values[0]]
        kept: list[int] = []
        for value in values:
            for other in values:
                if (other != value and costs[other] <= costs[value]
                        and not self._loses(knob, value, other) & left
                        and (costs[other] < costs[value] or other < value
                             or self._loses(knob, other, value) & left)):
                    break
            else:
                kept.append(value)
        return kept

    def _loses(self, knob: int, value: int, other: int) -> int:
        """The mask of needs with an alternative that accepts `value` and not `other`."""
        key = (knob, value, other)
        found = self.losses.get(key)
        if found is None:
            found = sum(1 << number for number, choice in enumerate(self.choices)
                        if any(one == knob and value in values and other not in values
                               for needs, _ in choice for one, values in needs))
            self.losses[key] = found
        return found
