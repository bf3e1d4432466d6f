"""What one picture shows, in the room: the wood as it lies, what carries it, the blade, chalk."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from math import cos, sin

from sequencer.plan import Plan
from sequencer.proof.carriers import CARRIERS
from sequencer.proof.cells import Brick, Length, Plane
from sequencer.proof.hands import Axes, X, Y, Z
from sequencer.proof.solid import bounds
from sequencer.sheets.rounds.bodies import blade, box, half_chord, outline, prism
from sequencer.sheets.rounds.breaks import uncrossed
from sequencer.sheets.rounds.camera import Camera
from sequencer.sheets.rounds.lying import Shortened, placing, shortened, turned
from sequencer.sheets.rounds.pose import Extent, Posed, corners_of, extent_of, named
from sequencer.sheets.rounds.surfaces import Spot, Surface, surfaces
from sequencer.sheets.rounds.walk import Moment

_BEFORE = 8.0
"""Between the wood and the blade, in mm."""

_CUT_AWAY = "0.9 0.6"
"""The dashes of a sled's fence that is not drawn: it would hide the wood."""

_OPEN = 34.0  # room beside the wood on the sled, where the arrow is
_SKIRT = 26.0  # table before the wood
_EIGHTH = 0.7853981633974483  # of a turn, in radians


@dataclass(slots=True, kw_only=True)
class Scene(Posed):
    """`around` is what stands round the wood, `focus` places that must be in the picture.
    `guide_side` is 1 where the guide stands right of the blade, -1 left of it; `floor` is what the
    wood lies on, table or deck, above the table. `guide_at` is where the name of the guide points
    to, `arrow` where the arrow of the feed begins."""

    moment: Moment
    guide_side: int
    floor: float
    around: list[Surface] = field(default_factory=list)
    guide_at: Spot = (0.0, 0.0, 0.0)
    arrow: tuple[float, float] = (0.0, 0.0)
    focus: list[Spot] = field(default_factory=list)
    slots: list[tuple[list[Spot], str]] = field(default_factory=list)
    """Flat things on table and deck: their corners and their grey."""

    dashes: list[tuple[Spot, Spot, str]] = field(default_factory=list)
    """Lines on table and deck, with their dashes."""


def scene_of(plan: Plan, moment: Moment, longest: float | None = None) -> Scene:
    """The scene of one setup. Wood is drawn no longer than `longest`, in mm, where that can be."""
    made, mm = moment.made, moment.mm
    side = plan.shop.guide_side(moment.setup.carrier, moment.setup.tilt)
    axes = turned(made, side)
    slanted = CARRIERS[made.carrier].slanted
    out = 1 if side == "right" else -1
    if slanted:
        out = 1 if _end_is_left(moment, axes) else -1
    labelled = moment.bits
    whole = bounds(moment.before)
    thin = min(whole[2 * a + 1] - whole[2 * a] for a in (X, Y, Z)) * mm
    most = (longest or min(130.0, max(90.0, 6.5 * thin))) / mm
    also = [(axis, bit[2 * axis + n]) for bit in moment.later for axis in range(3) for n in (0, 1)]
    short = shortened([bit for _, bit in labelled], also, int(most), int(15 / mm))
    drawn = short.bits(labelled)
    box_drawn = bounds(tuple(bit for _, bit in drawn))
    camera = Camera(-out)
    into = _laid(moment, axes, whole, short, box_drawn, out if slanted else 0)
    breaks = [(each.axis, float(each.at) * mm) for each in short.breaks]
    wood = surfaces(
        drawn, into, camera.toward, _sides(moment, box_drawn), moment.marked,
        lambda line: uncrossed(line, breaks, mm),
    )  # fmt: skip
    scene = Scene(
        camera=camera, wood=wood, extent=extent_of(box_drawn, into), box=box_drawn, short=short,
        into=into, mm=mm, marks=moment.marks, marked=moment.marked,
        ends=_ends(moment, whole, short, box_drawn),
        moment=moment, guide_side=out, floor=moment.deck,
    )  # fmt: skip
    _blade(scene)
    kind = CARRIERS[made.carrier].kind
    if kind == "fence":
        _fence(scene)
    elif kind == "jig":
        rides = plan.shop.jig_rides == "fence"
        _jig(scene, float(plan.shop.jig_thickness) * _unit(moment) if rides else 0.0)
    elif slanted:
        _slanted(scene)
    else:
        _sled(scene)
    return scene


def _end_is_left(moment: Moment, axes: Axes) -> bool:
    axis, way = axes[X]
    return axis == X and way * moment.made.bears[1] < 0


