"""Plans of one pass by hand, as JSON: a usual one of each kind, and any value changed.

Millimetres. Only what the simulator reads is there.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

Values = Mapping[str, Any]

BLADE = {"kind": "blade", "grind": "flat-top", "kerf": "16/5", "diameter": "254"}
DADO_SET = {"kind": "dado", "grind": "flat-top", "kerf": "8", "diameter": "203"}


def side(name: str, least: str | None) -> dict[str, Any]:
    return {"id": f"caution.side-{name}", "with": {"least": least}}


def held(how: str, which: dict[str, Any]) -> dict[str, Any]:
    return {"id": f"caution.{how}", "with": {"side": which}}


def hold(by: str, which: str | None, reach: str) -> dict[str, Any]:
    return {"by": by, "side": which, "reach": reach}


def waste(what: str, which: str | None, ended: str) -> dict[str, Any]:
    return {"what": what, "side": which, "ended": ended}


_USUAL: dict[str, Any] = {
    "hold": hold("push-stick", "guide", "50"),
    "waste": waste("strip", "open", "past"),
    "kind": "rip",
    "carrier": "rip-fence",
    "guard": "fitted",
    "guard_step": True,
    "cutter": "blade",
    "kerf": "16/5",
    "tilt": "0",
    "depth": "22",
    "guide": "50",
    "down": "back",
    "against": "inside-edge",
    "keeps": "guide",
    "sweep": False,
    "back": None,
    "size": ("800", "85", "19"),
    "stick": False,
    "start": "12",
    "gone": (),
    "rules": ("B05", "C13"),
    "ticks": (),
    "word": "WARNING",
    "held": None,
    "stands": {},
    "hold_down": "featherboard",
    "cover": "clear box",
    "diameter": None,
    "rides": "slot",
    "opening": "75",
    "longest": "1500",
    "widest": "600",
    "max_height": "79",
    "standing": (),
}

_GROOVE = {
    "kind": "groove",
    "guard": "cover",
    "down": "inside-edge",
    "against": "face",
    "keeps": None,
    "depth": "6",
    "guide": "6",
    "rules": ("C09", "C13"),
    "size": ("800", "50", "19"),
    "hold": hold("push-block", None, "44"),
    "waste": waste("chips", None, "past"),
}
_SLED = {
    "kind": "crosscut",
    "carrier": "crosscut-sled",
    "guard": "knife",
    "against": "end-A",
    "guide": "400",
    "rules": ("C04", "C13"),
    "stick": True,
    "held": held("clamp-or-hold", side("stop", "400")),
    "hold": hold("hand", "guide", "400"),
    "waste": waste("rest", "open", "still"),
}
_SHOULDER = {
    **_SLED,
    "kind": "shoulder",
    "keeps": None,
    "stick": False,
    "guard": "cover",
    "depth": "6",
    "guide": "46",
    "rules": ("C09", "C13"),
    "size": ("400", "50", "19"),
    "held": held("clamp-or-hold", side("beyond", "350")),
    "hold": hold("hand", "open", "350"),
    "waste": waste("chips", None, "lifted"),
}
_CHEEK = {
    **_GROOVE,
    "kind": "cheek",
    "carrier": "tenoning-jig",
    "down": "end-A",
    "depth": "50",
    "guide": "13",
    "size": ("400", "50", "19"),
    "hold": hold("jig-clamp", None, "350"),
    "waste": waste("chips", None, "still"),
}

KINDS: dict[str, dict[str, Any]] = {
    "rip": {},
    "groove": _GROOVE,
    "dado": {**_GROOVE, "cutter": "dado set", "kerf": "8", "rules": ("C09", "C13", "D04")},
    "bevel": {
        **_GROOVE,
        "kind": "bevel",
        "against": "back",
        "tilt": "-1/8",
        "depth": "32",
        "guide": "7",
        "size": ("400", "100", "16"),
        "rules": ("C09", "C13", "J05"),
    },
    "square": {
        **_SLED,
        "kind": "square",
        "against": None,
        "keeps": "larger",
        "guide": None,
        "held": held("clamp-or-hold", side("stick", "788")),
        "hold": hold("hand", "open", "788"),
        "waste": waste("offcut", "guide", "still"),
    },
    "crosscut": _SLED,
    "shoulder": _SHOULDER,
    "mitre": {
        **_SHOULDER,
        "kind": "mitre",
        "carrier": "mitre-sled",
        "sweep": True,
        "guide": "0",
        "held": None,
    },
    "cheek": _CHEEK,
}


def plan_of(kind: str, changes: Values) -> dict[str, Any]:
    """The usual plan of that kind with other values; a name that none has is a `KeyError`."""
    values = {**_USUAL, **KINDS[kind]}
    for name, value in changes.items():
        if name not in values:
            raise KeyError(name)
        values[name] = value
    size = dict(zip(("length", "width", "thickness"), values["size"], strict=True))
    mark = "#1" if values["stick"] else "A1"
    return {
        "unit": "mm",
        "shop": _shop(values),
        "parts": [{"mark": "A1", "size": size}],
        "scrap": [],
        "sticks": [_stick(size, values["start"])] if values["stick"] else [],
        "setups": [_setup(values)],
        "steps": [*_before(values, mark), _step(values, mark)],
        "standing": [{"rule": rule} for rule in values["standing"]],
        "warnings": [
            {"tick": {"id": f"caution.tick-{tick}"}, "setups": [1]} for tick in values["ticks"]
        ],
    }


def _stick(size: Values, start: str) -> dict[str, Any]:
    piece = {"mark": "A1", "from": start, "end_a": "left"}
    return {"mark": "#1", "size": size, "blank": size, "pieces": [piece]}


def _shop(values: Values) -> dict[str, Any]:
    cutters = {"blade": BLADE, "dado set": DADO_SET}
    if values["diameter"] is not None:
        cutters["blade"] = {**BLADE, "diameter": values["diameter"]}
    return {
        "decks": {"rip-fence": "0", "crosscut-sled": "18", "tenoning-jig": "0", "mitre-sled": "18"},
        "cutters": cutters,
        "jig_rides": values["rides"],
        "jig_thickness": "0",
        "jig_opening": values["opening"],
        "sled_longest": values["longest"],
        "sled_widest": values["widest"],
        "max_height": values["max_height"],
        "hold_down": values["hold_down"],
        "cover": values["cover"],
    }


def _setup(values: Values) -> dict[str, Any]:
    deck = 18 if values["carrier"].endswith("sled") else 0
    height = str(Fraction(values["depth"]) + deck)
    knob = {
        "rip-fence": "fence",
        "tenoning-jig": "jig",
        "crosscut-sled": "stop",
        "mitre-sled": "mitre stop",
    }[values["carrier"]]
    stands = {key: values[key] for key in ("cutter", "tilt", "carrier", "guard")}
    stands |= {"height": height, "fence": "away", knob: values["guide"] or "away"}
    stands |= values["stands"]
    told = [tick.partition("-")[0].upper() for tick in values["ticks"] if tick != "cover"]
    with_held = {} if values["held"] is None else {"held": values["held"]}
    return {
        "number": 1,
        "height": height,
        "cautions": [
            {"rule": rule, "word": values["word"], "with": with_held}
            for rule in (*values["rules"], *told)
        ],
        "changes": [{"knob": k, "after": after, "number": None} for k, after in stands.items()],
        **{k: values[k] for k in ("cutter", "kerf", "tilt", "carrier", "guard", "depth", "guide")},
    }


def _before(values: Values, mark: str) -> list[dict[str, Any]]:
    """What is gone from the piece already, and the guard put on or taken off."""
    gone = [{"mark": mark, "box": box} for box in values["gone"]]
    steps = [{"number": 1, "setup": None, "kind": "plane", "cuts": [], "removes": gone}]
    if values["guard_step"]:
        kind = "refit guard" if values["guard"] == "fitted" else "remove guard"
        steps.append({"number": 2, "setup": 1, "kind": kind, "cuts": [], "removes": []})
    return steps


_OF_CUT = ("down", "against", "keeps", "sweep", "back", "hold", "waste")


def _step(values: Values, mark: str) -> dict[str, Any]:
    cut = {key: values[key] for key in _OF_CUT}
    kind = values["kind"]
    return {"number": 3, "setup": 1, "kind": kind, "cuts": [{"mark": mark, **cut}], "removes": []}
