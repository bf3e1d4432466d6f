"""Exports: a round trip, what is refused, and that an import loses nothing here."""

from __future__ import annotations

import json
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sequencer.errors import InputError
from sequencer.records import replace
from sequencer.saved.entry import Entry
from sequencer.saved.evidence import Noted, Reading
from sequencer.saved.exchange import SCHEMA, Merged, found_in, from_json, newer, to_json
from sequencer.saved.store import Store
from sequencer.shelf import Gauge
from tests.saved.entries import entries, entry


@given(st.lists(entries(), max_size=2))
def test_what_is_exported_is_read_again_exactly(lot: list[Entry]) -> None:
    named = [replace(e, uid=f"uid {n}") for n, e in enumerate(lot)]
    assert from_json(to_json(named), "x.json") == tuple(named)


def changed(change: Callable[[dict[str, Any]], object]) -> str:
    data = json.loads(to_json([entry(1, uid="a"), entry(2, uid="b")]))
    change(data)
    return json.dumps(data)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("{", "x.json:1:2: store.not-json()"),
        ("[]", f"store.no-export(schema={SCHEMA})"),
        (changed(lambda d: d.update(schema="sequencer-saved/9")), "store.no-export"),
        (changed(lambda d: d.update(settings={})), "store.no-list()"),
        (
            changed(lambda d: d["settings"][1].pop("kerf")),
            "in-setting(place=2, what=store.missing(key=kerf))",
        ),
        (changed(lambda d: d["settings"][0].update(kerf="0.125")), "store.no-rational"),
        (changed(lambda d: d["settings"][0].update(kerf="1/0")), "store.no-rational"),
        (changed(lambda d: d["settings"][0].update(kerf=1)), "store.no-rational"),
        (changed(lambda d: d["settings"][0].update(note=None)), "store.no-text(value=None)"),
        (
            changed(lambda d: d["settings"][0].update(carrier="bench")),
            "store.carrier(carrier=bench",
        ),
        (changed(lambda d: d["settings"][0].update(knobs=[])), "store.knobs("),
        (
            changed(lambda d: d["settings"][1].update(uid="a")),
            "in-setting(place=2, what=store.no-uid())",
        ),
        (
            changed(lambda d: d["settings"][1]["knobs"][0].update(gauge=["wedge", "B"])),
            "store.gauge(",
        ),
    ],
)
def test_what_is_no_export_is_refused_whole(text: str, says: str) -> None:
    with pytest.raises(InputError) as caught:
        from_json(text, "x.json")
    assert says in str(caught.value)
    assert caught.value.exit_code == 3


def test_an_import_joins_and_never_overwrites_unasked(tmp_path: Path) -> None:
    ours = [entry(1, uid="a", jobs=("pantry",)), entry(2, uid="b", note="ours")]
    file = [
        entry(1, uid="a", jobs=("larder",)),
        entry(2, uid="b", note="theirs", jobs=("larder",)),
        entry(3, uid="c"),
    ]
    asked: list[tuple[str, str]] = []

    def no(known: Entry, other: Entry) -> bool:
        asked.append((known.note, other.note))
        return False

    with Store(tmp_path / "s", lambda: "now") as store:
        store.merge(ours, no)
        assert asked == []
        merged = store.merge(file, no)
        assert (merged.added, merged.joined, merged.kept) == ((3,), (1,), (2,))
        assert asked == [("ours", "theirs")]
        assert [(e.note, e.jobs) for e in store.entries()] == [
            ("", ("pantry", "larder")),
            ("ours; theirs", ("larder",)),
            ("", ()),
        ]
        # Once more asks nothing: what was written is of both by now.
        assert store.merge(file, no) == Merged()


def test_what_a_person_has_named_is_kept_of_both_and_the_newer_numbers_stand(
    tmp_path: Path,
) -> None:
    here = entry(1, uid="a", date="2025-11-25", note="by the window")
    block, stick = Gauge("block", "B"), Gauge("story stick", "2")
    height, jig = here.knobs
    here = replace(here, knobs=(height, replace(jig, gauge=block)))
    there = replace(
        here,
        date="2025-12-01",
        note="after the move",
        knobs=(replace(height, gauge=stick), replace(jig, read=Fraction(1, 3), gauge=stick)),
    )
    with Store(tmp_path / "s", lambda: "now") as store:
        store.merge([here], newer)
        merged = store.merge([there], newer)
        (kept,) = store.entries()
        assert merged.taken == (1,)
        assert merged.differed == ((replace(here, number=1), there),)
        assert kept.knobs[1].read == Fraction(1, 3)
        assert kept.date == "2025-12-01"
        assert [knob.gauge for knob in kept.knobs] == [stick, stick]
        assert kept.note == "after the move; by the window; block B"
        # An older copy changes nothing any more.
        assert store.merge([here], newer).taken == ()
        assert store.entries() == (kept,)


def test_readings_and_findings_travel_with_the_settings(tmp_path: Path) -> None:
    reading = Reading(
        "r", "2025-11-25T10:00:00", "hutch", "s", "", "b", 1, "rip-fence", "fence",
        Fraction(1, 8), "in", Fraction(2), Fraction(65, 32), "tenon", Fraction(1, 4),
        Fraction(253, 1000), Fraction(-2), "caliper", False,
    )  # fmt: skip
    kerf = Noted("k", "2025-11-26", "hutch", "s", "kerf", "b", Fraction(1, 8), Fraction(1, 9), "in")
    text = to_json([entry(1, uid="a")], [reading, kerf])
    found = found_in(text, "x.json")
    assert found == (reading, kerf)
    with Store(tmp_path / "s", lambda: "now") as store:
        for _ in range(2):
            store.merge(from_json(text, "x.json"), newer, found)
        assert [replace(each, number=0) for each in store.readings()] == [reading]
        assert [replace(each, number=0) for each in store.noted()] == [kerf]
    broken = text.replace('"per_unit": "-2"', '"per_unit": "0"')
    with pytest.raises(InputError, match="no-reading"):
        found_in(broken, "x.json")
