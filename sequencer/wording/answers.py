"""What is said to a tap that counts."""

from __future__ import annotations

from fractions import Fraction

from sequencer.facts import Fact, Length, answers
from sequencer.wording.catalogue import Table, _, counted_
from sequencer.wording.numbers import minutes
from sequencer.wording.room import Room

_ONE = _("that is about one graduation of {step}")
_SEVERAL = _("that is about {n} graduations of {step}")


def _about_graduations(room: Room, fact: Fact) -> str:
    """In quarters, which may be told between two lines: `about 1½ graduations`."""
    n, step = fact.given["n"], fact.given["step"]
    assert isinstance(n, Fraction | int)
    assert isinstance(step, Length)
    return room.text(_ONE if n == 1 else _SEVERAL, n=minutes(Fraction(n)), step=step)


TEXTS: Table = {
    answers.A_TERM: "{term}",
    answers.GOOD: _("measured {measured:fine}, target {target:fine}: good"),
    answers.TOO_MUCH: _("measured {measured:fine}, target {target:fine}: {by:fine} too much"),
    answers.TOO_LITTLE: _("measured {measured:fine}, target {target:fine}: {by:fine} too little"),
    answers.ADJUST: _("measured {measured:fine}, target {target:fine}: {move}"),
    answers.OTHER_UNIT: _(
        "measured {measured:fine}, target {target:fine}: that looks like {unit}; enter it again "
        "with {sign} behind it"
    ),
    answers.TOO_FAR: _(
        "measured {measured:fine}, target {target:fine}: off by {by:fine}, more than a setting is "
        "ever off"
    ),
    answers.TOO_SHORT: _(
        "{mark} measures {measured:fine}, {by:fine} too short: if so, it is spoiled. Say so under "
        "More, then measure the next piece"
    ),
    answers.TOO_DEEP: _(
        "{mark} measures {measured:fine}, {by:fine} too deep: if so, it is spoiled. Say so under "
        "More, and dial in on the test piece before the next piece is cut"
    ),
    answers.CUT_DEEPER: _("then cut {mark} again and measure it again"),
    answers.NOTHING_CHANGED: _("nothing has been changed"),
    answers.FITS: _("it fits: taken as planned, since no number was entered"),
    answers.TIGHT: _("too tight, by the thickness of a sheet of paper to begin with: {move}"),
    answers.LOOSE: _("too loose, by the thickness of a sheet of paper to begin with: {move}"),
    answers.MOVE: _("move the {setting} {by:fine} {way}"),
    answers.THICKER: _("put {by:fine} more between jig and piece: {thin}"),
    answers.THINNER: _(
        "put {by:fine} less between jig and piece: a thinner block, and paper beside it"
    ),
    answers.TWICE: _(
        "this is half of what is wrong: the cut is made from both sides, so a move counts twice"
    ),
    answers.GRADUATIONS: counted_(
        "that is {n} graduation of {step}", "that is {n} graduations of {step}"
    ),
    answers.ABOUT_GRADUATIONS: _about_graduations,
    answers.A_TOUCH: _(
        "that is less than one graduation of {step}: turn the wheel a touch, then try"
    ),
    answers.LESS: _("that is less than one graduation of {step}: {thin}"),
    answers.NO_FEELER: _("thinner than any feeler of {size}; tap it, then try"),
    answers.FEELER: _("a feeler of {size}"),
    answers.PAPER: counted_(
        "{n} sheet of paper, or a feeler of {size}", "{n} sheets of paper, or a feeler of {size}"
    ),
    answers.TRY: _("that was try {n}"),
    answers.CUT_AGAIN: _("then cut the test piece again in the same place"),
    answers.END_SPENT: counted_(
        "that end is spent, too much is gone: cut its other end. Once both are spent, saw {off} "
        "off, square, by hand or on another saw: once",
        "that end is spent, too much is gone: cut its other end. Once both are spent, saw {off} "
        "off, square, by hand or on another saw: {n} times, all told",
    ),
    answers.BOTH_SPENT: counted_(
        "both ends are spent, too much is gone: saw {off} off each, square, by hand or on another "
        "saw, once; add what was sawn off to what is measured between them",
        "both ends are spent, too much is gone: saw {off} off each, square, by hand or on another "
        "saw, {n} times, all told; add what was sawn off to what is measured between them",
    ),
    answers.LAST_SPENT: _(
        "that end is spent, too much is gone: cut its other end; after that, another piece as thick"
    ),
    answers.EDGE_SPENT: _(
        "that edge is spent, too much is gone: take another strip or offcut as thick"
    ),
    answers.STOCK_NOTED: _("{at}: {value:decimal}"),
    answers.STOCK_EVEN: _("{at}: {value:decimal}, even enough"),
    answers.STOCK_UNEVEN: _(
        "{spread:decimal} between thinnest and thickest, {most:decimal} at the most: plane all of "
        "it once more, then enter both again"
    ),
    answers.NOTED_ALIKE: _(
        "measured {measured:decimal}, so far taken as {before:decimal}: so near that test cuts "
        "take it up; nothing changes"
    ),
    answers.LEFT_AS_CUT: _("{measured:decimal} stays as it is"),
    answers.NOTED: _("measured {measured:decimal}, so far taken as {before:decimal}: noted"),
    answers.NEVER_SO_FAR: _(
        "measured {measured:decimal}, so far taken as {before:decimal}: more than a {what} is ever "
        "off; is it in {unit}?"
    ),
    answers.REST_FOLLOWS: _("the rest now follows the {what} as measured, and is proven again"),
    answers.CHANGES_NOTHING: _("it changes nothing of what is still to be done"),
    answers.NO_LONGER_HOLD: _("on the printed sheet these no longer hold: {places}"),
    answers.CANNOT_FOLLOW: _("with the {what} as measured, {why}"),
    answers.REST_CANNOT: _("the rest cannot be made as planned: {says:comma}"),
    answers.CONTRADICTS: _(
        "what is cut already would not be what was accepted there: measure it once more, and look "
        "at the pieces"
    ),
    answers.CONTRADICTS_AT: _(
        "what is cut already would not be what was accepted there (the {cut} of {mark}): measure "
        "it once more, and look at the pieces"
    ),
    answers.LEFT_AS_IT_WAS: _(
        "the plan has been left as it was; undo this reading if it was a slip"
    ),
    answers.AGAIN_NOW: _("{mark} is spoiled: make it again now, the next step needs it"),
    answers.AGAIN_BEFORE: _(
        "{mark} is spoiled: it is made again before {before}; go on without it"
    ),
    answers.AGAIN_LATER: _("{mark} is spoiled: it is made again later; go on without it"),
    answers.FILES_CHANGED: _("the job or the shop file has been changed: {holds}, {gone}"),
    answers.TICKS_HOLD: counted_("{n} tick holds", "{n} ticks hold"),
    answers.TICKS_GONE: counted_(
        "{n} belongs to a step that is not the same any more",
        "{n} belong to steps that are not the same any more",
    ),
    answers.CUTS_GONE: _(
        "what was cut there does not count any more, look at {marks:comma}; changing the file back "
        "brings it back"
    ),
    answers.STRIPS_AGAIN: counted_(
        "this strip has to be made again: {marks:comma}",
        "these strips have to be made again: {marks:comma}",
    ),
    answers.MEASURE_AGAIN: _("measure again and enter: {what:comma}"),
    answers.LOST: "{pieces:comma}",
    answers.NOT_AGAIN: _("{mark} was spoiled: {why:comma}"),
    answers.KEPT: _("kept as saved setting {number}"),
    answers.NOT_KEPT: _(
        "this is not kept for later jobs yet, and tried again with every tap: {why:comma}"
    ),
    answers.UNDONE: _("undone: {tap}"),
}
