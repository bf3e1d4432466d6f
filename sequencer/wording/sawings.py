"""One pass over the saw: what must not happen in it."""

from __future__ import annotations

from sequencer.facts import sawings
from sequencer.wording.catalogue import Table, _

TEXTS: Table = {
    sawings.PASSES_BESIDE: _("the blade passes beside it"),
    sawings.NOTHING_LEFT: _("nothing is left of the piece"),
    sawings.TAKES_SIDE: _("the cut takes away its whole {side}"),
    sawings.TRAPPED: _("what it frees is trapped between the blade and the {guide}"),
    sawings.BELOW_TABLE: _("the blade does not reach above the table"),
    sawings.NO_GUIDE: _("the cut needs both a setting of the {guide} and what lies against it"),
    sawings.SQUARED_ON_SLED_ONLY: _("only an end is squared by eye, on the sled"),
    sawings.NOT_HELD_SO: _("the {carrier} takes no piece with its {down} down, {against} to it"),
    sawings.BLADE_IN_GUIDE: _("the blade stands in the {guide}"),
    sawings.LEANS_INTO_GUIDE: _("the blade leans into the {guide}"),
    sawings.NIBBLED_ON_SLED_ONLY: _("only waste on the sled is nibbled away"),
    sawings.MITRE_IS_NIBBLED: _("on the mitre sled all beyond the line is nibbled away"),
    sawings.NIBBLED_UPRIGHT_ONLY: _("only an upright blade nibbles waste away"),
    sawings.NO_SECOND_SHOULDER: _("only waste that is nibbled away has a second shoulder"),
    sawings.SHOULDERS_TOO_NEAR: _(
        "its two shoulders are nearer to each other than the kerf is wide"
    ),
    sawings.SHORT_BEARING: _("its {side} does not bear on the {guide} over a safe length"),
    sawings.NOTHING_TO_STAND_ON: _("its {side} is not there to stand on"),
    sawings.NOT_THROUGH: _("the cut does not go through"),
    sawings.NONE_KEPT: _("no wood is left on the side that is kept"),
}
