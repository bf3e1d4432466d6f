"""What is measured, in words that begin small."""

from __future__ import annotations

from sequencer.facts import Fact, measures
from sequencer.saw.measures import Measure, What
from sequencer.wording.catalogue import Table, _
from sequencer.wording.room import Room

MEASURES: dict[tuple[What, str], str] = {
    (What.CHANNEL_WIDTH, "slot"): _("slot width"),
    (What.CHANNEL_WIDTH, "groove"): _("groove width"),
    (What.CHANNEL_DEPTH, "slot"): _("slot depth"),
    (What.CHANNEL_DEPTH, "groove"): _("groove depth"),
    (What.CHANNEL_WALL, "slot"): _("wall beside the slot"),
    (What.CHANNEL_WALL, "groove"): _("wall beside the groove"),
    (What.TO_CHANNEL, "slot"): _("from the marked face to the slot"),
    (What.TO_CHANNEL, "groove"): _("from the marked face to the groove"),
    (What.TENON, ""): _("tenon thickness"),
    (What.TENON_WIDTH, ""): _("tenon width"),
    (What.TO_FAR_CHEEK, "face"): _("from the face to the far cheek"),
    (What.TO_FAR_CHEEK, "back"): _("from the back to the far cheek"),
    (What.TO_FAR_CHEEK, "show"): _("from the show face to the far cheek"),
    (What.TO_FAR_CHEEK, "marked"): _("from the marked face to the far cheek"),
    (What.SHOULDERS, ""): _("shoulder to shoulder"),
    (What.SHOULDERS, "face"): _("shoulder to shoulder, on the face"),
    (What.SHOULDERS, "back"): _("shoulder to shoulder, on the back"),
    (What.SHOULDERS, "show"): _("shoulder to shoulder, on the show face"),
    (What.SHOULDERS, "marked"): _("shoulder to shoulder, on the marked face"),
    (What.TO_SHOULDER, ""): _("from the end to the shoulder"),
    (What.TO_SHOULDER, "face"): _("from the end to the shoulder, on the face"),
    (What.TO_SHOULDER, "back"): _("from the end to the shoulder, on the back"),
    (What.TO_SHOULDER, "show"): _("from the end to the shoulder, on the show face"),
    (What.TO_SHOULDER, "marked"): _("from the end to the shoulder, on the marked face"),
    (What.SHOULDER_DEPTH, ""): _("shoulder depth"),
    (What.EDGE_SHOULDER_DEPTH, ""): _("edge shoulder depth"),
    (What.TO_HOUSING, ""): _("from the end to the housing"),
    (What.HOUSING_WIDTH, ""): _("housing width"),
    (What.UNDER_HOUSING, "face"): _("wood left under the housing in the face"),
    (What.UNDER_HOUSING, "back"): _("wood left under the housing in the back"),
    (What.UNDER_HOUSING, "show"): _("wood left under the housing in the show face"),
    (What.UNDER_HOUSING, "marked"): _("wood left under the housing in the marked face"),
    (What.TO_MITRE, ""): _("from the end to the mitre, along the outside edge"),
    (What.MITRE_DEPTH, ""): _("mitre depth"),
    (What.TONGUE, ""): _("tongue thickness"),
    (What.LIP, ""): _("wood left beside the rebate"),
    (What.REBATE_REACH, ""): _("how far the rebate reaches in"),
    (What.REBATE_WIDTH, ""): _("width of the rebate"),
    (What.FLAT_DEPTH, ""): _("depth of the cut"),
    (What.BEVEL, ""): _("thickness {which} from the edge"),
    (What.STOCK, ""): _("thickness, thinnest to thickest"),
    (What.LENGTH, ""): _("length of the first piece"),
    (What.PANEL_WIDTH, ""): _("panel width, today"),
    (What.SLAB_WIDTH, ""): _("width of the slab, today"),
    (What.PANE_WIDTH, ""): _("width of the pane {which}"),
    (What.PANE_HEIGHT, ""): _("height of the pane {which}"),
    (What.SPAN, ""): _("span between the shoulders"),
    (What.ARCH, ""): _("radius of the arch"),
    (What.EDGE_HEIGHT, "middle"): _("height of the edge in the middle"),
    (What.EDGE_HEIGHT, "either"): _("height of the edge at either shoulder"),
    (What.EDGE_HEIGHT, "left"): _("height of the edge at the left shoulder"),
    (What.EDGE_HEIGHT, "right"): _("height of the edge at the right shoulder"),
    (What.EDGE_HEIGHT, "from-either"): _("height of the edge {which} from either shoulder"),
    (What.EDGE_HEIGHT, "from-left"): _("height of the edge {which} from the left shoulder"),
    (What.EDGE_HEIGHT, "from-right"): _("height of the edge {which} from the right shoulder"),
    (What.SHAPED_GROOVE_PLACE, ""): _("from the marked face to the groove"),
    (What.SHAPED_GROOVE_WIDTH, ""): _("groove width along the shape"),
    (What.SHAPED_GROOVE_DEPTH, ""): _("groove depth along the shape"),
    (What.PANEL_ARCH, ""): _("radius of the panel's top"),
    (What.PANEL_TOP, "middle"): _("down from the panel's upper end, in the middle"),
    (What.PANEL_TOP, "either"): _("down from the panel's upper end, at either long edge"),
    (What.PANEL_TOP, "left"): _("down from the panel's upper end, at the left long edge"),
    (What.PANEL_TOP, "right"): _("down from the panel's upper end, at the right long edge"),
    (What.PANEL_TOP, "from-either"): _(
        "down from the panel's upper end, {which} from either long edge"
    ),
    (What.PANEL_TOP, "from-left"): _(
        "down from the panel's upper end, {which} from the left long edge"
    ),
    (What.PANEL_TOP, "from-right"): _(
        "down from the panel's upper end, {which} from the right long edge"
    ),
    (What.OPENING_WIDTH, ""): _("opening between the stiles"),
    (What.OPENING_HEIGHT, ""): _("opening between the rails"),
    (What.OPENING_HEIGHT, "stiles"): _("opening between the rails, at both stiles"),
    (What.OPENING_HEIGHT, "middle"): _("opening between the rails, in the middle"),
    (What.OPENING_HEIGHT, "left"): _("opening between the rails, at the left stile"),
    (What.OPENING_HEIGHT, "right"): _("opening between the rails, at the right stile"),
    (What.EACH_WIDTH, ""): _("width of each light"),
    (What.EACH_HEIGHT, ""): _("height of each light"),
    (What.LIGHT_WIDTH, ""): _("width of light {which}"),
    (What.LIGHT_HEIGHT, ""): _("height of light {which}"),
    (What.LIGHT_HEIGHT, "lowest"): _("height of light {which}, where it is lowest"),
    (What.LIGHT_HEIGHT, "highest"): _("height of light {which}, where it is highest"),
    (What.DIAGONALS, ""): _("difference of the diagonals"),
    (What.DIAGONAL, "inside"): _("diagonal inside the frame"),
    (What.DIAGONAL, "outside"): _("diagonal over the stiles' ends"),
    (What.DIAGONAL, "slab"): _("diagonal of the slab"),
    (What.BOARD_GAP, ""): _("gap between boards, today"),
    (What.GAP, "meeting"): _("gap between the leaves"),
    (What.GAP, "lock"): _("gap on the closing side"),
    (What.LAP, "top"): _("lap over the case at the top"),
    (What.LAP, "bottom"): _("lap over the case at the bottom"),
    (What.LAP, "hinge"): _("lap over the case at the hinge side"),
    (What.LAP, "lock"): _("lap over the case at the closing side"),
    (What.LAP, "meeting"): _("lap over the case at the meeting side"),
    (What.MEETING_WIDTH, "face"): _("width of the rebate in the show face"),
    (What.MEETING_WIDTH, "back"): _("width of the rebate in the back"),
    (What.MEETING_WIDTH, "marked"): _("width of the rebate in the marked face"),
    (What.MEETING_DEPTH, "face"): _("depth of the rebate in the show face"),
    (What.MEETING_DEPTH, "back"): _("depth of the rebate in the back"),
    (What.MEETING_DEPTH, "marked"): _("depth of the rebate in the marked face"),
}


def measure_words(measure: Measure, room: Room) -> str:
    """As `slot width`, `height of the edge 2 1/2″ from the left shoulder`."""
    text = MEASURES[measure.what, measure.place]
    return room.text(text, which=measure.which) if measure.which else room.text(text)


def _said(room: Room, fact: Fact) -> str:
    return measure_words(Measure.parse(str(fact.given["form"])), room)


TEXTS: Table = {measures.MEASURED: _said, measures.BY_EYE: _("about {target} by eye")}
