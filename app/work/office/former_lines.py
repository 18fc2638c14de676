"""How an entry of the shop's lists stood before each change, with who changed it and when, read from history."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from types import SimpleNamespace
from typing import Any, Generic, TypeVar

from sqlalchemy import select

from app.book.door import Book
from app.book.tables import Base, HistoryRow, Instrument, Limit, Part, QuantityKept, Staff, TransportType
from app.work.office.parts import PartLine, part_line
from app.work.office.quantity_list import OwnQuantity, own_quantity
from app.work.office.shop_lists import (
    InstrumentLine,
    LimitLine,
    TypeLine,
    instrument_line,
    limit_line,
    type_line,
)

Line = TypeVar("Line")


@dataclass(frozen=True, slots=True)
class FormerLine(Generic[Line]):
    """An entry before a change and after it."""

    at: datetime
    by: str
    before: Line
    after: Line


def former_lines(
    book: Book, table: type[Base], row_id: int, line_of: Callable[[Any], Line]
) -> tuple[FormerLine[Line], ...]:
    """Every change of one row, newest first. ``line_of`` makes the entry from the row, or from what stands for it."""
    with book.ask() as session:
        columns = table.__table__.c
        dialect = session.get_bind().dialect
        names = dict(session.execute(select(Staff.id, Staff.name)).all())
        row: Any = session.get_one(table, row_id)
        now = {column.name: getattr(row, column.name) for column in columns}
        found: list[FormerLine[Line]] = []
        for entry in session.scalars(
            select(HistoryRow)
            .where(
                HistoryRow.row_table == table.__tablename__,
                HistoryRow.row_id == row_id,
                HistoryRow.happened == "changed",
            )
            .order_by(HistoryRow.seq.desc())
        ):
            was = dict(now)
            for name, (before, _) in entry.fields.items():
                read = columns[name].type.dialect_impl(dialect).result_processor(dialect, None)
                was[name] = before if read is None or before is None else read(before)
            before_it, after_it = (line_of(SimpleNamespace(**row)) for row in (was, now))
            found.append(FormerLine(entry.at, names.get(entry.staff_id or 0, ""), before_it, after_it))
            now = was
    return tuple(found)


def former_types(book: Book, type_id: int) -> tuple[FormerLine[TypeLine], ...]:
    """Every change of a transport type."""
    return former_lines(book, TransportType, type_id, type_line)


def former_limits(book: Book, limit_id: int) -> tuple[FormerLine[LimitLine], ...]:
    """Every change of a limit."""
    return former_lines(book, Limit, limit_id, limit_line)


def former_instruments(book: Book, instrument_id: int) -> tuple[FormerLine[InstrumentLine], ...]:
    """Every change of an instrument or its calibration."""
    return former_lines(book, Instrument, instrument_id, instrument_line)


def former_parts(book: Book, part_id: int) -> tuple[FormerLine[PartLine], ...]:
    """Every change of what a part is and costs; its stock is no part of it."""
    return former_lines(book, Part, part_id, part_line)


def former_quantities(book: Book, code: str) -> tuple[FormerLine[OwnQuantity], ...]:
    """Every change of a quantity of the shop's own, or of one that it changed. How it began is none."""
    with book.ask() as session:
        key = session.scalar(select(QuantityKept.id).where(QuantityKept.code == code))
    return () if key is None else former_lines(book, QuantityKept, key, own_quantity)
