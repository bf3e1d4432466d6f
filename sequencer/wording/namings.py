"""The command `shop`: what it asks, and what it writes."""

from __future__ import annotations

from sequencer.facts import namings
from sequencer.wording.catalogue import Table, _, counted_

TEXTS: Table = {
    namings.WHICH_SAW: _("What do you call this saw? ({usual})"),
    namings.SAME_SAW: counted_(
        "{n} setting or reading is kept under the name “{name}”. Is it of this saw? (y/N)",
        "{n} settings and readings are kept under the name “{name}”. Are they of this saw? (y/N)",
    ),
    namings.WHICH_FITTING: _(
        "If you have more than one {body}, what do you call this one? (Enter: there is one)"
    ),
    namings.SAW_IS: counted_(
        "saw: {id}; {n} setting or reading is kept of it",
        "saw: {id}; {n} settings and readings are kept of it",
    ),
    namings.NO_NAME: _("{file}: the saw has no name of its own yet: write --saw, then its name"),
    namings.FITTING_IS: _("{body}: {name}"),
    namings.CUTTER_IS: _("cutter: {name}, kerf {kerf}{times}"),
    namings.SHARPENED: counted_(", sharpened once", ", sharpened {n} times"),
    namings.TAKEN_OVER: counted_(
        "{n} setting or reading that was kept under “{name}” is this saw's now",
        "{n} settings and readings that were kept under “{name}” are this saw's now",
    ),
    namings.WRITTEN: _("{file}: written"),
    namings.NO_SUCH_CUTTER: _("{file}: no [[cutter]] is called {name}"),
    namings.KERF_OF_WHICH: _("--kerf goes with --sharpened: one blade, and its new kerf"),
    namings.NOTHING_KEPT: _("nothing is kept under the name “{name}”"),
    namings.BY_HAND: _("{file}: cannot be changed line by line; write the keys by hand"),
    namings.MEASURE_KERF: _(
        "{name}: saw a scrap, measure the kerf and write it in the shop file; until then its "
        "settings wait"
    ),
}
