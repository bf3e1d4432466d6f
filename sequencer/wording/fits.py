"""Pieces put together, and doors in their openings: what does not fit."""

from __future__ import annotations

from sequencer.facts import fits
from sequencer.wording.catalogue import Table, _

TEXTS: Table = {
    fits.OF_PIECES: _("putting together, piece {pieces}, door {door}: {what}"),
    fits.OF_DOOR: _("putting together, door {door}: {what}"),
    fits.OF_PIECE: _("putting together, piece {piece}: {what}"),
    fits.OF_LEAVES: _("putting together, doors {left} and {right}: {what}"),
    fits.SPOT: _("x {x} to {x1}, y {y} to {y1}"),
    fits.NO_PLACE: _("it has no place in door {door}"),
    fits.NO_PIECE: _("there is no piece {mark}"),
    fits.NO_FRAME: _("the axes {axes:comma} are not square to each other"),
    fits.MIRRORED: _(
        "in its place its inside edge is on the {side} with end A up, and no turning of this piece "
        "brings it there"
    ),
    fits.FRAME_LACKS: _("a framed door has two stiles, and rails between them"),
    fits.SAME_PLACE: _("they would have to be in the same place"),
    fits.NOT_FLUSH: _("its faces are not flush with the stile's"),
    fits.MEETS_NOTHING: _("one of its ends meets no other piece"),
    fits.NO_TENON: _("no tenon reaches into the slot"),
    fits.OTHER_CLEARANCE: _("the tenon has {found} of clearance, not {wanted}"),
    fits.LOOSE_TENON: _("the tenon is {by} thinner than its slot"),
    fits.UNLIKE_CLEARANCES: _("its tenons have unlike clearances"),
    fits.OTHER_SIZE: _(
        "after trimming it is {width} × {height} from {x}, {y}, not {wanted} × {by}"
    ),
    fits.GAP_AT_EDGE: _("a gap shows at its {edge} ({where})"),
    fits.GAP_ON_FACE: _("a gap shows on its {face} ({where})"),
    fits.OPEN_SHOULDER: _("the shoulder is not closed on the {face}"),
    fits.BENCH_TAKES_WOOD: _("the bench takes off wood that it is to keep ({where})"),
    fits.EMPTY_LIGHT: _("a light has nothing in it ({where})"),
    fits.IN_NO_LIGHT: _("it is in no light"),
    fits.OUT_OF_GROOVE: _("it does not reach into the groove"),
    fits.OUT_OF_REBATE: _("it does not reach into the rebate"),
    fits.NO_PLAY: _("it cannot move in the groove"),
    fits.NO_ROOM: _("it has no room in the rebate"),
    fits.WOOD_IN_PLAY: _("wood stands where it is to move"),
    fits.NOT_FROM_BACK: _("it cannot be put in from the back ({where})"),
    fits.NOT_HELD: _("it is not held between the frame's front and its back"),
    fits.NO_TONGUE: _("no tongue reaches into the groove"),
    fits.TONGUE_BESIDE: _("the tongue is not between the groove's cheeks"),
    fits.TONGUE_STUCK: _("the tongue has no air at its groove's bottom"),
    fits.NO_HINGE_SIDE: _("no door hangs on its “{hinge}”"),
    fits.OTHER_GAP: _("the gap at its {side} is {found}, not {wanted}"),
    fits.SEEN_THROUGH: _("between them one sees through"),
}
