"""Lays down many rows at once in one action, for a large book that a program builds.

Rows go in table by table, and history tells of each as the door would; the search index is built anew at the
end. No rule of the trade is asked and no flag is raised: whoever lays rows down answers for what they say.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from functools import cache
from itertools import islice
from typing import Any

from sqlalchemy import Column, func, insert, select

from app.book import history
from app.book.base import Base
from app.book.chain import chain_end
from app.book.door import Book, Change
from app.book.find.rebuild import rebuild_index
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
        kind = _told_table(table)
        waiting = iter(rows)
        while some := [_whole(kind, row) for row in islice(waiting, AT_ONCE)]:
            self._connection.execute(insert(kind.__table__), some)  # type: ignore[arg-type]
            self._tell([kind(**row) for row in some])
            self.count += len(some)

    def _tell(self, rows: list[Base]) -> None:
        change, dialect = self._change, self._connection.dialect
        entries = [history.entry_of_new(row, dialect) for row in rows]
        end = chain_end(self._connection)
        history.write(change.session, end, entries, change.now, change.who, change.why)


@cache
def _told_table(name: str) -> type[Base]:
    """The rows of a table by its name; those of the door's own bookkeeping are nobody's to lay down."""
    for mapper in Base.registry.mappers:
        if mapper.class_.__tablename__ == name and mapper.class_.told:
            found: type[Base] = mapper.class_
            return found
    raise Fault(f"no table {name} whose rows history tells of")


def _whole(table: type[Base], row: Values) -> dict[str, Any]:
    """All columns of a row, so that rows that name different ones go in by one statement."""
    if unknown := row.keys() - _defaults(table).keys():
        raise Fault(f"{table.__tablename__} has no column {', '.join(sorted(unknown))}")
    return {name: row.get(name, default) for name, default in _defaults(table).items()}


@cache
def _defaults(table: type[Base]) -> dict[str, Any]:
    return {column.name: _default(column) for column in table.__table__.columns if isinstance(column, Column)}


def _default(column: Column[Any]) -> Any:
    default: Any = column.default
    if default is None:
        return None
    return default.arg(None) if default.is_callable else default.arg
