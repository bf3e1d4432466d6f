"""None of the harmful changes to the examples' plans would be printed (`harm`)."""

from __future__ import annotations

from tests.proof.harm import KINDS, Tally, every
from tests.proof.test_intent import EXAMPLES, example

EACH = 5
"""Of each kind an ordinary run tries so many, other ones for each commit."""


def test_every_harmful_change_is_caught_and_named(large: bool, seed: int) -> None:
    tally = Tally.of(seed, None if large else EACH)
    print(dict(sorted(tally.counts.items())))  # noqa: T201  # counts, shown with -s
    assert not tally.missed
    assert not tally.unnamed
    assert len(tally.counts) >= 40
    assert sum(tally.counts.values()) >= (6000 if large else 250)


def test_every_kind_is_there() -> None:
    plans = [example(path) for path in EXAMPLES]
    for kind in KINDS:
        assert any(True for plan in plans for _ in kind(plan)), kind.__name__
    assert all(made.about for plan in plans for made in every(plan))
