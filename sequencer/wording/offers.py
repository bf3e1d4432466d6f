"""What would do instead of what is refused."""

from __future__ import annotations

from sequencer.facts import offers
from sequencer.wording.catalogue import Table, _

TEXTS: Table = {
    offers.TRIED: _("tried, and it plans: {each}"),
    offers.WOULD_DO: _("tried, and it would do: {each}"),
    offers.BOTH: "{each}",
    offers.WRITE_OF_DOOR: _("write {text} under {table} of door {n}"),
    offers.TAKE_LINE_OUT: _("leave {key} out"),
    offers.TAKE_OUT: _("leave {key} out under {table}"),
    offers.TAKE_OUT_OF_DOOR: _("leave {key} out under {table} of door {n}"),
    offers.NOTHING_DID: _("none of the small changes that were tried would do"),
    offers.MENDED: _("{file}: changed: {does}"),
    offers.MEND_WRITES: _("--mend writes the first into the file"),
    offers.CANNOT_MEND: _("--mend changes nothing: it knows nothing that would do"),
}
