"""From the plan to the text of `plan.json`."""

from __future__ import annotations

import json
import types
from collections.abc import Callable, Mapping
from fractions import Fraction
from functools import cache
from typing import Any, Union, get_args, get_origin

from sequencer.contract.shapes import NAMES, PAIRS, SCHEMA, SHAPED, fields_of, present
from sequencer.facts import Fact, written
from sequencer.plan import Caution, Cut, Measure, Plan
from sequencer.records import is_record

Encode = Callable[[Any], Any]


def to_json(plan: Plan) -> str:
    """The plan as the text of `plan.json`: one line an entry, so that two plans can be compared."""
    body: dict[str, Any] = {"schema": SCHEMA, **encoder(Plan)(plan)}
    entries = ",\n".join(f"{json.dumps(key)}: {_laid_out(value)}" for key, value in body.items())
    return f"{{\n{entries}\n}}\n"


def _laid_out(value: Any) -> str:
    def line(item: Any) -> str:
        return json.dumps(item, ensure_ascii=False)

    if isinstance(value, list) and value and isinstance(value[0], dict | list):
        return "[\n" + ",\n".join(f"  {line(item)}" for item in value) + "\n]"
    if isinstance(value, dict) and any(isinstance(item, list) for item in value.values()):
        entries = (f"{line(key)}: {_laid_out(item)}" for key, item in value.items())
        return "{" + ",\n".join(entries) + "}"
    return line(value)


@cache
def encoder(kind: Any) -> Encode:
    origin, arguments = get_origin(kind), get_args(kind)
    if kind in (Fraction, Measure):
        return str
    if kind is Fact:
        return written.to_json
    if is_record(kind):
        return _object_encoder(kind)
    if origin is tuple and arguments[-1] is Ellipsis:
        item = encoder(arguments[0])
        return lambda value: [item(entry) for entry in value]
    if origin is tuple:
        items = [encoder(argument) for argument in arguments]
        return lambda value: [encode(entry) for encode, entry in zip(items, value, strict=True)]
    if origin is Mapping:
        content = encoder(arguments[1])
        return lambda value: {key: content(entry) for key, entry in value.items()}
    if origin in (Union, types.UnionType):
        inner = encoder(present(arguments))
        return lambda value: None if value is None else inner(value)
    return lambda value: value


def _object_encoder(kind: type) -> Encode:
    plain: list[tuple[str, str, Encode]] = []
    for field, hint in fields_of(kind):
        encode = encoder(hint)
        names = PAIRS.get((kind, field))
        if names is not None:
            encode = _as_object(names)
        plain.append((field, NAMES.get((kind, field), field), encode))

    def write(value: Any) -> dict[str, Any]:
        result = {key: encode(getattr(value, field)) for field, key, encode in plain}
        if kind is Caution:
            says = result.pop("says")
            result = {"rule": value.rule, "word": value.word, **says, "source": value.source}
        if kind in SHAPED:
            del result["prism" if value.prism is None else "box"]
        if kind is Cut:
            for name in ("back", "hold", "waste"):
                if result[name] is None:
                    del result[name]
        return result

    return write


def _as_object(names: tuple[str, ...]) -> Encode:
    return lambda pair: {name: str(entry) for name, entry in zip(names, pair, strict=True)}
