"""The boards that the user has, and how rough stock is cut down. Lengths in the plan's unit."""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

ZERO = Fraction(0)


class Board(Struct, frozen=True):
    """A board as measured. `trim` comes off each end and `edge` off one edge before anything is
    laid out on it; `planed` says that its faces are flat already."""

    mark: str
    species: str
    length: Fraction
    width: Fraction
    thickness: Fraction
    planed: bool
    trim: Fraction
    edge: Fraction

    @property
    def usable(self) -> tuple[Fraction, Fraction]:
        """Length and width that can be laid out on."""
        return self.length - 2 * self.trim, self.width - self.edge

    def yields(self, species: str, thickness: Fraction, milling: Fraction) -> bool:
        """Whether stock of that wood and thickness can be planed from it. A rough board loses
        `milling` before it is flat; one that measures the thickness wanted has been planed."""
        if self.species.casefold() != species.casefold():
            return False
        spare = self.thickness - thickness
        return spare == 0 or spare >= (ZERO if self.planed else milling)


class Rack(Struct, frozen=True):
    """All boards of a job. `allowance` is added to what is bought, in percent; `milling` comes
    off a rough board's thickness; `kerf` is of the saw that cuts rough stock."""

    boards: tuple[Board, ...] = ()
    allowance: int = 0
    milling: Fraction = ZERO
    kerf: Fraction = ZERO

    def longest(self, species: str, thickness: Fraction) -> Fraction | None:
        """The longest stick of that stock that a board yields; `None` where none does."""
        lengths = [
            board.usable[0]
            for board in self.boards
            if board.yields(species, thickness, self.milling)
        ]
        return max(lengths, default=None)

    def holds(self, species: str, length: Fraction, width: Fraction, thickness: Fraction) -> bool:
        """Whether one board yields a piece of that wood and size."""
        return any(
            board.yields(species, thickness, self.milling)
            and board.usable[0] >= length
            and board.usable[1] >= width
            for board in self.boards
        )


def together(racks: tuple[Rack, ...]) -> Rack:
    """One rack of the boards of all jobs of a batch; of the rest the most careful figures."""
    return Rack(
        boards=tuple(board for rack in racks for board in rack.boards),
        allowance=max(rack.allowance for rack in racks),
        milling=max(rack.milling for rack in racks),
        kerf=max(rack.kerf for rack in racks),
    )
