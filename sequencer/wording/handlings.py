"""Hands and waste: what the virtual saw finds wrong with them, and what is told at a setup."""

from __future__ import annotations

from sequencer.facts import handlings as h
from sequencer.wording.catalogue import Table, _

TEXTS: Table = {
    h.UNTOLD: _("the plan does not say how it is held and what falls"),
    h.FALLS: _("the plan says “{told}”, the virtual saw “{found}”"),
    h.CAPTIVE: _("captive between guide and blade is {found}, not {told} as the plan says"),
    h.HELD: _("held is {told}; it should be {found}"),
    h.REACHES: _("what is held reaches {found} from the blade, not {told} as the plan says"),
    h.NO_GRIP: _("a {by} does not hold it there"),
    h.TOO_NEAR: _("held by a {by} it reaches {found} from the blade; it must be {least}"),
    h.PRESSED: _("pressed {told} as the plan says; it should be {found}"),
    h.ENDED: _("the plan ends the pass with {told}; it should be {found}"),
    h.KNIFE_ON_HEAD: _("no riving knife fits a grooving head"),
    h.FREED: _("{what} falls {side}, {lands}"),
    h.CHIPS: _("nothing but chips falls"),
    h.LEAVE: _("{what:cap} falls to the {way}; leave it until the blade stops."),
}
