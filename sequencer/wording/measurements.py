"""Why the rest cannot follow what was measured."""

from __future__ import annotations

from sequencer.facts import measurements
from sequencer.wording.catalogue import Table, _

TEXTS: Table = {
    measurements.PANEL_TOO_THICK: _(
        "a panel of {panel:decimal} does not slide into the groove of {groove:decimal}: plane its "
        "edges to {most:decimal} or less, then measure again"
    ),
    measurements.PANEL_TOO_SMALL: _(
        "door {door}: the {what} measures {opening}, so that the panel would not stay in its "
        "groove all round; take the frame apart and look which shoulder stands open"
    ),
}
