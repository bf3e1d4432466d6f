"""Where the saved settings are kept when no file is named."""

from __future__ import annotations

from pathlib import Path


def default_path() -> Path:
    """`settings.sqlite` in the user's data folder, as the operating system places it."""
    import platformdirs

    return platformdirs.user_data_path("sequencer", appauthor=False) / "settings.sqlite"
