"""What a door's numbers must fulfil among themselves.

Every rule says which value is wrong, by how much, and what would do. Limits stand in
`defaults.toml` with how well founded they are.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction

from sequencer.errors import Fault
from sequencer.facts import doors
from sequencer.job import bars, fill_rules, joints, season, shaped, sits
from sequencer.job.capacity import against_shop
from sequencer.job.checked import Checked
from sequencer.job.defaults import GROWTH
from sequencer.job.kinds import Boarded
from sequencer.job.play import fill_moves, frame_moves, moving_wood, stiles_across
from sequencer.job.schema import Door
from sequencer.lengths import Unit, round_up

__all__ = ["against_shop", "check"]


def check(door: Door, unit: Unit) -> list[Fault]:
    """All that is wrong with the door by itself; its lengths are in `unit`."""
    checked = Checked(door, unit)
    rules: tuple[Callable[[Checked], Iterator[Fault]], ...] = (
        _opening, _gaps, sits.rules, _meeting, season.free_side, _stock, bars.rules, shaped.rules,
        fill_rules.rules,
    )  # fmt: skip
    if door.slab is None:
        rules = (
            _nothing, *rules, _frame, _joint, joints.rules, _groove, _panel, season.panel,
            season.boards,
        )  # fmt: skip
    return list(dict.fromkeys(fault for rule in rules for fault in rule(checked)))


def _nothing(c: Checked) -> Iterator[Fault]:
    door = c.door
    for key, value in (
        ("joint.slot", door.joint.slot),
        ("groove.depth", door.groove.depth),
        ("groove.width", door.groove.width),
        ("panel.thickness", door.panel.thickness),
    ):
        if value == 0:
            yield c.fault(key, doors.NOTHING(key=key), doors.GIVE_SIZE())


def _opening(c: Checked) -> Iterator[Fault]:
    most, least = c.limit("most_opening"), c.limit("least_door")
    for key, opening, leaf, way in (
        ("opening.width", c.door.opening.width, c.width, "wide"),
        ("opening.height", c.door.opening.height, c.height, "high"),
    ):
        if opening > most:
            message = doors.OPENING_TOO_LARGE(
                opening=c.length(opening), way=way, most=c.length(most)
            )
            hint = doors.CHECK_UNIT(unit="inches" if c.unit == "in" else "millimetres")
            yield c.fault(key, message, hint)
        elif leaf <= 0:
            message = doors.NOTHING_LEFT(opening=c.length(opening), way=way)
            yield c.fault(key, message, doors.CHECK_OPENING())
        elif leaf < least:
            message = doors.TOO_SMALL(size=c.length(leaf), way=way, least=c.length(least))
            yield c.fault(key, message, doors.CHECK_OPENING_AND_UNIT())


def _gaps(c: Checked) -> Iterator[Fault]:
    gaps, most = c.door.gaps, c.limit("most_gap")
    sides = {"top": gaps.top, "bottom": gaps.bottom, "hinge": gaps.hinge}
    sides[c.free] = gaps.free
    for side, gap in sides.items():
        if gap > most:
            message = doors.GAP_TOO_LARGE(gap=c.length(gap), most=c.length(most))
            yield c.fault(f"gaps.{side}", message, doors.GAP_NOT_OPENING())


def _meeting(c: Checked) -> Iterator[Fault]:
    """By rule of thumb, where the stiles' movement is not computed."""
    if c.door.leaves == 1 or frame_moves(c.door) is not None:
        return
    growth = GROWTH * stiles_across(c.door)
    least = round_up(c.limit("meeting_air") + growth, c.unit)
    gap = c.door.gaps.meeting
    if gap is not None and gap < least:
        message = doors.GAP_CLOSES(gap=c.length(gap), wood=moving_wood(c.door))
        yield c.fault("gaps.meeting", message, doors.LEAST_GAP(least=c.length(least)))


