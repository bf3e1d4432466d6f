"""A door's year: what it does not allow, and what would do; and the wood and the room as a file
tells of them."""

from __future__ import annotations

from sequencer.facts import seasons
from sequencer.wording.catalogue import Table, _

TEXTS: Table = {
    seasons.SWELLS_TOO_MUCH: _("the {wood} swell more than a gap of {most} takes"),
    seasons.NARROWER_STILES: _(
        "narrower stiles, a wood that moves less, or wood that has settled in its room"
    ),
    seasons.NO_SLAB: _(
        "a frame and a panel, a wood that moves less, or wood that has settled in its room"
    ),
    seasons.LEAST_GAP_TODAY: _("at least {least:file} today, for wood this wide in this room"),
    #
    seasons.PLAY_SHRINKS: _(
        "a play of {play} a side today leaves only {left} in the wettest season"
    ),
    seasons.PLAY_GOES: _("a play of {play} a side today is gone in the wettest season"),
    seasons.WITH_PLAY: _("with a play of {play} a side today, {then}"),
    seasons.PANEL_HARDLY_IN: _(
        "the panel reaches only {reach} into its groove in the driest season, under {least}"
    ),
    seasons.PANEL_COMES_OUT: _("the panel comes out of its groove in the driest season"),
    seasons.PLAY_AT_LEAST: _(
        "play_side at least {least:file}; leave it out, and the program works it out"
    ),
    seasons.PLAY_AT_MOST: _(
        "play_side at most {most:file}; leave it out, and the program works it out"
    ),
    #
    seasons.BOARDS_HARDLY_IN: _(
        "the outer boards reach only {reach} into the stiles' grooves in the driest season, under "
        "{least}"
    ),
    seasons.TONGUES_TOO_LONG: _("tongues would have to be {tongue} long, to stay in their grooves"),
    seasons.TONGUE_HARDLY_IN: _(
        "a tongue {tongue} long is only {hold} in its groove in the driest season, under {least}"
    ),
    seasons.BOARDS_HARDLY_SHOW: _("boards would show only {show}"),
    seasons.WIDER_BOARDS: _("at least {least}: wider boards, or a flat panel"),
    #
    seasons.WOULD_DO: _("{remedies:or} would do"),
    seasons.WOULD_DO_WITHOUT_PLAY: _("{remedies:or} would do with play_side left out"),
    seasons.NARROWER_DOORS: _("narrower doors, or a wood that moves less"),
    seasons.DEEPER_GROOVE: _("a groove {depth:file} deep"),
    seasons.SIDE_BY_SIDE: _("{count} panels side by side with {between} between them"),
    seasons.QUARTER_SAWN: _("quarter-sawn wood"),
    seasons.NARROWER_BOARDS: _("boards at most {width:file} wide"),
    seasons.LONGER_TONGUE: _("a tongue {tongue:file} long"),
    #
    seasons.NO_MOISTURE: _("the moisture of the wood today is missing"),
    seasons.WRITE_MOISTURE: _(
        'write moisture = "8" under [wood], the percentage that a meter shows'
    ),
    seasons.NO_ROOM: _("the room that the door will hang in is missing"),
    seasons.WRITE_ROOM: _(
        'write [room] and under it region = "most of the US", or driest and wettest'
    ),
    seasons.TWO_ROOMS: _("the room is described in two ways"),
    seasons.ONE_WAY: _("write region, or humidity, or driest and wettest"),
    seasons.TEMPERATURE_ALONE: _("a temperature says little alone"),
    seasons.ONE_SEASON: _("the room's {key} is missing"),
    seasons.OTHER_SEASON_TOO: _("write {key} too"),
    seasons.DRIEST_IS_WETTER: _(
        "the driest, {driest:tenth} %, is wetter than the wettest, {wettest:tenth} %"
    ),
    seasons.CHANGE_ROUND: _("change them round"),
    seasons.MOISTURE_UNREAD: _("{key} is no percentage over 0 and under {most}"),
    seasons.OF_REGION: _("{region}: {source}"),
    seasons.IN_AIR: _(
        "air of {low:tenth} to {high:tenth} % humidity at {warmth:tenth} °C; {source}"
    ),
    seasons.AS_JOB_SAYS: _("as the job says"),
    seasons.REGION_UNKNOWN: _("no figures are known for that region"),
    seasons.REGIONS_KNOWN: _(
        "known here: {regions:comma}; or give driest and wettest, or humidity"
    ),
    seasons.HUMIDITY_UNREAD: _(
        "humidity goes from a smaller percentage to a larger one, between {least} and {most}"
    ),
    seasons.TEMPERATURE_UNREAD: _("temperature is not that of a room"),
}
