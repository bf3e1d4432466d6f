"""The plan whole."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from msgspec import Struct, field

from sequencer.facts import Fact
from sequencer.lengths import Unit
from sequencer.plan.aids import Aid
from sequencer.plan.order import Chosen, Method, Ordering
from sequencer.plan.pieces import Door, Part, Stick
from sequencer.plan.requirements import Requirement
from sequencer.plan.season import Season
from sequencer.plan.stock import Blank, Board, Order, RoughLine, ShopFacts
from sequencer.plan.work import Caution, Checkpoint, Scrap, Setup, Step
from sequencer.scales import Scale
from sequencer.shelf import Saved
from sequencer.trade.aids import AIDS


class ToTick(Struct, frozen=True):
    """A warning: what the person confirms before the `setups` it concerns, and why."""

    tick: Fact
    setups: tuple[int, ...]
    caution: Caution


class Plan(Struct, frozen=True):
    """`standing` cautions hold for every plan and stand on the first page; `before_power` and
    `before_leaving` are the checks at the two pause points; `warnings` are to be ticked."""

    unit: Unit
    jobs: tuple[str, ...]
    shop: ShopFacts
    doors: tuple[Door, ...]
    parts: tuple[Part, ...]
    sticks: tuple[Stick, ...]
    setups: tuple[Setup, ...]
    steps: tuple[Step, ...]
    checkpoints: tuple[Checkpoint, ...]
    scrap: tuple[Scrap, ...]
    ordering: Ordering
    methods: tuple[Method, ...]
    assumptions: tuple[Fact, ...]
    notes: tuple[Fact, ...]
    standing: tuple[Caution, ...] = ()
    warnings: tuple[ToTick, ...] = ()
    before_power: tuple[Fact, ...] = ()
    before_leaving: tuple[Fact, ...] = ()
    free: tuple[Chosen, ...] = ()
    again: tuple[str, ...] = ()
    """Marks of pieces that are made again by themselves: their doors are not in this plan."""
    reused: tuple[Saved, ...] = ()
    """Saved settings that do for this plan, as they were when it was made."""
    scales: tuple[Scale, ...] = ()
    """What was known of the saw's scales then."""
    proven: tuple[Fact, ...] = ()
    """What the proof showed; empty before it has."""
    boards: tuple[Board, ...] = ()
    """The boards that the user has, in the order they were given."""
    rough: tuple[RoughLine, ...] = ()
    missing: tuple[Blank, ...] = ()
    """What no board is left for; empty where no boards were given."""
    layout: tuple[Fact, ...] = ()
    """What is to be said of the boards: how good the layout is, what was given up for it."""
    orders: tuple[Order, ...] = ()
    spares: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    """Further test pieces and sticks that stand for the one with the mark."""
    seasons: tuple[Season, ...] = ()
    """Each leaf's movement over the year, in the order of the doors, where the job tells of it."""

    thickness: Mapping[str, Fraction] = field(default_factory=dict)
    """How thick the boards were measured, by the thickness that the jobs state."""

    requirements: tuple[Requirement, ...] = ()
    """What the leaves are held to, and what is left of it with every reading inside its window."""

    aids: tuple[Aid, ...] = ()
    """What the setups need beside saw and carrier."""

    def before_fence(self, setup: int) -> str:
        """The aid that a setup's pieces run along in place of the rip fence, by name; empty where
        none is."""
        names = (aid.name for aid in self.aids if setup in aid.setups)
        return next((name for name in names if AIDS[name].before_fence), "")

    @property
    def aid_minutes(self) -> Fraction:
        """For making aids and fitting them; no part of the order's minutes."""
        return sum((aid.minutes for aid in self.aids), Fraction(0))

    @property
    def taking(self) -> Mapping[int, Fraction]:
        """The minutes that each setup takes: setting up, and the passes that nibble waste away. Of
        all setups together these are the order's minutes."""
        taking = {setup.number: setup.minutes for setup in self.setups}
        ways = {operation.id: operation.alternatives for operation in self.ordering.operations}
        chosen = {placed.operation: placed.alternative for placed in self.ordering.order}
        for step in self.steps:
            for operation in step.operations:
                if step.setup is not None:
                    taking[step.setup] += ways[operation][chosen[operation]].minutes
        return taking

    @property
    def answers(self) -> Mapping[str, str]:
        """What its methods answered to the questions that were open."""
        return next((method.choices for method in self.methods if method.chosen), {})
