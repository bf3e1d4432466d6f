"""A setup or a step at the bench as paper tells it: every word and picture decided."""

from __future__ import annotations

from msgspec import Struct

from sequencer.instructions.bench import Table
from sequencer.instructions.figures import Figure
from sequencer.records import replace
from sequencer.sheets.checks import CheckBox
from sequencer.sheets.rounds.at_saw import Picture
from sequencer.sheets.views import Alike
from sequencer.sheets.warned import Warned


class Dial(Struct, frozen=True):
    """One number to dial: its knob, the number (`None`: by eye), and what it is made of; whether it
    stays as the setup before left it."""

    name: str
    figure: Figure | None
    note: str
    stays: bool = False


class Chip(Struct, frozen=True):
    """A piece, where it comes from, and the letters beside its boxes (an end's, or none)."""

    mark: str
    note: str
    ticks: tuple[str, ...]

    @property
    def bare(self) -> bool:
        """Whether nothing but its mark and one box is printed."""
        return not self.note and self.ticks == ("",)


class Work(Struct, frozen=True):
    """What is done alike in one step: how the piece lies, and the pieces."""

    step: int
    verb: str
    how: str
    chips: tuple[Chip, ...]


class Item(Struct, frozen=True):
    """One thing of a block, in step order: work or a check."""

    work: Work | None
    check: CheckBox | None


class Turn(Struct, frozen=True):
    """A knob to change, or what to confirm; `step` where that is a step of its own (the guard),
    `rule` where it is one of safety that asks for it."""

    step: str
    words: str
    rule: str = ""
    half: bool = False
    """Whether it shares its line with another."""
    under: bool = False
    """Whether it stands under the picture."""


class Block(Struct, frozen=True):
    """A setup (`number`) or a bench step (`step`)."""

    number: int | None
    step: int | None
    title: str
    carrier: str
    settings: tuple[Dial, ...]
    turns: tuple[Turn, ...]
    lines: tuple[str, ...]
    picture: str
    """The piece seen along the feed, with its dimensions; empty where nothing is cut."""
    round: Picture | None
    """How the piece lies, in the round; `None` where nothing is cut."""
    small: Picture | None
    """The same without words, for the page above the saw."""
    warned: Warned
    chips: tuple[Chip, ...]
    items: tuple[Item, ...]
    tables: tuple[Table, ...] = ()
    below: tuple[str, ...] = ()
    """Under the picture."""
    signs: tuple[tuple[str, str], ...] = ()
    """Those of the whole setup, each with its words."""
    tight: bool = False
    """Whether the settings are set smaller, so that they go beside each other."""
    abreast: bool = False
    """Whether its two pictures stand at both sides of what is turned."""
    low: bool = False
    """Whether what falls and what stays is told under the picture."""
    like: int | None = None
    """The setup before, where pieces lie in this one as its picture shows."""
    alike: Alike = ()
    drawn: int | None = None
    """An earlier setup whose flat view is this one's but for figures, marks and the end."""
    pointers: tuple[str, str] = ("", "")
    """The words for `like` and for `drawn`."""
    between: str = ""
    """What stands between jig and piece; empty where nothing does."""

    @property
    def flat(self) -> str:
        """The flat view, where it is printed."""
        return "" if self.like or self.drawn else self.picture

    @property
    def shown(self) -> Picture | None:
        """The picture in the round, where it is printed."""
        return None if self.like else self.round

    @property
    def steady(self) -> tuple[str, ...]:
        """What falls, where pictures stand, and what stays."""
        like, drawn = self.pointers
        pointer = like if self.like else drawn if self.drawn else ""
        return tuple(filter(None, (*self.below, pointer, *self.lines)))

    @property
    def fuller(self) -> Block | None:
        """The same with one picture more, where a page has room for it; `None` if it has both."""
        if self.like and self.round:
            return replace(self, like=None, drawn=self.like)
        return replace(self, drawn=None) if self.drawn else None
