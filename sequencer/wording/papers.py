"""The lines of the sheets that are put together from a plan; headings stand in the templates."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from sequencer.facts import papers
from sequencer.wording.catalogue import Table, _, counted_
from sequencer.wording.room import Room

TEXTS: Table = {
    papers.NO_PDF: _(
        "no PDF: WeasyPrint or Pango cannot be loaded; print plan.html from a browser, the pages "
        "are the same, and leave this out with --no-pdf; or, on Debian and Ubuntu: apt-get install "
        "libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0 fonts-dejavu-core"
    ),
    papers.NO_FONTS: _(
        "no PDF: there are no fonts; print plan.html from a browser, the pages are the same, and "
        "leave this out with --no-pdf; or, on Debian and Ubuntu: apt-get install fonts-dejavu-core"
    ),
    papers.NOT_AS_DRAWN: _("the sheets do not print as drawn: {heard}"),
    papers.PASSES_UNTOLD: _("step {step}: passes cannot be told to their operations"),
}

# The first page.
COUNTS = counted_("{n} setup, {minutes} of setting up", "{n} setups, {minutes} of setting up")
BASELINE = counted_("{name:cap}: {n} setup, {minutes}.", "{name:cap}: {n} setups, {minutes}.")
QUICKEST = _("This is the quickest order there is (checked).")
AT_MOST = _("At most {minutes} above the best possible.")
STOPPED = _("The search stopped at its limit: {limit}.")
NO_YEAR = _(
    "Your job file gives no moisture or climate ([wood] and [room]), so movement was not worked "
    "out: the gaps are the job's own, or the usual ones"
)
NO_YEAR_OF = _(
    "Door {marks:comma}: your job file gives no moisture or climate ([wood] and [room]), so "
    "movement was not worked out: the gaps are the job's own, or the usual ones"
)
CANNOT = _("{value} cannot be made")
COSTS = _("{value}: {cost}")
MORE = _("{minutes} more")
AT_LEAST_MORE = _("at least {minutes} more")
NO_QUICKER = _("no quicker")
BLADE_KERF = _("Blade: {blade}, kerf {kerf}")
ON_FENCE, IN_SLOT = _("{carrier} on the fence"), _("{carrier} in the mitre slot")
WITH_DECK = _("{carrier}, deck {deck}")
GUARD_ON, GUARD_OFF = _("on"), _("off")
ALL = _("All")
STEPS = counted_("step {numbers}", "steps {numbers}")
SETUPS = counted_("setup {numbers}", "setups {numbers}")
SETTING_UP = _("{setups}, {minutes} of setting up")

# The pages above the saw.
EVENING = _("evening {n} of {all}: {setups}")
UNTIL = _("until setup {n}")
LEAVE_SET = _("leave as set, and look again before the cut: {settings}")
NOTHING_SET = _("nothing has to stay as set")

# What is laid out for the steps.
FOR_STEPS = counted_("{tool} (step {numbers})", "{tool} (steps {numbers})")
BAND_SAW = _("band saw")
_PLANE, _CRAMPS, _HAND_SAW = _("hand plane"), _("cramps"), _("saw for curves")
BENCH_TOOLS: Mapping[str, tuple[str, ...]] = {
    "mill": (_("planer and thicknesser"),),
    "plane": (_PLANE,),
    "edge glue-up": (_CRAMPS, _("glue")),
    "glue-up": (_CRAMPS, _("glue")),
    "trim": (_("hand saw"),),
    "shape": (_HAND_SAW, _PLANE),
    "shape panel": (_HAND_SAW, _PLANE),
    "shaped groove": (_("router, with its guide"),),
    "finish": (_("finish, and a lidded tin for rags"),),
    "flush": (_PLANE,),
}
"""What a kind of step at the bench asks for."""

# The risk sheet.
ALWAYS = _("always")
AT_SAW, AT_BENCH = _("who works at the saw"), _("who works at the bench")
IN_ROOM = _("who works, and whoever is in the room")

# Doors, strips and test pieces.
OF_JOB = _("{job}: {door}")
GAP = _("{sides:comma} {gap}")
GAP_LAPS = _("{sides:comma} laps over {gap}")
FACE_OUT, FACE_IN = _("out"), _("in")
SAWN_OFF = _("{off}, {times}×")
OTHER_END = _("other end only")
RESAWN = _("resawn into {first} and {second}")
OF_BOARDS = _("{count} boards, each {width} wide")
OF_BOARDS_OPEN = _("boards as the stock asks for")
OTHER_HALF = _("other half of {mark}")
TURNED = _("turned end for end: {marks:comma}")
OF_EACH = _("{doors} each:")
SO_TOO = _("{first}, so too {marks}")
EITHER_HAND = _("either hand would do, the marks decide: {marks:comma}")

# The year.
LEAVE_PANEL = _("leave {gap} at each side of the panel")
LEAVE_BOARDS = _("leave {gap} between boards")
FREE_GAP = _("{side} gap {gap}")
ANY = _("any {species}")
NOT_KNOWN = _("wood not in the tables")
BASIS = _(
    "{wood}, {sawn}, {today} % today, {driest} to {wettest} % over the year ({source}); Wood "
    "Handbook, Eq. 13-2 and 13-3"
)

# Wood.
ONE_PIECE = _("{mark} (one piece, resawn)")
FOR_TESTS = _("{mark} (test)")
FEET_FIRST = _("{feet} board feet, {volume} m³")
METRES_FIRST = _("{volume} m³, {feet} board feet")
SAWN_AT_LEAST = _("sawn at least {thickness}")
SAWN = _("{buy} ({thickness} sawn)")
SAWN_PLANED = _("{buy} ({thickness} sawn, {planed} planed)")
CROSSCUT_TO = _("crosscut to {lengths:comma}")
LEFT_OVER = _("left over {length}")
TRIM = _("{ends} off each end, {edge} off one edge")
TRIM_OF = _("{marks:comma}: {off}")
GLUED = _("{strip} is glued up from {marks:comma}")
MISSING = _("{mark}: {material}, {size} {unit}")

# Setups.
NONE = _("none")
LIES_AS_IN = _("lies as in the picture of setup {number}")
DRAWN_AS_IN = _("drawn with its measures at setup {number}")
COVERED_BY = _("Blade covered by: __________")
END = _("end {end}")
THROUGH_JIG = _("fence: {distance} to the blade, {jig} the jig")
STAYS = _("{what}, stays")
LEAN_STAYS = _("blade leans {way}, stays")
MIRRORED = _("mirrored pieces lie on the other fence: outside edge behind, end at the stop")
ENDS, EDGES = _("ends"), _("edges")
FROM_STRIP = _("from {strip}, {end}")
TEST_CUT, CHECK_CUT = _("Test cut"), _("Check cut")
STOP, BLADE_HEIGHT = _("stop"), _("height")


def setups(numbers: Sequence[int], runs: str, room: Room) -> str:
    """`setup 3`, `setups 1–3, 12`."""
    return room.counted(SETUPS, len(numbers), numbers=runs)
