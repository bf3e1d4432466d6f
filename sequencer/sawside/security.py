"""What stands before the page: who may ask, from where, for what, and how much.

Plain ASGI, so that nothing is parsed before it is allowed. Every refusal looks the same from
outside: it tells neither whether a token was nearly right nor what there is to find.
"""

from __future__ import annotations

import secrets
from collections.abc import Mapping
from typing import Any

Scope = Mapping[str, Any]

MOST_BYTES = 256_000
"""Largest request body; a day of ticks is a tenth of it."""

HEADERS: tuple[tuple[bytes, bytes], ...] = (
    (
        b"content-security-policy",
        (
            b"default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; "
            b"connect-src 'self'; manifest-src 'self'; worker-src 'self'; base-uri 'none'; "
            b"form-action 'none'; frame-ancestors 'none'"
        ),
    ),
    (b"referrer-policy", b"no-referrer"),
    (b"x-content-type-options", b"nosniff"),
    (b"cross-origin-opener-policy", b"same-origin"),
    (b"cross-origin-resource-policy", b"same-origin"),
    (b"cache-control", b"no-store"),
)


class Gate:
    """Lets through what carries the token, names an allowed host, and comes from the page."""

    def __init__(self, app: Any, token: str, hosts: frozenset[str], scheme: str = "http") -> None:
        """`hosts` are the allowed values of the Host header, port included, lower case; `scheme` is
        what the page's own origin begins with."""
        self.app = app
        self.token = token
        self.hosts = hosts
        self.scheme = scheme

    async def __call__(self, scope: Any, receive: Any, send: Any) -> None:
        if scope["type"] != "http":
            if scope["type"] == "lifespan":
                await self.app(scope, receive, send)
            return

        async def guarded(message: Any) -> None:
            if message["type"] == "http.response.start":
                names = {name for name, _ in HEADERS}
                kept = [pair for pair in message.get("headers", ()) if pair[0] not in names]
                message = {**message, "headers": [*kept, *HEADERS]}
            await send(message)

        status = self._refusal(scope)
        if status:
            await _answer(guarded, status)
            return
        await self.app(scope, _Limited(receive), guarded)

    def _refusal(self, scope: Scope) -> int:
        """The status of a refusal, or 0."""
        headers = _headers(scope)
        host = headers.get(b"host", b"").decode("latin-1").lower()
        if host not in self.hosts:
            return 421
        origin = headers.get(b"origin")
        if origin is not None and origin.decode("latin-1").lower() != f"{self.scheme}://{host}":
            return 403
        if headers.get(b"sec-fetch-site", b"same-origin") not in (b"same-origin", b"none"):
            return 403
        given = str(scope["path"]).split("/", 2)[1] if str(scope["path"]).count("/") else ""
        if not secrets.compare_digest(given.encode(), self.token.encode()):
            return 404
        if scope["method"] == "POST":
            if headers.get(b"content-type", b"").partition(b";")[0] != b"application/json":
                return 415
            if not _small(headers.get(b"content-length")):
                return 413
        elif scope["method"] not in ("GET", "HEAD"):
            return 405
        return 0


class TooLargeError(Exception):
    """A body that is longer than it said, or than is taken."""


class _Limited:
    """Counts what comes in, whatever the header said."""

    def __init__(self, receive: Any) -> None:
        self.receive = receive
        self.had = 0

    async def __call__(self) -> Any:
        message = await self.receive()
        self.had += len(message.get("body", b""))
        if self.had > MOST_BYTES:
            raise TooLargeError
        return message


def _headers(scope: Scope) -> dict[bytes, bytes]:
    """By name; a header given twice counts as wrong."""
    found: dict[bytes, bytes] = {}
    for name, value in scope["headers"]:
        found[name] = b"twice" if name in found else value
    return found


def _small(length: bytes | None) -> bool:
    return length is not None and length.isdigit() and int(length[:12]) <= MOST_BYTES


async def _answer(send: Any, status: int) -> None:
    body = b"not here"
    headers = [
        (b"content-type", b"text/plain; charset=utf-8"),
        (b"content-length", str(len(body)).encode()),
        (b"connection", b"close"),
    ]
    await send({"type": "http.response.start", "status": status, "headers": headers})
    await send({"type": "http.response.body", "body": body})
