"""Lays down many rows at once in one action, for a large book that a program builds.

Rows go in table by table, and history tells of each as the door would; the search index is built anew at the
end. No rule of the trade is asked and no flag is raised: whoever lays rows down answers for what they say.
"""

from __future__ import annotations

import json
import secrets
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cache
from hashlib import sha256
from itertools import islice
from json.encoder import encode_basestring
from typing import Any

from sqlalchemy import Column, Dialect, func, select

from app.book.base import Base
from app.book.chain import canonical_text, chain_end, text_hash
from app.book.columns import EPOCH, MICROSECOND
from app.book.door import Book, Change
from app.book.find.rebuild import rebuild_index
from app.book.history import Told, told_columns
from app.book.history_rows import HistoryRow, HistoryText
from app.book.office.settings import NumberSeries
from app.trade.refusal import Fault
from app.trade.sentence import Sentence

AT_ONCE = 2000  # rows in one statement
Values = Mapping[str, Any]


@contextmanager
def lay_down(book: Book, who: int | None, why: Sentence) -> Iterator[Laying]:
    """One action that takes rows by the thousand. Leaving by an error changes nothing.

    Raises Fault for rows that the book does not hold, Refusal for the person's world.
    """
    with book.change(who, why) as change:
        laying = Laying(change)
        yield laying
        rebuild_index(change)
    book.changed_since_backup = book.changed_since_backup or laying.count > 0


class Laying:
    """The rows of one such action. ``count`` is how many there are so far."""

    def __init__(self, change: Change) -> None:
        self._change = change
        self._connection = change.session.connection()
        self.count = 0

    def free_key(self, table: str) -> int:
        """The key behind the last one of a table: rows are laid down with keys from there on."""
        key = _told_table(table).__table__.c.id
        return (self._connection.scalar(select(func.max(key))) or 0) + 1

    def take_numbers(self, series: str, count: int, first: int = 1) -> range:
        """The next ``count`` numbers of a gapless series."""
        begin = self._change.next_number(series, first)
        row = self._change.session.scalars(select(NumberSeries).where(NumberSeries.name == series)).one()
        row.next = begin + count
        return range(begin, begin + count)

    def lay(self, table: str, rows: Iterable[Values]) -> None:
        """Insert rows, each with its key, and write their history. A column left out gets its default."""
        shape = _shape(_told_table(table), self._connection.dialect)
        waiting = iter(rows)
        while some := [shape.plain(row) for row in islice(waiting, AT_ONCE)]:
            self._connection.exec_driver_sql(shape.statement, some)
            self._tell(shape, some)
            self.count += len(some)

    def _tell(self, shape: _Shape, rows: list[tuple[Any, ...]]) -> None:
        """What `history.write` does, on values that are plain already and with each text made once."""
        change = self._change
        seq, previous = chain_end(self._connection)
        action, values = change.why.key, _json(json.loads(change.why.values_as_json()))
        at, who = (change.now - EPOCH) // MICROSECOND, change.who
        told: list[tuple[Any, ...]] = []
        texts: list[tuple[Any, ...]] = []
        for row in rows:
            seq += 1
            fields, kept = shape.fields(row)
            texts += [(seq, *text) for text in kept]
            key, job = row[shape.key], None if shape.job is None else row[shape.job]
            canonical = canonical_text(action, values, at, fields, "added", job, key, shape.table, seq, who)
            previous = sha256(f'["{previous}",{canonical}]'.encode()).hexdigest()
            told.append((seq, at, who, action, values, "added", shape.table, key, job, fields, previous))
        self._connection.exec_driver_sql(_into(HistoryRow, _TOLD, self._connection.dialect), told)
        if texts:
            self._connection.exec_driver_sql(_into(HistoryText, _TEXTS, self._connection.dialect), texts)


_TOLD = (
    "seq", "at", "staff_id", "action", "action_values", "happened", "row_table", "row_id", "job_id", "fields",
    "hash",
)  # fmt: skip
_TEXTS = ("seq", "column", "side", "salt", "text")


def _json(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, sort_keys=True, separators=(",", ":"))


@dataclass(frozen=True, slots=True)
class _Shape:
    """How the rows of one table are kept: each column's place, its default, and what makes its value plain."""

    table: str
    statement: str
    places: Mapping[str, int]
    defaults: tuple[Any, ...]
    makers: tuple[Callable[[Any], Any] | None, ...]
    told: tuple[tuple[int, str, Told], ...]  # place, beginning of the text; in the order of names
    key: int
    job: int | None

    def plain(self, row: Values) -> tuple[Any, ...]:
        """All columns of a row as the file keeps them. Raises Fault for a column that there is not."""
        values = list(self.defaults)
        for name, value in row.items():
            at = self.places.get(name)
            if at is None:
                raise Fault(f"{self.table} has no column {name}")
            make = self.makers[at]
            values[at] = value if make is None or value is None else make(value)
        return tuple(values)

    def fields(self, row: tuple[Any, ...]) -> tuple[str, list[tuple[str, str, str, str]]]:
        """What history tells of a new row as canonical text, and the personal texts that it keeps apart."""
        parts, texts = [], []
        for at, begins, column in self.told:
            value = row[at]
            if value is None or value == "":
                continue
            if column.secret:
                parts.append(f'"{column.name}":["","set"]')
                continue
            if column.personal:
                salt, value = secrets.token_hex(16), str(value)
                texts.append((column.name, "after", salt, value))
                value = text_hash(salt, value)
            parts.append(f"{begins}{encode_basestring(value) if isinstance(value, str) else repr(value)}]")
        return f"{{{','.join(parts)}}}", texts


@cache
def _told_table(name: str) -> type[Base]:
    """The rows of a table by its name; those of the door's own bookkeeping are nobody's to lay down."""
    for mapper in Base.registry.mappers:
        if mapper.class_.__tablename__ == name and mapper.class_.told:
            found: type[Base] = mapper.class_
            return found
    raise Fault(f"no table {name} whose rows history tells of")


_SHAPES: dict[tuple[type[Base], str], _Shape] = {}


def _shape(table: type[Base], dialect: Dialect) -> _Shape:
    if (known := _SHAPES.get((table, dialect.name))) is not None:
        return known
    columns = [column for column in table.__table__.columns if isinstance(column, Column)]
    makers = tuple(column.type.dialect_impl(dialect).bind_processor(dialect) for column in columns)
    defaults = [_default(column) for column in columns]
    places = {column.name: at for at, column in enumerate(columns)}
    told = sorted(told_columns(table, dialect), key=lambda column: column.name)
    shape = _Shape(
        table.__tablename__,
        _into(table, tuple(places), dialect),
        places,
        tuple(
            value if make is None or value is None else make(value)
            for value, make in zip(defaults, makers, strict=True)
        ),
        makers,
        tuple((places[column.name], f'"{column.name}":[null,', column) for column in told),
        places["id"],
        places["id"] if table.__tablename__ == "jobs" else places.get("job_id"),
    )
    _SHAPES[table, dialect.name] = shape
    return shape


@cache
def _into(table: type[Base], columns: tuple[str, ...], dialect: Dialect) -> str:
    """The INSERT of these columns in this order, as the driver takes it."""
    quoted = ", ".join(map(dialect.identifier_preparer.quote, columns))
    mark = "?" if dialect.paramstyle == "qmark" else "%s"
    return f"INSERT INTO {table.__tablename__} ({quoted}) VALUES ({', '.join([mark] * len(columns))})"  # noqa: S608


def _default(column: Column[Any]) -> Any:
    default: Any = column.default
    if default is None:
        return None
    return default.arg(None) if default.is_callable else default.arg
