"""Where a plan as a whole cannot be made of what is given, or contradicts itself."""

from __future__ import annotations

from sequencer.facts.model import COUNT, FACT, MINUTES, Domain

kind_of = Domain("pipeline")

NO_FREE_VALUE = kind_of("no-free-value")
JOINT_OFF_CENTRE = kind_of("joint-off-centre")
NOTHING_HELD = kind_of("nothing-held", what=FACT)
NOTHING_PLANNED = kind_of("nothing-planned")
SETUPS_DIFFER = kind_of("setups-differ", laid_out=COUNT, ordered=COUNT)
CALM_DIFFERS = kind_of("calm-differs", before=MINUTES, after=MINUTES)
