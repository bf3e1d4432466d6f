"""A saved setting as it is kept: what was dialled in, on which saw and blade, and what it makes."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any, cast, get_args

from msgspec import Struct

from sequencer.errors import Refusal
from sequencer.facts import Fact, Length, stores
from sequencer.job.shop_check import limit
from sequencer.lengths import Unit, convert
from sequencer.records import replace
from sequencer.saved.old import measure_now
from sequencer.saw.fittings import CARRIERS, NUMBERED
from sequencer.scales import FARTHEST_OFF
from sequencer.shelf import Gauge, GaugeKind, Saved

GAUGES: tuple[GaugeKind, ...] = get_args(GaugeKind)


class Dialled(Struct, frozen=True):
    """One knob of a setting. `value` is its number as computed, `read` what its scale showed;
    `measured` what the test cut gave for `target`, which changes by `per_unit` when the knob's
    number grows by 1. `share` is explained at `Saved`."""

    knob: str
    value: Fraction
    read: Fraction | None = None
    share: Fraction | None = Fraction(0)
    measure: str = ""
    target: Fraction | None = None
    measured: Fraction | None = None
    per_unit: Fraction | None = None
    gauge: Gauge | None = None

    @property
    def off(self) -> Fraction:
        """How far the setting really stood from `value`, as far as it was measured."""
        if self.target is None or self.measured is None or not self.per_unit:
            return Fraction(0)
        return (self.measured - self.target) / self.per_unit


class Entry(Struct, frozen=True):
    """A saved setting; lengths in its own `unit`, `date` as `2025-11-25`.

    `uid` is the same wherever the setting is copied to; `number` (0 until it is kept) is what one
    store calls it, never given twice. `doubted`: see `Saved`. `saw` is what the saw is known as,
    wherever its file lies.
    """

    saw: str
    cutter: str
    kerf: Fraction
    unit: Unit
    carrier: str
    knobs: tuple[Dialled, ...]
    makes: str
    date: str
    jobs: tuple[str, ...] = ()
    note: str = ""
    doubted: bool = False
    uid: str = ""
    number: int = 0
    made_with: str = ""
    """The fittings that it was made with, by their names in the shop file; empty where they have
    none."""
    sharpened: int = 0
    """How often the cutter had been."""

    def saved(self, unit: Unit) -> tuple[Saved, ...]:
        """Each knob as a plan in `unit` sees it."""

        def own(value: Fraction) -> Fraction:
            return convert(value, self.unit, unit)

        return tuple(
            Saved(
                number=self.number,
                cutter=self.cutter,
                kerf=own(self.kerf),
                carrier=self.carrier,
                knob=knob.knob,
                value=own(knob.value),
                read=None if knob.read is None else own(knob.read),
                off=own(knob.off),
                share=knob.share,
                gauge=knob.gauge,
                makes=self.makes,
                doubted=self.doubted,
                sharpened=self.sharpened,
                tried=knob.target is not None or knob.read is not None,
            )
            for knob in self.knobs
        )


def to_data(entry: Entry) -> dict[str, Any]:
    """The entry as plain data for JSON, exact rationals as strings, its number left out."""
    return {
        "uid": entry.uid,
        "saw": entry.saw,
        "cutter": entry.cutter,
        "kerf": str(entry.kerf),
        "unit": entry.unit,
        "carrier": entry.carrier,
        "makes": entry.makes,
        "date": entry.date,
        "jobs": list(entry.jobs),
        "note": entry.note,
        "doubted": entry.doubted,
        "made_with": entry.made_with,
        "sharpened": entry.sharpened,
        "knobs": [
            {
                "knob": knob.knob,
                "value": str(knob.value),
                "read": _text(knob.read),
                "share": _text(knob.share),
                "measure": knob.measure,
                "target": _text(knob.target),
                "measured": _text(knob.measured),
                "per_unit": _text(knob.per_unit),
                "gauge": None if knob.gauge is None else [knob.gauge.kind, knob.gauge.name],
            }
            for knob in entry.knobs
        ],
    }


def from_data(data: Any) -> Entry:
    """The entry again. Raises `Refusal` that says all that is wrong with the data."""
    try:
        entry = Entry(
            saw=_string(data, "saw"),
            cutter=_string(data, "cutter"),
            kerf=_number(data["kerf"]),
            unit=cast(Unit, _string(data, "unit")),
            carrier=_string(data, "carrier"),
            knobs=tuple(_dialled(knob) for knob in data["knobs"]),
            makes=_string(data, "makes"),
            date=_string(data, "date"),
            jobs=tuple(_plain(job) for job in data["jobs"]),
            note=_string(data, "note"),
            doubted=bool(data["doubted"]),
            uid=_string(data, "uid"),
            made_with=_plain(data.get("made_with", "")),
            sharpened=int(data.get("sharpened", 0)),
        )
    except KeyError as error:
        raise Refusal(stores.MISSING(key=str(error.args[0]))) from None
    except (TypeError, ValueError, AttributeError, IndexError):
        raise Refusal(stores.NO_SETTING()) from None
    wrong = faults(entry)
    if wrong:
        raise Refusal(*wrong)
    return entry


def faults(entry: Entry) -> list[Fact]:
    """What keeps the entry from being kept."""
    found: list[Fact] = []
    if entry.unit not in ("in", "mm"):
        found.append(stores.UNIT(unit=entry.unit))
    if entry.carrier not in CARRIERS:
        found.append(stores.CARRIER(carrier=entry.carrier, known=tuple(CARRIERS)))
    if entry.kerf <= 0:
        found.append(stores.KERF())
    if not entry.saw or not entry.cutter:
        found.append(stores.NAMES())
    names = [knob.knob for knob in entry.knobs]
    if not names or len(set(names)) < len(names) or not set(names) <= set(NUMBERED):
        found.append(stores.KNOBS(known=tuple(NUMBERED)))
    if any(knob.gauge is not None and knob.gauge.kind not in GAUGES for knob in entry.knobs):
        found.append(stores.GAUGE(known=GAUGES))
    if any(knob.share is not None and not 0 <= knob.share <= 1 for knob in entry.knobs):
        found.append(stores.SHARE())
    return found


def slips(entry: Entry) -> list[Fact]:
    """What cannot be of any saw, and was written wrong. What is kept already, or comes from another
    store, is not asked for it: it is left out of plans."""
    unit = entry.unit
    found: list[Fact] = []
    low, high = limit("least_kerf", unit), limit("most_dado", unit)
    if not low <= entry.kerf <= high:
        kerf, least, most = (Length(each, unit) for each in (entry.kerf, low, high))
        found.append(stores.ODD_KERF(kerf=kerf, low=least, high=most))
    carrier = CARRIERS[entry.carrier]
    own = dict.fromkeys(("height", carrier.knob, *(["fence"] if carrier.rides else [])))
    for knob in entry.knobs:
        if knob.knob in NUMBERED and knob.knob not in own:
            name = f"carrier.{entry.carrier}"
            found.append(stores.NOT_ITS_KNOB(carrier=name, knob=knob.knob, known=tuple(own)))
    farthest = FARTHEST_OFF.of(unit)
    for saved in entry.saved(unit):
        if abs(saved.beyond(entry.kerf)) > farthest:
            value, read, most = (Length(n, unit) for n in (saved.value, saved.shown, farthest))
            found.append(stores.FAR_OFF(knob=saved.knob, value=value, read=read, most=most))
    return found


def same_setting(one: Entry, other: Entry) -> bool:
    """Whether two entries are one physical setting: saw, fittings, cutter, kerf, carrier and
    computed numbers alike."""

    def identity(entry: Entry) -> tuple[object, ...]:
        knobs = sorted(
            (knob.knob, convert(knob.value, entry.unit, one.unit)) for knob in entry.knobs
        )
        kerf = convert(entry.kerf, entry.unit, one.unit)
        tools = (entry.saw, entry.made_with, entry.cutter, entry.sharpened, entry.carrier)
        return (*tools, kerf, tuple(knobs))

    return identity(one) == identity(other)


def as_before(was: Entry, now: Entry) -> Entry:
    """The setting as it was, with what a person has named and written to it since."""
    gauges = {knob.knob: knob.gauge for knob in now.knobs}
    knobs = tuple(replace(k, gauge=gauges.get(k.knob, k.gauge)) for k in was.knobs)
    return replace(was, number=now.number, knobs=knobs, note=now.note)


def renewed(known: Entry, entry: Entry) -> Entry:
    """`known` as it was dialled in once more: newer readings, one job more; its gauges stay. A
    knob that nothing was read of keeps what was read before."""
    before = {knob.knob: knob for knob in known.knobs}
    return replace(
        entry,
        knobs=tuple(_again(knob, before.get(knob.knob)) for knob in entry.knobs),
        jobs=tuple(dict.fromkeys((*known.jobs, *entry.jobs))),
        note=entry.note or known.note,
        uid=known.uid,
        number=known.number,
    )


def _again(knob: Dialled, before: Dialled | None) -> Dialled:
    if before is None:
        return knob
    knob = replace(knob, gauge=knob.gauge or before.gauge)
    if knob.read is not None or knob.measured is not None:
        return knob
    return replace(
        knob,
        read=before.read,
        measure=before.measure,
        target=before.target,
        measured=before.measured,
        per_unit=before.per_unit,
    )


def _dialled(data: Mapping[str, Any]) -> Dialled:
    gauge = data["gauge"]
    return Dialled(
        knob=_string(data, "knob"),
        value=_number(data["value"]),
        read=_optional(data["read"]),
        share=_optional(data["share"]),
        measure=measure_now(_string(data, "measure")),
        target=_optional(data["target"]),
        measured=_optional(data["measured"]),
        per_unit=_optional(data["per_unit"]),
        gauge=None if gauge is None else Gauge(gauge[0], _plain(gauge[1])),
    )


def _string(data: Mapping[str, Any], key: str) -> str:
    return _plain(data[key])


def _plain(value: Any) -> str:
    if not isinstance(value, str):
        raise Refusal(stores.NO_TEXT(value=repr(value)))
    return value


def _number(value: Any) -> Fraction:
    if not isinstance(value, str) or "." in value or "e" in value.lower():
        raise Refusal(stores.NO_RATIONAL(value=repr(value)))
    try:
        return Fraction(value)
    except (ValueError, ZeroDivisionError):
        raise Refusal(stores.NO_RATIONAL(value=repr(value))) from None


def _optional(value: Any) -> Fraction | None:
    return None if value is None else _number(value)


def _text(value: Fraction | None) -> str | None:
    return None if value is None else str(value)
