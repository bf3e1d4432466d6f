"""Parts that cannot be made as the job asks: joints, fills, pieces drawn elsewhere."""

from __future__ import annotations

from sequencer.facts.model import COUNT, FACT, LENGTH, TERM, TEXT, Domain, many, maybe

kind_of = Domain("part")

# What a piece is called.
NAMED = kind_of("named", name=TERM)
NUMBERED = kind_of("numbered", name=TERM, n=COUNT)
OWN_NAME = kind_of("own-name", name=TEXT)
"""By the name that the table of pieces gives it."""

LAP_HAS_NO_OFFSET = kind_of("lap-has-no-offset", where=TEXT)
LAP_TOO_THIN = kind_of("lap-too-thin", where=TEXT, wall=LENGTH, most=LENGTH)
LAP_GROOVE_IN_FRONT = kind_of("lap-groove-in-front", where=TEXT, groove=LENGTH, plane=LENGTH)
LAP_GROOVE_TOO_WIDE = kind_of(
    "lap-groove-too-wide", where=TEXT, left=LENGTH, wall=LENGTH, most=LENGTH
)
MITRE_NOT_TRIMMED = kind_of("mitre-not-trimmed", where=TEXT, groove=LENGTH, tenon=LENGTH)
MITRE_WIDTHS_DIFFER = kind_of("mitre-widths-differ", where=TEXT, pieces=many(FACT))
PIECE_WIDTH = kind_of("piece-width", piece=TERM, width=LENGTH)
STUB_IN_GLASS = kind_of("stub-in-glass", where=TEXT)
STUB_TOO_SHORT = kind_of("stub-too-short", where=TEXT, depth=LENGTH, kerf=LENGTH)
STUB_HAS_NO_SLOT = kind_of("stub-has-no-slot", where=TEXT, groove=LENGTH)
STUB_BAR_IN_GLASS = kind_of("stub-bar-in-glass", bar=TEXT)
BAR_IN_LAPS = kind_of("bar-in-laps", bar=TEXT)
BAR_OFF_GROOVE = kind_of("bar-off-groove", bar=TEXT, across=TEXT)
BAR_LOSES_BACK = kind_of("bar-loses-back", bar=TEXT)
BAR_MEETS_GLASS = kind_of("bar-meets-glass", part=TEXT)
GROOVE_OUTSIDE_SLOT = kind_of("groove-outside-slot", where=TEXT, groove=LENGTH, slot=LENGTH)

BOARD_TOO_THIN = kind_of(
    "board-too-thin",
    where=TEXT,
    thickness=LENGTH,
    wall=LENGTH,
    groove=LENGTH,
    least=LENGTH,
    enough=LENGTH,
)
NO_ROOM_FOR_STOP = kind_of(
    "no-room-for-stop",
    where=TEXT,
    pane=LENGTH,
    deep=LENGTH,
    room=LENGTH,
    least=LENGTH,
    more=LENGTH,
)
STEP_TOO_HIGH = kind_of("step-too-high", where=TEXT, kerf=LENGTH, most=LENGTH, step=LENGTH)
BEVEL_TOO_THIN = kind_of("bevel-too-thin", where=TEXT, thickness=LENGTH, step=LENGTH, mouth=LENGTH)
PANEL_EDGE_TOO_THIN = kind_of(
    "panel-edge-too-thin",
    where=TEXT,
    bevel=LENGTH,
    edge=LENGTH,
    least=LENGTH,
    wider=maybe(LENGTH),
)
NO_ROOM_FOR_PANEL = kind_of("no-room-for-panel", where=TEXT)
SHAPE_TAKES_TENON = kind_of("shape-takes-tenon", where=TEXT, shape=TERM)
TOO_DEEP_ON_END = kind_of(
    "too-deep-on-end", where=TEXT, joint=TERM, end=TEXT, mark=TEXT, depth=LENGTH, deepest=LENGTH
)

ORDER_PANE = kind_of("order-pane", sold=maybe(TEXT))
ORDER_STOP = kind_of("order-stop")
PANE = kind_of("pane", mark=TEXT)
STOP = kind_of("stop")
BOUGHT = kind_of("bought", what=TEXT)
"""By the name that the job gives it."""
