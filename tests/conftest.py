"""Flags of the test run: `--large` for the long variants, `--refresh` for the golden documents.

Examples at random are drawn from a seed that each commit has of its own: one commit's run is the
same wherever it runs, and the next one's looks elsewhere. `--hypothesis-seed N` repeats another's.
"""

from __future__ import annotations

import os
import subprocess
from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING

import hypothesis
import pytest
from hypothesis import HealthCheck, settings

from tests import once

if TYPE_CHECKING:
    from playwright.sync_api import Playwright

# Shared machines pause at any moment, so no test is judged by its time. Nothing is remembered from
# run to run: a failure seen once is seen again with the same seed.
for _name, _examples in (("ordinary", 40), ("large", 2000)):
    settings.register_profile(
        _name,
        max_examples=_examples,
        deadline=None,
        derandomize=False,
        database=None,
        suppress_health_check=[HealthCheck.too_slow],
    )


SEED = pytest.StashKey[int]()
PLANS = pytest.StashKey[TemporaryDirectory[str]]()


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--large", action="store_true", help="run the long variants of the tests too")
    parser.addoption(
        "--refresh", action="store_true", help="rewrite golden documents instead of comparing"
    )


def pytest_configure(config: pytest.Config) -> None:
    os.environ["LC_ALL"] = "C.UTF-8"  # the words where nothing was read yet follow the locale
    config.addinivalue_line("markers", "large: runs only with --large")
    config.addinivalue_line("markers", "step(label): everything before this step is done already")
    settings.load_profile("large" if config.getoption("--large") else "ordinary")
    given = config.getoption("--hypothesis-seed")
    config.stash[SEED] = commit_seed() if given is None else int(given)
    vars(hypothesis.core)["global_force_seed"] = config.stash[SEED]
    if once.FOLDER not in os.environ:
        config.stash[PLANS] = TemporaryDirectory()
        os.environ[once.FOLDER] = config.stash[PLANS].name
        # No test sees what the user's own program keeps, nor leaves anything there.
        os.environ["XDG_DATA_HOME"] = str(Path(config.stash[PLANS].name, "data"))


def pytest_unconfigure(config: pytest.Config) -> None:
    if PLANS in config.stash:
        del os.environ[once.FOLDER]
        config.stash[PLANS].cleanup()


def commit_seed() -> int:
    """The first eight digits of the commit's name as a number; 0 outside a repository."""
    command = ["git", "rev-parse", "--short=8", "HEAD"]
    try:
        done = subprocess.run(
            command, cwd=Path(__file__).parent, capture_output=True, text=True, check=True
        )
    except (OSError, subprocess.CalledProcessError):
        return 0
    return int(done.stdout.strip()[:8], 16)


def pytest_report_header(config: pytest.Config) -> str:
    return _seed_line(config)


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """The seed again where there was no header."""
    if terminalreporter.config.get_verbosity() < 0:
        terminalreporter.write_line(_seed_line(terminalreporter.config))


def _seed_line(config: pytest.Config) -> str:
    return f"random examples: --hypothesis-seed={config.stash[SEED]} repeats them"


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    if not config.getoption("--large"):
        for item in items:
            if item.get_closest_marker("large"):
                item.add_marker(pytest.mark.skip(reason="needs --large"))


@pytest.fixture(scope="session")
def driver() -> Iterator[Playwright]:
    """What starts browsers; a process can have one only."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as started:
        yield started


@pytest.fixture
def large(request: pytest.FixtureRequest) -> bool:
    """Whether the long variants were asked for."""
    return bool(request.config.getoption("--large"))


@pytest.fixture
def refresh(request: pytest.FixtureRequest) -> bool:
    """Whether golden documents are to be rewritten."""
    return bool(request.config.getoption("--refresh"))


@pytest.fixture
def seed(request: pytest.FixtureRequest) -> int:
    """The seed of this run's random examples."""
    return request.config.stash[SEED]
