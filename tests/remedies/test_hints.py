"""What a fault's hint says is what was tried, and what is written with --mend; in the words of the
file, wherever its keys stand."""

from __future__ import annotations

from pathlib import Path

import pytest

from sequencer.batch import read_batch
from sequencer.cli import main
from sequencer.errors import Fault, InputError
from sequencer.facts import Fact
from sequencer.hints import tried
from sequencer.job.edit import Edit
from sequencer.remedies import Remedy
from sequencer.wording import Room
from tests.remedies.proven import FILE

STOCK = 'unit = "in"\nTOP\n[stock]\nthickness = "3/4"\n'
DOORS = (
    '[[door]]\nFIRST\n[door.opening]\nwidth = "15"\nheight = "20"\n'
    '[[door]]\nSECOND\n[door.opening]\nwidth = "16"\nheight = "22"\n'
)
STUB, BRIDLE = 'kind = "stub tenon"\n', 'kind = "bridle"\n'
HALF_LAPS = 'kind = "half-lap"\nbars = "T-bridle"\n'


def job(top: str = "", tables: str = "", second: str = "", last: str = "") -> str:
    """Two doors, with lines above all tables, tables before the doors, lines of the second door,
    and what stands behind it."""
    text = STOCK.replace("TOP", top) + tables + DOORS.replace("FIRST\n", "") + last
    return text.replace("SECOND\n", f"{second}\n" if second else "")


def advised(text: str) -> tuple[tuple[Fault, ...], Remedy | None]:
    """The faults as they are printed by `check`, and what would mend them."""
    texts = {FILE: text}
    with pytest.raises(InputError) as found:
        read_batch([FILE], None, texts.__getitem__)
    error, whole = tried(found.value, [FILE], None, texts, None, lambda: False)
    return error.faults, whole


def said(hint: Fact | None) -> str:
    assert hint is not None
    return Room("US").say(hint)


JOINTS = {
    "before the doors": (
        job(tables=f"[joint]\n{STUB}[glass]\n"), 'write kind = "bridle" under [joint]',
    ),
    "behind the doors": (
        job(last=f"[joint]\n{STUB}[glass]\n"), 'write kind = "bridle" under [joint]',
    ),
    "where a door says otherwise": (
        job(tables=f"[joint]\n{STUB}[glass]\n", last=f"[door.joint]\n{BRIDLE}"),
        'write kind = "bridle" under [joint]',
    ),
    "dotted": (
        job(top=f"joint.{STUB}", tables="[glass]\n"), 'write joint.kind = "bridle"',
    ),
    "in braces": (
        job(top='joint = { kind = "stub tenon", proud = "1/16" }', tables="[glass]\n"),
        'write joint = { kind = "bridle", proud = "1/16" }',
    ),
    "under a door": (
        job(last=f"[door.joint]\n{STUB}[door.glass]\n"),
        'write kind = "bridle" under [door.joint] of door 2',
    ),
    "dotted under a door": (
        job(second=f"joint.{STUB}", tables="[glass]\n"),
        'write joint.kind = "bridle" under [[door]] of door 2',
    ),
    "under a door whose shape all doors have": (
        job(tables='[shape]\nkind = "arch"\nrise = "1"\n', second='joint.kind = "half-lap"'),
        'write joint.kind = "bridle" under [[door]] of door 2',
    ),
    "bars": (
        job(tables='[glass]\n[[bar]]\nkind = "mid rail"\n', last='[joint]\nbars = "stub tenon"\n'),
        'write bars = "T-bridle" under [joint]',
    ),
}  # fmt: skip


@pytest.mark.parametrize(("text", "line"), JOINTS.values(), ids=JOINTS)
def test_a_hint_of_another_joint_says_where_it_was_tried(text: str, line: str) -> None:
    (fault,), whole = advised(text)
    assert whole is not None
    assert said(fault.hint) == f"tried, and it would do: {line}"
    assert said(whole.says({FILE: text})) == line
    changed = whole.text({FILE: text})
    read_batch([FILE], None, {FILE: changed}.__getitem__)
    (gone,) = set(text.split("\n")) - set(changed.split("\n"))
    assert changed == text.replace(gone, line.removeprefix("write ").partition(" under ")[0])


