"""What the command line tells."""

from __future__ import annotations

from fractions import Fraction as F  # noqa: N817  many figures are easier read so

import pytest

from sequencer.facts import Fact, stores
from sequencer.facts import commands as c
from sequencer.wording import Room
from tests.told import inch

BEST = c.QUICKEST()
BOTH = c.BOTH_SAY(field="note", here="a", there="b")
SAID: list[tuple[Fact, str]] = [
    (c.READS_WELL(file="a.toml", found=c.ONE_DOOR(mark="A")), "a.toml reads well: 1 door, A"),
    (c.GOOD(), "good: all of it can be made in this shop"),
    (c.ONE_DOOR(mark="A"), "1 door, A"),
    (c.DOORS(n=3, first="A", last="C"), "3 doors, A to C"),
    (c.PIECES(n=1), "1 piece"),
    (
        c.PASSED_OVER(file="p.csv", names=("colour", "note")),
        "p.csv: columns that nothing was read from: colour, note",
    ),
    (
        c.SUMMARY(n=8, minutes=F(83, 2), best=BEST),
        "8 setups, 41½ minutes of setting up: the quickest order there is (checked)",
    ),
    (BEST, "the quickest order there is (checked)"),
    (c.QUICKEST_COMPARED(), "the quickest of the ways compared (checked)"),
    (c.AT_LEAST(minutes=F(12)), "no order takes less than 12 minutes"),
    (c.PLANNING(), "planning …"),
    (c.TRYING_CHANGES(), "planning again with small changes …"),
    (c.DRAWING(), "drawing the sheets …"),
    (c.INTERRUPTED(), "interrupted"),
    (c.IS_A_FILE(path="out"), "out: this is a file; name a folder with -o"),
    (c.NO_FOLDER(), '-o names no folder; write "." for the current one'),
    (c.KEPT_FILE(path="a.toml"), "a.toml: already there, and kept; name another file"),
    (
        c.KEPT_FILES(paths=("a.csv", "b.pdf")),
        (
            "a.csv and b.pdf: already there, and kept, for this program has not written them as "
            "they are; name another folder with -o, or take them away"
        ),
    ),
    (
        c.KEPT_INPUT(path="parts.csv"),
        "parts.csv: this is what the plan is made from, and kept; name another folder with -o",
    ),
    (
        c.NO_JOURNAL(path=".set.json"),
        (
            ".set.json: this name is needed for a moment, but the file is not this program's, and "
            "kept; rename it"
        ),
    ),
    (c.UNWRITABLE(path="a", reason="Not a thing"), "a: cannot be written: Not a thing"),
    (c.UNWRITABLE_FOLDER(path="a", reason="Full"), "a: cannot be written to: Full"),
    (
        c.NO_OPENING(text="15"),
        (
            '15: write an opening as "15 3/8 x 23 1/2 left": width, x, height, then left, right '
            "or pair"
        ),
    ),
    (
        c.NO_SIZE(text="1,5", message=c.NO_UTF_8(), hint=c.NO_MEMORY()),
        "1,5: no UTF-8 text: there is too little memory",
    ),
    (c.ONE_FILE(), "name one file to write, or openings"),
    (c.FOLDER_BUSY(path="a"), "a: another process has been writing there for a minute"),
    (
        c.CHANGED_SINCE(files=("a.toml", "b.toml"), folder="sheets"),
        (
            "a.toml and b.toml: changed since the sheets in sheets were made; plan again before "
            "you cut by them"
        ),
    ),
    (
        c.MIXED(files=("plan.pdf",), folder="sheets"),
        "sheets: plan.pdf not as planned with the others there; plan again before you cut by them",
    ),
    (c.UNREADABLE(reason="Full"), "cannot be read: Full"),
    (c.NOT_SHOWN(reason="Full"), "what was found cannot be shown: Full"),
    (c.FAILED(path="a", reason="Full"), "a: Full"),
    (
        c.NO_LIBRARY(name="jinja2"),
        "a library is missing or broken: jinja2; install the program again",
    ),
    (c.NO_MEMORY(), "there is too little memory"),
    (
        c.OWN_FAULT(what="KeyError: 'a'", place="sequencer/a.py:3"),
        "a fault of this program, none of your files: KeyError: 'a', at sequencer/a.py:3",
    ),
    (c.NO_UTF_8(), "no UTF-8 text"),
    (c.WRITTEN(path="x.json"), "x.json"),
    (
        c.GIVEN_TWICE(file="a.toml"),
        "a.toml is given twice; for equal doors write a count in the file",
    ),
    (c.TABLE_ALONE(file="p.csv"), "p.csv: a table of pieces is checked and planned by itself"),
    (
        c.WRONG_EVENINGS(asked="20", most=14),
        "--evenings 20: give a number from 1 to 14, which is how many setups there are",
    ),
    (
        c.WRONG_USAGE(message="no such option", usage="usage: x [-h]"),
        "no such option\n    usage: x [-h]",
    ),
    (c.PROOF_USAGE(), "usage: python -m sequencer.proof PLAN.json"),
    (c.SAVED(number=3), "saved setting 3"),
    (c.NOTED(number=3), "noted: saved setting 3"),
    (
        c.TO_BE_CHECKED(cutter="thin", n=1),
        "thin: 1 saved setting marked: kerf to be checked",
    ),
    (c.CHECKED(cutter="thin", n=2), "thin: 2 saved settings marked: kerf checked"),
    (c.FORGOTTEN(number=3, makes="slot"), "forgotten: saved setting 3, slot"),
    (c.FORGOT(name="r7"), "r7 is forgotten"),
    (c.FORGET_WHAT(text="x"), "x is no number of a setting, and none such as r7 or n7"),
    (
        c.TAKE_IT(number=3, each=(BOTH,)),
        "saved setting 3 differs: note: here a, in the file b. Take the file's? [y/N]",
    ),
    (BOTH, "note: here a, in the file b"),
    (
        c.DIFFERED(number=3, side="side.kept", each=(BOTH,)),
        (
            "saved setting 3 stays as it is here; what is written to it and its gauges are kept of "
            "both (note: here a, in the file b)"
        ),
    ),
    (c.MERGED(added=1, replaced=2, joined=3), "1 added, 2 replaced, 3 given more jobs"),
    (c.WHICH_SAW(known=("a", "b")), "name a saw with --saw; settings are kept of: a, b"),
    (c.WRITE_KNOB(text="fence"), "fence: write what is set, =, and its length: fence=2 17/32"),
    (
        c.NO_GAUGE(kind="wedge", kinds=("block", "spacer")),
        "wedge: a gauge is block or spacer, with the name that is written on it",
    ),
    (
        c.NOTE_WHAT(),
        "name a setting and what to note, or name a cutter with --sharpened or --checked",
    ),
    (
        c.NO_CUTTER(cutter="x", known=("thin", "thick")),
        "no saved setting was dialled in with x: there are thin, thick",
    ),
    (
        c.NO_CUTTER_YET(cutter="x"),
        "no saved setting was dialled in with x: none is saved of any cutter",
    ),
    (c.NO_STORE(file="s"), "s: no such file of saved settings"),
    (
        c.LIKELY(n=12, names=("shop", "shed")),
        (
            "nothing is kept of this saw, but 12 settings and readings under shop or shed: they "
            "are not used unasked"
        ),
    ),
    (
        c.SHOP_ASKS(),
        "sequencer shop, then the shop file's name, asks whether that is the same saw",
    ),
    (
        c.KERF_AS_MEASURED(
            cutter="thin", kerf=inch("0.093"), file=inch("0.095"), job="hutch", date="2025-11-25"
        ),
        (
            "thin: kerf 0.093″ as measured in hutch on 2025-11-25, in place of 0.095″ in the shop "
            "file"
        ),
    ),
    (
        c.KERF_BY_CUTS(
            cutter="thin", kerf=inch("0.093"), spread=inch("0.001"), n=7, file=inch("0.095")
        ),
        (
            "thin: kerf 0.093″ ± 0.001″ by 7 cuts of earlier jobs, in place of 0.095″ in the shop "
            "file"
        ),
    ),
    (
        c.KERF_CHANGED(
            cutter="thin",
            kerf=inch("0.091"),
            spread=inch("0.002"),
            n=4,
            file=inch("0.095"),
            was=inch("0.095"),
            date="2025-11-25",
        ),
        (
            "thin: since 2025-11-25 it cuts 0.091″ ± 0.002″ by 4 readings, before that 0.095″; the "
            "shop file has 0.095″. Was it sharpened or changed?"
        ),
    ),
    (
        c.COUNT_SHARPENING(),
        (
            "write the kerf in the shop file, and count under sharpened that it was; else measure "
            "the kerf in scrap"
        ),
    ),
    (
        c.THICKNESS_AS_MEASURED(
            thickness=inch("0.742"), stated=inch("3/4"), job="hutch", date="2025-11-25"
        ),
        (
            "boards 0.742″ thick as measured in hutch on 2025-11-25, in place of 0.750″ in the job "
            "file"
        ),
    ),
    (c.OTHER_BOARDS(name="n7"), "if these are other boards: sequencer setups forget n7"),
    (
        c.WRITE_KERF(),
        "write it in the shop file; sequencer setups readings shows it, and forget takes it out",
    ),
    (c.WITHOUT_SAVED(why=stores.EMPTY()), "planned without saved settings: the file is empty"),
    (
        c.WITHOUT_SOME_SAVED(why=stores.EMPTY()),
        "planned without some saved settings: the file is empty",
    ),
    (
        c.PLANNED_ANEW(file="sheets/plan.json"),
        (
            "no sheets/plan.json here, so the job was planned anew for its methods: compare with "
            "the sheets that you followed, or name their plan.json with --plan"
        ),
    ),
    (c.AS_FOLLOWED(file="x.sqlite"), "as it was followed at the saw: x.sqlite"),
    (
        c.MATES_HAVE(what="measured.slot", planned=inch("1/4"), measured=inch("0.253")),
        "slot: 0.253″ as measured, in place of 0.250″",
    ),
    (
        c.AS_FOUND(job="hutch", date="2025-11-25"),
        "as it was measured at the saw in hutch, last on 2025-11-25",
    ),
    (c.METHODS_AS_IN(file="plan.json"), "methods as in plan.json"),
    (
        c.OTHER_UNIT(file="plan.json", its="millimetres", own="inches"),
        "plan.json is in millimetres, the job in inches",
    ),
    (
        c.WRITE_SLOT(text="1/4"),
        "1/4: write the slot's width as planned, =, and as cut: 1/4=0.252",
    ),
]


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_it_is_said(fact: Fact, words: str) -> None:
    assert Room("UK").say(fact) == words


def test_each_is_said_once() -> None:
    assert [fact.kind for fact, _ in SAID] == list(c.kind_of.kinds.values())
