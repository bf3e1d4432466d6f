"""What stages take and give: records, nearly all of them frozen `msgspec.Struct`s.

To make such a class takes a fortieth of what a frozen dataclass takes, and there are hundreds: that
is a sixth of a second at each start. A dataclass is what needs more than a record has: a field that
does not count when two are compared, or a value that is worked out once and kept.
"""

from __future__ import annotations

import dataclasses
from typing import TYPE_CHECKING, Any

import msgspec
from msgspec import Struct

if TYPE_CHECKING:
    from dataclasses import replace
else:

    def replace(record, /, **changes):
        """The record with other values in these fields. Raises `TypeError` for fields that it does
        not have."""
        change = msgspec.structs if isinstance(record, Struct) else dataclasses
        return change.replace(record, **changes)


__all__ = ["defaults", "is_record", "names", "replace"]


def is_record(kind: Any) -> bool:
    """Whether a type is one of a record."""
    return isinstance(kind, type) and (issubclass(kind, Struct) or dataclasses.is_dataclass(kind))


def names(kind: Any) -> tuple[str, ...]:
    """The fields of a record, or of its type, in order."""
    if hasattr(kind, "__struct_fields__"):
        return tuple(kind.__struct_fields__)
    return tuple(field.name for field in dataclasses.fields(kind))


def defaults(kind: Any) -> dict[str, Any]:
    """The fields of a type that have a value to begin with, and it; not those that make one."""
    struct = issubclass(kind, Struct)
    none = msgspec.NODEFAULT if struct else dataclasses.MISSING
    fields: Any = msgspec.structs.fields(kind) if struct else dataclasses.fields(kind)
    return {field.name: field.default for field in fields if field.default is not none}
