"""Every setup held to published guidance and to what this shop can do, before it is printed.

`review(plan, shop)` gives the cautions of each setup, the warnings to be ticked, and the refusals;
`Unsafe` carries all refusals at once. `handled(plan, shop)` says what hands do and what falls. The
rules are data with their sources (`rules.toml`), one predicate each; what they say are facts,
worded in `wording/hazards.py`.
"""

from __future__ import annotations

from sequencer.safety.handling import handled
from sequencer.safety.printed import check_printed
from sequencer.safety.review import Flag, Refused, Review, Unsafe, review, standing

__all__ = [
    "Flag",
    "Refused",
    "Review",
    "Unsafe",
    "check_printed",
    "handled",
    "review",
    "standing",
]
