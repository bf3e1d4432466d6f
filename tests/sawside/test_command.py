"""`follow` and `times` as commands: what they print, where they write, how they fail."""

from __future__ import annotations

import os
import subprocess
import sys
import tomllib
from pathlib import Path

from tests.sawside.conftest import Program
from tests.sawside.driver import PANTRY, ROOT, Saw


def run(*arguments: str, home: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "sequencer", *arguments], cwd=ROOT, capture_output=True, text=True,
        timeout=60, check=False, env={**os.environ, "XDG_DATA_HOME": str(home)},
    )  # fmt: skip


def test_medians_go_into_the_shop_file(store: Path, tmp_path: Path) -> None:
    """The driver taps every ten seconds, so that everything takes the least there is."""
    saw = Saw(store)
    saw.go_to_step("7")
    saw.store.close()
    shop = tmp_path / "shop.toml"
    own = tmp_path / "own" / "saw.toml"
    own.parent.mkdir()
    own.write_bytes((PANTRY / "shop.toml").read_bytes())
    own.chmod(0o600)
    shop.symlink_to(own)
    asked = ["times", str(PANTRY / "job.toml"), "--shop", str(PANTRY / "shop.toml")]
    asked += ["--followed", str(store)]
    told = run(*asked, home=tmp_path)
    assert told.returncode == 0, told.stderr
    assert "fence: ¼ minute, timed 3 times" in told.stdout
    assert "--into SHOP" in told.stdout
    written = run(*asked, "--into", str(shop), home=tmp_path)
    assert written.returncode == 0, written.stderr
    assert shop.is_symlink()
    assert own.stat().st_mode & 0o777 == 0o600
    assert [path.name for path in own.parent.iterdir()] == ["saw.toml"]
    minutes = tomllib.loads(shop.read_text("utf-8"))["minutes"]
    assert minutes["fence"] == "1/4"
    assert set(minutes) >= {"guard", "height", "test_cut"}
    checked = run("check", str(PANTRY / "job.toml"), "--shop", str(shop), home=tmp_path)
    assert checked.returncode == 0, checked.stderr
    # A job named by mistake is no shop.
    job = tmp_path / "job.toml"
    job.write_bytes((PANTRY / "job.toml").read_bytes())
    mistaken = run(*asked, "--into", str(job), home=tmp_path)
    assert mistaken.returncode == 3
    assert "unknown key" in mistaken.stderr
    assert job.read_bytes() == (PANTRY / "job.toml").read_bytes()


def test_nothing_followed_yet(tmp_path: Path) -> None:
    told = run("times", str(PANTRY / "job.toml"), home=tmp_path)
    assert (told.returncode, told.stderr) == (0, "")
    assert "has not been followed yet" in told.stdout


def test_a_file_of_what_was_done_that_is_not_there(tmp_path: Path) -> None:
    told = run("times", str(PANTRY / "job.toml"), "--followed", "no.sqlite", home=tmp_path)
    assert (told.returncode, told.stdout) == (2, "")
    assert told.stderr == "sequencer: no.sqlite: no such file of what was done\n"


def test_a_wrong_job_is_told_before_anything_listens(tmp_path: Path) -> None:
    job = tmp_path / "job.toml"
    job.write_text('unit = "mm"\n', "utf-8")
    told = run("follow", str(job), "--port", "0", home=tmp_path)
    assert told.returncode == 3
    assert told.stdout == ""
    assert "no door in the file" in told.stderr


def test_a_port_that_is_none(tmp_path: Path) -> None:
    told = run("follow", str(PANTRY / "job.toml"), "--port", "70000", home=tmp_path)
    assert told.returncode == 2
    assert "up to 65535" in told.stderr


def test_a_store_that_is_none(tmp_path: Path) -> None:
    store = tmp_path / "a.sqlite"
    store.write_text("not a database, but something of the user's own, and long enough\n" * 20)
    before = store.read_bytes()
    asked = ("follow", str(PANTRY / "job.toml"), "--port", "0", "--followed", str(store))
    told = run(*asked, home=tmp_path)
    assert told.returncode == 4
    assert "name another with --followed" in told.stderr
    assert store.read_bytes() == before


def test_the_address_stays_the_same_and_ctrl_c_ends_it(program: Program) -> None:
    url = program.url
    assert url.startswith("http://127.0.0.1:")
    assert program.stop() == "interrupted\n"
    program.start()
    assert program.url == url
