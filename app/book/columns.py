"""Column types that mean the same on SQLite and PostgreSQL, and lose nothing on the way."""

from __future__ import annotations

import json
from datetime import UTC, date, datetime, timedelta
from decimal import Decimal
from enum import StrEnum
from typing import Any

from sqlalchemy import REAL, BigInteger, Dialect, Double, Integer, Text
from sqlalchemy.types import TypeDecorator

from app.trade.sentence import Sentence

BIG = BigInteger().with_variant(Integer(), "sqlite")  # SQLite's STRICT tables know INTEGER only
REAL8: Double[float] = Double().with_variant(REAL(), "sqlite")
EPOCH = datetime(1970, 1, 1, tzinfo=UTC)
MICROSECOND = timedelta(microseconds=1)


class Instant(TypeDecorator[datetime]):
    """An aware instant, kept as integer microseconds since 1970 UTC. Naive instants raise ValueError."""

    impl = BIG
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> int | None:
        if value is None:
            return None
        if value.tzinfo is None:
            raise ValueError("a naive instant is refused: say in which time zone it is meant")
        return (value - EPOCH) // MICROSECOND

    def process_result_value(self, value: int | None, dialect: Dialect) -> datetime | None:
        return None if value is None else EPOCH + value * MICROSECOND


class Day(TypeDecorator[date]):
    """A shop-local day, kept as ISO 8601 text, so that text order is day order."""

    impl = Text
    cache_ok = True

    def process_bind_param(self, value: date | None, dialect: Dialect) -> str | None:
        if isinstance(value, datetime):
            raise ValueError("an instant is no day: convert it in the shop's time zone first")
        return None if value is None else value.isoformat()

    def process_result_value(self, value: str | None, dialect: Dialect) -> date | None:
        return None if value is None else date.fromisoformat(value)


class DecimalText(TypeDecorator[Decimal]):
    """A decimal with all its digits, kept as text. Never compared or summed in SQL."""

    impl = Text
    cache_ok = True

    def process_bind_param(self, value: Decimal | None, dialect: Dialect) -> str | None:
        if value is None:
            return None
        if not value.is_finite():
            raise ValueError(f"not a finite number: {value}")
        return str(value)

    def process_result_value(self, value: str | None, dialect: Dialect) -> Decimal | None:
        return None if value is None else Decimal(value)


class Flagged(TypeDecorator[bool]):
    """Yes or no, kept as 1 or 0."""

    impl = Integer
    cache_ok = True

    def process_bind_param(self, value: bool | None, dialect: Dialect) -> int | None:
        return None if value is None else int(value)

    def process_result_value(self, value: int | None, dialect: Dialect) -> bool | None:
        return None if value is None else bool(value)


class Word(TypeDecorator[Any]):
    """One of a closed list of words; the word itself is kept. Others raise ValueError."""

    impl = Text
    cache_ok = True

    def __init__(self, words: type[StrEnum]) -> None:
        super().__init__()
        self.words = words

    def process_bind_param(self, value: str | None, dialect: Dialect) -> str | None:
        return None if value is None else str(self.words(value))

    def process_result_value(self, value: str | None, dialect: Dialect) -> StrEnum | None:
        return None if value is None else self.words(value)


class Said(TypeDecorator[Sentence]):
    """A sentence as key and values, kept as JSON text; the edge words it."""

    impl = Text
    cache_ok = True

    def process_bind_param(self, value: Sentence | None, dialect: Dialect) -> str | None:
        return None if value is None else value.as_json()

    def process_result_value(self, value: str | None, dialect: Dialect) -> Sentence | None:
        return None if value is None else Sentence.of_json(value)


class Plain(TypeDecorator[Any]):
    """A plain value of lists, words and numbers, kept as JSON text with sorted keys."""

    impl = Text
    cache_ok = True

    def process_bind_param(self, value: object, dialect: Dialect) -> str | None:
        if value is None:
            return None
        return json.dumps(value, ensure_ascii=False, sort_keys=True, separators=(",", ":"))

    def process_result_value(self, value: str | None, dialect: Dialect) -> object:
        return None if value is None else json.loads(value)
