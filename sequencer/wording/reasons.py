"""Why one operation comes before another, in words that go on after “after setup 3: ”."""

from __future__ import annotations

from sequencer.facts import reasons
from sequencer.wording.catalogue import Table, _

TEXTS: Table = {
    reasons.MILLED: _("all stock of one thickness is milled together"),
    reasons.SLOTS_FIRST: _("slots before the tenons that are fitted to them"),
}
