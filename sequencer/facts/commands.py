"""What the command line tells: results, what goes on, and how it is called rightly."""

from __future__ import annotations

from sequencer.facts.model import COUNT, FACT, LENGTH, MINUTES, TERM, TEXT, Domain, many

kind_of = Domain("command")

# Results.
READS_WELL = kind_of("reads-well", file=TEXT, found=FACT)
GOOD = kind_of("good")
ONE_DOOR = kind_of("one-door", mark=TEXT)
DOORS = kind_of("doors", n=COUNT, first=TEXT, last=TEXT)
PIECES = kind_of("pieces", n=COUNT)
PASSED_OVER = kind_of("passed-over", file=TEXT, names=many(TEXT))
SUMMARY = kind_of("summary", n=COUNT, minutes=MINUTES, best=FACT)
QUICKEST = kind_of("quickest")
QUICKEST_COMPARED = kind_of("quickest-compared")
AT_LEAST = kind_of("at-least", minutes=MINUTES)

# What goes on.
PLANNING = kind_of("planning")
TRYING_CHANGES = kind_of("trying-changes")
DRAWING = kind_of("drawing")
INTERRUPTED = kind_of("interrupted")

# Files.
IS_A_FILE = kind_of("is-a-file", path=TEXT)
NO_FOLDER = kind_of("no-folder")
KEPT_FILE = kind_of("kept-file", path=TEXT)
KEPT_FILES = kind_of("kept-files", paths=many(TEXT))
KEPT_INPUT = kind_of("kept-input", path=TEXT)
NO_JOURNAL = kind_of("no-journal", path=TEXT)
UNWRITABLE = kind_of("unwritable", path=TEXT, reason=TEXT)
UNWRITABLE_FOLDER = kind_of("unwritable-folder", path=TEXT, reason=TEXT)
NO_OPENING = kind_of("no-opening", text=TEXT)
NO_SIZE = kind_of("no-size", text=TEXT, message=FACT, hint=FACT)
ONE_FILE = kind_of("one-file")
FOLDER_BUSY = kind_of("folder-busy", path=TEXT)
CHANGED_SINCE = kind_of("changed-since", files=many(TEXT), folder=TEXT)
MIXED = kind_of("mixed", files=many(TEXT), folder=TEXT)
UNREADABLE = kind_of("unreadable", reason=TEXT)
NOT_SHOWN = kind_of("not-shown", reason=TEXT)
FAILED = kind_of("failed", path=TEXT, reason=TEXT)
NO_LIBRARY = kind_of("no-library", name=TEXT)
NO_MEMORY = kind_of("no-memory")
OWN_FAULT = kind_of("own-fault", what=TEXT, place=TEXT)
"""The program's own: what Python said, and where."""
NO_UTF_8 = kind_of("no-utf-8")
WRITTEN = kind_of("written", path=TEXT)
GIVEN_TWICE = kind_of("given-twice", file=TEXT)
TABLE_ALONE = kind_of("table-alone", file=TEXT)
WRONG_EVENINGS = kind_of("wrong-evenings", asked=TEXT, most=COUNT)
WRONG_USAGE = kind_of("wrong-usage", message=TEXT, usage=TEXT)
"""What the parser of arguments found, in words out of Python's own catalogue."""
PROOF_USAGE = kind_of("proof-usage")

# Saved settings.
SAVED = kind_of("saved", number=COUNT)
NOTED = kind_of("noted", number=COUNT)
TO_BE_CHECKED = kind_of("to-be-checked", cutter=TEXT, n=COUNT)
CHECKED = kind_of("checked", cutter=TEXT, n=COUNT)
FORGOTTEN = kind_of("forgotten", number=COUNT, makes=TEXT)
FORGOT = kind_of("forgot", name=TEXT)
FORGET_WHAT = kind_of("forget-what", text=TEXT)
TAKE_IT = kind_of("take-it", number=COUNT, each=many(FACT))
BOTH_SAY = kind_of("both-say", field=TEXT, here=TEXT, there=TEXT)
DIFFERED = kind_of("differed", number=COUNT, side=TERM, each=many(FACT))
MERGED = kind_of("merged", added=COUNT, replaced=COUNT, joined=COUNT)
WHICH_SAW = kind_of("which-saw", known=many(TEXT))
WRITE_KNOB = kind_of("write-knob", text=TEXT)
NO_GAUGE = kind_of("no-gauge", kind=TEXT, kinds=many(TEXT))
NOTE_WHAT = kind_of("note-what")
NO_CUTTER = kind_of("no-cutter", cutter=TEXT, known=many(TEXT))
NO_CUTTER_YET = kind_of("no-cutter-yet", cutter=TEXT)
NO_STORE = kind_of("no-store", file=TEXT)
LIKELY = kind_of("likely", n=COUNT, names=many(TEXT))
SHOP_ASKS = kind_of("shop-asks")
KERF_AS_MEASURED = kind_of(
    "kerf-as-measured", cutter=TEXT, kerf=LENGTH, file=LENGTH, job=TEXT, date=TEXT
)
KERF_BY_CUTS = kind_of(
    "kerf-by-cuts", cutter=TEXT, kerf=LENGTH, spread=LENGTH, n=COUNT, file=LENGTH
)
KERF_CHANGED = kind_of(
    "kerf-changed",
    cutter=TEXT, kerf=LENGTH, spread=LENGTH, n=COUNT, file=LENGTH, was=LENGTH, date=TEXT,
)  # fmt: skip
COUNT_SHARPENING = kind_of("count-sharpening")
THICKNESS_AS_MEASURED = kind_of(
    "thickness-as-measured", thickness=LENGTH, stated=LENGTH, job=TEXT, date=TEXT
)
OTHER_BOARDS = kind_of("other-boards", name=TEXT)
WRITE_KERF = kind_of("write-kerf")
WITHOUT_SAVED = kind_of("without-saved", why=FACT)
WITHOUT_SOME_SAVED = kind_of("without-some-saved", why=FACT)

# Pieces made again.
PLANNED_ANEW = kind_of("planned-anew", file=TEXT)
AS_FOLLOWED = kind_of("as-followed", file=TEXT)
MATES_HAVE = kind_of("mates-have", what=TERM, planned=LENGTH, measured=LENGTH)
AS_FOUND = kind_of("as-found", job=TEXT, date=TEXT)
METHODS_AS_IN = kind_of("methods-as-in", file=TEXT)
OTHER_UNIT = kind_of("other-unit", file=TEXT, its=TERM, own=TERM)
WRITE_SLOT = kind_of("write-slot", text=TEXT)
