"""What is wrong with the boards of a job file, and how to write them."""

from __future__ import annotations

from sequencer.facts import racks
from sequencer.wording.catalogue import Table, _

TEXTS: Table = {
    racks.LACKS: _("the board has no {key}"),
    racks.AS_MEASURED: _("write {text} under [[board]], as measured"),
    racks.NO_SIZE: _("the board's {key} is 0"),
    racks.MEASURE_IT: _("measure it"),
    racks.OVER: _("{key} is {value:file}, over {most:file}"),
    racks.BARE_INCHES: _("check the unit: bare numbers in this file are inches"),
    racks.BARE_MILLIMETRES: _("check the unit: bare numbers in this file are millimetres"),
    racks.MARKED_TWICE: _("two boards are marked {mark}"),
    racks.FIRST_MARKED: _("[[board]] number {number} is {mark} already: give each its own mark"),
    racks.LONG_MARK: _("mark is longer than {most} characters"),
    racks.CHALK_IT: _("make it short enough to chalk on the board"),
    racks.TOO_MANY: _("more than {most} boards"),
    racks.ONLY_THOSE: _("give only those that may be cut"),
    racks.ENDS_LEAVE_NOTHING: _("trimming its ends takes {gone:file}, and leaves nothing"),
    racks.EDGE_LEAVES_NOTHING: _("trimming its edge takes {gone:file}, and leaves nothing"),
    racks.TRIM_LESS: _("leave the board out, or trim less of it"),
}
