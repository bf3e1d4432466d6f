"""The plan: everything the person at the saw reads, and nothing of how it was found.

The one contract with other programs is its JSON form (`contract.py`). Lengths are `Fraction`s in
`Plan.unit`, minutes `Fraction`s. Piece frame: x along the grain from end A, y across the width
from the inside edge, z through the thickness from the show face.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from sequencer.lengths import Unit

Span = tuple[Fraction, Fraction]
Box = tuple[Span, Span, Span]
"""x-, y- and z-range in a piece's frame."""

Down = Literal["face", "back", "inside-edge", "outside-edge", "end-A", "end-B"]
Against = Literal["face", "back", "inside-edge", "outside-edge", "end-A", "end-B"]
Keeps = Literal["guide", "far", "larger"]
"""Which side of a through cut is the part; `larger` where an end is squared by eye, without a guide."""

CarrierName = Literal["rip-fence", "crosscut-sled", "tenoning-jig"]
GuardState = Literal["fitted", "knife", "cover"]


@dataclass(frozen=True, slots=True)
class Size:
    length: Fraction
    width: Fraction
    thickness: Fraction


@dataclass(frozen=True, slots=True)
class Feature:
    """What the finished part lacks: `kind` is slot, cheek, edge-cheek or groove; `at` an end
    (`A`, `B`) or `inside-edge`; `mate` the mark and end it fits, as `A3/B`."""

    kind: str
    at: str
    box: Box
    mate: str | None = None


@dataclass(frozen=True, slots=True)
class Part:
    """One physical piece as it leaves the saw, before assembly and trimming."""

    mark: str
    door: str
    role: str
    name: str
    material: str
    size: Size
    features: tuple[Feature, ...]


@dataclass(frozen=True, slots=True)
class Place:
    """Where a part's frame lies in its door's: x right, y up, z toward the cabinet, from the
    door's lower left front corner. `axes` say where the part's x, y and z run."""

    mark: str
    origin: tuple[Fraction, Fraction, Fraction]
    axes: tuple[str, str, str]


@dataclass(frozen=True, slots=True)
class Door:
    """One leaf, `at` its lower left corner in the opening. `job` and `name` say whose it is."""

    mark: str
    job: str
    name: str
    opening: tuple[Fraction, Fraction]
    size: tuple[Fraction, Fraction]
    at: tuple[Fraction, Fraction]
    hinge: str
    gaps: Mapping[str, Fraction]
    face_side: str
    pair: tuple[str, ...]
    places: tuple[Place, ...]


@dataclass(frozen=True, slots=True)
class StickPiece:
    mark: str
    start: Fraction
    """Where the piece begins, from the stick's end A."""


@dataclass(frozen=True, slots=True)
class Stick:
    """A length of stock ripped to one width; `blank` is what to lay out for it before ripping.

    `test` marks the stick that test pieces come from.
    """

    mark: str
    material: str
    size: Size
    blank: Size
    pieces: tuple[StickPiece, ...]
    test: bool = False


@dataclass(frozen=True, slots=True)
class Change:
    """One knob's change on entering a setup: what it was and is, and the same in words."""

    knob: str
    before: str | None
    after: str
    words: str


@dataclass(frozen=True, slots=True)
class Caution:
    """A hazard message in four parts. `word` is DANGER, WARNING, CAUTION or NOTICE."""

    rule: str
    word: str
    hazard: str
    consequence: str
    avoidance: str
    source: str


@dataclass(frozen=True, slots=True)
class Setup:
    """A longest run of steps between which no needed knob changes.

    `height` is above the table, `depth` above the carrier's deck; `guide` from the guiding surface
    to the nearest side of the kerf (`None`: squared by eye); `reading` what the fence or jig scale
    shows; `move` the change of that reading since the same knob was last set.
    """

    number: int
    cutter: str
    kerf: Fraction
    tilt: Fraction
    carrier: CarrierName
    guard: GuardState
    height: Fraction
    depth: Fraction
    guide: Fraction | None
    reading: Fraction | None
    move: Fraction | None
    saved: str | None
    minutes: Fraction
    cautions: tuple[Caution, ...]
    changes: tuple[Change, ...] = ()
    why: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Cut:
    """One pass of one piece or stick, as the person makes it."""

    mark: str
    down: Down
    against: Against | None
    keeps: Keeps | None
    sweep: bool = False


