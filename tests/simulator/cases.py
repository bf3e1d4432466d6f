"""Cases of guard and cutter, of waste and of hands: what is unsafe, and the nearest that is safe.

A row: the usual plan that is changed, the change that makes it unsafe, and the one that comes
nearest to that and is not. Figures and sources stand with the predicates.
"""

from __future__ import annotations

from typing import Any

from tests.simulator.handmade import held, side

Case = tuple[str, dict[str, Any], dict[str, Any]]

LONG = ("0", "800")
SHOULDER_GONE = (("46", "50"), ("0", "50"), ("13", "19"))
FAR_WALL = (LONG, ("0", "6"), ("10", "19"))
LONGER = held("clamp", side("longer", "100"))
BY_HAND = held("hold-only", side("beyond", "100"))
STRIPE = {
    # Half of the groove, between two that are gone: a bar hangs over the blade.
    "kerf": "20",
    "guide": "30",
    "down": "face",
    "against": "inside-edge",
    "size": ("800", "85", "19"),
}

CASES: dict[str, Case] = {
    # ---- guard and knife, fence and stop, the cutter
    "rip_without_guard": ("rip", {"guard": "knife"}, {}),
    "rip_without_knife": ("rip", {"guard": "cover"}, {"guard": "knife"}),
    "guard_not_as_told": ("rip", {"guard_step": False}, {}),
    "crosscut_on_fence": (
        "rip",
        {"against": "end-A", "size": ("800", "304", "19")},
        {"against": "end-A", "size": ("800", "305", "19")},
    ),
    "fence_beside_crosscut": ("crosscut", {"stands": {"fence": "300"}}, {}),
    "stop_where_offcut_falls": (
        "square",
        {"stands": {"stop": "12"}},
        {"stands": {"mitre stop": "12"}},  # on the other sled, which is not on the saw
    ),
    "guide_not_as_told": ("crosscut", {"stands": {"stop": "401"}}, {"stands": {"stop": "400"}}),
    "saw_not_as_told": ("bevel", {"stands": {"tilt": "1 in 8"}}, {"stands": {"tilt": "-1 in 8"}}),
    "blade_in_guide": ("bevel", {"tilt": "1/4", "guide": "8"}, {"tilt": "1/4", "guide": "9"}),
    "leans_to_fence": ("bevel", {"tilt": "1/8"}, {}),
    "dado_through": ("dado", {"depth": "50"}, {"depth": "49"}),
    "dado_tilted": ("dado", {"tilt": "-1/8"}, {}),
    "dado_too_large": ("dado", {"kerf": "41/2"}, {"kerf": "20"}),
    "dado_never_allowed": ("dado", {"rules": ("C09", "C13")}, {}),
    "knife_at_dado": ("dado", {"guard": "knife"}, {}),
    "small_cutter": ("groove", {"diameter": "121"}, {"diameter": "122"}),
    "nothing_holds_down": ("groove", {"hold_down": " "}, {}),
    "higher_than_it_goes": ("cheek", {"depth": "80"}, {"depth": "79"}),
    "not_through": ("rip", {"depth": "19"}, {"depth": "20"}),
    "too_high": ("rip", {"depth": "51/2"}, {"depth": "25"}),
    # ---- waste
    "waste_trapped": (
        "rip",
        {"keeps": "far", "guide": "30"},
        {"keeps": "far", "guide": "41"},  # the wider side runs along the fence and is pushed
    ),
    "waste_on_blade": (
        "dado",
        {**STRIPE, "gone": [(LONG, ("30", "35"), ("6", "19")), (LONG, ("45", "50"), ("6", "19"))]},
        {**STRIPE, "gone": [(LONG, ("30", "35"), ("6", "19"))]},
    ),
    "far_kept_on_sled": ("crosscut", {"keeps": "far"}, {}),
    "mitre_in_one_pass": ("mitre", {"sweep": False}, {}),
    "passes_beside": (
        "groove",
        {"kind": "test cut", "gone": [(LONG, ("0", "6"), ("6", "10"))]},
        {"kind": "test cut", "gone": [(LONG, ("0", "5"), ("6", "10"))]},
    ),
    "nothing_to_measure": (
        "groove",
        # Splinters of 0.8 mm stand on either side of the kerf.
        {"kind": "test cut", "gone": [(LONG, ("0", "6"), ("0", "26/5")), FAR_WALL]},
        {"kind": "test cut", "gone": [(LONG, ("0", "6"), ("0", "5")), FAR_WALL]},
    ),
    "nothing_kept": ("rip", {"keeps": "far", "guide": "82"}, {"keeps": "far", "guide": "81"}),
    "too_deep": ("groove", {"depth": "21/2"}, {"depth": "10"}),
    "strip_at_fence": (
        "rip",
        {"guide": "11", "ticks": ("f01",)},
        {"guide": "12", "ticks": ("f01",)},
    ),
    "little_left_to_hold": (
        "rip",
        {"keeps": "far", "guide": "74", "size": ("800", "90", "19")},
        {"keeps": "far", "guide": "75", "size": ("800", "90", "19")},
    ),
    # ---- hands
    "hand_too_near": (
        "shoulder",
        {"size": ("289", "50", "19"), "held": held("clamp-or-hold", side("beyond", "200"))},
        {"size": ("290", "50", "19"), "held": held("clamp-or-hold", side("beyond", "200"))},
    ),
    "short_crosscut_held": (
        "crosscut",
        {"guide": "149", "held": held("hold-only", side("stop", "149"))},
        {"guide": "150", "held": held("hold-only", side("stop", "149"))},
    ),
    "wrong_side_held": ("shoulder", {"held": held("clamp", side("stop", "46"))}, {}),
    "longer_than_it_is": (
        "square",
        {"held": held("clamp", side("stick", "789"))},
        {"held": held("clamp", side("stick", "788"))},
    ),
    "small_without_clamp": (
        "shoulder",
        {"size": ("199", "50", "19"), "held": BY_HAND},
        {"size": ("200", "50", "19"), "held": BY_HAND},
    ),
    "short_rip": ("rip", {"size": ("299", "85", "19")}, {"size": ("300", "85", "19")}),
    # 2·√(22·(254 − 22)) = 142.9, and 8 to the knife.
    "shorter_than_blade": ("rip", {"size": ("150", "85", "19")}, {"size": ("152", "85", "19")}),
    "short_on_fence": (
        "groove",
        {"size": ("299", "50", "19")},
        {"size": ("299", "50", "19"), "ticks": ("b08",)},
    ),
}
