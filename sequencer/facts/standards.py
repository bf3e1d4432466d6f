"""Standards worth making for a saw: setup blocks and a story stick, over past and coming jobs."""

from __future__ import annotations

from sequencer.facts.model import COUNT, FACT, LENGTH, TERM, TEXT, Domain, many

kind_of = Domain("standard")

UNPLUG = kind_of("unplug")
BLOCKS = kind_of("blocks", n=COUNT, sets=COUNT, of=COUNT)
BLOCK = kind_of(
    "block", mark=TEXT, thickness=LENGTH, width=LENGTH, length=LENGTH, n=COUNT, ways=many(FACT)
)
WAY_ALONE = kind_of("way-alone", carrier=TERM, number=LENGTH)
WAY_TOGETHER = kind_of("way-together", carrier=TERM, number=LENGTH, other=TEXT)
WAY_BEHIND = kind_of("way-behind", carrier=TERM, number=LENGTH)
STICK = kind_of("stick", length=LENGTH, marks=many(FACT))
MARK = kind_of("mark", number=COUNT, at=LENGTH, n=COUNT)
NAME_IT = kind_of("name-it")
NONE = kind_of("none", n=COUNT)
