"""Where the saved settings are kept."""

from __future__ import annotations

from pathlib import Path


def settings_path(file: str | None) -> Path:
    """The file named, else `settings.sqlite` in the user's data folder, as the operating system
    places it."""
    import platformdirs

    if file is not None:
        return Path(file)
    return platformdirs.user_data_path("sequencer", appauthor=False) / "settings.sqlite"
