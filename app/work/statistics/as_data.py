"""An answer as plain data, for JSON and CSV: sentences worded, words of the trade as they are kept."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from datetime import date
from decimal import Decimal
from enum import Enum
from typing import Any

from app.trade.money import Money
from app.trade.sentence import Sentence
from app.trade.wording import Wording
from app.work.statistics.answer import Answer


def as_data(value: Any, wording: Wording) -> Any:
    """Nested lists, dicts, numbers, texts, true, false and None. Days as ISO 8601, money as a decimal text."""
    match value:
        case Sentence():
            return wording(value)
        case Money():
            return str(value.amount)
        case Enum() | Decimal():
            return str(value)
        case date():
            return value.isoformat()
        case tuple():
            return [as_data(item, wording) for item in value]
        case Mapping():
            return {str(key): as_data(item, wording) for key, item in value.items()}
    if is_dataclass(value):
        return {field.name: as_data(getattr(value, field.name), wording) for field in fields(value)}
    return value


def as_rows(answer: Answer, wording: Wording) -> tuple[tuple[str, ...], list[tuple[object, ...]]]:
    """The heads and the rows of the answer's table. Keys of jobs stand in one cell, apart by spaces; curves and tests,
    which are tables of their own, are in the JSON only."""
    rows: list[dict[str, Any]] = [as_data(row, wording) for row in getattr(answer, "rows", ())]
    heads = tuple(name for name, value in rows[0].items() if not isinstance(value, dict)) if rows else ()
    return heads, [tuple(_cell(row[head]) for head in heads) for row in rows]


def _cell(value: Any) -> object:
    if isinstance(value, bool):
        return "yes" if value else "no"
    return " ".join(map(str, value)) if isinstance(value, list) else value