@dataclass(frozen=True, slots=True)
class Removal:
    """What a bench step takes off a piece, in its frame."""

    mark: str
    box: Box


SCRAP_STEPS = frozenset({"test cut", "check cut"})
"""Kinds of steps that cut scrap alone: dialling a setting in, or checking one that was saved."""


@dataclass(frozen=True, slots=True)
class Step:
    """One thing to do. Bench steps have no setup. `kind` is the verb's noun: rip, groove, square,
    crosscut, slot, shoulder, cheek, edge shoulder, edge cheek, sweep, test cut, check cut, refit
    guard, remove guard, mill, plane, dry fit, trim, finish, glue-up, diagonals, flush, hang."""

    number: int
    setup: int | None
    kind: str
    operations: tuple[str, ...]
    cuts: tuple[Cut, ...] = ()
    removes: tuple[Removal, ...] = ()
    marks: tuple[str, ...] = ()
    """The pieces, sticks or doors it is done to, in order, each once."""


@dataclass(frozen=True, slots=True)
class Checkpoint:
    """What to measure before going on, and how far to correct.

    Good when `low` ≤ measured ≤ `high`. `per_unit` is the signed change of the measure when the
    knob's number grows by 1: move = (target − measured) / per_unit. `at_step` is the step at which
    it is measured, `before_step` the first that relies on it. `setup`, `knob`, `per_unit` and
    `scrap` are `None` at the bench.
    """

    at_step: int
    before_step: int
    setup: int | None
    measure: str
    target: Fraction
    low: Fraction
    high: Fraction
    knob: str | None
    per_unit: Fraction | None
    feel: str
    scrap: str | None
    marks: tuple[str, ...] = ()
    """The pieces, sticks or doors it is measured on, where that is no test piece."""


@dataclass(frozen=True, slots=True)
class Scrap:
    """A test piece: the stick it is cut from and the setups it serves."""

    mark: str
    stick: str
    size: Size
    serves: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Knob:
    name: str
    minutes: Fraction
    by_value: Mapping[str, Fraction]


@dataclass(frozen=True, slots=True)
class Alternative:
    minutes: Fraction
    needs: Mapping[str, tuple[str, ...]]


@dataclass(frozen=True, slots=True)
class ProblemOperation:
    id: str
    alternatives: tuple[Alternative, ...]


@dataclass(frozen=True, slots=True)
class Placed:
    operation: str
    alternative: int
    state: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Baseline:
    """Another way of ordering the same problem: its minutes and setups."""

    name: str
    minutes: Fraction
    setups: int


@dataclass(frozen=True, slots=True)
class Ordering:
    """The problem that was solved, its order, and what is proven of it."""

    knobs: tuple[Knob, ...]
    operations: tuple[ProblemOperation, ...]
    before: tuple[tuple[str, str, str], ...]
    order: tuple[Placed, ...]
    minutes: Fraction
    bound: Fraction
    proven: bool
    setups: int
    baselines: tuple[Baseline, ...]
    limit: str | None = None


@dataclass(frozen=True, slots=True)
class Chosen:
    """A dimension that the job leaves free: its range and the value that this plan took. `place` is
    where the job states it, as `file:line:column`; `others` what ends of the range would have cost
    in minutes."""

    key: str
    name: str
    place: str
    low: Fraction
    high: Fraction
    value: Fraction
    others: Mapping[str, Fraction]


@dataclass(frozen=True, slots=True)
class Method:
    """One combination of methods that was planned: what was chosen for each open question, its
    minutes (a bound where it was cut off), whether it is the one in this plan, and whether it was
    cheaper but refused as unsafe."""

    choices: Mapping[str, str]
    minutes: Fraction
    exact: bool
    chosen: bool
    refused: bool = False


