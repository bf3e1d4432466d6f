"""Ordering problems, and orders found for them: what is wrong with them."""

from __future__ import annotations

from sequencer.facts import orders
from sequencer.wording.catalogue import Table, _

TEXTS: Table = {
    orders.NAMED_AGAIN: _("{what} is named {n} times"),
    orders.KNOB: _('knob "{name}"'),
    orders.KNOB_AT: _('knob "{name}" at "{value}"'),
    orders.OPERATION: _('operation "{name}"'),
    orders.WAY: _('operation "{operation}", alternative {way}'),
    orders.COSTS_LESS_THAN_NOTHING: _("{what} costs less than nothing: {minutes}"),
    orders.TIE_BELOW_NOTHING: _('knob "{knob}" has a tie cost below nothing'),
    orders.NO_WAY: _('operation "{operation}" has no alternative'),
    orders.NEEDS_UNKNOWN: _('{what}, needs an unknown knob "{knob}"'),
    orders.ACCEPTS_NOTHING: _('{what}, accepts no value of "{knob}"'),
    orders.STARTS_UNKNOWN: _('start sets an unknown knob "{knob}"'),
    orders.EDGE_OF_NOTHING: _("before names an operation that is not there: {first}, {later}"),
    orders.DONE_IS_NOTHING: _("done names an operation that is not there: {index}"),
    orders.BEFORE_ITSELF: _(
        "each of these would have to come before the next, in a ring: {chain:comma}"
    ),
    orders.AT_STEP: _('step {step}, "{operation}": {what}'),
    orders.NO_SUCH_OPERATION: _("step {step}: there is no operation {index}"),
    orders.DONE_BEFORE: _("was done before"),
    orders.COMES_BEFORE: _('comes before "{first}"'),
    orders.NO_SUCH_WAY: _("there is no alternative {way}"),
    orders.FORGOTTEN: _('"{knob}" is not set any more'),
    orders.CHANGES_UNNEEDED: _('changes "{knob}", which it does not need'),
    orders.NEEDS: _('needs "{knob}" at {values:or}, not at {found}'),
    orders.NEEDS_UNSET: _('needs "{knob}" at {values:or}, and it is not set'),
    orders.NEVER_DONE: _('after the last step: "{operation}" was never done'),
    orders.MISCOUNTED: _(
        "the search counted {counted} and a bound of {bound}, its steps take {found}"
    ),
    orders.STUCK: _("the search knows of no next setting, though work is left"),
}
