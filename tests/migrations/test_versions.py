"""Migrations and tables are two ways to the same book: table by table, index by index, trigger by trigger."""

from __future__ import annotations

import re
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from alembic.script import ScriptDirectory

from app.book.file_header import APPLICATION_ID, SCHEMA, read_header
from app.book.opening import make_book, open_book
from app.book.schema import REVISION
from app.book.upgrade import MIGRATIONS, run_revisions
from tests.book.filled import open_filled

NOW = datetime(2026, 3, 12, 12, 0, tzinfo=UTC)
BOOKKEEPING = ("sqlite_", "find_fts_", "find_tails_")
HOW_TO_MEND = "tables and migrations differ: write a revision, see DEVELOPERS.md"


@pytest.fixture(scope="module")
def two_ways(
    tmp_path_factory: pytest.TempPathFactory,
) -> Iterator[tuple[sqlite3.Connection, sqlite3.Connection]]:
    """A book made from the tables, and one made by running every revision."""
    folder = tmp_path_factory.mktemp("ways")
    made, migrated = folder / "made.sqlite", folder / "migrated.sqlite"
    make_book(made)
    with closing(sqlite3.connect(migrated)) as connection:
        connection.execute("CREATE TABLE alembic_version (version_num VARCHAR(32) NOT NULL PRIMARY KEY)")
    run_revisions(migrated, MIGRATIONS, SCHEMA)
    with closing(sqlite3.connect(made)) as one, closing(sqlite3.connect(migrated)) as other:
        yield one, other


def columns(connection: sqlite3.Connection) -> set[tuple[Any, ...]]:
    """Table, column, type, not null, default, place in the key."""
    return set(
        connection.execute(
            'SELECT m.name, c.name, c.type, c."notnull", c.dflt_value, c.pk FROM sqlite_master AS m,'
            " pragma_table_xinfo(m.name) AS c WHERE m.type = 'table'"
        )
    )


def foreign_keys(connection: sqlite3.Connection) -> set[tuple[Any, ...]]:
    """Child, column, parent, parent's column, and what happens on update and delete."""
    return set(
        connection.execute(
            'SELECT m.name, f."from", f."table", f."to", f.on_update, f.on_delete FROM sqlite_master AS m,'
            " pragma_foreign_key_list(m.name) AS f WHERE m.type = 'table'"
        )
    )


def statements(connection: sqlite3.Connection, kind: str) -> dict[str, str]:
    """Name and statement of every index or trigger, spaces evened out."""
    rows = connection.execute(
        "SELECT name, sql FROM sqlite_master WHERE type = ? AND sql IS NOT NULL", (kind,)
    )
    return {name: re.sub(r"\s+", " ", sql) for name, sql in rows}


def tables(connection: sqlite3.Connection) -> set[tuple[Any, ...]]:
    """Name, kind (table, virtual, shadow) and strictness of every table."""
    return set(connection.execute("SELECT name, type, strict FROM pragma_table_list WHERE schema = 'main'"))


def uniques(connection: sqlite3.Connection) -> set[tuple[Any, ...]]:
    """Table and columns of every unique rule."""
    return set(
        connection.execute(
            "SELECT m.name, group_concat(c.name) FROM sqlite_master AS m, pragma_index_list(m.name) AS i,"
            " pragma_index_info(i.name) AS c WHERE m.type = 'table' AND i.\"unique\" GROUP BY m.name, i.name"
        )
    )


def searches(connection: sqlite3.Connection) -> set[tuple[Any, ...]]:
    """Name and statement of the full-text tables."""
    return set(
        connection.execute(
            "SELECT name, sql FROM sqlite_master WHERE type = 'table' AND sql LIKE '%VIRTUAL%'"
        )
    )


@pytest.mark.parametrize("look", [tables, columns, foreign_keys, uniques, searches])
def test_tables_are_the_same(two_ways: tuple[sqlite3.Connection, sqlite3.Connection], look: Any) -> None:
    made, migrated = two_ways
    assert look(made) == look(migrated), HOW_TO_MEND


@pytest.mark.parametrize("kind", ["index", "trigger"])
def test_indexes_and_triggers_are_the_same(
    two_ways: tuple[sqlite3.Connection, sqlite3.Connection], kind: str
) -> None:
    made, migrated = two_ways
    assert statements(made, kind) == statements(migrated, kind), HOW_TO_MEND
    assert len(statements(made, kind)) > 20


