"""Small leaves of every kind, worked out by hand in millimetres: what the assembly is tried on.

300 wide, 400 high, 18 thick; stiles and rails 50 wide, nothing proud. Groove, slot and stub lie
from 6 to 12 through the thickness, the groove 10 deep; tenons are a quarter thinner, 6 to 47/4.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction as F  # noqa: N817

from sequencer.plan import Box, Door, Feature, Pane, Part, Place, Plan, Prism, Size
from sequencer.proof.assembly import assemble
from sequencer.proof.compare import Pieces, designs_of
from sequencer.proof.grain import grain_of
from sequencer.proof.hands import in_hand
from sequencer.proof.solid import Solid
from sequencer.records import replace
from tests.proof import hand
from tests.told import by_name

W, H, T, MEMBER = 300, 400, 18, 50
DEEP = 10
FRONT, SLOT, TENON = 6, 12, F(47, 4)
Number = int | F


def box(x: Sequence[Number], y: Sequence[Number], z: Sequence[Number]) -> Box:
    (x0, x1), (y0, y1), (z0, z1) = x, y, z
    return ((F(x0), F(x1)), (F(y0), F(y1)), (F(z0), F(z1)))


def prism(axes: str, corners: Sequence[tuple[Number, Number]], along: Sequence[Number]) -> Prism:
    return Prism(axes, tuple((F(u), F(v)) for u, v in corners), (F(along[0]), F(along[1])))


def cut(
    kind: str, at: str, x: Sequence[Number], y: Sequence[Number], z: Sequence[Number],
    mate: str | None = None,
) -> Feature:  # fmt: skip
    return Feature(kind, at, box(x, y, z), mate)


def drawn(kind: str, at: str, shape: Prism, mate: str | None = None, *, bench: bool = False
          ) -> Feature:  # fmt: skip
    return Feature(kind, at, shape.box, mate, shape, unproven_by_saw=bench)


def piece(
    mark: str, role: str, size: Sequence[Number], features: Sequence[Feature] = (),
    name: str | None = None,
) -> Part:  # fmt: skip
    long, wide, thick = (F(value) for value in size)
    return Part(
        mark, "A", role, by_name(name or role), "oak", Size(long, wide, thick), tuple(features)
    )


def at(mark: str, x: Number, y: Number, z: Number, axes: str) -> Place:
    a, b, c = axes.split()
    return Place(mark, (F(x), F(y), F(z)), (a, b, c))


def span(end: str, long: Number, to: Number, start: Number = 0) -> tuple[Number, Number]:
    """From an end of a piece."""
    return (start, to) if end == "A" else (long - to, long - start)


ALL = (0, MEMBER)
"""The whole width of a member."""

# Which rail and end each stile's end meets, and which stile each rail's end.
CORNERS = [("A1", "A", "A3", "A"), ("A1", "B", "A4", "A"),
           ("A2", "A", "A3", "B"), ("A2", "B", "A4", "B")]  # fmt: skip


def corner(
    joint: str, stile_end: str, rail: str, rail_end: str, stile: str
) -> tuple[list[Feature], list[Feature]]:
    """What one corner takes off its stile and off its rail."""
    to_rail, to_stile = f"{rail}/{rail_end}", f"{stile}/{stile_end}"
    deep = span(stile_end, H, MEMBER - DEEP)
    long = span(rail_end, W, MEMBER)
    if joint == "stub tenon":
        stub = span(rail_end, W - 2 * (MEMBER - DEEP), DEEP)
        return [], [cut("cheek", rail_end, stub, ALL, z, to_stile)
                    for z in ((0, FRONT), (TENON, T))]  # fmt: skip
    if joint == "half-lap":
        return (
            [cut("slot", stile_end, deep, ALL, (FRONT, T), to_rail)],
            [cut("cheek", rail_end, long, ALL, (0, FRONT), to_stile),
             cut("edge-cheek", rail_end, long, (0, DEEP), (0, T), to_stile)],
        )  # fmt: skip
    slot = cut("slot", stile_end, deep, ALL, (FRONT, SLOT), to_rail)
    if joint == "mitred bridle":
        ends = [(0, 0), (MEMBER, 0), (0, MEMBER)]
        beyond = {
            (end, size): [(u if end == "A" else size - u, v) for u, v in ends]
            for end in "AB" for size in (W, H)
        }  # fmt: skip
        front = (0, FRONT)
        return (
            [slot, drawn("mitre", stile_end, prism("xy", beyond[stile_end, H], front), to_rail)],
            [drawn("mitre", rail_end, prism("xy", beyond[rail_end, W], front), to_stile),
             cut("cheek", rail_end, long, ALL, (TENON, T), to_stile)],
        )  # fmt: skip
    behind = span(rail_end, W, MEMBER - DEEP) if joint == "glass" else long
    return [slot], [cut("cheek", rail_end, long, ALL, (0, FRONT), to_stile),
                    cut("cheek", rail_end, behind, ALL, (TENON, T), to_stile)]  # fmt: skip


def channel(joint: str, long: Number, edge: str = "inside-edge") -> Feature:
    across = (0, DEEP) if edge == "inside-edge" else (MEMBER - DEEP, MEMBER)
    if joint == "glass":
        return cut("rebate", edge, (0, long), across, (FRONT, T))
    z = (8, 14) if joint == "half-lap" else (FRONT, SLOT)
    return cut("groove", edge, (0, long), across, z)


def frame(joint: str = "bridle") -> tuple[list[Part], list[Place]]:
    """Stiles and rails, left, right, top, bottom."""
    rail = W - 2 * (MEMBER - DEEP) if joint == "stub tenon" else W
    taken: dict[str, list[Feature]] = {f"A{n}": [] for n in range(1, 5)}
    for stile, stile_end, of_rail, rail_end in CORNERS:
        in_stile, in_rail = corner(joint, stile_end, of_rail, rail_end, stile)
        taken[stile] += in_stile
        taken[of_rail] += in_rail
    sizes = {"A1": H, "A2": H, "A3": rail, "A4": rail}
    parts = [
        piece(mark, "stile" if mark in ("A1", "A2") else "rail", (long, MEMBER, T),
              [*taken[mark], channel(joint, long)])
        for mark, long in sizes.items()
    ]  # fmt: skip
    left = (W - rail) // 2
    places = [
        at("A1", MEMBER, H, 0, "-y -x +z"),
        at("A2", W - MEMBER, H, 0, "-y +x +z"),
        at("A3", left, H - MEMBER, 0, "+x +y +z"),
        at("A4", left, MEMBER, 0, "+x -y +z"),
    ]
    return parts, places


PANEL = (F(25, 4), F(47, 4))
"""Through the thickness, a panel in the middle of its groove."""


def panel(
    mark: str, x: Sequence[Number], y: Sequence[Number], z: Sequence[Number] = PANEL,
    features: Sequence[Feature] = (),
) -> tuple[Part, Place]:  # fmt: skip
    """A panel over a range of the door, its end A up."""
    size = (y[1] - y[0], x[1] - x[0], z[1] - z[0])
    return piece(mark, "panel", size, features), at(mark, x[0], y[1], z[0], "-y +x +z")


INNER = (MEMBER - 8, W - MEMBER + 8), (MEMBER - 8, H - MEMBER + 8)
"""What a panel takes up that is 8 in its grooves all round."""

ZERO = F(0)


def leaf(
    parts: Sequence[Part], places: Sequence[Place], panes: Sequence[Pane] = (), **other: object
) -> Plan:
    gaps = {"top": F(2), "bottom": F(2), "hinge": F(2), "lock": F(2)}
    made = Door(
        "A", "hand", by_name("leaf"), (F(W + 4), F(H + 4)), (F(W), F(H)), (F(2), F(2)), "left",
        gaps, "out", ("A",), tuple(places), tuple(panes),
    )  # fmt: skip
    made = replace(made, **other)  # type: ignore[arg-type]
    return replace(hand.make(), unit="mm", doors=(made,), parts=tuple(parts), scrap=())


def flat(joint: str = "bridle") -> Plan:
    parts, places = frame(joint)
    z = (F(33, 4), F(55, 4)) if joint == "half-lap" else PANEL
    fill, place = panel("A5", *INNER, z)
    return leaf([*parts, fill], [*places, place])


def raised() -> Plan:
    """A panel 10 thick, bevelled 30 wide: 19/4 thick at its edge, 61/12 where it enters the
    groove, 8 at the bevel's inner end, where a step of 2 is left."""
    parts, places = frame()
    (x0, x1), (y0, y1) = INNER
    wide, long = x1 - x0, y1 - y0

    def slope(size: Number, *, far: bool) -> list[tuple[Number, Number]]:
        return [(size - u if far else u, v) for u, v in ((0, 0), (30, 0), (30, 2), (0, F(21, 4)))]

    bevels = [
        drawn("bevel", end, prism(axes, slope(size, far=far), (0, along)))
        for axes, size, along, ends in (("yz", wide, long, ("inside-edge", "outside-edge")),
                                        ("xz", long, wide, ("A", "B")))
        for end, far in zip(ends, (False, True), strict=True)
    ]  # fmt: skip
    fill, place = panel("A5", *INNER, (F(7, 4), F(47, 4)), bevels)
    return leaf([*parts, fill], [*places, place])