def _laid(
    moment: Moment, axes: Axes, whole: Brick, short: Shortened, drawn: Brick, slant: int
) -> Callable[[Spot], Spot]:
    """From the wood as it is drawn into the room. `slant` turns it by an eighth, left where 1."""
    made, mm = moment.made, moment.mm
    angle = _EIGHTH * slant
    c, s = (cos(angle), sin(angle)) if slant else (1.0, 0.0)

    place = placing(axes, mm)

    def turned_only(spot: Spot) -> Spot:
        x, y, z = place(spot)
        return c * x - s * y, s * x + c * y, z

    axis = made.bears[0]
    anchor = [float(drawn[2 * a]) for a in range(3)]
    anchor[axis] = float(short.at(axis, _line(moment, whole)))
    if slant:
        anchor[Y] = float(drawn[3])
    line = turned_only((anchor[0], anchor[1], anchor[2]))[0]
    corners = [turned_only(corner) for corner in corners_of(drawn)]
    reach = half_chord(float(moment.setup.height) * _unit(moment), moment.deck)
    back = -reach - _BEFORE - max(corner[1] for corner in corners)
    up = moment.deck - min(corner[2] for corner in corners)

    def into(spot: Spot) -> Spot:
        x, y, z = turned_only(spot)
        return x - line, y + back, z + up

    return into


def _unit(moment: Moment) -> float:
    return 25.4 if moment.inches else 1.0


def _line(moment: Moment, whole: Brick) -> Length:
    """Where on the axis toward the guide the blade's side that looks at it is, at what is down."""
    made = moment.made
    axis, way = made.bears
    if made.guide is None:
        return (made.by_eye or 0) - made.kerf
    return whole[2 * axis + 1] - made.guide if way > 0 else whole[2 * axis] + made.guide


def _ends(moment: Moment, whole: Brick, short: Shortened, drawn: Brick) -> dict[str, float]:
    """A strip that is ripped or grooved has no ends yet; what comes off it ends at the blade."""
    fence = CARRIERS[moment.made.carrier].kind == "fence"
    if fence and moment.name == moment.mark and moment.mark.startswith("#"):
        return {}
    low, high = float(drawn[0]), float(drawn[1])
    if moment.comes_off:
        high = float(short.at(X, _line(moment, whole)))
    elif moment.made.guide is None:
        low = float(short.at(X, (moment.made.by_eye or 0)))
    return {"A": low, "B": high} if moment.marks.end_a < 0 else {"A": high, "B": low}


def _sides(moment: Moment, brick: Brick) -> dict[Plane, str]:
    """The sides by name; where a strip goes on is none."""
    return {
        plane: name
        for plane, name in named(moment.marks, brick).items()
        if not (moment.comes_off and plane[0] > 0)
    }


def _blade(scene: Scene) -> None:
    moment = scene.moment
    mm = _unit(moment)
    kerf, height = float(moment.setup.kerf) * mm, float(moment.setup.height) * mm
    out = scene.guide_side
    lean = out * float(moment.setup.tilt)
    side = 0.0 - lean * scene.floor
    across = (side - kerf, side) if out > 0 else (side, side + kerf)
    scene.around += blade(across, height, lean, scene.camera.toward, scene.floor)
    half = half_chord(height, scene.floor)
    at = lean * scene.floor
    near, far = min(across) + at, max(across) + at
    (left, right), (front, _), _ = scene.extent
    if scene.floor:
        y0, y1 = front - 24, half + 60
    else:
        y0, y1 = -half - 14, half + 14
        insert = [
            (near - 42, y0 - 14),
            (far + 42, y0 - 14),
            (far + 42, y1 + 14),
            (near - 42, y1 + 14),
        ]
        spots = [(x, y, 0.0) for x, y in insert]
        scene.dashes += [(a, b, "") for a, b in outline(spots)]
    slot = [(near - 2, y0), (far + 2, y0), (far + 2, y1), (near - 2, y1)]
    scene.slots.append(([(x, y, scene.floor) for x, y in slot], "#555"))
    scene.focus += [(near, -half, scene.floor), (near, -0.35 * half, height)]
    edge = left if out > 0 else right
    scene.arrow = (edge - out * 17, front + 4)
    scene.focus.append((edge - out * 22, front + 2, scene.floor))


def _table(scene: Scene) -> None:
    """Its front edge is nearer than it is, so that it is in the picture."""
    front = scene.extent[1][0] - (_SKIRT + 24 if scene.floor else _SKIRT)
    _bodies(scene, (-900, 900), (front, 900), (-34.0, 0.0), "table")


def _bodies(scene: Scene, x: Extent, y: Extent, z: Extent, label: str = "guide") -> None:
    if z[0] == z[1]:  # a sled may have no deck: then wood lies on the table
        return
    scene.around += box(x, y, z, label, scene.camera.toward)


