"""What is assumed of a shop that does not say, and what is wrong with a shop file.

What is assumed is common practice, as the heading over the list says; the others name what they
rest on.
"""

from __future__ import annotations

from sequencer.facts import shops
from sequencer.wording.catalogue import Table, _

TEXTS: Table = {
    shops.GRADUATION: _("fence and rules are divided in {value}"),
    shops.MAX_HEIGHT: _("the blade goes up to {value} (from memory, a 10-inch saw)"),
    shops.KNIFE: _("the riving knife can be set below the blade's top"),
    shops.HOLD_DOWN: _("what holds the work down: {value}"),
    shops.FENCE_SIDE: _("the rip fence is used on the {value} of the blade"),
    shops.TILTS: _("the blade tilts to the {value}"),
    shops.JIG_SIDE: _("the tenoning jig works on the {value} of the blade"),
    shops.CUTTER: _("the only cutter: {value}"),
    shops.KERF: _("{of}: kerf {value} (published for full-kerf blades; measure a cut in scrap)"),
    shops.DIAMETER: _("{of}: diameter {value}"),
    shops.GRIND: _("{of}: {value} teeth, so corners are pared by hand"),
    shops.SLED_DECK: _("the crosscut sled's deck is {value} thick"),
    shops.SLED_LONGEST: _("the sled takes strips up to {value} long"),
    shops.SLED_WIDEST: _("the sled takes boards up to {value} wide"),
    shops.SLED_CLAMP: _("the sled has a clamp for short pieces"),
    shops.NO_AIDS: _("no aid is at hand ([aids]): what a setup needs is made before"),
    shops.JIG_RIDES: _("the tenoning jig runs in the mitre slot"),
    shops.JIG_DECK: _("the tenoning jig has no deck: the piece stands on the table"),
    shops.JIG_OPENING: _("the tenoning jig's clamp opens {value}"),
    shops.CALIPER: _("a caliper is read in steps of {value:decimal}"),
    shops.RULE: _("a rule is divided in {value:file}"),
    shops.TAPE: _("a tape is read to {value}"),
    shops.MINUTES: _("minutes for {each:comma}"),
    shops.MINUTES_FOR: _("{what} {value}"),
    shops.MINUTES_TIMED: _("{what} {value} (median of {n} times)"),
    shops.OTHER_SCALE: _("settings are shown to {value}, though the shop's scales are in {own}"),
    shops.SHORT_REACH: _("it reaches at least {least:file}"),
    shops.NO_SUCH_SCALE: _("no scale is divided in {step:file}"),
    shops.JIG_LACKS_THICKNESS: _("a jig on the fence needs its thickness"),
    shops.MEASURE_JIG: _(
        "measure from the fence to the face that the piece is clamped to, and write it as thickness"
    ),
    shops.JIG_BESIDE_FENCE: _(
        "a jig on the fence works where the fence is, on the {side} of the blade"
    ),
    shops.NO_JIG_SIDE: _(
        "leave side out, or say under [saw] on which side of the blade the fence is used"
    ),
    shops.JIG_ADDS_NOTHING: _("a jig in the mitre slot adds nothing to the fence reading"),
    shops.NO_JIG_THICKNESS: _('leave thickness out, or write rides = "fence"'),
    shops.TOO_MANY_CUTTERS: _("{n} cutters, more than {most}"),
    shops.KEEP_CUTTERS: _("keep those of this job"),
    shops.CUTTER_LACKS: _("this cutter has no {key}"),
    shops.NAME_CUTTER: _('write name = "…", as the sheets are to show it'),
    shops.MEASURE_KERF: _("saw a scrap, measure the cut, and write it as kerf"),
    shops.LOOSER_LENGTH: _("this is looser than the rule's own {own:file}"),
    shops.LOOSER_NUMBER: _("this is looser than the rule's own {own}"),
    shops.ONLY_STRICTER: _("a shop may only be stricter: leave the line out"),
    shops.TOO_MANY_MINUTES: _("{key} is over {most} minutes"),
    shops.CHECK_IT: _("check it"),
    shops.ODD_KERF: _("a kerf of {kerf:file}"),
    shops.ODD_DIAMETER: _("a diameter of {diameter:file}"),
    shops.BLADES_HAVE: _("a blade has from {low:file} to {high:file}: check the unit"),
    shops.DADO_SETS_HAVE: _("a grooving head has from {low:file} to {high:file}: check the unit"),
    shops.PLATE_BINDS: _("a plate of {plate:file} binds in a kerf of {kerf:file}"),
    shops.PLATE_IS_THINNER: _("a blade's plate is thinner than its kerf"),
    shops.NAMED_TWICE: _("two cutters are named {name}"),
    shops.OWN_NAME: _("give each its own name"),
    shops.NO_BLADE: _("no blade among the cutters"),
    shops.WRITE_BLADE: _('write a [[cutter]] with kind = "blade"'),
    shops.KNIFE_UNSUITED: _("a riving knife of {knife:file} does not suit the {blade}"),
    shops.KNIFE_SUITS: _(
        "it must be thicker than the plate and thinner than the kerf of {kerf:file}"
    ),
    shops.LOW_BLADE: _("a blade that goes up only {height:file}"),
    shops.MEASURE_HEIGHT: _("measure from the table to the top of a tooth, the blade right up"),
    shops.HIGH_BLADE: _("a blade that goes up {height:file}"),
    shops.HALF_DIAMETER: _("less than half its diameter, {half:file}, can stand out of the table"),
    shops.THICK_DECK: _("a deck {deck:file} thick"),
    shops.DECK_AT_MOST: _("at most {most:file}: check the unit"),
}
