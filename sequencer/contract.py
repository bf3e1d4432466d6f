"""The plan as `plan.json` (schema `sequencer-plan/1`) and back: the one contract with others.

Numbers are exact rationals in lowest terms, as strings (`"23/4"`, `"19"`); `to_json` and
`from_json` undo each other. The shapes follow the types in `plan.py`; what is written otherwise
than its field stands in the tables below.
"""

from __future__ import annotations

import dataclasses
import json
import re
import types
from collections.abc import Callable, Mapping
from fractions import Fraction
from functools import cache
from typing import Any, Literal, Union, get_args, get_origin, get_type_hints

from sequencer.errors import Fault, InputError
from sequencer.plan import (
    Box,
    Caution,
    Checkpoint,
    Cut,
    Door,
    Feature,
    Ordering,
    Part,
    Plan,
    Prism,
    Removal,
    Setup,
    ShopFacts,
    Step,
    Stick,
    StickPiece,
)

SCHEMA = "sequencer-plan/1"

_NAMES: Mapping[tuple[type, str], str] = {(StickPiece, "start"): "from"}
"""Fields whose key has another name."""

_PAIRS: Mapping[tuple[type, str], tuple[str, ...]] = {
    (Door, "opening"): ("width", "height"),
    (Door, "size"): ("width", "height"),
}
"""Pairs that are written as an object with these keys."""

_SHAPED = (Feature, Removal)
"""What has a `prism` instead of a `box` where it is no box."""

_ZERO = Fraction(0)
_OPTIONAL: Mapping[type, Mapping[str, Any]] = {
    Door: {"job": "", "name": "", "at": (_ZERO, _ZERO), "face_side": "out", "pair": ()},
    Feature: {"mate": None},
    Part: {"material": "", "name": ""},
    Stick: {"material": "", "test": False},
    Setup: {"changes": (), "why": ()},
    Step: {"cuts": (), "removes": (), "marks": ()},
    Ordering: {"limit": None, "baselines": (), "compared": (), "left_out": ()},
    ShopFacts: {
        "name": "",
        "decks": {},
        "jig_rides": "",
        "jig_thickness": _ZERO,
        "jig_opening": _ZERO,
        "sled_longest": _ZERO,
        "sled_widest": _ZERO,
        "max_height": _ZERO,
        "hold_down": "",
        "cover": None,
        "cutters": {},
    },
    Plan: {"methods": (), "assumptions": (), "notes": (), "proven": None},
}
"""Keys that a file may leave out, and what stands for them then. Other defaults are the type's."""

_RATIONAL = re.compile(r"-?(0|[1-9][0-9]{0,59})(/[1-9][0-9]{0,59})?")

Encode = Callable[[Any], Any]
Decode = Callable[[Any, str, list[str]], Any]


def to_json(plan: Plan) -> str:
    """The plan as the text of `plan.json`: one line an entry, so that two plans can be compared."""
    body: dict[str, Any] = {"schema": SCHEMA, **_encoder(Plan)(plan)}
    entries = ",\n".join(f"{json.dumps(key)}: {_laid_out(value)}" for key, value in body.items())
    return f"{{\n{entries}\n}}\n"


def from_json(text: str, file: str = "plan.json") -> Plan:
    """Read the text of a `plan.json`; `file` names it in messages.

    Raises InputError with every fault found: what is not JSON, another schema, a key that is
    missing, a value of another kind, a number that is not an exact rational in lowest terms.
    Keys that are not known are passed over.
    """
    try:
        data = json.loads(text, object_pairs_hook=_object, parse_constant=_no_constant)
    except json.JSONDecodeError as error:
        raise InputError(
            (Fault(file, error.lineno, error.colno, f"not JSON: {error.msg}"),)
        ) from None
    except (ValueError, RecursionError) as error:
        raise InputError((Fault(file, 0, 0, f"not JSON that can be read: {error}"),)) from None
    if not isinstance(data, dict):
        raise InputError((Fault(file, 0, 0, "a plan is one JSON object"),))
    if data.get("schema") != SCHEMA:
        message = f'schema is {_shown(data.get("schema"))}, not "{SCHEMA}"'
        raise InputError((Fault(file, 0, 0, message, "plan the job again to write it anew"),))
    found: list[str] = []
    plan = _decoder(Plan)(data, "", found)
    if found:
        raise InputError(tuple(Fault(file, 0, 0, message) for message in found))
    assert isinstance(plan, Plan)
    return plan


