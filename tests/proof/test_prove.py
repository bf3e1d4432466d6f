"""The whole proof on the door of `hand.py`: it holds, and every slip is named with its place."""

from __future__ import annotations

import re
import subprocess
import sys
from collections.abc import Callable
from fractions import Fraction as F  # noqa: N817
from pathlib import Path

import pytest

from sequencer.contract import from_json, to_json
from sequencer.errors import InternalError
from sequencer.facts import proofs
from sequencer.plan import Plan, Removal
from sequencer.proof import prove
from sequencer.proof.assembly import assemble
from sequencer.proof.books import check_books
from sequencer.proof.compare import saw_and_compare
from sequencer.proof.grain import grain_of
from sequencer.records import replace
from sequencer.wording import Room
from tests.proof import change, hand

PLAN = hand.make()
ROOT = Path(__file__).resolve().parents[2]


def test_the_hand_worked_door_is_proven() -> None:
    sawn, together = prove(PLAN)
    assert sawn == proofs.SAWN(passes=proofs.PASSES(n=47), parts=proofs.PARTS(n=5))
    assert together == proofs.TOGETHER(
        doors=proofs.DOORS(n=1),
        shows=(
            proofs.NO_GAP_AT_JOINTS(),
            proofs.PANELS_FREE(),
            proofs.SIZES_AS_STATED(),
        ),
    )
    assert prove(from_json(to_json(PLAN))) == (sawn, together)


def test_clearance_is_what_was_stated() -> None:
    grain = grain_of(PLAN)
    assert assemble(PLAN, saw_and_compare(PLAN, grain), grain) == F(1, 64)


def fails(plan: Plan, message: str) -> None:
    with pytest.raises(InternalError) as error:
        prove(plan)
    assert re.search(message, str(error.value)), str(error.value)


def saw_fails(plan: Plan, message: str) -> None:
    """The saw alone finds it, without the bookkeeping."""
    with pytest.raises(InternalError) as error:
        saw_and_compare(plan, grain_of(plan))
    assert re.search(message, str(error.value)), str(error.value)


def number(setting: hand.Setting) -> int:
    """The setup of the hand-worked plan that has a setting."""
    seen: list[hand.Setting] = []
    for work in hand.WORKS:
        if work.setting is not None and (not seen or seen[-1] != work.setting):
            seen.append(work.setting)
    return 1 + seen.index(setting)


SLIPS: list[tuple[str, Callable[[], Plan], str]] = [
    (
        "slot jig 1/64 too far out",
        lambda: change.setup(PLAN, number(hand.SLOT), guide=F(17, 64)),
        r"kind=step.slot, setup=\d+, piece=A1, what=proof.keeps-wood.* z=1/4 in, z1=17/64 in",
    ),
    (
        "slot jig 1/64 too far in",
        lambda: change.setup(PLAN, number(hand.SLOT), guide=F(15, 64)),
        r"kind=step.slot, setup=\d+, piece=A1, what=proof.loses-wood.*z=15/64 in, z1=1/4 in",
    ),
    (
        "slot too shallow",
        lambda: change.setup(PLAN, number(hand.SLOT), height=hand.SLOT_DEPTH - F(1, 64)),
        r"kind=step.slot, setup=\d+, piece=A1, what=proof.keeps-wood",
    ),
    (
        "stiles too long",
        lambda: change.setup(PLAN, number(hand.STILES), guide=hand.STILE + F(1, 32)),
        (
            r"kind=step.crosscut, setup=\d+, piece=A2, what=proof.comes-off-elsewhere\("
            r"strip=#1, found=535/32 in, laid_out=267/16 in"
        ),
    ),
    (
        "ripped too wide",
        lambda: change.setup(PLAN, number(hand.RIP), guide=F(33, 16)),
        r"step=2, kind=step.rip, setup=1, piece=A1, what=proof.keeps-wood.*y=2 in, y1=33/16 in",
    ),
    (
        "ripped with the blade too low",
        lambda: change.setup(PLAN, number(hand.RIP), height=F(1, 2)),
        r"step=2, kind=step.rip, setup=1, piece=#1, what=sawing.not-through",
    ),
    (
        "a thinner kerf than the plan was made for",
        lambda: change.setup(PLAN, number(hand.SHOULDER), kerf=F(1, 16)),
        r"kind=step.shoulder, setup=\d+, piece=A3, what=proof.keeps-wood",
    ),
    (
        "ripped from the wrong edge",
        lambda: change.cuts(PLAN, 2, (hand.cut("#1", "back", "outside-edge", "guide"),)),
        r"step=2, kind=step.rip, setup=1, piece=#1, what=proof.inside-edge-cut-off",
    ),
    (
        "a stick squared too far in",
        lambda: change.stick(PLAN, "#3", pieces=(replace(PLAN.sticks[2].pieces[0], start=F(2)),)),
        r"kind=step.crosscut, setup=\d+, piece=A5, what=sawing.passes-beside",
    ),
]


