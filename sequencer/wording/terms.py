"""The vocabulary: each word of the trade by its id. What another dialect calls it stands in the
catalogues."""

from __future__ import annotations

from sequencer.wording.catalogue import _

TERMS: dict[str, str] = {
    "slot": _("slot"),
    "groove": _("groove"),
    "rebate": _("rebate"),
    "housing": _("housing"),
    "mitre": _("mitre"),
    # Sides, seen from before the saw or on the marked face.
    "left": _("left"),
    "right": _("right"),
    # Doors, their pieces and what fills them.
    "wide": _("wide"),
    "high": _("high"),
    "inches": _("inches"),
    "millimetres": _("millimetres"),
    "hinge-stile": _("hinge stile"),
    "lock-stile": _("closing stile"),
    "meeting-stile": _("meeting stile"),
    "top-rail": _("top rail"),
    "bottom-rail": _("bottom rail"),
    "hinge-side": _("hinge side"),
    "lock-side": _("closing side"),
    "stiles": _("stiles"),
    "rails": _("rails"),
    "panel": _("panel"),
    "slab": _("slab"),
    "one-slab": _("slab's boards"),
    "two-slabs": _("two slabs"),
    "two-stiles": _("two stiles"),
    "four-stiles": _("four stiles"),
    "a-flat-panel": _("a flat panel"),
    "a-raised-panel": _("a raised panel"),
    "boards": _("boards"),
    "glass": _("glass"),
    "a-slab": _("a slab"),
    # What takes minutes, by its key in a shop file.
    "minutes.cutter": _("changing the cutter"),
    "minutes.tilt": _("tilting the blade"),
    "minutes.height": _("its height"),
    "minutes.carrier": _("putting on fence, sled or jig"),
    "minutes.guard": _("the guard"),
    "minutes.fence": _("the fence"),
    "minutes.stop": _("the stop"),
    "minutes.jig": _("the jig"),
    "minutes.test_cut": _("a test cut"),
    "minutes.nibble": _("a pass of a nibbled cut"),
    "minutes.saved": _("a saved reading"),
    "minutes.gauge": _("a gauge"),
    "minutes.check_cut": _("a check cut"),
    # Dimensions that a job may leave free, by their keys.
    "stiles.hinge": _("hinge stile width"),
    "stiles.lock": _("closing stile width"),
    "stiles.meeting": _("meeting stile width"),
    "rails.top": _("top rail width"),
    "rails.bottom": _("bottom rail width"),
    "groove.depth": _("groove depth"),
    "groove.width": _("groove width"),
    "joint.slot": _("slot width"),
    # What ends a search, and the sizes of a piece.
    "limit.states": _("states"),
    "limit.seconds": _("seconds"),
    "limit.memory": _("memory"),
    "size.length": _("length"),
    "size.width": _("width"),
    "size.thickness": _("thickness"),
}
