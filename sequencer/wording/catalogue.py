"""The catalogues, in gettext's format, and the marks by which Babel finds what goes into them."""

from __future__ import annotations

import gettext
from collections.abc import Callable
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, TypeAlias, Union

from msgspec import Struct

from sequencer.facts import Dialect

if TYPE_CHECKING:
    from sequencer.facts import Fact, Kind
    from sequencer.wording.room import Room

LOCALES: dict[Dialect, str] = {"US": "en_US", "UK": "en_GB"}
FOLDER = Path(__file__).parent / "catalogues"
DOMAIN = "sequencer"


def _(text: str) -> str:
    """Mark a text for the catalogues, where it stands; it is translated when it is said."""
    return text


class Counted(Struct, frozen=True):
    """One text for a count of 1, another for every other; `by` names the count."""

    one: str
    other: str
    by: str = "n"


def counted_(one: str, other: str, by: str = "n") -> Counted:
    """Mark both texts for the catalogues."""
    return Counted(one, other, by)


Wording: TypeAlias = Union[str, Counted, "Callable[[Room, Fact], str]"]
"""A text with `{places}` for the fact's parameters; a function for what no text alone can say."""

Table: TypeAlias = "dict[Kind, Wording]"


@lru_cache(maxsize=4)
def catalogue(dialect: Dialect) -> gettext.NullTranslations:
    """What the dialect says instead of the British text; the UK says just that, so that nothing is
    read for it."""
    if dialect == "UK":
        return gettext.NullTranslations()
    return gettext.translation(DOMAIN, FOLDER, [LOCALES[dialect]])
