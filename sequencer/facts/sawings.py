"""What must not happen in one pass over the saw."""

from __future__ import annotations

from sequencer.facts.model import TERM, Domain

kind_of = Domain("sawing")

PASSES_BESIDE = kind_of("passes-beside")
NOTHING_LEFT = kind_of("nothing-left")
TAKES_SIDE = kind_of("takes-side", side=TERM)
TRAPPED = kind_of("trapped", guide=TERM)
BELOW_TABLE = kind_of("below-table")
NO_GUIDE = kind_of("no-guide", guide=TERM)
SQUARED_ON_SLED_ONLY = kind_of("squared-on-sled-only")
NOT_HELD_SO = kind_of("not-held-so", carrier=TERM, down=TERM, against=TERM)
BLADE_IN_GUIDE = kind_of("blade-in-guide", guide=TERM)
LEANS_INTO_GUIDE = kind_of("leans-into-guide", guide=TERM)
NIBBLED_ON_SLED_ONLY = kind_of("nibbled-on-sled-only")
MITRE_IS_NIBBLED = kind_of("mitre-is-nibbled")
NIBBLED_UPRIGHT_ONLY = kind_of("nibbled-upright-only")
NO_SECOND_SHOULDER = kind_of("no-second-shoulder")
SHOULDERS_TOO_NEAR = kind_of("shoulders-too-near")
SHORT_BEARING = kind_of("short-bearing", side=TERM, guide=TERM)
NOTHING_TO_STAND_ON = kind_of("nothing-to-stand-on", side=TERM)
NOT_THROUGH = kind_of("not-through")
NONE_KEPT = kind_of("none-kept")
