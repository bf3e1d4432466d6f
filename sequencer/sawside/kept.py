"""Plans as they lie in the store: each under a seal of what it is and what it was made for.

A seal finds what was altered by chance or by hand, and what was put under another job's name.
Whoever reads a plan back proves it again besides, so that no seal made anew shows a wrong one.
"""

from __future__ import annotations

from hashlib import sha256

from sequencer.contract import SCHEMA

FORM = "kept/1"
"""Of what lies in the store; what was kept in another way is made again."""


def sealed(key: str, body: str) -> str:
    """The text to keep under `key`."""
    return f"{FORM} {_seal(key, body)} {body}"


def unsealed(key: str, kept: str) -> str | None:
    """The text again; `None` where it is not what was kept there.

    >>> kept = sealed("base a", "{}")
    >>> unsealed("base a", kept), unsealed("base b", kept), unsealed("base a", "{}")
    ('{}', None, None)
    """
    form, _, rest = kept.partition(" ")
    seal, _, body = rest.partition(" ")
    return body if form == FORM and seal == _seal(key, body) else None


def _seal(key: str, body: str) -> str:
    return sha256(f"{SCHEMA}\0{key}\0{body}".encode()).hexdigest()[:32]
