"""Where a plan's numbers are not those of its own shop and leaves."""

from __future__ import annotations

from sequencer.facts.model import COUNT, LENGTH, TERM, TEXT, Domain

kind_of = Domain("limit")

NO_CUTTER = kind_of("no-cutter", setup=COUNT, cutter=TEXT)
OTHER_KERF = kind_of("other-kerf", setup=COUNT, cutter=TEXT, kerf=LENGTH, stated=LENGTH)
TOO_HIGH = kind_of("too-high", setup=COUNT, height=LENGTH, most=LENGTH)
TOO_WIDE_FOR_JIG = kind_of("too-wide-for-jig", found=LENGTH, most=LENGTH)
TOO_LONG_FOR_SLED = kind_of("too-long-for-sled", found=LENGTH, most=LENGTH)
TOO_WIDE_FOR_SLED = kind_of("too-wide-for-sled", found=LENGTH, most=LENGTH)
NO_LEAF = kind_of("no-leaf", door=TEXT, leaf=TEXT)
HANGS_WRONG = kind_of("hangs-wrong", door=TEXT, side=TERM)
PANE_NOT_ORDERED = kind_of("pane-not-ordered", pane=TEXT)
PANE_ORDERED_TWICE = kind_of("pane-ordered-twice", pane=TEXT)
PANE_OF_OTHER_SIZE = kind_of("pane-of-other-size", pane=TEXT)
NO_SUCH_PANE = kind_of("no-such-pane", pane=TEXT)
STRIP_NOT_BOUGHT = kind_of("strip-not-bought", strip=TEXT)
STRIP_BOUGHT_TWICE = kind_of("strip-bought-twice", strip=TEXT)
OTHER_STOCK = kind_of("other-stock", strip=TEXT)
OTHER_SUM = kind_of("other-sum", material=TEXT, thickness=LENGTH)
