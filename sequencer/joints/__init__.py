"""Joints, by the name that the job file calls them: one module and one line each."""

from __future__ import annotations

from collections.abc import Mapping

from sequencer.joints.base import BAR_ROLES, BarJoint, Corner, Joint, JointSizes, Tee
from sequencer.joints.bridle import Bridle
from sequencer.joints.half_lap import HalfLap
from sequencer.joints.mitred import MitredBridle
from sequencer.joints.stub import StubBar, StubTenon
from sequencer.joints.t_bridle import TBridle

__all__ = [
    "BAR_JOINTS",
    "BAR_ROLES",
    "JOINTS",
    "BarJoint",
    "Corner",
    "Joint",
    "JointSizes",
    "Tee",
]

JOINTS: Mapping[str, Joint] = {
    joint.name: joint for joint in (Bridle(), MitredBridle(), StubTenon(), HalfLap())
}

BAR_JOINTS: Mapping[str, BarJoint] = {joint.name: joint for joint in (StubBar(), TBridle())}
"""Joints of mid rails and mullions."""
