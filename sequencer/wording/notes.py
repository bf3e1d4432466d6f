"""What is to be said of a plan: of its wood, its hands, its cutters and its saved settings."""

from __future__ import annotations

from sequencer.facts import Fact, notes
from sequencer.wording.catalogue import Table, _, counted_
from sequencer.wording.room import Room


def _moves_most(room: Room, fact: Fact) -> str:
    """The names stand in quotes: the tables' own have commas in them."""
    species = fact.given["species"]
    assert isinstance(species, tuple)
    names = [room.text(_("“{name}”"), name=name) for name in species]
    return room.text(
        _("{wood} may be any of {species:or}; the one that moves most was taken"),
        wood=fact.given["wood"],
        species=tuple(names),
    )


TEXTS: Table = {
    notes.UNEVEN_TEETH: _(
        "{cutter}: its teeth leave a slot's bottom and a shoulder's corner uneven; pare the "
        "corners with a chisel"
    ),
    notes.HAND_TAKEN: _(
        "{marks:comma}: the table does not say the hand; cut with the inside edge on the left as "
        "you see the marked face with end A up (for the other hand, inside = right)"
    ),
    notes.UNKNOWN_WOOD: _("{wood}: the tables of movement know no such wood; {so}"),
    notes.PANEL_KEEPS_PLAY: _("the panel keeps the play in the job file"),
    notes.GAP_AS_STATED: _("the free side's gap is as in the job file"),
    notes.MOVES_MOST: _moves_most,
    notes.WETTER_TODAY: _(
        "the wood is wetter today, {today:tenth} %, than its room will ever make it, "
        "{wettest:tenth} %: let it settle before it is milled"
    ),
    notes.OUTSIDE_LINEAR: _(
        "moisture outside 6 to 14 %: movement by Eq. 13-3 of the Wood Handbook, from shrinkage, "
        "where the tables have it"
    ),
    notes.SET_BY: _("saved setting {number}: {sets:comma}"),
    notes.HEIGHT: _("blade height {sets}"),
    notes.READS: _("reads {reads}"),
    notes.BY_GAUGE: _("{gauge}, reads {reads}"),
    notes.CORRECTED_UP: _(
        "{sets} (kerf {was:decimal} then, {now:decimal} now: reading corrected by +{by:decimal})"
    ),
    notes.CORRECTED_DOWN: _(
        "{sets} (kerf {was:decimal} then, {now:decimal} now: reading corrected by -{by:decimal})"
    ),
    notes.UNCORRECTED: _("{sets} (kerf {was:decimal} then, {now:decimal} now: nothing to correct)"),
    notes.BY_SCALE: counted_(
        "{knob}: set by what its scale was read to show so far ({n} reading), ± {spread:decimal}",
        "{knob}: set by what its scale was read to show so far ({n} readings), ± {spread:decimal}",
    ),
    notes.KNOCKED: _(
        "since {since} the scale of the {knob} reads otherwise by {by:decimal} ({carrier}): was it "
        "moved or knocked? What is set here goes by its latest readings"
    ),
    notes.ONE_CHECK_CUT: _("one check cut in place of dialling in"),
    notes.ONE_LOOK: _("a look at the first piece in place of a cut on scrap"),
    notes.KNOWING_SAVES: counted_(
        "what is known of this saw saves {minutes} at {n} number that is set here",
        "what is known of this saw saves {minutes} at {n} numbers that are set here",
    ),
    notes.BLOCK: _("gauge block {name}"),
    notes.SPACER: _("spacer {name}"),
    notes.STORY_STICK: _("story stick mark {name}"),
    notes.SETTINGS: counted_("saved setting {numbers:comma}", "saved settings {numbers:comma}"),
    notes.AND_MORE: _("saved settings {numbers:comma} and {more} more"),
    notes.DOUBTED: _(
        "{settings} would do here, but the {cutter} has been sharpened or changed since: saw a "
        "scrap, measure the kerf, write it in the shop file, and then run: sequencer setups note "
        '--checked "{cutter}"'
    ),
    notes.OTHER_CUTTER: _(
        "{settings} would do here, but not with this blade: dialled in with the {cutter}, so not "
        "used"
    ),
    notes.USELESS: _(
        "{settings} would do here, but by what was saved a scale is off by more than {most}, so "
        "not used: sequencer setups show and its number says what is kept, forget takes it out"
    ),
}
