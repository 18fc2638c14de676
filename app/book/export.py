"""Writes the whole book in open formats: one CSV per table, and one JSON of everything. Secrets stay inside."""

from __future__ import annotations

import csv
import json
import sqlite3
from collections.abc import Callable
from datetime import UTC, date, datetime
from decimal import Decimal
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from sqlalchemy import Column, Connection, Table, select
from sqlalchemy.exc import DBAPIError

from app import __version__
from app.book.backup import SPARE, copy_pages
from app.book.columns import Plain, Said
from app.book.disk import lay_in_place, need_room
from app.book.door import Book
from app.book.engine import sealed_engine
from app.book.file_header import SCHEMA
from app.book.tables import metadata
from app.book.trouble import refusal_of
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence
from app.trade.upkeep.csv_text import cell

LEFT_OUT = frozenset({"find_words"})  # worked out from the rest
AT_ONCE = 5000  # rows held in memory
JSON_NAME = "book.json"

Watch = Callable[[str], None]  # told the name of each table; may raise to stop


def export_book(book: Book, folder: Path, watch: Watch = lambda table: None) -> tuple[Path, ...]:
    """Write the CSV files and the JSON into ``folder``, which is made. Gives their paths. Raises Refusal.

    A file appears under its name only when all of it is written.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
        return _export(book, folder, watch)
    except sqlite3.Error as error:
        raise refusal_of(DBAPIError("", None, error)) from error
    except DBAPIError as error:
        raise refusal_of(error) from error
    except OSError as error:
        raise Refusal(
            Sentence(
                "The export into {folder} failed: {why}.",
                {"folder": str(folder), "why": error.strerror or str(error)},
            ),
            Sentence("Look whether the folder may be written and the disk has room, then try again."),
        ) from error


def exported_tables() -> tuple[Table, ...]:
    """The tables that are exported, by name."""
    return tuple(table for name, table in sorted(metadata.tables.items()) if name not in LEFT_OUT)


def exported_columns(table: Table) -> tuple[Column[Any], ...]:
    """The columns of a table without its secrets, the key first."""
    columns = [column for column in table.columns if "secret" not in column.info]
    return tuple(sorted(columns, key=lambda column: not column.primary_key))


def json_value(value: Any) -> Any:
    """A value as JSON keeps it: instants and days by ISO 8601, decimals as text with all their digits."""
    match value:
        case datetime():
            return value.astimezone(UTC).isoformat().replace("+00:00", "Z")
        case date():
            return value.isoformat()
        case Decimal():
            return str(value)
        case Sentence():
            return json.loads(value.as_json())
    return value


def _export(book: Book, folder: Path, watch: Watch) -> tuple[Path, ...]:
    """From one snapshot, so that no row misses what it points at, and no writer waits for the export."""
    need_room(folder, book.path.stat().st_size + SPARE)
    with TemporaryDirectory(prefix="export-", dir=folder) as name:
        beside = Path(name)
        snapshot = beside / "snapshot"
        copy_pages(book.path, snapshot)
        engine = sealed_engine(snapshot)
        try:
            with engine.connect() as connection:
                _write(connection, beside, book.now(), watch)
        finally:
            engine.dispose()
        snapshot.unlink()
        names = sorted(part.name for part in beside.iterdir())
        lay_in_place(beside, folder, names)
    return tuple(folder / name for name in names)


def _write(connection: Connection, folder: Path, now: datetime, watch: Watch) -> None:
    head = {"program": f"Spindlebook {__version__}", "schema": SCHEMA, "made_at": json_value(now)}
    with (folder / JSON_NAME).open("w", encoding="utf-8") as whole:
        whole.write(f'{json.dumps(head)[:-1]}, "tables": {{')
        for at, table in enumerate(exported_tables()):
            watch(table.name)
            columns = exported_columns(table)
            whole.write(f"{',' if at else ''}\n{json.dumps(table.name)}: [")
            with (folder / f"{table.name}.csv").open("w", encoding="utf-8", newline="") as file:
                writer = csv.writer(file)  # RFC 4180: commas, double quotes, CR LF
                writer.writerow([column.name for column in columns])
                rows = connection.execution_options(yield_per=AT_ONCE).execute(
                    select(*columns).order_by(*table.primary_key.columns)
                )
                for number, row in enumerate(rows):
                    writer.writerow([_cell(c, value) for c, value in zip(columns, row, strict=True)])
                    plain = {c.name: json_value(value) for c, value in zip(columns, row, strict=True)}
                    whole.write(f"{',' if number else ''}\n{json.dumps(plain, ensure_ascii=False)}")
            whole.write("]")
        whole.write("}}\n")


def _cell(column: Column[Any], value: Any) -> str:
    """Lists and sentences stand as JSON, which begins with no letter that a spreadsheet would run."""
    if value is not None and isinstance(column.type, Plain | Said):
        return json.dumps(json_value(value), ensure_ascii=False, sort_keys=True)
    return cell(value)
