"""Writes migrations/first_book.sql from the tables in app/book. Only until the first release.

From then on that file stays as it is: a table that changes gets a new revision in migrations/versions, and
SCHEMA in app/book/file_header.py and REVISION in app/book/schema.py rise by one.
"""

from __future__ import annotations

import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))


def first_book() -> str:
    """The statements that make the tables of a book in the order of their making, each with its indexes."""
    from sqlalchemy import create_engine

    from app.book.schema import FTS_TABLES, make_schema

    engine = create_engine("sqlite://")
    with engine.begin() as connection:
        make_schema(connection)
        rows = connection.exec_driver_sql(
            "SELECT i.name, i.sql FROM sqlite_master AS i JOIN sqlite_master AS t"
            " ON t.name = i.tbl_name AND t.type = 'table' WHERE i.sql IS NOT NULL"
            " AND i.type IN ('table', 'index') AND i.name <> 'alembic_version'"
            " ORDER BY t.rowid, i.type DESC, i.name"
        ).all()
    engine.dispose()
    inner = tuple(f"{name}_" for name in FTS_TABLES)  # made by SQLite behind the FTS tables
    return "".join(f"{_tidy(sql)};\n" for name, sql in rows if not name.startswith(inner))


def _tidy(sql: str) -> str:
    lines = (line.rstrip() for line in sql.replace("\t", "    ").splitlines())
    return "\n".join(line for line in lines if line).replace(")\n STRICT", ") STRICT")


if __name__ == "__main__":
    (ROOT / "migrations" / "first_book.sql").write_text(first_book(), encoding="utf-8")
