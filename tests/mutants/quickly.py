"""A plugin of pytest for changed code: few random examples, which find most of what many do."""

from __future__ import annotations

import pytest
from hypothesis import Phase, settings


@pytest.hookimpl(trylast=True)
def pytest_configure() -> None:
    phases = (Phase.explicit, Phase.generate)  # what fails need not be made small
    settings.register_profile("quickly", parent=settings(), max_examples=25, phases=phases)
    settings.load_profile("quickly")
