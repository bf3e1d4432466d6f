"""What is wrong with a job or shop file as a file: reading it, its keys, their kinds, its doors."""

from __future__ import annotations

from sequencer.facts.model import COUNT, FACT, TEXT, Domain, many

kind_of = Domain("file")

# Reading it.
MISSING = kind_of("missing")
FOLDER = kind_of("folder")
UNREADABLE = kind_of("unreadable", file=TEXT, reason=TEXT)
TOO_LARGE = kind_of("too-large")
UTF_16 = kind_of("utf-16")
NO_TEXT = kind_of("no-text")
NO_UTF_8 = kind_of("no-utf-8", byte=TEXT, line=COUNT)
EMPTY = kind_of("empty")
NEW_WRITES_ONE = kind_of("new-writes-one")
NEW_SHOP = kind_of("new-shop")
NO_FOLDER = kind_of("no-folder", folder=TEXT)
PLAN_WRITES_ONE = kind_of("plan-writes-one")
NAME_A_FILE = kind_of("name-a-file")
USUAL_SIZE = kind_of("usual-size")
SAVE_AS_UTF_8 = kind_of("save-as-utf-8")
PLAIN_TEXT = kind_of("plain-text")

# Its TOML.
NOT_TOML = kind_of("not-toml", found=TEXT)
TOO_DEEP = kind_of("too-deep")
TWICE = kind_of("twice")
KEEP_ONE = kind_of("keep-one")
MORE_MAY_FOLLOW = kind_of("more-may-follow", n=COUNT)

# Its keys.
UNKNOWN_KEY = kind_of("unknown-key", key=TEXT)
DID_YOU_MEAN = kind_of("did-you-mean", name=TEXT)
KNOWN_HERE = kind_of("known-here", names=many(TEXT))
NO_TABLE = kind_of("no-table", key=TEXT)
OWN_LINE = kind_of("own-line", header=TEXT)
NO_TABLES = kind_of("no-tables", key=TEXT)
LINE_BEFORE_EACH = kind_of("line-before-each", header=TEXT)

# Their values: `text` and `texts` are as they stand in a file.
WRITE = kind_of("write", text=TEXT)
WRITE_ONE = kind_of("write-one", texts=many(TEXT))
WRITE_UNDER = kind_of("write-under", text=TEXT, table=TEXT)
WRITE_WITH = kind_of("write-with", header=TEXT, lines=many(TEXT))
NO_QUOTES = kind_of("no-quotes")
QUOTES_WITHIN = kind_of("quotes-within")
CURLY_QUOTES = kind_of("curly-quotes")
NOT_WANTED = kind_of("not-wanted", key=TEXT, wanted=FACT)
A_LENGTH = kind_of("a-length")
LENGTHS = kind_of("lengths")
TOO_MANY = kind_of("too-many", key=TEXT, n=COUNT, most=COUNT)
A_NUMBER = kind_of("a-number")
A_TEXT = kind_of("a-text")
A_COUNT = kind_of("a-count", most=COUNT)
MINUTES = kind_of("minutes")
PERCENT = kind_of("percent", most=COUNT)
TRUE_OR_FALSE = kind_of("true-or-false")
NONE_OF = kind_of("none-of", key=TEXT, options=many(TEXT))
NO_RANGE = kind_of("no-range")
CONTROL = kind_of("control", code=TEXT)
LEAVE_IT_OUT = kind_of("leave-it-out")
EMPTY_NAME = kind_of("empty-name", key=TEXT)
LEAVE_OUT_OR_NAME = kind_of("leave-out-or-name")
TOO_LONG = kind_of("too-long", key=TEXT, most=COUNT)
SHORTEN = kind_of("shorten", now=COUNT)

# What it must have.
NO_UNIT = kind_of("no-unit")
WRITE_UNIT = kind_of("write-unit")
NO_DOOR = kind_of("no-door")
WRITE_DOOR = kind_of("write-door")
TOO_MANY_DOORS = kind_of("too-many-doors", most=COUNT)
SPLIT_FILE = kind_of("split-file")
NO_THICKNESS = kind_of("no-thickness")
NO_OPENING = kind_of("no-opening")
TWO_LENGTHS = kind_of("two-lengths")
OPENING_LACKS = kind_of("opening-lacks", key=TEXT)
NEGATIVE_GAP = kind_of("negative-gap")
WRITE_AIR = kind_of("write-air")

# What a door says of itself but could not have.
NO_MEETING_STILES = kind_of("no-meeting-stiles")
NO_PANELS_TO_MATCH = kind_of("no-panels-to-match")
PAIR_MEETS = kind_of("pair-meets")
INSTEAD = kind_of("instead", key=TEXT)
KEY_FOR_LAP = kind_of("key-for-lap", key=TEXT)
PAIR_HANGS = kind_of("pair-hangs")
NO_HINGE_KEY = kind_of("no-hinge-key")

# Marks.
NO_MARK = kind_of("no-mark")
WRITE_MARK = kind_of("write-mark")
MARKS_OF_A_SINGLE = kind_of("marks-of-a-single", n=COUNT)
MARKS_OF_A_PAIR = kind_of("marks-of-a-pair", n=COUNT)
ONE_MARK_EACH = kind_of("one-mark-each")
MARK_OF_THE_BATCH = kind_of("mark-of-the-batch", mark=TEXT)
MARK_TAKEN = kind_of("mark-taken", mark=TEXT, line=COUNT)
NEXT_FREE = kind_of("next-free", mark=TEXT)
