"""How good a plan's order is, of what was compared, and what was not looked at; and what another
way of cutting would take, in words that go on after its name and a colon."""

from __future__ import annotations

from sequencer.facts import claims
from sequencer.wording.catalogue import Table, _

TEXTS: Table = {
    claims.PROVEN: _("proven: no other order of these cuts takes fewer minutes of setting up"),
    claims.PROVEN_OF_WAYS: _(
        "proven: no other order, by any of the {ways} ways compared, "
        "takes fewer minutes of setting up"
    ),
    claims.AT_MOST: _("at most {above} above the best possible"),
    claims.AT_MOST_OF_WAYS: _(
        "at most {above} above the best possible, of all {ways} ways compared"
    ),
    claims.EACH_BY_ITS_OWN: _(
        "ways are compared for the batch as a whole: each door by its own, "
        "which was not looked at, could save {could_save} at the very most"
    ),
    claims.OTHER_VALUES: _(
        "of the ranges that the job leaves free, some values alone were looked at: "
        "another could save {could_save} at the very most"
    ),
    claims.FITS_BETTER: _(
        "another way takes {could_save} less of setting up, but {fitting} more at the dry fit, "
        "for joints that do not go together at once"
    ),
    claims.AIDS: _(
        "making and fitting aids takes {could_save} on top, which the search did not weigh: "
        "another order, or way, could save that at the very most"
    ),
    claims.REFUSED: _("refused as unsafe"),
    claims.MORE: _("{more} more"),
    claims.AT_LEAST_MORE: _("at least {more} more"),
    claims.NO_QUICKER: _("no quicker"),
    claims.QUICKER: _("{less} less, but more at the dry fit"),
    claims.NOT_ORDERED: _("not ordered; {less} less at the very most"),
    claims.MORE_AS_ORDERED: _("{more} more as ordered, {less} less at the very most"),
    claims.NO_QUICKER_AS_ORDERED: _("no quicker as ordered, {less} less at the very most"),
}
