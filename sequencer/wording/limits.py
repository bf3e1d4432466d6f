"""The plan against its own shop and leaves: numbers that disagree."""

from __future__ import annotations

from sequencer.facts import limits
from sequencer.wording.catalogue import Table, _

TEXTS: Table = {
    limits.NO_CUTTER: _("setup {setup}: the shop has no “{cutter}”"),
    limits.OTHER_KERF: _("setup {setup}: the kerf of “{cutter}” is {kerf}, the shop says {stated}"),
    limits.TOO_HIGH: _("setup {setup}: the blade stands {height} high, and the saw goes to {most}"),
    limits.TOO_WIDE_FOR_JIG: _("it is {found} across, and the jig takes {most}"),
    limits.TOO_LONG_FOR_SLED: _("it is {found} long, and the sled takes {most}"),
    limits.TOO_WIDE_FOR_SLED: _("it is {found} wide, and the sled takes {most}"),
    limits.NO_LEAF: _("door {door}: its other leaf {leaf} is missing"),
    limits.HANGS_WRONG: _("door {door}: this leaf of a pair hangs on the {side}"),
    limits.PANE_NOT_ORDERED: _("pane {pane} is not ordered"),
    limits.PANE_ORDERED_TWICE: _("pane {pane} is to be ordered once"),
    limits.PANE_OF_OTHER_SIZE: _("pane {pane} is ordered in another size than it has in its door"),
    limits.NO_SUCH_PANE: _("pane {pane} is ordered, and stands in no door"),
    limits.STRIP_NOT_BOUGHT: _("strip {strip} is in no line of the rough list"),
    limits.STRIP_BOUGHT_TWICE: _("strip {strip} is in the rough list twice"),
    limits.OTHER_STOCK: _("strip {strip} is listed with other wood or thickness than it has"),
    limits.OTHER_SUM: _(
        "the rough list's sizes of {material}, {thickness} thick, are not those of its strips"
    ),
}
