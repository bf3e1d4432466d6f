"""Taps: what each was, and why one does not count."""

from __future__ import annotations

from sequencer.facts import taps
from sequencer.wording.catalogue import Table, _

TEXTS: Table = {
    taps.TICKED: _("{piece} ticked"),
    taps.CARD_TICKED: _("{card} ticked"),
    taps.SKIPPED: _("{piece} skipped"),
    taps.MEASURING_SKIPPED: _("measuring skipped"),
    taps.ENTERED: _("{measure} entered"),
    taps.MEASURED: _("{what} entered"),
    taps.SPOILT: _("{mark} spoiled"),
    taps.NOT_UNDERSTOOD: _("that was not understood"),
    taps.WITHOUT: _("that was not understood: it names no {key}"),
    taps.NO_SUCH_TAP: _("that was not understood: there is no such tap"),
    taps.TOO_LONG: _("that was not understood: it is too long"),
    taps.NO_PLAN_YET: _("there is no plan yet"),
    taps.STEP_CHANGED: _("this step has changed since; look at it again"),
    taps.FILES_LEFT: _("changed file left aside"),
    taps.FILES_OTHERWISE: _("the file was changed once more: look at what it changes now"),
    taps.UNDO_THE_OTHER_FIRST: _("something else was ticked since; undo that first"),
    taps.MEASURED_NOT_TICKED: _("this is measured, not ticked"),
    taps.TICKED_ALREADY: _("that is ticked already"),
    taps.IS_SPOILED: _("{piece} is spoiled: leave it out, it is made again later"),
    taps.WAITS: _("{piece} waits for {first}: {reason}"),
    taps.STEP_OPEN: _("an earlier step is still open: finish it first, or skip it"),
    taps.COMES_FIRST: _("{mark} comes first: {reason}"),
    taps.FIRST_PIECE_FIRST: _("measure the first piece before the next is cut"),
    taps.RELIED_ON: _("this cannot be skipped: the steps after it rely on it"),
    taps.ONLY_NOW: _("only what is to be done now can be skipped"),
    taps.NEEDED: _(
        "{piece} cannot be skipped: {mark} waits for it ({reason}); if its piece is no good, mark "
        "it as spoiled"
    ),
    taps.TICKED_NOT_MEASURED: _("this is ticked, not measured"),
    taps.CUT_FIRST: _("cut it first, then measure"),
    taps.CUTS_SINCE: _(
        "cuts have been made with this setting since: if they are off too, mark their pieces as "
        "spoiled"
    ),
    taps.NO_FEEL: _("{measure} cannot be told by feel"),
    taps.NO_NUMBER: _("enter a number"),
    taps.NO_LENGTH: _("{message}: {hint}"),
    taps.NOTHING_TO_MEASURE: _("there is nothing of that name to measure"),
    taps.AGAIN_ALREADY: _("{mark} is to be made again already"),
    taps.NOT_CUT_YET: _(
        "{mark} has not been cut yet: if its strip is no good, mark {strip} as spoiled"
    ),
    taps.NO_PART: _("{mark} is no part of the doors"),
    taps.GLUED_UP: _(
        "door {door} is glued up, so that {mark} alone cannot be made again here: `sequencer "
        "recut JOB {mark}` plans a piece by itself"
    ),
    taps.NOT_NEEDED: _(
        "nothing is cut from {mark} or tried on it any more, so that it need not be made again; a "
        "tenon can be tried in the slot of a stile, too"
    ),
}
