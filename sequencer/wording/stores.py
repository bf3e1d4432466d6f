"""The file of saved settings, what is wrong with it, and how a kept setting is told."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sequencer.facts import Fact, stores
from sequencer.wording.catalogue import Table, _, counted_

if TYPE_CHECKING:
    from sequencer.wording.room import Room

COLUMNS = (
    _("no."), _("saw"), _("cutter"), _("kerf"), _("fence or jig"), _("setting"), _("makes"),
    _("gauge"), _("date"),
)  # fmt: skip
"""The heads of the list of saved settings."""

READING_COLUMNS = (_("no."), _("date"), _("job"), _("cutter"), _("fence or jig"), _("set"),
                   _("came out"))  # fmt: skip
"""The heads of the list of readings."""

SCALE_COLUMNS = (_("saw"), _("cutter"), _("fence or jig"), _("scale of"), _("readings"), _("known"))
"""The heads of the list of scales."""

ROWS = (_("saw"), _("cutter"), _("carrier"), _("date"), _("jobs"), _("note"))
"""What stands before the lines of one setting."""


def _indented(room: Room, fact: Fact) -> str:
    (lines,) = fact.values
    assert isinstance(lines, tuple)
    return "\n".join(f"    {room.say(line)}" for line in lines if isinstance(line, Fact))


TEXTS: Table = {
    stores.MAKES: _("{what:comma}; {at}in stock {stock} thick"),
    stores.MEASURES: _("{what} {target}"),
    stores.CUT: "{kind}",
    stores.GUIDE_AT: _("at {guide}, "),
    stores.TITLE: _("saved setting {number}: {makes}"),
    stores.CUTTER: _("{cutter}, kerf {kerf}"),
    stores.IN_DOUBT: _("kerf to be checked: the cutter was sharpened or changed since"),
    stores.NUMBER: _("{computed} as computed{read}{test}{gauge}"),
    stores.READ: _(", {read} as read"),
    stores.TEST: _("; {what}: target {target}, measured {measured}"),
    stores.TEST_UNNAMED: _("; target {target}, measured {measured}"),
    stores.GAUGED: _("; {gauge}"),
    stores.NONE_YET: _("no saved settings yet: follow a plan, or write sequencer setups add"),
    stores.NO_READINGS_YET: _("no readings yet: they are kept where a plan is followed"),
    stores.SET_AND_CAME: _("{knob} {wanted:decimal}, scale at {shown:decimal}"),
    stores.CAME_OUT: _("{what} {measured:decimal} for {planned:decimal}"),
    stores.FOUND: _("{what} {value:decimal} for {planned:decimal}"),
    stores.TOOK: _("{what}: {minutes}"),
    stores.ON_THE_WALL: counted_(
        "one check cut before good wood, whatever the wall says; {n} setting in doubt is left off",
        "one check cut before good wood, whatever the wall says; {n} in doubt are left off",
    ),
    stores.SCALE_OFF: _("shows {by:decimal} too {more}"),
    stores.SCALE_SLOPE: _("and {by:decimal} in 100 more, farther out"),
    stores.SPREAD: _("± {spread:decimal}"),
    stores.KNOCKED_ON: _("moved or knocked on {date}, by {by:decimal}"),
    stores.KERF_BY_CUTS: counted_(
        "{saw}, {cutter}: kerf {kerf:decimal} ± {spread:decimal} by {n} cut",
        "{saw}, {cutter}: kerf {kerf:decimal} ± {spread:decimal} by {n} cuts",
    ),
    stores.KERF_SHARPENED: _("{what}, sharpened {times} ×"),
    stores.DRIFTS: _("drifts by {by:decimal} in 100 readings"),
    #
    stores.UNIT: _("unit is {unit}, not in or mm"),
    stores.CARRIER: _("carrier is {carrier}, not {known:or}"),
    stores.KERF: _("the kerf is not above 0"),
    stores.NAMES: _("saw and cutter need their names"),
    stores.KNOBS: _("what is set is one of {known:comma}, each at most once"),
    stores.GAUGE: _("a gauge is {known:or}"),
    stores.SHARE: _("a share of the kerf lies from 0 to 1"),
    stores.ODD_KERF: _("a kerf of {kerf:file}: cutters have {low:file} to {high:file}"),
    stores.NOT_ITS_KNOB: _("{carrier} has no {knob}: write {known:or}"),
    stores.FAR_OFF: _(
        "{knob}: {read:file} as read is too far from {value:file} as computed, for no scale is off "
        "by more than {most:file}"
    ),
    stores.NO_DATE: _("{text} is no date; write it as 2025-11-25"),
    stores.NO_SUCH: _("no saved setting {number}: sequencer setups list shows them all"),
    stores.NO_SUCH_EVIDENCE: _("no {number}: sequencer setups readings shows them all"),
    stores.NO_KNOB: _("saved setting {number} has no {knob}, only {has:comma}"),
    stores.NO_SETUP: _("no setup {number} in this plan: its last is {n}"),
    stores.NOT_SET: _("setup {setup} does not set {knob}"),
    #
    stores.NOT_JSON: _("no JSON from here on"),
    stores.NO_EXPORT: _("no export of saved settings ({schema})"),
    stores.EXPORT_WRITES: _("sequencer setups export writes one"),
    stores.NO_LIST: _("no list of settings in it"),
    stores.IN_SETTING: _("setting {place}: {what}"),
    stores.MISSING: _("{key} is missing"),
    stores.NO_SETTING: _("this is no saved setting"),
    stores.NO_TEXT: _("{value} is no text"),
    stores.NO_RATIONAL: _('{value} is no exact number in quotes, as "1/8"'),
    stores.NO_READING: _("reading {place}: this is no reading"),
    stores.NO_UID: _("its uid is empty or given twice"),
    #
    stores.DAMAGED: _("{path}: the saved settings are damaged: {what}"),
    stores.DAMAGED_REST: _indented,
    stores.COULD_READ: counted_(
        "{n} setting could be read; the file was left as it is",
        "{n} settings could be read; the file was left as it is",
    ),
    stores.COULD_READ_BUT: counted_(
        "{n} setting could be read, {lost} could not; the file was left as it is",
        "{n} settings could be read, {lost} could not; the file was left as it is",
    ),
    stores.EXPORT_SAVES: _("sequencer setups export FILE writes down what could be read"),
    stores.OLDER_COPY: _("an older copy: {path}"),
    stores.MOVE_AWAY: _("move the damaged file away to begin a new one"),
    stores.EMPTY: _("the file is empty"),
    stores.OTHER_BEGINNING: _("it does not begin as such a file does"),
    stores.SYSTEM_SAYS: "{text}",
    stores.HELD: _("another program holds the file"),
    stores.UNUSABLE: _("{path}: the saved settings cannot be used: {why}"),
    stores.FOLDER: _("{path}: this is a folder; name the file of saved settings in it"),
    stores.FOREIGN: _("{path}: another program's file, not saved settings"),
    stores.LATER: _(
        "{path}: saved by a later version of this program (its tables are version {version}, known "
        "here up to {known}): bring this program up to date"
    ),
}
