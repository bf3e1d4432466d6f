"""What the user wrote, checked and exact: jobs of doors, and the shop that will cut them.

All lengths are `Fraction`s in the plan's unit (`Job.unit`); minutes are `Fraction`s too.
A `Job` never meets the search: it becomes parts, parts become operations, operations a problem.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from fractions import Fraction
from typing import Literal

from msgspec import Struct, field

from sequencer.facts import Dialect, Fact
from sequencer.job.kinds import Bar, Fill, Glazed, Hardware, Raised, Shape, Slab
from sequencer.job.piece import Piece
from sequencer.job.rack import Rack
from sequencer.lengths import Unit
from sequencer.movement import Year
from sequencer.saw.fittings import CARRIERS, timed_as
from sequencer.trade.species import Sawn

Side = Literal["left", "right"]
FaceSide = Literal["out", "in"]
"""Where the face side, the marked face that rides jig and fence, looks: into the room or inside."""

Tenons = Literal["one length", "each stile"]


class Opening(Struct, frozen=True):
    """The cabinet's opening as measured: its least width and height."""

    width: Fraction
    height: Fraction


class Gaps(Struct, frozen=True):
    """Air round a leaf, below 0 where it laps over its case. `meeting` is the one gap between the
    leaves of a pair, else `None`; `lock` is the gap on a single leaf's free side."""

    top: Fraction
    bottom: Fraction
    hinge: Fraction
    lock: Fraction
    meeting: Fraction | None = None

    @property
    def free(self) -> Fraction:
        """On the side away from the hinges."""
        return self.lock if self.meeting is None else self.meeting


class Joint(Struct, frozen=True):
    """The corner joint. `kind` is its name, `bars` that of the joint that mid rails and mullions
    are let in with.

    `slot` is the slot's width (`None`: about a third of the thickness, in the fewest passes);
    `offset` its distance from the face side (`None`: centred); `clearance` what the tenon is
    thinner than the slot; `proud` what ends stand past the door before trimming.
    """

    slot: Fraction | None
    offset: Fraction | None
    clearance: Fraction
    proud: Fraction
    tenons: Tenons
    kind: str = "bridle"
    bars: str = "stub tenon"


class Groove(Struct, frozen=True):
    """The panel's groove. `width` `None`: from the panel, or as wide as the slot; `offset` from
    the face side, `None`: centred."""

    depth: Fraction
    width: Fraction | None
    offset: Fraction | None


class Panel(Struct, frozen=True):
    """A flat floating panel. `thickness` `None`: planed to suit the groove. Play today is that of
    each side across the grain (`play_side`: stated, or computed where the door's year is known)
    and each end along it (`play_end`). `engagement` is what stays in each side's groove in the
    driest season. `match`: a pair's panels are resawn from one piece."""

    thickness: Fraction | None
    play_side: Fraction
    play_end: Fraction
    species: str
    engagement: Fraction = Fraction(0)
    match: bool = False


class Place(Struct, frozen=True):
    """Where a value stands in its file: line and column from 1, and the line as written."""

    file: str
    line: int
    column: int
    text: str = ""


SEPARATOR = " to "
"""Between the ends of a range in a job file."""


class Free(Struct, frozen=True):
    """A dimension that the job leaves free within a range, by its dotted key."""

    key: str
    low: Fraction
    high: Fraction


