"""Job files as texts: any key of the README's table, alone or with whatever it needs beside it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from random import Random

from sequencer.lengths import Unit
from tests.keys.pen import Pen, Written

SPECIES = ("cherry", "ash, white", "oak, white", "maple, sugar", "walnut, black", "rosewood")
CORNERS = ("bridle", "bridle", "mitred bridle", "stub tenon", "half-lap")
FILLS = ("flat", "flat", "raised", "boarded", "glass", "slab")
REGIONS = ("most of the US", "UK, heated throughout", "Europe, heated")

_BRIDLED = ("groove.offset", "stiles.lock", "stiles.meeting", "rails.top", "rails.bottom",
            "joint.slot", "joint.offset", "joint.proud")  # fmt: skip
"""Keys that another corner has no freedom in."""


@dataclass
class _Door:
    """What is settled before anything is written, because one key rules others out."""

    pen: Pen
    fill: str
    pair: bool
    corner: str
    overlay: bool
    shaped: bool
    year: bool
    off_centre: bool
    """Slot and groove are both told, the groove within the slot."""
    stile: str = ""

    @property
    def framed(self) -> bool:
        return self.fill != "slab"


def draw_job(chance: Random, unit: Unit, forced: Sequence[str], *, odd: bool = False) -> Written:
    """One kind of door. A table stands in the file, or under the door."""
    pen = Pen(chance, unit, forced, odd=odd)
    door = _settled(pen)
    pen.word("unit", unit)
    for key, texts in (("name", ("cupboards", "a job")), ("species", SPECIES)):
        if pen.wants(key):
            pen.text(key, *texts)
    if pen.wants("sure"):
        pen.raw("sure", '["rails.top", "species"]', "[]")
    if pen.wants("face_side"):
        pen.word("face_side", "out", "in")
    if "fill" in forced or (door.fill == "flat" and pen.wants("fill")):
        pen.word("fill", door.fill)
    tables = {table: write for table, write in _TABLES.items() if _has(door, table)}
    under = {table for table in tables if chance.random() < 0.2}
    for table in tables:
        if table not in under:
            _table(door, table, table)
    _rough(pen)
    _boards(pen)
    pen.head("[[door]]")
    _keys_of_the_door(door)
    pen.head("[door.opening]")
    low, high = ("20", "36") if door.pair else ("10", "22")
    pen.keys.add("door.opening")
    for way, least, most in (("width", low, high), ("height", "14", "36")):
        pen.head(f'{way} = "{pen.spelt(pen.between(least, most))}"')
    for table in tables:
        if table in under:
            _table(door, table, f"door.{table}")
    _bars(door)
    return pen.written()


def _settled(pen: Pen) -> _Door:
    chance, forced = pen.chance, pen.forced
    fill = chance.choice(FILLS)
    of_a_fill = [f for f in ("raised", "boarded", "glass", "slab") if pen.in_table(f)]
    panel = any(map(pen.in_table, ("groove", "panel", "shape")))
    frame = any(map(pen.in_table, ("stiles", "rails", "joint", "meeting", "bar")))
    if of_a_fill:
        fill = of_a_fill[0]
    elif panel or (frame and fill == "slab"):
        fill = "flat"
    two = ("stiles.meeting", "gaps.meeting", "meeting.rebate", "panel.match")
    one = ("stiles.lock", "gaps.lock", "sits.lock", "door.hinge")
    pair = any(key in forced for key in two) or chance.random() < 0.2
    pair = pair and not any(key in forced for key in one)
    shaped = pen.in_table("shape") or (
        fill == "flat" and not pen.in_table("bar") and chance.random() < 0.1
    )
    corner = chance.choice(CORNERS)
    if shaped or any(key in forced for key in _BRIDLED):
        corner = "bridle"
    if fill == "glass" and corner == "stub tenon":
        corner = "bridle"
    gaps = any(key in forced for key in ("gaps.hinge", "gaps.lock", "gaps.top", "gaps.bottom"))
    overlay = pen.in_table("sits") or (not gaps and chance.random() < 0.15)
    year = pen.in_table("room") or pen.wants("wood.moisture")
    flat = fill == "flat" and corner == "bridle"
    flat = flat and "panel.thickness" not in forced  # which an offset groove leaves to the joint
    off_centre = flat and pen.wants("groove.offset", share=0.08)
    return _Door(pen, fill, pair, corner, overlay, shaped, year, off_centre)


def _has(door: _Door, table: str) -> bool:
    """Whether the table means something for such a door."""
    if table in ("raised", "boarded", "glass", "slab"):
        return door.fill == table
    if table in ("stiles", "rails", "groove", "joint"):
        return door.framed
    if table == "panel":
        return door.fill in ("flat", "raised")
    if table == "sits":
        return door.overlay
    if table == "shape":
        return door.shaped
    if table == "room":
        return door.year
    return table != "meeting" or (door.pair and door.framed)


def _table(door: _Door, table: str, header: str) -> None:
    pen = door.pen
    before = len(pen.lines)
    pen.head(f"[{header}]")
    _TABLES[table](door)
    if len(pen.lines) == before + 1 and table != door.fill:
        del pen.lines[before:]


def _stock(door: _Door) -> None:
    door.pen.length("stock.thickness", "11/16", "1", fine=door.pen.chance.random() < 0.3)
    if door.pen.wants("stock.edge_allowance"):
        door.pen.length("stock.edge_allowance", "1/32", "1/8")


def _stiles(door: _Door) -> None:
    pen = door.pen
    mitred = door.corner == "mitred bridle"
    if mitred or pen.wants("stiles.hinge", share=0.5):
        hinge = pen.between("3/2", "9/4")
        door.stile = pen.spelt(hinge)
        pen.raw("stiles.hinge", f'"{door.stile}"')
    free = "stiles.meeting" if door.pair else "stiles.lock"
    if not mitred and pen.wants(free):
        _free(pen, free, "3/2", "5/2")


def _rails(door: _Door) -> None:
    pen = door.pen
    if door.stile and door.corner == "mitred bridle":
        for key in ("rails.top", "rails.bottom")[: 1 + pen.wants("rails.bottom")]:
            pen.raw(key, f'"{door.stile}"')
        return
    for key, most in (("rails.top", "5/2"), ("rails.bottom", "3")):
        if pen.wants(key, share=0.4):
            _free(pen, key, "7/4", most)


def _free(pen: Pen, key: str, low: str, high: str) -> None:
    """A dimension, or a range that is left free."""
    if pen.chance.random() < 0.12:
        least = pen.between(low, high)
        most = least + pen.between("1/16", "1/4")
        pen.raw(key, f'"{pen.spelt(least)} to {pen.spelt(most)}"')
    else:
        pen.length(key, low, high)


def _groove(door: _Door) -> None:
    pen = door.pen
    glass = door.fill == "glass"
    if glass or pen.wants("groove.depth", share=0.4):
        pen.length("groove.depth", "11/32" if glass else "1/4", "7/16")
    if glass:
        return
    if door.off_centre:
        pen.raw("groove.width", '"3/16 in"', '"4.5 mm"', odd=('"1/8 in"',))
        pen.length("groove.offset", "9/32", "11/32")
    elif pen.wants("groove.width", share=0.15):
        pen.length("groove.width", "3/16", "1/4")


def _panel(door: _Door) -> None:
    pen = door.pen
    raised = door.fill == "raised"
    if raised:
        pen.length("panel.thickness", "1/2", "5/8")
    elif not door.off_centre and pen.wants("panel.thickness", share=0.1):
        pen.length("panel.thickness", "5/32", "7/32")
    if pen.wants("panel.species"):
        pen.text("panel.species", *SPECIES)
    for key, most in (("panel.play_side", "3/32"), ("panel.play_end", "1/16")):
        if pen.wants(key, share=0.2):
            pen.length(key, "1/32", most)
    if pen.wants("panel.engagement", share=0.2):
        pen.length("panel.engagement", "1/16", "5/32")
    if door.pair and pen.wants("panel.match"):
        pen.word("panel.match", "book", "no")


def _joint(door: _Door) -> None:
    pen, chance = door.pen, door.pen.chance
    if door.corner != "bridle" or pen.wants("joint.kind"):
        pen.word("joint.kind", door.corner)
    glass, lap = door.fill == "glass", door.corner == "half-lap"
    if glass or pen.wants("joint.bars"):
        pen.word("joint.bars", *(["T-bridle"] if glass else ["stub tenon"] if lap else
                                 ["stub tenon", "T-bridle"]))  # fmt: skip
    plain = door.corner in ("bridle", "half-lap")
    if door.off_centre:
        pen.raw("joint.slot", '"5/16 in"', '"8 mm"')
        pen.raw("joint.offset", '"1/4 in"', '"6.5 mm"')
    elif (plain and pen.wants("joint.slot", share=0.15)) or "joint.slot" in pen.forced:
        low, high = ("5/16", "3/8") if lap else ("1/4", "5/16")
        _free(pen, "joint.slot", low, high)
    if not door.off_centre and pen.wants("joint.offset", share=0.08 * (door.corner == "bridle")):
        pen.length("joint.offset", "7/32", "9/32")
    if pen.wants("joint.clearance", share=0.2):
        pen.length("joint.clearance", "1/500", "1/110", fine=True)
    if pen.wants("joint.proud", share=0.2 if door.corner != "stub tenon" else 0):
        pen.raw("joint.proud", '"0"') if chance.random() < 0.3 else pen.length(
            "joint.proud", "1/32", "1/8"
        )
    if pen.wants("joint.tenons", share=0.2):
        pen.word("joint.tenons", "one length", "each stile")


def _gaps(door: _Door) -> None:
    pen = door.pen
    for side in ("top", "bottom") if door.overlay else ("top", "bottom", "hinge"):
        if f"sits.{side}" not in pen.keys and pen.wants(f"gaps.{side}", share=0.2):
            pen.length(f"gaps.{side}", "1/16", "3/16")
    if door.pair:
        pen.length("gaps.meeting", "3/16", "3/8")
    elif not door.overlay and (door.fill == "slab" or pen.wants("gaps.lock", share=0.2)):
        pen.length("gaps.lock", "3/8" if door.fill == "slab" else "3/32", "1/2"
                   if door.fill == "slab" else "3/16")  # fmt: skip


def _sits(door: _Door) -> None:
    door.pen.word("sits.how", "overlay")
    for side in ("top", "bottom", "hinge", *(() if door.pair else ("lock",))):
        if door.pen.wants(f"sits.{side}"):
            door.pen.length(f"sits.{side}", "1/4", "7/8")


def _meeting(door: _Door) -> None:
    if door.pen.wants("meeting.rebate", share=0.3):
        door.pen.length("meeting.rebate", "17/32", "5/8")


def _shape(door: _Door) -> None:
    door.pen.word("shape.kind", "arch", "peak", "valley")
    door.pen.length("shape.rise", "1/2", "3/2")


def _hardware(door: _Door) -> None:
    for key in ("hardware.hinge", "hardware.pull", "hardware.catch"):
        if door.pen.wants(key, share=0.15):
            door.pen.text(key, "butt hinge 2 in", "turned knob", "magnetic catch")
    if door.pen.wants("hardware.hinges", share=0.15):
        door.pen.count("hardware.hinges", 2, 4)


def _wood(door: _Door) -> None:
    if door.pen.wants("wood.sawn"):
        door.pen.word("wood.sawn", "flat", "quarter")
    if door.year:
        door.pen.number("wood.moisture", 7, 10)


def _room(door: _Door) -> None:
    """In one of three ways."""
    pen = door.pen
    forced = {key.rpartition(".")[2] for key in pen.forced if key.startswith("room.")}
    way = pen.one("region", "moisture", "humidity")
    if forced & {"driest", "wettest"}:
        way = "moisture"
    elif forced:
        way = "region" if "region" in forced else "humidity"
    if way == "region":
        pen.word("room.region", *REGIONS)
    elif way == "moisture":
        pen.number("room.driest", 6, 7)
        pen.raw("room.wettest", "10", '"11"', "11.5", odd=("29.9", '"8 %"', "6"))
    else:
        pen.word("room.humidity", "30 to 55", "35 to 60", "40 to 50")
        if pen.wants("room.temperature", share=0.5):
            pen.word("room.temperature", "20 C", "68 F", "15.5 C")


def _raised(door: _Door) -> None:
    for key, low, high in (("raised.bevel", "1", "3/2"), ("raised.step", "1/32", "1/16")):
        if door.pen.wants(key, share=0.4):
            door.pen.length(key, low, high)


def _boarded(door: _Door) -> None:
    if door.pen.wants("boarded.width", share=0.5):
        door.pen.length("boarded.width", "2", "7/2")
    if door.pen.wants("boarded.tongue", share=0.2):
        door.pen.length("boarded.tongue", "3/16", "5/16")


def _glass(door: _Door) -> None:
    for key, low, high in (("glass.thickness", "5/64", "3/16"), ("glass.under", "1/8", "5/32")):
        if door.pen.wants(key, share=0.4):
            door.pen.length(key, low, high)


def _slab(door: _Door) -> None:
    if door.pen.wants("slab.boards", share=0.5):
        door.pen.count("slab.boards", 2, 5)


_TABLES: dict[str, Callable[[_Door], None]] = {
    "stock": _stock, "stiles": _stiles, "rails": _rails, "groove": _groove, "panel": _panel,
    "joint": _joint, "sits": _sits, "gaps": _gaps, "meeting": _meeting, "shape": _shape,
    "hardware": _hardware, "wood": _wood, "room": _room, "raised": _raised, "boarded": _boarded,
    "glass": _glass, "slab": _slab,
}  # fmt: skip


def _rough(pen: Pen) -> None:
    if not pen.wants(*(k for k in pen.forced if k.startswith("rough.")), share=0.3):
        return
    pen.head("[rough]")
    if pen.wants("rough.allowance"):
        pen.number("rough.allowance", 0, 40)
    for key, low, high in (("trim", "1/2", "2"), ("edge", "1/8", "3/8"), ("milling", "1/16", "1/4"),
                           ("kerf", "3/32", "3/16")):  # fmt: skip
        if pen.wants(f"rough.{key}"):
            pen.length(f"rough.{key}", low, high)


def _boards(pen: Pen) -> None:
    number = pen.chance.randint(0, 2) if not pen.in_table("board") else pen.chance.randint(1, 2)
    for n in range(number):
        pen.head("[[board]]")
        if pen.wants("board.mark"):
            pen.raw("board.mark", f'"shed {n}"', odd=(f'"<{n}>&"',))
        if pen.wants("board.species"):
            pen.text("board.species", *SPECIES)
        for key, low, high in (("thickness", "1", "5/4"), ("length", "48", "120"),
                               ("width", "5", "10")):  # fmt: skip
            pen.length(f"board.{key}", low, high)
        if pen.wants("board.count"):
            pen.count("board.count", 1, 4)
        if pen.wants("board.planed"):
            pen.raw("board.planed", "true", "false")
        for key, low, high in (("trim", "1/2", "3"), ("edge", "1/8", "1/2")):
            if pen.wants(f"board.{key}"):
                pen.length(f"board.{key}", low, high)


def _keys_of_the_door(door: _Door) -> None:
    pen = door.pen
    if pen.wants("door.name"):
        pen.text("door.name", "left cupboard", "over the sink")
    if "door.count" not in pen.forced and pen.wants("door.mark"):
        pen.raw("door.mark", *(('["K", "L"]', '["AB", "C"]') if door.pair else ('"K"', '"XYZ"')))
    elif pen.wants("door.count", share=0.15):
        pen.raw("door.count", "1", "2", odd=("3",))
    if door.pair:
        pen.raw("door.leaves", "2")
    elif pen.wants("door.leaves"):
        pen.raw("door.leaves", "1")
    if not door.pair and pen.wants("door.hinge"):
        pen.word("door.hinge", "left", "right")


def _bars(door: _Door) -> None:
    """Behind the door's own tables: a mid rail, a mullion, or both."""
    pen = door.pen
    forced = pen.in_table("bar")
    if not door.framed or not (forced or pen.chance.random() < 0.25):
        return
    mid = True
    mullion = not door.shaped and (pen.chance.random() < 0.3 or "bar.row" in pen.forced)
    if door.fill == "glass" and mullion:
        mid = False
    for kind in (["mid rail"] if mid else []) + (["mullion"] if mullion else []):
        pen.head("[[door.bar]]")
        pen.word("bar.kind", kind)
        if pen.wants("bar.width"):
            pen.length("bar.width", "3/2" if kind == "mid rail" else "5/4", "2")
        if pen.wants("bar.at", share=0.15):
            low, high = ("6", "8") if kind == "mid rail" else ("5", "6")
            pen.length("bar.at", low, high)
        if kind == "mullion" and pen.wants("bar.row", share=0.3):
            pen.raw("bar.row", "1", *(("2",) if mid else ()))
