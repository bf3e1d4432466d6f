"""A door's numbers: what is wrong with them, and what would do.

What is to be written is given as a job file has it; the rest as it is measured.
"""

from __future__ import annotations

from sequencer.facts import doors
from sequencer.wording.catalogue import Table, _

TEXTS: Table = {
    doors.OWN_NAME: "{name}",
    doors.NUMBERED: _("door {n}"),
    doors.AT_MOST: _("at most {most:file}"),
    doors.AT_LEAST: _("at least {least:file}"),
    doors.MORE_THAN: _("more than {bound:file}"),
    doors.FROM_TO: _("from {least:file} to {most:file}"),
    doors.GIVE_SIZE: _("give its size, or leave the line out"),
    doors.LEAVE_OUT: _("leave it out"),
    doors.LEAVE_LINE_OUT: _("leave the line out"),
    doors.LEAVE_ONE_OUT: _("leave one of them out"),
    doors.WRITE: _("write {lines:or}"),
    doors.WRITE_BESIDE: _("write {lines:or} beside it"),
    doors.WRITE_UNDER: _("write {line} under [{table}]"),
    #
    doors.NOTHING: _("{key} is 0"),
    doors.OPENING_TOO_LARGE: _("an opening {opening} {way}, over {most}"),
    doors.CHECK_UNIT: _("check the unit: in this file a number without one means {unit}"),
    doors.NOTHING_LEFT: _("the gaps leave nothing of the door in an opening {opening} {way}"),
    doors.TOO_SMALL: _("a door only {size} {way}, under {least}"),
    doors.CHECK_OPENING: _("check the opening and the gaps"),
    doors.CHECK_OPENING_AND_UNIT: _("check the opening, the gaps and the unit"),
    doors.GAP_TOO_LARGE: _("a gap of {gap}, over {most}"),
    doors.GAP_NOT_OPENING: _("write how much is left open, not the opening"),
    doors.GAP_CLOSES: _("a gap of {gap} closes when the {wood} swell"),
    doors.LEAST_GAP: _("at least {least:file}, for wood this wide"),
    #
    doors.NO_LAP: _("a lap of 0 covers nothing"),
    doors.GIVE_LAP: _("give its lap, or {side} under [gaps]"),
    doors.INSET_LAPS: _("an inset door laps over nothing"),
    doors.OVERLAY_OR_NOT: _('write how = "overlay" beside it, or leave it out'),
    doors.LAP_AND_GAP: _("{side} is given both a lap over the case and a gap"),
    doors.OVERLAY_GAP: _("an overlay door covers its case on the {side}, and has no gap there"),
    doors.LAP_TOO_FAR: _("a lap of {lap}, over {most}"),
    doors.LAP_IS: _("write how far the door covers the case's edge"),
    doors.SLAB_REBATED: _("a slab has no meeting stiles"),
    doors.REBATE_TOO_SMALL: _("meeting stiles rebated by {by} hardly reach over their gap"),
    doors.REBATE_TOO_LARGE: _("a rebate of {by} leaves only {left} of the meeting stile"),
    doors.MEETING_STILE: _("a meeting stile {width:file} wide"),
    doors.REBATE_OR_STILE: _("at most {most:file}, or a meeting stile {width:file} wide"),
    #
    doors.STOCK_UNSUITED: _("stock {thickness} thick does not suit these joints"),
    doors.MUCH_PLANED: _("an edge allowance of {allowance} is more than is planed off an edge"),
    doors.WITHIN_GROOVE: _("the {piece}, {width} wide, is narrower than its groove is deep"),
    doors.LITTLE_BESIDE_GROOVE: _("the {piece} keeps only {left} beside its groove"),
    doors.WIDE_ENOUGH: _("at least {least:file}, for a groove {depth} deep"),
    doors.LITTLE_SIGHT: _("the {pieces} leave only {left} for the panel of a door {size} {way}"),
    doors.NO_SIGHT: _("the {pieces} leave nothing for the panel of a door {size} {way}"),
    doors.MORE_SIGHT: _("leave at least {least}: narrower {pieces}, or check the opening"),
    doors.PROUD: _("the ends would stand {proud} proud, which is too far"),
    doors.LOOSE: _("a clearance of {clearance} is too loose"),
    doors.SLOT_WITHIN_CLEARANCE: _("the slot is no wider than its clearance"),
    doors.ABOUT_A_THIRD: _("a slot is about a third of the thickness"),
    doors.CHANNEL_TOO_WIDE: _("a {what} {width} wide is too wide for stock {thickness} thick"),
    doors.AT_MOST_HALF: _("at most {most:file}, half of it: the slot is no wider than that"),
    doors.AT_MOST_A_THIRD: _("at most {most:file}; about a third of the thickness is usual"),
    doors.OUTSIDE_SLOT: _(
        "a groove {width} wide reaches outside the slot, {slot} wide, so that a gap would show at "
        "the door's edge"
    ),
    doors.IN_LINE_WITH_SLOT: _(
        "make the groove no wider than the slot and in line with it, or leave slot out"
    ),
    doors.NEAR_A_FACE: _(
        "the {what} begins {offset} from the face side, too near one of the faces"
    ),
    doors.OFFSET_FROM_TO: _("from {least:file} to {most:file} from the face side"),
    doors.THIN_CHEEKS: _("the {what} leaves cheeks of {cheek}, under {least}"),
    doors.THIN_CHEEK: _("the {what} leaves a cheek of only {cheek}"),
    doors.OFFSET_LEAVES: _(
        "an offset from {first:file} to {last:file} leaves {least} on both sides"
    ),
    doors.WIDTH_LEAVES: _("a {what} of at most {most:file} leaves {least} on both sides"),
    doors.PANEL_TOO_THICK: _("a panel {panel} thick does not go into a groove {groove} wide"),
    doors.GROOVE_TO_SUIT: _("leave out the groove's width, and it is made to suit the panel"),
    doors.PANEL_HARDLY_IN: _("the panel reaches only {reach} into its groove"),
    doors.LESS_PLAY: _("{key} at most {most:file}, so that {least} stays in the groove"),
    doors.DEEPER_GROOVE: _("a deeper groove, so that {least} stays in it"),
    #
    doors.KERF_TOO_WIDE: _("the kerf of {kerf} is wider than the {what} of {width}"),
    doors.THINNER_BLADE: _("fit a thinner blade, or leave the width out"),
    doors.STOCK_TOO_THIN: _("stock {thickness} thick is too thin for a kerf of {kerf}"),
    doors.THINNER_BLADE_OR_STOCK: _("fit a thinner blade, or take thicker stock"),
    doors.TOO_LONG_FOR_SLED: _("the {what} would be {size} long; the sled takes {most}"),
    doors.TOO_WIDE_FOR_SLED: _("the {what} would be {size} wide; the sled takes {most}"),
    doors.TOO_THICK_FOR_JIG: _("the stock is {size} thick; the jig opens {most}"),
    doors.CORRECT_SHOP: _("correct the shop file if it takes more"),
    doors.CROSSCUTS_TOO_HIGH: _(
        "crosscuts on the sled need the blade {needed} high; it rises {most}"
    ),
    doors.TENONS_TOO_HIGH: _(
        "tenons for the {piece} need the blade {needed} high; it rises {most}"
    ),
    doors.SLOTS_TOO_HIGH: _("slots for the {piece} need the blade {needed} high; it rises {most}"),
    doors.THINNER_BY: _("make it {by} thinner, or use a larger saw"),
    doors.NARROWER_BY: _("make it {by} narrower, or use a larger saw"),
}
