"""Where a plan is not what its jobs ask for, does not add up with its own leaves, or does not say
of its hazards what the rules say."""

from __future__ import annotations

from sequencer.facts.model import COUNT, FACT, TERM, TEXT, Domain, many

kind_of = Domain("promise")

NO_LEAF = kind_of("no-leaf", door=TEXT)
NOT_ASKED = kind_of("not-asked", door=TEXT)
OTHER_HINGE = kind_of("other-hinge", door=TEXT, side=TERM)
OTHER_FACE = kind_of("other-face", door=TEXT)
OTHER_OPENING = kind_of("other-opening", door=TEXT)
OTHER_GAP = kind_of("other-gap", door=TEXT, side=TERM)
OTHER_PAIR = kind_of("other-pair", door=TEXT)
OTHER_COUNT = kind_of("other-count", what=FACT, found=COUNT, wanted=COUNT)
OTHER_SEASON = kind_of("other-season", door=TEXT, piece=TEXT)
OTHER_GAP_SEASON = kind_of("other-gap-season", door=TEXT)
BINDS = kind_of("binds", door=TEXT, piece=TEXT)
OTHER_AMOUNT = kind_of("other-amount", material=TEXT, strips=COUNT)
SAME_WOOD = kind_of("same-wood", board=TEXT, one=TEXT, other=TEXT)
OTHER_CAUTIONS = kind_of("other-cautions", setup=COUNT, rule=TEXT)
OTHER_AT_BENCH = kind_of("other-at-bench", step=COUNT, rule=TEXT)
OTHER_STANDING = kind_of("other-standing", rule=TEXT)
OTHER_LOOK = kind_of("other-look", look=TEXT)
OTHER_TICK = kind_of("other-tick", rule=TEXT, setups=many(COUNT))
