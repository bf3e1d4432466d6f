"""The requirements of a plan, worked out again: by trying every error alone, and then all of them
at their worst.

Nothing is taken over from the stage that wrote them. A shop (`shopfloor`) is followed in which one
thing is off by one; what that does to a requirement says which way each error must go to do the
most harm, and with all of them gone that way the worst case is read off. The share at the first try
is held against a plain root-sum-square, within what that leaves open.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from fractions import Fraction
from math import erf, exp, sqrt

from msgspec import Struct

from sequencer.errors import InternalError
from sequencer.facts import Length, Value
from sequencer.facts import tolerances as told
from sequencer.plan import Plan, Requirement
from sequencer.proof.dials import SPACER
from sequencer.proof.held import Asked, Look
from sequencer.proof.held_leaf import asked
from sequencer.proof.referring import Hangs, check_referring
from sequencer.proof.shopfloor import NONE, Error, Ground, Run

ONE = Fraction(1)
REPEAT, CALIPER, RULE, SCALE, MOVE, MILLING, FEEL = range(7)
SPREADS = {
    "in": ("0.0012", "0.0008", "1/128", "0.006", "0.002", "0.0012", "0.002"),
    "mm": ("0.03", "0.02", "0.25", "0.15", "0.05", "0.03", "0.05"),
}
"""The proof's own table: one sigma of a pass; how far a caliper (DIN 862) and a rule (common
practice) are read wrong; one sigma of a first setting, of a move, of milling (ours)."""
SIGMAS = 3
"""As far as what is normal is taken to go; ours."""
NEAR_ENOUGH = 0.04
"""What a root-sum-square may miss a share by."""
RULED = frozenset({
    "length", "shoulders", "to-shoulder", "to-housing", "to-mitre", "panel-width", "slab-width",
    "pane-width", "pane-height", "span", "arch", "edge-height", "panel-arch", "panel-top",
    "opening-width", "opening-height", "each-width", "each-height", "light-width", "light-height",
    "diagonals", "diagonal", "gap", "lap",
})  # fmt: skip
TAKES = {
    "read": "window", "wrong": "reading", "pass": "pass", "thick": "thickness", "set": "setting",
    "kerf": "setting", "aim": "window",
}  # fmt: skip


class Worst(Struct, frozen=True):
    """How something comes out where all is as it is meant to be, at its least and at its most; what
    each error adds when it is off by one; and the checks that have a say in it whose readings add
    nothing."""

    meant: Fraction
    least: Fraction
    most: Fraction
    by: Mapping[Error, Fraction]
    made_good: frozenset[int]


def check_tolerances(plan: Plan) -> None:
    """Raises InternalError, with requirement and pieces, for the first that is missing, or whose
    limits, worst cases or shares are not what is found."""
    _Checking(plan).check()


class _Checking:
    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.ground = Ground(plan)
        self.spreads = [Fraction(each) for each in SPREADS[plan.unit]]
        self.milled = {
            mark: number
            for number, check in enumerate(plan.checkpoints)
            if check.measure.what.value == "stock"
            for mark in check.marks
        }
        self.tried = {self.ground.strip.get(c.scrap or "", c.scrap) for c in plan.checkpoints}
        self.known: dict[object, Worst] = {}
        self.fits: list[Hangs] = []
        self.once: dict[int, float] = {}
        self.likelihoods: dict[int, float] = {}

    def check(self) -> None:
        left, alike = list(self.plan.requirements), list(self.alike())
        check_referring(self.plan, self.fits)
        for found in alike:
            requirement = self.told(found, left)
            left.remove(requirement)
            self.compare(requirement, found)
        for requirement in left:
            raise InternalError(told.NOTHING_ASKED(**_names(requirement)))

    def alike(self) -> Iterable[list[tuple[Asked, Worst]]]:
        """All that is asked, by what it is and by how much of it there is to be."""
        found: dict[object, list[tuple[Asked, Worst]]] = {}
        for each in asked(self.plan, self.ground, self.narrowest):
            worst = self.worst_of(each)
            if worst is not None:
                key = (each.what, worst.meant, each.least, each.most)
                found.setdefault(key, []).append((each, worst))
                if each.fit:
                    on = [error[2] for error in worst.by if error[0] == "read"]
                    self.fits.append(Hangs(on, worst.made_good))
        return found.values()

    def told(
        self, found: Sequence[tuple[Asked, Worst]], left: Sequence[Requirement]
    ) -> Requirement:
        """The requirement that tells of these: of the same pieces, and if it can be with the same
        worst cases."""
        what, marks = found[0][0].what, {mark for each, _ in found for mark in each.of}
        there = [each for each in left if each.what == what and set(each.of) == marks]
        if not there:
            pieces = tuple(dict.fromkeys(mark for each, _ in found for mark in each.of))
            raise InternalError(told.MISSING(what=f"required.{what}", pieces=pieces))
        ends = _ends(found)
        same = (each for each in there if (each.worst_least, each.worst_most) == ends)
        return next(same, there[0])

    def compare(self, requirement: Requirement, found: Sequence[tuple[Asked, Worst]]) -> None:
        names = _names(requirement, *self.leaves(requirement))
        for each, _ in found:
            kind = "fit" if each.fit else "must"
            limits = (requirement.least, requirement.most, requirement.kind)
            if (each.least, each.most, kind) != limits:
                raise InternalError(told.OTHER_LIMITS(**names))
        if requirement.count != len(found):
            raise InternalError(told.OTHER_COUNT(**names, found=len(found), told=requirement.count))
        least, most = _ends(found)
        if (least, most) != (requirement.worst_least, requirement.worst_most):
            lengths = {
                "least": least,
                "most": most,
                "told_least": requirement.worst_least,
                "told_most": requirement.worst_most,
            }
            shown = {name: Length(value, self.plan.unit) for name, value in lengths.items()}
            raise InternalError(told.OTHER_WORST(**names, **shown))
        shares = {(s.takes, s.checkpoint): s.amount for s in requirement.share}
        widest = [w for _, w in found if w.most - w.least == max(_range(w) for _, w in found)]
        if not any(shares == self.shares(worst) for worst in widest):
            raise InternalError(told.OTHER_SHARE(**names))
        self.first_try(requirement, found, names)

    def leaves(self, requirement: Requirement) -> list[str]:
        """The leaves that its pieces are of."""
        there = set(requirement.of)
        return [
            door.mark
            for door in self.plan.doors
            if there & {p.mark for p in door.places} or there & {p.mark for p in door.panes}
        ]

    def first_try(
        self,
        requirement: Requirement,
        found: Sequence[tuple[Asked, Worst]],
        names: dict[str, Value],
    ) -> None:
        if (requirement.first_try is None) != (requirement.kind == "must"):
            raise InternalError(told.OTHER_SHARE(**names))
        if requirement.first_try is None:
            return
        shares = [self.likely(each, worst) for each, worst in found]
        share = sum(shares) / len(shares)
        if abs(share - float(requirement.first_try)) > NEAR_ENOUGH:
            rounded = Fraction(round(share * 1000), 1000)
            wrong = told.OTHER_FIRST_TRY(**names, found=rounded, told=requirement.first_try)
            raise InternalError(wrong)

    # The worst of all ways in which it may come out.

    def worst_of(self, each: Asked) -> Worst | None:
        """By the way that finds the most of it at the least."""
        looked = (self.worst(look, f"{each.what} {n}") for n, look in enumerate(each.ways))
        ways = [worst for worst in looked if worst is not None]
        return max(ways, key=lambda worst: worst.least, default=None)

    def narrowest(self, looks: Sequence[Look]) -> Look | None:
        ways = [(worst, look) for look in looks for worst in (self.worst(look, "light"),) if worst]
        return min(ways, key=lambda way: _range(way[0]))[1] if ways else None

    def worst(self, look: Look, name: str) -> Worst | None:
        """Of a look; what is called alike and hangs on the same errors is found once."""
        base = Run(self.ground, {})
        meant = look(base)
        if meant is None:
            return None
        key = (name, meant, *self._like(base.asked))
        if key not in self.known:
            self.known[key] = self._worst(look, meant, base.asked)
        return self.known[key]

    def _like(self, errors: Iterable[Error]) -> tuple[object, ...]:
        """What errors have in common with those of a piece that is made alike."""
        return tuple(
            (kind, of, self.ground.numbered[number].kind)
            if kind == "pass"
            else (kind, self.milled.get(of), of if of in self.tried else "")
            if kind == "thick"
            else (kind, of, number)
            for kind, of, number in errors
        )

    def _worst(self, look: Look, meant: Fraction, errors: Iterable[Error]) -> Worst:
        effects: dict[Error, Fraction] = {}
        none: set[int] = set()
        for error in errors:
            off = look(Run(self.ground, {error: ONE}))
            if off is not None and off != meant:
                effects[error] = off - meant
            elif error[0] == "read":
                none.add(error[2])
            elif error[0] == "thick" and error[1] in self.milled:
                none.add(self.milled[error[1]])
        ends = []
        for harm in (-1, 1):
            corner = {
                error: self.bound(error)[effect * harm > 0] for error, effect in effects.items()
            }
            end = look(Run(self.ground, corner))
            assert end is not None
            ends.append(end)
        return Worst(meant, ends[0], ends[1], effects, frozenset(none))

    def bound(self, error: Error) -> tuple[Fraction, Fraction]:
        """As far as an error goes, down and up."""
        kind, of, number = error
        most = NONE
        if kind == "read":
            check = self.plan.checkpoints[number]
            return check.low - check.exact, check.high - check.exact
        if kind == "aim":
            check = self.plan.checkpoints[number]
            return check.exact - check.target, check.exact - check.target
        if kind == "wrong":
            most = self.reading(number)
        elif kind == "pass":
            most = SIGMAS * self.spreads[REPEAT]
        elif kind == "kerf":
            most = self.spreads[CALIPER]
        elif kind == "set" and of == SPACER:
            most = self.spreads[CALIPER]  # a block is as thick as it was measured
        elif kind == "set":
            most = SIGMAS * self.spreads[SCALE]
        elif kind == "thick":
            stock = self.milled.get(of)
            if stock is not None:
                low, high = self.bound(("read", "", stock))
                return low - self.reading(stock), high + self.reading(stock)
            most = SIGMAS * self.spreads[MILLING]
        return -most, most

    def reading(self, number: int) -> Fraction:
        check = self.plan.checkpoints[number]
        step = check.resolution or NONE
        if check.tool in ("rule", "tape"):
            return step / 2
        if check.tool == "fit":
            return self.spreads[FEEL]
        ruled = check.tool is None and check.measure.what.value in RULED
        return self.spreads[RULE] if ruled else max(self.spreads[CALIPER], step / 2)

    def shares(self, worst: Worst) -> dict[tuple[str, int | None], Fraction]:
        found: dict[tuple[str, int | None], Fraction] = {}
        for error, effect in worst.by.items():
            low, high = self.bound(error)
            if low == high:
                continue
            number = error[2] if error[0] in ("read", "wrong") else None
            key = (TAKES[error[0]], number)
            found[key] = found.get(key, NONE) + abs(effect) * (high - low)
        return found

    # The share at the first try, by root-sum-square.

    def likely(self, each: Asked, worst: Worst) -> float:
        if id(worst) not in self.likelihoods:
            self.likelihoods[id(worst)] = self._likely(each, worst)
        return self.likelihoods[id(worst)]

    def _likely(self, each: Asked, worst: Worst) -> float:
        variance, meant = 0.0, worst.meant
        read = {error[2] for error in worst.by if error[0] == "read"}
        for error, effect in worst.by.items():
            variance += float(effect) ** 2 * self.variance(error, read)
            meant += effect * self.aimed(error)
        sigma, middle = sqrt(variance), float(meant)
        low = -1e9 if each.least is None else float(each.least)
        high = 1e9 if each.most is None else float(each.most)
        return _under(high - middle, sigma) - _under(low - middle, sigma)

    def aimed(self, error: Error) -> Fraction:
        """By how much an error is off when nothing goes wrong: a reading lies at what is aimed
        at."""
        if error[0] not in ("read", "aim"):
            return NONE
        check = self.plan.checkpoints[error[2]]
        return (check.target - check.exact) * (1 if error[0] == "read" else -1)

    def variance(self, error: Error, read: set[int]) -> float:
        kind, of, number = error
        if kind == "aim":
            return 0.0
        repeat = float(self.spreads[REPEAT])
        if kind == "read":
            return self.accepted(number)
        if kind == "wrong":  # where its check is read, it is in what was accepted
            return 0.0 if number in read else float(self.reading(number)) ** 2 / 3
        if kind == "pass":
            made = self.ground.numbered[number]
            fresh = any(
                self.plan.checkpoints[n].at_step == made.step.number
                and (self.plan.checkpoints[n].knob == "height") == (of == "height")
                for n in read
            )
            return 0.0 if fresh else repeat**2
        low, high = (float(end) for end in self.bound(error))
        if kind == "thick":
            return self.milled_to(of, low, high)
        if kind == "set" and of != SPACER:
            return float(self.spreads[SCALE]) ** 2
        return (high - low) ** 2 / 12

    def milled_to(self, strip: str, low: float, high: float) -> float:
        """Of thickness that was read inside its window; near the window's ends not every reading
        lets it pass."""
        sigma, stock = float(self.spreads[MILLING]), self.milled.get(strip)
        wrong = 0.0 if stock is None else float(self.reading(stock))

        def passed(at: float) -> float:
            inside = min(high - wrong, at + wrong) - max(low + wrong, at - wrong)
            return exp(-((at / sigma) ** 2) / 2) * (max(0.0, inside) if wrong else 1.0)

        return _variance(passed, low, high)

    def accepted(self, number: int) -> float:
        """Of what a check leaves once its reading is good: set by the scale, or corrected."""
        if number in self.once:
            return self.once[number]
        check = self.plan.checkpoints[number]
        low, high = float(check.low - check.target), float(check.high - check.target)
        passes = 2 if abs(check.per_unit or 1) == 2 else 1
        repeat, move = float(self.spreads[REPEAT]), float(self.spreads[MOVE])
        wrong = float(self.reading(number))
        noise = sqrt(passes * repeat**2 + wrong**2 / 3)
        per = abs(float(check.per_unit or 1))
        # A block goes by a jig that was tried, a printed distance from there.
        firsts = per * (move if check.knob == SPACER else float(self.spreads[SCALE]))
        later = sqrt(noise**2 + (per * move) ** 2)
        first = (_under(high, sqrt(firsts**2 + noise**2))
                 - _under(low, sqrt(firsts**2 + noise**2)))  # fmt: skip
        reach = 4 * noise

        def left(wide: float) -> float:
            return _variance(
                lambda at: (
                    exp(-((at / wide) ** 2) / 2)
                    * (_under(high - at, noise) - _under(low - at, noise))
                ),
                low - reach,
                high + reach,
            )

        self.once[number] = first * left(firsts) + (1 - first) * left(later)
        return self.once[number]


def _names(requirement: Requirement, *leaves: str) -> dict[str, Value]:
    pieces = tuple(dict.fromkeys((*requirement.of, *leaves)))
    return {"what": f"required.{requirement.what}", "pieces": pieces}


def _ends(found: Sequence[tuple[Asked, Worst]]) -> tuple[Fraction, Fraction]:
    return min(worst.least for _, worst in found), max(worst.most for _, worst in found)


def _range(worst: Worst) -> Fraction:
    return worst.most - worst.least


def _under(x: float, sigma: float) -> float:
    return 0.5 * (1 + erf(x / (sigma * sqrt(2))))


def _variance(weight: Callable[[float], float], low: float, high: float) -> float:
    """Of what lies between two ends with a weight, about 0."""
    places = [low + (high - low) * n / 60 for n in range(61)]
    weights = [weight(at) for at in places]
    return sum(w * at * at for at, w in zip(places, weights, strict=True)) / sum(weights)
