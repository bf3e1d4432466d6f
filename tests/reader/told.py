"""What paper or page tell to be done, as data: setups with their figures, steps and checks."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from tests.reader.turns import Correction
from tests.reader.words import Lies


@dataclass
class Check:
    """One measure: its name, good from where to where, what is aimed at, what is turned; the marks
    that it is measured on, where that is told; and with what it is read."""

    name: str
    low: Fraction
    high: Fraction
    target: Fraction | None
    turns: Correction | None = None
    marks: tuple[str, ...] = ()
    tool: str = ""


UNREAD = ("by its fit", "by eye")
"""How is told what no tool tells: no number is written."""


@dataclass
class Piece:
    """A piece to be cut: off which strip and which of its ends is at the stop, or at which of its
    places (ends, edges; nothing where there is one)."""

    mark: str
    strip: str = ""
    at_stop: str = ""
    places: tuple[str, ...] = ()


@dataclass
class Work:
    """What is done alike to some pieces."""

    passes: list[Lies]
    pieces: list[Piece]


@dataclass
class Step:
    """`scrap` is the test piece of a test cut; `fresh` what is sawn off it first; `title` that of
    a step at the bench, and `lines` its sentences."""

    number: int
    verb: str = ""
    works: list[Work] = field(default_factory=list)
    scrap: str = ""
    how: str = ""
    fresh: str = ""
    checks: list[Check] = field(default_factory=list)
    title: str = ""
    lines: list[str] = field(default_factory=list)
    marks: tuple[str, ...] = ()
    warned: tuple[str, ...] = ()


@dataclass
class Setup:
    """`figures` are the large ones with the decimal beside them, by knob; `turns` every line that
    is done on entering; `drawn` what the drawing's figures are."""

    number: int
    title: str
    carrier: str
    figures: dict[str, tuple[Fraction, Fraction]] = field(default_factory=dict)
    by_eye: bool = False
    stays: set[str] = field(default_factory=set)
    turns: list[str] = field(default_factory=list)
    cutter: str = ""
    guard: str = ""
    split: tuple[Fraction, Fraction] | None = None
    """Of a jig on the fence: what is left to the blade, and the jig."""
    behind: Fraction = Fraction(0)
    """How thick a block is told to stand between jig and piece where it is not put there now."""
    block: Fraction = Fraction(0)
    """How thick it is, once the saw is set."""
    lean: Fraction = Fraction(0)
    """How far it leans away from the fence in one unit of height."""
    toward: bool = False
    """Whether the picture has it lean toward the fence."""
    drawn: dict[str, Fraction] = field(default_factory=dict)
    like: int = 0
    """The setup whose picture shows how pieces lie in this one, where it has none of its own."""
    drawn_at: int | None = None
    """The setup whose flat view shows this one's but for figures, marks and the end that is cut."""
    near: str = ""
    seen: str = ""
    warned: tuple[str, ...] = ()
    falls: set[tuple[str, str]] = field(default_factory=set)
    """What comes loose, and to which side."""
    steps: list[Step] = field(default_factory=list)

    @property
    def where(self) -> str:
        return f"setup {self.number}"

    @property
    def guide(self) -> Fraction | None:
        """From what the piece bears on to the blade; `None` where it is cut by eye."""
        if self.split:
            return self.split[0] - self.block
        shown = (exact for knob, (_, exact) in self.figures.items() if knob != "height")
        return next((exact - self.block for exact in shown), None)


Told = Setup | Step
"""A setup, or a step at the bench."""


@dataclass
class Strip:
    """A strip as it is laid out and sawn up: `pieces` in order with their lengths,
    where there was room to write them."""

    mark: str
    width: Fraction = Fraction(0)
    thickness: Fraction = Fraction(0)
    length: Fraction = Fraction(0)
    ripped: Fraction = Fraction(0)
    laid_size: tuple[Fraction, Fraction, Fraction] | None = None
    listed: tuple[str, ...] = ()
    test: bool = False
    boards: int | None = None
    """Of how many boards it is laid out, 0 of as many as the stock asks for; `None` of one."""
    board_width: Fraction = Fraction(0)
    pieces: list[tuple[str, Fraction | None]] = field(default_factory=list)
    turned: tuple[str, ...] = ()
    either: tuple[str, ...] = ()


@dataclass
class PartRow:
    """A row of the table of parts, of one mark."""

    mark: str
    name: str
    size: tuple[Fraction, Fraction, Fraction]
    joints: str


@dataclass
class DoorRow:
    """A row of the table of doors, of one mark."""

    mark: str
    size: tuple[Fraction, Fraction]
    opening: tuple[Fraction, Fraction]
    hinges: str
    gaps: str
    face: str


@dataclass
class OrderRow:
    """A row of the order on the first page; `guide` is nothing where there is no stop."""

    number: int
    title: str
    carrier: str
    knob: str
    guide: Fraction | None
    height: Fraction
    guard: str
    pieces: frozenset[str]


@dataclass
class Document:
    """A paper or a page whole. What only the paper has is empty for a page."""

    told: list[Told] = field(default_factory=list)
    strips: dict[str, Strip] = field(default_factory=dict)
    parts: dict[str, PartRow] = field(default_factory=dict)
    doors: dict[str, DoorRow] = field(default_factory=dict)
    order: list[OrderRow] = field(default_factory=list)
    benches: list[tuple[str, str]] = field(default_factory=list)
    kerfs: dict[str, Fraction] = field(default_factory=dict)
    decks: dict[str, Fraction] = field(default_factory=dict)
    lacking: dict[str, str] = field(default_factory=dict)
    serves: dict[str, tuple[int, ...]] = field(default_factory=dict)
    glued: dict[str, tuple[str, ...]] = field(default_factory=dict)
    """The boards of the layout that each strip is glued up from."""
    alike: tuple[str, ...] = ()
    """The row of a size whose strips come next."""

    naming: tuple[str, ...] = ()
    """The detailed pieces whose words come next."""

    def strip(self, mark: str) -> Strip:
        return self.strips.setdefault(mark, Strip(mark))

    @property
    def setups(self) -> list[Setup]:
        return [each for each in self.told if isinstance(each, Setup)]

    @property
    def bench(self) -> list[Step]:
        return [each for each in self.told if isinstance(each, Step)]

    def face_of(self, mark: str) -> str:
        """Where the marked face of a piece or strip looks: as its door's row says; of a strip, as
        its pieces'; of a test strip, as the doors', where these agree."""
        if mark.startswith("#"):
            strip = self.strips.get(mark.rstrip("abcdefghijklmnopqrstuvwxyz"))
            named = [piece for piece, _ in strip.pieces] if strip else []
            marks = [piece for piece in named if not piece.startswith("#")]
            if marks:
                return self.face_of(marks[0])
            faces = {door.face for door in self.doors.values()}
            return faces.pop() if len(faces) == 1 else "either"
        door = self.doors.get(mark.rstrip("0123456789"))
        return door.face if door else "out"
