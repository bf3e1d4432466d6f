"""What each value of a knob must come out as, for looking it up among what worked before."""

from __future__ import annotations

from collections.abc import Mapping

from sequencer.job.schema import Tools
from sequencer.operations import Operation, Setting
from sequencer.saw.fittings import GUIDES
from sequencer.saw.measures import DEEPENED
from sequencer.saw.values import KnobValue
from sequencer.setups import reuse
from sequencer.setups.reuse import Named, Want


def wants_of(
    first_of: Mapping[Setting, Operation],
    needs: Mapping[Setting, Mapping[str, tuple[str, ...]]],
    named: Mapping[Named, KnobValue],
    tools: Tools,
) -> dict[Named, Want]:
    """What each value must come out as, for looking it up among saved settings. One operation is
    enough for a setting: what is measured goes with it."""
    wants: dict[Named, Want] = {}
    for setting, operation in first_of.items():
        if setting.tilt:
            continue  # saved settings are those of an upright blade
        tested = any(test.knob == "height" for test in setting.tests)
        for knob, values in needs[setting].items():
            for text in values if knob == "height" or knob in GUIDES else ():
                value = named.get((knob, text))
                if value is None:
                    continue  # out of the way, where no scale is read
                number = value.number
                if knob != "height":
                    span = reuse.band(operation, "guide", number)
                elif tested:
                    span = reuse.band(operation, "height", number)
                elif value.tested:
                    continue  # wanted by the cut that is tested
                else:
                    span = (number, number)
                found = wants.get((knob, text))
                if found is None:
                    look = knob == "height" and value.tested
                    found = wants[knob, text] = Want(span, value.tested, number, look)
                found.look &= not tested or _looked_at(setting, tools)
                found.narrow(span, setting.carrier, setting.cutter, setting.kerf)
    return wants


def _looked_at(setting: Setting, tools: Tools) -> bool:
    """Whether a height may be tried on the first piece: a depth that is measured with a caliper,
    and that is cut deeper on the piece itself where it is too little."""
    measures = [test.measure.what for test in setting.tests if test.knob == "height"]
    return tools.caliper is not None and all(what in DEEPENED for what in measures)
