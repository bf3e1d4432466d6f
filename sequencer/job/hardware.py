"""Hinges, pull and catch of a door, as `[hardware]` names them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from sequencer.job.document import Path
from sequencer.job.kinds import Hardware
from sequencer.job.reader import Reader

HARDWARE = ("hinge", "hinges", "pull", "catch")
MOST_HINGES = 8


def read_hardware(reader: Reader, path: Path) -> Any:
    """What stands at a key of `[hardware]`; `None` where it is wrong."""
    return reader.count(path, MOST_HINGES) if path[-1] == "hinges" else reader.text(path)


def hardware_of(stated: Mapping[str, Any]) -> Hardware:
    """From the contents by dotted key."""
    usual = Hardware()
    return Hardware(
        hinge=stated.get("hardware.hinge", usual.hinge),
        hinges=stated.get("hardware.hinges"),
        pull=stated.get("hardware.pull", usual.pull),
        catch=stated.get("hardware.catch"),
    )
