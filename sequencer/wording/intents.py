"""The order of the trade: what must precede what, and why."""

from __future__ import annotations

from sequencer.facts import intents
from sequencer.wording.catalogue import Table, _

TEXTS: Table = {
    intents.TOO_EARLY: _("it comes before {first} of {mark} in step {step}: {why}"),
    intents.NEVER_TRIED: _("no {cut} was tried on scrap before good wood is cut"),
    intents.NO_STEP: _("door {door}: the plan has no step “{kind}”"),
    intents.FLAT_FIRST: _("wood is milled flat and to thickness before it rides on saw or fence"),
    intents.NEVER_GLUED: _("strip {strip} is of several boards, and no step glues it up"),
    intents.OTHER_BOARDS: _("strip {strip} is told to be of {told} boards, and laid out as {laid}"),
    intents.GLUED_UP_FIRST: _("boards are glued up before they are cut to size together"),
    intents.EDGE_FIRST: _("both edges are true before anything rides on them"),
    intents.LONG_FIRST: _("what runs along a strip is cut before the strip is cut into pieces"),
    intents.SQUARE_FIRST: _("a strip's end is squared before lengths are taken from it"),
    intents.LENGTH_FIRST: _(
        "a piece is cut to length before its joints, which are set from its ends"
    ),
    intents.SCRAP_FIRST: _("a setting that a fit hangs on is tried on scrap before good wood"),
    intents.SLOT_FIRST: _("a slot comes before what is fitted to it"),
    intents.SHOULDER_FIRST: _("shoulders come before cheeks, so that the waste falls free"),
    intents.MITRE_FIRST: _("a mitre is cut while the wood behind it is whole"),
    intents.STRAIGHT_FIRST: _("an edge is shaped when no cut needs it straight any more"),
    intents.SHAPE_FIRST: _("a groove along a shaped edge follows that edge"),
    intents.ENDS_FIRST: _("ends come before long edges, which take away what tears out"),
    intents.JOINTS_FIRST: _("every joint is cut before the dry fit"),
    intents.FIT_BEFORE_SIZE: _("a panel is cut to the opening of the dry frame"),
    intents.FIT_BEFORE_GLUE: _("a frame is tried dry before it is glued"),
    intents.FIT_BEFORE_FINISH: _("finish goes on when a frame has been tried dry"),
    intents.TRIM_BEFORE_GLUE: _("surplus is sawn off before glue, so that cramps bear"),
    intents.SIZE_BEFORE_FINISH: _("finish goes on when a piece is at its size"),
    intents.FINISH_BEFORE_GLUE: _(
        "panels are finished before glue, or bare wood shows when they move"
    ),
    intents.WHILE_WET: _("diagonals are measured while the glue is wet"),
    intents.GLUED_BEFORE_FLUSH: _("a frame is trimmed flush when its glue is dry"),
    intents.GLASS_LAST: _("glass goes in when all sawing, planing and finishing is done"),
    intents.HUNG_LAST: _("a door is hung when it is done"),
}
