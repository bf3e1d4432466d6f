"""The wheel: nothing left out of it, and it works from a folder of its own."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent


def run(*command: str, cwd: Path, site: Path | None = None) -> str:
    environment = {**os.environ, "PIP_NO_INDEX": "1", "XDG_DATA_HOME": str(cwd / "data")}
    if site:
        environment["PYTHONPATH"] = str(site)
    done = subprocess.run(
        command, check=False, cwd=cwd, env=environment, capture_output=True, text=True
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The wheel, built without a look at any registry."""
    folder = tmp_path_factory.mktemp("wheel")
    run(sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(folder), cwd=ROOT)
    (found,) = folder.glob("*.whl")
    return found


@pytest.fixture(scope="module")
def site(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder that the wheel is installed in; what it depends on stays where it is."""
    folder = tmp_path_factory.mktemp("site")
    run(sys.executable, "-m", "pip", "install", "-q", "--no-deps", "--target", str(folder),
        str(wheel), cwd=folder)  # fmt: skip
    return folder


def test_everything_is_in_the_wheel(wheel: Path) -> None:
    wanted = {
        f"sequencer/{path.relative_to(top)}" if top == ROOT / "sequencer"
        else f"sequencer/templates/{path.relative_to(top)}"
        for top in (ROOT / "sequencer", ROOT / "templates")
        for path in top.rglob("*")
        if path.is_file() and path.suffix != ".pyc"
    }  # fmt: skip
    packed = set(zipfile.ZipFile(wheel).namelist())
    assert wanted - packed == set()
    assert {name for name in packed - wanted if ".dist-info/" not in name} == set()
    assert any(name.endswith("licenses/LICENSE") for name in packed)


def test_it_plans_from_a_folder_of_its_own(site: Path, tmp_path: Path) -> None:
    where = run(sys.executable, "-c", "import sequencer; print(sequencer.__file__)",
                cwd=tmp_path, site=site)  # fmt: skip
    assert Path(where.strip()).is_relative_to(site)
    program = str(site / "bin" / "sequencer")
    run(program, "new", "job.toml", cwd=tmp_path, site=site)
    run(program, "check", "job.toml", cwd=tmp_path, site=site)
    run(program, "plan", "job.toml", "--no-pdf", "-o", "sheets", cwd=tmp_path, site=site)
    sheets = tmp_path / "sheets"
    assert sorted(path.name for path in sheets.iterdir()) == [
        "manifest.json",
        "parts.csv",
        "parts.ods",
        "plan.html",
        "plan.json",
    ]
    assert json.loads((sheets / "plan.json").read_text("utf-8"))["schema"] == "sequencer-plan/2"


def test_a_module_run_plans_too(site: Path, tmp_path: Path) -> None:
    module = (sys.executable, "-m", "sequencer")
    run(*module, "new", cwd=tmp_path, site=site)
    run(*module, "plan", "job.toml", "--no-pdf", cwd=tmp_path, site=site)
