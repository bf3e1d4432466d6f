"""What a door's year does not allow, and what would do; and the wood and the room as a file tells
of them."""

from __future__ import annotations

from sequencer.facts.model import COUNT, FACT, LENGTH, NUMBER, TERM, TEXT, Domain, many

kind_of = Domain("season")

# The free side.
SWELLS_TOO_MUCH = kind_of("swells-too-much", wood=TERM, most=LENGTH)
NARROWER_STILES = kind_of("narrower-stiles")
NO_SLAB = kind_of("no-slab")
LEAST_GAP_TODAY = kind_of("least-gap-today", least=LENGTH)

# A panel in its grooves.
PLAY_SHRINKS = kind_of("play-shrinks", play=LENGTH, left=LENGTH)
PLAY_GOES = kind_of("play-goes", play=LENGTH)
WITH_PLAY = kind_of("with-play", play=LENGTH, then=FACT)
PANEL_HARDLY_IN = kind_of("panel-hardly-in", reach=LENGTH, least=LENGTH)
PANEL_COMES_OUT = kind_of("panel-comes-out")
PLAY_AT_LEAST = kind_of("play-at-least", least=LENGTH)
PLAY_AT_MOST = kind_of("play-at-most", most=LENGTH)

# Boards.
BOARDS_HARDLY_IN = kind_of("boards-hardly-in", reach=LENGTH, least=LENGTH)
TONGUES_TOO_LONG = kind_of("tongues-too-long", tongue=LENGTH)
TONGUE_HARDLY_IN = kind_of("tongue-hardly-in", tongue=LENGTH, hold=LENGTH, least=LENGTH)
BOARDS_HARDLY_SHOW = kind_of("boards-hardly-show", show=LENGTH)
WIDER_BOARDS = kind_of("wider-boards", least=LENGTH)

# Remedies.
WOULD_DO = kind_of("would-do", remedies=many(FACT))
WOULD_DO_WITHOUT_PLAY = kind_of("would-do-without-play", remedies=many(FACT))
NARROWER_DOORS = kind_of("narrower-doors")
DEEPER_GROOVE = kind_of("deeper-groove", depth=LENGTH)
SIDE_BY_SIDE = kind_of("side-by-side", count=COUNT, between=LENGTH)
QUARTER_SAWN = kind_of("quarter-sawn")
NARROWER_BOARDS = kind_of("narrower-boards", width=LENGTH)
LONGER_TONGUE = kind_of("longer-tongue", tongue=LENGTH)

# The wood and the room, read.
NO_MOISTURE = kind_of("no-moisture")
WRITE_MOISTURE = kind_of("write-moisture")
NO_ROOM = kind_of("no-room")
WRITE_ROOM = kind_of("write-room")
TWO_ROOMS = kind_of("two-rooms")
ONE_WAY = kind_of("one-way")
TEMPERATURE_ALONE = kind_of("temperature-alone")
ONE_SEASON = kind_of("one-season", key=TEXT)
OTHER_SEASON_TOO = kind_of("other-season-too", key=TEXT)
DRIEST_IS_WETTER = kind_of("driest-is-wetter", driest=NUMBER, wettest=NUMBER)
CHANGE_ROUND = kind_of("change-round")
MOISTURE_UNREAD = kind_of("moisture-unread", key=TEXT, most=NUMBER)
# Where the figures of a room come from.
OF_REGION = kind_of("of-region", region=TEXT, source=TEXT)
IN_AIR = kind_of("in-air", low=NUMBER, high=NUMBER, warmth=NUMBER, source=TEXT)
AS_JOB_SAYS = kind_of("as-job-says")
REGION_UNKNOWN = kind_of("region-unknown")
REGIONS_KNOWN = kind_of("regions-known", regions=many(TEXT))
HUMIDITY_UNREAD = kind_of("humidity-unread", least=NUMBER, most=NUMBER)
TEMPERATURE_UNREAD = kind_of("temperature-unread")
