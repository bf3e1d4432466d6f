"""All words of each knob and each carrier, a row each by its id.

Every word begins small.
"""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import Struct

from sequencer.saw.fittings import timed_as
from sequencer.wording.catalogue import _


class KnobWords(Struct, frozen=True):
    """`name` is what it is called where its number stands; `moved` what goes up or down, away or
    toward, if that is called otherwise. `set_up` is what takes its minutes, of one that has its
    own. `cleared`: that it is taken out of the way, told to be done, where anything asks for it."""

    name: str
    set_up: str = ""
    moved: str = ""
    cleared: str = ""


KNOBS: Mapping[str, KnobWords] = {
    "cutter": KnobWords(_("blade"), _("changing the cutter")),
    "tilt": KnobWords(_("tilt"), _("tilting the blade")),
    "height": KnobWords(_("blade height"), _("its height"), moved=_("blade")),
    "carrier": KnobWords(_("fence, sled or jig"), _("putting on fence, sled or jig")),
    "guard": KnobWords(_("guard"), _("the guard")),
    "fence": KnobWords(
        _("fence"),
        _("the fence"),
        cleared=_("push the fence right away from the blade, clear of carrier and offcuts"),
    ),
    "stop": KnobWords(
        _("stop"),
        _("the stop"),
        cleared=_("take the stop off the sled, so that no offcut is trapped against it"),
    ),
    "jig": KnobWords(_("jig"), _("the jig")),
    "mitre stop": KnobWords(_("mitre stop")),
    "spacer": KnobWords(
        _("block"),
        _("a block between jig and piece"),
        cleared=_("take the block from between jig and piece"),
    ),
}


class CarrierWords(Struct, frozen=True):
    """`put`: what is done to have it on the saw. `surface`: what sets the guide on it, and how a
    piece `bears` on that."""

    name: str
    short: str
    put: str
    surface: str
    bears: str


CARRIERS: Mapping[str, CarrierWords] = {
    "rip-fence": CarrierWords(
        _("rip fence"),
        _("fence"),
        _("work along the rip fence"),
        _("fence"),
        _("against the fence"),
    ),
    "crosscut-sled": CarrierWords(
        _("crosscut sled"), _("sled"), _("put the crosscut sled on"), _("stop"), _("at the stop")
    ),
    "tenoning-jig": CarrierWords(
        _("tenoning jig"), _("jig"), _("put the tenoning jig on"), _("jig"), _("against the jig")
    ),
    "mitre-sled": CarrierWords(
        _("mitre sled"),
        _("mitre sled"),
        _("put the mitre sled on"),
        _("mitre stop"),
        _("at the mitre stop"),
    ),
}

TERMS: Mapping[str, str] = {
    **{f"knob.{name}": row.name for name, row in KNOBS.items()},
    **{f"moved.{name}": row.moved or row.name for name, row in KNOBS.items()},
    **{f"minutes.{timed_as(name)}": row.set_up for name, row in KNOBS.items() if row.set_up},
    **{f"carrier.{name}": row.name for name, row in CARRIERS.items()},
}
"""The same in the vocabulary, for facts: a carrier, a knob, what of it is moved, what takes its
minutes."""
