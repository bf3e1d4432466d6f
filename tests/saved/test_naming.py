"""A saw by its own name: files are moved, renamed and split, and lose nothing; what another saw has
kept is never taken unasked."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from sequencer.cli.run import main
from sequencer.job.load import load_job
from sequencer.job.shop import load_shop
from sequencer.saved.planning import given_with_saved, owner_of
from sequencer.saved.store import Store
from tests.saved.entries import entry
from tests.saved.test_store import at_version
from tests.saved.test_story import FIRST

BARE = 'unit = "in"\n[[cutter]]\nname = "combination"\nkerf = "0.125"\ngrind = "flat-top"\n'
JOB = load_job(FIRST, "job.toml")


@pytest.fixture(autouse=True)
def _own_data(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    monkeypatch.chdir(tmp_path)


def kept(path: Path, saw: str, **changes: object) -> None:
    with Store(path, lambda: "now") as store:
        store.add(entry(1, saw=saw, **changes))


def found(path: Path, text: str, file: str = "shop.toml") -> bool:
    """Whether a plan with this shop may use what the store has."""
    with Store(path, lambda: "now") as store:
        return bool(store.shelf(owner_of(load_shop(text, file, "in")), "in").shares)


def test_two_files_of_one_name_are_two_saws(tmp_path: Path) -> None:
    """Two folders, each with a shop.toml: another saw's jig is not set by this one's numbers."""
    path = tmp_path / "settings.sqlite"
    one, other = BARE + '[jig]\nopening = "4"\n', BARE + '[jig]\nopening = "3"\n'
    kept(path, load_shop(one, "a/shop.toml", "in").known_as)
    assert found(path, one, "a/shop.toml")
    assert not found(path, other, "b/shop.toml")


def test_a_renamed_moved_or_split_file_is_the_same_saw(tmp_path: Path) -> None:
    path = tmp_path / "settings.sqlite"
    kept(path, load_shop(BARE, "shop.toml", "in").known_as)
    assert found(path, BARE, "elsewhere/my saw.toml")
    text = BARE + '[saw]\nid = "cabinet saw k3f9"\n'
    kept(path, "cabinet saw k3f9")
    assert found(path, text, "old.toml")
    assert found(path, 'name = "other"\n' + text + "[minutes]\nfence = 2\n", "new.toml")


def test_a_fitting_by_another_name_or_version_has_settings_of_its_own(tmp_path: Path) -> None:
    path = tmp_path / "settings.sqlite"
    text = BARE + '[saw]\nid = "s"\n[jig]\nname = "tall jig"\n'
    kept(path, "s", made_with="tall jig")
    assert found(path, text)
    assert not found(path, text.replace("tall", "low"))
    assert not found(path, text + "version = 2\n")


def test_a_blade_sharpened_with_its_old_kerf_waits(tmp_path: Path) -> None:
    path = tmp_path / "settings.sqlite"
    kept(path, "s")
    text = BARE + '[saw]\nid = "s"\n'
    sharpened = text.replace("grind", "sharpened = 1\ngrind")
    with Store(path, lambda: "now") as store:
        for shop, doubted in ((text, False), (sharpened, True)):
            known = load_shop(shop, "shop.toml", "in")
            shelf = store.shelf(owner_of(known), "in")
            (saved,) = [one for one in shelf.latest(9) if one.knob == "jig"]
            assert shelf.doubts(saved, known.joinery_blade.kerf) == doubted
            assert not shelf.doubts(saved, known.joinery_blade.kerf - 1 / 1000)  # type: ignore[arg-type]


def test_what_is_likely_the_same_saw_is_told_and_not_taken(tmp_path: Path) -> None:
    path = tmp_path / "settings.sqlite"
    kept(path, "shop")
    given, trouble = given_with_saved(str(path), [JOB], load_shop(BARE, "shop.toml", "in"))
    assert given.saved is not None
    assert not given.saved.shares
    ((told, asks),) = trouble
    assert str(told) == "command.likely(n=1, names=(shop))"
    assert asks.kind.id == "command.shop-asks"


def test_shop_writes_names_once_and_brings_along_what_was_kept(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file, path = tmp_path / "shop.toml", tmp_path / "settings.sqlite"
    file.write_text(BARE)
    kept(path, load_shop(BARE, "shop.toml", "in").known_as)
    kept(path, "shop")
    options = ["shop", str(file), "--settings", str(path)]
    assert main([*options, "--saw", "cabinet saw", "--jig", "tall jig", "--was", "shop"]) == 0
    text = file.read_text()
    known = load_shop(text, "shop.toml", "in")
    assert known.known_as.startswith("cabinet saw ")
    assert "tall jig" in capsys.readouterr().out
    with Store(path, lambda: "now") as store:
        assert {(e.saw, e.made_with) for e in store.entries()} == {(known.known_as, "tall jig")}
    shutil.move(file, tmp_path / "moved.toml")
    assert found(path, text, "moved.toml")
    # Once more changes nothing; rebuilding the jig begins anew.
    file.write_text(text)
    assert main([*options]) == 0
    assert file.read_text() == text
    assert main([*options, "--changed", "jig", "--sharpened", "combination", "--kerf", "0.12"]) == 0
    now = load_shop(file.read_text(), "shop.toml", "in")
    assert now.fittings["jig"] == "tall jig, 2"
    assert (now.cutters[0].sharpened, str(now.cutters[0].kerf)) == (1, "3/25")
    assert not found(path, file.read_text())


@pytest.mark.parametrize("saw", ['saw = { id = "s" }', '[ saw ]\nid = "s"', '"saw".id = "s"'])
def test_a_name_and_a_cutter_are_found_however_they_are_written(
    saw: str, capsys: pytest.CaptureFixture[str]
) -> None:
    cutter = 'cutter = [ { name = "thin", kerf = "2.2", grind = "flat-top" } ]'
    Path("shop.toml").write_text(f"unit = 'mm'\n{cutter}\n{saw}\n")
    assert main(["shop", "--sharpened", "thin", "--kerf", "2.1"]) == 0
    told = capsys.readouterr()
    assert "saw: s;" in told.out
    assert "2.1 mm" in told.out
    known = load_shop(Path("shop.toml").read_text(), "shop.toml", "mm")
    assert (known.cutters[0].sharpened, str(known.cutters[0].kerf)) == (1, "21/10")


def test_a_file_is_written_where_it_lies_and_as_it_was() -> None:
    own, link = Path("own.toml"), Path("shop.toml")
    own.write_bytes(BARE.replace("\n", "\r\n").encode())
    own.chmod(0o640)
    link.symlink_to(own)
    assert main(["shop", "--saw", "this"]) == 0
    assert link.is_symlink()
    assert own.stat().st_mode & 0o777 == 0o640
    lines = own.read_bytes().split(b"\n")
    assert all(line.endswith(b"\r") for line in lines[:-1])
    assert len(lines) == BARE.count("\n") + 3


def test_a_cutter_that_no_file_states_cannot_be_sharpened() -> None:
    Path("shop.toml").write_text('unit = "in"  # no [[cutter]] yet\n')
    (assumed,) = load_shop('unit = "in"\n', "", "in").cutters
    assert main(["shop", "--sharpened", assumed.name]) == 2
    assert Path("shop.toml").read_text() == 'unit = "in"  # no [[cutter]] yet\n'


def test_nobody_is_asked_what_was_never_kept(capsys: pytest.CaptureFixture[str]) -> None:
    Path("shop.toml").write_text(BARE)
    assert main(["shop", "--was", "no such saw", "--saw", "this"]) != 0
    assert "no such saw" in capsys.readouterr().err


def test_a_new_shop_has_a_saw_of_its_own() -> None:
    assert main(["new", "--shop", "a.toml"]) == 0
    assert main(["new", "--shop", "b.toml", "--name", "a"]) == 0
    one, other = (load_shop(Path(f).read_text(), f, "in") for f in ("a.toml", "b.toml"))
    assert one.known_as != other.known_as


def test_an_old_store_is_brought_along(tmp_path: Path) -> None:
    """Its settings, and as evidence of its scales what they were measured at; a saw that was known
    by its file's name is asked about."""
    path = tmp_path / "old" / "settings.sqlite"
    at_version(path, 3)
    with Store(path, lambda: "later") as store:
        kept_ = store.entries()
        readings = store.readings()
    assert {(each.made_with, each.sharpened) for each in kept_} == {("", 0)}
    tried = [
        (knob.knob, knob.value, knob.read or knob.value, knob.measured)
        for each in kept_
        for knob in each.knobs
        if knob.measured is not None
    ]
    assert tried
    assert [(r.knob, r.wanted, r.shown, r.measured) for r in readings] == tried
