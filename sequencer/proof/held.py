"""What the leaves of a plan are to be held to, read from places and features alone, each with how
it is found on wood that came out one way or another."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction

from msgspec import Struct

from sequencer.plan import Door, Feature, Part, Plan, Season
from sequencer.proof.shopfloor import Done, Ground, Run
from sequencer.proof.standing import Piece, Standing

Look = Callable[[Run], Fraction | None]
Narrow = Callable[[Sequence[Look]], Look | None]
"""Which of several ways of telling a length tells it closest."""

AIR, SLIDES, FLUSH, PLANED, SQUARE, PARED = range(6)
LIMITS = {
    "in": ("0.010", "0.020", "0.006", "1/32", "1/16", "3/32"),
    "mm": ("0.25", "0.5", "0.15", "0.8", "1.6", "2.4"),
}
"""The proof's own table of what is good: air in a joint (second-hand, from a university's tests),
room for a panel's edge, faces that need no plane, what a plane takes (common practice), how
diagonals agree (trade answers), and what is pared off a stub tenon's end (ours)."""
DOWN = {"A": "end-A", "B": "end-B"}


class Asked(Struct, frozen=True):
    """One thing asked of the pieces or leaves `of`. Where there are several `ways` to find it, that
    counts by which the least is most."""

    what: str
    of: tuple[str, ...]
    least: Fraction | None
    most: Fraction | None
    ways: tuple[Look, ...]
    fit: bool = False


def span_of(feature: Feature) -> tuple[Fraction, Fraction]:
    return feature.box[2]


def less(one: Look, *others: Look, half: bool = False) -> Look:
    def found(run: Run) -> Fraction | None:
        value, rest = one(run), [other(run) for other in others]
        for each in rest:
            if value is None or each is None:
                return None
            value -= each
        return value / 2 if half and value is not None else value

    return found


def added(*looks: Look) -> Look:
    def found(run: Run) -> Fraction | None:
        first, *rest = [look(run) for look in looks]
        for each in rest:
            if first is None or each is None:
                return None
            first += each
        return first

    return found


def fixed(value: Fraction) -> Look:
    return lambda _: value


def times(look: Look, by: Fraction) -> Look:
    def found(run: Run) -> Fraction | None:
        value = look(run)
        return None if value is None else value * by

    return found


class Leaf:
    """A leaf as it stands, and how each of its lengths is found."""

    def __init__(
        self, plan: Plan, ground: Ground, leaf: Standing, season: Season | None, narrow: Narrow
    ) -> None:
        self.plan, self.ground, self.leaf, self.season = plan, ground, leaf, season
        self.narrow = narrow
        self.limits = [Fraction(each) for each in LIMITS[plan.unit]]

    @property
    def door(self) -> Door:
        return self.leaf.door

    def limit(self, which: int) -> tuple[Fraction, Fraction]:
        return (-self.limits[which], self.limits[which])

    def frame(self, *roles: str) -> list[Piece]:
        return self.leaf.role(*(roles or ("stile", "rail", "mid rail", "mullion")))

    def walls(
        self, part: Part, span: tuple[Fraction, Fraction], *ats: str, trench: bool = False
    ) -> tuple[Look, Look]:
        def at(z: Fraction) -> Look:
            return lambda run: run.wall(part.mark, z, ats, trench=trench)

        return at(span[0]), at(span[1])

    def thick(self, mark: str) -> Look:
        return lambda run: run.thick(mark)

    def ripped(self, mark: str) -> Look:
        return lambda run: run.width(mark)

    def shouldered(self, mark: str, end: str, long: Fraction) -> Look:
        return lambda run: run.shoulder(mark, end, long)

    def pass_of(self, made: Done, *, deep: bool = False) -> Look:
        return lambda run: run.deep(made) if deep else run.near(made)

    def bottom(self, mark: str, at: str, deep: Fraction) -> Look:
        return lambda run: run.bottom(mark, at, deep)

    def check(self, name: str, *marks: str) -> int | None:
        for number, check in enumerate(self.plan.checkpoints):
            if check.measure.what.value == name and set(marks) & set(check.marks):
                return number
        return None

    def reads(self, number: int) -> Look:
        """What is there when a check at the bench is read."""
        target = self.plan.checkpoints[number].exact
        return lambda run: target + run.off("read", "", number) - run.off("wrong", "", number)
