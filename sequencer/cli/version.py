"""Which version of the program this is: `pyproject.toml` reads it here."""

VERSION = "0.1.0"
