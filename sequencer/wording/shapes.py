"""Shaped top rails: what is wrong with them, and what would do."""

from __future__ import annotations

from sequencer.facts import shapes
from sequencer.wording.catalogue import Table, _

TEXTS: Table = {
    shapes.RISE_OR_STRAIGHT: _('give the rise, or write kind = "straight"'),
    shapes.NO_KIND: _("a rise without a shape"),
    shapes.RISE_MISSING: _("the {shape} has no rise"),
    shapes.WRITE_RISE: _(
        'write rise = "{example}" beside it: how much higher the light is at its top'
    ),
    shapes.ON_SLAB: _("a slab has no top rail to shape"),
    shapes.LEAVE_SHAPE_OUT: _("leave the shape out"),
    shapes.FLAT_PANEL_ALONE: _("only a flat panel's top is made to follow a shaped rail"),
    shapes.STRAIGHT_OR_NO_FILL: _('write kind = "straight" under [door.shape], or no fill'),
    shapes.JOINT_UNSUITED: _("a shaped rail is not made with {joint} corners"),
    shapes.MULLION_ON_SLOPE: _("a muntin under a shaped rail would end on its slope"),
    shapes.MULLIONS_BELOW: _("add a mid rail, and leave the muntins to the rows below it"),
    shapes.TOO_FLAT: _("a rise of {rise} is not seen as a shape"),
    shapes.LESS_FLAT: _("at least {least:file}, or leave the shape out"),
    shapes.TOO_STEEP: _("a rise of {rise} over a span of {span} is too steep"),
    shapes.LESS_STEEP: _("at most {most:file}: steeper ends are short grain that breaks"),
}
