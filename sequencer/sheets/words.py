"""Sentences of the sheets: verb first, one action each, the value part of it."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from sequencer.plan import Cut, Setup, ShopFacts

CARRIERS = {
    "rip-fence": "rip fence",
    "crosscut-sled": "crosscut sled",
    "tenoning-jig": "tenoning jig",
}
SHORT = {"rip-fence": "fence", "crosscut-sled": "sled", "tenoning-jig": "jig"}
SURFACES = {
    "face": "marked face",
    "back": "back",
    "inside-edge": "inside edge",
    "outside-edge": "outside edge",
    "end-A": "end A",
    "end-B": "end B",
}
KNOBS = {
    "cutter": "blade",
    "tilt": "tilt",
    "height": "blade height",
    "carrier": "carrier",
    "guard": "guard",
    "fence": "fence",
    "stop": "stop",
    "jig": "jig",
}
SURFACE_OF = {"rip-fence": "fence", "crosscut-sled": "stop", "tenoning-jig": "jig"}
"""What the piece bears on, by carrier."""

GUARDS = {
    "fitted": "guard and riving knife on",
    "knife": "guard off, riving knife low",
    "cover": "guard and riving knife off",
}
GUARD_STEPS = frozenset({"refit guard", "remove guard"})
TITLES = {
    "rip": "rip to width",
    "groove": "groove",
    "square": "square ends",
    "crosscut": "crosscut",
    "slot": "slots",
    "shoulder": "shoulders",
    "cheek": "tenon cheeks",
    "edge shoulder": "edge shoulders",
    "edge cheek": "edge cheeks",
    "sweep": "tenons to width",
}
PASSES = {"first": "first pass", "middle": "middle pass", "widen": "widened"}
VERBS = {
    "rip": "Rip",
    "groove": "Groove",
    "square": "Square end A",
    "crosscut": "Crosscut",
    "slot": "Slot",
    "shoulder": "Cut the shoulders",
    "cheek": "Cut the cheeks",
    "edge shoulder": "Cut the edge shoulders",
    "edge cheek": "Cut the edge cheeks",
    "sweep": "Nibble the waste away",
}
BENCH: dict[str, tuple[str, str]] = {
    "mill": (
        "Mill all stock of a thickness together",
        "Joint a face and an edge, plane to thickness, test stick included; mark both now.",
    ),
    "plane": ("Plane to thickness", "Take equal shavings from both faces."),
    "dry fit": (
        "Fit the frame together dry",
        "Hand pressure closes every shoulder; nothing is driven. Measure before the panel is cut.",
    ),
    "trim": (
        "Saw off what stands past the joints",
        "After the dry fit, before glue: clamps bear on flat ends.",
    ),
    "finish": (
        "Finish the panel and the inside edges",
        "Before glue, so that no bare wood shows when the panel shrinks.",
    ),
    "glue-up": (
        "Glue the corners only",
        "The panel floats: no glue in the groove. Clamp across each corner's faces.",
    ),
    "diagonals": ("Compare the diagonals", "Unequal: shift the clamps toward the longer one."),
    "flush": (
        "Plane the ends and faces flush",
        "Work from the outside in, so that no edge breaks.",
    ),
    "hang": ("Hang the door", "Check the gaps all round."),
}


OTHER_END = "then the other end the same way"


def carrier(name: str) -> str:
    return CARRIERS.get(name, name)


def guide_knob(setup: Setup, shop: ShopFacts) -> str:
    """The knob that sets the guide: a jig that rides the fence has none of its own."""
    if setup.carrier == "crosscut-sled":
        return "stop"
    rides_fence = setup.carrier == "tenoning-jig" and shop.jig_rides == "fence"
    return "fence" if setup.carrier == "rip-fence" or rides_fence else "jig"


def blade(cutter: str) -> str:
    """A cutter's name, called a blade where it does not say so itself."""
    return cutter if cutter.endswith(("blade", "set")) else f"{cutter} blade"


def orientation(cut: Cut, surface: str) -> str:
    """How the piece lies: `end A down, marked face against the jig`."""
    down = f"{SURFACES[cut.down]} down"
    if cut.against is None:
        return f"by eye, {down}"
    bears = "at" if surface == "stop" else "against"
    words = f"{down}, {SURFACES[cut.against]} {bears} the {surface}"
    if cut.sweep:
        words += "; then slide away from it pass by pass until all the waste is gone"
    if cut.keeps == "far":
        words += "; the part is the strip on the open side"
    return words


def passes(cuts: Sequence[Cut], surface: str) -> str:
    """All passes of one operation, the second told by what changes."""
    half = len(cuts) // 2
    first, second = (_told(part, surface) for part in (cuts[:half], cuts[half:]))
    if first != second and without_ends(first) == without_ends(second):
        return f"{first}; {OTHER_END}"
    return _told(cuts, surface)


def _told(cuts: Sequence[Cut], surface: str) -> str:
    parts = [orientation(cuts[0], surface)] if cuts else []
    for last, cut in pairwise(cuts):
        if cut.down == last.down and cut.against is not None:
            parts.append(f"turn round, {SURFACES[cut.against]} against the {surface}")
        elif cut.against == last.against:
            parts.append(f"turn over, {SURFACES[cut.down]} down")
        else:
            parts.append(orientation(cut, surface))
    return "; ".join(parts)


def without_ends(text: str) -> str:
    """The text with every end made the same."""
    return text.replace("end B", "end A")


def steps(first: int | None, last: int | None) -> str:
    """`step 3`, `steps 3–7`."""
    return f"step {first}" if first == last else f"steps {first}–{last}"


def runs(numbers: Sequence[int]) -> str:
    """Ascending numbers, neighbours drawn together.

    >>> runs((1, 2, 3, 5, 7, 8))
    '1–3, 5, 7, 8'
    """
    found: list[list[int]] = []
    for number in numbers:
        if found and number == found[-1][-1] + 1:
            found[-1].append(number)
        else:
            found.append([number])
    said = [f"{run[0]}–{run[-1]}" if len(run) > 2 else ", ".join(map(str, run)) for run in found]
    return ", ".join(said)


def setups(numbers: Sequence[int]) -> str:
    """`setup 3`, `setups 1–3, 12`."""
    return f"{'setup' if len(numbers) == 1 else 'setups'} {runs(numbers)}"


def spoken(items: Sequence[str]) -> str:
    """`a`, `a and b`, `a, b and c`."""
    if len(items) < 2:
        return "".join(items)
    return f"{', '.join(items[:-1])} and {items[-1]}"
