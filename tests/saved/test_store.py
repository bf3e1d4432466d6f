"""The store: what it keeps, who may use it at once, and what becomes of it when things go wrong."""

from __future__ import annotations

import errno
import os
import signal
import sqlite3
import subprocess
import sys
from collections.abc import Callable
from contextlib import closing
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from sequencer.errors import SurroundingsError, UsageError
from sequencer.facts import Fact
from sequencer.records import replace
from sequencer.saved import opening, tables
from sequencer.saved.opening import DamagedError
from sequencer.saved.store import Store
from sequencer.shelf import Gauge
from tests.saved.entries import entry

NOW = "2025-11-25T09-30-00"
ROOT = Path(__file__).resolve().parents[2]


def opened(path: Path) -> Store:
    return Store(path, lambda: NOW)


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "data" / "settings.sqlite"


def test_a_setting_comes_back_as_it_was_put_in(path: Path) -> None:
    with opened(path) as store:
        number = store.add(entry(1))
        kept = store.entry(number)
        assert replace(kept, uid="", number=0) == entry(1)
        assert kept.uid
    with opened(path) as store:
        assert store.entries() == (kept,)


def test_numbers_are_not_given_twice(path: Path) -> None:
    with opened(path) as store:
        first, second = store.add(entry(1)), store.add(entry(2))
        assert store.forget(second).makes == "slot 2"
        assert store.add(entry(3)) > second > first


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"carrier": "bench"}, "carrier"),
        ({"knobs": ()}, "knobs"),
        ({"knobs": (*entry().knobs, *entry().knobs)}, "knobs"),
        ({"kerf": Fraction(0)}, "kerf"),
        ({"saw": ""}, "names"),
        ({"unit": "cm"}, "unit"),
    ],
)
def test_an_unsound_setting_is_not_kept(path: Path, change: dict[str, Any], says: str) -> None:
    with opened(path) as store:
        with pytest.raises(UsageError, match=says):
            store.add(entry(**change))
        assert store.entries() == ()


def test_notes_and_gauges_are_written_to_the_setting_named(path: Path) -> None:
    with opened(path) as store:
        one, other = store.add(entry(1)), store.add(entry(2))
        store.annotate(one, "jig with the new fence")
        store.name_gauge(one, Gauge("block", "B"))
        store.name_gauge(one, Gauge("story stick", "7"), "height")
        assert store.entry(one).note == "jig with the new fence"
        assert [knob.gauge for knob in store.entry(one).knobs] == [
            Gauge("story stick", "7"),
            Gauge("block", "B"),
        ]
        assert store.entry(other) == replace(entry(2), uid=store.entry(other).uid, number=other)
        store.name_gauge(one, None)
        assert store.entry(one).knobs[1].gauge is None
        with pytest.raises(
            UsageError, match=r"store.no-knob\(number=1, knob=stop, has=\(height, jig\)\)"
        ):
            store.name_gauge(one, None, "stop")


def test_what_is_not_there_is_said_so(path: Path) -> None:
    with opened(path) as store:
        for wrong in (
            lambda: store.entry(7),
            lambda: store.annotate(7, "x"),
            lambda: store.forget(7),
            lambda: store.name_gauge(7, None),
        ):
            with pytest.raises(UsageError, match=r"store.no-such\(number=7\)"):
                wrong()


def test_a_sharpened_blade_leaves_its_settings_in_doubt_until_it_is_measured(path: Path) -> None:
    with opened(path) as store:
        mine, other = store.add(entry(1)), store.add(entry(2, cutter="thin blade"))
        assert store.doubt("combination", True) == 1
        assert store.doubt("combination", True) == 0
        assert [store.entry(n).doubted for n in (mine, other)] == [True, False]
        assert store.doubt("combination", False) == 1
        assert not store.entry(mine).doubted


