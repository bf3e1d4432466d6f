"""Every setup held to published guidance and to what this shop can do, before it is printed.

`review(plan, shop)` gives the cautions of each setup, the warnings to be ticked, and the refusals;
`Unsafe` carries all refusals at once. The rules are data with their sources (`rules.toml`), one
predicate each.
"""

from __future__ import annotations

from sequencer.safety.review import Flag, Refused, Review, Unsafe, review, standing
from sequencer.safety.rules import Check

__all__ = ["Check", "Flag", "Refused", "Review", "Unsafe", "review", "standing"]
