"""Mid rails and muntins: what is wrong with them, and what would do."""

from __future__ import annotations

from sequencer.facts import bars
from sequencer.wording.catalogue import Table, _, counted_

TEXTS: Table = {
    bars.TOO_MANY: _("more than {most} bars in a door"),
    bars.LEAVE_SOME_OUT: _("leave some out"),
    bars.NO_KIND: _("this bar has no kind"),
    bars.MID_RAIL_IN_ROW: _("a mid rail belongs to no row"),
    bars.MID_RAILS_MAKE_ROWS: _("leave row out: mid rails make rows, a muntin divides one"),
    bars.IN_SLAB: _("a slab has no bars"),
    bars.BARS_OR_SLAB: _("leave out the bars, or what makes the door a slab"),
    bars.NO_SUCH_ROW: counted_(
        "a muntin in row {row}, and there is only one row",
        "a muntin in row {row}, and there are only {rows} rows",
        by="rows",
    ),
    bars.ROWS: counted_("leave row out", "row 1 to {rows}, from the top", by="rows"),
    bars.PARTLY_PLACED: _("this {bar} says where it is, and one beside it does not"),
    bars.PLACE_ALL_OR_NONE: _(
        'write at = "…" for all of them, or for none: then the lights are equal'
    ),
    bars.TOO_NARROW: _("a {bar} {width} wide keeps only {keeps} between its two grooves"),
    bars.WIDE_ENOUGH: _("at least {least:file}, with grooves {depth} deep along both edges"),
    bars.OVERLAP: _("bars overlap, or lie over the frame, by {by}"),
    bars.SMALL_LIGHT: _("a light beside this bar is only {left} {way}"),
    bars.LARGER_LIGHT: _("leave at least {least}: another place, narrower bars, or fewer"),
    bars.BRIDLES_MEET: _("T-bridles of two muntins meet in the mid rail between them"),
    bars.STUB_OR_CLEAR: _('write bars = "stub tenon" under [joint], or move one muntin clear'),
}