def test_a_change_that_fails_half_way_leaves_nothing_behind(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with opened(path) as store:
        store.add(entry(1))
        before = store.entries()

        def fails(*_: object) -> None:
            raise RuntimeError("the plug was pulled")

        monkeypatch.setattr("sequencer.saved.rows.set_jobs", fails)
        with pytest.raises(RuntimeError):
            store.add(entry(2))
        with pytest.raises(RuntimeError):
            store.merge([replace(entry(3), uid="c"), replace(entry(4), uid="d")], lambda *_: True)
        monkeypatch.undo()
        assert store.entries() == before


# ------------------------------------------------------------------------------ two processes


WRITER = """
import sys
from pathlib import Path
from sequencer.saved.store import Store
from tests.saved.entries import entry
with Store(Path(sys.argv[1]), lambda: "now") as store:
    for number in range(int(sys.argv[2])):
        print(store.add(entry(number, makes=f"{sys.argv[3]} {number}")), flush=True)
"""


def writer(path: Path, count: int, name: str) -> subprocess.Popen[str]:
    return subprocess.Popen(
        [sys.executable, "-c", WRITER, str(path), str(count), name],
        cwd=ROOT, stdout=subprocess.PIPE, text=True,
    )  # fmt: skip


def test_two_processes_make_and_fill_one_store_together(path: Path, large: bool) -> None:
    count = 200 if large else 20
    running = [writer(path, count, name) for name in ("one", "two")]
    numbers = []
    for process in running:
        out, _ = process.communicate(timeout=120)
        assert process.returncode == 0
        numbers += out.split()
    with opened(path) as store:
        kept = store.entries()
    assert len(set(numbers)) == len(numbers) == len(kept) == 2 * count
    assert {e.makes for e in kept} == {f"{w} {n}" for w in ("one", "two") for n in range(count)}
    assert not list(path.parent.glob("*.new-*"))


def test_a_process_that_is_killed_loses_nothing_it_was_told_is_kept(
    path: Path, large: bool
) -> None:
    told: list[int] = []
    for round_number in range(40 if large else 3):
        process = writer(path, 1000, f"round {round_number}")
        assert process.stdout is not None
        told += (int(process.stdout.readline()) for _ in range(1 + round_number % 5))
        os.kill(process.pid, signal.SIGKILL)
        told += map(int, process.stdout.read().split())
        process.wait()
        process.stdout.close()
        with opened(path) as store:
            kept = [e.number for e in store.entries()]
        # One more than was said may be there: kept, but killed before it could say so.
        assert set(told) <= set(kept)
        assert len(kept) <= len(told) + round_number + 1


def test_another_process_in_the_middle_of_a_change_is_waited_for_not_overrun(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(opening, "PATIENCE", 50)
    with opened(path) as store:
        store.add(entry(1))
        with closing(sqlite3.connect(path, isolation_level=None)) as other:
            other.execute("BEGIN IMMEDIATE")
            with (
                opened(path) as impatient,
                pytest.raises(SurroundingsError, match=r"store\.held"),
            ):
                impatient.add(entry(2))
            assert len(store.entries()) == 1  # reading goes on meanwhile
            other.execute("ROLLBACK")
        assert store.add(entry(2)) == 2


# ------------------------------------------------------------------------------ damage


def filled(path: Path, count: int) -> tuple[str, ...]:
    with opened(path) as store:
        store.merge([entry(n, uid=f"uid {n}") for n in range(count)], lambda *_: False)
        return tuple(e.uid for e in store.entries())


def facts_of(error: DamagedError) -> list[str]:
    """What the damage is told by, and each line of what is to be done."""
    what, rest = error.says
    assert isinstance(rest, Fact)
    (lines,) = rest.values
    assert isinstance(lines, tuple)
    return [str(what), *map(str, lines)]


def torn(path: Path, damage: Callable[[bytes], bytes]) -> DamagedError:
    """The error that opening the damaged file gives; it must leave the file as it was."""
    path.write_bytes(damage(path.read_bytes()))
    before = path.read_bytes()
    with pytest.raises(DamagedError) as caught:
        opened(path)
    assert path.read_bytes() == before
    return caught.value


def test_a_file_torn_in_the_middle_is_reported_with_what_could_be_read(path: Path) -> None:
    uids = filled(path, 1000)
    error = torn(path, lambda data: data[: len(data) * 2 // 3])
    assert 300 < len(error.read) < 1000
    assert 0 < error.lost <= 1000 - len(error.read)
    assert {e.uid for e in error.read} <= set(uids)
    assert all(len(e.knobs) == 2 for e in error.read)
    assert error.read[0].makes == "slot 0"
    assert f"store.could-read-but(n={len(error.read)}, lost={error.lost})" in facts_of(error)
    assert error.exit_code == 4


@pytest.mark.parametrize("part", [1, 2, 3, 4])
def test_a_page_overwritten_is_reported_with_all_that_is_whole(path: Path, part: int) -> None:
    uids = filled(path, 1000)
    page = 4096

    def scribble(data: bytes) -> bytes:
        at = len(data) // page * part // 5 * page
        return data[:at] + b"\xa5" * page + data[at + page :]

    error = torn(path, scribble)
    assert 900 < len(error.read) <= 1000  # both sides of it
    assert error.lost <= 1000 - len(error.read)
    assert {e.uid for e in error.read} <= set(uids)


def test_a_torn_file_of_the_largest_pages_is_read_too(path: Path) -> None:
    """A header has 1 for pages of 65 536 bytes, which two bytes do not hold (SQLite, Database File
    Format, 1.3.2)."""
    filled(path, 1000)
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("PRAGMA journal_mode = DELETE")
        connection.execute("PRAGMA page_size = 65536")
        connection.execute("VACUUM")
    assert path.read_bytes()[16:18] == b"\0\1"
    error = torn(path, lambda data: data[: len(data) * 9 // 10])
    assert 0 < len(error.read) <= 1000


@pytest.mark.parametrize(
    "damage",
    [
        lambda data: data[:0],
        lambda data: b"a letter to the editor" + data[:0],
        lambda data: data[:50],
        lambda data: b"\0" * len(data),
    ],
    ids=["empty", "another text", "its first bytes", "zeroes"],
)
def test_a_file_of_which_nothing_is_left_is_never_taken_for_a_new_one(
    path: Path, damage: Callable[[bytes], bytes]
) -> None:
    filled(path, 3)
    error = torn(path, damage)
    assert error.read == ()
    assert "store.move-away()" in facts_of(error)


def test_an_older_copy_is_named_where_there_is_one(path: Path) -> None:
    filled(path, 3)
    backup = path.with_name(f"{path.name}.before-v2-{NOW}")
    backup.write_bytes(path.read_bytes())
    assert f"store.older-copy(path={backup})" in facts_of(torn(path, lambda data: data[:1000]))


def test_files_of_others_are_left_alone(path: Path) -> None:
    path.parent.mkdir()
    with closing(sqlite3.connect(path)) as other:
        other.execute("CREATE TABLE recipes (name TEXT)")
    with pytest.raises(SurroundingsError, match=r"store\.foreign"):
        opened(path)
    with pytest.raises(SurroundingsError, match=r"store\.folder"):
        opened(path.parent)


def test_a_folder_that_cannot_be_made_is_said_so(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    with pytest.raises(SurroundingsError, match=r"store\.unusable") as caught:
        opened(tmp_path / "file" / "settings.sqlite")
    assert os.strerror(errno.EEXIST) in str(caught.value), "what the system says of it"


# ------------------------------------------------------------------------------ versions


VERSIONS = range(1, len(tables.VERSIONS))


def at_version(path: Path, version: int) -> None:
    """A store as that version of the program left it, with a slot and a shoulder in it."""
    path.parent.mkdir()
    with closing(sqlite3.connect(path, isolation_level=None)) as old:
        old.execute("PRAGMA journal_mode = WAL")
        tables.upgrade(old, version)
        for number, (carrier, knob, share) in enumerate(
            (("tenoning-jig", "jig", "0"), ("crosscut-sled", "stop", "1")), 1
        ):
            old.execute(
                "INSERT INTO settings (number, uid, saw, cutter, kerf, unit, carrier, makes, date,"
                " note, knobs) VALUES (?, ?, 'shed', 'combination', '1/8', 'in', ?, 'm', 'd', 'n',"
                " 1)",
                (number, f"uid {number}", carrier),
            )
            old.execute(
                "INSERT INTO knobs (setting, knob, value, read, share, measure, target, measured,"
                " per_unit, gauge_kind, gauge_name) VALUES (?, ?, '1/4', NULL, ?, 'width', '1/4',"
                " '65/256', '-2', 'block', 'B')",
                (number, knob, share),
            )
            old.execute("INSERT INTO jobs (setting, place, job) VALUES (?, 0, 'pantry')", (number,))
            if version >= 2:  # (1/4 - 1/512) in, and for the far side a kerf more, in nanometres
                old.execute(
                    "UPDATE knobs SET off = '-1/512', place = ? WHERE setting = ?",
                    (6_300_391 if number == 1 else 9_475_391, number),
                )
            if version >= 4:
                tables.put_in_place(old, number)


@pytest.mark.parametrize("version", VERSIONS)
def test_every_earlier_version_is_brought_to_this_one(path: Path, version: int) -> None:
    at_version(path, version)
    with opened(path) as store:
        slot, shoulder = store.entries()
        shelf = store.shelf("shed", "in")
    assert (slot.number, slot.uid, slot.jobs, slot.note) == (1, "uid 1", ("pantry",), "n")
    assert not slot.doubted
    assert slot.knobs[0].off == Fraction(-1, 512)  # 1/256 too wide, by two passes
    # What was worked out for files of today is there for the old ones, too.
    stood = Fraction(1, 4) - Fraction(1, 512)
    for entry_, knob in ((slot, "jig"), (shoulder, "stop")):
        found = shelf.near("combination", Fraction(1, 8), entry_.carrier, knob, stood, stood)
        assert [saved.number for saved, _ in found] == [entry_.number]
    # What is noted from then on says to which job it belongs; what was noted before, to none.
    with closing(sqlite3.connect(path)) as now:
        now.execute(
            "INSERT INTO noted (uid, at, job, saw, what, name, planned, value, unit)"
            " VALUES ('n', 'd', 'pantry', 'shed', 'thickness', '', '3/4', '47/64', 'in')"
        )
        now.commit()
    with opened(path) as store:
        assert [each.belongs for each in store.noted("shed")] == [""]


@pytest.mark.parametrize(
    "unmeasured",
    ["target = NULL", "measured = NULL", "per_unit = NULL", "per_unit = '0'"],
)
def test_what_was_not_measured_by_the_first_version_stands_at_its_value(
    path: Path, unmeasured: str
) -> None:
    at_version(path, 1)
    with closing(sqlite3.connect(path)) as old:
        old.execute(f"UPDATE knobs SET {unmeasured} WHERE setting = 1")
        old.commit()
    with opened(path) as store:
        shelf = store.shelf("shed", "in")
    stood = Fraction(1, 4)
    found = shelf.near("combination", Fraction(1, 8), "tenoning-jig", "jig", stood, stood)
    assert [(saved.number, saved.off) for saved, _ in found] == [(1, Fraction(0))]


@pytest.mark.parametrize("version", VERSIONS)
def test_a_copy_is_kept_before_each_migration(path: Path, version: int) -> None:
    at_version(path, version)
    with opened(path) as store:
        migrated = store.entries()
    backup = path.with_name(f"{path.name}.before-v{len(tables.VERSIONS)}-{NOW}")
    with closing(sqlite3.connect(backup)) as old:
        assert old.execute("PRAGMA user_version").fetchone() == (version,)
        assert old.execute("SELECT count(*) FROM settings").fetchone() == (2,)
    with opened(backup) as again:
        assert again.entries() == migrated


def test_what_another_process_has_brought_up_to_date_is_left_alone(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It was quicker between the first look and the lock: no copy is made of the new file."""
    opened(path).close()
    looks = iter((len(tables.VERSIONS) - 1, len(tables.VERSIONS)))
    monkeypatch.setattr(opening, "_version", lambda _: next(looks))
    opened(path).close()
    assert next(looks, None) is None
    assert not list(path.parent.glob("*.before-*"))


@pytest.mark.parametrize("version", VERSIONS)
def test_a_migration_that_fails_changes_nothing(
    path: Path, version: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    at_version(path, version)
    with monkeypatch.context() as patched:

        def fails(connection: sqlite3.Connection, *_: object) -> None:
            connection.execute("DELETE FROM settings")
            raise RuntimeError("the plug was pulled")

        patched.setattr(tables, "upgrade", fails)
        with pytest.raises(RuntimeError):
            opened(path)
    with opened(path) as store:
        assert len(store.entries()) == 2


def test_without_room_for_the_copy_nothing_is_migrated(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    at_version(path, 1)
    with monkeypatch.context() as patched:

        def full(*_: object) -> None:
            raise sqlite3.OperationalError("database or disk is full")

        patched.setattr(opening, "_back_up", full)
        with pytest.raises(
            SurroundingsError, match=r"store.system-says\(text=database or disk is full\)"
        ):
            opened(path)
    with closing(sqlite3.connect(path)) as old:
        assert old.execute("PRAGMA user_version").fetchone() == (1,)


def test_a_store_of_a_later_program_is_not_touched(path: Path) -> None:
    filled(path, 1)
    with closing(sqlite3.connect(path)) as newer:
        newer.execute(f"PRAGMA user_version = {len(tables.VERSIONS) + 1}")
    with pytest.raises(SurroundingsError, match=r"store\.later"):
        opened(path)
    assert not list(path.parent.glob("*.before-*"))
