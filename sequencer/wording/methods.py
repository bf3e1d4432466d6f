"""Ways of cutting, by question and answer."""

from __future__ import annotations

from sequencer.facts import Fact, methods
from sequencer.wording.catalogue import Table, _
from sequencer.wording.room import Room

ANSWERS: dict[tuple[str, str], str] = {
    ("slot", "turned"): _("slots with both faces to the jig"),
    ("slot", "one-face"): _("slots from one face only"),
    ("slot", "dado"): _("slots in one pass with the grooving head"),
    ("groove", "turned"): _("groove with both faces to the fence"),
    ("groove", "one-face"): _("groove from one face only"),
    ("slot_depth", "common"): _("one slot depth for all rails"),
    ("slot_depth", "each"): _("a slot depth for each rail"),
    ("tenon_width", "jig"): _("tenons to width on the jig"),
    ("tenon_width", "sled"): _("tenons to width on the sled"),
    ("groove_on", "stick"): _("groove before crosscutting"),
    ("groove_on", "piece"): _("groove after crosscutting"),
}
"""Each alone."""

HERE: dict[tuple[str, str], str] = {
    ("slot", "turned"): _("both faces to the jig"),
    ("slot", "one-face"): _("from one face only"),
    ("slot", "dado"): _("the grooving head"),
    ("groove", "turned"): _("both faces to the fence"),
    ("groove", "one-face"): _("from one face only"),
    ("slot_depth", "common"): _("one depth for all"),
    ("slot_depth", "each"): _("each its own"),
    ("tenon_width", "jig"): _("on the jig"),
    ("tenon_width", "sled"): _("on the sled"),
    ("groove_on", "stick"): _("before"),
    ("groove_on", "piece"): _("after"),
}
"""Each behind another."""


def _answered(room: Room, fact: Fact) -> str:
    answer, _colon, cutter = str(fact.given["answer"]).partition(":")
    if cutter:
        return room.text(_("slots in one pass with the {cutter}"), cutter=cutter)
    return room.text(ANSWERS[str(fact.given["question"]), answer])


def _instead(room: Room, fact: Fact) -> str:
    answer, _colon, cutter = str(fact.given["here"]).partition(":")
    here = cutter or room.text(HERE[str(fact.given["question"]), answer])
    return room.text(_("{other} (here: {here})"), other=_answered(room, fact), here=here)


TEXTS: Table = {methods.ANSWERED: _answered, methods.INSTEAD: _instead}
