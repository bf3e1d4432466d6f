"""Shop files as texts: any key of the README's table."""

from __future__ import annotations

from collections.abc import Sequence
from random import Random

from sequencer.lengths import Unit
from sequencer.saw.fittings import MINUTES, SCALES
from sequencer.trade.aids import KEYS
from tests.keys.pen import Pen, Written

GRADUATIONS = {"in": ("1/8", "1/16", "1/32", "1/64", "1/128"), "mm": ("1", "0.5", "0.2", "0.1")}
_MINUTES = (*MINUTES, "test_cut", "saved", "gauge", "check_cut", "nibble")


def draw_shop(chance: Random, unit: Unit, forced: Sequence[str], *, odd: bool = False) -> Written:
    """A shop with any of its keys; a cutter has a name and a kerf at least."""
    pen = Pen(chance, unit, forced, odd=odd)
    pen.word("unit", unit)
    if pen.wants("name"):
        pen.text("name", "the shed", "contractor's saw")
    if pen.wants("sure"):
        pen.raw("sure", '["jig.thickness"]', "[]")
    if pen.wants("words"):
        pen.word("words", "US", "UK")
    if pen.wants("graduation"):
        pen.word("graduation", *GRADUATIONS[unit])
    dado = pen.wants(*(k for k in forced if k == "saw.dado"), share=0.2)
    side = _saw(pen, dado=dado)
    _cutters(pen, dado=dado)
    _sled(pen)
    _jig(pen, side)
    _aids(pen)
    _tools(pen)
    _minutes(pen)
    return pen.written()


def _saw(pen: Pen, *, dado: bool) -> str:
    """The saw's table; the side that its fence is on."""
    side = "right"
    pen.head("[saw]")
    if pen.wants("saw.id"):
        pen.text("saw.id", "cabinet saw k3f9", "the old one")
    if pen.wants("saw.max_height"):
        pen.length("saw.max_height", "3", "15/4")
    if pen.wants("saw.knife"):
        pen.raw("saw.knife", "true", "true", "false")
    if pen.wants("saw.knife_thickness", share=0.1):
        pen.raw("saw.knife_thickness", '"2.3 mm"', '"0.09 in"', odd=('"2 mm"', '"1/8"', '"0"'))
    if "knife = false" in pen.lines or pen.wants("saw.cover"):
        pen.text("saw.cover", "tunnel guard", "clear box")
    if pen.wants("saw.hold_down"):
        pen.text("saw.hold_down", "two featherboards", "sprung wheels")
    if dado or pen.wants("saw.dado"):
        pen.raw("saw.dado", "true", "true" if dado else "false")
    if pen.wants("saw.fence_height"):
        pen.length("saw.fence_height", "3", "8")
    if pen.wants("saw.fence"):
        side = pen.one("left", "right")
        pen.word("saw.fence", side)
    if pen.wants("saw.tilts"):
        pen.word("saw.tilts", "left", "right")
    return side


def _cutters(pen: Pen, *, dado: bool) -> None:
    if not (dado or pen.in_table("cutter") or pen.chance.random() < 0.6):
        return
    for n in range(1 + (pen.chance.random() < 0.2)):
        pen.head("[[cutter]]")
        pen.text("cutter.name", f"blade {n}", f"combination {n}")
        if pen.wants("cutter.kind"):
            pen.word("cutter.kind", "blade")
        # Wider than the knives above, with a plate between.
        kerf = pen.between("1/10", "9/64", fine=True)
        pen.raw("cutter.kerf", f'"{pen.spelt(kerf)}"', odd=('"1/16"', '"1/4"', '"2.4 mm"', '"0"'))
        if pen.wants("cutter.diameter"):
            pen.raw("cutter.diameter", '"10 in"', '"254 mm"', '"12 in"', odd=('"6 in"', '"8 in"'))
        if pen.wants("cutter.grind"):
            pen.word("cutter.grind", "alternate", "flat-top")
        if pen.wants("cutter.plate"):
            pen.raw("cutter.plate", '"2.2 mm"', '"0.07 in"', odd=('"0"', '"1/8"', '"3.1 mm"'))
        if pen.wants("cutter.sharpened"):
            pen.raw("cutter.sharpened", "1", "4", odd=("0", "-1", '"twice"'))
    if dado:
        pen.head("[[cutter]]")
        pen.text("cutter.name", "dado set")
        pen.word("cutter.kind", "dado")
        pen.length("cutter.kerf", "3/16", "5/16")
        pen.raw("cutter.diameter", '"8 in"', '"203 mm"', odd=('"6 in"',))


