"""Jobs that the sheets are tried on, and their plans, each made once."""

from __future__ import annotations

from functools import cache

from sequencer.plan import Plan
from sequencer.sheets import html, pdf
from sequencer.sheets.render import Paper
from tests.stages import to_plan

PAIR = """
unit = "in"
[stock]
thickness = "3/4"
[stiles]
hinge = "2"
meeting = "1-3/4"
[rails]
bottom = "2-1/4"
[gaps]
meeting = "1/8"
[[door]]
name = "Corner <i>cupboard</i> & shelf"
leaves = 2
[door.opening]
width = "27-1/2"
height = "29-3/4"
"""

SINGLE = """
unit = "mm"
face_side = "in"
[stock]
thickness = "20"
[[door]]
name = "Pantry"
hinge = "right"
[door.opening]
width = "448"
height = "640"
"""

MITRED = """
unit = "in"
[stock]
thickness = "7/8"
[stiles]
hinge = "2-1/4"
[rails]
top = "2-1/4"
[joint]
kind = "mitred bridle"
[panel]
thickness = "5/8"
[raised]
bevel = "1-3/8"
step = "1/16"
[[door]]
name = "Mitred, raised"
[door.opening]
width = "15"
height = "22"
"""

BARRED = """
unit = "mm"
[stock]
thickness = "22"
[rails]
top = "75"
[joint]
bars = "T-bridle"
[gaps]
meeting = "3"
[meeting]
rebate = "9"
[glass]
thickness = "3"
[[bar]]
kind = "mid rail"
width = "40"
[[door]]
name = "Lights"
leaves = 2
[door.opening]
width = "760"
height = "620"
[[door]]
name = "Peaks"
fill = "flat"
leaves = 2
bar = []
[door.opening]
width = "760"
height = "620"
[door.shape]
kind = "peak"
rise = "18"
[door.sits]
how = "overlay"
"""

RIDING = """
unit = "mm"
name = "Workshop"
graduation = "0.5 mm"
[[cutter]]
name = "combination"
kind = "blade"
kerf = "3.2"
diameter = "254"
grind = "flat-top"
[jig]
rides = "fence"
thickness = "40"
deck = "0"
opening = "75"
"""
"""A shop in millimetres whose tenoning jig rides the fence."""


@cache
def plan_of(name: str) -> Plan:
    """`pair` in inches with the built-in shop, `single` in millimetres with the shop above;
    `mitred` with the blade tilted and on the mitre sled, `barred` with bars, glass and shapes,
    `matched` the pair with its panels resawn from one piece."""
    texts = {"pair": (PAIR, ""), "single": (SINGLE, RIDING), "mitred": (MITRED, "")}
    texts["matched"] = (PAIR.replace("[gaps]", '[panel]\nmatch = "book"\n[gaps]'), "")
    return to_plan(*{**texts, "barred": (BARRED, "")}[name])


@cache
def page_of(name: str, paper: Paper) -> str:
    return html(plan_of(name), paper)


ATTACHED = "the plan"


@cache
def printed(name: str, paper: Paper) -> bytes:
    return pdf(page_of(name, paper), ATTACHED)
