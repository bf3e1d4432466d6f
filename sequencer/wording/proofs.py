"""The proof: what is wrong with a plan's cuts, and what was shown of a plan that is good."""

from __future__ import annotations

from sequencer.facts import proofs
from sequencer.wording.catalogue import Table, _, counted_

TEXTS: Table = {
    proofs.AT_STEP: _("step {step} ({kind}, setup {setup}), piece {piece}: {what}"),
    proofs.AT_BENCH: _("step {step} ({kind}, at the bench), piece {piece}: {what}"),
    proofs.AT_PIECE: _("piece {piece}: {what}"),
    proofs.STEP: _("step {step} ({kind})"),
    proofs.PLACE: _("x {x} to {x1}, y {y} to {y1}, z {z} to {z1}"),
    proofs.SIZE: _("{length} × {width} × {thickness}"),
    proofs.LOSES_WOOD: _("it loses wood that it is to keep: {where}"),
    proofs.KEEPS_WOOD: _("it keeps wood that it is to lose: {where}"),
    proofs.KEEPS_WOOD_BESIDE: _(
        "it keeps wood that it is to lose: {where}; cuts beside it: {steps:comma}"
    ),
    proofs.FIN_STANDS: _("with a kerf {hair} thinner, wood is left standing: {where}"),
    proofs.NOT_SHAPED: _("no step takes off what is shaped at the bench: {where}"),
    proofs.NEVER_CUT: _("no later step cuts it from {strip}"),
    proofs.ON_NO_STRIP: _("no step cuts it from a strip"),
    proofs.NOTHING_DESIGNED: _("what is cut out of it by design leaves nothing of it"),
    proofs.NO_SHAPE: _("what is drawn as its “{feature}” has no volume"),
    proofs.TEST_PIECE_IS: _("the test piece is {found}, not {wanted}"),
    proofs.MIRRORED: _(
        "with end A up its inside edge is to be on the {wanted}, and off its strip it is on the "
        "{found}: its mirror image, which no turning makes of it"
    ),
    proofs.UNLIKE_ENDS: _("either hand is said to do, and its ends are unlike"),
    proofs.NOTHING_THERE: _("there is no {mark} to cut"),
    proofs.NO_SETUP: _("it is cut without a setup"),
    proofs.ALL_CUT: _("all its pieces are cut already"),
    proofs.NOT_NAMED: _("it comes next off {strip}, and the step has no word of it"),
    proofs.COMES_OFF_ELSEWHERE: _("it comes off {strip} at {found}, and is laid out at {laid_out}"),
    proofs.INSIDE_EDGE_CUT_OFF: _("the true inside edge is cut off"),
    proofs.NOTHING_TO_MEASURE: _("an earlier test has left it no wood to measure"),
    proofs.NOT_THERE_YET: _("there is no such piece yet"),
    proofs.BENCH_MISSES: _("what the bench takes off is not there"),
    proofs.BENCH_SHAPE: _("what the bench takes off has no volume"),
    proofs.PASSES: counted_("the one pass was", "all {n} passes were"),
    proofs.PARTS: counted_("the one part", "all {n} parts"),
    proofs.DOORS: counted_("1 door", "{n} doors"),
    proofs.SAWN: _("{passes} sawn in the computer; {parts} came out to size"),
    proofs.TOGETHER: _("{doors} put together in the computer: {shows:comma}"),
    proofs.NO_GAP_AT_JOINTS: _("no gap shows at the joints"),
    proofs.NO_GAP_OUTSIDE: _("no gap shows at the edges"),
    proofs.PANELS_FREE: _("panels free to move"),
    proofs.BOARDS_FREE: _("boards free to move, their tongues in their grooves"),
    proofs.PANES_HELD: _("panes with room, held all round"),
    proofs.SIZES_AS_STATED: _("sizes and gaps as you gave them"),
    proofs.TRUSTED: _(
        "shaped at the bench, and trusted to be as drawn, not proven: {pieces:comma}"
    ),
    proofs.DRAWN_ELSEWHERE: _(
        "the fit of the pieces is not proven: they were drawn elsewhere; try them together dry"
    ),
}
