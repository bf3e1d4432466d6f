"""What the rules of safety tell: hazards by rule and case, what is ticked, checks, refusals.

A hazard's kind is its rule's id in small letters, with the case behind it; safety finds it so.
"""

from __future__ import annotations

from sequencer.facts.model import FACT, LENGTH, TERM, TEXT, Domain, many, maybe

kind_of = Domain("caution")

# How the piece is held, and which side of the kerf; `least` where that side is short on some piece.
CLAMP = kind_of("clamp", side=FACT)
CLAMP_OR_HOLD = kind_of("clamp-or-hold", side=FACT)
HOLD_ONLY = kind_of("hold-only", side=FACT)
SIDE_STOP = kind_of("side-stop", least=maybe(LENGTH))
SIDE_STICK = kind_of("side-stick", least=maybe(LENGTH))
SIDE_BEYOND = kind_of("side-beyond", least=maybe(LENGTH))
SIDE_LONGER = kind_of("side-longer", least=maybe(LENGTH))

# A: what guides the piece, and where the waste goes.
A04 = kind_of("a04", measured=LENGTH)
A06 = kind_of("a06")
A07 = kind_of("a07", measured=LENGTH, limit=LENGTH)
A08 = kind_of("a08", measured=LENGTH, limit=LENGTH)
A11 = kind_of("a11")
A11_FENCE = kind_of("a11-fence")

# B: hands, and pieces that are small.
B01 = kind_of("b01", measured=LENGTH, limit=LENGTH)
B02 = kind_of("b02", measured=LENGTH, limit=LENGTH)
B03 = kind_of("b03", measured=LENGTH, limit=LENGTH)
B04 = kind_of("b04", measured=LENGTH, limit=LENGTH, side=FACT)
B05 = kind_of("b05", measured=LENGTH)
B05_GROOVE = kind_of("b05-groove", measured=LENGTH)
B06 = kind_of("b06", measured=LENGTH, limit=LENGTH)
B06_GROOVE = kind_of("b06-groove", measured=LENGTH, hold_down=TEXT)
B07 = kind_of("b07", limit=LENGTH)
B07_REBATE = kind_of("b07-rebate", limit=LENGTH)
B08 = kind_of("b08", measured=LENGTH, limit=LENGTH)
B08_BEVEL = kind_of("b08-bevel", measured=LENGTH, limit=LENGTH)
B09 = kind_of("b09", measured=LENGTH, limit=LENGTH, side=FACT)

# C: blade, guard and riving knife.
C01 = kind_of("c01", measured=LENGTH, limit=LENGTH)
C02 = kind_of("c02", measured=LENGTH, limit=LENGTH)
C03 = kind_of("c03")
C03_SLED = kind_of("c03-sled")
C04 = kind_of("c04")
C04_SLED = kind_of("c04-sled", held=FACT)
C04_SQUARE = kind_of("c04-square", held=FACT)
C05 = kind_of("c05", measured=LENGTH, limit=LENGTH)
C08 = kind_of("c08")
C09 = kind_of("c09")
C09_GROOVE = kind_of("c09-groove", gap=LENGTH, hold_down=TEXT)
C09_SLED = kind_of("c09-sled", held=FACT)
C09_SWEEP = kind_of("c09-sweep", held=FACT)
C09_JIG = kind_of("c09-jig", depth=LENGTH)
C09_REBATE = kind_of("c09-rebate", gap=LENGTH, hold_down=TEXT)
C09_BEVEL = kind_of("c09-bevel", hold_down=TEXT)
C09_HOUSING = kind_of("c09-housing", held=FACT)
C09_MITRE = kind_of("c09-mitre")
C11 = kind_of("c11", measured=LENGTH, limit=LENGTH)
C13 = kind_of("c13")
C15 = kind_of("c15")

# D: grooves and dado sets.
D01 = kind_of("d01")
D02 = kind_of("d02")
D03 = kind_of("d03", measured=LENGTH, limit=LENGTH)
D04 = kind_of("d04")
D04_ALLOWED = kind_of("d04-allowed")
D05 = kind_of("d05", measured=LENGTH, limit=LENGTH)

# E: pieces on end and on edge.
E01 = kind_of("e01")
E02 = kind_of("e02", measured=LENGTH, limit=LENGTH)
E02_TALLEST = kind_of("e02-tallest", measured=LENGTH, limit=LENGTH)
E02_FENCE = kind_of("e02-fence", measured=LENGTH, limit=LENGTH)
E03 = kind_of("e03")
E04 = kind_of("e04")
E05 = kind_of("e05", measured=LENGTH, limit=LENGTH)
E06 = kind_of("e06")
E07 = kind_of("e07", measured=LENGTH, limit=LENGTH)
E08 = kind_of("e08", measured=LENGTH, limit=LENGTH)
E09 = kind_of("e09")

