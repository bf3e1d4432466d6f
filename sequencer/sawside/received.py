"""What a page sends, as events; anything else is refused."""

from __future__ import annotations

import json
from typing import Any

from sequencer.facts import taps
from sequencer.sawside.state import TapError
from sequencer.sawside.store import Event

MOST_EVENTS = 500
"""Events taken in one request; a page sends a hundred."""


def events_of(body: bytes, now: int) -> list[Event]:
    """The events that the page sends. Raises `TapError` where it is anything else."""
    try:
        asked = json.loads(body)
    except (ValueError, RecursionError):  # no JSON, no text, or a number of thousands of digits
        raise TapError(taps.NOT_UNDERSTOOD()) from None
    events = asked.get("events") if isinstance(asked, dict) else None
    if not isinstance(events, list) or len(events) > MOST_EVENTS:
        raise TapError(taps.NOT_UNDERSTOOD())
    try:
        return [_event_of(raw, now) for raw in events]
    except RecursionError:  # it came in by a hair, and does not go out again
        raise TapError(taps.NOT_UNDERSTOOD()) from None


def kind_of(event: Event) -> object:
    """What kind of tap it is. Raises `TapError` for a base: which files are followed is for the
    program to say, and the page takes those by their digest."""
    kind = event.body.get("kind")
    if kind == "base":
        raise TapError(taps.NO_SUCH_TAP())
    return kind


def _event_of(raw: Any, now: int) -> Event:
    if not isinstance(raw, dict):
        raise TapError(taps.NOT_UNDERSTOOD())
    id_, age = raw.get("id"), raw.get("age", 0)
    if not isinstance(id_, str) or not 8 <= len(id_) <= 64 or not id_.isascii():
        raise TapError(taps.WITHOUT(key="id"))
    if not isinstance(age, int) or isinstance(age, bool) or age < 0:
        age = 0
    body = {key: value for key, value in raw.items() if key not in ("id", "age")}
    if len(json.dumps(body)) > 1000:
        raise TapError(taps.TOO_LONG())
    try:
        json.dumps(body, ensure_ascii=False).encode()
    except UnicodeEncodeError:  # half a character: it could not be said in any answer
        raise TapError(taps.NOT_UNDERSTOOD()) from None
    return Event(id_, now - min(age, 7 * 86_400_000), body)
