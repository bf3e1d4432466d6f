"""What fills a frame: what is wrong with it, and what would do."""

from __future__ import annotations

from sequencer.facts import fills
from sequencer.wording.catalogue import Table, _

TEXTS: Table = {
    fills.WORD_AND_TABLE: _("fill says {word}, and [{table}] stands beside it"),
    fills.TWO_AT_ONCE: _("{first} and {second} at once"),
    fills.KEEP_ONE_OR_WRITE: _('keep one, or write fill = "{first}" or fill = "{second}"'),
    fills.KEY_IDLE: _("{key} means nothing for {fill}"),
    fills.PANE_IN_REBATE: _(
        "a pane lies in a rebate, not in a groove; [groove] depth is how far the frame covers its "
        "edge"
    ),
    fills.BOARDS_HAVE_GAPS: _(
        "the program works out the gaps between boards; boarded.width makes the boards narrower"
    ),
    fills.SLAB_HAS_NO_FRAME: _("a slab has no frame: its width and height come from the opening"),
    #
    fills.SLAB_SWELLS_TOO_MUCH: _("a slab {width} wide swells more than a gap takes"),
    fills.FRAME_AND_PANEL: _("make a frame and a panel instead"),
    #
    fills.BEVEL_IN_GROOVE: _("a bevel {bevel} wide does not come out of its groove"),
    fills.NO_FIELD: _("bevels {bevel} wide leave no field on a panel {across} across"),
    fills.LESS_BEVEL: _("at most {most:file}, or a flat panel"),
    #
    fills.NARROW_BOARDS: _("boards {width} wide are too narrow"),
    fills.TONGUE_LENGTH: _("a tongue {tongue} long is out of range"),
    #
    fills.MEASURE_PANE: _("measure the pane"),
    fills.PANE_TOO_LARGE: _("a pane ordered {under} under its rebate may come too large"),
    fills.PANES_VARY: _("at least {least:file}: panes come that much over or under"),
    fills.PANE_SLIPS: _(
        "a pane ordered {under} under a rebate {depth} deep may slip out at one side"
    ),
    fills.DEEPER_REBATE: _("a groove depth of {depth:file}"),
    fills.DEEPER_REBATE_OR_LESS_UNDER: _("a groove depth of {depth:file}, or {under:file} under"),
}
