"""Random jobs of 8 to 26 framed doors, as job files. All invented."""

from __future__ import annotations

from fractions import Fraction
from random import Random


def batch(seed: int, least: int = 8, most: int = 26) -> str:
    """A job of doors some of which are alike: sizes on 1/8 in, stiles and rails in a few widths;
    in two of five jobs every slot is off the centre, in one of five one door's is."""
    random = Random(seed)
    count = random.randint(least, most)
    where = random.choice(("all", "all", "none", "none", "one"))
    narrow = random.randrange(12, 20)
    rails = random.sample(range(narrow, narrow + 6), random.randint(1, 6))
    kinds: list[tuple[int, int, int, int, int]] = []
    while len(kinds) < count:
        if kinds and random.random() < 0.4:
            kinds.append(random.choice(kinds))
            continue
        size = random.randrange(112, 288), random.randrange(88, 184)
        kinds.append((*size, random.choice((14, 16, 18)), *random.choices(rails, k=2)))
    lines = ['unit = "in"', f'name = "batch {seed}"', 'species = "cherry"']
    lines += ["[stock]", 'thickness = "3/4"']
    off_centre = random.randrange(count)
    for number, (height, width, stile, top, bottom) in enumerate(kinds):
        lines += ["[[door]]", "[door.opening]"]
        lines += [f'width = "{_inches(width)}"', f'height = "{_inches(height)}"']
        lines += ["[door.stiles]", f'hinge = "{_inches(stile)}"']
        lines += ["[door.rails]", f'top = "{_inches(top)}"', f'bottom = "{_inches(bottom)}"']
        if where == "all" or (where == "one" and number == off_centre):
            lines += ["[door.joint]", 'slot = "1/4"', 'offset = "3/16"']
    return "\n".join(lines) + "\n"


def _inches(eighths: int) -> str:
    whole, rest = divmod(eighths, 8)
    return f"{whole} {Fraction(rest, 8)}" if rest else f"{whole}"
