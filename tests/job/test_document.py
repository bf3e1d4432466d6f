"""Places of keys and values in TOML, whatever its spelling."""

from __future__ import annotations

import tomllib
from pathlib import Path as FilePath
from typing import Any

import pytest

from sequencer.errors import InputError
from sequencer.facts import files
from sequencer.job.document import Document, Path, read_document

EVERYTHING = FilePath(__file__).with_name("everything.toml").read_text("utf-8")


def _leaves(value: Any, path: Path = ()) -> list[tuple[Path, Any]]:
    if isinstance(value, dict):
        return [leaf for key, item in value.items() for leaf in _leaves(item, (*path, key))]
    if isinstance(value, list):
        inner = [leaf for i, item in enumerate(value) for leaf in _leaves(item, (*path, i))]
        return inner or [(path, value)]
    return [(path, value)]


def test_every_value_is_found_where_it_stands() -> None:
    document = read_document(EVERYTHING, "x.toml")
    plain = tomllib.loads(EVERYTHING)
    leaves = _leaves(plain)
    assert len(leaves) == 30
    for path, value in leaves:
        if value == {}:
            continue
        assert tomllib.loads(f"k = {document.raw(path)}")["k"] == value, path


@pytest.mark.parametrize(
    ("path", "key", "line"),
    [
        (("bare",), False, 2),
        (("a", "b", "c d", "e"), True, 11),
        (("spaced", "table"), True, 12),
        (("spaced", "table", "arrays", 1, 0), False, 23),
        (("list", 1), True, 34),
        (("list", 1, "inner", 0, "k"), False, 37),
        (("list", 0, "inner", 1), True, 32),
        (("list", 1, "nothing", "here"), False, 34),  # the nearest table round it
    ],
)
def test_faults_have_the_line(path: Path, key: bool, line: int) -> None:
    # Lines counted by hand in everything.toml.
    assert read_document(EVERYTHING, "x.toml").place(path, key=key).line == line


def _at(document: Document, path: Path) -> tuple[int, int, str]:
    place = document.place(path)
    return place.line, place.column, place.text


def test_windows_line_ends_and_a_byte_order_mark_change_nothing() -> None:
    unix = read_document('a = "1"\n[t]\nb = "2"\n', "x.toml")
    windows = read_document('\ufeffa = "1"\r\n[t]\r\nb = "2"\r\n', "x.toml")
    assert windows.data == unix.data
    assert _at(windows, ("t", "b")) == _at(unix, ("t", "b")) == (3, 5, 'b = "2"')


def test_columns_count_characters_and_tabs_stay_in_the_line() -> None:
    document = read_document('"größe" = "1"\n\tb = "2"\n', "x.toml")
    assert _at(document, ("größe",)) == (1, 11, '"größe" = "1"')
    fault = document.fault(("b",), files.NO_MARK())
    assert str(fault) == 'x.toml:2:6: file.no-mark()\n    \tb = "2"\n    \t    ^'


def test_a_line_too_long_for_a_screen_is_not_repeated() -> None:
    document = read_document(f'a = "{"x" * 300}"\n', "x.toml")
    assert _at(document, ("a",)) == (1, 5, "")


@pytest.mark.parametrize(
    "text",
    [
        "[" * 100_000,
        "a = " + "[" * 100_000,
        "a = 1" + "0" * 10_000,
        "a = {b = 1, b = 2}",
        "a = 1\r",
        'a = "\x00"',
        '"a\nb" = 1',
        "a.b = 1\na.b.c = 2",
        "= 1",
        'a = "unfinished',
        'a = """unfinished',
    ],
)
def test_what_is_no_toml_is_said_in_one_fault(text: str) -> None:
    with pytest.raises(InputError) as caught:
        read_document(text, "x.toml")
    (fault,) = caught.value.faults
    assert fault.file == "x.toml"
    assert fault.message