@pytest.mark.parametrize(("what", "slip", "message"), SLIPS, ids=[what for what, _, _ in SLIPS])
def test_the_saw_names_step_piece_and_difference(
    what: str, slip: Callable[[], Plan], message: str
) -> None:
    assert what
    saw_fails(slip(), message)


def test_piece_with_the_wrong_end_down() -> None:
    step = change.of_kind(PLAN, "cheek")
    wrong = (replace(step.cuts[0], down="end-B"), *step.cuts[1:])
    saw_fails(change.cuts(PLAN, step.number, wrong), r"piece=A3, what=proof.keeps-wood")


def test_cheek_cut_with_its_waste_against_the_jig() -> None:
    """The same cheeks at guide 15/64 − 1/8 from the near face would drop waste at the jig."""
    setup = number(hand.CHEEK)
    near = F(33, 128) - hand.KERF
    saw_fails(
        change.setup(PLAN, setup, guide=near, reading=near),
        r"kind=step.(test-cut|cheek), .*piece=(S2|A3), what=sawing.trapped\(guide=guide.jig-face",
    )


def test_cheeks_before_shoulders_trap_their_waste() -> None:
    works = list(hand.WORKS)
    shoulders = [w for w in works if w.kind == "shoulder"]
    cheeks = [w for w in works if w.kind == "cheek"]
    at = works.index(shoulders[0])
    rest = [w for w in works if w not in shoulders and w not in cheeks]
    plan = hand.make([*rest[:at], *cheeks, *shoulders, *rest[at:]])
    saw_fails(
        plan,
        r"kind=step.(test-cut|shoulder), .*piece=(S2|A3), what=sawing.trapped\(guide=guide.stop",
    )
    with pytest.raises(InternalError, match=r"comes-before.later=A3/cheek-A, first=A3/shoulder-A"):
        check_books(plan)


def test_a_part_that_no_step_cuts() -> None:
    plan = replace(PLAN, steps=tuple(s for s in PLAN.steps if "A5" not in s.marks))
    saw_fails(plan, r"kind=step.square, .*piece=A5, what=proof.never-cut\(strip=#3")


def test_test_pieces_are_measured() -> None:
    longer = replace(PLAN.scrap[0], size=replace(PLAN.scrap[0].size, length=F(13)))
    plan = replace(PLAN, scrap=(longer, *PLAN.scrap[1:]))
    saw_fails(
        plan,
        (
            r"kind=step.crosscut, setup=\d+, piece=S1, "
            r"what=proof.test-piece-is.*length=193/16 in.*length=13 in"
        ),
    )


def test_a_tilt_is_not_passed_over() -> None:
    saw_fails(
        change.setup(PLAN, 1, tilt=F(5)),
        r"piece=#1, what=sawing.leans-into-guide\(guide=guide.fence",
    )
    saw_fails(
        change.setup(PLAN, number(hand.GROOVE), tilt=F(1, 64)),
        r"kind=step.groove, setup=\d+, piece=A1, what=proof.loses-wood.*z=63/256 in, z1=1/4 in",
    )


def test_bench_work_is_followed_too() -> None:
    flush = change.of_kind(PLAN, "flush")
    beside = Removal("A1", ((F(20), F(21)), (F(0), F(2)), (F(0), F(1))))
    saw_fails(
        change.step(PLAN, flush.number, removes=(beside,)),
        r"step=\d+, kind=step.flush, piece=A1, what=proof.bench-misses",
    )


