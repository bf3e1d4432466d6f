"""The hazards in four parts each: what is dangerous, what it does, how it is avoided; and the one
line that stands for it where it was told in full before.

Short, because a box that is not read warns of nothing. What each setup's own settings show (guard
on or off, what covers the blade instead) is not said again here.
"""

from __future__ import annotations

from sequencer.facts import Kind
from sequencer.facts import cautions as c
from sequencer.wording.catalogue import _
from sequencer.wording.ruled_out import RULED_OUT
from sequencer.wording.told import PUSH_BLOCK, PUSH_STICK, ROCKS, THERE, Told

HAZARDS: dict[Kind, Told] = {
    **RULED_OUT,
    # ---- guidance and waste
    c.A08: Told(
        _("The piece bears on the fence over {measured}, less than its {limit} across."),
        _("It turns and is thrown back."),
        _("Cut it on the sled, or from a longer blank."),
        _("Short on the fence, {measured}: a carrier holds it."),
    ),
    # ---- hands, and small pieces
    c.B03: Told(
        _("{measured} is too short to be held by hand; the least is {limit}."),
        _("The piece turns and the fingers are at the blade."),
        _("Sled's clamp on it before the saw starts, no hand on it."),
        _("{measured} is short: sled's clamp on it."),
    ),
    c.B04: Told(
        _("Held by hand, the fingers come within {measured} of the blade; keep {limit}."),
        _("A slip takes fingers."),
        _("Clamp {side} to the sled."),
        _("Fingers within {measured}: clamp {side}."),
    ),
    c.B05: Told(
        _("{measured} to the fence: no room for a hand."),
        _("It is cut, the piece thrown back."),
        _("Short fence; push stick, past the blade."),
        _("Narrow rip: push stick."),
        (PUSH_STICK,),
    ),
    c.B05_GROOVE: Told(
        _("{measured} between blade and fence: no room for a hand."),
        _("A hand that pushes there is cut."),
        _("Push block from start to finish."),
        _("{measured} to the fence: push block."),
        (PUSH_BLOCK,),
    ),
    c.B06: Told(
        _("Only {measured} to the fence."),
        _("A hand is cut, the piece thrown back."),
        _("Push block on a short auxiliary fence, past the blade; guard stays on."),
        _("{measured} to the fence: block on the auxiliary fence."),
        (PUSH_BLOCK,),
    ),
    c.B06_GROOVE: Told(
        _("Only {measured} between blade and fence."),
        _("A hand that pushes low is cut."),
        _("Push block from start to finish; pressed down by {hold_down}, never the fingers."),
        _("{measured} to the fence: push block."),
        (PUSH_BLOCK,),
    ),
    c.B07: Told(
        _("The rip ends with the hand at the blade."),
        _("Fingers are cut."),
        _("Short fence; push stick for the last {limit}, past the blade."),
        _("End of the rip: push stick."),
        (PUSH_STICK,),
    ),
    c.B07_REBATE: Told(
        _("The rebate ends with the hand at the blade."),
        _("Fingers are cut; the strip is thrown back."),
        _("Push block for the last {limit}, past the blade."),
        _("End of the rebate: push block."),
        (PUSH_BLOCK,),
    ),
    c.B08: Told(
        _("{measured} is short for the fence (under {limit})."),
        _("The piece tips into the blade, the hand with it."),
        _("Groove it on the strip, or carry it in a block that rides the fence."),
        _("{measured} is short: carry it in a block."),
    ),
    c.B08_BEVEL: Told(
        _("The panel stands on {measured} only (under {limit})."),
        ROCKS,
        _("Clamp it to a board that rides the tall fence, or plane this bevel by hand."),
        _("Stands on {measured}: clamp it to a riding board."),
    ),
    c.B09: Told(
        _("A small piece ({measured}, under {limit}) is hard to hold still."),
        _("It turns and pulls the fingers in."),
        _("Clamp {side} to the sled."),
        _("Small piece, {measured}: clamp {side}."),
    ),
    # ---- blade, guard and riving knife
    c.C01: Told(
        _("{measured} of blade above the piece, more than {limit}."),
        _("More of it can reach the hand."),
        _("Lower it if all pieces of this setup allow; guard down on the work."),
        _("{measured} of blade above the piece: guard down."),
    ),
    c.C03_SLED: Told(
        _("No riving knife on the sled: wood can close on the blade."),
        _("It lifts and is thrown."),
        _("Straight, dry wood; leave the loose part alone until the blade stops."),
        _("No riving knife: straight wood only."),
    ),
    c.C04_SLED: Told(
        _("Blade out at the back."),
        THERE,
        _("{held}"),
        _("{held}"),
    ),
    c.C04_SQUARE: Told(
        _("Blade at the back, offcut loose."),
        _("A hand is cut, the offcut thrown."),
        _("{held} Never the offcut."),
        _("{held} Never the offcut."),
    ),
    c.C09_GROOVE: Told(
        _("Blade out at the groove's end, {gap} from the fence."),
        THERE,
        _("Press down before it: {hold_down}. Push block to the end."),
        _("{gap} to the fence: push block."),
        (PUSH_BLOCK,),
    ),
    c.C09_SLED: Told(
        _("Hidden blade, out at the back."),
        THERE,
        _("{held}"),
        _("Hidden blade. {held}"),
    ),
    c.C09_SWEEP: Told(
        _("Many passes over a hidden blade."),
        _("Attention slips; a hand in line is cut."),
        _("{held} Overlap the passes."),
        _("Many passes. {held}"),
    ),
    c.C09_JIG: Told(
        _("{depth} of open blade at the piece's foot."),
        _("A hand there is cut, a loose piece thrown."),
        _("Clamp each pass, hands on the handles."),
        _("Open blade: hands on handles."),
    ),
    c.C09_REBATE: Told(
        _("Rebate, {gap} from the fence: its strip may come free."),
        _("It is shot back; a hand behind the blade is cut."),
        _("Strip on the open side. Press down: {hold_down}. Push block to the end."),
        _("{gap} to the fence: strip outside, push block."),
        (PUSH_BLOCK,),
    ),
    c.C09_BEVEL: Told(
        _("Panel on edge, blade leaning: waste falls loose."),
        _("A panel that tips, or a hand outside, meets the blade."),
        _("Press to the tall fence above the blade: {hold_down}. Push block to the end."),
        _("Leaning blade: press to the tall fence above it."),
        (PUSH_BLOCK,),
    ),
    c.C09_HOUSING: Told(
        _("Housing: many passes over a hidden blade."),
        _("Attention slips; a hand in line is cut."),
        _("{held} From the stop back to the first kerf, overlapping."),
        _("Many passes. {held}"),
    ),
    c.C09_MITRE: Told(
        _("The blade drags the piece along the mitre sled's fence."),
        _("Fingers go along, over a hidden blade."),
        _("Clamp it for every pass, hands behind the fence; passes overlap. Unclamp it at rest."),
        _("It creeps to the hidden blade: clamp it for every pass."),
    ),
    c.C11: Told(
        _("The cutter is {measured} across, less than three fifths of the largest ({limit})."),
        _("Guard and riving knife do not reach it; its teeth run too slowly."),
        _("Use a larger blade."),
        _("Small cutter, {measured}: guard and knife set to it."),
    ),
    c.C13: Told(
        _("A saw that starts."),
        _("Fingers are cut off."),
        _("Unplug before touching cutter, guard or knife."),
        _("Unplug."),
    ),
    c.C15: Told(
        _("Drawing back past the running blade."),
        _("It catches and throws."),
        _("Stop it first."),
        _("Stop first."),
    ),
    # ---- grooves and grooving heads
    c.D04_ALLOWED: Told(
        _("A grooving head is heavy and slow to stop; no riving knife fits it."),
        _("It comes loose under a nut half on; a piece that catches is thrown."),
        _("Arbor right through the nut, wide insert in, set turns free. Feed slowly."),
        _("Grooving head: nut fully on, wide insert, no riving knife."),
    ),
    c.D05: Told(
        _("{measured} is deep for one pass (over {limit})."),
        _("The blade grabs and throws the piece."),
        _("Several passes of rising depth, the last at this setting."),
        _("{measured} deep: rising passes."),
    ),
    # ---- on end and on edge
    c.E02: Told(
        _("{measured} on end is tall (over {limit})."),
        _("It sways, tips and twists in the blade."),
        _("Clamp it high and low, look for headroom, feed slowly; or saw it by hand."),
        _("{measured} tall: clamp high and low."),
    ),
    c.E02_FENCE: Told(
        _("The panel stands {measured} tall on its end (over {limit})."),
        _("It sways along the fence, tips and twists in the blade."),
        _("Clamp a board to it that rides the tall fence's top; or plane the bevel by hand."),
        _("{measured} tall: clamp it to a riding board."),
    ),
    c.E05: Told(
        _("Standing, it needs a fence {measured} high; this one has {limit}."),
        _("It leans on to the blade."),
        _("Tall fence, {measured} or higher, screwed to the rip fence."),
        _("Tall fence, {measured} or higher."),
    ),
    c.E07: Told(
        _("{measured} can drop into the insert's opening, as anything up to {limit}."),
        _("It jams and is thrown."),
        _("Zero-clearance insert; leave thin strips until the blade stops."),
        _("{measured}: zero-clearance insert."),
        (_("zero-clearance insert"),),
    ),
    c.E08: Told(
        _("{measured} of blade beside the piece (over {limit})."),
        _("Whatever meets it is lost."),
        _("Cover both sides, feed slowly; or band saw, hand saw, narrower frame."),
        _("{measured} of blade: cover both sides."),
    ),
    c.E09: Told(
        _("Waste drops beside the blade."),
        _("It is thrown."),
        _("Leave it until the blade stops."),
        _("Waste drops: leave it."),
    ),
    # ---- strips
    c.F01: Told(
        _("Only {measured} between blade and fence (under {limit})."),
        _("It bends into the blade and is shot back."),
        _("Push block on the auxiliary fence, past the blade."),
        _("Narrow strip, {measured}: block on the auxiliary fence."),
        (PUSH_BLOCK,),
    ),
    c.F02_STOP: Told(
        _("A strip of {measured} falls on the open side."),
        _("Reached for, it takes the hand along."),
        _("Strip stop before the blade, fence moved up for each; leave strips until it is still."),
        _("Strips of {measured} on the open side: strip stop."),
    ),
    # ---- what always holds, and long pieces
    c.G01: Told(_("Chips and noise."), _("Eyes and ears are lost."), _("Wear protection.")),
    c.G02: Told(
        _("The blade, and what it throws."),
        _("It will maim."),
        _("Never in its line, over or behind it; offcuts once it stops."),
    ),
    c.G03: Told(
        _("Wood dust."),
        _("Asthma, cancer."),
        _("Extract it; wear a mask."),
    ),
    c.G03_WOODS: Told(
        _("Wood dust ({woods})."),
        _("Allergy, asthma, cancer."),
        _("Extract it; wear a mask."),
    ),
    c.G04: Told(
        _("Gloves, sleeves, cords, rings, hair."),
        _("They wind the hand in."),
        _("Off, or tied back."),
    ),
    c.G05: Told(
        _("A long piece tips."),
        _("It lifts into the blade."),
        _("Support its overhang."),
        _("Support long pieces."),
    ),
    c.G07: Told(
        _("A jammed piece."),
        _("It is thrown, with the hand."),
        _("Hold it, switch off; never pull back; unplug, then free it."),
    ),
    c.S01: Told(
        _("A plan sees no saw, wood or hands."),
        _("A wrong cut maims."),
        _("Manual, local rules, qualified instruction come first; no cut without training."),
    ),
    c.S02: Told(
        _("Visitors, calls, minors."),
        _("A glance aside costs fingers."),
        _("Nobody near or talking; minors only under qualified supervision."),
    ),
    c.S03: Told(
        _("Wood that rocks or binds."),
        _("It is thrown, with the hand."),
        _("Flat, straight pieces; all checks ticked."),
    ),
    # ---- tilted blades, standing panels, rebates, mitres, narrow bars
    c.J04: Told(
        _("On end it is only {measured} wide (under {limit})."),
        _("It turns under the clamp into the blade."),
        _("Backing block that fills the jig; or a wider blank, or a hand saw."),
        _("{measured} wide: backing block."),
    ),
    c.J04_EDGE: Told(
        _("On end its edge bears over {measured} only (under {limit})."),
        _("It turns under the clamp into the blade."),
        _("Backing block behind its face, clamped with it; or a hand saw."),
        _("Bears on {measured}: backing block."),
    ),
    c.J05: Told(
        _("A tilted blade can touch insert, fence or guard."),
        _("Teeth and splinters fly."),
        _("Insert for tilted cuts; unplugged, turn the blade by hand past all three."),
        _("Tilted: turn it by hand past insert, fence, guard."),
        (_("insert for tilted cuts"),),
    ),
    c.J06: Told(
        _("A tilted blade cuts into sled or jig, and can meet stop or clamp."),
        _("Metal or wood is thrown."),
        _("Use one made for that tilt; turn the blade by hand past stop and clamp first."),
        _("Tilted: turn it by hand past stop and clamp."),
    ),
    c.J07: Told(
        _("Nothing clamps the piece to the mitre sled; at 45° the blade drags it along."),
        _("The fingers are drawn to the blade."),
        _("Clamp it to the fence (and say so in the shop file), abrasive paper between."),
        _("No clamp named: clamp it to the fence."),
    ),
    c.J08: Told(
        _("The blade was tilted before."),
        _("Not quite square, it spoils every joint after."),
        _("Turn it to its stop; square on the plate, not on a tooth."),
        _("Square the blade again."),
    ),
    c.J09: Told(
        _("It stands on its tongue, {measured} (under {limit})."),
        ROCKS,
        _("Bearing strip on the fence, for the second rebate."),
        _("Stands on {measured}: bearing strip for the second rebate."),
    ),
    c.J10: Told(
        _("{measured} thick, it can creep under the fence."),
        _("It jams and is thrown."),
        _("Auxiliary fence tight on the table, without a gap."),
        _("{measured} thick: auxiliary fence tight on the table."),
    ),
    c.J10_GAP: Told(
        _("{measured} thick, it can creep under the fence."),
        _("It jams and is thrown."),
        _("No gap under the fence."),
        _("{measured} thick: no gap under the fence."),
    ),
    # ---- at the bench
    c.K01: Told(
        _("A router's cutter."),
        _("It runs away with the hand."),
        _("Clamp the work; feed against its turn; set down once still; unplug to change it."),
        _("Router: clamp the work."),
    ),
    c.K02: Told(
        _("Oily rags."),
        _("They catch fire by themselves."),
        _("Spread outdoors to dry, or lidded in water."),
        _("Oily rags: spread outdoors."),
    ),
    c.K03: Told(
        _("Glass edges."),
        _("They cut."),
        _("Gloves, off again before the saw."),
        _("Glass edges: gloves."),
        (_("gloves"),),
    ),
}
