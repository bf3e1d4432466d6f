"""The commands `follow` and `times`: what they print, ask for and run into."""

from __future__ import annotations

from sequencer.facts.model import COUNT, FACT, MINUTES, TEXT, Domain, many

kind_of = Domain("follow")

# The file of what was done.
WRITTEN_BY_NEWER = kind_of("written-by-newer", file=TEXT)
NOT_OPENED = kind_of("not-opened", file=TEXT, reason=TEXT)
NOT_SAVED = kind_of("not-saved", reason=TEXT)
NO_SUCH_JOB = kind_of("no-such-job", digest=TEXT)
PROGRAM_FAULT = kind_of("program-fault", what=TEXT)

# Address and port.
NO_ADDRESS = kind_of("no-address")
A_FILE = kind_of("a-file", text=TEXT)
NO_PORT = kind_of("no-port", port=COUNT)
NOT_FREE = kind_of("not-free", address=TEXT, port=COUNT, reason=TEXT)
KEEP_TO_YOURSELF = kind_of("keep-to-yourself")
STAY_AWAKE = kind_of("stay-awake")

# A page that a phone keeps.
NO_TLS_LIBRARY = kind_of("no-tls-library")
MADE_HERE = kind_of("made-here", fingerprint=TEXT)
TRUST_ONCE = kind_of("trust-once", address=TEXT)
THEN_INSTALL = kind_of("then-install")
TAKEN_OUT = kind_of("taken-out")

# Times.
NOTHING_FOLLOWED = kind_of("nothing-followed")
NO_SUCH_FILE = kind_of("no-such-file", file=TEXT)
NOTHING_TIMED = kind_of("nothing-timed")
TIMED = kind_of("timed", key=TEXT, minutes=MINUTES, n=COUNT)
PUT_INTO = kind_of("put-into")
WRITTEN = kind_of("written", file=TEXT)
NOT_WRITTEN = kind_of("not-written", file=TEXT, reason=TEXT)
BY_HAND = kind_of("by-hand", file=TEXT, why=many(FACT))
NOT_LINE_BY_LINE = kind_of("not-line-by-line")

# What the commands take.
FOLLOWED = kind_of("followed")
SETTINGS = kind_of("settings")
LAN = kind_of("lan")
TLS = kind_of("tls")
INTO = kind_of("into")
