"""What a door's numbers must fulfil among themselves.

Every rule says which value is wrong, by how much, and what would do. Limits stand in
`defaults.toml` with how well founded they are.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction

from sequencer.errors import Fault
from sequencer.job import bars, fill_rules, joints, season, shaped, sits
from sequencer.job.capacity import against_shop
from sequencer.job.checked import Checked
from sequencer.job.facts import GROWTH
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
            name = key.replace(".", " ")
            yield c.fault(key, f"the {name} is 0", "give its size, or leave the line out")


def _opening(c: Checked) -> Iterator[Fault]:
    most, least = c.limit("most_opening"), c.limit("least_door")
    for key, opening, leaf, word in (
        ("opening.width", c.door.opening.width, c.width, "wide"),
        ("opening.height", c.door.opening.height, c.height, "high"),
    ):
        if opening > most:
            units = "inches" if c.unit == "in" else "millimetres"
            hint = f"check the unit: bare numbers in this file are {units}"
            yield c.fault(key, f"an opening {c.say(opening)} {word}, over {c.say(most)}", hint)
        elif leaf <= 0:
            message = f"the gaps leave nothing of the door in an opening {c.say(opening)} {word}"
            yield c.fault(key, message, "check the opening and the gaps")
        elif leaf < least:
            message = f"a leaf {c.say(leaf)} {word}, under {c.say(least)}"
            yield c.fault(key, message, "check the opening, the gaps and the unit")


def _gaps(c: Checked) -> Iterator[Fault]:
    gaps, most = c.door.gaps, c.limit("most_gap")
    sides = {"top": gaps.top, "bottom": gaps.bottom, "hinge": gaps.hinge}
    sides[c.free] = gaps.free
    for side, gap in sides.items():
        if gap > most:
            message = f"a gap of {c.say(gap)}, over {c.say(most)}"
            yield c.fault(f"gaps.{side}", message, "write what is left open, not the opening")


def _meeting(c: Checked) -> Iterator[Fault]:
    """By rule of thumb, where the stiles' movement is not computed."""
    if c.door.leaves == 1 or frame_moves(c.door) is not None:
        return
    growth = GROWTH * stiles_across(c.door)
    least = round_up(c.limit("meeting_air") + growth, c.unit)
    gap = c.door.gaps.meeting
    if gap is None:
        hint = f'write meeting = "{c.say(least)}" or more under [door.gaps]'
        yield c.fault("door", "a pair states its meeting gap", hint)
    elif gap < least:
        message = f"a meeting gap of {c.say(gap)} closes when the {moving_wood(c.door)} swell"
        these = "these stiles" if c.door.slab is None else "this wood"
        yield c.fault("gaps.meeting", message, f"{c.say(least)} is the least for {these}")


def _stock(c: Checked) -> Iterator[Fault]:
    least, most = c.limit("least_stock"), c.limit("most_stock")
    thickness, allowance = c.door.thickness, c.door.edge_allowance
    if not least <= thickness <= most:
        message = f"stock {c.say(thickness)} thick"
        hint = f"this joint is for stock from {c.say(least)} to {c.say(most)}"
        yield c.fault("stock.thickness", message, hint)
    if allowance > c.limit("most_allowance"):
        message = f"an edge allowance of {c.say(allowance)}"
        hint = f"at most {c.say(c.limit('most_allowance'))} is planed off an edge"
        yield c.fault("stock.edge_allowance", message, hint)


def _frame(c: Checked) -> Iterator[Fault]:
    door, depth, least = c.door, c.door.groove.depth, c.limit("least_wood")
    free = f"stiles.{c.free}"
    pieces = (
        ("stiles.hinge", "hinge stile", door.hinge_stile),
        (free if free in door.places else "stiles.hinge", f"{c.free} stile", door.free_stile),
        ("rails.top", "top rail", door.top_rail),
        (
            "rails.bottom" if "rails.bottom" in door.places else "rails.top",
            "bottom rail",
            door.bottom_rail,
        ),
    )
    told: set[str] = set()
    for key, name, width in pieces:
        if key in told or width - depth >= least:
            continue
        told.add(key)
        if width <= depth:
            message = f"the {name}, {c.say(width)} wide, is narrower than its groove is deep"
        else:
            message = f"the {name} keeps only {c.say(width - depth)} beside its groove"
        hint = f"at least {c.say(depth + least)} for a groove {c.say(depth)} deep"
        yield c.fault(key, message, hint)
    sight = c.limit("least_sight")
    for key, room, whole, names in (
        ("opening.width", c.sight_width, c.width, "stiles"),
        ("opening.height", c.sight_height, c.height, "rails"),
    ):
        if whole >= c.limit("least_door") and room < sight:
            left = c.say(room) if room > 0 else "nothing"
            message = f"the {names} leave {left} for the panel of a leaf {c.say(whole)} across"
            hint = f"at least {c.say(sight)}: narrower {names}, or check the opening"
            yield c.fault(key, message, hint)