@dataclass(frozen=True, slots=True)
class ShopFacts:
    """What of the shop the sheets and the proof need."""

    name: str
    graduation: Fraction
    decks: Mapping[str, Fraction]
    jig_rides: str
    jig_thickness: Fraction
    jig_opening: Fraction
    sled_longest: Fraction
    sled_widest: Fraction
    max_height: Fraction
    hold_down: str
    cover: str | None
    cutters: Mapping[str, Mapping[str, str]]


@dataclass(frozen=True, slots=True)
class ToTick:
    """A warning: what the person confirms before the `setups` it concerns, and why."""

    tick: str
    setups: tuple[int, ...]
    caution: Caution


@dataclass(frozen=True, slots=True)
class Blank:
    """What is cut from a board for a stick: the stick whole, or one of the strips (`#7/1`, `#7/2`)
    that it is glued up from. `size` is that of the finished stock in thickness, of the rough piece
    otherwise; `at` is where it lies on its board, along from the end and across from the edge
    (0, 0 on none)."""

    mark: str
    stick: str
    material: str
    size: Size
    at: tuple[Fraction, Fraction] = (Fraction(0), Fraction(0))


@dataclass(frozen=True, slots=True)
class Board:
    """A board that the user has, as measured: `crosscuts` are the rough lengths it is cut to, from
    its end, and `blanks` what is ripped from each. `trim` comes off both ends, `edge` off the
    edge that is straightened. A board that is not needed has neither."""

    mark: str
    material: str
    size: Size
    trim: Fraction
    edge: Fraction
    crosscuts: tuple[Span, ...] = ()
    blanks: tuple[Blank, ...] = ()


@dataclass(frozen=True, slots=True)
class RoughLine:
    """Stock of one wood and thickness, milled together. `sticks` and `test_sticks` come from
    it; `surface` is the area of their blanks in the plan's unit squared, `board_feet` what that is
    in the trade's measure and `cubic_metres` as volume, both at the thickness it is bought in,
    without and with the `allowance` in percent. `buy` is the nominal size that yields it (empty:
    none in the tables) and `yields` what that measures when surfaced."""

    material: str
    thickness: Fraction
    sticks: tuple[str, ...]
    test_sticks: tuple[str, ...]
    longest: Fraction
    widest: Fraction
    surface: Fraction
    bought_thickness: Fraction
    board_feet: Fraction
    cubic_metres: Fraction
    allowance: int
    board_feet_with: Fraction
    cubic_metres_with: Fraction
    buy: str
    yields: Fraction | None


@dataclass(frozen=True, slots=True)
class Order:
    """Something to order, made to size or bought: `count` of `what`, and its `size` in words of
    the plan's unit (empty where it has none)."""

    what: str
    count: int
    size: tuple[Fraction, ...] = ()
    note: str = ""


@dataclass(frozen=True, slots=True)
class Plan:
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
    assumptions: tuple[str, ...]
    notes: tuple[str, ...]
    standing: tuple[Caution, ...] = ()
    warnings: tuple[ToTick, ...] = ()
    before_power: tuple[str, ...] = ()
    before_leaving: tuple[str, ...] = ()
    free: tuple[Chosen, ...] = ()
    again: tuple[str, ...] = ()
    """Marks of pieces that are made again by themselves: their doors are not in this plan."""
    proven: str | None = None
    """The line that says what the proof showed."""
    boards: tuple[Board, ...] = ()
    """The boards that the user has, those to cut first in the order they were given."""
    rough: tuple[RoughLine, ...] = ()
    missing: tuple[Blank, ...] = ()
    """What no board is left for; empty where no boards were given."""
    layout: tuple[str, ...] = ()
    """What is to be said of the boards: how good the layout is, what was given up for it."""
    orders: tuple[Order, ...] = ()
