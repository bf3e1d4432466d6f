"""What is wrong with a `plan.json`. `place` is the way to the value by its keys, `value` the JSON
that stands there."""

from __future__ import annotations

from sequencer.facts.model import COUNT, FACT, TEXT, Domain, many

kind_of = Domain("contract")

NOT_JSON = kind_of("not-json")
UNREADABLE = kind_of("unreadable", why=FACT)
KEY_TWICE = kind_of("key-twice", key=TEXT)
NOT_A_NUMBER = kind_of("not-a-number", text=TEXT)
TOO_DEEP = kind_of("too-deep")
NO_PLAN = kind_of("no-plan")
OTHER_SCHEMA = kind_of("other-schema", schema=TEXT, wanted=TEXT)
PLAN_AGAIN = kind_of("plan-again")

NO_STRING = kind_of("no-string", place=TEXT, value=TEXT)
NO_RATIONAL = kind_of("no-rational", place=TEXT, value=TEXT)
NO_FACT = kind_of("no-fact", place=TEXT, value=TEXT)
NO_MEASURE = kind_of("no-measure", place=TEXT, value=TEXT)
NONE_OF = kind_of("none-of", place=TEXT, value=TEXT, choices=many(TEXT))
MISSING = kind_of("missing", place=TEXT, key=TEXT)
WANTED = kind_of("wanted", place=TEXT, wanted=FACT, value=TEXT)
A_STRING = kind_of("a-string")
TRUE_OR_FALSE = kind_of("true-or-false")
WHOLE_NUMBER = kind_of("whole-number")
A_LIST = kind_of("a-list")
A_LIST_OF = kind_of("a-list-of", n=COUNT)
AN_OBJECT = kind_of("an-object")
AN_OBJECT_WITH = kind_of("an-object-with", keys=many(TEXT))