@dataclasses.dataclass(frozen=True, slots=True)
class Door:
    """One opening's doors: a single leaf, or a pair when `leaves` is 2.

    `marks` names each leaf from left to right; `hinge` is a single leaf's hinge side (of a pair
    the left leaf hangs left, the right one right). `free_stile` is the lock stile of a single,
    the meeting stile of a pair. `where` is `file:line` of the door, for messages; `places` say
    where each value was written, by its key (`rails.top`; `door` is the door's own header). What
    is `free` stands at the lower end of its range until a value is chosen. `year` is the wood's
    moisture, `None` where the job does not say.

    `fill` is what stands in the frame, `None` a flat panel; `bars` divide it; `shape` is the top
    rail's. `slab` is a solid door, to which all that is said of a frame means nothing.
    `meeting_rebate` is how far the leaves of a pair lap over each other, 0 where they do not.
    """

    name: Fact
    marks: tuple[str, ...]
    where: str
    opening: Opening
    gaps: Gaps
    hinge: Side
    thickness: Fraction
    edge_allowance: Fraction
    species: str
    hinge_stile: Fraction
    free_stile: Fraction
    top_rail: Fraction
    bottom_rail: Fraction
    face_side: FaceSide
    joint: Joint
    groove: Groove
    panel: Panel
    places: Mapping[str, Place] = dataclasses.field(default_factory=dict, compare=False, repr=False)
    free: tuple[Free, ...] = ()
    sawn: Sawn = "flat"
    year: Year | None = None
    fill: Fill | None = None
    bars: tuple[Bar, ...] = ()
    shape: Shape | None = None
    slab: Slab | None = None
    meeting_rebate: Fraction = Fraction(0)
    hardware: Hardware = dataclasses.field(default_factory=Hardware)

    @property
    def held(self) -> Fraction | None:
        """How thick what stands in the groove is, where the job says so."""
        return None if isinstance(self.fill, Raised) else self.panel.thickness

    @property
    def glazed(self) -> bool:
        return isinstance(self.fill, Glazed)

    @property
    def leaves(self) -> int:
        return len(self.marks)

    @property
    def free_side(self) -> Literal["lock", "meeting"]:
        """What the side away from the hinges is called."""
        return "lock" if self.leaves == 1 else "meeting"

    @property
    def leaf_size(self) -> tuple[Fraction, Fraction]:
        """Width and height of each leaf. Leaves that lap over each other are each wider by half of
        it."""
        gaps, leaves = self.gaps, self.leaves
        across = self.opening.width - leaves * gaps.hinge - gaps.free + self.meeting_rebate
        return across / leaves, self.opening.height - gaps.top - gaps.bottom

    def hinge_of(self, index: int) -> Side:
        """The hinge side of leaf number `index`, from the left."""
        if self.leaves == 1:
            return self.hinge
        return "left" if index == 0 else "right"


class Job(Struct, frozen=True):
    """A job file, read: its doors in file order, equal ones repeated; `rack` is what wood there
    is; `pieces` were drawn elsewhere, in a job that has no doors."""

    name: str
    file: str
    unit: Unit
    doors: tuple[Door, ...]
    rack: Rack = field(default_factory=Rack)
    pieces: tuple[Piece, ...] = ()
    passed_over: tuple[str, ...] = ()
    """Columns of a table of pieces that nothing was read from."""


CutterKind = Literal["blade", "dado"]
Grind = Literal["flat-top", "alternate"]


class Cutter(Struct, frozen=True):
    """A blade or dado set. `kerf` as measured in scrap; `plate` is a blade's body thickness."""

    name: str
    kind: CutterKind
    kerf: Fraction
    diameter: Fraction
    grind: Grind
    plate: Fraction | None = None
    sharpened: int = 0
    """How often it has been: each time leaves another kerf."""


class Saw(Struct, frozen=True):
    """`knife`: a riving knife that can be set below the blade's top; `cover`: what covers the
    blade where neither guard nor knife can stay (`None`: nothing does). `dado`: its manual allows
    a dado set; `fence_height`: of the rip fence with its tall face on, `None`: an ordinary one.
    `fence` is the side of the blade that the rip fence is used on, `tilts` the side that the blade
    leans to, both seen by the person before the saw."""

    max_height: Fraction
    knife: bool
    knife_thickness: Fraction | None
    cover: str | None
    hold_down: str
    dado: bool = False
    fence_height: Fraction | None = None
    fence: Side = "right"
    tilts: Side = "left"


