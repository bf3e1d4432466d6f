"""Joints, by the name that the job file calls them: one module each, and one line in the table."""

from __future__ import annotations

from collections.abc import Mapping
from importlib import import_module
from typing import Any

from sequencer.job import kinds
from sequencer.joints.base import BAR_ROLES, BarJoint, Corner, Cutting, Joint, JointSizes, Tee

__all__ = [
    "BAR_JOINTS",
    "BAR_ROLES",
    "JOINTS",
    "BarJoint",
    "Corner",
    "Cutting",
    "Joint",
    "JointSizes",
    "Tee",
]


def _made(table: Mapping[str, str]) -> dict[str, Any]:
    made: dict[str, Any] = {}
    for name, where in table.items():
        module, _, joint = where.partition(".")
        made[name] = getattr(import_module(f"{__name__}.{module}"), joint)()
    return made


JOINTS: Mapping[str, Joint] = _made(kinds.CORNER_JOINTS)
BAR_JOINTS: Mapping[str, BarJoint] = _made(kinds.BAR_JOINTS)
"""Joints of mid rails and mullions."""
