"""Flags of the test run: `--large` for the long variants, `--refresh` for the golden documents."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, settings

# Shared machines pause at any moment, so no test is judged by its time. The same examples every
# run: a failure seen once is seen again.
for _name, _examples in (("ordinary", 100), ("large", 2000)):
    settings.register_profile(
        _name,
        max_examples=_examples,
        deadline=None,
        derandomize=True,
        suppress_health_check=[HealthCheck.too_slow],
    )


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--large", action="store_true", help="run the long variants of the tests too")
    parser.addoption(
        "--refresh", action="store_true", help="rewrite golden documents instead of comparing"
    )


def pytest_configure(config: pytest.Config) -> None:
    config.addinivalue_line("markers", "large: runs only with --large")
    config.addinivalue_line("markers", "step(label): everything before this step is done already")
    settings.load_profile("large" if config.getoption("--large") else "ordinary")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    if not config.getoption("--large"):
        for item in items:
            if item.get_closest_marker("large"):
                item.add_marker(pytest.mark.skip(reason="needs --large"))


@pytest.fixture
def large(request: pytest.FixtureRequest) -> bool:
    """Whether the long variants were asked for."""
    return bool(request.config.getoption("--large"))


@pytest.fixture
def refresh(request: pytest.FixtureRequest) -> bool:
    """Whether golden documents are to be rewritten."""
    return bool(request.config.getoption("--refresh"))
