"""Random pairs of job and shop, and the examples: no pass of what is planned is found unsafe."""

from __future__ import annotations

import ast
import json
from collections import Counter
from pathlib import Path

import pytest

from sequencer.batch import read_batch
from sequencer.contract import to_json
from sequencer.records import replace
from tests import once
from tests.simulator.pairs import FILLS, PROFILES, pair
from tests.simulator.planned import outcome
from tests.simulator.refusals import counted
from tests.simulator.scale import Json
from tests.simulator.table import unsafe

ROOT = Path(__file__).resolve().parents[2]
EXAMPLES = sorted(path.parent for path in (ROOT / "examples").glob("*/job.toml"))
MOST_MORE = 60
"""Pairs of a fill that may be refused, one after another."""
KNOWS_THE_PROGRAM = {"planned.py", "shops.py"}


def faults(made: Json) -> list[str]:
    return [str(each) for each in unsafe(made)]


def test_random_pairs(seed: int, large: bool) -> None:
    """20 pairs of each commit's own, 2,000 with --large: every profile with every fill in turn;
    then more of each fill of which none was planned."""
    counts: Counter[str] = Counter()

    def judge(number: int, fill: str) -> None:
        drawn = pair(PROFILES[number % 2], seed * 100_000 + number, fill)
        made = outcome(drawn)
        counts["refused" if made.plan is None else f"{fill} planned"] += 1
        if made.plan is not None:
            found = faults(made.plan)
            assert not found, f"{found}\n{drawn.job}\n{drawn.shop}"

    many = 2000 if large else 20
    for number in range(many):
        judge(number, FILLS[number // 2 % len(FILLS)])
    for number in range(many, many + MOST_MORE):
        for fill in FILLS:
            if not counts[f"{fill} planned"]:
                judge(number, fill)
    print(dict(counts))  # noqa: T201  # counts, shown with -s
    assert {f"{fill} planned" for fill in FILLS} <= set(counts)


@pytest.mark.parametrize("folder", EXAMPLES, ids=lambda folder: folder.name)
def test_examples(folder: Path) -> None:
    shop = folder / "shop.toml"
    jobs, saw = read_batch(
        [str(folder / "job.toml")],
        str(shop) if shop.exists() else None,
        lambda name: Path(name).read_text(encoding="utf-8"),
    )
    made = json.loads(to_json(once.planned(jobs, saw)))
    assert faults(made) == []


def test_shares_nothing_with_the_program() -> None:
    """What judges a plan imports nothing of the program; who makes plans to be judged, no rule and
    no proof."""
    for path in Path(__file__).parent.glob("*.py"):
        names = [
            name
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
            for name in _imported(node)
            if name.startswith("sequencer")
        ]
        if path.name.startswith("test_") or path.name in KNOWS_THE_PROGRAM:
            assert not {"safety", "proof"} & {part for name in names for part in name.split(".")}
        else:
            assert names == [], path.name


def _imported(node: ast.AST) -> list[str]:
    if isinstance(node, ast.Import):
        return [alias.name for alias in node.names]
    return [node.module or ""] if isinstance(node, ast.ImportFrom) else []


def test_refusals_are_counted_by_their_reasons() -> None:
    """A strip longer than the sled takes is refused by that, whatever else the pair asks for."""
    drawn = pair("ordinary", 1, "flat")
    lines = drawn.shop.splitlines()
    lines[lines.index("[sled]") + 2] = 'longest = "12"' if '"in"' in lines[0] else 'longest = "300"'
    made = outcome(replace(drawn, shop="\n".join(lines)))
    assert made.plan is None
    assert any("too-long-for-sled" in reason for reason in made.reasons)
    found, _ = counted("extreme", 3, 5)
    assert found["planned"] + found["refused"] == 3