def boarded() -> Plan:
    """Three boards: 42 to 120, 114 to 192, 186 to 258, their tongues 6 into grooves 8 deep that
    begin 2 beside the shoulder before them."""
    parts, places = frame()
    long = H - 2 * MEMBER + 16
    thick = F(11, 2)
    for n, (x0, x1) in enumerate(((42, 120), (116, 194), (190, 258))):
        wide = x1 - x0
        features = []
        if n < 2:
            features += [
                cut("rebate", "outside-edge", (0, long), (wide - 6, wide), z)
                for z in ((0, 2), (F(7, 2), thick))
            ]
        if n:
            features.append(cut("groove", "inside-edge", (0, long), (0, 8), (F(7, 4), F(15, 4))))
        mark = f"A{5 + n}"
        parts.append(piece(mark, "board", (long, wide, thick), features))
        places.append(at(mark, x0, H - MEMBER + 8, F(25, 4), "-y +x +z"))
    return leaf(parts, places)


PANE = box((42, W - 42), (42, H - 42), (FRONT, 9))


def glazed() -> Plan:
    parts, places = frame("glass")
    return leaf(parts, places, [Pane("A5", PANE)])


def barred() -> Plan:
    """A pane over and under a T-bridled mid rail only 24 wide: between its rebates, 4 of its back
    are left, and of what lies in the joint the most has only half of the clearance."""
    parts, places = frame("glass")
    low, high = 188, 212
    edges = (("inside-edge", (0, DEEP)), ("outside-edge", (14, 24)))
    features = [cut("rebate", edge, (0, W), y, (FRONT, T)) for edge, y in edges]
    tongue = (F(49, 8), F(95, 8))
    for n, end in enumerate("AB"):
        along = span(end, W, MEMBER - DEEP)
        mate = f"A{n + 1}/inside-edge"
        features.append(cut("slot", end, along, (0, 24), (FRONT, SLOT), mate))
        housings = (
            cut("housing", "face", (H - high, H - low), ALL, (0, tongue[0]), f"A5/{end}"),
            cut("housing", "back", (H - 202, H - 198), ALL, (tongue[1], T), f"A5/{end}"),
        )
        parts[n] = replace(parts[n], features=(*parts[n].features, *housings))
    bar = piece("A5", "mid rail", (W, 24, T), features)
    panes = [
        Pane("A6", box((42, W - 42), (204, H - 42), (FRONT, 9))),
        Pane("A7", box((42, W - 42), (42, 196), (FRONT, 9))),
    ]
    return leaf([*parts, bar], [*places, at("A5", 0, high, 0, "+x -y +z")], panes)


