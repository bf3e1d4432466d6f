"""What is wrong with a check: with what it has measured, with when it is good, with how it is
corrected."""

from __future__ import annotations

from sequencer.facts import checks
from sequencer.wording.catalogue import Table, _

TEXTS: Table = {
    checks.NO_SUCH_STEP: _("{measure} is measured in step {step}, and there is no such step"),
    checks.NOT_CUT: _("{measure} is measured on a test piece that nothing is cut on in this step"),
    checks.NOT_ON_WORK: _("{measure} is not what is measured on it in this step"),
    checks.OTHER_SETUP: _("{measure} is measured in a setup that is not this step's"),
    checks.OTHER_KNOB: _("{measure} is corrected by “{knob}”, which does not set it here"),
    checks.UNREADABLE: _("{measure} cannot be measured on the wood as it then is"),
    checks.OTHER_TARGET: _("{measure} is to be {target}, and is {found} where all is as planned"),
    checks.OTHER_SHARE: _(
        "{measure} is said to change by {told} while “{knob}” changes by 1, and changes by {found}"
    ),
    checks.SET_AMISS: _("“{knob}” is said to be set so: {how}, and it is not"),
    checks.MADE_FOR_A_BAR: _(
        "{measure} is told by a number, though nobody measures the bar that it is for"
    ),
    checks.REFERS_AMISS: _("{measure} refers to a check of something that it does not go into"),
    checks.COULD_BE_READ: _("{measure} is tried by its fit, though a {tool} could tell"),
    checks.NO_SUCH_TOOL: _("{measure} is read by a {tool} as the shop has none"),
    checks.OUT_OF_REACH: _("{measure} is read by a {tool} that reaches {reach}"),
    checks.BETWEEN_MARKS: _("{measure} is told as {value}, between the marks of the {tool}"),
    checks.ON_ITS_LIMIT: _("{measure} is aimed at {target}, which is the limit of what is good"),
    checks.WIDE_WINDOW: _(
        "{measure} is called good from {low} to {high}; it is good from {least} to {most}"
    ),
    checks.LOPSIDED: _(
        "{measure} is called good from {low} to {high}, not as far on both sides of {target}"
    ),
    checks.SHUT_WINDOW: _("no {measure} is called good"),
    checks.RELIED_ON_LATER: _("{measure} is to be good by step {step}, not by the step after this"),
    checks.SHORT_TEST_PIECE: _("the test piece is {found} long, and none is shorter than {least}"),
    checks.NEVER_CHECKED: _(
        "the {cut} hangs on “{knob}”, which was not tried on scrap since it was last set"
    ),
    checks.NOT_MEASURED: _("nothing has its {measure} measured before the work goes on"),
    checks.NO_FIRST_SHOULDER: _("it is nibbled up to a shoulder that was not cut before"),
    checks.NOTHING_LIKE_IT: _("{measure} is measured on it, and it has none"),
}
