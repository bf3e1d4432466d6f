"""What is wrong with a door's numbers, by themselves and for the shop that is to cut it, and what
would do."""

from __future__ import annotations

from sequencer.facts.model import COUNT, LENGTH, TERM, TEXT, Domain, many

kind_of = Domain("door")

# What a door is called: by the job file, or by its place there.
OWN_NAME = kind_of("own-name", name=TEXT)
NUMBERED = kind_of("numbered", n=COUNT)

# What would do, for every rule.
AT_MOST = kind_of("at-most", most=LENGTH)
AT_LEAST = kind_of("at-least", least=LENGTH)
MORE_THAN = kind_of("more-than", bound=LENGTH)
FROM_TO = kind_of("from-to", least=LENGTH, most=LENGTH)
GIVE_SIZE = kind_of("give-size")
LEAVE_OUT = kind_of("leave-out")
LEAVE_LINE_OUT = kind_of("leave-line-out")
LEAVE_ONE_OUT = kind_of("leave-one-out")
WRITE = kind_of("write", lines=many(TEXT))
WRITE_BESIDE = kind_of("write-beside", lines=many(TEXT))
WRITE_UNDER = kind_of("write-under", line=TEXT, table=TEXT)

# The opening and the gaps.
NOTHING = kind_of("nothing", key=TEXT)
OPENING_TOO_LARGE = kind_of("opening-too-large", opening=LENGTH, way=TERM, most=LENGTH)
CHECK_UNIT = kind_of("check-unit", unit=TERM)
NOTHING_LEFT = kind_of("nothing-left", opening=LENGTH, way=TERM)
TOO_SMALL = kind_of("too-small", size=LENGTH, way=TERM, least=LENGTH)
CHECK_OPENING = kind_of("check-opening")
CHECK_OPENING_AND_UNIT = kind_of("check-opening-and-unit")
GAP_TOO_LARGE = kind_of("gap-too-large", gap=LENGTH, most=LENGTH)
GAP_NOT_OPENING = kind_of("gap-not-opening")
GAP_CLOSES = kind_of("gap-closes", gap=LENGTH, wood=TERM)
LEAST_GAP = kind_of("least-gap", least=LENGTH)

# How it sits, and how the leaves of a pair meet.
NO_LAP = kind_of("no-lap")
GIVE_LAP = kind_of("give-lap", side=TEXT)
INSET_LAPS = kind_of("inset-laps")
OVERLAY_OR_NOT = kind_of("overlay-or-not")
LAP_AND_GAP = kind_of("lap-and-gap", side=TEXT)
OVERLAY_GAP = kind_of("overlay-gap", side=TERM)
LAP_TOO_FAR = kind_of("lap-too-far", lap=LENGTH, most=LENGTH)
LAP_IS = kind_of("lap-is")
SLAB_REBATED = kind_of("slab-rebated")
REBATE_TOO_SMALL = kind_of("rebate-too-small", by=LENGTH)
REBATE_TOO_LARGE = kind_of("rebate-too-large", by=LENGTH, left=LENGTH)
MEETING_STILE = kind_of("meeting-stile", width=LENGTH)
REBATE_OR_STILE = kind_of("rebate-or-stile", most=LENGTH, width=LENGTH)

# Stock, frame and panel.
STOCK_UNSUITED = kind_of("stock-unsuited", thickness=LENGTH)
MUCH_PLANED = kind_of("much-planed", allowance=LENGTH)
WITHIN_GROOVE = kind_of("within-groove", piece=TERM, width=LENGTH)
LITTLE_BESIDE_GROOVE = kind_of("little-beside-groove", piece=TERM, left=LENGTH)
WIDE_ENOUGH = kind_of("wide-enough", least=LENGTH, depth=LENGTH)
LITTLE_SIGHT = kind_of("little-sight", pieces=TERM, left=LENGTH, size=LENGTH, way=TERM)
NO_SIGHT = kind_of("no-sight", pieces=TERM, size=LENGTH, way=TERM)
MORE_SIGHT = kind_of("more-sight", least=LENGTH, pieces=TERM)
PROUD = kind_of("proud", proud=LENGTH)
LOOSE = kind_of("loose", clearance=LENGTH)
SLOT_WITHIN_CLEARANCE = kind_of("slot-within-clearance")
ABOUT_A_THIRD = kind_of("about-a-third")
CHANNEL_TOO_WIDE = kind_of("channel-too-wide", what=TERM, width=LENGTH, thickness=LENGTH)
AT_MOST_HALF = kind_of("at-most-half", most=LENGTH)
AT_MOST_A_THIRD = kind_of("at-most-a-third", most=LENGTH)
OUTSIDE_SLOT = kind_of("outside-slot", width=LENGTH, slot=LENGTH)
IN_LINE_WITH_SLOT = kind_of("in-line-with-slot")
NEAR_A_FACE = kind_of("near-a-face", what=TERM, offset=LENGTH)
OFFSET_FROM_TO = kind_of("offset-from-to", least=LENGTH, most=LENGTH)
THIN_CHEEKS = kind_of("thin-cheeks", what=TERM, cheek=LENGTH, least=LENGTH)
THIN_CHEEK = kind_of("thin-cheek", what=TERM, cheek=LENGTH)
OFFSET_LEAVES = kind_of("offset-leaves", first=LENGTH, last=LENGTH, least=LENGTH)
WIDTH_LEAVES = kind_of("width-leaves", what=TERM, most=LENGTH, least=LENGTH)
PANEL_TOO_THICK = kind_of("panel-too-thick", panel=LENGTH, groove=LENGTH)
GROOVE_TO_SUIT = kind_of("groove-to-suit")
PANEL_HARDLY_IN = kind_of("panel-hardly-in", reach=LENGTH)
LESS_PLAY = kind_of("less-play", key=TEXT, most=LENGTH, least=LENGTH)
DEEPER_GROOVE = kind_of("deeper-groove", least=LENGTH)

# What the shop cannot cut.
KERF_TOO_WIDE = kind_of("kerf-too-wide", kerf=LENGTH, what=TERM, width=LENGTH)
THINNER_BLADE = kind_of("thinner-blade")
STOCK_TOO_THIN = kind_of("stock-too-thin", thickness=LENGTH, kerf=LENGTH)
THINNER_BLADE_OR_STOCK = kind_of("thinner-blade-or-stock")
TOO_LONG_FOR_SLED = kind_of("too-long-for-sled", what=TERM, size=LENGTH, most=LENGTH)
TOO_WIDE_FOR_SLED = kind_of("too-wide-for-sled", what=TERM, size=LENGTH, most=LENGTH)
TOO_THICK_FOR_JIG = kind_of("too-thick-for-jig", size=LENGTH, most=LENGTH)
CORRECT_SHOP = kind_of("correct-shop")
CROSSCUTS_TOO_HIGH = kind_of("crosscuts-too-high", needed=LENGTH, most=LENGTH)
TENONS_TOO_HIGH = kind_of("tenons-too-high", piece=TERM, needed=LENGTH, most=LENGTH)
SLOTS_TOO_HIGH = kind_of("slots-too-high", piece=TERM, needed=LENGTH, most=LENGTH)
THINNER_BY = kind_of("thinner-by", by=LENGTH)
NARROWER_BY = kind_of("narrower-by", by=LENGTH)
