"""What each key of a job or shop file means, in a line, and each column of a table of pieces: a
shop's begin with `shop `, a table's with `pieces `.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from sequencer.wording.catalogue import _

if TYPE_CHECKING:
    from sequencer.wording.room import Room

KEYS: Mapping[str, str] = {
    "unit": _('"in" or "mm": the unit of every bare length in the file'),
    "name": _("the job, as the sheets head it"),
    "sure": _("a list of keys whose values are right though nobody usually has them"),
    "species": _("wood of the frames"),
    "face_side": _('"out" or "in": where the marked face, which rides fence and jig, looks'),
    "fill": _(
        '"flat", "raised", "boarded", "glass" or "slab"; left out, the one such table there '
        "is says it"
    ),
    "stock.thickness": _("as measured, after planing"),
    "stock.edge_allowance": _("comes off outside edges before joinery, where they are planed"),
    "stiles.hinge": _("width of the hinge stile"),
    "stiles.lock": _("a single leaf's other stile"),
    "stiles.meeting": _("where the two leaves of a pair meet"),
    "rails.top": _("width of the top rail"),
    "rails.bottom": _("width of the bottom rail"),
    "groove.depth": _("the panel's groove"),
    "groove.width": _("how wide it is"),
    "groove.offset": _("from the face side"),
    "panel.thickness": _(
        "where it is not given, the panel is planed to the groove; a raised one's field is "
        "two thirds of the stock, rounded down"
    ),
    "panel.species": _("wood of the panel"),
    "panel.play_side": _(
        "air at each side today, across the grain; computed where moisture and room are given"
    ),
    "panel.play_end": _("air at each end"),
    "panel.engagement": _(
        "what stays in each side's groove in the driest season, where the play is computed"
    ),
    "panel.match": _(
        '"book": a pair\'s panels are resawn from one thicker piece, so that their figure matches'
    ),
    "joint.kind": _('the corners: "bridle", "mitred bridle", "stub tenon" or "half-lap"'),
    "joint.bars": _('how mid rails and muntins are let in: "stub tenon" or "T-bridle"'),
    "joint.slot": _(
        "width of the slot; as free as that, it takes the fewest passes; of a half-lap the "
        "thickness of the rail's lap, about half"
    ),
    "joint.offset": _("from the face side"),
    "joint.clearance": _("what the tenon is thinner than the slot"),
    "joint.proud": _("what ends stand past the door until they are trimmed"),
    "joint.tenons": _('"one length" or "each stile"'),
    "gaps.top": _("air round the door in its opening"),
    "gaps.bottom": _("the same below"),
    "gaps.hinge": _("the same on the hinge side"),
    "gaps.lock": _("a single leaf's free side"),
    "gaps.meeting": _(
        "between the leaves of a pair: as the others, or as much more as their swelling "
        "asks; too small a gap is refused"
    ),
    "sits.how": _('"inset", or "overlay" for a door that laps over its case'),
    "sits.top": _(
        "how far an overlay door laps over the case's edge there; a side with a gap of its "
        "own does not"
    ),
    "sits.bottom": _("the same below"),
    "sits.hinge": _("the same on the hinge side"),
    "sits.lock": _("a single leaf's free side"),
    "meeting.rebate": _(
        "how far the leaves of a pair lap over each other; the right one opens first"
    ),
    "shape.kind": _(
        'the top rail\'s lower edge: "arch", "peak" or "valley", which is highest or lowest '
        "on the free side"
    ),
    "shape.rise": _("how much higher the light is where it is highest"),
    "hardware.hinge": _("what is to be ordered, in your words"),
    "hardware.hinges": _("how many a leaf: two, and one more from each further 40 in or 1000 mm"),
    "hardware.pull": _("one a leaf"),
    "hardware.catch": _("one a door"),
    "wood.sawn": _(
        '"flat" or "quarter": how the boards are sawn; quartersawn ones move about half as much'
    ),
    "wood.moisture": _("of the wood on the bench today, as a meter shows it, in percent"),
    "room.region": _("what wood indoors usually has there, one of the list below"),
    "room.driest": _("or: the moisture of wood in the room in its driest season, in percent"),
    "room.wettest": _("and in its wettest"),
    "room.humidity": _('or: the air\'s humidity over the year, as "30 to 55", in percent'),
    "room.temperature": _('beside it, as "20 C" or "68 F"'),
    "raised.bevel": _(
        "a raised panel: how wide its bevels are; panel.thickness is then the field's"
    ),
    "raised.step": _("how far the field stands above the bevels; a little under the kerf at most"),
    "boarded.width": _("tongue-and-groove boards: the most that one may show; all show alike"),
    "boarded.tongue": _("how long the tongues are"),
    "glass.thickness": _("a pane in a rebate: as measured"),
    "glass.under": _("what it is ordered under the rebate's width and height"),
    "slab.boards": _("a solid door without a frame: how many boards it is glued up from"),
    "door.name": _("what the sheets call it"),
    "door.mark": _("one to three capitals; for a pair a list of two"),
    "door.count": _("equal doors"),
    "door.leaves": _("2 for a pair"),
    "door.hinge": _("a single leaf's hinge side; a pair hangs on both"),
    "door.opening": _("its least width and height, as measured"),
    "bar.kind": _(
        'of each [[bar]], or [[door.bar]]: "mid rail", between the stiles, or "muntin", '
        'upright between two rails; beside glass it is a "mullion", and either word does'
    ),
    "bar.width": _("width of the bar"),
    "bar.at": _("its middle, from each leaf's bottom edge, a muntin's from the leaf's left edge"),
    "bar.row": _("the row of lights that a muntin divides, 1 at the top"),
    "rough.allowance": _("percent added to what is bought, for knots, checks and mistakes"),
    "rough.trim": _("comes off each end of a board"),
    "rough.edge": _("comes off one edge of a board, to straighten it"),
    "rough.milling": _("a rough board is at least this much thicker than what is planed from it"),
    "rough.kerf": _("of the saw that cuts boards down"),
    "board.mark": _("as it is chalked on the board"),
    "board.species": _("its wood"),
    "board.thickness": _("as measured, as are length and width; all three must be there"),
    "board.length": _("as measured"),
    "board.width": _("where it is narrowest"),
    "board.count": _("equal boards"),
    "board.planed": _("its faces are flat: nothing is lost to milling"),
    "board.trim": _("where this board needs more, or less"),
    "board.edge": _("where this board needs more, or less"),
    "shop name": _("the shop, as the sheets head it"),
    "shop sure": _("a list of keys whose values are right though nobody usually has them"),
    "shop words": _(
        "the trade words of screen and paper, rabbet or rebate; keys of files stay British, "
        "as does --help"
    ),
    "shop graduation": _("what fence and rules are divided in"),
    "shop saw.id": _(
        "what kept settings know the saw by, wherever this file lies; sequencer shop writes one"
    ),
    "shop saw.max_height": _("most height of the blade"),
    "shop saw.knife": _("a riving knife that can be set below the blade's top"),
    "shop saw.knife_thickness": _("how thick the knife is"),
    "shop saw.cover": _("what covers the blade where neither guard nor knife can stay"),
    "shop saw.hold_down": _("what holds the work down"),
    "shop saw.dado": _("its manual allows a dado set"),
    "shop saw.fence_height": _("of the rip fence with its tall face on"),
    "shop saw.fence": _(
        "side of the blade that the rip fence is used on, seen from before the saw"
    ),
    "shop saw.tilts": _(
        "side that the blade tilts to; for a leaning blade the fence stands on the other"
    ),
    "shop cutter.name": _(
        "as it is to stand on the sheets; with each [[cutter]] that is there, name and kerf "
        "are stated"
    ),
    "shop cutter.kind": _('"blade" or "dado"'),
    "shop cutter.kerf": _("as measured in scrap"),
    "shop cutter.diameter": _("the blade’s diameter"),
    "shop cutter.grind": _('"alternate" or "flat-top"; joinery prefers flat-top'),
    "shop cutter.plate": _("the blade's body"),
    "shop cutter.sharpened": _("how often it has been; its kerf is then measured again"),
    "shop fence.name": _("where you have more than one: settings are kept with it"),
    "shop fence.version": _("one more after it was changed, so that it reads otherwise"),
    "shop sled.name": _("where you have more than one: settings are kept with it"),
    "shop sled.version": _("one more after it was changed, so that it reads otherwise"),
    "shop sled.deck": _("thickness of the crosscut sled's deck"),
    "shop sled.longest": _("longest strip that it takes"),
    "shop sled.widest": _("widest board that it takes"),
    "shop sled.clamp": _("a clamp for short pieces"),
    "shop jig.name": _("where you have more than one: settings are kept with it"),
    "shop jig.version": _("one more after it was changed, so that it reads otherwise"),
    "shop jig.rides": _('the tenoning jig rides the "fence", or runs in the mitre "slot"'),
    "shop jig.thickness": _("what a jig on the fence adds to the fence reading"),
    "shop jig.deck": _("thickness of the deck that the piece stands on"),
    "shop jig.opening": _("how wide its clamp opens"),
    "shop jig.side": _("side of the blade that it works on; on the fence, where the fence is"),
    "shop aids.narrow_rip_fence": _(
        "at hand (true): a low fence for narrow rips, and the block that rides it"
    ),
    "shop aids.tall_fence": _("a tall fence, 8 in or 200 mm, for what stands on edge or end"),
    "shop aids.backing_block": _("blocks that fill the tenoning jig beside narrow pieces"),
    "shop aids.strip_stop": _("a stop that sets the width of strips on the open side"),
    "shop aids.piece_carrier": _("a carrier on the fence for short pieces"),
    "shop aids.riding_board": _("a board, clamped to a panel, that rides the tall fence's top"),
    "shop tools.caliper": _("steps that a caliper is read in; false where there is none"),
    "shop tools.caliper_reach": _("how far in its jaws reach"),
    "shop tools.rule": _("what a steel rule is divided in"),
    "shop tools.rule_reach": _("how long it is"),
    "shop tools.tape": _("how finely a tape is read"),
    "shop tools.blocks": _(
        'setup blocks and spacers at hand, as measured, a list: ["1/4", "1/2"]; one may also stand '
        "between jig and piece"
    ),
    "shop scales.height": _("what the scale of the blade's height is divided in"),
    "shop scales.fence": _("the same of the fence"),
    "shop scales.stop": _("of the sled"),
    "shop scales.jig": _("of a jig in the mitre slot"),
    "shop minutes.cutter": _("minutes for changing it, as are all these"),
    "shop minutes.tilt": _("minutes for it"),
    "shop minutes.height": _("minutes for it"),
    "shop minutes.carrier": _("fence, sled or jig put on the saw"),
    "shop minutes.guard": _("minutes for it"),
    "shop minutes.fence": _("minutes for it"),
    "shop minutes.stop": _("minutes for it"),
    "shop minutes.jig": _("minutes for it"),
    "shop minutes.spacer": _("a block put between jig and piece"),
    "shop minutes.test_cut": _(
        "until a usual setting is good; one that takes more tries counts more"
    ),
    "shop minutes.saved": _("setting a knob again to a reading that worked before"),
    "shop minutes.gauge": _("setting it by a gauge"),
    "shop minutes.check_cut": _("the one check cut that then stands for dialling in"),
    "shop minutes.nibble": _("one pass of a nibbled cut"),
    "pieces mark": _("its own for each piece: a letter, then up to five letters and figures"),
    "pieces name": _("as the sheets call it; without one, piece"),
    "pieces door": _("groups the pieces that go together; may be left empty"),
    "pieces material": _("the wood; without one, hardwood"),
    "pieces length": _("along the grain, as it leaves the saw, tenons included"),
    "pieces width": _("across the grain"),
    "pieces thickness": _("as measured, after planing"),
    "pieces unit": _("in or mm, the same in every row"),
    "pieces end_a": _("slot, tenon or empty"),
    "pieces end_b": _("the same for the other end"),
    "pieces depth_a": _("how deep the slot is from its end, or how long the tenon"),
    "pieces depth_b": _("the same for the other end"),
    "pieces slot": _("width of the slot, or of the slot that the tenon goes into; centred"),
    "pieces tenon_width": _("how much of the width a tenon keeps; without it, all but the groove"),
    "pieces groove_width": _(
        "of a groove along the inside edge, centred; empty where there is none"
    ),
    "pieces groove_depth": _("how deep it is"),
    "pieces inside": _(
        "left or right: the side of its inside edge, seen on the marked face with end A up; "
        "without it, left"
    ),
}


def key_text(room: Room, name: str) -> str:
    """What a key means; a shop's is asked for with `shop ` before its name."""
    return room.text(KEYS[name])
