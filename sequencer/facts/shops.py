"""What is assumed of a shop that does not say, and what is wrong with a shop file."""

from __future__ import annotations

from sequencer.facts.model import COUNT, FACT, LENGTH, NUMBER, TERM, TEXT, Domain, many

kind_of = Domain("shop")

# Assumed. `value` is the default taken, `of` the cutter it was taken for.
GRADUATION = kind_of("graduation", value=LENGTH)
MAX_HEIGHT = kind_of("max-height", value=LENGTH)
KNIFE = kind_of("knife")
HOLD_DOWN = kind_of("hold-down", value=TEXT)
CUTTER = kind_of("cutter", value=TEXT)
KERF = kind_of("kerf", of=TEXT, value=LENGTH)
DIAMETER = kind_of("diameter", of=TEXT, value=LENGTH)
GRIND = kind_of("grind", of=TEXT, value=TEXT)
SLED_DECK = kind_of("sled-deck", value=LENGTH)
SLED_LONGEST = kind_of("sled-longest", value=LENGTH)
SLED_WIDEST = kind_of("sled-widest", value=LENGTH)
SLED_CLAMP = kind_of("sled-clamp")
JIG_RIDES = kind_of("jig-rides")
JIG_DECK = kind_of("jig-deck")
JIG_OPENING = kind_of("jig-opening", value=LENGTH)
MINUTES = kind_of("minutes", each=many(FACT))
MINUTES_FOR = kind_of("minutes-for", what=TERM, value=NUMBER)
OTHER_SCALE = kind_of("other-scale", value=LENGTH, own=TERM)

# Wrong with the file.
NO_SUCH_SCALE = kind_of("no-such-scale", step=LENGTH)
JIG_LACKS_THICKNESS = kind_of("jig-lacks-thickness")
MEASURE_JIG = kind_of("measure-jig")
JIG_ADDS_NOTHING = kind_of("jig-adds-nothing")
NO_JIG_THICKNESS = kind_of("no-jig-thickness")
TOO_MANY_CUTTERS = kind_of("too-many-cutters", n=COUNT, most=COUNT)
KEEP_CUTTERS = kind_of("keep-cutters")
CUTTER_LACKS = kind_of("cutter-lacks", key=TEXT)
NAME_CUTTER = kind_of("name-cutter")
MEASURE_KERF = kind_of("measure-kerf")
LOOSER_LENGTH = kind_of("looser-length", own=LENGTH)
LOOSER_NUMBER = kind_of("looser-number", own=NUMBER)
ONLY_STRICTER = kind_of("only-stricter")
TOO_MANY_MINUTES = kind_of("too-many-minutes", key=TEXT, most=COUNT)
CHECK_IT = kind_of("check-it")

# Wrong among its numbers.
ODD_KERF = kind_of("odd-kerf", kerf=LENGTH)
ODD_DIAMETER = kind_of("odd-diameter", diameter=LENGTH)
BLADES_HAVE = kind_of("blades-have", low=LENGTH, high=LENGTH)
DADO_SETS_HAVE = kind_of("dado-sets-have", low=LENGTH, high=LENGTH)
PLATE_BINDS = kind_of("plate-binds", plate=LENGTH, kerf=LENGTH)
PLATE_IS_THINNER = kind_of("plate-is-thinner")
NAMED_TWICE = kind_of("named-twice", name=TEXT)
OWN_NAME = kind_of("own-name")
NO_BLADE = kind_of("no-blade")
WRITE_BLADE = kind_of("write-blade")
KNIFE_UNSUITED = kind_of("knife-unsuited", knife=LENGTH, blade=TEXT)
KNIFE_SUITS = kind_of("knife-suits", kerf=LENGTH)
LOW_BLADE = kind_of("low-blade", height=LENGTH)
MEASURE_HEIGHT = kind_of("measure-height")
HIGH_BLADE = kind_of("high-blade", height=LENGTH)
HALF_DIAMETER = kind_of("half-diameter", half=LENGTH)
THICK_DECK = kind_of("thick-deck", deck=LENGTH)
DECK_AT_MOST = kind_of("deck-at-most", most=LENGTH)
