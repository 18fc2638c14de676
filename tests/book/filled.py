"""Fills a book with a row in every table, whatever columns the tables have today."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime
from decimal import Decimal
from pathlib import Path
from typing import Any

from sqlalchemy import Column, Table

from app.book.attachments import store
from app.book.base import Base
from app.book.columns import Day, DecimalText, Flagged, Instant, Plain, Said, Word
from app.book.door import Book, Change, Settle
from app.book.find.index import refresh_index
from app.book.opening import open_book
from app.book.tables import metadata
from app.trade.sentence import Sentence

SETTLE: Sequence[Settle] = (refresh_index,)
UNTOLD = {"history", "history_texts", "find_words", "number_series"}
PHOTO = b"a photo of a pick-up"
PDF = b"%PDF-1.7 an intake ticket"

# What must fit together: stock that is there, an invoice that adds up, a job that is over and paid.
FITTING: dict[str, dict[str, Any]] = {
    "jobs": {"stage": "handed back", "waiting": "nothing", "outcome": "mended"},
    "fittings": {"removed_at": None},
    "part_moves": {"kind": "received", "quantity": 3_000_000},
    "invoices": {
        "series": "",
        "currency": "EUR",
        "lines_net": 5000,
        "discount": 0,
        "charge": 0,
        "net": 5000,
        "vat": 950,
        "gross": 5950,
        "prepaid": 0,
        "rounding": 0,
        "due": 5950,
        "groups": [[1900, "S", 5000, 950, ""]],
        "line_count": 1,
    },
    "invoice_lines": {
        "position": 1,
        "kind": "labour",
        "quantity": 2_000_000,
        "unit": "HUR",
        "price": 25_000_000,
        "discount": 0,
        "net": 5000,
        "vat_rate": 1900,
    },
    "credit_notes": {
        "series": "C",
        "currency": "EUR",
        **dict.fromkeys(("lines_net", "discount", "charge", "net", "vat", "gross", "rounding", "due"), 0),
        "groups": [],
        "adjustments": [],
        "line_count": 1,
    },
    "credit_note_lines": {
        "position": 1,
        "kind": "labour",
        "quantity": 2_000_000,
        "unit": "HUR",
        "price": 0,
        "discount": 0,
        "net": 0,
        "vat_rate": 1900,
    },
    "estimates": {"issued_at": None},
    "payments": {"kind": "payment", "amount": 5950, "currency": "EUR"},
    "papers": {"kind": "intake ticket"},
    "settings": {"key": "shop_name", "value": "Quillmere Players"},
    "readings": {"value": 0.05, "digits": Decimal("0.050")},
}


def open_filled(path: Path, clock: Any, rounds: int = 2) -> Book:
    """A new book with ``rounds`` rows in every table, each round one action; open, with its index."""
    book = open_book(path, clock=clock, settle=SETTLE, make=True)
    for number in range(1, rounds + 1):
        add_round(book, number)
    return book


def add_round(book: Book, number: int) -> None:
    """One row in every told table, hanging together: one customer's player, its job and all that goes with it."""
    photo = store(book.files, PHOTO + str(number).encode())
    pdf = store(book.files, PDF + str(number).encode())
    with book.change(None, Sentence("filled a round")) as change:
        change.next_number("job")
        keys: dict[str, int] = {}
        for table in metadata.sorted_tables:
            if table.name in UNTOLD or (table.name == "settings" and number > 1):
                continue
            values = row_values(table, number, keys, change.now)
            if table.name == "attachments":
                values["sha256"] = photo.sha256
            if table.name == "papers":
                values["sha256"] = pdf.sha256
            keys[table.name] = add(change, table, values)


def add(change: Change, table: Table, values: dict[str, Any]) -> int:
    """Add one row as the program does; gives its key."""
    mapped = next(m.class_ for m in Base.registry.mappers if m.local_table is table)
    row: Any = change.add(mapped(**values))
    return int(row.id)


def row_values(table: Table, number: int, keys: dict[str, int], now: datetime) -> dict[str, Any]:
    """A value for every column that needs one, for every personal one, and for every link that can be made."""
    values: dict[str, Any] = {}
    for column in table.columns:
        if column.primary_key or column.name == "version":
            continue
        if column.foreign_keys:
            (key,) = column.foreign_keys
            linked = keys.get(key.column.table.name)
            if linked is not None and not column.name.startswith(("merged", "removed", "struck")):
                values[column.name] = linked
        elif "personal" in column.info or (not column.nullable and column.default is None):
            values[column.name] = value_for(column, number, now)
    return {**values, **FITTING.get(table.name, {})}


def value_for(column: Column[Any], number: int, now: datetime) -> Any:
    """A value of the column's type that tells where it came from."""
    match column.type:
        case Instant():
            return now
        case Day():
            return date(2026, 3, number)
        case Word():
            return next(iter(column.type.words))
        case Said():
            return Sentence("{name} says so", {"name": column.name})
        case Plain():
            return {"told": f"Personal {column.table.name} {column.name} {number}"}
        case DecimalText():
            return Decimal("1.50")
        case Flagged():
            return True
    if column.type.python_type is int:
        return number
    if column.type.python_type is float:
        return 0.5
    if "personal" in column.info:
        return f"Personal {column.table.name} {column.name} {number}"
    return f"{column.name} {number}"
