"""Why no cuts, or no order of them, can be made as asked, with what would do."""

from __future__ import annotations

from sequencer.facts import sequences
from sequencer.wording.catalogue import Table, _

TEXTS: Table = {
    sequences.HOUSINGS_MEET: _("{mark}: {bars} go right through it in the same place"),
    sequences.TENON_TOO_SHORT: _(
        "{mark}: a tenon of {length} is no longer than the kerf of {kerf}, and leaves nothing to "
        "set the stop by"
    ),
    sequences.TOO_LONG_FOR_SLED: _(
        "{mark} is {length} long, and its strip, with what squaring and holding take, is longer "
        "than the {longest} that the sled takes: write a longer [sled] longest in the shop file "
        "if the sled has an outrigger, or cut it by hand"
    ),
    sequences.TEST_TOO_LONG: _(
        "a test piece is {length} long, and its strip, with what squaring and holding take, is "
        "longer than the {longest} that the sled takes: write a longer [sled] longest in the shop "
        "file if the sled has an outrigger"
    ),
    sequences.NO_LOW_GUARD: _(
        "grooves, shoulders and cheeks take the guard off, and the shop file names neither a "
        "riving knife that can be set low ([saw] knife) nor what covers the blade instead "
        "([saw] cover): fit one and name it"
    ),
    sequences.NOT_AS_IT_WAS: _("this can no longer be cut as it was ({answers:comma})"),
    sequences.CUT_ELSEWHERE: _(
        "{operation} was cut with the {knob} at {was}, and by what was measured it should have "
        "been {wanted}: measure what was cut, enter that reading at its own step, then this one "
        "again"
    ),
    sequences.WAIT_FOR_EACH_OTHER: _("these operations wait for each other: {chain}"),
    sequences.COMES_FIRST: _("{first} comes before {later} ({because})"),
    sequences.NO_TEST_PIECE: _("there is no test piece {mark}"),
    sequences.LEFT_OVER: _("an order could not be rewritten: something was left over"),
    sequences.WAITS_FOR_LATER: _("an order could not be rewritten: a cut waits for a later one"),
    sequences.NO_PLACE: _(
        "what was measured leaves no place for {operation}, which is done already"
    ),
    sequences.HAS_BECOME: _("{operation}: {knob} {was} has become {now}"),
}
