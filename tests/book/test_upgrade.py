"""Upgrading a populated older book: nothing is lost, and what fails or is killed leaves the old book."""

from __future__ import annotations

import shutil
import sqlite3
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest

from app.book import file_header, opening
from app.book.chain import walk
from app.book.copies import Why, copies_folder, list_copies
from app.book.disk import hash_of
from app.book.engine import sealed_engine
from app.book.file_header import SCHEMA
from app.book.lock import PlaceLock
from app.book.opening import open_book
from app.book.schema import REVISION, schema_findings
from app.book.soundness import foreign_key_findings, page_findings
from app.book.tables import metadata
from app.book.triggers import sqlite_triggers
from app.book.upgrade import MIGRATIONS, upgrade
from app.trade.refusal import BookRefused
from app.trade.wording import plain
from tests.book.children import ENDED
from tests.book.conftest import Children, snapshot_of

NOW = datetime(2026, 3, 12, 12, 0, tzinfo=UTC)
NEXT = SCHEMA + 1
NAME = f"{NEXT:04d}"
STEPS = ("saved", "copied", f"revision {NAME}", "triggers", "finished", "swapped")

# A revision as a later issue will write one: a table that others hang on is built anew, a column comes, a
# column goes, and values move. Alembic's batch mode drops and renames the table.
REBUILDS_PARENTS = '''
"""Widen units and jobs."""
import sqlalchemy as sa
from alembic import op

revision = "NAME"
down_revision = "LAST"


def upgrade():
    for table in ("units", "jobs"):
        with op.batch_alter_table(table, recreate="always") as batch:
            batch.add_column(sa.Column("weight", sa.Integer(), nullable=True))
    op.execute("UPDATE units SET weight = 7")
    op.execute("UPDATE invoices SET due = due")  # a trigger forbids it to everybody else
'''
# Alembic cannot read an index over expressions back and leaves it out.
REBUILDS_FLAGS = """
import sqlalchemy as sa
from alembic import op

revision = "NAME"
down_revision = "LAST"


def upgrade():
    with op.batch_alter_table("flags", recreate="always") as batch:
        batch.add_column(sa.Column("weight", sa.Integer(), nullable=True))
"""
FAILS = (
    REBUILDS_PARENTS
    + """
    raise RuntimeError("the revision has a mistake")
"""
)
FAILS_IN_SQL = (
    REBUILDS_PARENTS
    + """
    op.execute("UPDATE nowhere SET x = 1")
"""
)
LOSES_ROWS = REBUILDS_PARENTS.replace("UPDATE units SET weight = 7", "DELETE FROM reported_faults")
LOSES_PARENTS = REBUILDS_PARENTS.replace("UPDATE units SET weight = 7", "UPDATE jobs SET unit_id = 999")
LOSES_A_TABLE = REBUILDS_PARENTS.replace("UPDATE units SET weight = 7", "DROP TABLE settings")
LOSES_BY_INTENT = (
    LOSES_ROWS
    + """

loses_rows = ("reported_faults",)
"""
)
TOUCHES_HISTORY = REBUILDS_PARENTS.replace("UPDATE units SET weight = 7", "UPDATE history SET action = 'x'")
LOSES_A_COLUMN = REBUILDS_PARENTS.replace("UPDATE units SET weight = 7", "ALTER TABLE units DROP COLUMN note")


def scripts(tmp_path: Path, text: str) -> Path:
    """A folder of revisions: ours, and one more."""
    folder = tmp_path / "migrations"
    shutil.copytree(MIGRATIONS, folder, ignore=shutil.ignore_patterns("__pycache__"))
    (folder / "versions" / f"{NAME}_wider.py").write_text(
        text.replace("NAME", NAME).replace("LAST", REVISION), encoding="utf-8"
    )
    return folder


def counts(path: Path) -> dict[str, int]:
    with closing(sqlite3.connect(path)) as connection:
        return {
            name: connection.execute(f"SELECT count(*) FROM {name}").fetchone()[0] for name in metadata.tables
        }


def content(path: Path) -> dict[str, list[tuple[object, ...]]]:
    """Every row with the columns that the book has had before."""
    with closing(sqlite3.connect(path)) as connection:
        return {
            name: connection.execute(
                f"SELECT {', '.join(f'{chr(34)}{c.name}{chr(34)}' for c in table.columns)} FROM {name} ORDER BY 1, 2"
            ).fetchall()
            for name, table in metadata.tables.items()
        }


