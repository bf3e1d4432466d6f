"""The plan's bookkeeping: what the proof finds wrong in it."""

from __future__ import annotations

from sequencer.facts import books
from sequencer.wording.catalogue import Table, _

TEXTS: Table = {
    books.AT_STEP: _("step {step} ({kind}), piece {pieces:comma}: {what}"),
    books.AT_STEP_ALONE: _("step {step} ({kind}): {what}"),
    books.PIECE_TWICE: _("piece {mark} is there twice"),
    books.STRIP_TWICE: _("strip {mark} is there twice"),
    books.LAID_OUT_TWICE: _("piece {mark} is laid out on the strips twice"),
    books.DOOR_TWICE: _("door {mark} is there twice"),
    books.OPERATION_TWICE: _("{mark} is to be done twice"),
    books.SETUP_OUT_OF_PLACE: _("setup {found} stands where setup {wanted} should"),
    books.STEP_OUT_OF_PLACE: _("step {found} stands where step {wanted} should"),
    books.NO_SUCH_SCRAP: _("step {step}: there is no test piece {scrap}"),
    books.TARGET_NOT_GOOD: _(
        "step {step}: {measure} {target} would not be good itself, {low} to {high}"
    ),
    books.NEVER_TRIED: _("{operation} relies on {knob} {value}, never tried"),
    books.NO_SUCH_SETUP: _("there is no setup {setup}"),
    books.CUTS_WITHOUT_SETUP: _("it cuts without a setup"),
    books.SETUP_AFTER: _("setup {setup} comes after setup {after}"),
    books.SCRAP_UNCUT: _("nothing is cut on the test piece"),
    books.DONE_BEFORE: _("{operation} was done in step {step}"),
    books.NO_SUCH_OPERATION: _("{operation} is no operation of the plan"),
    books.OTHER_ORDER: _("{operation} stands where {solved} was solved"),
    books.NOT_IN_BOTH: _("{operation} is not in steps and order alike"),
    books.EDGE_OF_NOTHING: _("{first} before {later}: there is no such operation"),
    books.COMES_BEFORE: _("{later} comes before {first}"),
    books.NO_SUCH_WAY: _("{operation} has no way number {way}"),
    books.UNLIKE_STRIP: _("strip {strip} is not as wide and thick as {piece}"),
    books.SHORT_STRIP: _("strip {strip} is too short for {piece}"),
    books.GUARD_UNSAID: _("no step says that the guard is “{guard}”"),
    books.WRONG_GUARD: _("{mark} is cut with the guard “{guard}”"),
    books.FENCE_LEFT: _("the rip fence is not pushed away from the blade"),
    books.OFFCUT_TRAPPED: _("its offcut is left between the blade and the {knob}"),
    books.BENCH_IS_SET_FOR: _("{operation} is bench work, and the saw is set for it"),
    books.NEEDS: _("{operation} needs {knob} {values:or}, not {found}"),
    books.NEEDS_UNSET: _("{operation} needs {knob} {values:or}, and it is not set"),
    books.NOT_NEXT: _("setup {setup} does not follow the one before"),
    books.CHANGES_NOTHING: _("setup {setup} changes nothing"),
    books.CHANGES_WITHIN: _("{knob} changes within setup {setup}"),
    books.FORGOTTEN: _("{knob} was set, and is forgotten"),
    books.OTHER_CHANGES: _("setup {setup} says other changes than it makes"),
    books.HAS_VALUE: _("setup {setup} has {knob} {found}, not {wanted}"),
    books.SHOWS_OTHER: _("the {knob} shows {found} where the guide is {guide}"),
    books.NOT_SET: _("setup {setup} needs a {knob}, and none is set"),
    books.WRONG_DEPTH: _("height {height} over a deck of {deck} cuts not {depth}"),
    books.WRONG_MOVE: _("the {knob} moves by {found}, not {wanted}"),
    books.NO_SUCH_KNOB: _("there is no knob {knob}"),
    books.WRONG_COST: _("setup {setup} does not cost {minutes}"),
    books.WRONG_MINUTES: _("setups and cuts take {found}, not {told}"),
    books.WRONG_SETUPS: _("the plan has {found} setups, not {told}"),
    books.BELOW_BOUND: _("{minutes} are below the bound of {bound}"),
    books.NOT_PROVEN: _("called proven, with a bound of {bound}"),
}
