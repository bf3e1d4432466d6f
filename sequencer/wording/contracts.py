"""What is wrong with a `plan.json`."""

from __future__ import annotations

from sequencer.facts import contracts
from sequencer.wording.catalogue import Table, _

TEXTS: Table = {
    contracts.NOT_JSON: _("no JSON from here on"),
    contracts.UNREADABLE: _("not JSON that can be read: {why}"),
    contracts.KEY_TWICE: _('key "{key}" stands twice'),
    contracts.NOT_A_NUMBER: _("{text} is no number"),
    contracts.TOO_DEEP: _("a number too long, or brackets too deep"),
    contracts.NO_PLAN: _("a plan is one JSON object"),
    contracts.OTHER_SCHEMA: _('schema is {schema}, not "{wanted}"'),
    contracts.PLAN_AGAIN: _("plan the job again to write it anew"),
    contracts.NO_STRING: _('{place}: a number is written as a string, as "23/4", not {value}'),
    contracts.NO_RATIONAL: _('{place}: {value} is no rational in lowest terms, as "23/4" or "19"'),
    contracts.NO_FACT: _("{place}: {value} is no fact that is known here"),
    contracts.NO_MEASURE: _("{place}: {value} is nothing that is measured"),
    contracts.NONE_OF: _("{place}: {value} is none of {choices:comma}"),
    contracts.MISSING: _('{place}: key "{key}" is missing'),
    contracts.WANTED: _("{place}: {wanted} is wanted, not {value}"),
    contracts.A_STRING: _("a string"),
    contracts.TRUE_OR_FALSE: _("true or false"),
    contracts.WHOLE_NUMBER: _("a whole number"),
    contracts.A_LIST: _("a list"),
    contracts.A_LIST_OF: _("a list of {n}"),
    contracts.AN_OBJECT: _("an object"),
    contracts.AN_OBJECT_WITH: _("an object with {keys}"),
}
