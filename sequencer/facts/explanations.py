"""What `explain` says of a key, a rule or an exit code."""

from __future__ import annotations

from sequencer.facts.model import SAID, TEXT, Domain, many

kind_of = Domain("explanation")

OF_JOB = kind_of("of-job", key=TEXT, means=SAID)
OF_SHOP = kind_of("of-shop", key=TEXT, means=SAID)
OF_TABLE = kind_of("of-table", key=TEXT, means=SAID)
DEFAULT = kind_of("default", inches=TEXT, mm=TEXT)
USUAL = kind_of("usual", inches=TEXT, mm=TEXT)
RULE = kind_of("rule", rule=TEXT, when=TEXT)
FIGURE = kind_of("figure", name=TEXT, inches=TEXT, mm=TEXT)
SOURCE = kind_of("source", source=TEXT)
GOOD = kind_of("good")
REFUSED = kind_of("refused")
USAGE = kind_of("usage")
WRONG_FILE = kind_of("wrong-file")
SURROUNDINGS = kind_of("surroundings")
INTERRUPTED = kind_of("interrupted")
UNKNOWN = kind_of("unknown", name=TEXT)
MEANT = kind_of("meant", name=TEXT, close=many(TEXT))
