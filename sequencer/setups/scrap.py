"""Which test piece each test cut is made on: the wood there must still be uncut.

Of the pieces that stand for one another the first is taken on which nothing else was tried, the cut
finds wood to measure, and what it frees does not lie at the stop or the fence. Nor is a tenon's
width tried on a tenon whose edge lacks what was tried along the stick.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence

from msgspec import Struct, field

from sequencer.cuts.model import Setting
from sequencer.operations.trials import Trial
from sequencer.plan import Cut

_STOOD_ON = frozenset({"end-A", "end-B", "inside-edge", "outside-edge"})


class _Tried(Struct, frozen=True):
    trial: Trial
    setting: Setting
    cut: Cut


class TestPieces(Struct):
    """`spares` are the further pieces that each stands for, `sticks` what each piece is cut from;
    `short` counts the tests for which there was none left."""

    spares: Mapping[str, Sequence[str]]
    sticks: Mapping[str, str] = field(default_factory=dict)
    short: Counter[str] = field(default_factory=Counter)
    _tried: dict[str, list[_Tried]] = field(default_factory=dict)

    def take(
        self,
        scrap: str,
        trial: Trial,
        setting: Setting,
        cuts: Sequence[Cut],
        *,
        guide: bool = False,
    ) -> str:
        """The piece for these cuts, which are made on it; where none is left, the first. `guide`
        says whether the guide's number is what is tried, and not the height's alone."""
        pieces = (scrap, *self.spares.get(scrap, ()))
        suits = (mark for mark in pieces if self._suits(mark, trial, setting, cuts, guide=guide))
        found = next(suits, None)
        if found is None:
            self.short[scrap] += 1
        mark = found or scrap
        self._tried.setdefault(mark, []).extend(_Tried(trial, setting, cut) for cut in cuts)
        return mark

    def has(self, scrap: str, trial: Trial) -> bool:
        """Whether anything of it was cut on a piece yet."""
        pieces = (scrap, *self.spares.get(scrap, ()))
        return any(each.trial == trial for mark in pieces for each in self._tried.get(mark, ()))

    def _suits(
        self, mark: str, trial: Trial, setting: Setting, cuts: Sequence[Cut], *, guide: bool
    ) -> bool:
        there = self._tried.get(mark, ())
        along = self._tried.get(self.sticks.get(mark, ""), ())
        if any(map(_rides_edge, cuts)) and along and any(_bares_edge(each.cut) for each in there):
            return False
        if guide and any(_hides_walls(there, setting, cut) for cut in cuts):
            return False
        return all(
            before.trial == trial and not _covers(before, setting, cut) and not _frees(before, cut)
            for before in there
            for cut in cuts
        )


def _rides_edge(cut: Cut) -> bool:
    """Whether a tenon's width is cut from its outside edge."""
    return cut.against == "outside-edge" and cut.down in ("end-A", "end-B")


def _bares_edge(cut: Cut) -> bool:
    """Whether it is a cheek, beside which the outside edge of the tenon stands by itself."""
    return cut.against in ("face", "back") and cut.down in ("end-A", "end-B")


def _covers(before: _Tried, setting: Setting, cut: Cut) -> bool:
    """Whether a pass has been there already, as deep or deeper."""
    made = before.setting
    same = (before.cut.down, before.cut.against) == (cut.down, cut.against)
    return same and made.guide == setting.guide and made.depth[1] >= setting.depth[0]


def _hides_walls(there: Sequence[_Tried], setting: Setting, cut: Cut) -> bool:
    """Whether a cut on edge would show no wall of its own: both faces were cut at that end with the
    same setting, and where a groove runs nothing is left between them."""
    sides = {
        before.cut.down
        for before in there
        if before.setting.guide == setting.guide and before.cut.against == cut.against
    }
    return cut.down in ("inside-edge", "outside-edge") and {"face", "back"} <= sides


def _frees(before: _Tried, cut: Cut) -> bool:
    """Whether a pass bears on what an earlier one was made from: a shoulder after its cheek frees
    the cheek's waste at the stop, a flat pass after one on edge the rebate's at the fence."""
    return cut.against in _STOOD_ON and cut.against == before.cut.down