def _stock(c: Checked) -> Iterator[Fault]:
    least, most = c.limit("least_stock"), c.limit("most_stock")
    thickness, allowance = c.door.thickness, c.door.edge_allowance
    if not least <= thickness <= most:
        message = doors.STOCK_UNSUITED(thickness=c.length(thickness))
        hint = doors.FROM_TO(least=c.length(least), most=c.length(most))
        yield c.fault("stock.thickness", message, hint)
    if allowance > c.limit("most_allowance"):
        message = doors.MUCH_PLANED(allowance=c.length(allowance))
        hint = doors.AT_MOST(most=c.length(c.limit("most_allowance")))
        yield c.fault("stock.edge_allowance", message, hint)


def _frame(c: Checked) -> Iterator[Fault]:
    door, depth, least = c.door, c.door.groove.depth, c.limit("least_wood")
    free = f"stiles.{c.free}"
    framed = (
        ("stiles.hinge", "hinge-stile", door.hinge_stile),
        (free if free in door.places else "stiles.hinge", f"{c.free}-stile", door.free_stile),
        ("rails.top", "top-rail", door.top_rail),
        (
            "rails.bottom" if "rails.bottom" in door.places else "rails.top",
            "bottom-rail",
            door.bottom_rail,
        ),
    )
    told: set[str] = set()
    for key, piece, width in framed:
        if key in told or width - depth >= least:
            continue
        told.add(key)
        if width <= depth:
            message = doors.WITHIN_GROOVE(piece=piece, width=c.length(width))
        else:
            message = doors.LITTLE_BESIDE_GROOVE(piece=piece, left=c.length(width - depth))
        hint = doors.WIDE_ENOUGH(least=c.length(depth + least), depth=c.length(depth))
        yield c.fault(key, message, hint)
    sight = c.limit("least_sight")
    for key, room, whole, pieces, way in (
        ("opening.width", c.sight_width, c.width, "stiles", "wide"),
        ("opening.height", c.sight_height, c.height, "rails", "high"),
    ):
        if whole >= c.limit("least_door") and room < sight:
            size = c.length(whole)
            message = doors.NO_SIGHT(pieces=pieces, size=size, way=way)
            if room > 0:
                message = doors.LITTLE_SIGHT(pieces=pieces, left=c.length(room), size=size, way=way)
            hint = doors.MORE_SIGHT(least=c.length(sight), pieces=pieces)
            yield c.fault(key, message, hint)


def _joint(c: Checked) -> Iterator[Fault]:
    joint = c.door.joint
    for key, value, message in (
        ("joint.proud", joint.proud, doors.PROUD(proud=c.length(joint.proud))),
        ("joint.clearance", joint.clearance, doors.LOOSE(clearance=c.length(joint.clearance))),
    ):
        most = c.limit(key.replace("joint.", "most_"))
        if value > most:
            yield c.fault(key, message, doors.AT_MOST(most=c.length(most)))
    if joint.slot is not None and 0 < joint.slot <= joint.clearance:
        yield c.fault("joint.slot", doors.SLOT_WITHIN_CLEARANCE(), doors.ABOUT_A_THIRD())
    if joint.kind != "half-lap":  # its slot is open to the back
        yield from _cheeks(c, "joint", "slot", joint.slot, joint.offset)


