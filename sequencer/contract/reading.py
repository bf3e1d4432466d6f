"""From the text of `plan.json` to the plan, with every fault found."""

from __future__ import annotations

import json
import re
import types
from collections.abc import Callable, Mapping
from fractions import Fraction
from functools import cache
from typing import Any, Literal, Union, get_args, get_origin

from sequencer.contract.shapes import (
    NAMES,
    OPTIONAL,
    PAIRS,
    SCHEMA,
    SHAPED,
    ZERO,
    fields_of,
    present,
)
from sequencer.contract.writing import encoder
from sequencer.errors import Fault, InputError
from sequencer.facts import Fact, contracts, written
from sequencer.lengths import Unit
from sequencer.plan import Box, Caution, Checkpoint, Measure, Plan, Prism, Stick
from sequencer.records import defaults, is_record

_RATIONAL = re.compile(r"-?(0|[1-9][0-9]{0,59})(/[1-9][0-9]{0,59})?")

Decode = Callable[[Any, str, "Found"], Any]


class Found(list[Fact]):
    """What is wrong, gathered on the way; `unit` is that of the plan's lengths."""

    unit: Unit = "in"


def from_json(text: str, file: str = "plan.json") -> Plan:
    """Read the text of a `plan.json`; `file` names it in messages.

    Raises InputError with every fault found: what is not JSON, another schema, a key that is
    missing, a value of another kind, a number that is not an exact rational in lowest terms.
    Keys that are not known are passed over.
    """
    try:
        data = json.loads(text, object_pairs_hook=_object, parse_constant=_no_constant)
    except json.JSONDecodeError as error:
        fault = Fault(file, error.lineno, error.colno, contracts.NOT_JSON())
        raise InputError((fault,)) from None
    except (ValueError, RecursionError) as error:
        why = error.why if isinstance(error, _UnreadableError) else contracts.TOO_DEEP()
        raise InputError((Fault(file, 0, 0, contracts.UNREADABLE(why=why)),)) from None
    if not isinstance(data, dict):
        raise InputError((Fault(file, 0, 0, contracts.NO_PLAN()),))
    if data.get("schema") != SCHEMA:
        message = contracts.OTHER_SCHEMA(schema=_shown(data.get("schema")), wanted=SCHEMA)
        raise InputError((Fault(file, 0, 0, message, contracts.PLAN_AGAIN()),))
    found = Found()
    found.unit = "mm" if data.get("unit") == "mm" else "in"
    plan = _decoder(Plan)(data, "", found)
    if found:
        raise InputError(tuple(Fault(file, 0, 0, message) for message in found))
    assert isinstance(plan, Plan)
    return plan


class _UnreadableError(ValueError):
    """Raised out of the JSON reader, which lets a `ValueError` through."""

    def __init__(self, why: Fact) -> None:
        self.why = why
        super().__init__(str(why))


