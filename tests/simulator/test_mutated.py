"""Whatever is taken out of a finished plan that keeps fingers on, the simulator misses it."""

from __future__ import annotations

import json
from collections.abc import Iterator
from copy import deepcopy
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from sequencer.batch import read_batch
from sequencer.contract import to_json
from sequencer.pipeline import plan
from tests.simulator.planned import SECONDS
from tests.simulator.table import unsafe

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
Plan = dict[str, Any]

NOT_MISSED = {
    "C13",  # stands on the first page as well
    "G05",  # also of rips that are not long
    "J08",  # about spoilt work
}


@cache
def made(name: str) -> str:
    texts = {"job.toml": (EXAMPLES / name / "job.toml").read_text(encoding="utf-8")}
    jobs, shop = read_batch(["job.toml"], None, texts.__getitem__)
    return to_json(plan(jobs, shop, seconds=SECONDS))


@pytest.mark.parametrize("name", ["dresser", "spice-cupboard"])
def test_nothing_is_taken_out_unnoticed(name: str) -> None:
    """Of each kind of caution, box, change and step the first; that one is always needed."""
    whole = json.loads(made(name))
    before = {str(each) for each in unsafe(whole)}
    tried: set[str] = set()
    for kind, less in shortened(whole):
        if kind not in tried:
            tried.add(kind)
            assert any(str(each) not in before for each in unsafe(less)), kind


def shortened(whole: Plan) -> Iterator[tuple[str, Plan]]:
    """The plan less one caution, box to tick, change or guard step, each in turn, by its kind."""
    for n, setup in enumerate(whole["setups"]):
        for m, caution in enumerate(setup["cautions"]):
            if caution["rule"] not in NOT_MISSED:
                less = deepcopy(whole)
                del less["setups"][n]["cautions"][m]
                yield caution["id"], less
        for m, change in enumerate(setup["changes"]):
            # What was never set before is nowhere near.
            if (change["before"], change["after"]) != (None, "away"):
                less = deepcopy(whole)
                del less["setups"][n]["changes"][m]
                yield change["knob"], less
    for n, warning in enumerate(whole["warnings"]):
        less = deepcopy(whole)
        del less["warnings"][n]
        yield warning["tick"]["id"], less
    for n, step in enumerate(whole["steps"]):
        if step["kind"] in ("refit guard", "remove guard"):
            less = deepcopy(whole)
            del less["steps"][n]
            yield step["kind"], less


@pytest.mark.parametrize("name", ["spice-cupboard", "broom-cupboard"])
def test_cheeks_sawn_from_the_other_side_trap_their_waste(name: str) -> None:
    """Every cut on end against the other face, the kerf where it was: what fell on the open side
    lies between blade and jig."""
    whole = json.loads(made(name))
    thick = {part["mark"]: part["size"]["thickness"] for part in whole["parts"]}
    for step in whole["steps"]:
        if step["kind"] == "cheek":
            setup = whole["setups"][step["setup"] - 1]
            of = Fraction(thick[step["cuts"][0]["mark"]])
            setup["guide"] = str(of - Fraction(setup["guide"]) - Fraction(setup["kerf"]))
            for cut in step["cuts"]:
                cut["against"] = {"face": "back", "back": "face"}[cut["against"]]
    assert "waste_trapped" in {each.name for each in unsafe(whole)}
