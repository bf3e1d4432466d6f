"""What is wrong with the file of an ordering problem. `place` is where, by its keys and names."""

from __future__ import annotations

from sequencer.facts.model import COUNT, FACT, MINUTES, TERM, TEXT, Domain, maybe

kind_of = Domain("problem")

# The file.
UNREADABLE = kind_of("unreadable", reason=TEXT)
NO_AMOUNT = kind_of("no-amount", option=TEXT)
TOO_LARGE = kind_of("too-large", most=COUNT)
NO_UTF_8 = kind_of("no-utf-8", byte=COUNT)
NOT_JSON = kind_of("not-json")
TOO_DEEP = kind_of("too-deep")
KEY_TWICE = kind_of("key-twice", key=TEXT)

# What stands in it.
MISSING = kind_of("missing", key=TEXT)
MISSING_AT = kind_of("missing-at", place=TEXT, key=TEXT)
UNKNOWN_KEY = kind_of("unknown-key", place=TEXT, key=TEXT, near=TEXT)
UNKNOWN_ON_TOP = kind_of("unknown-on-top", key=TEXT, near=TEXT)
NO_OPERATION = kind_of("no-operation", place=TEXT, name=TEXT, near=maybe(FACT))
DID_YOU_MEAN = kind_of("did-you-mean", name=TEXT)
NOT_WANTED = kind_of("not-wanted", place=TEXT, wanted=FACT, value=TEXT)
THE_PROBLEM = kind_of("the-problem", wanted=FACT, value=TEXT)
AN_OBJECT = kind_of("an-object")
A_LIST = kind_of("a-list")
VALUES = kind_of("values")
A_TEXT = kind_of("a-text")
A_NUMBER = kind_of("a-number")
WHOLE_NUMBER = kind_of("whole-number")
A_PAIR = kind_of("a-pair")
FIRST_SETTING = kind_of("first-setting", value=TEXT)

# The answer of the command.
LIMIT_ENDED = kind_of("limit-ended", limit=TERM)
LIMIT_ENDED_ABOVE = kind_of("limit-ended-above", limit=TERM, minutes=MINUTES)
