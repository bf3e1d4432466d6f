"""What differs between two plans."""

from __future__ import annotations

from sequencer.facts import differences
from sequencer.wording.catalogue import Table, _, counted_

TEXTS: Table = {
    differences.NONE: _("nothing to be cut differs"),
    differences.SINCE: _("other than on the sheets that were here:"),
    differences.OTHER_UNIT: _("the plans are in different units"),
    differences.DOOR: _(
        "the door that was {was} is {now} now: {write} under its [[door]] keeps its mark"
    ),
    differences.PIECES_NEW: _("new: {marks}"),
    differences.PIECES_GONE: _("no longer there: {marks}"),
    differences.PIECE: _("{mark}: {how:comma}"),
    differences.STRIPS: _("strips of another size: {marks}"),
    differences.SETUPS_NEW: counted_("new: setup {numbers}", "new: setups {numbers}"),
    differences.SETUPS_GONE: counted_(
        "no longer needed: what was setup {numbers}", "no longer needed: what were setups {numbers}"
    ),
    differences.SETUP: _("setup {number} (was {was}): {how:comma}"),
    differences.KNOB: _("{knob} {now}, not {planned}"),
    differences.OTHER_TOOLS: _("another cutter, tilt or carrier"),
    differences.ORDER: _("setups come in another order"),
    differences.TOTALS: _("{setups} setups and {minutes}, not {were} and {took}"),
    differences.AND_MORE: counted_("{n} difference more", "{n} differences more"),
}
