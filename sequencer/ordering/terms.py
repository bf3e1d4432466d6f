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

`Terms` holds the terms over some of the knobs.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from sequencer.ordering.model import USELESS, Choice, Model, Needs, undominated

DONE = 0
BENCH = 0
# Comparing every forerunner with every other is left out above this many.
MANY = 24

# The new setting, its cost, 0 or 1 + the need that it takes a dear alternative of, and the mask of
# needs that are fulfilled one after the other, each by a setting that serves nothing else.
Move = tuple[int, int, int, int]


class Terms:
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
        self.uses: dict[int, list[int]] = {knob: [0] * len(model.costs[knob]) for knob in knobs}
        self.blocks: dict[int, list[int]] = {knob: [0] * len(model.costs[knob]) for knob in knobs}
        self.cheap: list[tuple[Needs, ...]] = [((),)]
        # By knob, where its values begin in a mask of what is accepted; one more says that the
        # knob does not matter.
        self.places: dict[int, int] = {}
        room = 0
        for knob in knobs:
            self.places[knob] = room
            room += len(model.costs[knob]) + 1
        self.anything = (1 << room) - 1
        # By need, a mask for each alternative, and for each cheap one.
        self.every: list[list[int]] = [[self.anything]]
        self.accepts: list[list[int]] = [[self.anything]]
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
        accepted = 0
        for needs, _ in kept:
            accepted |= self._accepts(needs)
        for knob, blocks in self.blocks.items():
            if all(any(other == knob for other, _ in needs) for needs, _ in kept):
                mine = accepted >> self.places[knob]
                for value in range(len(blocks)):
                    if not mine >> value & 1:
                        blocks[value] |= bit
        if dear:
            self.tagged |= bit
        self.accepts.append([self._accepts(needs) for needs in cheap])
        self.every.append([self._accepts(needs) for needs, _ in kept])
        self.implied_by.append(bit)
        self._compare(number, bit, dear)
        return number

    def _compare(self, number: int, bit: int, dear: bool) -> None:
        """Say which of the other needs imply a new one, and which it implies."""
        every, accepts, implied_by = self.every, self.accepts, self.implied_by
        if len(every[number]) > 1 or dear:
            for other in range(1, number):
                if not dear and self._implies(other, number):
                    implied_by[number] |= 1 << other
                if not self.tagged >> other & 1 and self._implies(number, other):
                    implied_by[other] |= bit
            return
        (mine,) = every[number]
        for other in range(1, number):
            if not any(one & ~mine for one in every[other]):
                implied_by[number] |= 1 << other
            if not self.tagged >> other & 1 and not all(mine & ~wide for wide in accepts[other]):
                implied_by[other] |= bit

    def _accepts(self, needs: Needs) -> int:
        """The values that an alternative accepts, as a mask: its part for each knob is as large as
        what meets it, so that one alternative is met wherever another is if the other's mask lies
        within its own."""
        found = self.anything
        for knob, values in needs:
            room = len(self.costs[knob]) + 1
            found &= ~(((1 << room) - 1) << self.places[knob])
            for value in values:
                found |= 1 << self.places[knob] + value
        return found

    def _implies(self, first: int, second: int) -> bool:
        return all(
            any(not one & ~wide for wide in self.accepts[second]) for one in self.every[first]
        )

    def met(self, setting: int) -> int:
        """The mask of needs that a setting meets in an alternative that costs nothing extra."""
        setting &= self.knob_mask
        found = self.satisfied.get(setting)
        if found is None:
            found = 0
            for number, cheap in enumerate(self.cheap):
                if any(
                    all(self.model.field(setting, knob) in values for knob, values in needs)
                    for needs in cheap
                ):
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
                other != one and self.covered(one, other) for other in kept
            ):
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
                and all(
                    any(self.covered(one, other) for other in inner) for one in self.before[first]
                )
            )
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
            left = self._rewrite(
                term, setting, self.met(setting) | batch, self.batches.setdefault(batch, {})
            )
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
                self.all[one] & blocks for one in before
            )
            found = found or any(self._lives(one, knob, value) for one in before)
            self.lives[key] = found
        return found
