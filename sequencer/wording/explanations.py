"""What `explain` says of a key, a rule or an exit code."""

from __future__ import annotations

from sequencer.facts import explanations
from sequencer.wording.catalogue import Table, _

TEXTS: Table = {
    explanations.OF_JOB: _("{key}, in a job file: {means}"),
    explanations.OF_SHOP: _("{key}, in a shop file: {means}"),
    explanations.OF_TABLE: _("{key}, in a table of pieces: {means}"),
    explanations.DEFAULT: _("left out, it is: {inches} (inches), {mm} (millimetres)"),
    explanations.USUAL: _("usual: {inches} in, {mm} mm; anything else is asked about"),
    explanations.RULE: _("rule {rule}: {when}"),
    explanations.FIGURE: _(
        "{name}: {inches} in, {mm} mm; [limits] in a shop file makes it stricter"
    ),
    explanations.SOURCE: _("from: {source}"),
    explanations.GOOD: _("good"),
    explanations.REFUSED: _(
        "a plan cannot be made as asked: unsafe or impossible; it says why and what would do. Also "
        "a fault of the program's own, which it names with its place"
    ),
    explanations.USAGE: _("the command was called wrongly"),
    explanations.WRONG_FILE: _(
        "a file is wrong: all its faults at once, each with file, line, column and how to write it"
    ),
    explanations.SURROUNDINGS: _(
        "the surroundings failed: a font, a permission, a missing library, memory, a stream that "
        "takes no results"
    ),
    explanations.INTERRUPTED: _(
        "interrupted, from the keyboard or by the system (SIGTERM, SIGHUP)"
    ),
    explanations.UNKNOWN: _("{name} is no key, no rule and no exit code"),
    explanations.MEANT: _("{name} is no key, no rule and no exit code; did you mean {close:or}?"),
}