def test_a_populated_older_book_comes_through_whole(closed: Path, tmp_path: Path) -> None:
    before = content(closed)
    assert all(before[name] for name in before)  # every table has rows to lose
    upgrade(closed, NOW, scripts=scripts(tmp_path, REBUILDS_PARENTS), target=NEXT)
    assert content(closed) == before
    engine = sealed_engine(closed)
    try:
        with engine.connect() as connection:
            assert page_findings(connection) == []
            assert foreign_key_findings(connection) == []
            assert schema_findings(connection) == []  # every index and trigger is there again
            assert walk(connection).first_bad == 0
            assert connection.exec_driver_sql("SELECT DISTINCT weight FROM units").scalars().all() == [7]
            assert connection.exec_driver_sql("SELECT version_num FROM alembic_version").scalar_one() == NAME
    finally:
        engine.dispose()
    header = file_header.read_header(closed)
    assert (header.ours, header.schema) == (True, NEXT)
    with closing(sqlite3.connect(closed)) as connection:
        there = dict(connection.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'"))
        assert there == dict(sqlite_triggers())
        with pytest.raises(sqlite3.IntegrityError, match="never deleted"):
            connection.execute("DELETE FROM jobs")
        strict = dict(connection.execute("SELECT name, strict FROM pragma_table_list WHERE schema = 'main'"))
        assert strict["readings"] == 1
    assert not list(closed.parent.glob("*.upgrading*"))


def test_a_verified_copy_of_the_old_book_comes_first(closed: Path, tmp_path: Path) -> None:
    old = content(closed)
    upgrade(closed, NOW, scripts=scripts(tmp_path, REBUILDS_PARENTS), target=NEXT)
    (copy,) = list_copies(copies_folder(closed))
    assert (copy.why, copy.checked, copy.schema) == (Why.UPGRADE, True, SCHEMA)
    assert content(copy.path) == old


def test_an_index_that_a_rebuild_loses_is_made_anew(closed: Path, tmp_path: Path) -> None:
    upgrade(closed, NOW, scripts=scripts(tmp_path, REBUILDS_FLAGS), target=NEXT)
    with closing(sqlite3.connect(closed)) as connection:
        indexes = {
            name for (name,) in connection.execute("SELECT name FROM sqlite_master WHERE type = 'index'")
        }
    assert "uq_flags_open" in indexes


@pytest.mark.parametrize(
    ("text", "why"),
    [
        (FAILS_IN_SQL, "no such table"),
        (LOSES_ROWS, "reported_faults had 2 rows and has 0"),
        (LOSES_PARENTS, "point at rows"),
        (LOSES_A_TABLE, "settings had 1 rows and has 0"),
        (TOUCHES_HISTORY, "History is broken"),
        (LOSES_A_COLUMN, "column note of units"),
    ],
)
def test_a_revision_that_goes_wrong_leaves_the_old_book_to_the_byte(
    closed: Path, tmp_path: Path, text: str, why: str
) -> None:
    before = hash_of(closed)
    with pytest.raises(BookRefused) as told:
        upgrade(closed, NOW, scripts=scripts(tmp_path, text), target=NEXT)
    assert why in plain(UTC)(told.value.sentence)
    assert hash_of(closed) == before
    assert not list(closed.parent.glob("*.upgrading*"))
    open_book(closed).close()


def test_a_mistake_in_a_revision_is_not_worded_away_and_leaves_the_old_book(
    closed: Path, tmp_path: Path
) -> None:
    before = hash_of(closed)
    with pytest.raises(RuntimeError, match="has a mistake"):
        upgrade(closed, NOW, scripts=scripts(tmp_path, FAILS), target=NEXT)
    assert hash_of(closed) == before
    assert not list(closed.parent.glob("*.upgrading*"))
    lock = PlaceLock(closed, alone=True)  # nothing is held any more
    lock.take()
    lock.release()


def test_a_revision_may_take_rows_away_when_it_says_so(closed: Path, tmp_path: Path) -> None:
    upgrade(closed, NOW, scripts=scripts(tmp_path, LOSES_BY_INTENT), target=NEXT)
    assert counts(closed)["reported_faults"] == 0


def test_no_copy_no_upgrade(closed: Path, tmp_path: Path) -> None:
    before = hash_of(closed)
    with pytest.raises(BookRefused, match="brought up to date"):
        upgrade(
            closed,
            NOW,
            scripts=scripts(tmp_path, REBUILDS_PARENTS),
            target=NEXT,
            copies=tmp_path / "unplugged" / "stick",
        )
    assert hash_of(closed) == before


def test_a_damaged_older_book_is_not_upgraded(closed: Path, tmp_path: Path) -> None:
    with closing(sqlite3.connect(closed)) as connection:
        page = connection.execute("SELECT rootpage FROM sqlite_master WHERE name = 'jobs'").fetchone()[0]
    with closed.open("rb+") as file:
        file.seek((page - 1) * 4096)
        file.write(b"\xff" * 4096)
    before = hash_of(closed)
    with pytest.raises(BookRefused):
        upgrade(closed, NOW, scripts=scripts(tmp_path, REBUILDS_PARENTS), target=NEXT)
    assert hash_of(closed) == before


@pytest.mark.parametrize("step", STEPS)
def test_a_kill_at_any_step_leaves_the_old_book_or_the_new(
    closed: Path, tmp_path: Path, children: Children, step: str
) -> None:
    folder = scripts(tmp_path, REBUILDS_PARENTS)
    old, before = hash_of(closed), content(closed)
    assert children.run("upgrade_until", closed, folder, NEXT, step) == ENDED
    if step == "swapped":
        assert file_header.read_header(closed).schema == NEXT
        assert content(closed) == before
        return
    assert hash_of(closed) == old
    open_book(closed).close()  # still the old book, for the old program
    upgrade(closed, NOW, scripts=folder, target=NEXT)
    assert content(closed) == before
    assert file_header.read_header(closed).schema == NEXT


def test_nobody_writes_into_a_book_that_is_being_replaced(closed: Path, tmp_path: Path) -> None:
    seen: list[str] = []

    def step(name: str) -> None:
        if name == f"revision {NAME}":
            with (
                closing(sqlite3.connect(closed, timeout=0)) as other,
                pytest.raises(sqlite3.OperationalError),
            ):
                other.execute("UPDATE number_series SET next = next + 1")
            seen.append(name)

    upgrade(closed, NOW, scripts=scripts(tmp_path, REBUILDS_PARENTS), target=NEXT, step=step)
    assert seen == [f"revision {NAME}"]


def test_opening_upgrades_an_older_book(
    closed: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    import app.book.upgrade as upgrading

    folder = scripts(tmp_path, REBUILDS_PARENTS)
    before = content(closed)
    monkeypatch.setattr(opening, "SCHEMA", NEXT)
    monkeypatch.setattr(
        upgrading, "upgrade", lambda path, now: upgrade(path, now, scripts=folder, target=NEXT)
    )
    with pytest.raises(BookRefused, match="older Spindlebook"):
        opening.read_book(closed)
    open_book(closed, clock=lambda: NOW).close()
    assert content(closed) == before
    assert file_header.read_header(closed).schema == NEXT


def test_a_book_that_a_command_reads_waits_with_its_upgrade(closed: Path, tmp_path: Path) -> None:
    peek = opening.read_book(closed)
    before = snapshot_of(closed.parent)
    try:
        with pytest.raises(BookRefused, match="Another command"):
            upgrade(closed, NOW, scripts=scripts(tmp_path, REBUILDS_PARENTS), target=NEXT)
    finally:
        peek.close()
    assert snapshot_of(closed.parent) == before


@pytest.mark.parametrize("where", ["book", "working"])
def test_a_journal_that_stays_stops_the_exchange(closed: Path, tmp_path: Path, where: str) -> None:
    before = hash_of(closed)

    def step(name: str) -> None:
        if name == "finished":
            stem = "book.sqlite" if where == "book" else "book.sqlite.upgrading"
            closed.with_name(f"{stem}-journal").write_bytes(b"")

    with pytest.raises(BookRefused, match="brought up to date"):
        upgrade(closed, NOW, scripts=scripts(tmp_path, REBUILDS_PARENTS), target=NEXT, step=step)
    assert hash_of(closed) == before
