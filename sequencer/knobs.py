"""The knobs of the saw: what each is called, and which one sets a carrier's guide."""

from __future__ import annotations

from collections.abc import Mapping

GUIDE_KNOBS: Mapping[str, str] = {
    "rip-fence": "fence",
    "crosscut-sled": "stop",
    "tenoning-jig": "jig",
    "mitre-sled": "mitre stop",
}
"""The knob that each carrier's guide is set by; a jig that rides the fence is set by the fence."""

NUMBERED = ("height", *GUIDE_KNOBS.values())
"""Those that stand at a length."""

KNOBS = ("cutter", "tilt", "height", "carrier", "guard", *GUIDE_KNOBS.values())
"""All of them, in the order in which a change is told."""


def guide_knob(carrier: str, jig_rides: str) -> str:
    """The knob that a guide on this carrier is set by; `jig_rides` is what the tenoning jig rides.

    >>> guide_knob("tenoning-jig", "slot"), guide_knob("tenoning-jig", "fence")
    ('jig', 'fence')
    """
    if carrier == "tenoning-jig" and jig_rides == "fence":
        return GUIDE_KNOBS["rip-fence"]
    return GUIDE_KNOBS[carrier]
