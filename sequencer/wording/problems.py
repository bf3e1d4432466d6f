"""What is wrong with the file of an ordering problem."""

from __future__ import annotations

from sequencer.facts import problems
from sequencer.wording.catalogue import Table, _

TEXTS: Table = {
    problems.UNREADABLE: _("cannot be read: {reason}"),
    problems.NO_AMOUNT: _("{option} is a number from 0 up"),
    problems.TOO_LARGE: _("is larger than {most} bytes"),
    problems.NO_UTF_8: _("is not UTF-8 at byte {byte}"),
    problems.NOT_JSON: _("no JSON from here on"),
    problems.TOO_DEEP: _("not JSON that can be read: a number too long or brackets too deep"),
    problems.KEY_TWICE: _('"{key}" stands twice in one object'),
    #
    problems.MISSING: _('"{key}" is missing'),
    problems.MISSING_AT: _('{place}: "{key}" is missing'),
    problems.UNKNOWN_KEY: _('{place}: unknown key "{key}"; did you mean "{near}"?'),
    problems.UNKNOWN_ON_TOP: _('unknown key "{key}"; did you mean "{near}"?'),
    problems.NO_OPERATION: _("{place}: there is no operation {name}{near}"),
    problems.DID_YOU_MEAN: _('; did you mean "{name}"?'),
    problems.NOT_WANTED: _("{place}: {wanted}, not {value}"),
    problems.THE_PROBLEM: _("the problem: {wanted}, not {value}"),
    problems.AN_OBJECT: _("an object"),
    problems.A_LIST: _("a list"),
    problems.VALUES: _("a list of values"),
    problems.A_TEXT: _("a text in quotes"),
    problems.A_NUMBER: _('an exact number like "3" or "5/2"'),
    problems.WHOLE_NUMBER: _("a whole number"),
    problems.A_PAIR: _("two operations and perhaps a reason"),
    problems.FIRST_SETTING: _('first_setting is "free" or "paid", not {value}'),
    #
    problems.LIMIT_ENDED: _("the limit of {limit} ended the search"),
    problems.LIMIT_ENDED_ABOVE: _(
        "the limit of {limit} ended the search; at most {minutes} above the best"
    ),
}
