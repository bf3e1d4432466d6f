"""Jobs of one framed door with a joint of one kind, by hand and at random."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import strategies as st

from sequencer.job.bars import BAR_KINDS
from sequencer.job.kinds import BAR_JOINTS
from sequencer.lengths import Unit
from tests.strategies import lengths, units

KERFS: dict[Unit, Fraction] = {"in": Fraction(1, 8), "mm": Fraction(16, 5)}


def job(kind: str, joint: str = "", more: str = "", unit: Unit = "in") -> str:
    """A cherry door 15 × 20 in, or 380 × 510 mm, of 3/4 in or 19 mm stock."""
    thickness, width, height = ("3/4", "15", "20") if unit == "in" else ("19", "380", "510")
    return f"""
unit = "{unit}"
name = "one"
species = "cherry"
[stock]
thickness = "{thickness}"
[joint]
kind = "{kind}"
{joint}
{more}
[[door]]
[door.opening]
width = "{width}"
height = "{height}"
"""


@st.composite
def random_jobs(draw: st.DrawFn, kind: str) -> tuple[str, Unit, Fraction]:
    """A job, its unit, and a kerf that it may be cut with."""
    unit = draw(units)
    width = lengths(unit, "5/4", "3")
    stile = draw(width)
    wide = {"hinge": stile, "lock": stile, "top": stile, "bottom": stile}
    if kind != "mitred bridle":
        wide = {name: draw(width) for name in wide}
    panel = draw(st.none() | lengths(unit, "3/16", "5/16"))
    text = f"""
unit = "{unit}"
face_side = "{draw(st.sampled_from(("out", "in")))}"
[stock]
thickness = "{_said(draw(lengths(unit, "5/8", "1")))}"
[stiles]
hinge = "{_said(wide["hinge"])}"
lock = "{_said(wide["lock"])}"
[rails]
top = "{_said(wide["top"])}"
bottom = "{_said(wide["bottom"])}"
[groove]
depth = "{_said(draw(lengths(unit, "7/32", "3/8")))}"
[joint]
kind = "{kind}"
proud = "{_said(draw(lengths(unit, "0", "1/8")))}"
tenons = "{draw(st.sampled_from(("one length", "each stile")))}"
[[door]]
[door.opening]
width = "{_said(draw(lengths(unit, "10", "24")))}"
height = "{_said(draw(lengths(unit, "10", "30")))}"
"""
    if draw(st.booleans()):
        text = text.replace(
            "[joint]", f'[joint]\nbars = "{draw(st.sampled_from(tuple(BAR_JOINTS)))}"'
        )
        text += f'[[door.bar]]\nkind = "{draw(st.sampled_from(tuple(BAR_KINDS)))}"\n'
    if panel is not None:
        text += f'[door.panel]\nthickness = "{_said(panel)}"\n'
    return text, unit, draw(st.sampled_from((KERFS[unit], KERFS[unit] * 3 / 4)))


def _said(value: Fraction) -> str:
    whole, rest = divmod(value, 1)
    if not rest:
        return str(whole)
    return f"{whole} {rest}" if whole else str(rest)
