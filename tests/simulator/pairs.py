"""Random pairs of job and shop, as files that a person could write, in either unit.

`ordinary` ones are what a small shop makes: doors 8 to 30 in wide, of usual stock and usual joints,
on a usual saw. `extreme` ones are very narrow, long, thin or wide, on saws without a clamp, with a
short sled or a low blade. Each pair is its seed's alone.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from random import Random
from typing import Literal

Profile = Literal["ordinary", "extreme"]
PROFILES: tuple[Profile, ...] = ("ordinary", "extreme")
FILLS = ("flat", "raised", "boarded", "glass", "slab")
CORNERS = ("bridle", "bridle", "stub tenon", "half-lap", "mitred bridle")
SPECIES = ("cherry", "oak, white", "maple, sugar", "walnut, black", "ash, white")


@dataclass(frozen=True, slots=True)
class Pair:
    """The texts of a job file and a shop file, and how they were drawn."""

    profile: Profile
    fill: str
    job: str
    shop: str


def pair(profile: Profile, seed: int, fill: str | None = None) -> Pair:
    """The pair of that seed, with this fill or any."""
    chance = Random(f"{profile} {seed}")
    wide = profile == "extreme"
    unit = chance.choice(("in", "mm"))
    fill = fill or chance.choice(FILLS)
    job, shop = _File(chance, unit, wide), _File(chance, unit, wide)
    _job(job, fill)
    _shop(shop)
    return Pair(profile, fill, job.text, shop.text)


class _File:
    """A file as it is written, key by key. `either` draws from what is usual, or between what is
    hardly to be had."""

    def __init__(self, chance: Random, unit: str, wide: bool) -> None:
        self.chance, self.unit, self.wide = chance, unit, wide
        self.lines = [f'unit = "{unit}"']

    @property
    def text(self) -> str:
        return "\n".join(self.lines) + "\n"

    def say(self, key: str, value: str) -> None:
        self.lines.append(f'{key} = "{value}"')

    def flag(self, key: str, value: bool) -> None:
        self.lines.append(f"{key} = {str(value).lower()}")

    def table(self, name: str) -> None:
        self.lines.append(f"[{name}]")

    def often(self, share: float) -> bool:
        return self.chance.random() < share

    def length(self, key: str, usual: tuple[float, float], wide: tuple[float, float]) -> Fraction:
        """A length between two in inches, on a 16th or a whole millimetre; the wide ends are taken
        half of the time where the profile is extreme."""
        low, high = usual
        if self.wide and self.often(0.35):
            low, high = (wide[0], usual[0]) if self.often(0.5) else (usual[1], wide[1])
        if self.unit == "in":
            value = Fraction(self.chance.randint(round(low * 16), round(high * 16)), 16)
        else:
            value = Fraction(self.chance.randint(round(low * 25.4), round(high * 25.4)))
        self.say(key, mixed(value))
        return value


def mixed(value: Fraction) -> str:
    """As it is written in a file: the whole before the part.

    >>> mixed(Fraction(29, 16)), mixed(Fraction(3, 4)), mixed(Fraction(50))
    ('1-13/16', '3/4', '50')
    """
    whole, part = divmod(value, 1)
    return "-".join(str(each) for each in (whole, part) if each) or "0"


def _job(file: _File, fill: str) -> None:
    chance, pair = file.chance, file.often(0.3)
    corner = chance.choice([each for each in CORNERS if fill != "glass" or each != "stub tenon"])
    file.say("species", chance.choice(SPECIES))
    file.say("fill", fill)
    file.table("stock")
    file.length("thickness", (0.75, 0.9), (0.5, 1.5))
    if fill != "slab":
        _frame(file, fill, corner)
    _FILLS[fill](file)
    if file.often(0.2):
        file.table("wood")
        file.say("sawn", chance.choice(("flat", "quarter")))
        file.say("moisture", str(chance.randint(7, 11)))
        file.table("room")
        file.say("region", chance.choice(("most of the US", "UK, heated throughout")))
    if file.often(0.25):
        file.table("sits")
        file.say("how", "overlay")
    if pair:
        file.table("gaps")
        file.say("meeting", "1/8" if file.unit == "in" else "3")
        if fill != "slab" and file.often(0.2):
            file.table("meeting")
            file.say("rebate", "3/8" if file.unit == "in" else "10")
    file.lines.append("[[door]]")
    file.lines.append(f"leaves = {2 if pair else 1}")
    file.table("door.opening")
    file.length("width", (16, 48) if pair else (8, 30), (12, 72) if pair else (5, 40))
    file.length("height", (12, 42), (6, 96))
    shaped = "[shape]" in file.lines
    lapped_glass = fill == "glass" and corner == "half-lap"  # no joint of bars does there
    if fill != "slab" and not shaped and not lapped_glass:
        _bars(file)


def _frame(file: _File, fill: str, corner: str) -> None:
    file.table("joint")
    file.say("kind", corner)
    lapped = corner in ("half-lap", "stub tenon")
    bars = "T-bridle" if fill == "glass" and not lapped else "stub tenon"
    file.say("bars", bars if lapped or file.often(0.5) or fill == "glass" else "T-bridle")
    file.table("stiles")
    stile = file.length("hinge", (1.75, 2.5), (1, 4))
    file.table("rails")
    if corner == "mitred bridle":
        file.say("top", mixed(stile))
    else:
        file.length("top", (1.75, 2.75), (1, 5))
        file.length("bottom", (2, 3.5), (1, 6))
    file.table("groove")
    file.length("depth", (0.25, 0.4), (0.2, 0.75))
    if corner == "bridle" and fill in ("flat", "glass") and file.often(0.2):
        file.table("shape")
        file.say("kind", file.chance.choice(("arch", "peak", "valley")))
        file.length("rise", (0.5, 1.25), (0.5, 3))


def _flat(file: _File) -> None:
    if file.often(0.3):
        file.table("panel")
        file.length("thickness", (0.25, 0.25), (0.15, 0.4))


def _raised(file: _File) -> None:
    file.table("panel")
    file.length("thickness", (0.5, 0.65), (0.4, 0.9))
    file.table("raised")
    file.length("bevel", (1.0, 1.5), (0.75, 2.25))


def _boarded(file: _File) -> None:
    file.table("boarded")
    file.length("width", (2.5, 4), (1.25, 6))


def _glass(file: _File) -> None:
    file.table("glass")
    file.say("thickness", "1/8" if file.unit == "in" else "3")


def _slab(file: _File) -> None:
    file.table("slab")
    file.lines.append(f"boards = {file.chance.randint(1, 5)}")


_FILLS: dict[str, Callable[[_File], None]] = {
    "flat": _flat,
    "raised": _raised,
    "boarded": _boarded,
    "glass": _glass,
    "slab": _slab,
}


def _bars(file: _File) -> None:
    if file.often(0.3):
        file.lines.append("[[door.bar]]")
        file.say("kind", "mid rail")
        file.length("width", (1.5, 2.5), (0.75, 4))
    if file.often(0.15):
        file.lines.append("[[door.bar]]")
        file.say("kind", "mullion")
        file.length("width", (1.25, 2), (0.75, 3))
        file.lines.append("row = 1")


def _shop(file: _File) -> None:
    chance = file.chance
    fence = chance.choice(("right", "right", "left"))
    dado = file.often(0.25)
    file.table("saw")
    file.length("max_height", (3, 3.25), (2, 4))
    if file.often(0.4):
        file.say("cover", "clear box on the sled")
    if file.wide and file.often(0.15):
        file.flag("knife", False)
        file.lines.append('cover = "tunnel guard"' if "cover =" not in file.text else "")
    if dado:
        file.flag("dado", file.often(0.8))
    if file.often(0.2):
        file.length("fence_height", (3, 6), (2, 10))
    file.say("fence", fence)
    file.say("tilts", chance.choice(("left", "left", "right")))
    _cutters(file, dado)
    file.table("sled")
    file.length("deck", (0.5, 0.75), (0.25, 1))
    file.length("longest", (48, 72), (20, 96))
    file.length("widest", (24, 30), (10, 40))
    file.flag("clamp", not file.often(0.5 if file.wide else 0.1))
    file.table("jig")
    rides = chance.choice(("slot", "slot", "fence"))
    file.say("rides", rides)
    if rides == "fence":
        file.length("thickness", (0.75, 2), (0.5, 4))
    file.say("side", fence if rides == "fence" else chance.choice(("right", "left")))
    file.length("opening", (3, 4), (1.5, 5))


def _cutters(file: _File, dado: bool) -> None:
    inch = file.unit == "in"
    file.lines.append("[[cutter]]")
    file.say("name", "blade")
    file.say("kerf", file.chance.choice(("1/8", "3/32", "7/64") if inch else ("3.2", "2.6", "3")))
    file.say("diameter", "10" if inch else "254")
    file.say("grind", file.chance.choice(("alternate", "flat-top")))
    if dado:
        file.lines.append("[[cutter]]")
        file.say("name", "dado set")
        file.say("kind", "dado")
        file.say("kerf", file.chance.choice(("1/4", "5/16") if inch else ("6.5", "8")))
        file.say("diameter", "8" if inch else "203")
        file.say("grind", "flat-top")
