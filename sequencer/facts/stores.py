"""The file of saved settings: what is wrong with it or with what is to be kept in it, and how a
kept setting is told."""

from __future__ import annotations

from sequencer.facts.model import (
    COUNT,
    FACT,
    LENGTH,
    MINUTES,
    TERM,
    TEXT,
    Domain,
    many,
    maybe,
)

kind_of = Domain("store")

# A setting as it is told.
MAKES = kind_of("makes", what=many(FACT), at=maybe(FACT), stock=many(LENGTH))
MEASURES = kind_of("measures", what=TEXT, target=LENGTH)
CUT = kind_of("cut", kind=TERM)
GUIDE_AT = kind_of("guide-at", guide=LENGTH)
TITLE = kind_of("title", number=COUNT, makes=TEXT)
CUTTER = kind_of("cutter", cutter=TEXT, kerf=LENGTH)
IN_DOUBT = kind_of("in-doubt")
NUMBER = kind_of("number", computed=LENGTH, read=maybe(FACT), test=maybe(FACT), gauge=maybe(FACT))
READ = kind_of("read", read=LENGTH)
TEST = kind_of("test", what=FACT, target=LENGTH, measured=LENGTH)
TEST_UNNAMED = kind_of("test-unnamed", target=LENGTH, measured=LENGTH)
GAUGED = kind_of("gauged", gauge=FACT)
NONE_YET = kind_of("none-yet")
NO_READINGS_YET = kind_of("no-readings-yet")
SET_AND_CAME = kind_of("set-and-came", knob=TERM, wanted=LENGTH, shown=LENGTH)
CAME_OUT = kind_of("came-out", what=FACT, planned=LENGTH, measured=LENGTH)
FOUND = kind_of("found", what=TERM, planned=LENGTH, value=LENGTH)
TOOK = kind_of("took", what=TERM, minutes=MINUTES)
ON_THE_WALL = kind_of("on-the-wall", n=COUNT)
SCALE_OFF = kind_of("scale-off", by=LENGTH, more=TERM)
SCALE_SLOPE = kind_of("scale-slope", by=LENGTH)
SPREAD = kind_of("spread", spread=LENGTH)
KNOCKED_ON = kind_of("knocked-on", date=TEXT, by=LENGTH)
KERF_BY_CUTS = kind_of("kerf-by-cuts", cutter=TEXT, saw=TEXT, kerf=LENGTH, spread=LENGTH, n=COUNT)
KERF_SHARPENED = kind_of("kerf-sharpened", what=FACT, times=COUNT)
DRIFTS = kind_of("drifts", by=LENGTH)

# What keeps a setting from being kept.
UNIT = kind_of("unit", unit=TEXT)
CARRIER = kind_of("carrier", carrier=TEXT, known=many(TEXT))
KERF = kind_of("kerf")
NAMES = kind_of("names")
KNOBS = kind_of("knobs", known=many(TEXT))
GAUGE = kind_of("gauge", known=many(TEXT))
SHARE = kind_of("share")
ODD_KERF = kind_of("odd-kerf", kerf=LENGTH, low=LENGTH, high=LENGTH)
NOT_ITS_KNOB = kind_of("not-its-knob", carrier=TERM, knob=TEXT, known=many(TEXT))
FAR_OFF = kind_of("far-off", knob=TEXT, value=LENGTH, read=LENGTH, most=LENGTH)
NO_DATE = kind_of("no-date", text=TEXT)
NO_SUCH = kind_of("no-such", number=COUNT)
NO_SUCH_EVIDENCE = kind_of("no-such-evidence", number=TEXT)
NO_KNOB = kind_of("no-knob", number=COUNT, knob=TEXT, has=many(TEXT))
NO_SETUP = kind_of("no-setup", number=COUNT, n=COUNT)
NOT_SET = kind_of("not-set", setup=COUNT, knob=TEXT)

# An export.
NOT_JSON = kind_of("not-json")
NO_EXPORT = kind_of("no-export", schema=TEXT)
EXPORT_WRITES = kind_of("export-writes")
NO_LIST = kind_of("no-list")
IN_SETTING = kind_of("in-setting", place=COUNT, what=FACT)
MISSING = kind_of("missing", key=TEXT)
NO_SETTING = kind_of("no-setting")
NO_TEXT = kind_of("no-text", value=TEXT)
NO_RATIONAL = kind_of("no-rational", value=TEXT)
NO_READING = kind_of("no-reading", place=COUNT)
NO_UID = kind_of("no-uid")

# The file.
DAMAGED = kind_of("damaged", path=TEXT, what=FACT)
DAMAGED_REST = kind_of("damaged-rest", lines=many(FACT))
COULD_READ = kind_of("could-read", n=COUNT)
COULD_READ_BUT = kind_of("could-read-but", n=COUNT, lost=COUNT)
EXPORT_SAVES = kind_of("export-saves")
OLDER_COPY = kind_of("older-copy", path=TEXT)
MOVE_AWAY = kind_of("move-away")
EMPTY = kind_of("empty")
OTHER_BEGINNING = kind_of("other-beginning")
SYSTEM_SAYS = kind_of("system-says", text=TEXT)
HELD = kind_of("held")
UNUSABLE = kind_of("unusable", path=TEXT, why=FACT)
FOLDER = kind_of("folder", path=TEXT)
FOREIGN = kind_of("foreign", path=TEXT)
LATER = kind_of("later", path=TEXT, version=COUNT, known=COUNT)
