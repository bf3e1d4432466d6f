"""The command `shop`: names of a saw and of what is fitted to it, asked for once."""

from __future__ import annotations

from sequencer.facts.model import COUNT, FACT, LENGTH, TERM, TEXT, Domain, maybe

kind_of = Domain("naming")

# What is asked.
WHICH_SAW = kind_of("which-saw", usual=TEXT)
SAME_SAW = kind_of("same-saw", n=COUNT, name=TEXT)
WHICH_FITTING = kind_of("which-fitting", body=TERM)

# What was done, and how things stand.
SAW_IS = kind_of("saw-is", id=TEXT, n=COUNT)
NO_NAME = kind_of("no-name", file=TEXT)
FITTING_IS = kind_of("fitting-is", body=TERM, name=TEXT)
CUTTER_IS = kind_of("cutter-is", name=TEXT, kerf=LENGTH, times=maybe(FACT))
SHARPENED = kind_of("sharpened", n=COUNT)
TAKEN_OVER = kind_of("taken-over", n=COUNT, name=TEXT)
WRITTEN = kind_of("written", file=TEXT)

# What cannot be.
NO_SUCH_CUTTER = kind_of("no-such-cutter", name=TEXT, file=TEXT)
KERF_OF_WHICH = kind_of("kerf-of-which")
NOTHING_KEPT = kind_of("nothing-kept", name=TEXT)
BY_HAND = kind_of("by-hand", file=TEXT)
MEASURE_KERF = kind_of("measure-kerf", name=TEXT)
