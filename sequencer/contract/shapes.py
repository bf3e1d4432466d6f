"""What of the plan is written otherwise than its types say: names, pairs, keys to be left out."""

from __future__ import annotations

import types
from collections.abc import Mapping
from fractions import Fraction
from typing import Any, get_type_hints

from sequencer.facts import doors, parts
from sequencer.plan import (
    Door,
    Feature,
    Ordering,
    Part,
    Plan,
    Removal,
    Setup,
    ShopFacts,
    Step,
    Stick,
    StickPiece,
)
from sequencer.records import names

SCHEMA = "sequencer-plan/2"

NAMES: Mapping[tuple[type, str], str] = {(StickPiece, "start"): "from"}
"""Fields whose key has another name."""

PAIRS: Mapping[tuple[type, str], tuple[str, ...]] = {
    (Door, "opening"): ("width", "height"),
    (Door, "size"): ("width", "height"),
}
"""Pairs that are written as an object with these keys."""

SHAPED = (Feature, Removal)
"""What has a `prism` instead of a `box` where it is no box."""

ZERO = Fraction(0)
OPTIONAL: Mapping[type, Mapping[str, Any]] = {
    Door: {
        "job": "",
        "name": doors.OWN_NAME(name=""),
        "at": (ZERO, ZERO),
        "face_side": "out",
        "pair": (),
    },
    Feature: {"mate": None},
    Part: {"material": "", "name": parts.NAMED(name="piece")},
    Stick: {"material": "", "test": False},
    Setup: {"changes": (), "why": (), "layer": 0, "spacer": ZERO},
    Step: {"cuts": (), "removes": (), "marks": (), "cautions": ()},
    Ordering: {"limit": None, "baselines": (), "compared": (), "left_out": ()},
    ShopFacts: {
        "name": "",
        "decks": {},
        "jig_rides": "",
        "jig_thickness": ZERO,
        "jig_opening": ZERO,
        "sled_longest": ZERO,
        "sled_widest": ZERO,
        "max_height": ZERO,
        "hold_down": "",
        "cover": None,
        "cutters": {},
        "known_as": "",
        "made_with": {},
        "timed": {},
    },
    Plan: {
        "methods": (),
        "assumptions": (),
        "notes": (),
        "proven": (),
        "spares": {},
        "thickness": {},
    },
}
"""Keys that a file may leave out, and what stands for them then. Other defaults are the type's."""


def fields_of(kind: type) -> list[tuple[str, Any]]:
    hints = get_type_hints(kind)
    return [(name, hints[name]) for name in names(kind)]


def present(arguments: tuple[Any, ...]) -> Any:
    """The one kind beside None in an optional field."""
    (kind,) = (argument for argument in arguments if argument is not types.NoneType)
    return kind
