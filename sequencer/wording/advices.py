"""Free dimensions, spacers and spares worth having, small changes that would save setups, and
pieces made again."""

from __future__ import annotations

from sequencer.facts import advices
from sequencer.wording.catalogue import Table, _, counted_

TEXTS: Table = {
    advices.CHOSEN: _(
        "{name}: {value} chosen from {low} to {high}; {minutes} of setting up{others}"
    ),
    advices.OTHERS: _(", {each:comma}"),
    advices.COSTS_AT: _("{minutes} at {value}"),
    #
    advices.SPACER: _(
        "worth making once: a spacer {thickness} thick{kerf}: {leads}{saved}; it saves {minutes} "
        "here"
    ),
    advices.ONE_KERF: _(", one kerf"),
    advices.LEADS: counted_(
        "it sets setup {numbers} without reading the scale",
        "it sets setups {numbers} without reading the scale",
    ),
    advices.SAVED_TOO: counted_(
        ", and goes with saved setting {numbers}", ", and goes with saved settings {numbers}"
    ),
    advices.NUMBERS: "{numbers}",
    advices.NUMBERS_AND_MORE: _("{numbers:comma} and {more} more"),
    #
    advices.CHANGES: counted_(
        "{each} (door {marks}): saves {saves}",
        "{each} (doors {marks:comma}): saves {saves}",
    ),
    advices.CHANGE_TO: _("{where}: {name} {value} instead of {now}"),
    advices.AT_LINE: _("{file}:{line}"),
    advices.BY_DEFAULT: _("{file}, by default"),
    advices.SETUPS_AND_MINUTES: counted_("{n} setup and {minutes}", "{n} setups and {minutes}"),
    advices.SETUPS: counted_("{n} setup", "{n} setups"),
    advices.JUST_MINUTES: "{minutes}",
    advices.NO_CHANGE: counted_(
        "{n} change was looked at: none within {within} of what the file says (slot and groove "
        "{fine}) would save a minute",
        "{n} changes were looked at: none within {within} of what the file says (slot and groove "
        "{fine}) would save a minute",
    ),
    advices.PASSED_OVER: _(
        "{looked_at} changes were looked at, the likeliest; in a job as large as this some "
        "{others} others were not"
    ),
    #
    advices.SPARE_WORTH: _(
        "cut one spare {mark} now: it needs no extra setup; made again by itself it takes at least "
        "{least} of setting up"
    ),
    advices.SPARE_SAVES: _(
        "a spare of {marks} cut along with the job would have taken {along}; making it again takes "
        "{again}"
    ),
    advices.SPARE_SAVES_NOTHING: _(
        "a spare of {marks} would have saved nothing: cut along with the job it takes {along}"
    ),
    advices.NO_SETTING_MORE: _("no extra setup"),
    advices.MORE_SETTING_UP: _("{minutes} more of setting up"),
    advices.NO_SLOT: _("no piece of this plan has a slot {slot} wide, only {known:or}"),
    advices.SLOT_TOO_FAR: _(
        "a slot planned {slot} wide never comes out {cut}: measure again, and mind the unit"
    ),
    advices.NO_PIECE: _("no piece {mark} in this plan: it has {known}"),
    advices.OTHER_JOB: _(
        "{marks}: of another job of this plan; name all its job files, the others with --also"
    ),
    advices.COMES_OUT_OTHERWISE: _(
        "{mark} would not come out as it was planned: {how:comma}; take the job file and the shop "
        "file that the plan was made from"
    ),
    advices.SIZE_DIFFERS: _("its {what} {now}, not {planned}"),
    advices.JOINTS_DIFFER: _("its joints lie otherwise"),
}
