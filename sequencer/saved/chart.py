"""A chart for the wall: settings of one saw by what carries the piece, smallest number first."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from msgspec import Struct

from sequencer.facts import Length, stores
from sequencer.lengths import convert
from sequencer.saved.entry import Dialled, Entry
from sequencer.saw.fittings import CARRIERS
from sequencer.sheets.render import environment
from sequencer.wording import Room
from sequencer.wording.pages import language


class Row(Struct, frozen=True):
    """One setting: what the guide's scale shows, and the height's, in words."""

    guide: str
    height: str
    makes: str
    gauge: str
    number: int
    date: str


class Group(Struct, frozen=True):
    """Settings that are made with the same carrier and cutter."""

    carrier: str
    cutter: str
    rows: tuple[Row, ...]


def page(saw: str, entries: Sequence[Entry], room: Room) -> str:
    """The chart as one self-contained page. Settings in doubt are left off: a wall is believed."""
    sure = [entry for entry in entries if not entry.doubted]
    doubted = len(entries) - len(sure)
    keys = dict.fromkeys((entry.carrier, entry.made_with, entry.cutter) for entry in sure)
    groups = tuple(
        _group([e for e in sure if (e.carrier, e.made_with, e.cutter) == key], room)
        for key in sorted(keys, key=lambda key: (list(CARRIERS).index(key[0]), key))
    )
    template = environment(None, room).get_template("chart.html.j2")
    note = room.sentence(stores.ON_THE_WALL(n=doubted))
    made: str = template.render(saw=saw, groups=groups, note=note, language=language(room))
    return made + "\n"


def _group(entries: Sequence[Entry], room: Room) -> Group:
    first = entries[0]
    carrier = room.term(f"carrier.{first.carrier}")
    return Group(
        f"{carrier} ({first.made_with})" if first.made_with else carrier,
        room.say(stores.CUTTER(cutter=first.cutter, kerf=Length(first.kerf, first.unit))),
        tuple(_row(entry, room) for entry in sorted(entries, key=_place)),
    )


def _guide(entry: Entry) -> Dialled | None:
    return next((knob for knob in entry.knobs if knob.knob != "height"), None)


def _shown(knob: Dialled) -> Fraction:
    return knob.value if knob.read is None else knob.read


def _place(entry: Entry) -> tuple[Fraction, int]:
    guide = _guide(entry)
    own = Fraction(0) if guide is None else _shown(guide)
    return convert(own, entry.unit, "mm"), entry.number


def _row(entry: Entry, room: Room) -> Row:
    def said(knob: Dialled | None) -> str:
        return "" if knob is None else room.length(Length(_shown(knob), entry.unit))

    guide = _guide(entry)
    height = next((knob for knob in entry.knobs if knob.knob == "height"), None)
    gauges = ", ".join(room.say(knob.gauge.told) for knob in entry.knobs if knob.gauge)
    return Row(said(guide), said(height), entry.makes, gauges, entry.number, entry.date)