def _object(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    result = dict(pairs)
    if len(result) < len(pairs):
        keys = [key for key, _ in pairs]
        raise ValueError(f'key "{next(key for key in keys if keys.count(key) > 1)}" stands twice')
    return result


def _no_constant(name: str) -> None:
    raise ValueError(f"{name} is no number")


def _laid_out(value: Any) -> str:
    def line(item: Any) -> str:
        return json.dumps(item, ensure_ascii=False)

    if isinstance(value, list) and value and isinstance(value[0], dict | list):
        return "[\n" + ",\n".join(f"  {line(item)}" for item in value) + "\n]"
    if isinstance(value, dict) and any(isinstance(item, list) for item in value.values()):
        entries = (f"{line(key)}: {_laid_out(item)}" for key, item in value.items())
        return "{" + ",\n".join(entries) + "}"
    return line(value)


def _shown(value: Any) -> str:
    text = json.dumps(value, ensure_ascii=False)
    return text if len(text) <= 40 else f"{text[:37]}..."


# --- writing -------------------------------------------------------------------------------------


@cache
def _encoder(kind: Any) -> Encode:
    origin, arguments = get_origin(kind), get_args(kind)
    if kind is Fraction:
        return str
    if dataclasses.is_dataclass(kind):
        return _object_encoder(kind)  # type: ignore[arg-type]  # a class, not an instance
    if origin is tuple and arguments[-1] is Ellipsis:
        item = _encoder(arguments[0])
        return lambda value: [item(entry) for entry in value]
    if origin is tuple:
        items = [_encoder(argument) for argument in arguments]
        return lambda value: [encode(entry) for encode, entry in zip(items, value, strict=True)]
    if origin is Mapping:
        content = _encoder(arguments[1])
        return lambda value: {key: content(entry) for key, entry in value.items()}
    if origin in (Union, types.UnionType):
        inner = _encoder(_present(arguments))
        return lambda value: None if value is None else inner(value)
    return lambda value: value


def _object_encoder(kind: type) -> Encode:
    plain: list[tuple[str, str, Encode]] = []
    for field, hint in _fields(kind):
        encode = _encoder(hint)
        names = _PAIRS.get((kind, field))
        if names is not None:
            encode = _as_object(names)
        plain.append((field, _NAMES.get((kind, field), field), encode))

    def write(value: Any) -> dict[str, Any]:
        result = {key: encode(getattr(value, field)) for field, key, encode in plain}
        if kind is Setup:
            result["caution_parts"] = result["cautions"]
            result["cautions"] = [_sentence(caution) for caution in value.cautions]
        if kind in _SHAPED:
            del result["prism" if value.prism is None else "box"]
        if kind is Cut and value.back is None:
            del result["back"]
        return result

    return write


def _as_object(names: tuple[str, ...]) -> Encode:
    return lambda pair: {name: str(entry) for name, entry in zip(names, pair, strict=True)}


def _sentence(caution: Caution) -> str:
    parts = (caution.hazard, caution.consequence, caution.avoidance)
    sentences = (part if part.endswith((".", "!")) else f"{part}." for part in parts if part)
    return f"{caution.word}: {' '.join(sentences)}"


# --- reading -------------------------------------------------------------------------------------


@cache
def _decoder(kind: Any) -> Decode:
    origin, arguments = get_origin(kind), get_args(kind)
    if kind is Fraction:
        return _read_rational
    if kind in (str, bool, int):
        return _plain_decoder(kind)
    if dataclasses.is_dataclass(kind):
        return _object_decoder(kind)  # type: ignore[arg-type]  # a class, not an instance
    if origin is tuple:
        return _list_decoder(arguments)
    if origin is Mapping:
        return _mapping_decoder(arguments[1])
    if origin is Literal:
        return _choice_decoder(arguments)
    if origin in (Union, types.UnionType):
        inner = _decoder(_present(arguments))
        return lambda value, place, found: None if value is None else inner(value, place, found)
    raise TypeError(f"no JSON form for {kind}")


def _read_rational(value: Any, place: str, found: list[str]) -> Fraction:
    if not isinstance(value, str):
        found.append(f'{place}: a number is written as a string, as "23/4", not {_shown(value)}')
        return _ZERO
    number = _rational(value)
    if number is None:
        found.append(f'{place}: {_shown(value)} is no rational in lowest terms, as "23/4" or "19"')
        return _ZERO
    return number


@cache
def _rational(text: str) -> Fraction | None:
    if not _RATIONAL.fullmatch(text):
        return None
    number = Fraction(text)
    return number if str(number) == text else None


def _plain_decoder(kind: type) -> Decode:
    name = {str: "a string", bool: "true or false", int: "a whole number"}[kind]

    def read(value: Any, place: str, found: list[str]) -> Any:
        if type(value) is not kind:
            found.append(f"{place}: {name} is wanted, not {_shown(value)}")
            return kind()
        return value

    return read


def _choice_decoder(choices: tuple[Any, ...]) -> Decode:
    listed = ", ".join(str(choice) for choice in choices)

    def read(value: Any, place: str, found: list[str]) -> Any:
        if value not in choices:
            found.append(f"{place}: {_shown(value)} is none of {listed}")
            return choices[0]
        return value

    return read


def _list_decoder(arguments: tuple[Any, ...]) -> Decode:
    repeated = arguments[-1] is Ellipsis
    items = [_decoder(argument) for argument in arguments if argument is not Ellipsis]

    def read(value: Any, place: str, found: list[str]) -> Any:
        if not isinstance(value, list) or not (repeated or len(value) == len(items)):
            count = "" if repeated else f" of {len(items)}"
            found.append(f"{place}: a list{count} is wanted, not {_shown(value)}")
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

    def read(value: Any, place: str, found: list[str]) -> Any:
        if not isinstance(value, dict):
            found.append(f"{place}: an object is wanted, not {_shown(value)}")
            return {}
        return {key: decode(entry, f"{place}.{key}", found) for key, entry in value.items()}

    return read


def _pair_decoder(names: tuple[str, ...]) -> Decode:
    def read(value: Any, place: str, found: list[str]) -> Any:
        if not isinstance(value, dict) or not set(names) <= value.keys():
            found.append(f"{place}: an object with {' and '.join(names)} is wanted")
            return (_ZERO,) * len(names)
        return tuple(_read_rational(value[name], f"{place}.{name}", found) for name in names)

    return read


def _object_decoder(kind: type) -> Decode:
    optional: dict[str, Any] = {
        field.name: field.default
        for field in dataclasses.fields(kind)
        if field.default is not dataclasses.MISSING
    }
    optional.update(_OPTIONAL.get(kind, {}))
    plain: list[tuple[str, str, Decode]] = []
    for field, hint in _fields(kind):
        names = _PAIRS.get((kind, field))
        decode = _pair_decoder(names) if names is not None else _decoder(hint)
        plain.append((field, _NAMES.get((kind, field), field), decode))

    def read(value: Any, place: str, found: list[str]) -> Any:
        if not isinstance(value, dict):
            found.append(f"{place or 'plan'}: an object is wanted, not {_shown(value)}")
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
                found.append(f'{place or "plan"}: key "{key}" is missing')
                arguments[field] = None
        return kind(**arguments)

    return read


def _filled(kind: type, value: dict[str, Any]) -> dict[str, Any]:
    """The object with what its other keys say of a key that was added to the given ones."""
    if kind is Setup:
        sentences = value.get("cautions", [])
        parts = value.get("caution_parts")
        if parts is None and isinstance(sentences, list):
            parts = [
                {
                    "rule": "",
                    "word": "CAUTION",
                    "hazard": sentence,
                    "consequence": "",
                    "avoidance": "",
                    "source": "",
                }
                for sentence in sentences
            ]
        return {**value, "cautions": parts}
    if kind in _SHAPED and "box" not in value and value.get("prism") is not None:
        wrong: list[str] = []
        prism = _decoder(Prism)(value["prism"], "", wrong)
        if not wrong and prism.axes in ("xy", "xz", "yz") and prism.corners:
            return {**value, "box": _encoder(Box)(prism.box)}
    if kind is Stick and "size" in value:
        return {"blank": value["size"], **value}
    if kind is Checkpoint and "before_step" in value:
        return {"at_step": value["before_step"], **value}
    return value


def _fields(kind: type) -> list[tuple[str, Any]]:
    hints = get_type_hints(kind)
    return [(field.name, hints[field.name]) for field in dataclasses.fields(kind)]


def _present(arguments: tuple[Any, ...]) -> Any:
    """The one kind beside None in an optional field."""
    (kind,) = (argument for argument in arguments if argument is not types.NoneType)
    return kind
