"""From the text of a shop file to a `Shop`; what it leaves out comes from the built-in shop, and
is told as a fact for each."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction
from functools import partial
from pathlib import PurePath
from typing import Any, Protocol, cast

from sequencer.facts import Dialect, Fact, Kind, Length, dialect_for, files, shops
from sequencer.job import identity, shop_check
from sequencer.job.convert import in_unit
from sequencer.job.defaults import shop_facts
from sequencer.job.document import Path, read_document
from sequencer.job.load import raise_faults, read_unit
from sequencer.job.reader import Reader
from sequencer.job.schema import Cutter, Jig, Minutes, Saw, Shop, Side, Sled, Tools
from sequencer.lengths import Unit, convert, parse
from sequencer.records import names, replace
from sequencer.saw.fittings import MINUTES, SCALES, SPACER
from sequencer.trade.aids import KEYS

_GRADUATIONS: Mapping[Unit, tuple[str, ...]] = {
    "in": ("1/8", "1/16", "1/32", "1/64", "1/128"),
    "mm": ("1", "0.5", "0.2", "0.1", "0.05"),
}
_STEPS: Mapping[str, Mapping[Unit, tuple[str, ...]]] = {
    "caliper": {"in": ("0.0005", "0.001", "1/128"), "mm": ("0.01", "0.02", "0.05", "0.1")},
    "rule": {"in": ("1/64", "1/32", "1/16"), "mm": ("0.5", "1")},
    "tape": {"in": ("1/64", "1/32", "1/16"), "mm": ("0.5", "1")},
}
"""What the tools that measure are divided in, as they are sold."""
_MOST_BLOCKS = 60
TABLES: Mapping[str, tuple[str, ...]] = {
    "saw": (
        "id",
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
    "fence": ("name", "version"),
    "sled": ("name", "version", "deck", "longest", "widest", "clamp"),
    "jig": ("name", "version", "rides", "thickness", "deck", "opening", "side"),
    "aids": tuple(KEYS),
    "tools": ("caliper", "caliper_reach", "rule", "rule_reach", "tape", "blocks"),
    "scales": tuple(SCALES),
    "minutes": (*MINUTES, *(key for key in names(Minutes) if key != "knobs")),
}
_WORDS = ("US", "UK")
_UNIT_TERMS: Mapping[Unit, str] = {"in": "inches", "mm": "millimetres"}
CUTTER = ("name", "kind", "kerf", "diameter", "grind", "plate", "sharpened")
_MOST_CUTTERS = 20
_MOST_MINUTES = 120

_ASSUMED: Mapping[str, Kind] = {
    "shop.graduation": shops.GRADUATION,
    "saw.max_height": shops.MAX_HEIGHT,
    "saw.knife": shops.KNIFE,
    "saw.hold_down": shops.HOLD_DOWN,
    "saw.fence": shops.FENCE_SIDE,
    "saw.tilts": shops.TILTS,
    "cutter.name": shops.CUTTER,
    "cutter.kerf": shops.KERF,
    "cutter.diameter": shops.DIAMETER,
    "cutter.grind": shops.GRIND,
    "sled.deck": shops.SLED_DECK,
    "sled.longest": shops.SLED_LONGEST,
    "sled.widest": shops.SLED_WIDEST,
    "sled.clamp": shops.SLED_CLAMP,
    "jig.rides": shops.JIG_RIDES,
    "jig.deck": shops.JIG_DECK,
    "jig.opening": shops.JIG_OPENING,
    "jig.side": shops.JIG_SIDE,
    "tools.caliper": shops.CALIPER,
    "tools.rule": shops.RULE,
    "tools.tape": shops.TAPE,
}
"""What is told of a default that is taken. A cutter's kind goes without saying, as does a jig's
thickness in the mitre slot."""


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
    reader = Reader(read_document(text, file, files.NEW_SHOP()))
    own = read_unit(reader)
    reader.read_sure()
    reader.known((), ("unit", "name", "sure", "words", "graduation", *TABLES, "cutter", "limits"))
    loader = _Loader(reader)
    stated_name = reader.text(("name",))
    name = stated_name or PurePath(file).stem
    stated = cast("Dialect | None", reader.choice(("words",), _WORDS))
    graduation = loader.graduation()
    saw = loader.saw()
    cutters = loader.cutters()
    sled = Sled(**loader.table("sled"))
    known_as, fittings = identity.saw_id(reader), identity.fittings(reader)
    jig = loader.jig(saw.fence)
    aids = loader.aids()
    tools, scales = loader.tools(), loader.scales(graduation)
    minutes = loader.minutes(blocks=bool(tools.blocks))
    limits = loader.limits(bounds or {})
    if own is not None:
        shop_check.check(reader, saw, cutters)
    raise_faults(reader, stated)
    words = stated or dialect_for(own or unit)
    assumed = tuple(loader.assumed)
    shop = Shop(
        name, graduation, saw, cutters, sled, jig, minutes, tools, scales, words, assumed, limits,
        aids, known_as or stated_name or identity.by_itself(saw, sled, jig), fittings,
    )  # fmt: skip
    if own is None or own == unit:
        return shop
    # A scale of the other unit cannot be read to; its settings are shown on the usual scale.
    scale = parse(str(shop_facts()["shop.graduation"][unit]), unit)
    note = shops.OTHER_SCALE(value=Length(scale, unit), own=_UNIT_TERMS[own])
    for key, value in limits.items():
        limits[key] = value if (bounds or {})[key].ratio else convert(value, own, unit)
    converted = in_unit(shop, own, unit)
    told = (_in(unit, each) for each in assumed if each.kind not in _DIVIDED)
    return replace(
        converted,
        graduation=scale,
        scales=dict.fromkeys(SCALES, scale),
        tools=_usual(shop.tools, converted.tools, unit),
        assumed=(*told, note),
        limits=limits,
    )


_DIVIDED = frozenset({shops.GRADUATION, shops.CALIPER, shops.RULE, shops.TAPE})


def _usual(own: Tools, converted: Tools, unit: Unit) -> Tools:
    """The tools of a shop of the other unit, read as those of this one usually are."""
    steps = {name: parse(str(shop_facts()[f"tools.{name}"][unit]), unit) for name in _STEPS}
    return replace(
        converted,
        caliper=None if own.caliper is None else steps["caliper"],
        rule=steps["rule"],
        tape=steps["tape"],
    )


def _in(unit: Unit, told: Fact) -> Fact:
    """A fact with its lengths in a plan's unit, in which a plan's file tells all lengths."""
    lengths = {
        name: Length(convert(value.value, value.unit, unit), unit)
        for name, value in told.given.items()
        if isinstance(value, Length)
    }
    return told.kind(**{**told.given, **lengths})


class _Loader:
    """Reads the tables one by one; `assumed` grows with every default that is taken."""

    def __init__(self, reader: Reader) -> None:
        self.reader = reader
        self.unit: Unit = reader.unit
        self.assumed: list[Fact] = []

    def graduation(self) -> Fraction:
        path: Path = ("graduation",)
        if not self.reader.has(path):
            assumed: Fraction = self._default("shop.graduation")
            return assumed
        return self._step(path, _GRADUATIONS[self.unit]) or Fraction(1)

    def _step(self, path: Path, options: tuple[str, ...]) -> Fraction | None:
        """What a scale or a tool is divided in: one of those that there are."""
        value = self.reader.length(path)
        if value is not None and value not in [Fraction(option) for option in options]:
            message = shops.NO_SUCH_SCALE(step=Length(value, self.unit))
            self.reader.fault(path, message, files.WRITE_ONE(texts=options))
            return None
        return value

    def scales(self, graduation: Fraction) -> dict[str, Fraction]:
        """What each scale of the saw is divided in; all alike where the shop tells of one only."""
        if self.reader.table(("scales",)):
            self.reader.known(("scales",), SCALES)
        options = _GRADUATIONS[self.unit]
        return {key: self._step(("scales", key), options) or graduation for key in SCALES}

    def tools(self) -> Tools:
        """What measures; a shop without a caliper says `caliper = false`."""
        if self.reader.table(("tools",)):
            self.reader.known(("tools",), TABLES["tools"])
        without = self.reader.document.get(("tools", "caliper")) is False
        steps = {
            name: None
            if name == "caliper" and without
            else self._step(("tools", name), options[self.unit])
            if self.reader.has(("tools", name))
            else self._default(f"tools.{name}")
            for name, options in _STEPS.items()
        }
        return Tools(
            caliper=steps["caliper"],
            caliper_reach=self._reach("caliper_reach"),
            rule=steps["rule"] or Fraction(1),
            rule_reach=self._reach("rule_reach"),
            tape=steps["tape"] or Fraction(1),
            blocks=self.reader.lengths(("tools", "blocks"), _MOST_BLOCKS),
        )

    def _reach(self, key: str) -> Fraction:
        path: Path = ("tools", key)
        least = parse(str(shop_facts()["limits.least_reach"][self.unit]), self.unit)
        value: Fraction = self._value(f"tools.{key}", path, silent=True)
        if value < least:
            self.reader.fault(path, shops.SHORT_REACH(least=Length(least, self.unit)))
        return value

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
            own = [told for told in self.assumed[before:] if told.kind is not shops.JIG_SIDE]
            self.assumed[before:] = own
        elif jig["rides"] == "fence" and jig["side"] != fence:
            message, hint = shops.JIG_BESIDE_FENCE(side=fence), shops.NO_JIG_SIDE()
            self.reader.fault(("jig", "side"), message, hint)
        if jig["rides"] == "fence" and not self.reader.has(path):
            message, hint = shops.JIG_LACKS_THICKNESS(), shops.MEASURE_JIG()
            self.reader.fault(("jig", "rides"), message, hint)
        if jig["rides"] == "slot" and jig["thickness"]:
            self.reader.fault(path, shops.JIG_ADDS_NOTHING(), shops.NO_JIG_THICKNESS())
        return Jig(**jig)

    def aids(self) -> frozenset[str]:
        """Those that are at hand; a shop that tells of none is told so once."""
        if not self.reader.has(("aids",)):
            self.assumed.append(shops.NO_AIDS())
        told = self.table("aids", tuple(KEYS))
        return frozenset(name for key, name in KEYS.items() if told[key])

    def minutes(self, *, blocks: bool) -> Minutes:
        """Those of a block between jig and piece are told where there are `blocks`."""
        before = len(self.assumed)
        minutes = self.table("minutes")
        unsaid = "" if blocks else f"minutes.{SPACER}"
        taken = tuple(each for each in self.assumed[before:] if each.given["what"] != unsaid)
        del self.assumed[before:]
        if taken:
            self.assumed.append(shops.MINUTES(each=taken))
        knobs = {key: minutes.pop(key) for key in MINUTES}
        return Minutes(knobs, **minutes)

    def cutters(self) -> tuple[Cutter, ...]:
        path: Path = ("cutter",)
        number = self.reader.tables(path)
        if number > _MOST_CUTTERS:
            message = shops.TOO_MANY_CUTTERS(n=number, most=_MOST_CUTTERS)
            self.reader.fault((*path, _MOST_CUTTERS), message, shops.KEEP_CUTTERS())
        if not self.reader.has(path):
            keys = ("name", "kind", "kerf", "diameter", "grind")
            name = shop_facts()["cutter.name"]["value"]
            return (Cutter(**{key: self._default(f"cutter.{key}", of=name) for key in keys}),)
        return tuple(self._cutter((*path, index)) for index in range(number))

    def _cutter(self, path: Path) -> Cutter:
        self.reader.known(path, CUTTER)
        for key, hint in (
            ("name", shops.NAME_CUTTER()),
            ("kerf", shops.MEASURE_KERF()),
        ):
            if not self.reader.has((*path, key)):
                self.reader.fault((*path, key), shops.CUTTER_LACKS(key=key), hint)
        name = self.reader.text((*path, "name")) or ""
        return Cutter(
            name=name,
            kind=self._value("cutter.kind", (*path, "kind"), silent=True),
            kerf=self.reader.length((*path, "kerf")) or Fraction(0),
            diameter=self._value("cutter.diameter", (*path, "diameter"), of=name),
            grind=self._value("cutter.grind", (*path, "grind"), of=name),
            plate=self.reader.length((*path, "plate")),
            sharpened=identity.times(self.reader, (*path, "sharpened")),
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
                self.reader.number(path, files.A_NUMBER())
                if bound.ratio
                else self.reader.length(path)
            )
            if value is None:
                continue
            if bound.loosens(value, self.unit):
                own = bound.in_unit(self.unit)
                message = (
                    shops.LOOSER_NUMBER(own=own)
                    if bound.ratio
                    else shops.LOOSER_LENGTH(own=Length(own, self.unit))
                )
                self.reader.fault(path, message, shops.ONLY_STRICTER())
            found[name] = value
        return found

    def table(self, name: str, optional: tuple[str, ...] = ()) -> dict[str, Any]:
        """Every key of a table, or its default; `optional` ones have none."""
        there = self.reader.table((name,))
        if there:
            self.reader.known((name,), TABLES[name])
        return {
            key: self._read(f"{name}.{key}", (name, key))
            if key in optional
            else self._value(f"{name}.{key}", (name, key), silent=key == "thickness")
            for key in TABLES[name]
            if key not in identity.KEYS
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
            value = self.reader.number(path, files.MINUTES())
            if value is not None and value > _MOST_MINUTES:
                message = shops.TOO_MANY_MINUTES(key=name, most=_MOST_MINUTES)
                self.reader.fault(path, message, shops.CHECK_IT())
            return value
        if table == "aids":
            return self.reader.flag(path)
        return readers.get(key, self.reader.length)(path)

    def _default(self, key: str, *, of: str = "", silent: bool = False) -> Any:
        usual = shop_facts()[key]
        if key.startswith("minutes."):
            minutes = parse(usual["value"], "in")
            self.assumed.append(shops.MINUTES_FOR(what=key, value=minutes))
            return minutes
        length = "value" not in usual
        value: Any = parse(usual[self.unit], self.unit) if length else usual["value"]
        kind = _ASSUMED.get(key)
        if kind is not None and not silent:
            told = {"value": Length(value, self.unit) if length else value, "of": of}
            self.assumed.append(kind(**{name: told[name] for name in kind.takes}))
        return value