def _object(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    result = dict(pairs)
    if len(result) < len(pairs):
        keys = [key for key, _ in pairs]
        twice = next(key for key in keys if keys.count(key) > 1)
        raise _UnreadableError(contracts.KEY_TWICE(key=twice))
    return result


def _no_constant(name: str) -> None:
    raise _UnreadableError(contracts.NOT_A_NUMBER(text=name))


def _shown(value: Any) -> str:
    text = json.dumps(value, ensure_ascii=False)
    return text if len(text) <= 40 else f"{text[:37]}..."


@cache
def _decoder(kind: Any) -> Decode:
    origin, arguments = get_origin(kind), get_args(kind)
    if kind is Fraction:
        return _read_rational
    if kind is Fact:
        return _read_fact
    if kind is Measure:
        return _read_measure
    if kind in (str, bool, int):
        return _plain_decoder(kind)
    if is_record(kind):
        return _object_decoder(kind)
    if origin is tuple:
        return _list_decoder(arguments)
    if origin is Mapping:
        return _mapping_decoder(arguments[1])
    if origin is Literal:
        return _choice_decoder(arguments)
    if origin in (Union, types.UnionType):
        inner = _decoder(present(arguments))
        return lambda value, place, found: None if value is None else inner(value, place, found)
    raise TypeError(f"no JSON form for {kind}")


def _read_rational(value: Any, place: str, found: Found) -> Fraction:
    if not isinstance(value, str):
        found.append(contracts.NO_STRING(place=place, value=_shown(value)))
        return ZERO
    number = _rational(value)
    if number is None:
        found.append(contracts.NO_RATIONAL(place=place, value=_shown(value)))
        return ZERO
    return number


def _read_fact(value: Any, place: str, found: Found) -> Fact | None:
    try:
        return written.from_json(value, found.unit)
    except (ValueError, TypeError, LookupError):
        found.append(contracts.NO_FACT(place=place, value=_shown(value)))
        return None


def _read_measure(value: Any, place: str, found: Found) -> Measure | None:
    try:
        return Measure.parse(value)
    except (AttributeError, ValueError):
        found.append(contracts.NO_MEASURE(place=place, value=_shown(value)))
        return None


@cache
def _rational(text: str) -> Fraction | None:
    if not _RATIONAL.fullmatch(text):
        return None
    number = Fraction(text)
    return number if str(number) == text else None


def _want(wanted: Fact, value: Any, place: str, found: Found) -> None:
    found.append(contracts.WANTED(place=place, wanted=wanted, value=_shown(value)))


def _plain_decoder(kind: type) -> Decode:
    wanted = {
        str: contracts.A_STRING, bool: contracts.TRUE_OR_FALSE, int: contracts.WHOLE_NUMBER,
    }[kind]()  # fmt: skip

    def read(value: Any, place: str, found: Found) -> Any:
        if type(value) is not kind:
            _want(wanted, value, place, found)
            return kind()
        return value

    return read


def _choice_decoder(choices: tuple[Any, ...]) -> Decode:
    listed = tuple(str(choice) for choice in choices)

    def read(value: Any, place: str, found: Found) -> Any:
        if value not in choices:
            found.append(contracts.NONE_OF(place=place, value=_shown(value), choices=listed))
            return choices[0]
        return value

    return read


def _list_decoder(arguments: tuple[Any, ...]) -> Decode:
    repeated = arguments[-1] is Ellipsis
    items = [_decoder(argument) for argument in arguments if argument is not Ellipsis]
    wanted = contracts.A_LIST() if repeated else contracts.A_LIST_OF(n=len(items))

    def read(value: Any, place: str, found: Found) -> Any:
        if not isinstance(value, list) or not (repeated or len(value) == len(items)):
            _want(wanted, value, place, found)
            return ()
        decoders = items * len(value) if repeated else items
        return tuple(
            [
                decode(entry, f"{place}[{index}]", found)
                for index, (decode, entry) in enumerate(zip(decoders, value, strict=True))
            ]
        )

    return read


def _mapping_decoder(content: Any) -> Decode:
    decode = _decoder(content)

    def read(value: Any, place: str, found: Found) -> Any:
        if not isinstance(value, dict):
            _want(contracts.AN_OBJECT(), value, place, found)
            return {}
        return {key: decode(entry, f"{place}.{key}", found) for key, entry in value.items()}

    return read


def _pair_decoder(names: tuple[str, ...]) -> Decode:
    def read(value: Any, place: str, found: Found) -> Any:
        if not isinstance(value, dict) or not set(names) <= value.keys():
            _want(contracts.AN_OBJECT_WITH(keys=names), value, place, found)
            return (ZERO,) * len(names)
        return tuple(_read_rational(value[name], f"{place}.{name}", found) for name in names)

    return read


def _object_decoder(kind: type) -> Decode:
    optional = defaults(kind) | dict(OPTIONAL.get(kind, {}))
    plain: list[tuple[str, str, Decode]] = []
    for field, hint in fields_of(kind):
        names = PAIRS.get((kind, field))
        decode = _pair_decoder(names) if names is not None else _decoder(hint)
        plain.append((field, NAMES.get((kind, field), field), decode))

    def read(value: Any, place: str, found: Found) -> Any:
        if not isinstance(value, dict):
            _want(contracts.AN_OBJECT(), value, place or "plan", found)
            return None
        value = _filled(kind, value)
        before = f"{place}." if place else ""
        arguments: dict[str, Any] = {}
        for field, key, decode in plain:
            if key in value:
                arguments[field] = decode(value[key], before + key, found)
            elif field in optional:
                arguments[field] = optional[field]
            else:
                found.append(contracts.MISSING(place=place or "plan", key=key))
                arguments[field] = None
        return kind(**arguments)

    return read


def _filled(kind: type, value: dict[str, Any]) -> dict[str, Any]:
    """The object with what its other keys say of a key that was added to the given ones."""
    if kind is Caution and "id" in value:
        return {**value, "says": {"id": value["id"], "with": value.get("with", {})}}
    if kind in SHAPED and "box" not in value and value.get("prism") is not None:
        wrong = Found()
        prism = _decoder(Prism)(value["prism"], "", wrong)
        if not wrong and prism.axes in ("xy", "xz", "yz") and prism.corners:
            return {**value, "box": encoder(Box)(prism.box)}
    if kind is Stick and "size" in value:
        return {"blank": value["size"], **value}
    if kind is Checkpoint and "before_step" in value:
        return {"at_step": value["before_step"], **value}
    return value
