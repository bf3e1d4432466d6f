"""Standards worth making: each sentence once."""

from __future__ import annotations

import pytest

from sequencer.facts import Fact
from sequencer.facts import standards as s
from sequencer.wording import Room
from tests.told import inch

FENCE = "carrier.rip-fence"
ALONE = s.WAY_ALONE(carrier=FENCE, number=inch("1/4"))
TOGETHER = s.WAY_TOGETHER(carrier=FENCE, number=inch("3/4"), other="B")
BEHIND = s.WAY_BEHIND(carrier="carrier.tenoning-jig", number=inch("1/8"))
MARK = s.MARK(number=1, at=inch("13 1/2"), n=3)
SAID: list[tuple[Fact, str]] = [
    (
        s.UNPLUG(),
        (
            "pull the plug before a hand or a block comes near the teeth: a blade that starts "
            "takes fingers"
        ),
    ),
    (s.BLOCKS(n=5, sets=31, of=44), "these 5 blocks replace 31 of 44 dialled settings"),
    (
        s.BLOCK(
            mark="A", thickness=inch("1/4"), width=inch("2"), length=inch("4"), n=3,
            ways=(ALONE, TOGETHER),
        ),
        (
            "A: plane to 0.250″, 2″ wide, 4″ long; sets 3: rip fence 1/4″, rip fence 3/4″ with B"
        ),
    ),
    (ALONE, "rip fence 1/4″"),
    (TOGETHER, "rip fence 3/4″ with B"),
    (BEHIND, "tenoning jig 1/8″, laid against the far side of the teeth"),
    (
        s.STICK(length=inch("15 1/2"), marks=(MARK,)),
        "story stick for the stop, 15 1/2″ long, marked from one end: 1 at 13 1/2″ (3)",
    ),
    (MARK, "1 at 13 1/2″ (3)"),
    (
        s.NAME_IT(),
        "write its letter on each; sequencer setups note 12 --gauge block A says what it sets",
    ),
    (s.NONE(n=3), "no block would set two of the 3 dialled settings known here"),
]  # fmt: skip


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_said(fact: Fact, words: str) -> None:
    assert Room("UK").say(fact) == words


def test_each_is_said_once() -> None:
    assert [fact.kind for fact, _ in SAID] == list(s.kind_of.kinds.values())
