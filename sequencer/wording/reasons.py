"""Why one operation comes before another, in words that go on after “after setup 3: ”; and why a
setup stands where it does."""

from __future__ import annotations

from sequencer.facts import reasons
from sequencer.wording.catalogue import Table, _, counted_

TEXTS: Table = {
    reasons.MILLED: _("all stock of one thickness is milled together"),
    reasons.LONG: _("worked on the long strip, then crosscut"),
    reasons.PLANED: _("the sawn edge is planed before the strip is worked on"),
    reasons.CHAIN: _("each crosscut squares the next piece's end"),
    reasons.LENGTH: _("true edge and length first, then joints"),
    reasons.TEST_READY: _("its test piece is cut first"),
    reasons.GROOVED: _("the slot is set from the groove"),
    reasons.SLOT_FIRST: _("slots before the tenons that are fitted to them"),
    reasons.SHOULDER_FIRST: _(
        "all shoulders before any cheek, so no loose offcut is trapped at the stop"
    ),
    reasons.TONGUE_LAST: _("the tongue is fitted to the test strip's groove"),
    reasons.ENDS_FIRST: _("ends before long edges, which clean up the tear-out across the grain"),
    reasons.FREED_LAST: _("the pass with the edge down comes last: its offcut falls free"),
    reasons.OUTER_FIRST: _("from the open face inward, so that it never stands on a sliver"),
    reasons.FACE_FIRST: _("face cheeks before edge cheeks"),
    reasons.SHAPED: _("joints first, while the rail's edges are still straight"),
    reasons.FOLLOWS: _("the groove follows the shaped edge"),
    reasons.WHOLE_JOINT: _("every joint cut before the dry fit"),
    reasons.GLUED_UP: _("boards are glued up first, then ripped and crosscut to size"),
    reasons.MEASURED: _("the dry frame's opening is measured before its panel is cut to size"),
    reasons.TRIMMED: _("horns are sawn off before glue, so that the cramps bear"),
    reasons.SIZED: _("the panel is at its final size before finish"),
    reasons.FINISHED: _("panels are finished before glue"),
    reasons.BENCH: _("the order at the bench"),
    reasons.BACKED: _("the mitre is cut while the wood behind it is whole"),
    reasons.NEAR_FIRST: _("the waste is nibbled away up to a shoulder that is already cut"),
    reasons.WALL_FIRST: _("the width is measured from a wall that is already cut"),
    reasons.TONGUE_FITTED: _("slots before the tongues that are fitted to them"),
    reasons.AFTER_SETUPS: counted_(
        "after setup {setups}: {because}", "after setups {setups}: {because}"
    ),
    reasons.AFTER_WORK: _("after {work}: {because}"),
    reasons.AFTER_MILLING: _("after milling"),
    reasons.STAY: counted_("{knobs:comma} stays as set", "{knobs:comma} stay as set"),
    reasons.SERVES: _("serves {doors} doors at once"),
}
