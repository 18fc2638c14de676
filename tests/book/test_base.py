"""A unique index over some rows only is one on both databases, and no start pays for the one that is not used."""

from __future__ import annotations

import subprocess
import sys

import pytest
from sqlalchemy.dialects import postgresql, sqlite
from sqlalchemy.schema import CreateIndex

from app.book.history_rows import OF_WAITING
from app.book.tables import metadata

UNIQUE = {
    "uq_flags_open": "WHERE cleared_at IS NULL",
    "uq_fittings_open_transport": "WHERE removed_at IS NULL",
    "uq_fittings_open_place": "WHERE removed_at IS NULL",
}


@pytest.mark.parametrize("dialect", [postgresql.dialect(), sqlite.dialect()], ids=lambda one: one.name)
def test_what_may_be_open_only_once_may_be_closed_often_on_both_databases(dialect):
    made = {
        index.name: str(CreateIndex(index).compile(dialect=dialect))
        for table in metadata.tables.values()
        for index in table.indexes
    }
    partial = {name for name, sql in made.items() if "WHERE" in sql}
    assert partial == {*UNIQUE, "ix_history_waiting"}
    for name, where in UNIQUE.items():
        assert made[name].startswith("CREATE UNIQUE INDEX")
        assert made[name].endswith(where)
    assert made["ix_history_waiting"].replace("%%", "%").endswith(f"WHERE {OF_WAITING}")


def test_the_tables_of_a_file_load_nothing_of_the_other_database():
    asked = "import sys, app.book.tables; sys.exit('sqlalchemy.dialects.postgresql' in sys.modules)"
    done = subprocess.run([sys.executable, "-c", asked], check=False, timeout=120)
    assert done.returncode == 0