def test_nothing_that_a_customer_paid_for_goes_when_its_parent_goes(
    two_ways: tuple[sqlite3.Connection, sqlite3.Connection],
) -> None:
    assert {row[5] for row in foreign_keys(two_ways[0])} == {"NO ACTION"}


def test_every_constraint_has_a_name() -> None:
    from app.book.tables import metadata

    for table in metadata.tables.values():
        for constraint in table.constraints:
            assert constraint.name, (table.name, constraint)


def test_revisions_run_in_one_line_and_their_numbers_are_the_headers() -> None:
    directory = ScriptDirectory(str(MIGRATIONS))
    line = [script.revision for script in directory.walk_revisions()][::-1]
    assert line == [f"{number:04d}" for number in range(1, SCHEMA + 1)]
    assert line[-1] == REVISION
    assert len(directory.get_heads()) == 1


def test_a_migrated_book_is_stamped(tmp_path: Path) -> None:
    path = tmp_path / "book.sqlite"
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("CREATE TABLE alembic_version (version_num VARCHAR(32) NOT NULL PRIMARY KEY)")
    run_revisions(path, MIGRATIONS, SCHEMA)
    header = read_header(path)
    assert (header.ours, header.schema) == (True, SCHEMA)


def names_of(connection: sqlite3.Connection, table: str) -> list[str]:
    return [row[1] for row in connection.execute(f'PRAGMA main.table_info("{table}")')]


def own_tables(connection: sqlite3.Connection) -> list[str]:
    names = connection.execute("SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY rowid")
    return [name for (name,) in names if not name.startswith(BOOKKEEPING)]


def content(path: Path) -> dict[str, set[tuple[object, ...]]]:
    """Every row of every table that the first version has, in the columns that it has."""
    found = {}
    with closing(sqlite3.connect(":memory:")) as first:
        first.executescript((MIGRATIONS / "first_book.sql").read_text(encoding="utf-8"))
        wanted = {name: names_of(first, name) for name in own_tables(first)}
    with closing(sqlite3.connect(path)) as connection:
        for name, names in wanted.items():
            quoted = ", ".join(f'"{column}"' for column in names)
            found[name] = set(connection.execute(f'SELECT {quoted} FROM "{name}"'))
    return found


@pytest.fixture
def first_version(tmp_path: Path) -> Path:
    """The filled book as the first version of the program would have kept it."""
    now = tmp_path / "now" / "book.sqlite"
    now.parent.mkdir()
    open_filled(now, lambda: NOW).close()
    path = tmp_path / "shop" / "book.sqlite"
    path.parent.mkdir()
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        connection.executescript((MIGRATIONS / "first_book.sql").read_text(encoding="utf-8"))
        connection.execute("ATTACH ? AS filled", (str(now),))
        for name in own_tables(connection):
            key = ["rowid"] if name in ("find_fts", "find_tails") else []
            names = ", ".join(f'"{column}"' for column in key + names_of(connection, name))
            connection.execute(f'INSERT INTO "{name}" ({names}) SELECT {names} FROM filled."{name}"')
        connection.execute("CREATE TABLE alembic_version (version_num VARCHAR(32) NOT NULL PRIMARY KEY)")
        connection.execute("INSERT INTO alembic_version VALUES ('0001')")
        connection.execute(f"PRAGMA application_id = {APPLICATION_ID}")
        connection.execute("PRAGMA user_version = 1")
    return path


def test_a_filled_book_of_the_first_version_comes_up_to_date_and_loses_nothing(first_version: Path) -> None:
    before = content(first_version)
    assert read_header(first_version).schema == 1
    assert before["readings"]
    assert before["history"]
    open_book(first_version, clock=lambda: NOW).close()
    assert read_header(first_version).schema == SCHEMA
    assert content(first_version) == before


WHAT_BECAME = {  # the words that stood there; the word of the list, and the note
    "": ("not said", ""),
    "put back": ("put back", ""),
    "Zurückgebaut am Abend": ("put back", "Zurückgebaut am Abend"),
    "left so, within service data": ("left so", "left so, within service data"),
    "left inside: a modification": ("left inside", ""),
    "im Gerät gelassen: ein Umbau": ("left inside", ""),
    "sold with the player": ("not said", "sold with the player"),
}


