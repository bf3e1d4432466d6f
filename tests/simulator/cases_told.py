"""Cases of what is said of hands and waste, of what bears, of what is told: as in `cases`."""

from __future__ import annotations

from tests.simulator.cases import LONG, SHOULDER_GONE, Case
from tests.simulator.handmade import hold, waste

CASES: dict[str, Case] = {
    # ---- what each cut says of hands and waste
    "hands_and_waste_unsaid": ("rip", {"waste": None}, {}),
    "hold_on_wrong_side": (
        "crosscut",
        {"hold": hold("clamp", "open", "300")},
        {"hold": hold("clamp", "guide", "300")},
    ),
    "reach_longer_than_it_is": (
        "shoulder",
        {"hold": hold("clamp", "open", "351")},
        {"hold": hold("clamp", "open", "350")},
    ),
    "hand_said_too_near": (
        "crosscut",
        {"guide": "239", "hold": hold("hand", "guide", "239")},
        {"guide": "240", "hold": hold("hand", "guide", "240")},
    ),
    "hand_beside_fence": (
        "rip",
        {"guide": "149", "size": ("800", "190", "19"), "hold": hold("hand", "guide", "149")},
        {"guide": "150", "size": ("800", "190", "19"), "hold": hold("hand", "guide", "150")},
    ),
    "unclamped_on_end": ("cheek", {"hold": hold("hand", None, "350")}, {}),
    "loose_waste_unsaid": (
        "cheek",
        {"gone": [SHOULDER_GONE]},
        {"gone": [SHOULDER_GONE], "waste": waste("cheek", "open", "still")},
    ),
    "waste_said_elsewhere": (
        "cheek",
        {"gone": [SHOULDER_GONE], "waste": waste("cheek", "guide", "still")},
        {"gone": [SHOULDER_GONE], "waste": waste("cheek", "open", "still")},
    ),
    "drawn_past_loose_waste": (
        "cheek",
        {"gone": [SHOULDER_GONE], "waste": waste("cheek", "open", "lifted")},
        {"gone": [SHOULDER_GONE], "waste": waste("cheek", "open", "still")},
    ),
    # ---- bearing
    "little_on_fence": (
        "groove",
        {"size": ("400", "50", "19"), "gone": [(("0", "101"), ("0", "50"), ("0", "4"))]},
        {"size": ("400", "50", "19"), "gone": [(("0", "100"), ("0", "50"), ("0", "4"))]},
    ),
    "little_in_jig": (
        "cheek",
        {"gone": [(("0", "351"), ("0", "50"), ("0", "4"))]},
        {"gone": [(("0", "350"), ("0", "50"), ("0", "4"))]},
    ),
    "little_at_stop": (
        "shoulder",
        {"gone": [(("0", "20"), ("0", "38"), ("0", "19"))]},
        {"gone": [(("0", "20"), ("0", "37"), ("0", "19"))]},
    ),
    "narrow_in_jig": (
        "cheek",
        {"size": ("400", "50", "37"), "against": "outside-edge"},
        {"size": ("400", "50", "37"), "against": "outside-edge", "ticks": ("j04",)},
    ),
    "short_base": (
        "groove",
        {"gone": [(("0", "651"), ("0", "10"), ("0", "19"))]},
        {"gone": [(("0", "650"), ("0", "10"), ("0", "19"))]},
    ),
    "base_lost": (
        "groove",
        {"guide": "6", "gone": [(LONG, ("0", "9"), ("0", "6")), (LONG, ("0", "9"), ("9", "19"))]},
        {"guide": "6", "gone": [(LONG, ("0", "9"), ("0", "6"))]},
    ),
    "narrow_base": (
        "groove",
        {"guide": "6", "gone": [(LONG, ("0", "9"), ("9", "19"))]},
        {
            "guide": "6",
            "gone": [(LONG, ("0", "9"), ("9", "19"))],
            "ticks": ("e07",),
        },
    ),
    "end_on_fence": (
        "cheek",
        {"carrier": "rip-fence"},
        {"carrier": "rip-fence", "tilt": "-1/8", "against": "back"},
    ),
    "end_cut_through": ("cheek", {"keeps": "guide"}, {}),
    "long_on_end": (
        "cheek",
        {"size": ("901", "50", "19")},
        {"size": ("900", "50", "19")},
    ),
    "far_too_long_on_end": (
        "cheek",
        {"size": ("2001", "50", "19"), "ticks": ("e02",)},
        {"size": ("2000", "50", "19"), "ticks": ("e02",)},
    ),
    "little_to_clamp": (
        "cheek",
        {"size": ("149", "50", "19")},
        {"size": ("150", "50", "19")},
    ),
    "low_fence": ("groove", {"size": ("800", "131", "19")}, {"size": ("800", "130", "19")}),
    "high_beside_hand": ("cheek", {"depth": "66"}, {"depth": "65"}),
    "wider_than_jig": ("cheek", {"opening": "18"}, {"opening": "19"}),
    "larger_than_sled": ("crosscut", {"longest": "799"}, {"longest": "800"}),
    "leans_in_carrier": ("cheek", {"tilt": "-1/8"}, {"tilt": "-1/8", "ticks": ("j06",)}),
    # ---- what must be told
    "bare_blade_unsaid": (
        "groove",
        {"cover": None, "word": "DANGER"},
        {"cover": None, "word": "DANGER", "ticks": ("cover",)},
    ),
    "bare_blade_no_danger": (
        "groove",
        {"cover": None, "ticks": ("cover",)},
        {"cover": None, "ticks": ("cover",), "word": "DANGER"},
    ),
    "through_without_knife_unsaid": (
        "crosscut",
        {"guard": "cover"},
        {"guard": "cover", "ticks": ("c03",)},
    ),
    "narrow_rip_unsaid": (
        "rip",
        {"guide": "49", "rules": ("B06", "C13")},
        {"guide": "49", "rules": ("B06", "C13"), "ticks": ("b06",)},
    ),
    "push_stick_unsaid": ("rip", {"rules": ("C13",)}, {"rules": ("C13", "B07")}),
    "groove_near_fence_unsaid": ("groove", {"rules": ("C13",)}, {"rules": ("C13", "B05")}),
    "dropped_cheek_unsaid": (
        "cheek",
        {"gone": [SHOULDER_GONE]},
        {"gone": [SHOULDER_GONE], "rules": ("C09", "C13", "E09")},
    ),
    "unplugging_unsaid": ("rip", {"rules": ("B05",)}, {"rules": ("B05",), "standing": ("C13",)}),
    "long_piece_unsaid": (
        "groove",
        {"size": ("901", "50", "19")},
        {"size": ("901", "50", "19"), "rules": ("C09", "C13", "G05")},
    ),
    "tilting_unsaid": ("bevel", {"rules": ("C09", "C13")}, {}),
    "mitre_unsaid": (
        "mitre",
        {"rules": ("C09", "C13", "J07")},
        {"rules": ("C09", "C13", "J07"), "ticks": ("j07",)},
    ),
    "short_bearing_unsaid": (
        "rip",
        {"size": ("400", "401", "19")},
        {"size": ("400", "401", "19"), "ticks": ("a08",)},
    ),
    "splinter_unsaid": (
        "rip",
        {"size": ("800", "59", "19")},
        {"size": ("800", "60", "19")},
    ),
    "creeping_unsaid": ("rip", {"size": ("800", "85", "6")}, {"size": ("800", "85", "6.1")}),
}
