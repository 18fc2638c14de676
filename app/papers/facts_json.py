"""Frozen facts as JSON text and back, for the book: an issued paper is rendered again from exactly these."""

from __future__ import annotations

import json
import types
from collections.abc import Callable
from dataclasses import MISSING, fields
from datetime import UTC, date, datetime
from decimal import Decimal
from enum import Enum
from functools import cache
from typing import Any, NamedTuple, Self, Union, get_args, get_origin, get_type_hints

from app.trade.money import Money
from app.trade.sentence import Measure, Sentence


class Frozen:
    """Base of every facts dataclass: plain values only, written as JSON and read back equal."""

    def to_json(self) -> str:
        """The facts as one line of JSON, keys sorted, so that equal facts give equal text."""
        return json.dumps(pack(self), ensure_ascii=False, sort_keys=True)

    @classmethod
    def from_json(cls, text: str) -> Self:
        """The facts that `to_json` wrote. A name left out takes its default.

        Raises ValueError for an unknown name, a missing one without default, or a value of the wrong kind.
        """
        facts: Self = unpack(json.loads(text), cls)
        return facts


def pack(value: Any) -> Any:
    """A value of a facts dataclass as JSON data; kinds that JSON lacks carry their name."""
    match value:
        case None | bool() | Enum():
            return value.value if isinstance(value, Enum) else value
        case int() | str():
            return value
        case Decimal():
            return {"decimal": str(value)}
        case datetime():
            if value.tzinfo is None:
                raise ValueError("a naive instant has no place on a paper")
            return {"instant": value.astimezone(UTC).isoformat()}
        case date():
            return {"day": value.isoformat()}
        case Money():
            return {"money": [value.minor, value.currency]}
        case Measure():
            return {"measure": [str(value.value), value.unit, value.signed]}
        case Sentence():
            return {"sentence": [value.key, json.loads(value.values_as_json())]}
        case tuple():
            return [pack(item) for item in value]
        case Frozen():
            return {field.name: pack(getattr(value, field.name)) for field in fields(value)}  # type: ignore[arg-type]
    raise ValueError(f"no place on a paper for {type(value).__name__}")


def unpack(data: Any, kind: Any) -> Any:
    """JSON data of `pack` as a value of the declared ``kind``: plain, a tuple of one kind, or a union."""
    kinds, facts, enum, items = _declared(kind)
    if items is not None:
        return tuple(unpack(item, items) for item in data)
    if isinstance(data, dict):
        name = next(iter(data), "")
        value = READ[name](data[name]) if facts is None and name in READ else _facts(data, facts)
    else:
        value = enum(data) if enum and data is not None else data
    if not isinstance(value, kinds):
        raise ValueError(f"{data!r} is no {' or '.join(one.__name__ for one in kinds)}")
    return value


class _Declared(NamedTuple):
    """A declared kind: the types that it lets in, which of them is facts or an enumeration, the kind of its items."""

    kinds: tuple[Any, ...]
    facts: Any
    enum: type[Enum] | None
    items: Any


@cache
def _declared(kind: Any) -> _Declared:
    if get_origin(kind) is tuple:
        return _Declared((), None, None, get_args(kind)[0])
    kinds = get_args(kind) if get_origin(kind) in (Union, types.UnionType) else (kind,)
    facts = next((one for one in kinds if issubclass(one, Frozen)), None)
    return _Declared(kinds, facts, next((one for one in kinds if issubclass(one, Enum)), None), None)


READ: dict[str, Callable[[Any], Any]] = {
    "decimal": Decimal,
    "instant": datetime.fromisoformat,
    "day": date.fromisoformat,
    "money": lambda pair: Money(pair[0], pair[1]),
    "measure": lambda three: Measure(Decimal(three[0]), three[1], three[2]),
    "sentence": lambda pair: Sentence.from_json(pair[0], json.dumps(pair[1])),
}


@cache
def _kinds(kind: Any) -> dict[str, Any]:
    """The kinds of the fields of facts: resolving them costs more than reading a paper."""
    return get_type_hints(kind)


def _facts(data: dict[str, Any], kind: Any) -> Any:
    if kind is None:
        return data
    kinds = _kinds(kind)
    unknown = set(data) - set(kinds)
    if unknown:
        raise ValueError(f"{kind.__name__} knows nothing of {', '.join(sorted(unknown))}")
    values = {}
    for field in fields(kind):
        if field.name in data:
            values[field.name] = unpack(data[field.name], kinds[field.name])
        elif field.default is MISSING and field.default_factory is MISSING:
            raise ValueError(f"{kind.__name__} lacks {field.name}")
    return kind(**values)
