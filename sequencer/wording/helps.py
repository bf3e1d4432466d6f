"""What `--help` says of each command and option, by names of their own: `plan.suggest`."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from sequencer.wording.catalogue import _

if TYPE_CHECKING:
    from sequencer.facts import Value
    from sequencer.wording.room import Room

HELP: Mapping[str, str] = {
    "program": _("Plans a table saw's settings for a batch of framed cabinet doors."),
    "program.end": _("The machine's manual, local rules and qualified instruction come first."),
    "version": _("say which version this is"),
    "check": _("say all that is wrong with job files, and what cannot be made"),
    "check.quick": _("only read the files: what no saw can make is not found"),
    "plan": _("plan one batch of jobs and write its sheets"),
    "recut": _("plan spoiled pieces again, by themselves"),
    "compare": _("say what differs between two plans"),
    "compare.old": _("a plan.json, or the folder of its sheets: as it was printed"),
    "compare.new": _("the same of the other plan"),
    "follow.sheets": _("folder of the printed sheets, which are to be of the same plan (sheets)"),
    "follow": _("follow the plan at the saw, on a phone or tablet"),
    "times": _("what settings and test cuts took, for the shop file"),
    "setups": _("settings that worked, kept and found again"),
    "explain": _("say what a key, a safety rule or an exit code means"),
    "explain.what": _("a key of a file, a rule such as H04, an exit code such as 3"),
    "new": _("write a commented job to begin with"),
    "new.what": _("openings such as '15 3/8 x 23 1/2 left' or '30 x 22 pair'; a name (job.toml)"),
    "new.shop": _("write a shop file instead (shop.toml)"),
    "new.unit": _("of the file (in)"),
    "new.wood": _("what the frames are made of"),
    "new.thickness": _("of the planed stock, as measured"),
    "new.name": _("what the sheets call it"),
    "job": _("a job file (TOML)"),
    "job.or_table": _("the job file (TOML), or a table of pieces (CSV)"),
    "shop": _("the shop file; without it, a usual one"),
    "folder": _("folder for the sheets ({folder})"),
    "paper": _("(letter for inches, a4 for millimetres)"),
    "short": _("two pages for a small job: doors, strips and the page above the saw"),
    "evenings": _("a page above the saw for each of so many evenings (as few pages as it takes)"),
    "risk": _("with a risk sheet: hazard, who, what is done about it, source"),
    "open": _("show the sheets when they are made"),
    "no_pdf": _("leave out plan.pdf"),
    "shop.command": _("name a saw and what is fitted to it, so that its settings find it again"),
    "shop.saw": _("what you call the saw; an id of its own is written beside it"),
    "shop.fence": _("what you call its fence, where you have more than one"),
    "shop.sled": _("what you call its crosscut sled, where you have more than one"),
    "shop.jig": _("what you call its tenoning jig, where you have more than one"),
    "shop.changed": _("it was rebuilt or its scale moved for good: it begins anew"),
    "shop.sharpened": _("a blade that was sharpened; with --kerf as measured again"),
    "shop.kerf": _("the kerf of the sharpened blade, as measured in scrap"),
    "shop.was": _("take over what is kept under another name of this saw"),
    "store": _("the saved settings; without it, your own"),
    "plan.labels": _("labels to stick on strips, pieces and offcuts: labels.pdf"),
    "plan.above": _("the page above the saw on A3, or 11 by 17 inches: above.pdf"),
    "plan.full-size": _("story sticks, blocks and templates at full size: full-size.pdf"),
    "plan.pictures": _("doors, parts and strips in the round: pictures.pdf"),
    "plan.mend": _("of a job that is refused: write the first change that would do into its file"),
    "plan.suggest": _("list small changes that would save setups"),
    #
    "recut.mark": _("a piece, such as A3"),
    "recut.also": _("another job of the batch"),
    "recut.plan": _("the plan.json that you followed (sheets/plan.json)"),
    "recut.followed": _("where ticks and readings were kept, if not in the usual place"),
    "recut.slot": _("a slot's width as it was cut, where not as planned"),
    #
    "setups.json": _("for other programs"),
    "setups.list": _("all of them, one a line"),
    "setups.readings": _("all that was measured and timed at the saw, one a line"),
    "setups.scales": _("what the readings say of each scale"),
    "setups.standards": _("setup blocks and a story stick worth making, over past and coming jobs"),
    "standards.plan": _("a plan.json of a coming job"),
    "setups.chart": _("a chart of a saw's settings for the wall, as a page to print"),
    "chart.saw": _("which saw, where settings of several are kept"),
    "setups.show": _("one, with all that is known of it"),
    "setups.add": _("keep one that was dialled in without a plan"),
    "setups.note": _("write to one; name its gauge; say that a blade was sharpened"),
    "setups.forget": _("take some out"),
    "setups.export": _("write all to a file, or to the screen"),
    "setups.import": _("take in what export wrote; nothing here is lost"),
    "import.take": _("where both differ, take what the file says, or keep what is here"),
    "add.saw": _("the shop's name, as the sheets give it"),
    "add.kerf": _("as measured in scrap"),
    "add.knob": _("{knobs:comma}: from guide to kerf, or height; after @ what its scale read"),
    "add.makes": _("such as: slot 1/4 in 3/4"),
    "add.kind": _("the cut, to correct for another kerf"),
    "add.unit": _("of plain numbers (in)"),
    "add.date": _("as 2025-11-25 (today)"),
    "gauge": _("what sets it again: block, spacer or 'story stick', and what is written on it"),
    "note.text": _("in place of its note"),
    "note.no_gauge": _("its gauge is gone"),
    "note.of": _("what the gauge sets (fence, stop or jig)"),
    "note.sharpened": _("sharpened or changed: kerf to be checked"),
    "note.checked": _("measured again; its kerf stands in the shop file"),
    #
    "ordering": _("Finds the order of operations that costs the fewest minutes of setting up."),
    "ordering.problem": _("knobs, operations, before; - is what is typed or piped in"),
    "ordering.seconds": _("search for N seconds, or until proven"),
    "ordering.megabytes": _("stop where the process has taken N megabytes ({most})"),
}


def help_text(room: Room, name: str, **given: Value) -> str:
    """What `--help` says of a command or option."""
    return room.text(HELP[name], **given)
