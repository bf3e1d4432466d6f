"""Corner joints, by the name that the job file calls them: one module and one line each."""

from __future__ import annotations

from collections.abc import Mapping

from sequencer.joints.base import Corner, Joint, JointSizes
from sequencer.joints.bridle import Bridle

__all__ = ["JOINTS", "Corner", "Joint", "JointSizes"]

JOINTS: Mapping[str, Joint] = {joint.name: joint for joint in (Bridle(),)}
