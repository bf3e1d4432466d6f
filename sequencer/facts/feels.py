"""How a cut is measured or tried, and what is good."""

from __future__ import annotations

from sequencer.facts.model import FACT, LENGTH, TERM, TEXT, Domain, many

kind_of = Domain("feel")

# Slots, grooves and rebates.
WALL_BESIDE = kind_of("wall-beside", what=TERM)
EQUAL_WALLS = kind_of("equal-walls")
CLEAN_WALLS = kind_of("clean-walls")
SLIDES_IN = kind_of("slides-in", what=TERM)
SLIDES_IN_CLEARED = kind_of("slides-in-cleared", what=TERM)
SLOT_DEEP_ENOUGH = kind_of("slot-deep-enough")
NEEDS_PLAY = kind_of("needs-play", what=TERM)
BEVEL_SLIDES = kind_of("bevel-slides")
BESIDE_REBATE = kind_of("beside-rebate")
TONGUE_SLIDES = kind_of("tongue-slides")
FROM_EDGE = kind_of("from-edge")
FAR_SIDE = kind_of("far-side")
EDGE_PASS_TAKES_REST = kind_of("edge-pass-takes-rest")

# Tenons, housings and mitres.
ALIKE_ALONG = kind_of("alike-along")
LAPS_TOGETHER = kind_of("laps-together")
TENON_FITS = kind_of("tenon-fits", into=FACT)
TONGUE_FITS = kind_of("tongue-fits", into=FACT)
OTHER_PIECE = kind_of("other-piece")
OFFCUT = kind_of("offcut")
OWN_SLOT = kind_of("own-slot", mates=many(TEXT))
SOME_OWN_SLOT = kind_of("some-own-slot")
"""In which a tenon is tried where no slot is cut with it: that of its mates."""
CHEEK_TAKES_REST = kind_of("cheek-takes-rest")
EDGE_CHEEK_TAKES_REST = kind_of("edge-cheek-takes-rest")
NO_WIDER_THAN_SLOT = kind_of("no-wider-than-slot")
OFF_BOTTOM = kind_of("off-bottom")
CLOSES_CORNER = kind_of("closes-corner")
BETWEEN_SHOULDERS = kind_of("between-shoulders")
HOOK_A_RULE = kind_of("hook-a-rule")
HOUSING_FITS = kind_of("housing-fits")
UNDER_HOUSING = kind_of("under-housing")
MITRE_LINES = kind_of("mitre-lines")
MITRE_LAID_BARE = kind_of("mitre-laid-bare")

# Stock and pieces.
EVERY_STRIP = kind_of("every-strip")
FIRST_OF_MANY = kind_of("first-of-many")
FIRST_PIECE = kind_of("first-piece", spare=TEXT)
ACROSS_GRAIN = kind_of("across-grain")
SLAB_ACROSS_GRAIN = kind_of("slab-across-grain")
SLAB_ACROSS_GRAIN_LAPPING = kind_of("slab-across-grain-lapping")
SLAB_CORNERS = kind_of("slab-corners")
PANE_AS_CUT = kind_of("pane-as-cut")

# A frame, its boards and its gaps.
CLOSED_DRY = kind_of("closed-dry")
CLOSED_DRY_STUBS = kind_of("closed-dry-stubs")
CORNERS_INSIDE = kind_of("corners-inside")
CORNERS_OUTSIDE = kind_of("corners-outside")
IN_CRAMPS = kind_of("in-cramps")
SPACERS = kind_of("spacers")
SPACERS_BY_RULE = kind_of("spacers-by-rule")
EVEN_LAP = kind_of("even-lap")
EVEN_GAP = kind_of("even-gap")
EVEN_GAP_CLOSES = kind_of("even-gap-closes")

# Leaves that meet, and shaped rails.
RIGHT_OPENS_FIRST = kind_of("right-opens-first")
LEFT_STAYS_SHUT = kind_of("left-stays-shut")
HALF_THICKNESS = kind_of("half-thickness")
SHAPE_ENDS = kind_of("shape-ends")
TRAMMEL = kind_of("trammel")
FROM_LOWER_EDGE = kind_of("from-lower-edge", along=FACT)
IN_DRY_FRAME = kind_of("in-dry-frame", along=FACT)
STRAIGHT_LINE = kind_of("straight-line", to=TERM)
BATTEN = kind_of("batten", step=LENGTH)
FACE_DOWN = kind_of("face-down")
SAME_PANEL = kind_of("same-panel")
SQUARE_TO_EDGE = kind_of("square-to-edge")
RAILS_CENTRE = kind_of("rails-centre")
