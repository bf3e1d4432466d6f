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
}
