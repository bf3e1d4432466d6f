"""What leaves are held to: what is wrong with what a plan says of it; and the lines that tell of it
on the sheets."""

from __future__ import annotations

from sequencer.facts import tolerances
from sequencer.wording.catalogue import Table, _, counted_

TEXTS: Table = {
    tolerances.MISSING: _("{what:cap}, {pieces:comma}: the plan does not say how it comes out"),
    tolerances.NOTHING_ASKED: _("{what:cap}, {pieces:comma}: nothing in the plan is held to that"),
    tolerances.OTHER_LIMITS: _("{what:cap}, {pieces:comma}: that is not what it is held to"),
    tolerances.OTHER_WORST: _(
        "{what:cap}, {pieces:comma}: at the worst it comes out between {least:decimal} and "
        "{most:decimal}, and the plan says {told_least:decimal} and {told_most:decimal}"
    ),
    tolerances.OTHER_COUNT: _(
        "{what:cap}, {pieces:comma}: there are {found} of them, and the plan says {told}"
    ),
    tolerances.OTHER_SHARE: _(
        "{what:cap}, {pieces:comma}: what the plan says takes a share of it does not"
    ),
    tolerances.OTHER_FIRST_TRY: _(
        "{what:cap}, {pieces:comma}: a share of about {found} is right at the first try, and the "
        "plan says {told}"
    ),
}

# The first page.
ALL_HOLD = counted_(
    "With every reading inside its window, the one thing that must hold holds even at the worst.",
    "With every reading inside its window, all {n} things that must hold do even at the worst.",
)
SOME_HOLD = counted_(
    "With every reading inside its window, {n} of {all} things that must hold does even at the "
    "worst; the others may fail, see “What the doors are held to”.",
    "With every reading inside its window, {n} of {all} things that must hold do even at the "
    "worst; the others may fail, see “What the doors are held to”.",
)
FIRST_TRY = _(
    "Of joints that are cut to fit, about {share} in 100 go together at the first try ({what})."
)

# The table.
BETWEEN = _("{least} to {most}")
AT_LEAST, AT_MOST = _("at least {least}"), _("at most {most}")
DOWN_TO, UP_TO = _("down to {least}"), _("up to {most}")
IN_100 = _("{share} in 100")
HOLDS, MAY_FAIL = _("holds"), _("may fail")
WINDOW = _("window in step {step} {amount}")
READING_OF = _("reading in step {step} {amount}")
PASSES = _("passes {amount}")
THICKNESS = _("thickness {amount}")
SETTING = _("settings not checked {amount}")
SOME_MARKS = _("{first} to {last}, {n} doors")

TERMS: dict[str, str] = {
    "required.tenon-in-slot": _("air between tenon and slot"),
    "required.halves-flush": _("faces of half-laps out of line"),
    "required.panel-in-groove": _("air round a panel’s or board’s edge in its groove"),
    "required.tongue-in-groove": _("air round the boards’ tongues"),
    "required.faces-in-line": _("faces out of line at a joint, before planing"),
    "required.backs-in-line": _("backs out of line at a joint, before planing"),
    "required.rail-proud": _("rail ends proud of the stile, to be planed off"),
    "required.stile-proud": _("stile ends proud of the rail, to be planed off"),
    "required.tenon-off-bottom": _(
        "room between a stub tenon and the groove’s bottom; what is missing is pared off"
    ),
    "required.panel-free-across": _("a panel’s play across the grain"),
    "required.panel-held-across": _("a panel’s edge in each groove"),
    "required.panel-free-along": _("a panel’s play along the grain"),
    "required.panel-held-along": _("a panel’s end in each groove"),
    "required.boards-free": _("gap between boards at their widest"),
    "required.boards-held": _("a tongue in its groove, boards at their narrowest"),
    "required.pane-free": _("a pane’s play in its rebates"),
    "required.pane-held": _("a pane’s edge in each rebate"),
    "required.gap-open": _("the free side’s gap"),
    "required.height-in-opening": _("gaps above and below together"),
    "required.lap-covers": _("how far the door laps over its case"),
    "required.square": _("difference of the diagonals"),
}
"""What is required, by its id in the plan."""

OVER_YEAR: dict[str, str] = {
    "panel-free-across": _("a panel’s play across the grain, at its widest"),
    "panel-held-across": _("a panel’s edge in each groove, at its narrowest"),
    "gap-open": _("the free side’s gap at its narrowest in the year"),
}
"""The same where the wood's movement was worked out: it holds all year then."""
