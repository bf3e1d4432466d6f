"""Generated jobs of framed doors as ordering problems, for the benchmarks and the larger tests.

Each door has two stiles and two rails round a panel. Per stick: rip, groove, groove turned, square
the end, crosscut the pieces one after the other, longest first. Per stile and end: slot on the jig,
slot turned. Per rail and end: face shoulder and edge shoulder on the sled, cheek on the jig, cheek
turned, edge cheek on the jig, after the slots of its door. Then the door's dry fit at the bench,
the panel's rip and crosscut, and the glue-up. Lengths are in eighths of an inch. All invented.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from random import Random

from sequencer.ordering import Alternative, Knob, Operation, Problem

STICK = 8 * 72
TEST_MINUTES = 3
MINUTES = {"cutter": 5, "height": 1, "carrier": 2, "guard": 1, "fence": 1, "stop": 1, "jig": 2}
THROUGH = ("7/8", "1", "5/4")  # a little over the stock, and the most that the caution allows
PANEL_THROUGH = ("3/8", "1/2", "7/8", "1", "5/4")
# Kinds of cut in the order that precedence allows, for the order "by kind of cut".
KINDS = (
    "rip",
    "groove",
    "square",
    "crosscut",
    "slot",
    "shoulder",
    "edge shoulder",
    "cheek",
    "edge cheek",
    "dry fit",
    "panel rip",
    "panel crosscut",
    "glue-up",
)


@dataclass(frozen=True, slots=True)
class Door:
    """Sizes in eighths of an inch; `mark` begins the ids of its operations."""

    mark: str
    height: int
    width: int
    stile: int
    rail: int


@dataclass(slots=True)
class Job:
    """A problem with what the baselines need: the doors' operations, and each operation's kind."""

    problem: Problem
    groups: list[list[int]]
    ranks: list[int]


@dataclass(slots=True)
class _Writer:
    ids: list[str] = field(default_factory=list)
    needs: list[dict[str, tuple[str, ...]]] = field(default_factory=list)
    ranks: list[int] = field(default_factory=list)
    before: list[tuple[int, int]] = field(default_factory=list)

    def add(
        self, name: str, kind: str, after: Sequence[int], **needs: str | tuple[str, ...]
    ) -> int:
        index = len(self.ids)
        self.ids.append(name)
        self.needs.append(
            {knob: (value,) if isinstance(value, str) else value for knob, value in needs.items()}
        )
        self.ranks.append(KINDS.index(kind))
        self.before += [(first, index) for first in after]
        return index


def repeating(count: int, seed: int, *, kinds: int | None = None, mark: str = "D") -> list[Door]:
    """Doors of 4 heights by 5 widths, 3 stile and 3 rail widths; `kinds` limits how many differ."""
    random = Random(seed)
    heights, widths = [128, 176, 224, 280], [96, 112, 126, 144, 163]
    stiles, rails = [14, 16, 18], [16, 20, 24]
    choices = [
        (random.choice(heights), random.choice(widths), random.choice(stiles), random.choice(rails))
        for _ in range(kinds or count)
    ]
    return [Door(f"{mark}{number + 1}", *choices[number % len(choices)]) for number in range(count)]


def anywhere(count: int, seed: int, *, mark: str = "D") -> list[Door]:
    """Doors with heights and widths anywhere on 1/8 in, 4 stile and 4 rail widths."""
    random = Random(seed)
    return [
        Door(
            f"{mark}{number + 1}",
            random.randrange(96, 320),
            random.randrange(80, 176),
            random.choice([12, 14, 16, 18]),
            random.choice([16, 18, 20, 24]),
        )
        for number in range(count)
    ]


def eighths(length: int) -> str:
    """A length in eighths as a fraction of an inch.

    >>> eighths(14)
    '7/4'
    """
    return str(Fraction(length, 8))


def job(doors: Sequence[Door]) -> Job:
    """The ordering problem of one batch of doors."""
    out = _Writer()
    cut: dict[str, int] = {}
    pieces: list[tuple[int, int, str]] = []  # width, length, mark
    for door in doors:
        pieces += [(door.stile, door.height, f"{door.mark}/stile{side}") for side in (1, 2)]
        pieces += [(door.rail, door.width, f"{door.mark}/rail{side}") for side in (1, 2)]
    number = 0
    for width in sorted({piece[0] for piece in pieces}):
        for stick in _sticks([piece for piece in pieces if piece[0] == width]):
            number += 1
            last = _mill(out, f"K{number}", width)
            for _, length, mark in stick:
                last = cut[mark] = out.add(
                    f"{mark}/crosscut",
                    "crosscut",
                    [last],
                    cutter="combination",
                    height=THROUGH,
                    carrier="sled",
                    guard="knife",
                    stop=eighths(length),
                )
    for door in doors:
        _door(out, door, cut)
    operations = tuple(
        Operation(name, (Alternative(needs),))
        for name, needs in zip(out.ids, out.needs, strict=True)
    )
    groups = [
        [index for index, name in enumerate(out.ids) if name.startswith(f"{door.mark}/")]
        for door in doors
    ]
    return Job(Problem(_knobs(out.needs), operations, tuple(out.before)), groups, out.ranks)


def _sticks(pieces: list[tuple[int, int, str]]) -> list[list[tuple[int, int, str]]]:
    """Pieces packed in the order given, first fit; longest first within each stick."""
    sticks: list[list[tuple[int, int, str]]] = []
    room: list[int] = []
    for piece in pieces:
        for at, left in enumerate(room):
            if piece[1] + 2 <= left:
                sticks[at].append(piece)
                room[at] -= piece[1] + 2
                break
        else:
            sticks.append([piece])
            room.append(STICK - piece[1] - 2)
    return [sorted(stick, key=lambda piece: -piece[1]) for stick in sticks]


def _mill(out: _Writer, stick: str, width: int) -> int:
    rip = out.add(
        f"{stick}/rip",
        "rip",
        [],
        cutter="combination",
        height=THROUGH,
        guard="fitted",
        carrier="rip-fence",
        fence=eighths(width),
    )
    last = rip
    for turn in ("groove", "groove-turned"):
        last = out.add(
            f"{stick}/{turn}",
            "groove",
            [last],
            cutter="combination",
            height="1/4",
            guard="cover",
            carrier="rip-fence",
            fence="1/4 tested",
        )
    return out.add(
        f"{stick}/square",
        "square",
        [last],
        cutter="combination",
        height=THROUGH,
        guard="knife",
        carrier="sled",
    )


def _door(out: _Writer, door: Door, cut: dict[str, int]) -> None:
    slots, tenons = [], []
    for side in (1, 2):
        mark = f"{door.mark}/stile{side}"
        for end in "AB":
            last = cut[mark]
            for turn in ("slot", "slot-turned"):
                last = out.add(
                    f"{mark}/{end}/{turn}",
                    "slot",
                    [last],
                    cutter="combination",
                    height=eighths(door.rail),
                    carrier="jig",
                    guard="cover",
                    jig="slot tested",
                )
            slots.append(last)
    for side in (1, 2):
        mark = f"{door.mark}/rail{side}"
        shoulders = []
        for end in "AB":
            shoulders.append(
                out.add(
                    f"{mark}/{end}/shoulder",
                    "shoulder",
                    [cut[mark]],
                    cutter="combination",
                    height="1/4",
                    carrier="sled",
                    guard="knife",
                    stop=f"{eighths(door.stile)} tested",
                )
            )
            shoulders.append(
                out.add(
                    f"{mark}/{end}/edge-shoulder",
                    "edge shoulder",
                    [cut[mark]],
                    cutter="combination",
                    height="3/8",
                    carrier="sled",
                    guard="knife",
                    stop=f"{eighths(door.stile)} tested",
                )
            )
        for end in "AB":
            last = -1
            for turn in ("cheek", "cheek-turned"):
                last = out.add(
                    f"{mark}/{end}/{turn}",
                    "cheek",
                    [*shoulders, *slots] if last < 0 else [last],
                    cutter="combination",
                    height=(eighths(door.stile), f"{eighths(door.stile)} less"),
                    carrier="jig",
                    guard="cover",
                    jig="tenon tested",
                )
            tenons.append(
                out.add(
                    f"{mark}/{end}/edge-cheek",
                    "edge cheek",
                    [last],
                    cutter="combination",
                    height=eighths(door.stile),
                    carrier="jig",
                    guard="cover",
                    jig="edge",
                )
            )
    dry = out.add(f"{door.mark}/dry-fit", "dry fit", [*slots, *tenons])
    rip = out.add(
        f"{door.mark}/panel-rip",
        "panel rip",
        [dry],
        cutter="combination",
        height=PANEL_THROUGH,
        guard="fitted",
        carrier="rip-fence",
        fence=eighths(door.width - 2 * door.stile + 3),
    )
    crosscut = out.add(
        f"{door.mark}/panel-crosscut",
        "panel crosscut",
        [rip],
        cutter="combination",
        height=PANEL_THROUGH,
        guard="knife",
        carrier="sled",
        stop=eighths(door.height - 2 * door.rail + 3),
    )
    out.add(f"{door.mark}/glue-up", "glue-up", [crosscut])


def _knobs(needs: Sequence[dict[str, tuple[str, ...]]]) -> tuple[Knob, ...]:
    knobs = []
    for name, minutes in MINUTES.items():
        tested = sorted(
            {value for need in needs for value in need.get(name, ()) if value.endswith("tested")}
        )
        dear = {value: Fraction(minutes + TEST_MINUTES) for value in tested}
        ties = dict.fromkeys(tested, 100)
        knobs.append(Knob(name, Fraction(minutes), dear, 1 if name == "carrier" else 0, ties))
    return tuple(knobs)
