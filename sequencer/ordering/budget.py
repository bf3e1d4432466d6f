"""The limits of a search: states, which are the same on every machine, and seconds on top."""

from __future__ import annotations

import time


class Budget:
    """How many states may be looked at, and how long; `limit` says which of the two ran out."""

    def __init__(self, states: int | None, seconds: float | None) -> None:
        self.states = states
        self.end = None if seconds is None else time.monotonic() + seconds
        self.limit: str | None = None
        self.spent = 0

    def out(self) -> bool:
        """Counts one state, and says whether the limits are reached."""
        self.spent += 1
        if self.limit is None:
            if self.states is not None and self.spent > self.states:
                self.limit = "states"
            elif self.end is not None and time.monotonic() > self.end:
                self.limit = "seconds"
        return self.limit is not None
