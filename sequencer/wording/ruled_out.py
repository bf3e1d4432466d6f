"""The hazards of cuts that are not printed: what is wrong, what it does, what would do instead."""

from __future__ import annotations

from sequencer.facts import Kind
from sequencer.facts import cautions as c
from sequencer.wording.catalogue import _
from sequencer.wording.told import JAMS, ROCKS, Told

_TOO_SHALLOW = _("The cut stays too shallow, and a part that is forced breaks out.")

RULED_OUT: dict[Kind, Told] = {
    # ---- guidance and waste
    c.A04: Told(
        _("The offcut, {measured} wide, is left loose between blade and fence."),
        JAMS,
        _("Set the fence to the part's own width, so that the offcut falls on the open side."),
    ),
    c.A06: Told(
        _("The stop is on the side of the offcut, which is left between stop and blade."),
        JAMS,
        _("Put the end that is kept against the stop."),
    ),
    c.A07: Told(
        _("Cut across the grain, the piece bears on the fence over {measured}, less than {limit}."),
        _("It turns on the fence and is thrown back."),
        _("Crosscut it on the sled, or by hand."),
    ),
    c.A11: Told(
        _("The stop still stands where the offcut of the squared end falls."),
        JAMS,
        _("Take the stop off the sled before the first end is squared."),
    ),
    c.A11_FENCE: Told(
        _("The rip fence still stands beside the blade."),
        _("What the cut frees jams between fence and blade and is thrown."),
        _("Push the fence right away before sled or jig is used."),
    ),
    # ---- hands, and small pieces
    c.B01: Told(
        _("{measured} is too little to lie on the fence and be held; the least is {limit}."),
        _("It turns, is thrown back, and the hand follows into the blade."),
        _("Rip a blank of {limit} or more and cut that to length afterwards, or use a hand saw."),
    ),
    c.B02: Told(
        _("{measured} long, the piece is shorter than open blade and knife gap, {limit} together."),
        _("The back of the blade lifts it and throws it."),
        _("Rip it from a longer blank and cut that to length afterwards, or use a hand saw."),
    ),
    # ---- blade, guard and riving knife
    c.C02: Told(
        _("The blade is set {measured} high, no higher than the {limit} that it must cut through."),
        _("The piece rides on the blade and is thrown; so do half-depth passes from two sides."),
        _("Raise the blade a little above the piece, or use a larger saw or a band saw."),
    ),
    c.C03: Told(
        _("A rip without a riving knife: the kerf closes on the back of the blade."),
        _("The piece will be thrown back."),
        _("Refit the riving knife and the guard before the cut."),
    ),
    c.C04: Told(
        _("A rip without its guard."),
        _("The bare blade will maim."),
        _("Refit the guard before the cut."),
    ),
    c.C05: Told(
        _(
            "The riving knife ({measured}) must be thicker than the blade's plate and thinner than "
            "its kerf ({limit})."
        ),
        _("The piece jams on the knife, or closes on the blade and is thrown back."),
        _("Use a blade that suits the knife, or the knife that belongs to the blade."),
    ),
    c.C08: Told(
        _("Guard or riving knife were off for the cuts before, and no step puts them back."),
        _("The bare blade will maim."),
        _("Refit them first. A plan that forgets it is a fault of this program: please report it."),
    ),
    c.C09: Told(
        _("The guard must come off, and the shop file names nothing that holds the piece down."),
        _("The piece lifts, the blade is bare, and the hand that steadies the piece is cut."),
        _("Fit a featherboard or another hold-down and name it in the shop file (saw.hold_down)."),
    ),
    # ---- grooves and grooving heads
    c.D01: Told(
        _("A grooving head in a through cut: no riving knife fits it."),
        _("The piece will be thrown back."),
        _("Cut through with a single blade, guard and riving knife on."),
    ),
    c.D02: Told(
        _("A tilted grooving head can meet the insert, and cuts a slot that no hold-down follows."),
        _("It breaks, or throws the piece."),
        _("Cut it upright, or with a single blade."),
    ),
    c.D03: Told(
        _("The grooving head measures {measured}; {limit} is the most."),
        _("Arbor, nut and motor are overloaded; the set comes loose or throws the piece."),
        _("Use a narrower or smaller set, in two passes, or a single blade."),
    ),
    c.D04: Told(
        _("The shop file does not say that this saw takes a grooving head; many cannot."),
        _("On a short arbor the nut does not hold, and a braked blade can come loose."),
        _(
            "Cut with a single blade in several passes; or read the manual and local rules, fit "
            "the wide insert, and say `dado = true` under [saw]."
        ),
    ),
    # ---- on end and on edge
    c.E01: Told(
        _("A piece on end without a jig has nothing to stand on."),
        _("It tips into the blade's opening and the hand follows."),
        _(
            "Clamp it in a tenoning jig, or cut the joint with a hand saw. Only a panel's end may "
            "be bevelled on the fence, its back flat against it."
        ),
    ),
    c.E02_TALLEST: Told(
        _("{measured} on end is too tall; {limit} stand between table and ceiling."),
        _("It sways, strikes the ceiling and twists in the blade."),
        _(
            'Up to {limit} would do. Stub tenons (kind = "stub tenon" under [joint]) need no '
            "stile on end; else saw the joint, or plane the bevel, by hand."
        ),
    ),
    c.E03: Told(
        _("This cut frees the cheek's waste between blade and jig."),
        JAMS,
        _("Turn the piece round, so that the waste falls on the open side."),
    ),
    c.E04: Told(
        _("This cut frees the cheek's waste between blade and stop."),
        JAMS,
        _("Cut the shoulder before the cheek."),
    ),
    c.E06: Told(
        _("The blade leans toward the fence and lies over what is between them."),
        _("The piece jams under the blade and is thrown back."),
        _("Move the fence to the other side, so that the blade leans away from it."),
    ),
    # ---- strips
    c.F02: Told(
        _("Only {measured} of the board is left at the fence; the least is {limit}."),
        _("There is nothing to hold or push."),
        _("Cut strips off a wider board, and stop at {limit}."),
    ),
    # ---- the saw's envelope
    c.H01: Told(
        _("At {measured} the piece is longer than the {limit} that the sled takes."),
        _("It tips off the sled in the cut."),
        _(
            "Crosscut it roughly with a hand saw first, or support it and say so in the shop file "
            "(sled.longest)."
        ),
    ),
    c.H02: Told(
        _("At {measured} the board is wider than the {limit} that the sled takes."),
        _("It stands off the sled's fence and turns in the cut."),
        _("Cut it with a hand-held saw and a guide, or on a larger sled (sled.widest)."),
    ),
    c.H03: Told(
        _("The jig must clamp {measured}; it opens {limit}."),
        _("A piece that is not clamped tips into the blade."),
        _(
            "Cut this on the sled on edge or with a hand saw, make the piece narrower, or use a "
            "jig that opens wider (jig.opening)."
        ),
    ),
    c.H04: Told(
        _("The blade must stand {measured} above the table; the saw raises it {limit}."),
        _TOO_SHALLOW,
        _(
            "Make the part narrower or the joint shallower, take the deck off the carrier, or saw "
            "it by hand (saw.max_height)."
        ),
    ),
    c.H05: Told(
        _("This cutter must stand {measured} above the table; being smaller, it reaches {limit}."),
        _TOO_SHALLOW,
        _("Use a larger blade, make the joint shallower, or saw it by hand."),
    ),
    c.H06: Told(
        _("Only {measured} is left above the cut for the jig to clamp; the least is {limit}."),
        _("It tips out of the jig into the blade."),
        _("Cut the joint on a longer blank and crosscut that afterwards, or use a hand saw."),
    ),
    c.H07: Told(
        _("Between its shoulders the piece bears over {measured}; the least is {limit}."),
        _("It tips at the shoulder into the blade."),
        _("Groove it on the strip before the joint, or carry it in a block that rides the fence."),
    ),
    c.H08: Told(
        _("Between its cheeks the piece bears on the jig over {measured}; the least is {limit}."),
        _("It turns in the clamp, and the blade takes it."),
        _(
            "Make the stiles narrower or the door wider, cut the joint on a longer blank, or use a "
            "hand saw."
        ),
    ),
    # ---- tilted blades, standing panels, rebates, mitres, narrow bars
    c.J01: Told(
        _("On edge at the fence the piece stands on {measured} only; the least is {limit}."),
        ROCKS,
        _("Cut it while the stick is long, or with a plane or at a router table."),
    ),
    c.J01_END: Told(
        _("On end at the fence the panel stands on {measured} only; the least is {limit}."),
        ROCKS,
        _("Plane this bevel by hand, cut it at a router table, or make the panel {limit} wide."),
    ),
    c.J02: Told(
        _("This cut frees the rebate's strip between blade and fence."),
        _("It jams and is shot back."),
        _("Strip to the open side; or make this cut first, while the strip still hangs on."),
    ),
    c.J03: Told(
        _("One pass leaves the corner loose between blade and stop."),
        JAMS,
        _("Nibble the corner away pass by pass, or saw it by hand."),
    ),
}
