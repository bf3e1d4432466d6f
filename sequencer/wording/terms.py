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
}
