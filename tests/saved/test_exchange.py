"""Exports: a round trip, what is refused, and that an import loses nothing here."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sequencer.errors import InputError
from sequencer.saved.entry import Entry
from sequencer.saved.exchange import SCHEMA, Merged, from_json, to_json
from sequencer.saved.store import Store
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
        assert store.merge(file, no) == Merged(added=(3,), joined=(1,), kept=(2,))
        assert asked == [("ours", "theirs")]
        assert [(e.note, e.jobs) for e in store.entries()] == [
            ("", ("pantry", "larder")),
            ("ours", ("larder",)),
            ("", ()),
        ]
        assert store.merge(file, no) == Merged(kept=(2,))
        assert store.merge(file, lambda *_: True) == Merged(taken=(2,))
        assert store.entry(2).note == "theirs"
        assert store.merge(file, no) == Merged()
