"""Parts that cannot be made as the job asks (what would do is tried, and told beside it); glass and
stops to order.
"""

from __future__ import annotations

from sequencer.facts import Fact, parts
from sequencer.wording.catalogue import Table, _
from sequencer.wording.room import Room


def _edge_too_thin(room: Room, fact: Fact) -> str:
    given = fact.given
    given.pop("wider")
    return room.text(
        _(
            "{where}: a bevel {bevel} wide that fits the groove leaves the panel's edge {edge} "
            "thick, and {least} is the least"
        ),
        **given,
    )


def _ordered(room: Room, fact: Fact) -> str:
    said = room.text(_("measure the dry frame before ordering"))
    sold = fact.given["sold"]
    if sold is None:
        return said
    return room.text(_("{said}; sold as {sold} glass"), said=said, sold=sold)


TEXTS: Table = {
    parts.NAMED: "{name}",
    parts.NUMBERED: _("{name} {n}"),
    parts.OWN_NAME: "{name}",
    parts.LAP_HAS_NO_OFFSET: _("{where}: a half-lap is open to the back and has no offset"),
    parts.LAP_TOO_THIN: _("{where}: a half-lap leaves {wall} or more of both pieces"),
    parts.LAP_GROOVE_IN_FRONT: _(
        "{where}: the groove begins {groove} behind the face, in front of the plane at "
        "{plane}, where the stile goes on to the door's end"
    ),
    parts.LAP_GROOVE_TOO_WIDE: _(
        "{where}: behind the groove only {left} of the rail's lap are left, and {wall} is the least"
    ),
    parts.MITRE_NOT_TRIMMED: _(
        "{where}: the groove, {groove} wide, does not trim the tenon, {tenon} thick, and a cut "
        "that did would take the mitre's tip with it"
    ),
    parts.MITRE_WIDTHS_DIFFER: _(
        "{where}: a mitre at 45° joins pieces of one width, and these differ ({pieces:comma})"
    ),
    parts.PIECE_WIDTH: _("{piece} {width}"),
    parts.STUB_IN_GLASS: _("{where}: a stub tenon needs a groove, and glass stands in a rebate"),
    parts.STUB_TOO_SHORT: _(
        "{where}: a stub tenon is as long as the groove is deep, {depth}, and that is no "
        "longer than the kerf, {kerf}"
    ),
    parts.STUB_HAS_NO_SLOT: _(
        "{where}: a stub tenon stands in the groove, {groove} wide, and has no slot of its own"
    ),
    parts.STUB_BAR_IN_GLASS: _("{bar}: a stub tenon needs a groove, and glass stands in a rebate"),
    parts.BAR_IN_LAPS: _(
        "{bar}: a T-bridle needs wood on both sides of its slot, and half-laps leave none behind"
    ),
    parts.BAR_OFF_GROOVE: _(
        "{bar}: the groove of {across} is not as wide as the tongue that the bar straddles and "
        "in line with it, so the bar's middle cannot fill it"
    ),
    parts.BAR_LOSES_BACK: _("{bar}: rebates on both sides leave nothing of its back"),
    parts.BAR_MEETS_GLASS: _(
        "{part}: glass stands on both sides of it, and a bar let in by a T-bridle goes right "
        "through to the other side's rebate"
    ),
    parts.GROOVE_OUTSIDE_SLOT: _(
        "{where}: the groove ({groove} wide) reaches outside the slot ({slot} wide), so a gap "
        "would show at the door's top and bottom edges"
    ),
    parts.BOARD_TOO_THIN: _(
        "{where}: boards {thickness} thick, as the frame's groove takes them, keep {wall} "
        "beside a groove of {groove}, which is what the blade cuts; {least} is the least"
    ),
    parts.NO_ROOM_FOR_STOP: _(
        "{where}: behind a pane {pane} thick the rebate, {deep} deep, leaves {room} for a "
        "stop, and {least} is the least"
    ),
    parts.STEP_TOO_HIGH: _(
        "{where}: the top of the blade, {kerf} wide, frees the waste over a step of at most "
        "{most}, and {step} is asked for"
    ),
    parts.BEVEL_TOO_THIN: _(
        "{where}: a panel {thickness} thick with a step of {step} is no thicker at its bevel's "
        "end than in the groove, {mouth}"
    ),
    parts.PANEL_EDGE_TOO_THIN: _edge_too_thin,
    parts.NO_ROOM_FOR_PANEL: _("{where}: stiles, rails and groove leave no room for a panel"),
    parts.SHAPE_TAKES_TENON: _(
        "{where}: the groove that follows the {shape} leaves too little of the top rail's tenon"
    ),
    parts.TOO_DEEP_ON_END: _(
        "{where}: the {joint} at end {end} of {mark} is {depth} deep; on end the blade reaches "
        "{deepest}: make it shorter, or cut it by hand"
    ),
    parts.ORDER_PANE: _ordered,
    parts.ORDER_STOP: _(
        "moulding, no thicker and no wider; screwed, not glued, so that the glass comes out"
    ),
    parts.PANE: _("pane {mark}"),
    parts.STOP: _("glass stop"),
    parts.BOUGHT: "{what}",
}