def _assembly_slip(what: str) -> Plan:
    flush = change.of_kind(PLAN, "flush")
    zero = F(0)
    match what:
        case "rail too far from the stile":
            return change.place(PLAN, "A3", (F(1, 64), zero, zero))
        case "stile behind the rails":
            return change.place(PLAN, "A1", (zero, zero, F(1, 64)))
        case "panel off centre":
            return change.place(PLAN, "A5", (F(1, 16), zero, zero))
        case "panel out of its groove":
            return change.place(PLAN, "A5", (F(3, 16), zero, zero))
        case "ends left proud":
            return change.step(PLAN, flush.number, removes=flush.removes[1:])
        case "another size":
            return change.door(PLAN, "A", size=(F(12), F(33, 2)))
        case "no place":
            return change.door(PLAN, "A", places=PLAN.doors[0].places[:4])
        case "no frame":
            places = (replace(PLAN.doors[0].places[0], axes=("-y", "-y", "+z")),)
            return change.door(PLAN, "A", places=(*places, *PLAN.doors[0].places[1:]))
        case "too near the hinge":
            return change.door(PLAN, "A", at=(F(1, 32), F(1, 16)))
        case "too low":
            return change.door(PLAN, "A", at=(F(1, 16), F(1, 32)))
        case "tight":
            gaps = {**PLAN.doors[0].gaps, "lock": F(1, 8)}
            return change.door(PLAN, "A", gaps=gaps)
    raise AssertionError(what)


@pytest.mark.parametrize(
    ("what", "message"),
    [
        ("rail too far from the stile", r"pieces=\(A[12], A3\)"),
        ("stile behind the rails", r"fit.(same-place|not-flush)"),
        ("panel off centre", r"pieces=\(A5, A2\), door=A, what=fit.no-play"),
        (
            "panel out of its groove",
            r"A[12], A5|pieces=\(A5, A1\), door=A, what=fit.out-of-groove",
        ),
        (
            "ends left proud",
            (
                r"door=A, "
                r"what=fit.other-size\(width=12 in, height=513/32 in, x=0 in, y=0 in, .*by=16 in"
            ),
        ),
        (
            "another size",
            r"door=A, what=fit.other-size\(width=12 in, height=16 in, x=0 in, y=0 in, .*by=33/2 in",
        ),
        ("no place", r"piece=A5, what=fit.no-place\(door=A"),
        ("no frame", r"piece=A1, what=fit.no-frame\(axes=\(-y, -y, \+z"),
        ("too near the hinge", r"fit.other-gap\(side=edge.hinge, found=1/32 in, wanted=1/16 in"),
        ("too low", r"fit.other-gap\(side=edge.top, found=3/32 in, wanted=1/16 in"),
        ("tight", r"fit.other-gap\(side=edge.free, found=1/16 in, wanted=1/8 in"),
    ],
)
def test_the_assembly_names_door_pieces_and_difference(what: str, message: str) -> None:
    fails(_assembly_slip(what), message)


def test_the_bench_takes_off_no_more_than_stands_proud() -> None:
    """A dent planed in the panel's field, which nothing else looks at."""
    flush = change.of_kind(PLAN, "flush")
    dent = Removal("A5", ((F(4), F(5)), (F(4), F(5)), (F(0), F(1, 10))))
    plan = change.step(PLAN, flush.number, removes=(*flush.removes, dent))
    fails(plan, r"pieces=\(A5\), door=A, what=fit.bench-takes-wood.*x=93/16 in, x1=109/16 in, ")


def run(*arguments: str) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "sequencer.proof", *arguments]
    return subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)


def test_from_the_file_alone(tmp_path: Path) -> None:
    good, bad, none = tmp_path / "good.json", tmp_path / "bad.json", tmp_path / "none.json"
    good.write_text(to_json(PLAN), encoding="utf-8")
    done = run(str(good))
    shown = " ".join(map(Room("UK").sentence, prove(PLAN)))
    assert (done.returncode, done.stdout, done.stderr) == (0, f"{shown}\n", "")
    slot = number(hand.SLOT)
    bad.write_text(to_json(change.setup(PLAN, slot, kerf=F(5, 16))), encoding="utf-8")
    done = run(str(bad))
    assert (done.returncode, done.stdout) == (1, "")
    assert re.fullmatch(
        r"step \d+ \(slot, setup \d+\), piece A1: it loses wood that it is to keep: "
        r"x 0″ to 1 25/32″, y [^ ]+ to [^ ]+, z [^ ]+ to [^ ]+\n",
        done.stderr,
    ), done.stderr
    done = run(str(none))
    assert (done.returncode, done.stderr) == (
        3,
        f"{none}: cannot be read: No such file or directory\n",
    )
    bad.write_bytes(b"\xff\xfe")
    assert run(str(bad)).returncode == 3
    bad.write_text("{}", encoding="utf-8")
    assert run(str(bad)).returncode == 3
    assert run().returncode == 2