class Sled(Struct, frozen=True):
    """A crosscut sled: deck thickness, the longest stick it takes, the widest board, and whether
    it has a clamp for short pieces."""

    deck: Fraction
    longest: Fraction
    widest: Fraction
    clamp: bool


class Jig(Struct, frozen=True):
    """A tenoning jig. `rides` the fence (its `thickness` adds to the fence reading) or the mitre
    `slot` (it has an adjustment of its own). `opening` is the most its clamp takes; `side` is the
    side of the blade that it works on."""

    rides: Literal["fence", "slot"]
    thickness: Fraction
    deck: Fraction
    opening: Fraction
    side: Side = "right"


class Tools(Struct, frozen=True):
    """What measures: the steps that each is read in, how far caliper and rule reach, and the setup
    blocks at hand. `caliper` is `None` in a shop without one."""

    caliper: Fraction | None
    caliper_reach: Fraction
    rule: Fraction
    rule_reach: Fraction
    tape: Fraction
    blocks: tuple[Fraction, ...] = ()


class Minutes(Struct, frozen=True):
    """Minutes for setting each knob, by its key in a shop's file; for one test cut, and for one
    pass of a nibbled cut; for setting a knob again to a saved reading or by its gauge, and for the
    one check cut that then stands in for dialling in."""

    knobs: Mapping[str, Fraction]
    test_cut: Fraction
    nibble: Fraction
    saved: Fraction = Fraction(3, 4)
    gauge: Fraction = Fraction(1, 2)
    check_cut: Fraction = Fraction(1)

    def of(self, knob: str) -> Fraction:
        """For setting a knob by its scale."""
        return self.knobs[timed_as(knob)]


class Shop(Struct, frozen=True):
    """The shop as its file says it, in the plan's unit. `words` are those of its country;
    `assumed` has a fact for every value that came from the built-in default, in file order: the
    sheet shows them. `limits` makes bounds of the safety rules stricter, by their names; a looser
    figure has no effect."""

    name: str
    graduation: Fraction
    saw: Saw
    cutters: tuple[Cutter, ...]
    sled: Sled
    jig: Jig
    minutes: Minutes
    tools: Tools
    scales: Mapping[str, Fraction]
    """What each scale is divided in, by the keys of `saw.fittings.SCALES`."""
    words: Dialect = "US"
    assumed: tuple[Fact, ...] = ()
    limits: Mapping[str, Fraction] = field(default_factory=dict)
    aids: frozenset[str] = frozenset()
    """The aids that are at hand, by the names of `trade.aids`."""
    known_as: str = ""
    """What settings of this saw are kept under: its own id, else the name that the file states,
    else one made of what stands in it. A file may be moved and renamed."""
    fittings: Mapping[str, str] = field(default_factory=dict)
    """Names of fence, sled and jig, each with its version; those that have neither are left out."""

    timed: Mapping[str, Fraction] = field(default_factory=dict)
    """Minutes that the file leaves open and that earlier jobs have timed, by their keys."""

    def made_with(self, carrier: str) -> str:
        """The fittings that a setting on a carrier belongs to, by their names; empty where none has
        one."""
        row = CARRIERS[carrier]
        bodies = {row.body: None, **({"fence": None} if row.rides and self.jig.rides == "fence"
                                     else {})}  # fmt: skip
        return " + ".join(name for body in bodies if (name := self.fittings.get(body, "")))

    def sharpened(self, cutter: str) -> int:
        """How often a cutter has been; 0 where the shop has none of that name."""
        return next((each.sharpened for each in self.cutters if each.name == cutter), 0)

    def scale(self, knob: str) -> Fraction:
        """What the scale of a knob is divided in."""
        return self.scales[timed_as(knob)]

    @property
    def joinery_blade(self) -> Cutter:
        """The blade that cuts everything: flat-top teeth where there are any, for square corners.
        The loader lets no shop through without a blade."""
        blades = [cutter for cutter in self.cutters if cutter.kind == "blade"]
        return next((blade for blade in blades if blade.grind == "flat-top"), blades[0])
