"""Joints, by the name that the job file calls them: one module and one line each."""

from __future__ import annotations

from collections.abc import Mapping

from sequencer.joints.base import BarJoint, Corner, Joint, JointSizes, Tee
from sequencer.joints.bridle import Bridle

__all__ = ["BAR_JOINTS", "JOINTS", "BarJoint", "Corner", "Joint", "JointSizes", "Tee"]

JOINTS: Mapping[str, Joint] = {joint.name: joint for joint in (Bridle(),)}

BAR_JOINTS: Mapping[str, BarJoint] = {}
"""Joints of mid rails and mullions."""
