"""Joints: what they do not go with, and what would do."""

from __future__ import annotations

from sequencer.facts import joints
from sequencer.wording.catalogue import Table, _

TEXTS: Table = {
    joints.STUB_WITHOUT_GROOVE: _("a stub tenon needs a groove, but glass stands in a rebate"),
    joints.BARS_WITHOUT_GROOVE: _("stub-tenoned bars need a groove, but glass stands in a rebate"),
    joints.BRIDLE_ON_HALF_LAP: _(
        "a T-bridle needs wood on both sides of its slot; half-laps leave none at the back"
    ),
    joints.FREE_IN_MITRE: _("this width is left free, but mitred pieces are all equally wide"),
    joints.STATE_WIDTH_OR_BRIDLE: _('state its width, or write kind = "bridle"'),
    joints.UNEQUAL_IN_MITRE: _("the {piece}, {width} wide, is mitred with a stile of {stile}"),
    joints.AS_WIDE_OR_BRIDLE: _('make it {stile:file}, or write kind = "bridle"'),
}
