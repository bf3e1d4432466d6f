"""Jobs that a person could write, and many of which are refused: joints, slots, panels and bars
that do not go together."""

from __future__ import annotations

from random import Random

from sequencer.lengths import Unit

_CORNERS = ("bridle", "mitred bridle", "stub tenon", "half-lap")
_FILLS = ("", "", "raised", "boarded", "glass")
_SIZES: dict[Unit, dict[str, tuple[str, ...]]] = {
    "in": {
        "thickness": ("5/8", "3/4", "7/8", "1"), "stile": ("1 1/2", "1 3/4", "2", "2 1/4", "2.2"),
        "slot": ("3/16", "1/4", "5/16", "3/8", "0.27"), "offset": ("1/8", "3/16", "1/4", "0.21"),
        "depth": ("1/8", "3/16", "1/4", "3/8", "1/2"), "panel": ("1/4", "5/16", "1/2", "0.3"),
        "bevel": ("1/2", "1", "1 3/8", "1.395"), "step": ("1/32", "1/16", "1/8", "3/16"),
        "bar": ("3/4", "1", "1 1/2"), "wide": ("9", "14", "20"), "high": ("16", "24", "36"),
    },
    "mm": {
        "thickness": ("16", "19", "22", "25"), "stile": ("38", "45", "50", "57.5"),
        "slot": ("5", "6.5", "8", "9.3"), "offset": ("3", "5", "6", "5.5"),
        "depth": ("3", "5", "6", "10", "12"), "panel": ("6", "8", "12", "7.7"),
        "bevel": ("12", "25", "35", "35.4"), "step": ("1", "1.5", "3", "4.5"),
        "bar": ("20", "25", "38"), "wide": ("230", "360", "510"), "high": ("400", "600", "900"),
    },
}  # fmt: skip


def refusable(chance: Random) -> str:
    """A job's text, with comments."""
    unit: Unit = chance.choice(("in", "mm"))
    sizes = _SIZES[unit]

    def some(key: str, kind: str, share: float = 0.4) -> list[str]:
        return [f'{key} = "{chance.choice(sizes[kind])}"'] if chance.random() < share else []

    fill = chance.choice(_FILLS)
    lines = ["# a door", f'unit = "{unit}"', "[stock]", *some("thickness", "thickness", 1)]
    lines += ["[joint]   # the corners", f'kind = "{chance.choice(_CORNERS)}"']
    lines += [f'bars = "{chance.choice(("stub tenon", "T-bridle"))}"', *some("slot", "slot")]
    lines += some("offset", "offset", 0.2)
    lines += ["[stiles]", *some("hinge", "stile"), "[rails]", *some("top", "stile")]
    lines += ["[groove]", *some("depth", "depth"), *some("offset", "offset", 0.15)]
    if fill != "glass":
        lines += ["[panel]", *some("thickness", "panel")]
    if fill:
        lines += [f"[{fill}]"]
        if fill == "raised":
            lines += [*some("bevel", "bevel", 0.7), *some("step", "step", 0.7)]
    lines += ["[[door]]"]
    for kind in ("mid rail", "muntin"):
        if chance.random() < 0.25:
            lines += ["[[door.bar]]", f'kind = "{kind}"', *some("width", "bar")]
    lines += ["[door.opening]", *(f'{key} = "{chance.choice(sizes[kind])}"' for key, kind in
              (("width", "wide"), ("height", "high")))]  # fmt: skip
    return "\n".join(lines) + "\n"