def _guide_face(scene: Scene) -> float:
    return scene.extent[0][1] if scene.guide_side > 0 else scene.extent[0][0]


def _fence(scene: Scene) -> None:
    _table(scene)
    (near, _), top = scene.extent[1], scene.extent[2][1]
    out, at = scene.guide_side, _guide_face(scene)
    tall = 38.0 if top < 30 else max(45.0, 0.62 * top)
    _bodies(scene, (at, at + out * 30), (near - 70, 160.0), (0.0, tall))
    scene.guide_at = (at + out * 15, near + 20, tall)
    _show(scene, (at + out * 22, near, tall))


def _jig(scene: Scene, behind: float) -> None:
    _table(scene)
    (_, _), (near, far), (_, top) = scene.extent
    out, at = scene.guide_side, _guide_face(scene)
    tall = max(40.0, top - 22)
    y = (near - 16, far + 14)
    block = out * float(scene.moment.setup.spacer) * _unit(scene.moment)
    if block:
        _bodies(scene, (at, at + block), (near - 6, far + 6), (0.0, tall - 8))
        at += block
    _bodies(scene, (at, at + out * 16), y, (0.0, tall))
    _bodies(scene, (at + out * 16, at + out * 40), y, (0.0, 16.0))
    if behind:
        beyond = at + out * max(behind, 40.0)
        _bodies(scene, (beyond, beyond + out * 26), (near - 70, 160.0), (0.0, 34.0))
    scene.guide_at = (at + out * 8, near + 4, tall)
    _show(scene, (at + out * 42, near, 16.0))


def _sled(scene: Scene) -> None:
    _table(scene)
    (left, right), (near, far), (_, _) = scene.extent
    out, deck = scene.guide_side, scene.floor
    at = _guide_face(scene)
    by_eye = scene.moment.made.guide is None
    free = at + out * (16.0 if by_eye else 0.0)
    edge = free + out * 40
    other = left - _OPEN if out > 0 else right + _OPEN
    _bodies(scene, (edge, other), (near - 24, 240.0), (0.0, deck), "sled")
    stop = (free, free + out * 18)
    if not by_eye:
        _bodies(scene, stop, (near, near + min(30.0, far - near)), (deck, deck + 24))
    _bodies(scene, (stop[0] + out * 6, edge), (near - 19, near), (deck, deck + 30))
    scene.guide_at = (stop[0] + out * 9, near + 10, deck + 24)
    for y in (near - 19, near):
        scene.dashes.append(((other, y, deck), (stop[0] + out * 6, y, deck), _CUT_AWAY))
    _show(scene, (edge, near - 19, deck))


def _slanted(scene: Scene) -> None:
    """The deck, and the fence along the piece's outside edge, cut away but for its stop."""
    _table(scene)
    (left, right), (near, _) = scene.extent[:2]
    deck = scene.floor
    _bodies(scene, (left - 30, right + 30), (near - 40, 240.0), (0.0, deck), "sled")
    brick, into = scene.box, scene.into
    mm = scene.mm
    way = scene.moment.made.bears[1]
    end = float(brick[1] if way > 0 else brick[0])
    edge, low = float(brick[3]), float(brick[4] if scene.moment.made.lies[1] < 0 else brick[5])
    thick, deep = 18 / mm, 26 / mm

    def around(x: Extent, y: Extent, tall: float) -> None:
        corners = [
            into((a, b, low)) for a, b in ((x[0], y[0]), (x[1], y[0]), (x[1], y[1]), (x[0], y[1]))
        ]
        scene.around.extend(
            prism(
                [(c[0], c[1]) for c in corners],
                (0, 1),
                (deck, deck + tall),
                "guide",
                scene.camera.toward,
            )
        )

    around((end, end + way * thick), (edge - deep, edge), 24.0)
    far_end = float(brick[0] if way > 0 else brick[1])
    around((end - way * 4 / mm, end + way * (thick + 4 / mm)), (edge, edge + thick), 28.0)
    for y in (edge, edge + thick):
        scene.dashes.append(
            (into((end - way * 4 / mm, y, low)), into((far_end, y, low)), _CUT_AWAY)
        )
    spot = into((end + way * thick / 2, edge - deep / 2, low))
    scene.guide_at = (spot[0], spot[1], deck + 24)
    _show(scene, into((end + way * thick, edge + thick, low)))


def _show(scene: Scene, *spots: Spot) -> None:
    (left, right), (near, far), (low, top) = scene.extent
    scene.focus += [(x, y, z) for x in (left, right) for y in (near, far) for z in (low, top)]
    scene.focus += spots
