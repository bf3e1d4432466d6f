"""What is wrong with the boards of a job file."""

from __future__ import annotations

from sequencer.facts.model import COUNT, LENGTH, TEXT, Domain

kind_of = Domain("rack")

LACKS = kind_of("lacks", key=TEXT)
AS_MEASURED = kind_of("as-measured", text=TEXT)
NO_SIZE = kind_of("no-size", key=TEXT)
MEASURE_IT = kind_of("measure-it")
OVER = kind_of("over", key=TEXT, value=LENGTH, most=LENGTH)
BARE_INCHES = kind_of("bare-inches")
BARE_MILLIMETRES = kind_of("bare-millimetres")
MARKED_TWICE = kind_of("marked-twice", mark=TEXT)
FIRST_MARKED = kind_of("first-marked", mark=TEXT, number=COUNT)
LONG_MARK = kind_of("long-mark", most=COUNT)
CHALK_IT = kind_of("chalk-it")
TOO_MANY = kind_of("too-many", most=COUNT)
ONLY_THOSE = kind_of("only-those")
ENDS_LEAVE_NOTHING = kind_of("ends-leave-nothing", gone=LENGTH)
EDGE_LEAVES_NOTHING = kind_of("edge-leaves-nothing", gone=LENGTH)
TRIM_LESS = kind_of("trim-less")
