"""Refusals: what is impossible or unsafe, and what would do."""

from __future__ import annotations

from sequencer.facts import refusals
from sequencer.wording.catalogue import Table, _

TEXTS: Table = {
    refusals.KERF_TOO_WIDE: _("{mark}: the kerf of {kerf} is wider than the {what} of {width}"),
}