@pytest.mark.parametrize("key", ["before the doors", "dotted", "in braces", "under a door"])
def test_mend_writes_what_the_hint_says(
    key: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    text, line = JOINTS[key]
    monkeypatch.setattr("sequencer.cli.commands._PATIENCE", 60)
    monkeypatch.chdir(tmp_path)
    Path(FILE).write_text(text, "utf-8")
    assert main(["plan", FILE, "--no-pdf", "--mend"]) == 3
    printed = capsys.readouterr().err
    assert f"{FILE}: changed: {line}\n" in printed
    assert f"    tried, and it plans: {line}\n" in printed
    assert main(["plan", FILE, "--no-pdf"]) == 0


def test_a_change_of_what_doors_share_that_would_not_do_is_made_under_the_door() -> None:
    """The first door's slot is one that a stub tenon may have, and no bridle."""
    text = job(tables=f"[joint]\n{STUB}", last="[door.glass]\n")
    texts = {FILE: text}
    with pytest.raises(InputError) as found:
        read_batch([FILE], None, texts.__getitem__)

    def plans(jobs: object, _: object) -> None:
        assert isinstance(jobs, tuple)
        kinds = [door.joint.kind for door in jobs[0].doors]
        if kinds[0] != "stub tenon":
            raise InputError(found.value.faults)

    error, whole = tried(found.value, [FILE], None, texts, plans, lambda: False)
    line = 'write kind = "bridle" under [door.joint] of door 2'
    assert said(error.faults[0].hint) == f"tried, and it plans: {line}"
    assert whole is not None
    assert whole.edits == (Edit("joint", "kind", "bridle", 1),)


def test_of_two_lines_both_were_tried_or_one_is_told() -> None:
    bars = '[[bar]]\nkind = "mid rail"\n'
    text = job(tables=f"[joint]\n{HALF_LAPS}{bars}")
    (fault,), whole = advised(text)
    assert said(fault.hint) == 'write bars = "stub tenon" or kind = "bridle"'
    assert whole is not None
    assert whole.edits == (Edit("joint", "bars", "stub tenon"),)
    text = job(top='joint = { kind = "half-lap", bars = "T-bridle" }', tables=bars)
    (fault,), _ = advised(text)
    line = 'write joint = { kind = "half-lap", bars = "stub tenon" }'
    assert said(fault.hint) == f"tried, and it would do: {line}"


def test_a_figure_that_would_not_do_is_not_said_where_one_beside_it_would() -> None:
    """A panel as thick as its groove may be wide goes into a wider one."""
    text = job(tables='[panel]\nthickness = "7/16"\n')
    (fault,), whole = advised(text)
    assert whole is not None
    assert whole.edits == (Edit("panel", "thickness", "23/64"),)
    assert said(fault.hint) == ('tried, and it would do: write thickness = "23/64" under [panel]')


def test_what_a_hint_says_in_words_alone_is_not_mended_by_something_else() -> None:
    """A slip in writing is no reason to leave the key out."""
    (fault,), whole = advised(job(tables='[rails]\ntop = "5/2"\n'))
    assert said(fault.hint) == "write 2 1/2"
    assert whole is None


SIZE = "give its size, or leave the line out"


@pytest.mark.parametrize(
    ("text", "hint", "says"),
    [
        (job(tables='[groove]\ndepth = "0"\n'), SIZE, "leave depth out under [groove]"),
        (job(top='groove.depth = "0"'), SIZE, "leave groove.depth out"),
        (job(top='groove = { depth = "0", offset = "1/4" }'), SIZE,
         'write groove = { offset = "1/4" }'),
        (job(tables='[panel]\nthickness = "5/16"\n', last='[groove]\nwidth = "1/4"\n'),
         "leave out the groove's width, and it is made to suit the panel",
         "leave width out under [groove]"),
    ],
)  # fmt: skip
def test_where_the_hint_says_so_a_key_is_left_out(text: str, hint: str, says: str) -> None:
    (fault,), whole = advised(text)
    assert said(fault.hint) == hint
    assert whole is not None
    assert said(whole.says({FILE: text})) == says
