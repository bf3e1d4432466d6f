"""Every joint that a job file may name is there, and the other way round."""

from __future__ import annotations

from sequencer.job.kinds import BAR_JOINTS as BAR_NAMES
from sequencer.job.kinds import CORNER_JOINTS
from sequencer.job.schema import Joint
from sequencer.joints import BAR_JOINTS, BAR_ROLES, JOINTS


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
