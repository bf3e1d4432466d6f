"""Whole plans of doors with every fill: proven by the virtual saw or refused with the reason."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import Phase, event, given, settings
from hypothesis import strategies as st

from sequencer.errors import InputError, Refusal
from sequencer.job.load import load_job
from sequencer.job.shop import default_shop
from sequencer.lengths import Unit, mixed, show
from sequencer.pipeline import plan
from sequencer.records import replace

F = Fraction

KINDS = ("flat", "raised", "boarded", "glass", "slab")


@st.composite
def texts(draw: st.DrawFn) -> str:
    """A job of one door or two, in either unit, each with a fill of its own."""
    unit: Unit = draw(st.sampled_from(("in", "mm")))
    step = F(1, 16) if unit == "in" else F(1, 2)

    def said(low: str, high: str) -> str:
        scale = 1 if unit == "in" else F(127, 5)
        least, most = (int(F(end) * scale / step) for end in (low, high))
        length = step * draw(st.integers(least, most))
        return f'"{mixed(length) if unit == "in" else show(length, unit, F(1)).decimal}"'

    wood = draw(st.sampled_from(("cherry", "red oak", "white pine", "bog wood")))
    joint = draw(st.sampled_from(("bridle", "bridle", "mitred bridle", "stub tenon", "half-lap")))
    lines = [
        f'unit = "{unit}"\nspecies = "{wood}"\n[stock]\nthickness = {said("11/16", "15/16")}',
        f'[joint]\nkind = "{joint}"\n[gaps]\nlock = {said("1/8", "5/16")}',
    ]
    if draw(st.booleans()):
        today = draw(st.integers(6, 10))
        sawn = draw(st.sampled_from(("flat", "quarter")))
        lines.append(f'[wood]\nmoisture = "{today}"\nsawn = "{sawn}"')
        lines.append('[room]\nregion = "most of the US"')
    for _ in range(draw(st.integers(1, 2))):
        kind = draw(st.sampled_from(KINDS))
        lines.append(f'[[door]]\nfill = "{kind}"\n[door.opening]')
        lines.append(f"width = {said('10', '20')}\nheight = {said('14', '28')}")
        if kind == "raised":
            lines.append(f"[door.panel]\nthickness = {said('7/16', '5/8')}")
            lines.append(f"[door.raised]\nbevel = {said('1', '3/2')}")
        elif kind == "boarded":
            lines.append(f"[door.boarded]\nwidth = {said('3/2', '4')}")
            lines.append(f"[door.panel]\nthickness = {said('1/4', '3/8')}")
        elif kind == "glass":
            lines.append(f"[door.groove]\ndepth = {said('1/4', '7/16')}")
        if kind != "slab" and draw(st.integers(0, 3)) == 0:
            bar = draw(st.sampled_from(("mid rail", "mullion")))
            lines.append(f'[[door.bar]]\nkind = "{bar}"')
    return "\n".join(lines) + "\n"


KERFS: dict[Unit, tuple[Fraction, Fraction]] = {
    "in": (F(1, 8), F(3, 32)),
    "mm": (F(16, 5), F(12, 5)),
}


def proven_or_refused(text: str, thin: bool) -> None:
    try:
        job = load_job(text, "job.toml")
        shop = default_shop(job.unit)
        kerf = KERFS[job.unit][thin]
        cutters = tuple(replace(each, kerf=kerf) for each in shop.cutters)
        made = plan([job], replace(shop, cutters=cutters), seconds=5)
    except (InputError, Refusal) as error:
        event(f"refused: {type(error).__name__}")
        return
    event("proven")
    shown = str(made.proven[1])
    kinds = {part.role for part in made.parts}
    assert ("board" in kinds) == ("proof.boards-free" in shown)
    assert any(door.panes for door in made.doors) == ("proof.panes-held" in shown)
    tilted = any(setup.tilt for setup in made.setups)
    assert tilted == any(f.kind == "bevel" for part in made.parts for f in part.features)


@settings(max_examples=8, phases=[Phase.explicit, Phase.generate])
@given(texts(), st.booleans())
def test_random_fills(text: str, thin: bool) -> None:
    proven_or_refused(text, thin)


@pytest.mark.large
@settings(max_examples=250, phases=[Phase.explicit, Phase.generate])
@given(texts(), st.booleans())
def test_many_random_fills(text: str, thin: bool) -> None:
    proven_or_refused(text, thin)
