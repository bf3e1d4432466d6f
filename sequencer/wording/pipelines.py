"""The whole way from jobs to a plan: where none can be made."""

from __future__ import annotations

from sequencer.facts import pipelines
from sequencer.wording.catalogue import Table, _

TEXTS: Table = {
    pipelines.NO_FREE_VALUE: _("no value within the ranges that the job leaves free can be made"),
    pipelines.JOINT_OFF_CENTRE: _(
        "with what was measured the joint is no longer in the middle of the stock, and cannot be "
        "cut by turning the pieces round: measure again, or plan the job anew"
    ),
    pipelines.NOTHING_HELD: _(
        "cut by none of the ways compared does every piece stand and bear: {what}"
    ),
    pipelines.NOTHING_PLANNED: _("no combination of methods was planned"),
    pipelines.SETUPS_DIFFER: _("{laid_out} setups laid out, {ordered} in the order"),
    pipelines.CALM_DIFFERS: _("rewriting the order changed it: {before} to {after}"),
}