def test_what_became_of_a_trial_in_own_words_is_sorted_and_never_lost(first_version: Path) -> None:
    with closing(sqlite3.connect(first_version, isolation_level=None)) as connection:
        (row,) = connection.execute("SELECT id FROM trials ORDER BY id LIMIT 1").fetchone()
        connection.execute("UPDATE trials SET note = ''")
        names = ", ".join(
            name for name in names_of(connection, "trials") if name not in ("id", '"left"', "left")
        )
        quoted = ", ".join(f'"{name}"' for name in names.split(", "))
        for number, left in enumerate(WHAT_BECAME, 1000):
            connection.execute(
                f'INSERT INTO trials (id, "left", {quoted}) SELECT ?, ?, {quoted} FROM trials WHERE id = ?',
                (number, left, row),
            )
    run_revisions(first_version, MIGRATIONS, SCHEMA)
    with closing(sqlite3.connect(first_version)) as connection:
        found = connection.execute('SELECT "left", note FROM trials WHERE id >= 1000 ORDER BY id').fetchall()
    assert found == list(WHAT_BECAME.values())


def test_other_words_come_behind_the_note_that_was_there(first_version: Path) -> None:
    with closing(sqlite3.connect(first_version, isolation_level=None)) as connection:
        connection.execute("UPDATE trials SET \"left\" = 'sold with it', note = 'played an hour'")
    open_book(first_version, clock=lambda: NOW).close()
    with closing(sqlite3.connect(first_version)) as connection:
        (note,) = connection.execute("SELECT DISTINCT note FROM trials").fetchone()
    assert note == "played an hour; sold with it"


def test_discounts_that_stood_in_sums_only_are_told_with_their_reasons() -> None:
    """Revision 0008 reads them from the frozen papers; a reason that no paper has any more is said plainly."""
    scripts = ScriptDirectory(str(MIGRATIONS))
    told = scripts.get_revision("0008").module._adjustments
    groups = [
        [1900, "standard", 8070, 1533, ""],
        [700, "standard", 1250, 88, ""],
        [0, "exempt", 90, 0, "why"],
    ]
    lines = {("standard", 1900): 9070, ("standard", 700): 1250, ("exempt", 0): 100}
    vat = {"decimal": "19"}
    facts = {"discounts": [{"reason": "returning", "vat": vat}, {"reason": "late", "vat": vat}]}
    assert told(groups, lines, facts) == [
        [-1000, "returning; late", 1900, "standard", ""],
        [-10, "discount", 0, "exempt", "why"],
    ]


@pytest.mark.parametrize(("approval", "protects"), [("EN 60127", 1), ("", 0)])
def test_a_part_that_had_to_carry_an_approval_protects_people(
    first_version: Path, approval: str, protects: int
) -> None:
    with closing(sqlite3.connect(first_version, isolation_level=None)) as connection:
        connection.execute("UPDATE parts SET safety_type = ?", (approval,))
    run_revisions(first_version, MIGRATIONS, SCHEMA)
    with closing(sqlite3.connect(first_version)) as connection:
        found = connection.execute("SELECT safety_critical, supplier, cost, unit_id FROM parts, part_moves")
        assert set(found) == {(protects, None, None, None)}


@pytest.mark.parametrize(
    ("facts", "day"),
    [('{"pay_by": {"day": "2026-03-26"}}', "2026-03-26"), ('{"pay_by": null}', None), ("{}", None)],
)
def test_an_invoice_knows_by_when_it_asked_to_be_paid(
    first_version: Path, facts: str, day: str | None
) -> None:
    """Revision 0015 reads it from the frozen paper."""
    with closing(sqlite3.connect(first_version, isolation_level=None)) as connection:
        connection.execute("UPDATE papers SET kind = 'invoice', facts = ?", (facts,))
    run_revisions(first_version, MIGRATIONS, SCHEMA)
    with closing(sqlite3.connect(first_version)) as connection:
        assert set(connection.execute("SELECT pay_by FROM invoices")) == {(day,)}
