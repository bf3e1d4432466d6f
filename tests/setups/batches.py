"""Random jobs of 8 to 26 doors, as job files. All invented."""

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
        height, width = random.randrange(112, 288), random.randrange(88, 184)
        top, bottom = random.choices(rails, k=2)
        kinds.append((height, width, random.choice((14, 16, 18)), top, bottom))
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


def families(seed: int, least: int = 8, most: int = 26) -> str:
    """A job of doors of up to four families, each with a joint, a fill, slots and bars of its own;
    some doors of each are alike."""
    random = Random(seed)
    lines = ['unit = "in"', f'name = "families {seed}"', 'species = "cherry"']
    lines += [f'face_side = "{random.choice(("out", "in"))}"']
    lines += ["[stock]", f'thickness = "{random.choice(("3/4", "3/4", "7/8", "1"))}"']
    lines += [f'edge_allowance = "{random.choice(("0", "0", "1/32"))}"']
    count, kinds = random.randint(least, most), random.choice((1, 2, 2, 3, 4))
    for number in range(kinds):
        lines += _family(random, count // kinds + (number < count % kinds))
    return "\n".join(lines) + "\n"


def _family(random: Random, count: int) -> list[str]:
    """The doors of one family, door by door."""
    fill = random.choice(("flat", "flat", "raised", "boarded", "glass", "slab"))
    if fill == "slab":
        shared = ["[door.slab]", f"boards = {random.randint(2, 4)}"]
        stiles = rails = [16]
    else:
        shared, stiles, rails = _frame(random, fill)
    found: list[str] = []
    size: list[str] = []
    for number in range(count):
        if not number or random.random() < 0.6:
            height, width = random.randrange(128, 288), random.randrange(96, 184)
            stile = random.choice(stiles)
            top, bottom = random.choices(rails, k=2)
            if "mitred" in " ".join(shared):
                top = bottom = stile
            size = [
                "[door.opening]",
                f'width = "{_inches(width)}"',
                f'height = "{_inches(height)}"',
            ]
            if fill != "slab":
                size += ["[door.stiles]", f'hinge = "{_inches(stile)}"', "[door.rails]"]
                size += [f'top = "{_inches(top)}"', f'bottom = "{_inches(bottom)}"']
        found += ["[[door]]", f'fill = "{fill}"', *size, *shared]
    return found


def _frame(random: Random, fill: str) -> tuple[list[str], list[int], list[int]]:
    """What the frames of a family share, and the widths of stiles and rails, in eighths."""
    glass = fill == "glass"
    corner = random.choice(
        ("bridle", "bridle", "mitred bridle", "half-lap", "stub tenon")[: 5 - glass]
    )
    bars = random.choice(("T-bridle", "stub tenon")[: 2 - glass])
    lines = ["[door.joint]", f'kind = "{corner}"', f'bars = "{bars}"']
    lines += [f'tenons = "{random.choice(("one length", "each stile"))}"']
    if corner in ("bridle", "mitred bridle") and not glass and random.random() < 0.4:
        lines += ['slot = "1/4"', 'offset = "3/16"']
    lines += ["[door.groove]", f'depth = "{random.choice(("1/4", "1/4", "5/16"))}"']
    if fill == "raised":
        lines += ["[door.panel]", f'thickness = "{random.choice(("9/16", "5/8"))}"']
        lines += ["[door.raised]", 'bevel = "1 1/4"']
    elif fill == "boarded":
        lines += ["[door.boarded]", f'width = "{random.choice(("2 1/2", "3"))}"']
    elif glass:
        lines += ["[door.glass]", 'thickness = "1/8"']
    if corner == "bridle" and fill == "flat" and random.random() < 0.2:
        lines += ["[door.shape]", f'kind = "{random.choice(("arch", "peak", "valley"))}"']
        lines += ['rise = "1"']
    elif random.random() < 0.25:
        lines += ["[[door.bar]]", 'kind = "mid rail"', f'width = "{random.choice(("1 1/2", "2"))}"']
    narrow = random.randrange(10, 18)
    rails = random.sample(range(narrow, narrow + 6), random.randint(1, 4))
    return lines, random.sample((12, 14, 16, 18, 20), random.randint(1, 2)), rails


def _inches(eighths: int) -> str:
    whole, rest = divmod(eighths, 8)
    return f"{whole} {Fraction(rest, 8)}" if rest else f"{whole}"


def twelve() -> str:
    """Twelve doors of one size with their slots off the centre and rails of four widths: by one
    depth for all slots there is a setting for each width less."""
    widths = ("2", "2 1/4", "2 1/2", "2 3/4")
    lines = ['unit = "in"', 'name = "twelve"', 'species = "cherry"', "[stock]", 'thickness = "3/4"']
    lines += ["[stiles]", 'hinge = "2"', "[joint]", 'slot = "1/4"', 'offset = "3/16"']
    for number in range(12):
        lines += ["[[door]]", "[door.opening]", 'width = "14"', 'height = "20"', "[door.rails]"]
        lines += [f'top = "{widths[2 * number % 4]}"', f'bottom = "{widths[(2 * number + 1) % 4]}"']
    return "\n".join(lines) + "\n"


def one_off_centre(count: int = 8, off_centre: int = 1) -> str:
    """Doors of two sizes; the slots of the first ones are off the centre."""
    lines = ['unit = "in"', 'name = "one"', 'species = "cherry"', "[stock]", 'thickness = "3/4"']
    lines += ["[stiles]", 'hinge = "2"', "[rails]", 'top = "2"']
    for number in range(count):
        width, height = (("14", "20"), ("16", "24"))[number % 2]
        lines += ["[[door]]", "[door.opening]", f'width = "{width}"', f'height = "{height}"']
        if number < off_centre:
            lines += ["[door.joint]", 'slot = "1/4"', 'offset = "3/16"']
    return "\n".join(lines) + "\n"
