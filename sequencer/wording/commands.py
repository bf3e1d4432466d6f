"""The command line's results, what it says while it works, and how it is called rightly."""

from __future__ import annotations

from sequencer.facts import commands
from sequencer.wording.catalogue import Table, _, counted_

TEXTS: Table = {
    commands.READS_WELL: _("{file} reads well: {found}"),
    commands.GOOD: _("good: all of it can be made in this shop"),
    commands.ONE_DOOR: _("1 door, {mark}"),
    commands.DOORS: counted_("{n} door, {first} to {last}", "{n} doors, {first} to {last}"),
    commands.PIECES: counted_("{n} piece", "{n} pieces"),
    commands.PASSED_OVER: _("{file}: columns that nothing was read from: {names:comma}"),
    commands.SUMMARY: counted_(
        "{n} setup, {minutes} of setting up: {best}", "{n} setups, {minutes} of setting up: {best}"
    ),
    commands.QUICKEST: _("the quickest order there is (checked)"),
    commands.QUICKEST_COMPARED: _("the quickest of the ways compared (checked)"),
    commands.AT_LEAST: _("no order takes less than {minutes}"),
    #
    commands.PLANNING: _("planning …"),
    commands.TRYING_CHANGES: _("planning again with small changes …"),
    commands.DRAWING: _("drawing the sheets …"),
    commands.INTERRUPTED: _("interrupted"),
    #
    commands.IS_A_FILE: _("{path}: this is a file; name a folder with -o"),
    commands.NO_FOLDER: _('-o names no folder; write "." for the current one'),
    commands.KEPT_FILE: _("{path}: already there, and kept; name another file"),
    commands.KEPT_FILES: _(
        "{paths}: already there, and kept, for this program has not written them as they are; name "
        "another folder with -o, or take them away"
    ),
    commands.KEPT_INPUT: _(
        "{path}: this is what the plan is made from, and kept; name another folder with -o"
    ),
    commands.NO_JOURNAL: _(
        "{path}: this name is needed for a moment, but the file is not this program's, and kept; "
        "rename it"
    ),
    commands.UNWRITABLE: _("{path}: cannot be written: {reason}"),
    commands.UNWRITABLE_FOLDER: _("{path}: cannot be written to: {reason}"),
    commands.NO_OPENING: _(
        '{text}: write an opening as "15 3/8 x 23 1/2 left": width, x, height, then left, right '
        "or pair"
    ),
    commands.NO_SIZE: "{text}: {message}: {hint}",
    commands.ONE_FILE: _("name one file to write, or openings"),
    commands.FOLDER_BUSY: _("{path}: another process has been writing there for a minute"),
    commands.CHANGED_SINCE: _(
        "{files}: changed since the sheets in {folder} were made; plan again before you cut by them"
    ),
    commands.MIXED: _(
        "{folder}: {files} not as planned with the others there; plan again before you cut by them"
    ),
    commands.UNREADABLE: _("cannot be read: {reason}"),
    commands.NOT_SHOWN: _("what was found cannot be shown: {reason}"),
    commands.FAILED: "{path}: {reason}",
    commands.NO_LIBRARY: _("a library is missing or broken: {name}; install the program again"),
    commands.NO_MEMORY: _("there is too little memory"),
    commands.OWN_FAULT: _("a fault of this program, none of your files: {what}, at {place}"),
    commands.NO_UTF_8: _("no UTF-8 text"),
    commands.WRITTEN: "{path}",
    commands.GIVEN_TWICE: _("{file} is given twice; for equal doors write a count in the file"),
    commands.TABLE_ALONE: _("{file}: a table of pieces is checked and planned by itself"),
    commands.WRONG_EVENINGS: _(
        "--evenings {asked}: give a number from 1 to {most}, which is how many setups there are"
    ),
    commands.WRONG_USAGE: "{message}\n    {usage}",
    commands.PROOF_USAGE: _("usage: python -m sequencer.proof PLAN.json"),
    #
    commands.SAVED: _("saved setting {number}"),
    commands.NOTED: _("noted: saved setting {number}"),
    commands.TO_BE_CHECKED: counted_(
        "{cutter}: {n} saved setting marked: kerf to be checked",
        "{cutter}: {n} saved settings marked: kerf to be checked",
    ),
    commands.CHECKED: counted_(
        "{cutter}: {n} saved setting marked: kerf checked",
        "{cutter}: {n} saved settings marked: kerf checked",
    ),
    commands.FORGOTTEN: _("forgotten: saved setting {number}, {makes}"),
    commands.FORGOT: _("{name} is forgotten"),
    commands.FORGET_WHAT: _("{text} is no number of a setting, and none such as r7 or n7"),
    commands.TAKE_IT: _("saved setting {number} differs: {each:comma}. Take the file's? [y/N]"),
    commands.BOTH_SAY: _("{field}: here {here}, in the file {there}"),
    commands.DIFFERED: _(
        "saved setting {number} stays {side}; what is written to it and its gauges are kept of "
        "both ({each:comma})"
    ),
    commands.MERGED: _("{added} added, {replaced} replaced, {joined} given more jobs"),
    commands.WHICH_SAW: _("name a saw with --saw; settings are kept of: {known:comma}"),
    commands.WRITE_KNOB: _("{text}: write what is set, =, and its length: fence=2 17/32"),
    commands.NO_GAUGE: _("{kind}: a gauge is {kinds:or}, with the name that is written on it"),
    commands.NOTE_WHAT: _(
        "name a setting and what to note, or name a cutter with --sharpened or --checked"
    ),
    commands.NO_CUTTER: _("no saved setting was dialled in with {cutter}: there are {known:comma}"),
    commands.NO_CUTTER_YET: _(
        "no saved setting was dialled in with {cutter}: none is saved of any cutter"
    ),
    commands.NO_STORE: _("{file}: no such file of saved settings"),
    commands.LIKELY: counted_(
        "nothing is kept of this saw, but {n} setting or reading under {names:or}: it is not used "
        "unasked",
        "nothing is kept of this saw, but {n} settings and readings under {names:or}: they are not "
        "used unasked",
    ),
    commands.SHOP_ASKS: _(
        "sequencer shop, then the shop file's name, asks whether that is the same saw"
    ),
    commands.KERF_AS_MEASURED: _(
        "{cutter}: kerf {kerf:decimal} as measured in {job} on {date}, in place of {file:decimal} "
        "in the shop file"
    ),
    commands.KERF_BY_CUTS: _(
        "{cutter}: kerf {kerf:decimal} ± {spread:decimal} by {n} cuts of earlier jobs, in place of "
        "{file:decimal} in the shop file"
    ),
    commands.KERF_CHANGED: _(
        "{cutter}: since {date} it cuts {kerf:decimal} ± {spread:decimal} by {n} readings, before "
        "that {was:decimal}; the shop file has {file:decimal}. Was it sharpened or changed?"
    ),
    commands.COUNT_SHARPENING: _(
        "write the kerf in the shop file, and count under sharpened that it was; else measure the "
        "kerf in scrap"
    ),
    commands.THICKNESS_AS_MEASURED: _(
        "boards {thickness:decimal} thick as measured in {job} on {date}, in place of "
        "{stated:decimal} in the job file"
    ),
    commands.OTHER_BOARDS: _("if these are other boards: sequencer setups forget {name}"),
    commands.WRITE_KERF: _(
        "write it in the shop file; sequencer setups readings shows it, and forget takes it out"
    ),
    commands.WITHOUT_SAVED: _("planned without saved settings: {why}"),
    commands.WITHOUT_SOME_SAVED: _("planned without some saved settings: {why}"),
    #
    commands.PLANNED_ANEW: _(
        "no {file} here, so the job was planned anew for its methods: compare with the sheets that "
        "you followed, or name their plan.json with --plan"
    ),
    commands.AS_FOLLOWED: _("as it was followed at the saw: {file}"),
    commands.MATES_HAVE: _("{what}: {measured:decimal} as measured, in place of {planned:decimal}"),
    commands.AS_FOUND: _("as it was measured at the saw in {job}, last on {date}"),
    commands.METHODS_AS_IN: _("methods as in {file}"),
    commands.OTHER_UNIT: _("{file} is in {its}, the job in {own}"),
    commands.WRITE_SLOT: _("{text}: write the slot's width as planned, =, and as cut: 1/4=0.252"),
}
