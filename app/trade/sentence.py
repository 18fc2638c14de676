"""A sentence not yet worded: the English template as gettext key, and the values for its braces."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import UTC, date, datetime
from decimal import Decimal
from types import MappingProxyType
from typing import Any, TypeAlias

from app.trade.money import Money


def words(text: str) -> str:
    """Marks an English word or phrase for the catalogue and hands it on as it stands (enumerations, tables)."""
    return text


@dataclass(frozen=True, slots=True)
class Measure:
    """A number with its unit as shown, e.g. ``Measure(Decimal("51.2"), "mA")``; the digits given are kept."""

    value: Decimal
    unit: str = ""
    signed: bool = False


Value: TypeAlias = "int | str | Decimal | date | datetime | Money | Measure | Sentence | tuple[Value, ...]"


@dataclass(frozen=True)
class Sentence:
    """What the rules say, as key and values; the edge (screen, paper, command) words it in its language.

    ``key`` is the English template with ``{name}`` braces and stands in the gettext catalogue;
    ``values`` fill the braces. A key without braces needs no values.
    """

    key: str
    values: Mapping[str, Value] = field(default_factory=dict)

    def __post_init__(self) -> None:
        object.__setattr__(self, "values", MappingProxyType(dict(self.values)))

    def __hash__(self) -> int:
        return hash((self.key, tuple(sorted((k, repr(v)) for k, v in self.values.items()))))

    def __eq__(self, other: object) -> bool:
        return (
            isinstance(other, Sentence) and self.key == other.key and dict(self.values) == dict(other.values)
        )

    def values_as_json(self) -> str:
        """The values as text for the book; `from_json` reads it back."""
        return json.dumps({k: _packed(v) for k, v in self.values.items()}, ensure_ascii=False, sort_keys=True)

    def as_json(self) -> str:
        """Key and values as one text; `of_json` reads it back."""
        return json.dumps([self.key, json.loads(self.values_as_json())], ensure_ascii=False, sort_keys=True)

    @classmethod
    def of_json(cls, text: str) -> Sentence:
        """The sentence that `as_json` wrote."""
        key, values = json.loads(text)
        return cls(key, {k: _unpacked(v) for k, v in values.items()})

    @classmethod
    def from_json(cls, key: str, values: str) -> Sentence:
        """The sentence whose key and `values_as_json` were kept in the book."""
        return cls(key, {k: _unpacked(v) for k, v in json.loads(values).items()})


def joined(sentences: Sequence[Sentence]) -> Sentence:
    """Several sentences as one, with a space between. ``sentences`` has one at least."""
    whole = sentences[0]
    for sentence in sentences[1:]:
        whole = Sentence("{first} {second}", {"first": whole, "second": sentence})
    return whole


def _packed(value: Value) -> Any:
    match value:
        case int() | str():
            return value
        case Decimal():
            return {"decimal": str(value)}
        case datetime():
            if value.tzinfo is None:
                raise ValueError("a naive instant has no place in a sentence")
            return {"instant": value.astimezone(UTC).isoformat()}
        case date():
            return {"day": value.isoformat()}
        case Money():
            return {"money": [value.minor, value.currency]}
        case Measure():
            return {"measure": [str(value.value), value.unit, value.signed]}
        case Sentence():
            return {"sentence": [value.key, json.loads(value.values_as_json())]}
    return [_packed(item) for item in value]


def _unpacked(packed: Any) -> Value:
    if isinstance(packed, list):
        return tuple(_unpacked(item) for item in packed)
    if not isinstance(packed, dict):
        return packed  # type: ignore[no-any-return]  # int or str, as _packed wrote it
    ((kind, content),) = packed.items()
    match kind:
        case "decimal":
            return Decimal(content)
        case "instant":
            return datetime.fromisoformat(content)
        case "day":
            return date.fromisoformat(content)
        case "money":
            return Money(content[0], content[1])
        case "measure":
            return Measure(Decimal(content[0]), content[1], content[2])
        case "sentence":
            return Sentence(content[0], {k: _unpacked(v) for k, v in content[1].items()})
    raise ValueError(f"unknown value kind {kind!r}")