def _joint(c: Checked) -> Iterator[Fault]:
    joint = c.door.joint
    for key, value, name in (
        ("joint.proud", joint.proud, "ends standing proud by"),
        ("joint.clearance", joint.clearance, "a clearance of"),
    ):
        most = c.limit(key.replace("joint.", "most_"))
        if value > most:
            yield c.fault(key, f"{name} {c.say(value)}", f"at most {c.say(most)}")
    if joint.slot is not None and 0 < joint.slot <= joint.clearance:
        hint = "a slot is about a third of the thickness"
        yield c.fault("joint.slot", "the slot is no wider than its clearance", hint)
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
        message = f"a groove {c.say(width)} wide in stock {c.say(thickness)} thick"
        hint = f"at most {c.say(thickness / 2)}, half of it: the slot is no wider than that"
        yield c.fault(place, message, hint)
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
        message = (
            f"a groove {c.say(width)} wide reaches outside the slot, {c.say(joint.slot)} wide, "
            "so a void would show at the door's edge"
        )
        hint = "make the groove no wider than the slot and in line with it, or leave slot out"
        yield c.fault(key or "panel.thickness", message, hint)


def _cheeks(
    c: Checked, table: str, key: str, width: Fraction | None, offset: Fraction | None
) -> Iterator[Fault]:
    """Wood on both sides of a slot or groove in the thickness."""
    name = "slot" if table == "joint" else "groove"
    thickness, least = c.door.thickness, c.limit("least_cheek")
    place = f"{table}.{key}" if f"{table}.{key}" in c.door.places else "panel.thickness"
    if width is None:
        if offset is not None and not least <= offset <= thickness - least:
            hint = f"{c.say(least)} to {c.say(thickness - least)} from the face side"
            yield c.fault(f"{table}.offset", f"the {name} begins at {c.say(offset)}", hint)
        return
    most = thickness - 2 * least
    near = (thickness - width) / 2 if offset is None else offset
    cheek = min(near, thickness - near - width)
    if width >= thickness:
        message = f"a {name} {c.say(width)} wide in stock {c.say(thickness)} thick"
        yield c.fault(place, message, f"at most {c.say(most)}; about a third is usual")
    elif cheek < least and offset is None:
        message = f"the {name} leaves cheeks of {c.say(cheek)}, under {c.say(least)}"
        yield c.fault(place, message, f"at most {c.say(most)}; about a third is usual")
    elif cheek < least:
        message = f"the {name} leaves a cheek of {c.say(max(cheek, Fraction(0)))}"
        far = thickness - least - width
        room = f"an offset from {c.say(least)} to {c.say(far)}"
        hint = room if far >= least else f"a {name} of at most {c.say(most)}"
        yield c.fault(f"{table}.offset", message, f"{hint} leaves {c.say(least)} on both sides")


def _panel(c: Checked) -> Iterator[Fault]:
    panel, groove, least = c.door.panel, c.door.groove, c.limit("least_hold")
    if c.door.glazed:
        return
    held = c.door.held
    stated = groove.width is not None and held is not None
    if stated and held >= groove.width:  # type: ignore[operator]  # both are stated
        message = (
            f"a panel {c.say(panel.thickness or Fraction(0))} thick does not go into a groove "
            f"{c.say(groove.width or Fraction(0))} wide"
        )
        hint = "leave out the groove's width, and it is made to suit the panel"
        yield c.fault("panel.thickness", message, hint)
    plays = {"play_side": panel.play_side, "play_end": panel.play_end}
    if fill_moves(c.door) is not None or isinstance(c.door.fill, Boarded):
        plays.pop("play_side")  # the season's rule is the stricter
    for key, play in plays.items():
        if 0 < groove.depth < play + least:
            held = max(groove.depth - play, Fraction(0))
            message = f"the panel reaches only {c.say(held)} into its groove"
            place = f"panel.{key}" if f"panel.{key}" in c.door.places else "groove.depth"
            room = groove.depth - least
            hint = f"{key} at most {c.say(room)}" if room > 0 else "a deeper groove"
            yield c.fault(place, message, f"{hint}, to keep {c.say(least)}")