def _fitting(pen: Pen, body: str) -> None:
    """Its name and version; what is usual of neither is left out."""
    if pen.wants(f"{body}.name"):
        pen.text(f"{body}.name", f"long {body}", f"the other {body}")
    if pen.wants(f"{body}.version"):
        pen.raw(f"{body}.version", "2", "7", odd=("0", "1.5"))


def _sled(pen: Pen) -> None:
    pen.head("[fence]")
    _fitting(pen, "fence")
    pen.head("[sled]")
    _fitting(pen, "sled")
    if pen.wants("sled.deck"):
        pen.length("sled.deck", "1/4", "1")
    if pen.wants("sled.longest"):
        pen.length("sled.longest", "48", "96")
    if pen.wants("sled.widest"):
        pen.length("sled.widest", "20", "36")
    if pen.wants("sled.clamp"):
        pen.raw("sled.clamp", "true", "true", "false")


def _tools(pen: Pen) -> None:
    pen.head("[tools]")
    if pen.wants("tools.caliper"):
        steps = {"in": ("0.001", "0.0005"), "mm": ("0.01", "0.02", "0.1")}[pen.unit]
        pen.raw("tools.caliper", *(f'"{step}"' for step in steps), "false")
    if pen.wants("tools.caliper_reach"):
        pen.length("tools.caliper_reach", "4", "12")
    if pen.wants("tools.rule"):
        pen.word("tools.rule", *{"in": ("1/64", "1/32"), "mm": ("0.5", "1")}[pen.unit])
    if pen.wants("tools.rule_reach"):
        pen.length("tools.rule_reach", "6", "40")
    if pen.wants("tools.tape"):
        pen.word("tools.tape", *{"in": ("1/64", "1/32", "1/16"), "mm": ("0.5", "1")}[pen.unit])
    if pen.wants("tools.blocks"):
        pen.raw("tools.blocks", '["1/4 in", "1/2 in"]', '["6 mm"]', "[]", odd=('["0"]',))
    pen.head("[scales]")
    for key in SCALES:
        if pen.wants(f"scales.{key}"):
            pen.word(f"scales.{key}", *GRADUATIONS[pen.unit])


def _aids(pen: Pen) -> None:
    pen.head("[aids]")
    for key in KEYS:
        if pen.wants(f"aids.{key}"):
            pen.raw(f"aids.{key}", "true", "false")


def _jig(pen: Pen, fence: str) -> None:
    pen.head("[jig]")
    _fitting(pen, "jig")
    rides = "fence" if "jig.thickness" in pen.forced else pen.one("fence", "slot", "slot")
    if rides == "fence" or pen.wants("jig.rides"):
        pen.word("jig.rides", rides)
    if rides == "fence":
        pen.length("jig.thickness", "1/2", "4")
    if pen.wants("jig.deck"):
        pen.length("jig.deck", "1/8", "1/2")
    if pen.wants("jig.opening"):
        pen.length("jig.opening", "5/2", "5")
    if pen.wants("jig.side"):
        pen.word("jig.side", *((fence,) if rides == "fence" else ("left", "right")))


def _minutes(pen: Pen) -> None:
    pen.head("[minutes]")
    for key in _MINUTES:
        if pen.wants(f"minutes.{key}", share=0.1):
            usual = ("1", "2", '"1/2"', "0.75", '"1 1/2"')
            pen.raw(f"minutes.{key}", *usual, odd=("0", "120", "0.001"))
