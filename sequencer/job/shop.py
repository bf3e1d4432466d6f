"""From the text of a shop file to a `Shop`; what it leaves out comes from the built-in shop, and
is said so in words."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from fractions import Fraction
from functools import partial
from pathlib import PurePath
from typing import Any, Protocol

from sequencer.job import shop_check
from sequencer.job.checked import say
from sequencer.job.convert import in_unit
from sequencer.job.document import Path, read_document
from sequencer.job.facts import shop_facts
from sequencer.job.load import raise_faults, read_unit
from sequencer.job.reader import Reader
from sequencer.job.schema import Cutter, Jig, Minutes, Saw, Shop, Side, Sled
from sequencer.lengths import Unit, convert, parse

_GRADUATIONS: Mapping[Unit, tuple[str, ...]] = {
    "in": ("1/8", "1/16", "1/32", "1/64", "1/128"),
    "mm": ("1", "0.5", "0.2", "0.1", "0.05"),
}
_TABLES: Mapping[str, tuple[str, ...]] = {
    "saw": (
        "max_height",
        "knife",
        "knife_thickness",
        "cover",
        "hold_down",
        "dado",
        "fence_height",
        "fence",
        "tilts",
    ),
    "sled": ("deck", "longest", "widest", "clamp"),
    "jig": ("rides", "thickness", "deck", "opening", "side"),
    "minutes": tuple(Minutes.__dataclass_fields__),
}
_CUTTER = ("name", "kind", "kerf", "diameter", "grind", "plate")
_MOST_CUTTERS = 20
_MOST_MINUTES = 120


class Bound(Protocol):
    """A figure of a safety rule that a shop may tighten."""

    @property
    def ratio(self) -> bool: ...

    def in_unit(self, unit: Unit) -> Fraction: ...

    def loosens(self, value: Fraction, unit: Unit) -> bool: ...


def default_shop(unit: Unit) -> Shop:
    """The built-in shop: every value assumed."""
    return load_shop(f'unit = "{unit}"\nname = "built-in shop"\n', "built-in shop", unit)


def load_shop(text: str, file: str, unit: Unit, bounds: Mapping[str, Bound] | None = None) -> Shop:
    """The shop with its lengths in `unit`; `file` names it in messages. `bounds` are those that
    its `[limits]` may tighten.

    Raises `InputError` with every fault of the text.
    """
    reader = Reader(read_document(text, file))
    own = read_unit(reader)
    reader.known((), ("unit", "name", "graduation", *_TABLES, "cutter", "limits"))
    loader = _Loader(reader)
    name = reader.text(("name",)) or PurePath(file).stem
    graduation = loader.graduation()
    saw = loader.saw()
    cutters = loader.cutters()
    sled = Sled(**loader.table("sled"))
    jig = loader.jig(saw.fence)
    minutes = loader.minutes()
    limits = loader.limits(bounds or {})
    if own is not None:
        shop_check.check(reader, saw, cutters)
    raise_faults(reader)
    assumed = tuple(loader.assumed)
    shop = Shop(name, graduation, saw, cutters, sled, jig, minutes, assumed, limits)
    if own is None or own == unit:
        return shop
    # A scale of the other unit cannot be read to; its settings are shown on the usual scale.
    scale = parse(str(shop_facts()["shop.graduation"][unit]), unit)
    note = f"settings are shown to {say(scale, unit)}, though the shop's scales are in {own}"
    for key, value in limits.items():
        limits[key] = value if (bounds or {})[key].ratio else convert(value, own, unit)
    converted = in_unit(shop, own, unit)
    return replace(converted, graduation=scale, assumed=(*assumed, note), limits=limits)


class _Loader:
    """Reads the tables one by one; `assumed` grows with every default that is taken."""

    def __init__(self, reader: Reader) -> None:
        self.reader = reader
        self.unit: Unit = reader.unit
        self.assumed: list[str] = []

    def graduation(self) -> Fraction:
        path: Path = ("graduation",)
        if not self.reader.has(path):
            assumed: Fraction = self._default("shop.graduation")
            return assumed
        options = _GRADUATIONS[self.unit]
        value = self.reader.length(path)
        if value is not None and value not in [Fraction(option) for option in options]:
            hint = f"write one of {', '.join(options)}"
            self.reader.fault(path, f"no scale is divided in {say(value, self.unit)}", hint)
        return value or Fraction(1)

    def saw(self) -> Saw:
        saw = self.table("saw", ("knife_thickness", "cover", "dado", "fence_height"))
        return Saw(**{**saw, "dado": bool(saw["dado"])})

    def jig(self, fence: Side) -> Jig:
        path: Path = ("jig", "thickness")
        before = len(self.assumed)
        jig = self.table("jig")
        if jig["rides"] == "fence" and not self.reader.has(("jig", "side")):
            # It is where the fence is.
            jig["side"] = fence
            words = str(shop_facts()["jig.side"]["words"])
            self.assumed[before:] = [said for said in self.assumed[before:] if words not in said]
        elif jig["rides"] == "fence" and jig["side"] != fence:
            message = f"a jig on the fence works where the fence is, on the {fence} of the blade"
            hint = "leave side out, or say under [saw] on which side the fence is used"
            self.reader.fault(("jig", "side"), message, hint)
        if jig["rides"] == "fence" and not self.reader.has(path):
            hint = "measure from the fence to the face that the piece is clamped to"
            self.reader.fault(("jig", "rides"), "a jig on the fence has no thickness", hint)
        if jig["rides"] == "slot" and jig["thickness"]:
            message = "a jig in the mitre slot adds nothing to the fence reading"
            self.reader.fault(path, message, 'leave thickness out, or write rides = "fence"')
        return Jig(**jig)

    def minutes(self) -> Minutes:
        before = len(self.assumed)
        minutes = self.table("minutes")
        taken = self.assumed[before:]
        del self.assumed[before:]
        if taken:
            self.assumed.append(f"minutes for {', '.join(taken)} (common practice)")
        return Minutes(**minutes)

    def cutters(self) -> tuple[Cutter, ...]:
        path: Path = ("cutter",)
        number = self.reader.tables(path)
        if number > _MOST_CUTTERS:
            message = f"{number} cutters, more than {_MOST_CUTTERS}"
            self.reader.fault((*path, _MOST_CUTTERS), message, "keep those of this job")
        if not self.reader.has(path):
            names = ("name", "kind", "kerf", "diameter", "grind")
            return (Cutter(**{key: self._default(f"cutter.{key}") for key in names}),)
        return tuple(self._cutter((*path, index)) for index in range(number))

    def _cutter(self, path: Path) -> Cutter:
        self.reader.known(path, _CUTTER)
        for key, hint in (
            ("name", 'write name = "…", as it is to stand on the sheets'),
            ("kerf", "saw a scrap, measure the cut, and write it as kerf"),
        ):
            if not self.reader.has((*path, key)):
                self.reader.fault((*path, key), f"this cutter has no {key}", hint)
        name = self.reader.text((*path, "name")) or ""
        return Cutter(
            name=name,
            kind=self._value("cutter.kind", (*path, "kind"), silent=True),
            kerf=self.reader.length((*path, "kerf")) or Fraction(0),
            diameter=self._value("cutter.diameter", (*path, "diameter"), of=name),
            grind=self._value("cutter.grind", (*path, "grind"), of=name),
            plate=self.reader.length((*path, "plate")),
        )

    def limits(self, bounds: Mapping[str, Bound]) -> dict[str, Fraction]:
        """Stricter figures for the bounds of safety rules. A looser one is refused, not ignored:
        who writes it relies on it."""
        found: dict[str, Fraction] = {}
        if self.reader.table(("limits",)):
            self.reader.known(("limits",), bounds)
        for name, bound in bounds.items():
            path: Path = ("limits", name)
            value = (
                self.reader.number(path, "a number") if bound.ratio else self.reader.length(path)
            )
            if value is None:
                continue
            if bound.loosens(value, self.unit):
                own = bound.in_unit(self.unit)
                kept = str(own) if bound.ratio else say(own, self.unit)
                message = f"this is looser than the rule's own {kept}"
                self.reader.fault(path, message, "a shop may only be stricter: leave the line out")
            found[name] = value
        return found

    def table(self, name: str, optional: tuple[str, ...] = ()) -> dict[str, Any]:
        """Every key of a table, or its default; `optional` ones have none."""
        there = self.reader.table((name,))
        if there:
            self.reader.known((name,), _TABLES[name])
        return {
            key: self._read(f"{name}.{key}", (name, key))
            if key in optional
            else self._value(f"{name}.{key}", (name, key), silent=key == "thickness")
            for key in _TABLES[name]
        }

    def _value(self, key: str, path: Path, *, of: str = "", silent: bool = False) -> Any:
        if not self.reader.has(path):
            return self._default(key, of=of, silent=silent)
        value = self._read(key, path)
        return self._default(key, silent=True) if value is None else value

    def _read(self, key: str, path: Path) -> Any:
        table, name = key.split(".")
        readers: dict[str, Callable[[Path], Any]] = {
            "cutter.kind": partial(self.reader.choice, options=("blade", "dado")),
            "cutter.grind": partial(self.reader.choice, options=("flat-top", "alternate")),
            "jig.rides": partial(self.reader.choice, options=("fence", "slot")),
            "jig.side": partial(self.reader.choice, options=("left", "right")),
            "saw.fence": partial(self.reader.choice, options=("left", "right")),
            "saw.tilts": partial(self.reader.choice, options=("left", "right")),
            "saw.knife": self.reader.flag,
            "saw.dado": self.reader.flag,
            "sled.clamp": self.reader.flag,
            "saw.cover": self.reader.text,
            "saw.hold_down": self.reader.text,
        }
        if table == "minutes":
            value = self.reader.number(path, "a number of minutes")
            if value is not None and value > _MOST_MINUTES:
                self.reader.fault(path, f"over {_MOST_MINUTES} minutes for {name}", "check it")
            return value
        return readers.get(key, self.reader.length)(path)

    def _default(self, key: str, *, of: str = "", silent: bool = False) -> Any:
        fact = shop_facts()[key]
        words = fact["words"] + (f" of {of}" if of else "")
        if "value" not in fact:
            value: Any = parse(fact[self.unit], self.unit)
            words = f"{words} {say(value, self.unit)}"
        elif key.startswith("minutes."):
            value = parse(fact["value"], "in")
            words = f"{words} {fact['value']}"
        else:
            value = fact["value"]
            words = words if isinstance(value, bool) or key == "jig.rides" else f"{words}: {value}"
        if not silent:
            minutes = key.startswith("minutes.")
            self.assumed.append(words if minutes else f"{words} ({fact['mark']})")
        return value
