"""The one room where facts become words, for a dialect.

A `Room` says facts. The modules beside `room` hold the sentences, one module for each domain of
`sequencer.facts`, written in British spelling and marked for extraction; the catalogues hold what
another dialect says instead.
"""

from __future__ import annotations

from sequencer.wording.room import Room, for_plan

__all__ = ["Room", "for_plan"]
