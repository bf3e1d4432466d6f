"""The limits of a search: states, which are the same on every machine, and seconds and memory."""

from __future__ import annotations

import sys
import time

try:
    import resource
except ImportError:  # not every system has it
    resource = None  # type: ignore[assignment]

LOOK_EVERY = 256  # states between two looks at the memory


class Budget:
    """How many states may be looked at, how long, and in how many megabytes of the whole process;
    `limit` says which of them ran out."""

    def __init__(
        self, states: int | None, seconds: float | None, megabytes: float | None = None
    ) -> None:
        self.states = states
        self.end = None if seconds is None else time.monotonic() + seconds
        self.megabytes = megabytes
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
            elif self.megabytes is not None and self.spent % LOOK_EVERY == 0:
                taken = taken_megabytes()
                if taken is not None and taken > self.megabytes:
                    self.limit = "memory"
        return self.limit is not None


def taken_megabytes() -> float | None:
    """The most memory that the process has taken so far; `None` where the system does not tell."""
    if resource is None:
        return None
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return most / (1_000_000 if sys.platform == "darwin" else 1_000)  # bytes there, else kilobytes