# F: strips and slivers.
F01 = kind_of("f01", measured=LENGTH, limit=LENGTH)
F02 = kind_of("f02", measured=LENGTH, limit=LENGTH)
F02_STOP = kind_of("f02-stop", measured=LENGTH, limit=LENGTH)

# G and S: what always holds, and long pieces.
G01 = kind_of("g01")
G02 = kind_of("g02")
G03 = kind_of("g03")
G03_WOODS = kind_of("g03-woods", woods=many(TEXT))
G04 = kind_of("g04")
G05 = kind_of("g05")
G07 = kind_of("g07")
S01 = kind_of("s01")
S02 = kind_of("s02")
S03 = kind_of("s03")

# H: the saw's working envelope.
H01 = kind_of("h01", measured=LENGTH, limit=LENGTH)
H02 = kind_of("h02", measured=LENGTH, limit=LENGTH)
H03 = kind_of("h03", measured=LENGTH, limit=LENGTH)
H04 = kind_of("h04", measured=LENGTH, limit=LENGTH)
H05 = kind_of("h05", measured=LENGTH, limit=LENGTH)
H06 = kind_of("h06", measured=LENGTH, limit=LENGTH)
H07 = kind_of("h07", measured=LENGTH, limit=LENGTH)
H08 = kind_of("h08", measured=LENGTH, limit=LENGTH)

# J: tilted blades, standing panels, rebates, mitres, narrow bars.
J01 = kind_of("j01", measured=LENGTH, limit=LENGTH)
J01_END = kind_of("j01-end", measured=LENGTH, limit=LENGTH)
J02 = kind_of("j02")
J03 = kind_of("j03")
J04 = kind_of("j04", measured=LENGTH, limit=LENGTH)
J04_EDGE = kind_of("j04-edge", measured=LENGTH, limit=LENGTH)
J05 = kind_of("j05")
J06 = kind_of("j06")
J07 = kind_of("j07")
J08 = kind_of("j08")
J09 = kind_of("j09", measured=LENGTH, limit=LENGTH)
J10 = kind_of("j10", measured=LENGTH, limit=LENGTH)
J10_GAP = kind_of("j10-gap", measured=LENGTH, limit=LENGTH)

# K: at the bench.
K01 = kind_of("k01")
K02 = kind_of("k02")
K03 = kind_of("k03")

# What is ticked where a rule warns, by the name that the rule gives it.
TICK_COVER = kind_of("tick-cover")
TICK_A08 = kind_of("tick-a08")
TICK_B04 = kind_of("tick-b04", side=FACT, limit=LENGTH)
TICK_B06 = kind_of("tick-b06", limit=LENGTH)
TICK_B08 = kind_of("tick-b08")
TICK_B08_BEVEL = kind_of("tick-b08-bevel")
TICK_B09 = kind_of("tick-b09", side=FACT)
TICK_C01 = kind_of("tick-c01")
TICK_C03 = kind_of("tick-c03")
TICK_C11 = kind_of("tick-c11")
TICK_D05 = kind_of("tick-d05")
TICK_E02 = kind_of("tick-e02")
TICK_E02_FENCE = kind_of("tick-e02-fence")
TICK_E05 = kind_of("tick-e05", measured=LENGTH)
TICK_E07 = kind_of("tick-e07")
TICK_E08 = kind_of("tick-e08")
TICK_F01 = kind_of("tick-f01")
TICK_F02_STOP = kind_of("tick-f02-stop")
TICK_J04 = kind_of("tick-j04")
TICK_J06 = kind_of("tick-j06")
TICK_J07 = kind_of("tick-j07")
TICK_J09 = kind_of("tick-j09")
TICK_J10 = kind_of("tick-j10")

# Checks before power is on, and before a setup is left.
CHECK_CUTTER = kind_of("check-cutter")
CHECK_SPEED = kind_of("check-speed")
CHECK_KNIFE = kind_of("check-knife", knife=LENGTH, guard=LENGTH)
CHECK_LOCKED = kind_of("check-locked", overlap=LENGTH)
CHECK_STOCK = kind_of("check-stock")
CHECK_STICKS = kind_of("check-sticks")
CHECK_WORN = kind_of("check-worn")
CHECK_STILL = kind_of("check-still")
CHECK_GUARD = kind_of("check-guard")

# A pass that is not printed, and what its pieces are called before there is a sheet.
REFUSED = kind_of("refused", pieces=many(FACT), does=TERM, why=FACT, rule=TEXT, source=TEXT)
PART = kind_of("part", mark=TEXT, name=FACT)
TEST_PIECE = kind_of("test-piece", mark=TEXT)
STICK = kind_of("stick", marks=many(TEXT))
TEST_STICK = kind_of("test-stick", marks=many(TEXT))
