"""What is pushed to open pages: a line for each change, whoever made it.

One watcher asks the file whether another process has written to it, for as long as pages listen.
"""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator, Callable
from contextlib import suppress
from typing import TYPE_CHECKING

from starlette.concurrency import run_in_threadpool

if TYPE_CHECKING:
    from sequencer.sawside.engine import Engine

LOOKS = 0.1
"""Seconds between two looks at the file, which another program may have written to; ours."""

BEAT = 10.0
"""Seconds after which an empty line is sent, so that a page that is gone is noticed; ours."""


class Live:
    """Wakes everybody who listens. `engine` gives the engine, or `None` until there is one."""

    def __init__(self, engine: Callable[[], Engine | None]) -> None:
        self._engine = engine
        self._listeners: set[asyncio.Event] = set()
        self._loop: asyncio.AbstractEventLoop | None = None
        self._watching: asyncio.Task[None] | None = None

    def changed(self) -> None:
        """From any thread: something was kept."""
        if self._loop is not None:
            with suppress(RuntimeError):  # the loop is closed: nobody listens any more
                self._loop.call_soon_threadsafe(self._wake)

    async def lines(self) -> AsyncIterator[str]:
        """Server-sent events: the number of the last event, at once and whenever it has changed."""
        woken = asyncio.Event()
        self._loop = asyncio.get_running_loop()
        self._listeners.add(woken)
        if self._watching is None or self._watching.done():
            self._watching = self._loop.create_task(self._watch())
        known: int | None = None
        try:
            while True:
                engine = self._engine()
                version = None if engine is None else engine.version
                yield f"data: {version}\n\n" if version not in (None, known) else ":\n\n"
                known = version
                with suppress(TimeoutError):
                    await asyncio.wait_for(woken.wait(), BEAT)
                woken.clear()
        finally:
            self._listeners.discard(woken)

    def _wake(self) -> None:
        for listener in self._listeners:
            listener.set()

    async def _watch(self) -> None:
        while self._listeners:
            await asyncio.sleep(LOOKS)
            engine = self._engine()
            if engine is not None and engine.store.written_elsewhere():
                await run_in_threadpool(engine.catch_up)
                self._wake()
