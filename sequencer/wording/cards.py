"""What stands on the cards of the page."""

from __future__ import annotations

from sequencer.facts import cards
from sequencer.wording.catalogue import Table, _, counted_

TEXTS: Table = {
    cards.STEP: _("step {label}"),
    cards.SETUP: _("setup {label}"),
    cards.STEPS: counted_("step {labels:comma}", "steps {labels:comma}"),
    cards.SETUPS: counted_("setup {labels:comma}", "setups {labels:comma}"),
    cards.THE_START: _("the start"),
    cards.THE_END: _("the end"),
    cards.HEADING: _("{at}: {title:cap}"),
    cards.NOW: _("{before}, now {after}"),
    cards.PIECE: "{mark}",
    cards.STOCK: _("strip thickness {number}"),
    cards.STOCK_AT: _("strip thickness {number} where it is {at}"),
    cards.MEASURE_OF: _("{measure}, {mark}"),
    cards.STRIP_FOR: _("strip for {marks:comma}"),
    cards.TEST_PIECE: _("test piece"),
    cards.KERF_OF: _("kerf of the {blade}"),
    cards.PANEL_OF: _("panel of {thickness:decimal}"),
    cards.BY_FEEL: _("by feel"),
    cards.SPOILED: _("{mark} was spoiled at {at} and is made again"),
    cards.ALWAYS: _("what always holds"),
    cards.GUARD_OFF: _("take the guard off"),
    cards.GUARD_ON: _("put guard and riving knife back on"),
    cards.UNPLUG: _("unplug the saw first"),
    cards.SET_THE_SAW: _("set the saw"),
    cards.BLADE_AND_KERF: _("{blade}, kerf {kerf}"),
    cards.HEIGHT: _("blade height"),
    cards.JIG_RIDES: _("{setting} and {jig} for the jig"),
    cards.LEANS: _("blade leans {how}"),
    cards.BEFORE_POWER: _("before power on"),
    cards.BEFORE_LEAVING: _("before you leave this setup"),
    cards.COUNTED: _("pieces counted: {n} ({marks:comma})"),
    cards.TESTED: _("test cut measured and entered"),
    cards.AT_END: _("{verb}, end {end}"),
    cards.AS_ITS_MATE_IS: _("Moved as its mate was measured."),
    cards.SET_HOW: "{how}",
    cards.BOTH: "{first}; {second}",
    cards.READ: "{by}",
    cards.IN_ONE_LINE: "{parts:comma}",
    cards.OTHER_END: _("then the other end the same way"),
    cards.FROM_STRIP: _("from {strip}, {how}"),
    cards.PASSES: counted_("{n} pass", "{n} passes"),
    cards.TEST_CUT: _("test cut on {marks:comma}"),
    cards.CHECK_CUT: _("check cut on {marks:comma}"),
    cards.MEASURE_ITS_KERF: _(
        "measure how wide the {blade} cuts, too: enter it as its kerf (List, Measure kerf or "
        "panel), and the tenons follow it"
    ),
    cards.LAID_OUT: _("{what}, marks to lay out"),
    cards.MILLED: _("{thickness}: {marks:comma}"),
}
