"""Every joint that a job file may name is there, and the other way round."""

from __future__ import annotations

import pytest

from sequencer.job.kinds import BAR_JOINTS as BAR_NAMES
from sequencer.job.kinds import CORNER_JOINTS
from sequencer.job.schema import Joint
from sequencer.joints import BAR_JOINTS, BAR_ROLES, JOINTS
from sequencer.operations import Work
from tests.joints.jobs import job
from tests.stages import to_work


def test_a_job_file_names_the_joints_that_there_are() -> None:
    assert tuple(JOINTS) == tuple(CORNER_JOINTS)
    assert tuple(BAR_JOINTS) == tuple(BAR_NAMES)
    assert [joint.name for joint in JOINTS.values()] == list(JOINTS)
    assert [joint.name for joint in BAR_JOINTS.values()] == list(BAR_JOINTS)


def test_what_a_job_says_nothing_of_is_usual() -> None:
    usual = Joint(None, None, *([None] * 3))  # type: ignore[arg-type]  # only the names matter
    assert (usual.kind, usual.bars) == (next(iter(CORNER_JOINTS)), next(iter(BAR_NAMES)))


def test_bars_are_called_as_parts_are() -> None:
    from sequencer.doors import BARS

    assert BAR_ROLES == BARS


CORNERS = {
    "bridle": ("slot", "shoulder cheek"),
    "mitred bridle": ("slot mitre", "mitre shoulder cheek"),
    "stub tenon": ("", "shoulder cheek"),
    "half-lap": ("shoulder cheek", "shoulder cheek edge-shoulder edge-cheek"),
}
BARS_LET_IN = {"stub tenon": ("slot", "shoulder cheek"), "T-bridle": ("slot housing", "slot")}
"""What a stile and a rail, or a bar, of a bridled frame is cut by at an end or across, each in the
words of the trade (Fairham, Woodwork Joints, 1921, The Bridle Joint, The Halved Joint). A half-lap
is not trimmed by its groove, which lies behind it."""


def _cut_by(work: Work, mark: str) -> set[str]:
    """The joint cuts of a piece, crosscuts and what runs along it left out."""
    along = ("crosscut", "groove", "rip", "square")
    return {
        o.kind.replace(" ", "-") for o in work.operations
        if o.mark == mark and o.setting is not None and o.kind not in along
    }  # fmt: skip


@pytest.mark.parametrize("kind", CORNER_JOINTS)
def test_what_each_corner_is_cut_by(kind: str) -> None:
    work = to_work(job(kind))
    for marks, cuts in zip((("A1", "A2"), ("A3", "A4")), CORNERS[kind], strict=True):
        for mark in marks:
            assert _cut_by(work, mark) == set(cuts.split()), mark


@pytest.mark.parametrize("kind", BAR_NAMES)
def test_what_each_bar_is_let_in_by(kind: str) -> None:
    work = to_work(job("bridle", f'bars = "{kind}"') + '\n[[bar]]\nkind = "mid rail"\n')
    for mark, cuts in zip(("A1", "A5"), BARS_LET_IN[kind], strict=True):
        assert _cut_by(work, mark) == set(cuts.split()), mark