def _groove(c: Checked) -> Iterator[Fault]:
    groove, joint, thickness = c.door.groove, c.door.joint, c.door.thickness
    width = c.groove_width
    if joint.kind == "half-lap":  # the groove lies behind what the stile keeps
        return
    yield from _cheeks(c, "groove", "width", width, groove.offset)
    if width is not None and joint.slot is None and thickness / 2 < width < thickness:
        place = "groove.width" if "groove.width" in c.door.places else "panel.thickness"
        message = doors.CHANNEL_TOO_WIDE(
            what="groove", width=c.length(width), thickness=c.length(thickness)
        )
        yield c.fault(place, message, doors.AT_MOST_HALF(most=c.length(thickness / 2)))
    if width is None or joint.slot is None or not 0 < joint.slot < thickness:
        return
    slot_start = (thickness - joint.slot) / 2 if joint.offset is None else joint.offset
    start = groove.offset
    if start is None and joint.offset is not None:
        start = slot_start + (joint.slot - width) / 2
    elif start is None:
        start = (thickness - width) / 2
    if start < slot_start or start + width > slot_start + joint.slot:
        key = next((k for k in ("groove.offset", "groove.width") if k in c.door.places), None)
        message = doors.OUTSIDE_SLOT(width=c.length(width), slot=c.length(joint.slot))
        yield c.fault(key or "panel.thickness", message, doors.IN_LINE_WITH_SLOT())


def _cheeks(
    c: Checked, table: str, key: str, width: Fraction | None, offset: Fraction | None
) -> Iterator[Fault]:
    """Wood on both sides of a slot or groove in the thickness."""
    what = "slot" if table == "joint" else "groove"
    thickness, least = c.door.thickness, c.limit("least_cheek")
    place = f"{table}.{key}" if f"{table}.{key}" in c.door.places else "panel.thickness"
    if width is None:
        if offset is not None and not least <= offset <= thickness - least:
            message = doors.NEAR_A_FACE(what=what, offset=c.length(offset))
            hint = doors.OFFSET_FROM_TO(least=c.length(least), most=c.length(thickness - least))
            yield c.fault(f"{table}.offset", message, hint)
        return
    most = thickness - 2 * least
    near = (thickness - width) / 2 if offset is None else offset
    cheek = min(near, thickness - near - width)
    if width >= thickness:
        message = doors.CHANNEL_TOO_WIDE(
            what=what, width=c.length(width), thickness=c.length(thickness)
        )
        yield c.fault(place, message, doors.AT_MOST_A_THIRD(most=c.length(most)))
    elif cheek < least and offset is None:
        message = doors.THIN_CHEEKS(what=what, cheek=c.length(cheek), least=c.length(least))
        yield c.fault(place, message, doors.AT_MOST_A_THIRD(most=c.length(most)))
    elif cheek < least:
        message = doors.THIN_CHEEK(what=what, cheek=c.length(max(cheek, Fraction(0))))
        far = thickness - least - width
        hint = doors.WIDTH_LEAVES(what=what, most=c.length(most), least=c.length(least))
        if far >= least:
            hint = doors.OFFSET_LEAVES(
                first=c.length(least), last=c.length(far), least=c.length(least)
            )
        yield c.fault(f"{table}.offset", message, hint)


def _panel(c: Checked) -> Iterator[Fault]:
    panel, groove, least = c.door.panel, c.door.groove, c.limit("least_hold")
    if c.door.glazed:
        return
    held = c.door.held
    if groove.width is not None and held is not None and held >= groove.width:
        message = doors.PANEL_TOO_THICK(panel=c.length(held), groove=c.length(groove.width))
        yield c.fault("panel.thickness", message, doors.GROOVE_TO_SUIT())
    plays = {"play_side": panel.play_side, "play_end": panel.play_end}
    if fill_moves(c.door) is not None or isinstance(c.door.fill, Boarded):
        plays.pop("play_side")  # the season's rule is the stricter
    for key, play in plays.items():
        if 0 < groove.depth < play + least:
            message = doors.PANEL_HARDLY_IN(reach=c.length(max(groove.depth - play, Fraction(0))))
            place = f"panel.{key}" if f"panel.{key}" in c.door.places else "groove.depth"
            room = groove.depth - least
            hint = doors.DEEPER_GROOVE(least=c.length(least))
            if room > 0:
                hint = doors.LESS_PLAY(key=key, most=c.length(room), least=c.length(least))
            yield c.fault(place, message, hint)