MIDDLE = (175, 225)
"""Where a mid rail stands, up the door."""


def divided(joint: str = "T-bridle", corners: str = "bridle") -> Plan:
    """A mid rail, and a panel over and under it."""
    parts, places = frame(corners)
    stiles = {part.mark: part for part in parts[:2]}
    long = W if joint == "T-bridle" else W - 2 * (MEMBER - DEEP)
    features = [channel("", long), channel("", long, "outside-edge")]
    for end, mate in (("A", "A1"), ("B", "A2")):
        if joint == "T-bridle":
            along = span(end, W, MEMBER - DEEP)
            features.append(cut("slot", end, along, ALL, (FRONT, SLOT), f"{mate}/inside-edge"))
            let = (H - MIDDLE[1], H - MIDDLE[0])
            housings = tuple(
                cut("housing", face, let, ALL, z, f"A5/{end}")
                for face, z in (("face", (0, FRONT)), ("back", (TENON, T)))
            )
            stile = stiles[mate]
            stiles[mate] = replace(stile, features=(*stile.features, *housings))
        else:
            along = span(end, long, DEEP)
            features += [cut("cheek", end, along, ALL, z, f"{mate}/inside-edge")
                         for z in ((0, FRONT), (TENON, T))]  # fmt: skip
    bar = piece("A5", "mid rail", (long, MEMBER, T), features)
    low = panel("A7", INNER[0], (MEMBER - 8, MIDDLE[0] + 8))
    high = panel("A6", INNER[0], (MIDDLE[1] - 8, H - MEMBER + 8))
    return leaf(
        [*stiles.values(), *parts[2:], bar, high[0], low[0]],
        [*places, at("A5", (W - long) // 2, MIDDLE[1], 0, "+x -y +z"), high[1], low[1]],
    )


def mullioned() -> Plan:
    """A mullion with stub tenons between the rails, a panel on each side."""
    parts, places = frame()
    long = H - 2 * (MEMBER - DEEP)
    features = [channel("", long), channel("", long, "outside-edge")]
    for end, mate in (("A", "A3"), ("B", "A4")):
        features += [cut("cheek", end, span(end, long, DEEP), ALL, z, f"{mate}/inside-edge")
                     for z in ((0, FRONT), (TENON, T))]  # fmt: skip
    bar = piece("A5", "mullion", (long, MEMBER, T), features)
    left = panel("A6", (MEMBER - 8, 133), INNER[1])
    right = panel("A7", (167, W - MEMBER + 8), INNER[1])
    return leaf(
        [*parts, bar, left[0], right[0]],
        [*places, at("A5", 125, H - (MEMBER - DEEP), 0, "-y +x +z"), left[1], right[1]],
    )


def arched() -> Plan:
    """A top rail 80 wide, its lower edge hollowed 30 between the stiles in twelve chords; groove
    and panel follow it."""
    parts, places = frame()
    top = parts[2]
    lows = [(MEMBER + F(n * 200, 12), 30 - F((n - 6) ** 2 * 30, 36)) for n in range(13)]
    arch = prism("xy", lows, (0, T))
    band = [*lows, *((x, y + DEEP) for x, y in reversed(lows))]
    groove = prism("xy", band, (FRONT, SLOT))
    wide = 80
    ends = [
        cut("cheek", end, span(end, W, MEMBER), (0, wide), z, mate)
        for end, mate in (("A", "A1/A"), ("B", "A2/A"))
        for z in ((0, FRONT), (TENON, T))
    ]
    inner = [cut("edge-cheek", end, span(end, W, MEMBER), (0, DEEP), (0, T)) for end in "AB"]
    shaped = [
        drawn("shape", "inside-edge", arch, bench=True),
        drawn("groove", "inside-edge", groove, bench=True),
    ]
    parts[2] = replace(top, size=Size(F(W), F(wide), F(T)), features=(*ends, *inner, *shaped))
    for n in (0, 1):
        slot, low, channel_ = parts[n].features
        deeper = cut("slot", "A", (0, wide - DEEP), ALL, (FRONT, SLOT), slot.mate)
        parts[n] = replace(parts[n], features=(deeper, low, channel_))
    places[2] = at("A3", 0, H - wide, 0, "+x +y +z")
    fill, place = _arched_panel(lows, wide)
    return leaf([*parts, fill], [*places, place])


def _arched_panel(lows: list[tuple[F, F]], wide: int) -> tuple[Part, Place]:
    """Its edge 8 over the arch's."""
    (x0, x1), (y0, _) = INNER
    top = H - wide + 30 + 8
    line = [(F(x0), lows[0][1]), *lows, (F(x1), lows[-1][1])]
    edge = [(30 - y, x - x0) for x, y in line]
    above = prism("xy", [*edge, (ZERO, edge[-1][1]), (ZERO, edge[0][1])], (0, F(11, 2)))
    features = (drawn("shape", "A", above, bench=True),)
    return panel("A5", (x0, x1), (y0, top), features=features)


def slab() -> Plan:
    part = piece("A1", "slab", (H, W, T))
    return leaf([part], [at("A1", 0, H, 0, "-y +x +z")])


def pieces_of(plan: Plan) -> Pieces:
    """The plan's parts as designed, at the saw and after the bench."""
    designs = designs_of(plan, grain_of(plan))
    return Pieces(designs, designs, in_hand(plan))


def wood(plan: Plan, mark: str, solid: Solid) -> Solid:
    """What is told of a piece in the frame of its marks, where it is in its wood."""
    (part,) = (part for part in plan.parts if part.mark == mark)
    return in_hand(plan)[mark].told(solid, grain_of(plan).block(part.size))


def together(plan: Plan, pieces: Pieces | None = None) -> F:
    return assemble(plan, pieces or pieces_of(plan), grain_of(plan))
