"""Aids: what pieces are held or guided by beside saw and carrier, at hand or made before."""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from sequencer.plan.pieces import Size


class AidBoard(Struct, frozen=True):
    """A board that an aid is made of, by its wood."""

    wood: str
    size: Size


class Aid(Struct, frozen=True):
    """One that `setups` need, by its name in `trade.aids`; nothing of it is made where it is at
    hand. `made` and `fitted` are minutes: once, and wherever the setup before does not need it."""

    name: str
    setups: tuple[int, ...]
    at_hand: bool
    boards: tuple[AidBoard, ...]
    made: Fraction
    fitted: Fraction

    @property
    def minutes(self) -> Fraction:
        again = sum(number - 1 not in self.setups for number in self.setups)
        return self.made + self.fitted * again
