"""What is wrong with a text that is no length, and how a length is written."""

from __future__ import annotations

from sequencer.facts.model import COUNT, FACT, TEXT, Domain

kind_of = Domain("spelling")

NO_LENGTH = kind_of("no-length")
TOO_LONG = kind_of("too-long", most=COUNT)
STRANGE_SPACE = kind_of("strange-space")
NEGATIVE = kind_of("negative")
PLUS_SIGN = kind_of("plus-sign")
COMMA = kind_of("comma")
POWER_OF_TEN = kind_of("power-of-ten")
SPACE_AT_BAR = kind_of("space-at-bar")
TWO_JOINS = kind_of("two-joins")
POINT_FIRST = kind_of("point-first")
SECOND_POINT = kind_of("second-point")
POINT_LAST = kind_of("point-last")
DECIMAL_AND_FRACTION = kind_of("decimal-and-fraction")
SECOND_BAR = kind_of("second-bar")
OVER_NOTHING = kind_of("over-nothing")
OF_NOTHING = kind_of("of-nothing")
LEADING_NOUGHT = kind_of("leading-nought")
UNIT_NAME = kind_of("unit-name")
PART_OF_A_FOOT = kind_of("part-of-a-foot")
TWO_UNITS = kind_of("two-units")
NO_NUMBER = kind_of("no-number")
TWO_NUMBERS = kind_of("two-numbers")
AFTER_LENGTH = kind_of("after-length", rest=TEXT)
MM_FRACTION = kind_of("mm-fraction")
NOT_ON_RULES = kind_of("not-on-rules", parts=COUNT)
NOT_BELOW_ONE = kind_of("not-below-one", fraction=TEXT)
FEET_AND_MM = kind_of("feet-and-mm")
INCHES_UNMARKED = kind_of("inches-unmarked")
TWELVE_INCHES = kind_of("twelve-inches")

# How to write it instead; `text` and its like are spellings that read as lengths.
LIKE = kind_of("like", example=TEXT)
WRITE = kind_of("write", text=TEXT)
WRITE_EITHER = kind_of("write-either", text=TEXT, other=TEXT)
WRITE_ROUGH = kind_of("write-rough", text=TEXT)
WRITE_NEAREST = kind_of("write-nearest", text=TEXT, nearest=TEXT)
WRITE_DECIMAL = kind_of("write-decimal")
WRITE_OR_INCHES = kind_of("write-or-inches", text=TEXT, inches=TEXT)
WRITE_DECIMAL_OR_INCHES = kind_of("write-decimal-or-inches", inches=TEXT)

TYPED = kind_of("typed", text=TEXT, message=FACT, hint=FACT)
"""A length that was typed in by itself, where no place need be told."""
