"""What is said of what would do."""

from __future__ import annotations

import pytest

from sequencer.facts import Fact, files
from sequencer.facts import offers as r
from sequencer.wording import Room

WRITE = files.WRITE_UNDER(text='kind = "bridle"', table="[door.joint]")
SAID: list[tuple[Fact, str]] = [
    (
        r.TRIED(each=r.BOTH(each=(WRITE,))),
        'tried, and it plans: write kind = "bridle" under [door.joint]',
    ),
    (
        r.WOULD_DO(each=WRITE),
        'tried, and it would do: write kind = "bridle" under [door.joint]',
    ),
    (
        r.BOTH(each=(WRITE, r.TAKE_OUT(key="slot", table="[joint]"))),
        'write kind = "bridle" under [door.joint] and leave slot out under [joint]',
    ),
    (
        r.WRITE_OF_DOOR(text='kind = "bridle"', table="[door.joint]", n=2),
        'write kind = "bridle" under [door.joint] of door 2',
    ),
    (r.TAKE_LINE_OUT(key="joint.slot"), "leave joint.slot out"),
    (r.TAKE_OUT(key="slot", table="[joint]"), "leave slot out under [joint]"),
    (
        r.TAKE_OUT_OF_DOOR(key="slot", table="[door.joint]", n=2),
        "leave slot out under [door.joint] of door 2",
    ),
    (r.NOTHING_DID(), "none of the small changes that were tried would do"),
    (r.MENDED(file="a.toml", does=WRITE),
     'a.toml: changed: write kind = "bridle" under [door.joint]'),
    (r.MEND_WRITES(), "--mend writes the first into the file"),
    (r.CANNOT_MEND(), "--mend changes nothing: it knows nothing that would do"),
]  # fmt: skip


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_said(fact: Fact, words: str) -> None:
    assert Room("UK").say(fact) == words


def test_each_is_said_once() -> None:
    assert [fact.kind for fact, _ in SAID] == list(r.kind_of.kinds.values())
