"""What is said of the proof: each sentence once."""

from __future__ import annotations

import pytest

from sequencer.facts import Fact, proofs
from sequencer.wording import Room
from tests.told import inch

PLACE = proofs.PLACE(
    x=inch("0"), x1=inch("1 1/2"), y=inch("1"), y1=inch("2"), z=inch("1/4"), z1=inch("1/2")
)
SIZE = proofs.SIZE(length=inch("12"), width=inch("2"), thickness=inch("3/4"))

SAID: list[tuple[Fact, str]] = [
    (
        proofs.AT_STEP(step=12, kind="step.slot", setup=3, piece="A1", what=proofs.ALL_CUT()),
        "step 12 (slot, setup 3), piece A1: all its pieces are cut already",
    ),
    (
        proofs.AT_BENCH(step=12, kind="step.slot", piece="A1", what=proofs.ALL_CUT()),
        "step 12 (slot, at the bench), piece A1: all its pieces are cut already",
    ),
    (
        proofs.AT_PIECE(piece="A1", what=proofs.ALL_CUT()),
        "piece A1: all its pieces are cut already",
    ),
    (proofs.STEP(step=12, kind="step.slot"), "step 12 (slot)"),
    (PLACE, "x 0″ to 1 1/2″, y 1″ to 2″, z 1/4″ to 1/2″"),
    (SIZE, "12″ × 2″ × 3/4″"),
    (
        proofs.LOSES_WOOD(where=PLACE),
        "it loses wood that it is to keep: x 0″ to 1 1/2″, y 1″ to 2″, z 1/4″ to 1/2″",
    ),
    (
        proofs.KEEPS_WOOD(where=PLACE),
        "it keeps wood that it is to lose: x 0″ to 1 1/2″, y 1″ to 2″, z 1/4″ to 1/2″",
    ),
    (
        proofs.KEEPS_WOOD_BESIDE(where=PLACE, steps=(proofs.STEP(step=7, kind="step.slot"),)),
        (
            "it keeps wood that it is to lose: x 0″ to 1 1/2″, y 1″ to 2″, "
            "z 1/4″ to 1/2″; cuts beside it: step 7 (slot)"
        ),
    ),
    (
        proofs.FIN_STANDS(hair=inch("0.005"), where=PLACE),
        (
            "with a kerf 0.005″ thinner, "
            "wood is left standing: x 0″ to 1 1/2″, y 1″ to 2″, z 1/4″ to 1/2″"
        ),
    ),
    (
        proofs.NOT_SHAPED(where=PLACE),
        "no step takes off what is shaped at the bench: x 0″ to 1 1/2″, y 1″ to 2″, z 1/4″ to 1/2″",
    ),
    (proofs.NEVER_CUT(strip="#1"), "no later step cuts it from #1"),
    (proofs.ON_NO_STRIP(), "no step cuts it from a strip"),
    (proofs.NOTHING_DESIGNED(), "what is cut out of it by design leaves nothing of it"),
    (proofs.NO_SHAPE(feature="bevel"), "what is drawn as its “bevel” has no volume"),
    (
        proofs.TEST_PIECE_IS(found=SIZE, wanted=SIZE),
        "the test piece is 12″ × 2″ × 3/4″, not 12″ × 2″ × 3/4″",
    ),
    (
        proofs.MIRRORED(wanted="right", found="left"),
        (
            "with end A up its inside edge is to be on the right, "
            "and off its strip it is on the left: its mirror image, which no turning makes of it"
        ),
    ),
    (proofs.UNLIKE_ENDS(), "either hand is said to do, and its ends are unlike"),
    (proofs.NOTHING_THERE(mark="A1"), "there is no A1 to cut"),
    (proofs.NO_SETUP(), "it is cut without a setup"),
    (proofs.ALL_CUT(), "all its pieces are cut already"),
    (proofs.NOT_NAMED(strip="#1"), "it comes next off #1, and the step has no word of it"),
    (
        proofs.COMES_OFF_ELSEWHERE(strip="#1", found=inch("1/16"), laid_out=inch("16 11/16")),
        "it comes off #1 at 1/16″, and is laid out at 16 11/16″",
    ),
    (proofs.INSIDE_EDGE_CUT_OFF(), "the true inside edge is cut off"),
    (proofs.NOTHING_TO_MEASURE(), "an earlier test has left it no wood to measure"),
    (proofs.NOT_THERE_YET(), "there is no such piece yet"),
    (proofs.BENCH_MISSES(), "what the bench takes off is not there"),
    (proofs.BENCH_SHAPE(), "what the bench takes off has no volume"),
    (proofs.PASSES(n=1), "the one pass was"),
    (proofs.PASSES(n=3), "all 3 passes were"),
    (proofs.PARTS(n=1), "the one part"),
    (proofs.PARTS(n=3), "all 3 parts"),
    (proofs.DOORS(n=1), "1 door"),
    (proofs.DOORS(n=3), "3 doors"),
    (
        proofs.SAWN(passes=proofs.PASSES(n=86), parts=proofs.PARTS(n=10)),
        "all 86 passes were sawn in the computer; all 10 parts came out to size",
    ),
    (
        proofs.TOGETHER(
            doors=proofs.DOORS(n=2), shows=(proofs.NO_GAP_AT_JOINTS(), proofs.PANELS_FREE())
        ),
        "2 doors put together in the computer: no gap shows at the joints, panels free to move",
    ),
    (proofs.NO_GAP_AT_JOINTS(), "no gap shows at the joints"),
    (proofs.NO_GAP_OUTSIDE(), "no gap shows at the edges"),
    (proofs.PANELS_FREE(), "panels free to move"),
    (proofs.BOARDS_FREE(), "boards free to move, their tongues in their grooves"),
    (proofs.PANES_HELD(), "panes with room, held all round"),
    (proofs.SIZES_AS_STATED(), "sizes and gaps as you gave them"),
    (
        proofs.TRUSTED(pieces=("A3", "A1")),
        "shaped at the bench, and trusted to be as drawn, not proven: A3, A1",
    ),
    (
        proofs.DRAWN_ELSEWHERE(),
        "the fit of the pieces is not proven: they were drawn elsewhere; try them together dry",
    ),
]


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_what_is_said(fact: Fact, words: str) -> None:
    assert Room("UK").say(fact) == words


def test_every_sentence_is_in_the_table() -> None:
    assert {fact.kind for fact, _ in SAID} == set(proofs.kind_of.kinds.values())
